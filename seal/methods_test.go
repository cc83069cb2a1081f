package seal_test

import (
	"math"
	"testing"

	"github.com/shopspring/decimal"
	"pgregory.net/rapid"

	"casewright/margin"
	"casewright/quantity"
	"casewright/seal"
)

// size is a term at one end of its tolerance.
type size struct {
	term margin.Term
	end  margin.End
}

// TestExactAnswers: the exact answer of a check and its computed value, which
// has a root where the other has squares, tell the same of random sizes.
func TestExactAnswers(t *testing.T) {
	for _, m := range seal.Methods() {
		if m.Slack == nil {
			continue
		}
		t.Run(m.ID, func(t *testing.T) { rapid.Check(t, func(t *rapid.T) { sameAnswer(t, m) }) })
	}
}

func sameAnswer(t *rapid.T, m *margin.Method) {
	drawn := map[size]decimal.Decimal{}
	at := func(term margin.Term, end margin.End) decimal.Decimal {
		key := size{term, end}
		if _, ok := drawn[key]; !ok {
			low, high := int64(45_000), int64(55_000) // in µm, as is the groove of a bore
			switch term {
			case margin.Section:
				low, high = 1_000, 7_000
			case margin.SqueezeLimit:
				low, high = 50_000, 400_000 // 0.05 to 0.4
			}
			drawn[key] = decimal.New(rapid.Int64Range(low, high).Draw(t, term.Info().Symbol), -6)
		}
		return drawn[key]
	}
	var limit decimal.Decimal
	own := m.Settable && rapid.Bool().Draw(t, "own limit")
	if m.Settable {
		limit = decimal.New(rapid.Int64Range(0, 40).Draw(t, "percent"), -2)
	}
	exact := m.Slack(margin.Exact{At: at, Limit: limit, Own: own}).Sign()
	var v margin.Values
	for i, s := range m.Symbols {
		if s.Term == margin.StretchedSection {
			v[i] = float64(seal.Stretched(
				quantity.LengthOf(at(margin.Section, s.End)), quantity.LengthOf(at(margin.GrooveDiameter, s.End)), quantity.LengthOf(at(margin.RingInside, s.End)),
			))
			continue
		}
		v[i] = at(s.Term, s.End).InexactFloat64()
	}
	value, bound := m.Eval(&v)
	if m.Limit == "" || own {
		bound = limit.InexactFloat64()
	}
	room := value - bound
	if m.Kind == margin.AtMost {
		room = -room
	}
	if math.Abs(room) > 1e-9 && (exact < 0) != (room < 0) {
		t.Fatalf("exact sign %d, computed room %g, of %v", exact, room, drawn)
	}
}

// TestSqueezeLeastByHand: a ring of 3 mm that keeps a tenth of squeeze spans
// 5.4 mm of the diameter; stretched by a twentieth 5.4/√1.05 = 5.270 mm; a loose
// one is no thicker for it.
func TestSqueezeLeastByHand(t *testing.T) {
	for _, c := range []struct {
		bore, groove string // mm, of a ring of 50 mm inside
		want         int
	}{
		{"55.4", "50", 0},
		{"55.40001", "50", -1},
		{"57.769", "52.5", 1},
		{"57.771", "52.5", -1},
		{"52.899", "47.5", 1},
		{"52.901", "47.5", -1},
		{"52.5", "52.5", 1},
		{"52.4", "52.5", 1}, // squeezed to nothing
	} {
		sizes := map[margin.Term]string{margin.Bore: c.bore, margin.GrooveDiameter: c.groove, margin.Section: "3", margin.RingInside: "50"}
		at := func(term margin.Term, _ margin.End) decimal.Decimal { return decimal.RequireFromString(sizes[term]) }
		if got := seal.SqueezeLeast.Slack(margin.Exact{At: at, Limit: decimal.RequireFromString("0.1")}); got.Sign() != c.want {
			t.Errorf("bore %s mm, groove %s mm: slack %s, want sign %d", c.bore, c.groove, got, c.want)
		}
	}
}

// values are a method's numbers, in the order of its symbols.
func values(list ...float64) *margin.Values {
	var v margin.Values
	copy(v[:], list)
	return &v
}

// TestSqueezeGivesWay: at the pressure at which the squeeze gives way the bore
// has grown until the squeeze is the limit.
func TestSqueezeGivesWay(t *testing.T) {
	m := &seal.SqueezeLeastOffset
	rapid.Check(t, func(t *rapid.T) {
		between := func(low, high float64, name string) float64 { return rapid.Float64Range(low, high).Draw(t, name) }
		v := values(0.05, between(0.0446, 0.046, "groove"), between(0, 0.0002, "offset"), between(1e-6, 0.0001, "growth"),
			between(0, 0.0001, "heat"), between(0.0033, 0.0036, "section"), between(1e6, 1e7, "pressure"))
		limit := between(0, 0.05, "limit")
		at := m.GivesWay(v, limit, true)
		v[3] *= at / v[6]
		if got, _ := m.Eval(v); math.Abs(got-limit) > 1e-12 {
			t.Fatalf("at %g Pa the squeeze is %g, not %g", at, got, limit)
		}
	})
	for name, c := range map[string]struct {
		v    *margin.Values
		want float64
	}{
		"no squeeze from the start": {values(0.05, 0.04, 0, 0.0001, 0, 0.004, 5e6), 0},
		"nothing grows":             {values(0.05, 0.045, 0, 0, 0, 0.004, 5e6), math.NaN()},
		"no room and nothing grows": {values(0.05, 0.05, 0, 0, 0, 0, 5e6), math.NaN()},
	} {
		if got := m.GivesWay(c.v, 0, false); !(got == c.want || math.IsNaN(got) && math.IsNaN(c.want)) {
			t.Errorf("%s: %g Pa, want %g", name, got, c.want)
		}
	}
}

