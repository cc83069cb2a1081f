package margin_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"casewright/margin"
	"casewright/quantity"
)

var (
	nan = math.NaN()
	inf = math.Inf(1)
)

// strength compares a demand with a capacity, both as they are given.
func strength() margin.Method {
	return margin.Method{
		ID: "test.strength", Kind: margin.Strength, Mode: margin.Breaks, Factor: margin.UltimateFactor, Unit: quantity.KindForce,
		Symbols: []margin.Symbol{margin.EndLoad.At(margin.Greatest), margin.EndShear.At(margin.Least)},
		Eval:    func(v *margin.Values) (float64, float64) { return v[0], v[1] },
	}
}

// limit compares a value with the limits of the row.
func limit(kind margin.Kind) margin.Method {
	return margin.Method{
		ID: "test.limit", Kind: kind, Mode: margin.Rule, Unit: quantity.KindRatio,
		Symbols: []margin.Symbol{margin.Edge.At(margin.Only)},
		Eval:    func(v *margin.Values) (float64, float64) { return v[0], 0 },
	}
}

// table has p = 10 MPa, the factors 1.5, 2 and 1.15, and the given spans.
func table(spans map[margin.Term]margin.Span) *margin.Table {
	t := &margin.Table{Yield: 1.5, Ultimate: 2, Fitting: 1.15}
	t.Set(margin.Pressure, margin.Exactly(10e6), margin.None, 0)
	for term, span := range spans {
		t.Set(term, span, margin.None, 0)
	}
	return t
}

func loads(demand, capacity float64) *margin.Table {
	return table(map[margin.Term]margin.Span{margin.EndLoad: margin.Exactly(demand), margin.EndShear: margin.Exactly(capacity)})
}

func value(x float64) *margin.Table {
	return table(map[margin.Term]margin.Span{margin.Edge: margin.Exactly(x)})
}

// row has no limits of its own.
func row(m *margin.Method) margin.Row { return margin.Row{Method: m, Min: nan, Max: nan} }

// dirty is a Check that was used before: nothing of it may remain.
func dirty() margin.Check {
	return margin.Check{
		Verdict: margin.Pass, Reason: margin.Form, Notes: margin.Of(margin.LooseRing), Factor: 7, Demand: 7, Capacity: 7,
		Value: 7, Min: 7, Max: 7, Margin: 7, GivesWayAt: 7, Part: 7, Item: 7,
	}
}

func evaluate(r margin.Row, t *margin.Table) margin.Check {
	c := dirty()
	r.Evaluate(&c, t, false)
	return c
}

func same(a, b float64) bool {
	return math.IsNaN(a) && math.IsNaN(b) || a == b || math.Abs(a-b) <= 1e-12*math.Max(1, math.Abs(b))
}

func TestStrength(t *testing.T) {
	for _, c := range []struct {
		name             string
		demand, capacity float64
		verdict          margin.Verdict
		margin, at       float64 // NaN where there is none
	}{
		{"room", 1, 3, margin.Pass, 0.5, 30e6},
		{"none left", 1, 2, margin.Pass, 0, 20e6},
		{"just short", 1, 1.999, margin.Fail, -0.0005, 19.99e6},
		{"no capacity", 1, 0, margin.Fail, -1, 0},
		{"less than none", 1, -1, margin.Fail, -1, 0},
		{"infinite demand", inf, 1, margin.Fail, -1, 0},
		{"no demand", 0, 1, margin.Refused, nan, nan},
		{"nothing over nothing", 0, 0, margin.Refused, nan, nan},
		{"negative demand", -1, 1, margin.Refused, nan, nan},
		{"both negative", -1, -3, margin.Refused, nan, nan},
		{"infinite capacity", 1, inf, margin.Refused, nan, nan},
		{"both infinite", inf, inf, margin.Refused, nan, nan},
		{"capacity below all", 1, -inf, margin.Fail, -1, 0},
		{"demand unknown", nan, 1, margin.Refused, nan, nan},
		{"capacity unknown", 1, nan, margin.Refused, nan, nan},
	} {
		m := strength()
		got := evaluate(row(&m), loads(c.demand, c.capacity))
		if got.Verdict != c.verdict || !same(got.Margin, c.margin) || !same(got.GivesWayAt, c.at) {
			t.Errorf("%s: %s, margin %g, gives way at %g; want %s, %g, %g", c.name, got.Verdict, got.Margin, got.GivesWayAt, c.verdict, c.margin, c.at)
		}
		if reason := got.Reason; (c.verdict == margin.Refused) != (reason == margin.NotANumber) || c.verdict != margin.Refused && reason != margin.None {
			t.Errorf("%s: reason %q", c.name, reason.ID())
		}
		// A part with nothing left to hold bears nothing, not less.
		if got.Factor != 2 || !same(got.Demand, c.demand) || !same(got.Capacity, max(c.capacity, 0)) || !same(got.Value, nan) || !same(got.Min, nan) || !same(got.Max, nan) {
			t.Errorf("%s: factor %g, demand %g, capacity %g, value %g from %g to %g", c.name, got.Factor, got.Demand, got.Capacity, got.Value, got.Min, got.Max)
		}
		if got.Notes != 0 || got.Part != 0 || got.Item != 0 || got.Method != &m {
			t.Errorf("%s: something of the check before remains: %+v", c.name, got)
		}
	}
}

