package fastener_test

import (
	"strings"
	"testing"

	"casewright/fastener"
	"casewright/verification"
	"casewright/verification/held"
)

// TestScrewShearFromLoadTables holds the shear load against the printed least
// tensile load of the screw standard: α_v of it, as F_v = α_v R_m A_s.
func TestScrewShearFromLoadTables(t *testing.T) {
	held.Table(t, "screw_loads_iso898.csv", held.Also{
		// The plain shank is stronger: a thicker section and α_v 0.6.
		"least tensile load": func(t *testing.T, c *verification.Case) {
			class, _ := fastener.LookupClass(strings.TrimPrefix(c.Text("class"), "class "))
			thread, _ := fastener.LookupThread(c.Text("thread"))
			shear := fastener.Shear(class.ShearThreads, class.Ultimate, thread.StressArea())
			if shank := fastener.Shear(class.ShearShank, class.Ultimate, thread.ShankArea()); !(shank > shear) {
				t.Errorf("shank %g N, threads %g N", shank, shear)
			}
		},
	})
}
