package fastener_test

import (
	"testing"

	"casewright/fastener"
	"casewright/margin/reference"
	"casewright/quantity"
)

// TestPinLimitLoad holds tear-out and bearing against plastic limit loads of a
// pin in a hole near an edge. 2 t (e − d/2) τ reads 0.5 to 0.8 of the solution
// up to e/d 1.25 and equals it at 1.5; the common 2 t e τ reads above it.
func TestPinLimitLoad(t *testing.T) {
	tearOut := func(t *testing.T, row reference.Row, hole float64) float64 {
		return float64(fastener.TearOut(quantity.Length(row.Input(t, "t")), quantity.Length(row.Input(t, "e")),
			quantity.Length(hole), quantity.Pressure(row.Input(t, "tau"))))
	}
	against := func(least, most float64) func(*testing.T, reference.Row) {
		return func(t *testing.T, row reference.Row) {
			if got := tearOut(t, row, row.Input(t, "d")) / row.Value; !(got >= least && got <= most) {
				t.Errorf("tear-out %.3f of the limit load, want %.2f to %.2f", got, least, most)
			}
			if got := tearOut(t, row, 0) / row.Value; !(got > 1) {
				t.Errorf("2 t e τ %.3f of the limit load, want above 1: it is the unsafe formula", got)
			}
		}
	}
	reference.Run(t, "../testdata/reference/pin_limit_load.csv", map[string]func(*testing.T, reference.Row){
		"limit load at e/d 1":    against(0.5, 0.8),
		"limit load at e/d 1.25": against(0.5, 0.8),
		"limit load at e/d 1.5":  against(0.97, 1.03),
		"tear-out on the net length": func(t *testing.T, row reference.Row) {
			row.Close(t, tearOut(t, row, row.Input(t, "d")))
		},
		"bearing at the yield strength": func(t *testing.T, row reference.Row) {
			stress := fastener.BearingStress(1, quantity.Length(row.Input(t, "d")), quantity.Length(row.Input(t, "t")))
			row.Close(t, row.Input(t, "Sy")/float64(stress))
		},
	})
}

// TestTearOutBeyondTheEdge: a hole that reaches the edge holds nothing.
func TestTearOutBeyondTheEdge(t *testing.T) {
	for _, e := range []quantity.Length{0.0025, 0.002, 0, -0.001} {
		if f := fastener.TearOut(0.003, e, 0.005, 200e6); f > 0 {
			t.Errorf("edge %g m: %g N", e, f)
		}
	}
}