// TestGapMethodGivesWay: at the pressure at which the gap gives way, the gap is
// the design's own limit; else that of the table, and no longer a hair above.
func TestGapMethodGivesWay(t *testing.T) {
	m := &seal.Gap
	grown := func(v margin.Values, to float64) float64 {
		v[2] *= to / v[5]
		gap, _ := m.Eval(&v)
		return gap
	}
	rapid.Check(t, func(t *rapid.T) {
		between := func(low, high float64, name string) float64 { return rapid.Float64Range(low, high).Draw(t, name) }
		v := values(0.0501, 0.05, between(1e-6, 0.0001, "growth"), between(0, 0.00003, "heat"), 0, between(1e6, 1e7, "pressure"), between(70, 90, "Shore A"), 1)
		limit := between(0.00017, 0.001, "limit")
		if at := m.GivesWay(v, limit, true); math.Abs(grown(*v, at)-limit) > 1e-12 {
			t.Fatalf("own limit: at %g Pa the gap is %g m, not %g", at, grown(*v, at), limit)
		}
		at := m.GivesWay(v, math.NaN(), false)
		held := func(p float64) bool {
			most, reason := seal.GapLimit(quantity.NewAmount(decimal.NewFromFloat(p), quantity.MustUnit("Pa")), v[6], v[7])
			return reason == margin.None && grown(*v, p) <= float64(most)
		}
		if at > 0 && !held(at*(1-1e-9)) || held(at*(1+1e-9)) {
			t.Fatalf("at %g Pa: just below held %v, just above held %v", at, held(at*(1-1e-9)), held(at*(1+1e-9)))
		}
	})
}

// TestGrooveThirdOfBore: below a third of the bore, counted where the ring is
// farthest out, the smallest groove is not the worst, and both checks of the
// least squeeze are refused. d/dD_g of (D_b − D_g) √D_g is 0 at D_b/3.
func TestGrooveThirdOfBore(t *testing.T) {
	for _, c := range []struct {
		m    *margin.Method
		v    *margin.Values
		want margin.Reason
	}{
		{&seal.SqueezeLeast, values(3, 1), margin.None},
		{&seal.SqueezeLeast, values(3, 0.999), margin.ThickRing},
		{&seal.SqueezeLeastOffset, values(3, 1), margin.None},
		{&seal.SqueezeLeastOffset, values(3, 1.5, 0.25, 0.125, 0.125), margin.None}, // 3 + 2 (0.25 + 0.25 + 0.25) is 4.5
		{&seal.SqueezeLeastOffset, values(3, 1.499, 0.25, 0.125, 0.125), margin.ThickRing},
	} {
		if got := c.m.Valid(c.v); got != c.want {
			t.Errorf("%s of %v: %q, want %q", c.m.ID, *c.v, got.ID(), c.want.ID())
		}
	}
}

// TestSealRemarks: a ring that is stretched less than 1 % and a groove fuller
// than 85 % are remarked (ours), those at the bound are not.
func TestSealRemarks(t *testing.T) {
	for _, c := range []struct {
		m     *margin.Method
		value float64
		want  margin.Notes
	}{
		{&seal.StretchLeast, 0.0099, margin.Of(margin.LooseRing)},
		{&seal.StretchLeast, 0.01, 0},
		{&seal.StretchLeast, 0.02, 0},
		{&seal.GrooveFill, 0.84, 0},
		{&seal.GrooveFill, 0.85, 0},
		{&seal.GrooveFill, 0.86, margin.Of(margin.FillAbove85)},
	} {
		if got := c.m.Remark(nil, c.value); got != c.want {
			t.Errorf("%s at %g: notes %b, want %b", c.m.ID, c.value, got, c.want)
		}
	}
}

// TestFillWithoutRoom: a groove without width or without depth is full, and
// not a little filled because two signs cancel.
func TestFillWithoutRoom(t *testing.T) {
	for _, c := range []struct{ width, bore, groove quantity.Length }{
		{0, 0.05, 0.045}, {-0.003, 0.05, 0.045}, {0.003, 0.045, 0.045}, {0.003, 0.045, 0.05}, {-0.003, 0.045, 0.05},
	} {
		if got := seal.Fill(0.0026, 0, 0, c.width, c.bore, c.groove); !math.IsInf(got, 1) {
			t.Errorf("width %g m, bore %g m, groove %g m: fill %g, want +Inf", c.width, c.bore, c.groove, got)
		}
	}
}
