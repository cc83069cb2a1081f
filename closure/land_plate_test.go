package closure_test

import (
	"testing"

	"casewright/verification"
	"casewright/verification/held"
)

// TestLandAnnularPlate holds the land behind a groove against the annular
// plate that it is: clamped at the groove, free at the bore, under pressure.
// Its face is longer outside than its root, so that a plain strip reads low;
// the formula must not, nor lie far above.
func TestLandAnnularPlate(t *testing.T) {
	held.Table(t, "land_annular_plate.csv", held.Also{"land clamped at the groove, pressure on its face": between(1, 1.06)})
}

// between holds that what is computed lies in this band of the row.
func between(least, most float64) func(*testing.T, *verification.Case) {
	return func(t *testing.T, c *verification.Case) {
		if got := c.Got / c.Value; !(got >= least && got <= most) {
			t.Errorf("%.4f of it, want %.3f to %.3f", got, least, most)
		}
	}
}
