package fastener_test

import (
	"math"
	"strings"
	"testing"

	"casewright/fastener"
	"casewright/margin"
	"casewright/materials"
	"casewright/quantity"
	"casewright/verification"
	"casewright/verification/held"
)

// TestEurocodeJoints holds the shapes of our formulas against worked examples
// and tables of EN 1993-1-8, whose names stand in the table of values.
func TestEurocodeJoints(t *testing.T) {
	held.Table(t, "eurocode_joints.csv", held.Also{
		"bearing resistance":                     estimateIsTheCodes,
		"shear resistance, threads in the plane": leastStrengthIsNoLess,
		"group of bolts at 0.8 of each": func(t *testing.T, c *verification.Case) {
			// The code's 0.8 of a group is our share of 1.25: at the group's
			// resistance the hardest-loaded bolt carries its own.
			hardest := fastener.ScrewLoad(quantity.Force(c.Value), 1.25, c.Of("ns"))
			if want := c.Of("Fv"); math.Abs(float64(hardest)/want-1) > c.Tolerance {
				t.Errorf("hardest bolt %g N, want %g N", hardest, want)
			}
		},
	})
}

// estimateIsTheCodes: where the end distance governs and the rest is wide, our
// estimate for a material without bearing strengths is that of table 3.4.
func estimateIsTheCodes(t *testing.T, c *verification.Case) {
	if !c.Has("e1") {
		return
	}
	d0, fu := c.Of("d0"), c.Of("fu")
	ratio, k1 := c.Of("e1")/d0, 2.5
	if c.Has("p1") && c.Of("p1")/d0/3-0.25 < ratio/3 || ratio > 3 {
		return // the spacing governs, or nothing does
	}
	if c.Has("e2") {
		k1 = min(k1, 2.8*c.Of("e2")/d0-1.7)
	}
	if c.Has("p2") {
		k1 = min(k1, 1.4*c.Of("p2")/d0-1.7)
	}
	m := materials.New("plate", "the example", materials.Plate, 0, map[materials.Property]float64{materials.Ultimate: fu, materials.Yield: fu / 1.5})
	estimate, _ := m.Bearing(ratio, quantity.Celsius(20))
	if estimate.Reason != margin.None || !estimate.Notes.Has(margin.BearingEstimated) {
		t.Fatalf("no estimate: %v", estimate)
	}
	bears := fastener.BearingThickness(quantity.Length(c.Of("t")), 0, quantity.Length(c.Of("sink")))
	if got := estimate.SI * k1 / 2.5 / c.Of("gM2") / float64(fastener.BearingStress(1, quantity.Length(c.Of("d")), bears)); !c.Holds(got) {
		t.Errorf("by the estimate %g N, want %g N", got, c.Value)
	}
}

// leastStrengthIsNoLess: our class is no weaker than the code takes it.
func leastStrengthIsNoLess(t *testing.T, c *verification.Case) {
	name := strings.TrimPrefix(c.Text("class"), "class ")
	class, ok := fastener.LookupClass(name)
	if !ok || float64(class.Ultimate) < c.Of("fub") {
		t.Errorf("class %s: minimum strength %g Pa below the nominal one of the table", name, class.Ultimate)
	}
}
