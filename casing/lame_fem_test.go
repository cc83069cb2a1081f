package casing_test

import (
	"testing"

	"casewright/casing"
	"casewright/quantity"
	"casewright/verification"
	"casewright/verification/held"
)

// TestLameFEM holds the stresses and the growth of thin and thick tubes
// against finite elements. Open ends have a higher von Mises stress at the
// bore and grow more: the formulas are for a tube that carries the end load.
func TestLameFEM(t *testing.T) {
	held.Table(t, "cylinders_fem.csv", held.Also{
		"von Mises at the bore, open ends": func(t *testing.T, c *verification.Case) {
			od := c.Of("OD")
			closed := float64(casing.BoreVonMises(quantity.Pressure(c.Of("p")), od/(od-2*c.Of("t"))))
			if !(closed < c.Value) {
				t.Errorf("closed ends %g Pa, open ends %g Pa", closed, c.Value)
			}
		},
	})
}
