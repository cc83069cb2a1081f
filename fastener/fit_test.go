package fastener_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/shopspring/decimal"
	"pgregory.net/rapid"

	"casewright/fastener"
	"casewright/margin"
	"casewright/quantity"
)

// Four springs of 25 kN/mm, one of them 0.05 mm earlier than the others, under
// 5600 N: the first takes 1.67 times the mean (springs solved exactly).
func ExampleUnequalShare() {
	fmt.Printf("%.2f\n", fastener.UnequalShare(1250*quantity.Newton, 5600*quantity.Newton, 4))
	// Output: 1.67
}

// Holes held to 0.1 mm and alike, M5 through 3.2 mm into 7.5 mm of aluminium:
// over 8 kN by the fit to tests; a beam in elastic beds gives 6.9 kN.
func ExampleFirstLoad() {
	f := fastener.FirstLoad(0.1*quantity.Millimetre, 0, 3.2*quantity.Millimetre, 7.5*quantity.Millimetre, 5*quantity.Millimetre,
		68.9*quantity.Gigapascal, 68.9*quantity.Gigapascal)
	fmt.Printf("%.1f kN\n", f/quantity.Kilonewton)
	// Output: 8.4 kN
}

// TestFirstLoad: it is in proportion to the slack, to which position counts
// four times what the spread of the holes does, and to the size of all; tube
// and end may change places; stiffer metal takes more.
func TestFirstLoad(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d, wall, deep := mm(t, "d", 2, 12), mm(t, "wall", 1, 8), mm(t, "deep", 2, 18)
		at, spread := mm(t, "position", 0.01, 0.5), mm(t, "spread", 0, 0.5)
		tube := quantity.Pressure(rapid.Float64Range(60, 210).Draw(t, "tube")) * quantity.Gigapascal
		end := quantity.Pressure(rapid.Float64Range(60, 210).Draw(t, "end")) * quantity.Gigapascal
		f := float64(fastener.FirstLoad(at, spread, wall, deep, d, tube, end))
		const s = 3
		for name, pair := range map[string][2]float64{
			"slack":   {float64(fastener.FirstLoad(2*at, 2*spread, wall, deep, d, tube, end)), 2 * f},
			"spread":  {float64(fastener.FirstLoad(at+spread/4, 0, wall, deep, d, tube, end)), f},
			"turned":  {float64(fastener.FirstLoad(at, spread, deep, wall, d, end, tube)), f},
			"larger":  {float64(fastener.FirstLoad(s*at, s*spread, s*wall, s*deep, s*d, tube, end)), s * s * f},
			"thicker": {float64(fastener.FirstLoad(at, spread, wall, deep, 8*d, tube, end)), 4 * f},
		} {
			if !near(pair[0], pair[1]) {
				t.Fatalf("%s: %g N, want %g N", name, pair[0], pair[1])
			}
		}
		if !(float64(fastener.FirstLoad(at, spread, wall, deep, d, tube*1.01, end)) > f) {
			t.Fatal("stiffer metal takes less")
		}
	})
}

// TestUnequalShare: from 1, where all touch at once, to all on one screw.
func TestUnequalShare(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := float64(rapid.IntRange(1, 24).Draw(t, "n"))
		first := quantity.Force(rapid.Float64Range(0, 2e4).Draw(t, "first"))
		load := quantity.Force(rapid.Float64Range(1, 2e4).Draw(t, "load"))
		share := fastener.UnequalShare(first, load, n)
		switch {
		case !(share >= 1 && share <= n):
			t.Fatalf("share %g of %g screws", share, n)
		case first >= load && share != n:
			t.Fatalf("one screw alone carries %g of %g", share, n)
		}
		// Balance: the first screw and the others, each F_1 behind it.
		if first < load && !near(share*float64(load)+(n-1)*(share*float64(load)-n*float64(first)), n*float64(load)) {
			t.Fatalf("share %g leaves the load out of balance", share)
		}
	})
}

// TestHoleFitExactly: a hole that is just large enough fits, one that is
// smaller by the last decimal does not (ASME Y14.5: H = F + 2T).
func TestHoleFitExactly(t *testing.T) {
	slack := func(hole string) int {
		sizes := map[margin.Term]string{margin.Hole: hole, margin.ScrewDiameter: "0.005", margin.Position: "0.0001"}
		return fastener.HoleFit.Slack(margin.Exact{
			At:    func(term margin.Term, _ margin.End) decimal.Decimal { return decimal.RequireFromString(sizes[term]) },
			Limit: decimal.Zero,
		}).Sign()
	}
	for hole, want := range map[string]int{"0.0052": 0, "0.00520000001": 1, "0.00519999999": -1} {
		if got := slack(hole); got != want {
			t.Errorf("hole %s m: sign %d, want %d", hole, got, want)
		}
	}
}

// A row of holes 4 holes apart, a pin that fills each: 1.5 times the pressure
// by the chart, 1.40 by finite elements.
func ExamplePeakFactor() {
	fmt.Printf("%.2f %.2f\n", fastener.PeakFactor(0.25), fastener.PlayFactor*fastener.PeakFactor(0.25))
	// Output: 1.50 2.25
}

// TestPeakFactor: it rises with the hole, is held where holes are far apart,
// and is no number past the chart.
func TestPeakFactor(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x := rapid.Float64Range(0.15, 0.7499).Draw(t, "x")
		if !(fastener.PeakFactor(x+1e-4) > fastener.PeakFactor(x)) {
			t.Fatalf("falls at %g", x)
		}
		if far := rapid.Float64Range(0, 0.15).Draw(t, "far"); !near(fastener.PeakFactor(far), fastener.PeakFactor(0.15)) {
			t.Fatalf("%g at %g", fastener.PeakFactor(far), far)
		}
	})
	for _, x := range []float64{0.7501, 1, 2, math.NaN()} {
		if got := fastener.PeakFactor(x); !math.IsNaN(got) {
			t.Errorf("%g at %g", got, x)
		}
	}
	if math.IsNaN(fastener.PeakFactor(0.75)) {
		t.Error("no number at the end of the chart")
	}
}

// TestHolePeakRange: nearer the end than 1.5 holes, or past the chart, nothing
// is told.
func TestHolePeakRange(t *testing.T) {
	valid := func(factor, hole, edge float64) margin.Reason {
		return fastener.HolePeak.Valid(&margin.Values{factor, 1, 1, 1, 1, 1, 1, edge, hole})
	}
	for _, c := range []struct {
		factor, hole, edge float64
		want               margin.Reason
	}{
		{1.5, 4, 6, margin.None},
		{1.5, 4, 5.99, margin.PinHole},
		{math.NaN(), 4, 12, margin.PinHole},
		{0, 4, 12, margin.PinHole},
		{1.5, 4, math.NaN(), margin.PinHole},
	} {
		if got := valid(c.factor, c.hole, c.edge); got != c.want {
			t.Errorf("factor %g, hole %g, edge %g: %q", c.factor, c.hole, c.edge, got.ID())
		}
	}
}
