package closure_test

import (
	"testing"

	"casewright/closure"
	"casewright/margin/reference"
	"casewright/quantity"
)

// TestLipAnnularPlate holds the lip, a cantilever strip, against the annular
// plate that it is. The strip is on the safe side where the insert bears
// evenly: 0.4 % above the plate when narrow, 17 % when it is half of the
// radius. An insert that bears on the lip's inner edge alone would bend it
// twice as much: its face must be flat.
func TestLipAnnularPlate(t *testing.T) {
	strip := func(t *testing.T, row reference.Row) float64 {
		di := quantity.Length(row.Input(t, "Di"))
		return float64(closure.LipBending(quantity.Pressure(row.Input(t, "p")), di, di, quantity.Length(row.Input(t, "Dl")), quantity.Length(row.Input(t, "l"))))
	}
	against := func(least, most float64) func(*testing.T, reference.Row) {
		return func(t *testing.T, row reference.Row) {
			if got := strip(t, row) / row.Value; !(got >= least && got <= most) {
				t.Errorf("strip %.4f of the plate, want %.3f to %.3f", got, least, most)
			}
		}
	}
	reference.Run(t, "../testdata/reference/lip_annular_plate.csv", map[string]func(*testing.T, reference.Row){
		"lip clamped outside, load spread evenly":     against(1.003, 1.17),
		"lip clamped outside, load at its inner edge": against(0.485, 0.525),
	})
}
