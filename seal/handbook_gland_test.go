package seal_test

import (
	"math"
	"testing"

	"casewright/margin"
	"casewright/margin/reference"
	"casewright/quantity"
	"casewright/seal"
)

// A gland of a handbook's table, at the ends of its tolerances.
type gland struct {
	thin, thick      quantity.Length // section
	shallow, deep    quantity.Length // gland depth
	clearance, width quantity.Length
}

func glandOf(t *testing.T, row reference.Row) gland {
	length := func(name string) quantity.Length { return quantity.Length(row.Input(t, name)) }
	return gland{
		thin: length("section") - length("tolerance"), thick: length("section") + length("tolerance"),
		shallow: length("least_depth"), deep: length("most_depth"),
		clearance: length("clearance"), width: length("width") - length("width_tolerance"),
	}
}

func (g gland) least() float64 { return seal.Squeeze(2*g.deep, 0, g.thin) }
func (g gland) most() float64  { return seal.Squeeze(2*g.shallow, 0, g.thick) }

// TestHandbookGlands holds the squeeze against a seal maker's table of static
// glands, and our limits against the glands themselves: what a handbook sells
// must pass. The greatest squeeze allowed is 30 %, 32 % for a section up to
// 1.80 mm, as that table's smallest gland needs.
func TestHandbookGlands(t *testing.T) {
	reference.Run(t, "../testdata/reference/glands_handbook.csv", map[string]func(*testing.T, reference.Row){
		"least squeeze":    func(t *testing.T, row reference.Row) { row.Close(t, glandOf(t, row).least()) },
		"greatest squeeze": func(t *testing.T, row reference.Row) { row.Close(t, glandOf(t, row).most()) },
		"least squeeze, as a length": func(t *testing.T, row reference.Row) {
			g := glandOf(t, row)
			row.Close(t, g.least()*float64(g.thin))
		},
		"greatest squeeze, as a length": func(t *testing.T, row reference.Row) {
			g := glandOf(t, row)
			row.Close(t, g.most()*float64(g.thick))
		},
		"gland of a handbook": func(t *testing.T, row reference.Row) {
			g := glandOf(t, row)
			greatest := 0.30
			if row.Input(t, "section") <= 0.00180 {
				greatest = 0.32
			}
			pushedAside := g.clearance / 2
			const swell, heat = 0.05, 0 // the least allowance of any compound, cold
			for _, c := range []struct {
				m     *margin.Method
				value float64
				limit float64
			}{
				{&seal.SqueezeLeast, g.least(), defaultOf(t, &seal.SqueezeLeast)},
				{&seal.SqueezeLeastOffset, seal.SqueezeOffset(2*g.deep, 0, pushedAside, g.thin), defaultOf(t, &seal.SqueezeLeastOffset)},
				{&seal.SqueezeMost, g.most(), greatest},
				{&seal.SqueezeMostOffset, seal.Squeeze(2*(g.shallow-pushedAside), 0, g.thick), defaultOf(t, &seal.SqueezeMostOffset)},
				{&seal.GrooveFill, seal.Fill(g.thick, swell, heat, g.width, 2*g.shallow, 0), defaultOf(t, &seal.GrooveFill)},
			} {
				if c.m.Kind == margin.AtLeast && !(c.value >= c.limit) || c.m.Kind == margin.AtMost && !(c.value <= c.limit) {
					t.Errorf("%s: %.3f, limit %.3f", c.m.ID, c.value, c.limit)
				}
			}
		},
		"greatest static squeeze": func(t *testing.T, row reference.Row) {
			var v margin.Values
			for i, s := range seal.SqueezeMost.Symbols {
				if s.Term == margin.SqueezeLimit {
					v[i] = row.Value
				}
			}
			_, limit := seal.SqueezeMost.Eval(&v)
			row.Close(t, limit)
		},
		"greatest stretch": func(t *testing.T, row reference.Row) { row.Close(t, defaultOf(t, &seal.StretchMost)) },
	})
}

// defaultOf reads the limit that a method is defined with.
func defaultOf(t *testing.T, m *margin.Method) float64 {
	t.Helper()
	a, err := quantity.Parse(m.Unit, m.Default)
	if err != nil {
		t.Fatal(err)
	}
	return a.SI()
}

// TestOffsetIsAWiderGland: to push the end aside, to grow the bore and to heat
// the gap all take from the squeeze what a deeper gland takes, by definition.
func TestOffsetIsAWiderGland(t *testing.T) {
	const bore, groove, opening, section = 0.0571, 0.0531, 0.0002, 0.00262
	got, want := seal.SqueezeOffset(bore, groove, opening, section), seal.Squeeze(bore+2*opening, groove, section)
	if math.Abs(got-want) > 1e-12 || !(got < seal.Squeeze(bore, groove, section)) {
		t.Errorf("squeeze %.6f, want %.6f", got, want)
	}
}
