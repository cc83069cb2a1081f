package fastener_test

import (
	"testing"

	"casewright/fastener"
	"casewright/quantity"
	"casewright/verification"
	"casewright/verification/held"
)

// TestPinLimitLoad holds tear-out and bearing against plastic limit loads of a
// pin in a hole near an edge. 2 t (e − d/2) τ reads 0.5 to 0.8 of the solution
// up to e/d 1.25 and equals it at 1.5; the common 2 t e τ reads above it.
func TestPinLimitLoad(t *testing.T) {
	against := func(least, most float64) func(*testing.T, *verification.Case) {
		return func(t *testing.T, c *verification.Case) {
			if got := c.Got / c.Value; !(got >= least && got <= most) {
				t.Errorf("tear-out %.3f of the limit load, want %.2f to %.2f", got, least, most)
			}
			wide := fastener.TearOut(quantity.Length(c.Of("t")), quantity.Length(c.Of("e")), 0, quantity.Pressure(c.Of("tau")))
			if got := float64(wide) / c.Value; !(got > 1) {
				t.Errorf("2 t e τ %.3f of the limit load, want above 1: it is the unsafe formula", got)
			}
		}
	}
	held.Table(t, "pin_limit_load.csv", held.Also{
		"limit load at e/d 1":    against(0.5, 0.8),
		"limit load at e/d 1.25": against(0.5, 0.8),
		"limit load at e/d 1.5":  against(0.97, 1.03),
	})
}

// TestTearOutBeyondTheEdge: a hole that reaches the edge holds nothing, nor does
// a wall that is gone; two that are gone make none.
func TestTearOutBeyondTheEdge(t *testing.T) {
	for _, c := range []struct{ t, e quantity.Length }{
		{0.003, 0.0025}, {0.003, 0.002}, {0.003, 0}, {0.003, -0.001}, {0, 0.006}, {-0.001, 0.006}, {-0.001, -0.001},
	} {
		if f := fastener.TearOut(c.t, c.e, 0.005, 200e6); f != 0 {
			t.Errorf("wall %g m, edge %g m: %g N, want 0", c.t, c.e, f)
		}
	}
}
