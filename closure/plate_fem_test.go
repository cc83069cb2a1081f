package closure_test

import (
	"testing"

	"casewright/closure"
	"casewright/quantity"
	"casewright/verification"
	"casewright/verification/held"
)

// TestPlateFEM holds the plate against finite elements. The plate is taken
// with pressure on its full face, supported at the bore: within 0.5 % of a thin
// plate so loaded, within 1.5 % of thick ones with the pressure inside a seal.
// To take the seal's radius as the support reads 15 to 45 % low.
func TestPlateFEM(t *testing.T) {
	held.Table(t, "plates_fem.csv", held.Also{
		"centre stress, pressure inside a seal": func(t *testing.T, c *verification.Case) {
			seal := float64(closure.PlateStress(quantity.Pressure(c.Of("p")), quantity.Length(c.Of("seal")), 0, quantity.Length(c.Of("h")), c.Of("nu"), 1))
			if low := 1 - seal/c.Value; !(low > 0.15 && low < 0.45) {
				t.Errorf("the seal as the support reads %.0f %% low, want 15 to 45 %%", 100*low)
			}
		},
	})
}
