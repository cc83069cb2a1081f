package fastener_test

import (
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"

	"casewright/fastener"
	"casewright/margin"
	"casewright/quantity"
)

// A pin of 16 mm and 235 MPa bears 1.5 W f_y/1.15 = 123 N m (a sheet after
// EN 1993-1-8 table 3.10, seen).
func ExampleBendingStress() {
	stress := fastener.BendingStress(1000*quantity.Newton, 0.123, 16*quantity.Millimetre)
	fmt.Printf("%.0f MPa\n", stress/quantity.Megapascal)
	fmt.Printf("%.0f MPa\n", fastener.PlasticShape*235/1.15)
	// Output:
	// 306 MPa
	// 307 MPa
}

// A wall of 3.2 mm bends an M5 screw at 0.35 d rather than at half the wall.
func ExampleBendingArm() {
	arm := fastener.BendingArm(3.2*quantity.Millimetre, 5*quantity.Millimetre, 0.1*quantity.Millimetre)
	fmt.Printf("%.2f mm\n", arm/quantity.Millimetre)
	// Output: 1.85 mm
}

// Packs of 30 mm leave an M20 bolt 0.72 of its shear strength (Steel Buildings
// in Europe part 5, worked example of a column splice, seen).
func ExamplePackingFactor() {
	fmt.Printf("%.2f\n", fastener.PackingFactor(20*quantity.Millimetre, 30*quantity.Millimetre))
	// Output: 0.72
}

// near tells whether two numbers are equal but for rounding.
func near(a, b float64) bool { return math.Abs(a-b) <= 1e-9*math.Max(math.Abs(a), math.Abs(b)) }

// mm draws a length.
func mm(t *rapid.T, label string, least, most float64) quantity.Length {
	return quantity.Length(rapid.Float64Range(least, most).Draw(t, label)) * quantity.Millimetre
}

// TestBendingOfRoundSections: twice the load or the arm is twice the stress,
// and twice the core an eighth; a core of half the size in all else the same
// as one of the whole at a quarter of the load.
func TestBendingOfRoundSections(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := quantity.Force(rapid.Float64Range(1, 1e5).Draw(t, "f"))
		arm, core := mm(t, "arm", 0.1, 10), mm(t, "core", 1, 12)
		one := float64(fastener.BendingStress(f, arm, core))
		for name, pair := range map[string][2]float64{
			"load": {float64(fastener.BendingStress(2*f, arm, core)), 2 * one},
			"arm":  {float64(fastener.BendingStress(f, 2*arm, core)), 2 * one},
			"core": {float64(fastener.BendingStress(f, arm, 2*core)), one / 8},
		} {
			if !near(pair[0], pair[1]) {
				t.Fatalf("%s: %g, want %g", name, pair[0], pair[1])
			}
		}
	})
}

// TestBendingArm: a gap adds all of itself, a thicker wall never shortens the
// arm, and from 0.7 diameters the arm is half the wall.
func TestBendingArm(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d, wall, gap := mm(t, "d", 2, 12), mm(t, "wall", 0.5, 15), mm(t, "gap", 0, 2)
		arm := fastener.BendingArm(wall, d, gap)
		if more := fastener.BendingArm(wall, d, gap+quantity.Millimetre); !near(float64(more), float64(arm+quantity.Millimetre)) {
			t.Fatalf("a gap of 1 mm more: %g m after %g m", more, arm)
		}
		if fastener.BendingArm(wall*1.01, d, gap) < arm {
			t.Fatal("a thicker wall shortens the arm")
		}
		switch thick := wall >= 0.7*d; {
		case thick && !near(float64(arm), float64(wall/2+gap)):
			t.Fatalf("thick wall: %g m", arm)
		case !thick && !(arm-gap > wall/2):
			t.Fatalf("thin wall: %g m", arm)
		}
	})
}

// TestPacking: up to a third of the diameter nothing is lost, without a step
// there, and beyond it more of a gap leaves less (EN 1993-1-8 3.6.1(12)).
func TestPacking(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d, gap := mm(t, "d", 2, 30), mm(t, "gap", 0, 60)
		left := fastener.PackingFactor(d, gap)
		switch {
		case 3*gap <= d && left != 1: //nolint:gocritic // 1 is a bound and exact
			t.Fatalf("%g of a third", left)
		case 3*gap > d*1.0001 && !(left < 1 && left > fastener.PackingFactor(d, gap*1.01)):
			t.Fatalf("%g does not fall", left)
		}
	})
	if third := fastener.PackingFactor(3, 1+1e-9); !(third < 1 && third > 1-1e-8) {
		t.Errorf("just above a third: %g", third)
	}
	if !math.IsNaN(fastener.PackingFactor(3, quantity.Length(math.NaN()))) {
		t.Error("a gap that is no number leaves a strength")
	}
}

// TestScrewBendingSaysThatItStandsApart: shear tests hold some bending already,
// and every outcome says so.
func TestScrewBendingSaysThatItStandsApart(t *testing.T) {
	if !fastener.ScrewBending.Remark(&margin.Values{}, 0).Has(margin.BendingApart) {
		t.Error("no note")
	}
}

// TestScrewBendingCapacity: a screw of class 8.8 bears 1.5 times its 640 MPa
// (EN 1993-1-8 table 3.10 and ISO 898-1, from memory), whatever bends it.
func TestScrewBendingCapacity(t *testing.T) {
	_, got := fastener.ScrewBending.Eval(&margin.Values{11535, 1.1, 8, 3.35e-3, 5e-3, 0.18e-3, 4.019e-3, 640e6})
	if !near(got, 960e6) {
		t.Errorf("%g Pa", got)
	}
}