// TestFactors: yield or ultimate, times the fitting factor for a joint. The
// pressure at which it gives way knows no factor.
func TestFactors(t *testing.T) {
	for _, c := range []struct {
		factor margin.Factor
		joint  bool
		want   float64
	}{
		{margin.NoFactor, false, 1},
		{margin.YieldFactor, false, 1.5},
		{margin.UltimateFactor, false, 2},
		{margin.NoFactor, true, 1.15},
		{margin.YieldFactor, true, 1.725},
		{margin.UltimateFactor, true, 2.3},
	} {
		m := strength()
		m.Factor, m.Joint = c.factor, c.joint
		got := evaluate(row(&m), loads(2, 6))
		if !same(got.Factor, c.want) || !same(got.Margin, 3/c.want-1) || !same(got.GivesWayAt, 30e6) {
			t.Errorf("factor %d, joint %v: factor %g, margin %g, at %g", c.factor, c.joint, got.Factor, got.Margin, got.GivesWayAt)
		}
	}
}

// TestWhatGivesWay: only what yields, breaks or leaks gives way.
func TestWhatGivesWay(t *testing.T) {
	for mode, want := range map[margin.Mode]float64{
		margin.Unordered: nan, margin.Rule: nan, margin.Yields: 15e6, margin.Breaks: 15e6, margin.Leaks: 15e6,
	} {
		m := strength()
		m.Mode = mode
		if got := evaluate(row(&m), loads(2, 3)); !same(got.GivesWayAt, want) {
			t.Errorf("mode %q: at %g, want %g", mode, got.GivesWayAt, want)
		}
	}
	// A limit that leaks gives way at 0 where it fails without pressure.
	for x, want := range map[float64]float64{1: 0, 2: nan, 3: nan} {
		m := limit(margin.AtLeast)
		m.Mode = margin.Leaks
		r := row(&m)
		r.Min = 2
		if got := evaluate(r, value(x)); !same(got.GivesWayAt, want) {
			t.Errorf("value %g of 2: at %g, want %g", x, got.GivesWayAt, want)
		}
	}
	// A least limit that depends on pressure is told to its method, and what it
	// gives way at is kept, passed or not; another limit that fails does not
	// give way.
	for x, verdict := range map[float64]margin.Verdict{1: margin.Fail, 3: margin.Pass} {
		m := limit(margin.AtLeast)
		r := row(&m)
		r.Min = 2
		if got := evaluate(r, value(x)); got.Verdict != verdict || !math.IsNaN(got.GivesWayAt) {
			t.Errorf("value %g of 2: %s, at %g", x, got.Verdict, got.GivesWayAt)
		}
		m.Mode = margin.Leaks
		m.GivesWay = func(v *margin.Values, limit float64, _ bool) float64 { return 10*limit + v[0] }
		if got := evaluate(r, value(x)); got.Verdict != verdict || got.GivesWayAt != 20+x {
			t.Errorf("value %g of 2: %s, at %g", x, got.Verdict, got.GivesWayAt)
		}
	}
	// A limit that depends on pressure finds its own.
	for _, own := range []bool{false, true} {
		m := limit(margin.AtMost)
		m.Limit = "2 e"
		m.Eval = func(v *margin.Values) (float64, float64) { return v[0], 2 * v[0] }
		m.GivesWay = func(_ *margin.Values, limit float64, isOwn bool) float64 {
			if isOwn != own {
				t.Errorf("own %v, want %v", isOwn, own)
			}
			return limit
		}
		r := row(&m)
		r.OwnLimit, r.Max = own, 5
		want := map[bool]float64{false: 6, true: 5}[own]
		if got := evaluate(r, value(3)); !same(got.GivesWayAt, want) || !same(got.Max, want) || !same(got.Margin, 1-3/want) {
			t.Errorf("own limit %v: at %g, limit %g, margin %g", own, got.GivesWayAt, got.Max, got.Margin)
		}
	}
}

