package closure_test

import (
	"testing"

	"casewright/closure"
	"casewright/margin/reference"
	"casewright/quantity"
)

// TestLandAnnularPlate holds the land behind a groove against the annular
// plate that it is: clamped at the groove, free at the bore, under pressure.
// Its face is longer outside than its root, so that a plain strip reads low;
// the formula must not, nor lie far above.
func TestLandAnnularPlate(t *testing.T) {
	reference.Run(t, "../testdata/reference/land_annular_plate.csv", map[string]func(*testing.T, reference.Row){
		"land clamped at the groove, pressure on its face": func(t *testing.T, row reference.Row) {
			stress := float64(closure.LandBendingStress(quantity.Pressure(row.Input(t, "p")), quantity.Length(row.Input(t, "Db")),
				quantity.Length(row.Input(t, "Dg")), quantity.Length(row.Input(t, "w"))))
			if got := stress / row.Value; !(got >= 1 && got <= 1.06) {
				t.Errorf("%.4f of the plate, want 1 to 1.06", got)
			}
		},
	})
}
