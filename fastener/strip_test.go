package fastener_test

import (
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"

	"casewright/fastener"
	"casewright/quantity"
)

// 1/4-20, engaged for one diameter, has 0.135 in² (FED-STD-H28 areas as at
// engineersedge.com, seen).
func ExampleThread_StripArea() {
	t, _ := fastener.LookupThread("1/4-20")
	fmt.Printf("%.3f in²\n", float64(t.StripArea()/quantity.Inch)*0.25)
	// Output: 0.135 in²
}

// Limits of 1/4-20 in classes 2A and 2B: 0.2408 and 0.2224 in (ASME B1.1 as at
// machinecalcs.com, seen).
func ExampleThread_LeastMajor() {
	t, _ := fastener.LookupThread("1/4-20")
	fmt.Printf("%.4f %.4f in\n", t.LeastMajor()/quantity.Inch, t.GreatestPitchDiameter()/quantity.Inch)
	// Output: 0.2407 0.2224 in
}

// M5 engaged 9 mm in metal of 200 MPa, of which 0.64 mm bear nothing: 10.0 mm²
// for each millimetre (area by integration of the profile).
func ExampleStrip() {
	t, _ := fastener.LookupThread("M5")
	f := fastener.Strip(t.StripArea(), 9*quantity.Millimetre, t.PitchLength(), 200*quantity.Megapascal, 800*quantity.Megapascal)
	fmt.Printf("%.1f kN\n", f/quantity.Kilonewton)
	// Output: 16.7 kN
}

// TestEveryThreadHasLimits: screw and hole overlap by a good part of the
// thread, and no thread of the table lacks its tolerances. A sharp thread would
// have a shear area of one pitch of each pitch; the real one has 0.7 to 0.95.
func TestEveryThreadHasLimits(t *testing.T) {
	for _, th := range fastener.Threads() {
		d, d2, p := quantity.LengthOf(th.Diameter), th.PitchDiameter(), th.PitchLength()
		major, tapped := th.LeastMajor(), th.GreatestPitchDiameter()
		if !(major < d && tapped > d2 && major-tapped > 0.1*p) {
			t.Errorf("%s: major %g m, tapped pitch diameter %g m", th.Name, major, tapped)
		}
		if part := float64(th.StripArea()) / (math.Pi * float64(major)); !(part > 0.55 && part < 0.9) {
			t.Errorf("%s: %.3f of each pitch is metal", th.Name, part)
		}
	}
}

// TestStrip: the load is that of the full thread alone, grows with depth and
// with the weaker of end and screw, and is nothing where no thread is left.
func TestStrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		th := anyThread(t)
		a, p, depth := th.StripArea(), th.PitchLength(), mm(t, "depth", 2, 20)
		fsu := quantity.Pressure(rapid.Float64Range(50, 400).Draw(t, "fsu")) * quantity.Megapascal
		rm := quantity.Pressure(rapid.Float64Range(400, 1300).Draw(t, "rm")) * quantity.Megapascal
		f := float64(fastener.Strip(a, depth, p, fsu, rm))
		deeper := float64(fastener.Strip(a, depth+p, p, fsu, rm))
		weaker := math.Min(float64(fsu), 0.37*float64(rm))
		if !near(deeper-f, float64(a)*float64(p)*weaker) && math.Abs(deeper-f-float64(a)*float64(p)*weaker) > 1e-6*deeper {
			t.Fatalf("a pitch more holds %g N more", deeper-f)
		}
		if !near(f, float64(a)*(float64(depth)-0.8*float64(p))*weaker) {
			t.Fatalf("%g N", f)
		}
		for _, short := range []quantity.Length{0, 0.5 * p, 0.8 * p, -p} {
			if got := fastener.Strip(a, short, p, fsu, rm); got > 1e-9 || got < 0 {
				t.Fatalf("%g m deep: %g N", short, got)
			}
		}
	})
}
