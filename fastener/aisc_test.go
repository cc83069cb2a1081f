package fastener_test

import (
	"math"
	"testing"

	"casewright/fastener"
	"casewright/margin/reference"
	"casewright/quantity"
)

// TestAISC holds bearing, tear-out and shear against worked examples after
// AISC 360 J3. Its tear-out 1.2 L_c t F_u is ours, 2 t (e − h/2) F_su, with
// F_su = 0.6 F_u.
func TestAISC(t *testing.T) {
	bolt := func(t *testing.T, row reference.Row) float64 {
		const excluded = 0.5 // of 120 ksi: the example's F_nv, threads excluded
		d := row.Input(t, "db")
		return float64(fastener.Shear(excluded, quantity.Pressure(row.Input(t, "Fnv")/excluded), quantity.Area(math.Pi/4*d*d)))
	}
	reference.Run(t, "../testdata/reference/aisc_joints.csv", map[string]func(*testing.T, reference.Row){
		"bearing at 2.4 F_u": func(t *testing.T, row reference.Row) {
			stress := fastener.BearingStress(1, quantity.Length(row.Input(t, "d")), quantity.Length(row.Input(t, "t")))
			row.Close(t, row.Input(t, "phi")*2.4*row.Input(t, "Fu")/float64(stress))
		},
		"tear-out": func(t *testing.T, row reference.Row) {
			f := fastener.TearOut(quantity.Length(row.Input(t, "t")), quantity.Length(row.Input(t, "e")),
				quantity.Length(row.Input(t, "h")), quantity.Pressure(0.6*row.Input(t, "Fu")))
			row.Close(t, row.Input(t, "phi")*float64(f))
		},
		"shear, threads excluded": func(t *testing.T, row reference.Row) { row.Close(t, bolt(t, row)) },
		"shear of a row": func(t *testing.T, row reference.Row) {
			n := row.Input(t, "n")
			if got := float64(fastener.ScrewLoad(quantity.Force(row.Value), 1, n)) / bolt(t, row); math.Abs(got-1) > row.Tolerance {
				t.Errorf("load of one bolt over its resistance: %g", got)
			}
		},
	})
}
