package seal_test

import (
	"math"
	"testing"

	"github.com/shopspring/decimal"

	"casewright/quantity"
	"casewright/seal"
	"casewright/verification"
	"casewright/verification/held"
)

// TestGlands holds the printed glands against a seal maker's chart, and their
// squeeze, of the thinnest ring in the deepest gland and the other way, against
// what the chart prints for it.
func TestGlands(t *testing.T) {
	held.Table(t, "glands_radial.csv", held.Also{
		"static radial gland, greatest squeeze": func(t *testing.T, row *verification.Case) {
			g, ok := seal.GlandFor(decimal.NewFromFloat(row.Of("section")))
			if !ok {
				t.Fatal("no gland")
			}
			for _, c := range []struct {
				name string
				got  quantity.Length
			}{
				{"least_depth", quantity.LengthOf(g.Depth[0])},
				{"most_depth", quantity.LengthOf(g.Depth[1])},
				{"least_width", quantity.LengthOf(g.Width[0])},
				{"most_width", quantity.LengthOf(g.Width[1])},
				{"least_clearance", quantity.LengthOf(g.Clearance[0])},
				{"most_clearance", quantity.LengthOf(g.Clearance[1])},
			} {
				if want := row.Of(c.name); math.Abs(float64(c.got)-want) > 1e-12 {
					t.Errorf("%s: %v, the chart has %v", c.name, c.got, want)
				}
			}
		},
	})
}

// TestGlandForNear: a section may differ from the printed 0.103 in (2.6162 mm)
// by a twentieth of a millimetre, that included.
func TestGlandForNear(t *testing.T) {
	for text, want := range map[string]bool{"0.0026662": true, "0.0025662": true, "0.00266621": false, "0.00256619": false} {
		if _, ok := seal.GlandFor(decimal.RequireFromString(text)); ok != want {
			t.Errorf("%s m: %v, want %v", text, ok, want)
		}
	}
}
