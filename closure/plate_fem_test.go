package closure_test

import (
	"testing"

	"casewright/closure"
	"casewright/margin/reference"
	"casewright/quantity"
)

// TestPlateFEM holds the plate against finite elements. The plate is taken
// with pressure on its full face, supported at the bore: within 0.5 % of a thin
// plate so loaded, within 1.5 % of thick ones with the pressure inside a seal.
// To take the seal's radius as the support reads 15 to 45 % low.
func TestPlateFEM(t *testing.T) {
	stress := func(t *testing.T, row reference.Row, span string) float64 {
		return float64(closure.PlateStress(quantity.Pressure(row.Input(t, "p")), quantity.Length(row.Input(t, span)), 0,
			quantity.Length(row.Input(t, "h")), row.Input(t, "nu"), 1))
	}
	fem := func(t *testing.T, row reference.Row) { row.Close(t, stress(t, row, "OD")) }
	reference.Run(t, "../testdata/reference/plates_fem.csv", map[string]func(*testing.T, reference.Row){
		"centre stress, pressure on the full face": fem,
		"centre stress, pressure inside a seal": func(t *testing.T, row reference.Row) {
			fem(t, row)
			if low := 1 - stress(t, row, "seal")/row.Value; !(low > 0.15 && low < 0.45) {
				t.Errorf("the seal as the support reads %.0f %% low, want 15 to 45 %%", 100*low)
			}
		},
		"plate theory, pressure on the full face": fem,
		"plate theory, seal taken as the support": func(t *testing.T, row reference.Row) { row.Close(t, stress(t, row, "seal")) },
	})
}