// TestLimits: below, on and above every limit, and what is no number.
func TestLimits(t *testing.T) {
	for _, c := range []struct {
		name            string
		kind            margin.Kind
		value, min, max float64
		scale           float64
		verdict         margin.Verdict
		margin          float64
	}{
		{"at least, below", margin.AtLeast, 1.5, 2, nan, 0, margin.Fail, -0.25},
		{"at least, on", margin.AtLeast, 2, 2, nan, 0, margin.Pass, 0},
		{"at least, above", margin.AtLeast, 3, 2, nan, 0, margin.Pass, 0.5},
		{"at least, negative", margin.AtLeast, -1, 2, nan, 0, margin.Fail, -1.5},
		{"at most, below", margin.AtMost, 1.5, nan, 2, 0, margin.Pass, 0.25},
		{"at most, on", margin.AtMost, 2, nan, 2, 0, margin.Pass, 0},
		{"at most, above", margin.AtMost, 3, nan, 2, 0, margin.Fail, -0.5},
		{"at most, negative", margin.AtMost, -1, nan, 2, 0, margin.Pass, 1.5},
		{"between, below", margin.Between, 60, 70, 90, 0, margin.Fail, -1.0 / 7},
		{"between, on the least", margin.Between, 70, 70, 90, 0, margin.Pass, 0},
		{"between, near the least", margin.Between, 77, 70, 90, 0, margin.Pass, 0.1},
		{"between, near the greatest", margin.Between, 85.5, 70, 90, 0, margin.Pass, 0.05},
		{"between, on the greatest", margin.Between, 90, 70, 90, 0, margin.Pass, 0},
		{"between, above", margin.Between, 99, 70, 90, 0, margin.Fail, -0.1},
		{"at least 0, below", margin.AtLeast, -2e-4, 0, nan, 1e-3, margin.Fail, -0.2},
		{"at least 0, on", margin.AtLeast, 0, 0, nan, 1e-3, margin.Pass, 0},
		{"at least 0, above", margin.AtLeast, 5e-4, 0, nan, 1e-3, margin.Pass, 0.5},
		{"at least 0, no scale", margin.AtLeast, 0.03, 0, nan, 0, margin.Pass, 0.03},
		{"at most 0, above", margin.AtMost, 1e-4, nan, 0, 1e-3, margin.Fail, -0.1},
		{"scale where the limit is not 0", margin.AtLeast, 3, 2, nan, 1e-3, margin.Pass, 0.5},
		{"value unknown", margin.AtLeast, nan, 2, nan, 0, margin.Refused, nan},
		{"value unknown, at most", margin.AtMost, nan, nan, 2, 0, margin.Refused, nan},
		{"value unknown, between", margin.Between, nan, 70, 90, 0, margin.Refused, nan},
		{"value infinite", margin.AtLeast, inf, 2, nan, 0, margin.Refused, nan},
		{"value infinite, at most", margin.AtMost, -inf, nan, 2, 0, margin.Refused, nan},
		{"limit unknown", margin.AtLeast, 3, nan, nan, 0, margin.Refused, nan},
		{"limit unknown, at most", margin.AtMost, 3, nan, nan, 0, margin.Refused, nan},
		{"one limit unknown, between", margin.Between, 80, 70, nan, 0, margin.Refused, nan},
		{"other limit unknown, between", margin.Between, 80, nan, 90, 0, margin.Refused, nan},
		{"limit infinite", margin.AtMost, 3, nan, inf, 0, margin.Refused, nan},
		{"nothing of nothing", margin.AtLeast, 0, 0, nan, 0, margin.Pass, 0},
	} {
		m := limit(c.kind)
		m.Scale = c.scale
		r := row(&m)
		r.Min, r.Max = c.min, c.max
		got := evaluate(r, value(c.value))
		if got.Verdict != c.verdict || !same(got.Margin, c.margin) {
			t.Errorf("%s: %s, margin %g; want %s, %g", c.name, got.Verdict, got.Margin, c.verdict, c.margin)
		}
		if c.verdict == margin.Refused && (got.Reason != margin.NotANumber || !math.IsNaN(got.GivesWayAt)) {
			t.Errorf("%s: reason %q, gives way at %g", c.name, got.Reason.ID(), got.GivesWayAt)
		}
		if got.Factor != 1 || !same(got.Value, c.value) || !same(got.Min, c.min) || !same(got.Max, c.max) || !same(got.Demand, nan) || !same(got.Capacity, nan) {
			t.Errorf("%s: factor %g, value %g from %g to %g, demand %g, capacity %g", c.name, got.Factor, got.Value, got.Min, got.Max, got.Demand, got.Capacity)
		}
	}
}

