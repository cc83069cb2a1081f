package fastener_test

import (
	"testing"

	"casewright/fastener"
	"casewright/margin/reference"
)

// TestScrewShearFromLoadTables holds the shear load against the printed least
// tensile load of the screw standard: α_v of it, as F_v = α_v R_m A_s.
func TestScrewShearFromLoadTables(t *testing.T) {
	reference.Run(t, "../testdata/reference/screw_loads_iso898.csv", map[string]func(*testing.T, reference.Row){
		"least tensile load": func(t *testing.T, row reference.Row) {
			c := classOf(t, row)
			thread, ok := fastener.LookupThread(row.Word(t, "thread"))
			if !ok {
				t.Fatalf("no thread %q", row.Word(t, "thread"))
			}
			shear := fastener.Shear(c.ShearThreads, c.Ultimate, thread.StressArea())
			row.Close(t, float64(shear)/c.ShearThreads)
			// The plain shank is stronger: a thicker section and α_v 0.6.
			if shank := fastener.Shear(c.ShearShank, c.Ultimate, thread.ShankArea()); !(shank > shear) {
				t.Errorf("shank %g N, threads %g N", shank, shear)
			}
		},
	})
}
