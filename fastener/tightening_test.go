package fastener_test

import (
	"fmt"
	"testing"

	"pgregory.net/rapid"

	"casewright/fastener"
	"casewright/quantity"
)

// 22.8 N m at a friction of 0.10 pull M8x1 with 20.7 kN (VDI 2230:2001 as at
// mastik.pt, seen; for a hexagon head).
func ExamplePreload() {
	t, _ := fastener.LookupThread("M8x1")
	f := fastener.Preload(22.8*quantity.NewtonMetre, t.PitchLength(), t.PitchDiameter(), 8*quantity.Millimetre, 0.10)
	fmt.Printf("%.1f kN\n", f/quantity.Kilonewton)
	// Output: 20.7 kN
}

// 20.7 kN at a friction of 0.10 take M8x1 to 90 % of 640 MPa (VDI 2230:2001 as
// at mastik.pt, seen).
func ExampleTighteningStress() {
	t, _ := fastener.LookupThread("M8x1")
	stress := fastener.TighteningStress(20.7*quantity.Kilonewton, t.StressDiameter(), t.PitchDiameter(), t.PitchLength(), 0.10)
	fmt.Printf("%.2f\n", stress/(640*quantity.Megapascal))
	// Output: 0.90
}

// Basic sizes of M5x0.8, from memory of ISO 724: d_2 4.480 mm.
func ExampleThread_PitchDiameter() {
	t, _ := fastener.LookupThread("M5")
	fmt.Printf("%.3f %.3f %.1f mm\n", t.PitchDiameter()/quantity.Millimetre, t.StressDiameter()/quantity.Millimetre, t.PitchLength()/quantity.Millimetre)
	// Output: 4.480 4.249 0.8 mm
}

// anyThread draws a thread of the table.
func anyThread(t *rapid.T) fastener.Thread {
	return rapid.SampledFrom(fastener.Threads()).Draw(t, "thread")
}

// TestPreload: twice the torque pulls twice as hard, and less friction harder.
// Without any the screw is a wedge: one turn of the torque lifts one pitch.
func TestPreload(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		th, mu := anyThread(t), rapid.Float64Range(0.02, 0.4).Draw(t, "mu")
		torque := quantity.Torque(rapid.Float64Range(0.1, 100).Draw(t, "torque"))
		p, d2, d := th.PitchLength(), th.PitchDiameter(), quantity.LengthOf(th.Diameter)
		one := float64(fastener.Preload(torque, p, d2, d, mu))
		if !near(float64(fastener.Preload(2*torque, p, d2, d, mu)), 2*one) {
			t.Fatal("not in proportion to the torque")
		}
		if !(float64(fastener.Preload(torque, p, d2, d, mu*0.99)) > one) {
			t.Fatal("less friction does not pull harder")
		}
		const turn = 2 * 3.14159265358979323846
		if work := turn * float64(torque); !near(float64(fastener.Preload(torque, p, d2, d, 0))*float64(p), work) {
			t.Fatal("without friction work is lost")
		}
		// The head takes as much as it rubs at: 1.3 d against d_2/cos 30°.
		head, thread := 0.65*float64(d), float64(d2)*0.5773502692
		lost := float64(torque)/one - float64(p)/turn
		if !near(lost, mu*(head+thread)) {
			t.Fatalf("friction takes an arm of %g m", lost)
		}
	})
}

// TestTighteningStress: at a torque, less friction is more stress, though its
// share of torsion is less; and torsion adds to tension.
func TestTighteningStress(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		th, mu := anyThread(t), rapid.Float64Range(0, 0.4).Draw(t, "mu")
		p, d2, d0, d := th.PitchLength(), th.PitchDiameter(), th.StressDiameter(), quantity.LengthOf(th.Diameter)
		at := func(mu float64) float64 {
			return float64(fastener.TighteningStress(fastener.Preload(10, p, d2, d, mu), d0, d2, p, mu))
		}
		if !(at(mu) > at(mu+0.01)) {
			t.Fatalf("at a torque: %g Pa, with more friction %g Pa", at(mu), at(mu+0.01))
		}
		if with, without := fastener.TighteningStress(1000, d0, d2, p, mu), 1000/(0.7853981634*float64(d0)*float64(d0)); !(float64(with) > without) {
			t.Fatalf("%g Pa with torsion, %g Pa without", with, without)
		}
		if !near(float64(fastener.TighteningStress(2000, d0, d2, p, mu)), 2*float64(fastener.TighteningStress(1000, d0, d2, p, mu))) {
			t.Fatal("not in proportion to the preload")
		}
	})
}

// TestDiameters: core, stress and pitch diameter lie in their order, and the
// bar of the stress diameter is within 2 % of the stress area; metric within
// 0.01 %, for ISO 898-1 defines it so.
func TestDiameters(t *testing.T) {
	for _, th := range fastener.Threads() {
		core, stress, pitch, d := th.MinorDiameter(), th.StressDiameter(), th.PitchDiameter(), quantity.LengthOf(th.Diameter)
		if !(0 < core && core < stress && stress < pitch && pitch < d) {
			t.Errorf("%s: %g, %g, %g, %g", th.Name, core, stress, pitch, d)
		}
		bar := 0.7853981634 * float64(stress) * float64(stress) / float64(th.StressArea())
		if most := map[bool]float64{true: 1e-4, false: 0.03}[th.Metric]; !(bar > 1-most && bar < 1+most) {
			t.Errorf("%s: the bar is %.4f of the stress area", th.Name, bar)
		}
	}
}

// TestLeastFriction: greased or waxed screws rub at 0.08 and more (VDI 2230
// table A5, friction class B, from memory).
func TestLeastFriction(t *testing.T) {
	if !near(fastener.LeastFriction, 0.08) {
		t.Errorf("%g", fastener.LeastFriction)
	}
}