// TestComputedLimit: a limit that the method computes takes the place of a
// constant, but not of the design file's own.
func TestComputedLimit(t *testing.T) {
	for _, kind := range []margin.Kind{margin.AtLeast, margin.AtMost} {
		for _, own := range []bool{false, true} {
			m := limit(kind)
			m.Limit = "4"
			m.Eval = func(v *margin.Values) (float64, float64) { return v[0], 4 }
			r := row(&m)
			r.OwnLimit = own
			want := 4.0
			if own {
				want = 5
				r.Min, r.Max = 5, 5
			}
			got := evaluate(r, value(3))
			room := 3/want - 1
			if kind == margin.AtMost {
				room = -room
			}
			if !same(got.Margin, room) {
				t.Errorf("kind %d, own %v: margin %g, want %g", kind, own, got.Margin, room)
			}
		}
	}
}

// TestSigns: the exact answer overrules what rounding made of the margin, at
// the worst and at nominal sizes apart. It corrects a number and makes none.
func TestSigns(t *testing.T) {
	const tiny = 1e-15
	for _, c := range []struct {
		name    string
		value   float64 // of a least 1
		sign    margin.Sign
		verdict margin.Verdict
		least   float64 // bounds of the margin
		most    float64
	}{
		{"undecided, short by rounding", 1 - tiny, margin.Undecided, margin.Fail, -2 * tiny, -tiny / 2},
		{"undecided, on", 1, margin.Undecided, margin.Pass, 0, 0},
		{"equal, short by rounding", 1 - tiny, margin.Equal, margin.Pass, 0, 0},
		{"equal, over by rounding", 1 + tiny, margin.Equal, margin.Pass, 0, 0},
		{"above, short by rounding", 1 - tiny, margin.Above, margin.Pass, 0, 0},
		{"above", 1.5, margin.Above, margin.Pass, 0.5, 0.5},
		{"below, over by rounding", 1 + tiny, margin.Below, margin.Fail, -1e-12, -1e-300},
		{"below, on", 1, margin.Below, margin.Fail, -1e-12, -1e-300},
		{"below", 0.5, margin.Below, margin.Fail, -0.5, -0.5},
	} {
		for _, nominal := range []bool{false, true} {
			m := limit(margin.AtLeast)
			r := row(&m)
			r.Min = 1
			// The other sign would give another verdict.
			r.Sign, r.Nominal = c.sign, margin.Below
			if c.verdict == margin.Fail {
				r.Nominal = margin.Equal
			}
			if nominal {
				r.Sign, r.Nominal = r.Nominal, r.Sign
			}
			got := dirty()
			r.Evaluate(&got, value(c.value), nominal)
			if got.Verdict != c.verdict || !(got.Margin >= c.least && got.Margin <= c.most) {
				t.Errorf("%s, nominal %v: %s, margin %g; want %s, %g to %g", c.name, nominal, got.Verdict, got.Margin, c.verdict, c.least, c.most)
			}
		}
	}
	for _, sign := range []margin.Sign{margin.Undecided, margin.Below, margin.Equal, margin.Above} {
		for _, x := range []float64{nan, inf, -inf} {
			m := limit(margin.AtLeast)
			r := row(&m)
			r.Min, r.Sign = 1, sign
			if got := evaluate(r, value(x)); got.Verdict == margin.Pass {
				t.Errorf("value %g, exact sign %d: passes with margin %g", x, sign, got.Margin)
			}
		}
	}
}

// TestEnds: the least, the greatest and the only value each from its place in
// the span, the first of all at nominal sizes.
func TestEnds(t *testing.T) {
	m := strength()
	m.Symbols = []margin.Symbol{margin.EndLoad.At(margin.Greatest), margin.EndShear.At(margin.Least), margin.Count.At(margin.Only)}
	spans := table(map[margin.Term]margin.Span{
		margin.EndLoad: {10, 9, 11}, margin.EndShear: {40, 30, 50}, margin.Count: {8, 7, 9},
	})
	r := row(&m)
	for nominal, want := range map[bool][]float64{false: {11, 30, 8}, true: {10, 40, 8}} {
		got := dirty()
		r.Evaluate(&got, spans, nominal)
		if in := got.In[:3]; !slices.Equal(in, want) {
			t.Errorf("nominal %v: took %v, want %v", nominal, in, want)
		}
	}
}

