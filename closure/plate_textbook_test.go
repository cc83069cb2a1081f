package closure_test

import (
	"strconv"
	"testing"

	"casewright/closure"
	"casewright/margin"
	"casewright/verification"
	"casewright/verification/held"
)

// TestTextbookPlates holds the plate against handbooks and against solutions
// of the annular plate, whose names stand in the table.
func TestTextbookPlates(t *testing.T) {
	held.Table(t, "plates_textbook.csv", held.Also{
		// Pressure beside an open hole stresses its edge less than the plate
		// whose plug hangs there too, and nearly as much where it is small.
		"edge stress of a plate with an open hole": func(t *testing.T, c *verification.Case) {
			got := c.Got / c.Value
			if !(got > 1) {
				t.Errorf("with its plug %.4f of the open hole", got)
			}
			if c.Of("a_over_b") == 5 && got > 1.15 {
				t.Errorf("hole of a fifth: with its plug %.4f of the open hole", got)
			}
		},
	})
}

// TestThickPlateNote: beyond 0.3 of the span plate theory reads over 3 % low,
// and the row says so.
func TestThickPlateNote(t *testing.T) {
	for _, c := range []struct {
		h    float64
		want bool
	}{{0.0149, false}, {0.0151, true}} {
		v := margin.Values{1, 0.33, 5e6, 0.050, 0, c.h, 240e6}
		if got := closure.Plate.Remark(&v, 0).Has(margin.ThickPlate); got != c.want {
			t.Errorf("thickness %g of a span of 0.05 m: note %v", c.h, got)
		}
	}
}

// TestEngagementDefault: one diameter of thread, common practice, no source.
func TestEngagementDefault(t *testing.T) {
	if x, err := strconv.ParseFloat(closure.Engagement.Default, 64); err != nil || x < 1 {
		t.Errorf("engagement %q, %v", closure.Engagement.Default, err)
	}
}
