package sizing_test

import (
	"fmt"
	"testing"

	"github.com/shopspring/decimal"
	"pgregory.net/rapid"

	"casewright/quantity"
	"casewright/sizing"
	"casewright/verification"
	"casewright/verification/held"
)

func ExampleGeneral() {
	t, ok := sizing.General(decimal.New(45, -3)) // 45 mm
	fmt.Println(t.Shift(3), "mm", ok)
	// Output: 0.3 mm true
}

// millimetres returns a size in m of so many mm to 0.001, exact.
func millimetres(n float64) decimal.Decimal { return decimal.NewFromFloat(n).Round(3).Shift(-3) }

// TestGeneralPublished holds the tolerances against other copies than the
// table was read from.
func TestGeneralPublished(t *testing.T) {
	held.Table(t, "general_tolerances.csv", held.Also{
		"general tolerance": func(t *testing.T, c *verification.Case) {
			if sizing.GeneralClass(c.Text("class")[0]) != sizing.Medium {
				return
			}
			medium, ok := sizing.General(millimetres(c.Of("nominal") / float64(quantity.Millimetre)))
			if !ok || !c.Holds(float64(quantity.LengthOf(medium))) {
				t.Errorf("General gives %v, %v", medium, ok)
			}
		},
	})
}

// TestGeneralEnds: the table begins at 0.5 mm and ends at 2 m, both included,
// and has three classes.
func TestGeneralEnds(t *testing.T) {
	for _, c := range []struct {
		class   sizing.GeneralClass
		nominal float64 // mm
		ok      bool
	}{
		{sizing.Medium, 0.5, true},
		{sizing.Fine, 0.5, true},
		{sizing.Coarse, 0.5, true},
		{sizing.Medium, 0.499, false},
		{sizing.Coarse, 0.499, false},
		{sizing.Medium, 2000, true},
		{sizing.Medium, 2000.001, false},
		{sizing.Fine, 2000.001, false},
		{sizing.Medium, 0, false},
		{sizing.Medium, -45, false},
		{0, 45, false},
		{'v', 45, false},
	} {
		if got, ok := c.class.Tolerance(millimetres(c.nominal)); ok != c.ok || !ok && !got.IsZero() {
			t.Errorf("class %q, %v mm: %v m, %v", c.class, c.nominal, got, ok)
		}
	}
}

// TestGeneralRises: between the ends every size has a tolerance, a greater one
// never a lesser, and fine is at most medium, medium at most coarse.
func TestGeneralRises(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		draw := func(name string) decimal.Decimal {
			return decimal.New(rapid.Int64Range(500, 2_000_000).Draw(t, name), -6)
		}
		a, b := draw("a"), draw("b")
		if a.Cmp(b) > 0 {
			a, b = b, a
		}
		var finer decimal.Decimal
		for _, class := range []sizing.GeneralClass{sizing.Fine, sizing.Medium, sizing.Coarse} {
			at, okA := class.Tolerance(a)
			bt, okB := class.Tolerance(b)
			if !okA || !okB || !at.IsPositive() || at.Cmp(bt) > 0 || at.Cmp(finer) < 0 || at.Cmp(a) >= 0 {
				t.Fatalf("class %c: ±%v m at %v m, ±%v m at %v m", class, at, a, bt, b)
			}
			finer = at
		}
	})
}