// TestEither keeps the end with the lower margin, and shows that end.
func TestEither(t *testing.T) {
	for _, c := range []struct {
		name         string
		bore         margin.Span
		worse, ratio float64 // the end it keeps, capacity over demand there
	}{
		{"worse at the greatest", margin.Span{2, 1, 4}, 4, 5.0 / 4},
		{"worse at the least", margin.Span{-2, -4, -1}, -4, 5.0 / 4},
		{"alike", margin.Span{1, -2, 2}, 2, 5.0 / 2},
		{"nothing left at the greatest", margin.Span{1, 1, inf}, inf, 0},
		{"nothing left at the least", margin.Span{1, -inf, 1}, -inf, 0},
	} {
		m := strength()
		m.Symbols = []margin.Symbol{margin.Bore.At(margin.Either)}
		m.Eval = func(v *margin.Values) (float64, float64) { return math.Abs(v[0]), 5 }
		got := evaluate(row(&m), table(map[margin.Term]margin.Span{margin.Bore: c.bore}))
		if got.In[0] != c.worse || !same(got.Margin, c.ratio/2-1) {
			t.Errorf("%s: took %g, margin %g; want %g, %g", c.name, got.In[0], got.Margin, c.worse, c.ratio/2-1)
		}
		// At nominal sizes there is one value.
		r := row(&m)
		r.Evaluate(&got, table(map[margin.Term]margin.Span{margin.Bore: c.bore}), true)
		if got.In[0] != c.bore[margin.Only] {
			t.Errorf("%s: took %g at nominal sizes", c.name, got.In[0])
		}
	}
	for name, bore := range map[string]margin.Span{"least": {1, nan, 1}, "greatest": {1, 1, nan}} {
		m := strength()
		m.Symbols = []margin.Symbol{margin.Bore.At(margin.Either)}
		m.Eval = func(v *margin.Values) (float64, float64) { return v[0], 5 }
		if got := evaluate(row(&m), table(map[margin.Term]margin.Span{margin.Bore: bore})); got.Verdict == margin.Pass {
			t.Errorf("%s unknown: passes with margin %g", name, got.Margin)
		}
	}
}

// TestEitherIsTheWorse: what passes at either end passes at both, with the
// lower margin. Only an end without demand, whose margin has no bound, may be
// left out of account.
func TestEitherIsTheWorse(t *testing.T) {
	number := rapid.OneOf(rapid.Float64Range(-2, 10), rapid.SampledFrom([]float64{0, 1, 2, -1, -3, nan, inf, -inf, 1e-12, 1e12}))
	rapid.Check(t, func(t *rapid.T) {
		var ends [2][2]float64
		for i, name := range []string{"least", "greatest"} {
			ends[i] = [2]float64{number.Draw(t, "demand at the "+name), number.Draw(t, "capacity at the "+name)}
		}
		m := strength()
		m.Symbols = []margin.Symbol{margin.Bore.At(margin.Either)}
		m.Eval = func(v *margin.Values) (float64, float64) { e := ends[int(v[0])]; return e[0], e[1] }
		got := evaluate(row(&m), table(map[margin.Term]margin.Span{margin.Bore: {0, 0, 1}}))
		lowest, refused := inf, false
		for _, e := range ends {
			one := strength()
			alone := evaluate(row(&one), loads(e[0], e[1]))
			switch {
			case alone.Verdict != margin.Refused:
				lowest = min(lowest, alone.Margin)
			case !(e[0] >= 0 && e[1] > 0 && math.IsInf(e[1]/e[0], 1)):
				refused = true
			}
		}
		if want := !refused && lowest >= 0 && lowest < inf; (got.Verdict == margin.Pass) != want || want && !same(got.Margin, lowest) {
			t.Fatalf("%v: %s, margin %g; refused at an end %v, lowest %g", ends, got.Verdict, got.Margin, refused, lowest)
		}
	})
	// No number at one end, enough at the other.
	for _, bad := range [][2]float64{{inf, inf}, {0, 0}, {0, -1}, {-1, 5}, {-1, -5}, {nan, 5}, {1, nan}} {
		for _, span := range []margin.Span{{1, 0, 1}, {1, 1, 0}} {
			m := strength()
			m.Symbols = []margin.Symbol{margin.Bore.At(margin.Either)}
			m.Eval = func(v *margin.Values) (float64, float64) {
				if v[0] == 0 {
					return bad[0], bad[1]
				}
				return 1, 5
			}
			if got := evaluate(row(&m), table(map[margin.Term]margin.Span{margin.Bore: span})); got.Verdict != margin.Refused || got.In[0] != 0 {
				t.Errorf("%v at one end of %v: %s with margin %g, taken at %g", bad, span, got.Verdict, got.Margin, got.In[0])
			}
		}
	}
}

// TestWhere: a check tells the part and the item of its row, refused or not,
// and keeps the row's notes.
func TestWhere(t *testing.T) {
	m := strength()
	for _, reason := range []margin.Reason{margin.None, margin.Form} {
		r := row(&m)
		r.Part, r.Item, r.Reason, r.Notes = 2, 1, reason, margin.Of(margin.DryPins)
		if got := evaluate(r, loads(1, 3)); got.Part != 2 || got.Item != 1 || got.Notes != r.Notes || got.Reason != reason {
			t.Errorf("part %d, item %d, notes %v, reason %q", got.Part, got.Item, got.Notes.List(), got.Reason.ID())
		}
	}
}

// TestRefused: whatever the numbers, a reason leaves no margin and no pressure
// at which it gives way; the numbers that were to be used remain.
func TestRefused(t *testing.T) {
	for _, noteOnly := range []bool{false, true} {
		want := margin.Refused
		if noteOnly {
			want = margin.Noted
		}
		byRow, byValues := strength(), strength()
		byRow.NoteOnly, byValues.NoteOnly = noteOnly, noteOnly
		byValues.Valid = func(v *margin.Values) margin.Reason {
			if v[0] > 1 {
				return margin.ThinSheet
			}
			return margin.None
		}
		r := row(&byRow)
		r.Reason = margin.Temperature
		for name, c := range map[string]struct {
			got    margin.Check
			reason margin.Reason
		}{
			"the row's":     {evaluate(r, loads(2, 100)), margin.Temperature},
			"the values'":   {evaluate(row(&byValues), loads(2, 100)), margin.ThinSheet},
			"no number":     {evaluate(row(&byValues), loads(0, 100)), margin.NotANumber},
			"the row first": {evaluate(margin.Row{Method: &byValues, Reason: margin.Form}, loads(2, 100)), margin.Form},
		} {
			if c.got.Verdict != want || c.got.Reason != c.reason || !math.IsNaN(c.got.Margin) || !math.IsNaN(c.got.GivesWayAt) {
				t.Errorf("note only %v, %s reason: %s, %q, margin %g, at %g", noteOnly, name, c.got.Verdict, c.got.Reason.ID(), c.got.Margin, c.got.GivesWayAt)
			}
			if c.got.In[1] != 100 {
				t.Errorf("%s reason: the numbers are lost: %v", name, c.got.In[:2])
			}
		}
		if got := evaluate(row(&byValues), loads(1, 100)); got.Reason != margin.None || got.Verdict == margin.Refused {
			t.Errorf("inside the range: %s, %q", got.Verdict, got.Reason.ID())
		}
	}
}

// TestNotes: a note-only method never passes nor fails; a row without a
// verdict has no margin; remarks come on top of the row's notes.
func TestNotes(t *testing.T) {
	for x, want := range map[float64]float64{1: -0.5, 2: 0, 3: 0.5} {
		m := limit(margin.AtLeast)
		m.NoteOnly = true
		m.Remark = func(_ *margin.Values, value float64) margin.Notes {
			if value == 3 {
				return margin.Of(margin.PitchBelow3)
			}
			return 0
		}
		r := row(&m)
		r.Min, r.Notes = 2, margin.Of(margin.DryPins)
		got := evaluate(r, value(x))
		if got.Verdict != margin.Noted || !same(got.Margin, want) {
			t.Errorf("value %g: %s, margin %g", x, got.Verdict, got.Margin)
		}
		if !got.Notes.Has(margin.DryPins) || got.Notes.Has(margin.PitchBelow3) != (x == 3) {
			t.Errorf("value %g: notes %v", x, got.Notes.List())
		}
		r.NoVerdict = true
		r.Reason = margin.Form
		if got := evaluate(r, value(x)); got.Verdict != margin.Noted || !math.IsNaN(got.Margin) || !math.IsNaN(got.GivesWayAt) || got.Reason != margin.None {
			t.Errorf("no verdict: %s, margin %g, reason %q", got.Verdict, got.Margin, got.Reason.ID())
		}
	}
}

// TestBind: a row carries the notes of all its terms and the first reason.
func TestBind(t *testing.T) {
	m := strength()
	m.Symbols = append(m.Symbols, margin.Count.At(margin.Only))
	spans := table(nil)
	spans.Set(margin.EndLoad, margin.Exactly(1), margin.None, margin.Of(margin.WallVariation))
	spans.Set(margin.EndShear, margin.Exactly(1), margin.Temperature, margin.Of(margin.UserMaterial))
	spans.Set(margin.Count, margin.Exactly(1), margin.Form, 0)
	spans.Set(margin.Edge, margin.Exactly(1), margin.Brittle, margin.Of(margin.LooseRing)) // not of this method
	r := row(&m)
	r.Notes = margin.Of(margin.NoLeadIn)
	r.Bind(spans)
	if want := margin.Of(margin.WallVariation, margin.UserMaterial, margin.NoLeadIn); r.Notes != want {
		t.Errorf("notes %v, want %v", r.Notes.List(), want.List())
	}
	if r.Reason != margin.Temperature {
		t.Errorf("reason %q", r.Reason.ID())
	}
	r = row(&m)
	r.Reason, r.OwnLimit = margin.DeepSink, true
	r.Bind(spans)
	if r.Reason != margin.DeepSink || !r.Notes.Has(margin.LimitChanged) {
		t.Errorf("reason %q, notes %v", r.Reason.ID(), r.Notes.List())
	}
}

// TestZeroIsRefused: what nobody has evaluated is refused.
func TestZeroIsRefused(t *testing.T) {
	var c margin.Check
	if c.Verdict != margin.Refused {
		t.Errorf("a zero check is %s", c.Verdict)
	}
	for v, want := range map[margin.Verdict]string{margin.Refused: "refused", margin.Fail: "fail", margin.Pass: "pass", margin.Noted: "note"} {
		if v.String() != want {
			t.Errorf("verdict %d is %q, want %q", v, v, want)
		}
	}
	for m, want := range map[margin.Mode]string{margin.Unordered: "", margin.Yields: "yields", margin.Breaks: "breaks", margin.Leaks: "leaks", margin.Rule: "rule"} {
		if m.String() != want {
			t.Errorf("mode %d is %q, want %q", m, m, want)
		}
	}
}

// TestPassIsEarned: over any numbers, what passes has a finite margin of at
// least 0 that its own numbers bear out.
func TestPassIsEarned(t *testing.T) {
	number := rapid.OneOf(rapid.Float64(), rapid.Float64Range(-2, 10), rapid.SampledFrom([]float64{0, 1, -1, nan, inf, -inf, 5e-324, math.MaxFloat64}))
	rapid.Check(t, func(t *rapid.T) {
		demand, capacity := number.Draw(t, "demand"), number.Draw(t, "capacity")
		m := strength()
		m.Joint = rapid.Bool().Draw(t, "joint")
		c := evaluate(row(&m), loads(demand, capacity))
		if c.Verdict == margin.Pass && !(demand > 0 && capacity >= c.Factor*demand*(1-1e-12) && c.Margin >= 0 && !math.IsInf(c.Margin, 0)) {
			t.Fatalf("demand %g, capacity %g: passes with margin %g", demand, capacity, c.Margin)
		}
		if c.Verdict == margin.Refused != math.IsNaN(c.Margin) {
			t.Fatalf("demand %g, capacity %g: %s with margin %g", demand, capacity, c.Verdict, c.Margin)
		}
	})
	rapid.Check(t, func(t *rapid.T) {
		x, least, most := number.Draw(t, "value"), math.Abs(number.Draw(t, "least")), math.Abs(number.Draw(t, "most"))
		m := limit(rapid.SampledFrom([]margin.Kind{margin.AtLeast, margin.AtMost, margin.Between}).Draw(t, "kind"))
		r := row(&m)
		r.Min, r.Max = least, most
		c := evaluate(r, value(x))
		if c.Verdict != margin.Pass {
			return
		}
		if m.Kind != margin.AtMost && !(x >= least*(1-1e-12)) || m.Kind != margin.AtLeast && !(x <= most*(1+1e-12)) || math.IsInf(c.Margin, 0) {
			t.Fatalf("value %g from %g to %g: passes with margin %g", x, least, most, c.Margin)
		}
	})
}

// TestNegativeLimit: a limit below 0 is kept or broken as any other.
func TestNegativeLimit(t *testing.T) {
	for _, c := range []struct {
		kind   margin.Kind
		x      float64
		want   bool
		margin float64 // the room over 5
	}{
		{margin.AtLeast, -6, false, -0.2},
		{margin.AtLeast, -4, true, 0.2},
		{margin.AtMost, -6, true, 0.2},
		{margin.AtMost, -4, false, -0.2},
		{margin.AtLeast, 5, true, 2},
		{margin.AtMost, 5, false, -2},
		{margin.AtLeast, -5, true, 0},
		{margin.AtMost, -5, true, 0},
	} {
		m := limit(c.kind)
		r := row(&m)
		r.Min, r.Max = -5, -5
		if got := evaluate(r, value(c.x)); (got.Verdict == margin.Pass) != c.want || !same(got.Margin, c.margin) {
			t.Errorf("kind %d, value %g, limit -5: %s, margin %g, want %g", c.kind, c.x, got.Verdict, got.Margin, c.margin)
		}
	}
}

func TestEvaluateAllocatesNothing(t *testing.T) {
	m := strength()
	m.Symbols = append(m.Symbols, margin.Bore.At(margin.Either))
	r, spans := row(&m), loads(1, 3)
	var c margin.Check
	if n := testing.AllocsPerRun(100, func() { r.Evaluate(&c, spans, false) }); n != 0 {
		t.Errorf("%g allocations", n)
	}
}

// TestNoteIDs: ids are unique and stable in form, texts are whole, and a set
// lists its notes in one order, each once.
func TestNoteIDs(t *testing.T) {
	all := ^margin.Notes(0)
	list := all.List()
	if len(list) < 24 || len(list) != int(margin.NumNotes) {
		t.Fatalf("%d notes of %d", len(list), margin.NumNotes)
	}
	seen := map[string]bool{}
	for i, n := range list {
		if int(n) != i {
			t.Errorf("note %d stands at %d", n, i)
		}
		id := n.ID()
		if seen[id] || !isID(id) {
			t.Errorf("note %d: id %q", n, id)
		}
		seen[id] = true
		if n.Text() == "" || strings.HasSuffix(n.Text(), ".") {
			t.Errorf("%s: text %q", id, n.Text())
		}
		if set := margin.Of(n); !set.Has(n) || len(set.List()) != 1 {
			t.Errorf("%s: set of it has %v", id, set.List())
		}
	}
	set := margin.Of(margin.NoEdgeBreak, margin.DryPins, margin.WallVariation, margin.DryPins)
	if got, want := set.List(), []margin.Note{margin.WallVariation, margin.DryPins, margin.NoEdgeBreak}; !slices.Equal(got, want) {
		t.Errorf("list %v, want %v", got, want)
	}
	if set.Has(margin.LooseRing) || margin.Of() != 0 || margin.Notes(0).List() != nil {
		t.Error("a set has what was not put in")
	}
}

// TestReasonIDs: as TestNoteIDs; no reason has no id.
func TestReasonIDs(t *testing.T) {
	if margin.None != 0 || margin.None.ID() != "" || margin.None.Text() != "" {
		t.Errorf("no reason is %d, %q", margin.None, margin.None.ID())
	}
	seen := map[string]bool{}
	for r := margin.Form; r <= margin.NotANumber; r++ {
		if seen[r.ID()] || !isID(r.ID()) {
			t.Errorf("reason %d: id %q", r, r.ID())
		}
		seen[r.ID()] = true
		if r.Text() == "" || strings.HasSuffix(r.Text(), ".") {
			t.Errorf("%s: text %q", r.ID(), r.Text())
		}
	}
}

func isID(id string) bool {
	return id != "" && strings.Trim(id, "abcdefghijklmnopqrstuvwxyz0123456789_") == ""
}

// TestSymbolNames: the end of a tolerance stands behind the symbol, after a
// comma where the symbol has a subscript; not behind what is derived.
func TestSymbolNames(t *testing.T) {
	for want, s := range map[string]margin.Symbol{
		"t_min":   margin.Wall.At(margin.Least),
		"D_b,max": margin.Bore.At(margin.Greatest),
		"D_b":     margin.Bore.At(margin.Either),
		"h":       margin.Hole.At(margin.Only),
		"k":       margin.DiameterRatio.At(margin.Least),
		"F":       margin.EndLoad.At(margin.Greatest),
	} {
		if got := s.Name(); got != want {
			t.Errorf("got %q, want %q", got, want)
		}
	}
}
