package fastener_test

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"casewright/fastener"
	"casewright/margin"
	"casewright/margin/reference"
	"casewright/materials"
	"casewright/quantity"
)

// classOf returns the class of a row; "class 8.8" keeps it from being a number.
func classOf(t *testing.T, row reference.Row) fastener.Class {
	t.Helper()
	name := strings.TrimPrefix(row.Word(t, "class"), "class ")
	c, ok := fastener.LookupClass(name)
	if !ok {
		t.Fatalf("%s: no class %q", row.ID, name)
	}
	return c
}

// TestEurocodeJoints holds the shapes of our formulas against worked examples
// and tables of EN 1993-1-8, whose names stand in the table of values.
func TestEurocodeJoints(t *testing.T) {
	reference.Run(t, "../testdata/reference/eurocode_joints.csv", map[string]func(*testing.T, reference.Row){
		"bearing resistance":                     bearingResistance,
		"shear resistance, threads in the plane": shearResistance,
		"group of bolts at 0.8 of each": func(t *testing.T, row reference.Row) {
			// The code's 0.8 of a group is our share of 1.25: at the group's
			// resistance the hardest-loaded bolt carries its own.
			hardest := fastener.ScrewLoad(quantity.Force(row.Value), 1.25, row.Input(t, "ns"))
			if want := row.Input(t, "Fv"); math.Abs(float64(hardest)/want-1) > row.Tolerance {
				t.Errorf("hardest bolt %g N, want %g N", hardest, want)
			}
		},
		"least pitch over hole": func(t *testing.T, row reference.Row) {
			got, err := strconv.ParseFloat(fastener.Pitch.Default, 64)
			if err != nil {
				t.Fatal(err)
			}
			row.Close(t, got)
		},
	})
}

// bearingResistance is F = k1 αb fu d t/γ of table 3.4, with t less half of a
// countersink: as a stress on d t it must be k1 αb fu/γ.
func bearingResistance(t *testing.T, row reference.Row) {
	d, d0 := quantity.Length(row.Input(t, "d")), row.Input(t, "d0")
	fu, safety := row.Input(t, "fu"), row.Input(t, "gM2")
	alpha, k1 := 1.0, 2.5
	for _, name := range []string{"e1", "p1", "e2", "p2"} {
		if !row.Has(name) {
			continue
		}
		over := row.Input(t, name) / d0
		switch name {
		case "e1":
			alpha = min(alpha, over/3)
		case "p1":
			alpha = min(alpha, over/3-0.25)
		case "e2":
			k1 = min(k1, 2.8*over-1.7)
		case "p2":
			k1 = min(k1, 1.4*over-1.7)
		}
	}
	bears := fastener.BearingThickness(quantity.Length(row.Input(t, "t")), 0, quantity.Length(row.Input(t, "sink")))
	strength := k1 * alpha * fu / safety
	row.Close(t, strength/float64(fastener.BearingStress(1, d, bears)))

	// Where the end distance governs and the rest is wide, our estimate for a
	// material without bearing strengths is the same.
	if row.Has("e1") && alpha == row.Input(t, "e1")/d0/3 {
		m := materials.New("plate", "the example", materials.Plate, 0, map[materials.Property]float64{
			materials.Ultimate: fu, materials.Yield: fu / 1.5,
		})
		estimate, _ := m.Bearing(row.Input(t, "e1")/d0, quantity.Celsius(20))
		if estimate.Reason != margin.None || !estimate.Notes.Has(margin.BearingEstimated) {
			t.Fatalf("no estimate: %v", estimate)
		}
		row.Close(t, estimate.SI*k1/2.5/safety/float64(fastener.BearingStress(1, d, bears)))
	}
}

// shearResistance is F = αv fub As/γ of table 3.4, αv by the class.
func shearResistance(t *testing.T, row reference.Row) {
	c := classOf(t, row)
	f := fastener.Shear(c.ShearThreads, quantity.Pressure(row.Input(t, "fub")), quantity.Area(row.Input(t, "As")))
	row.Close(t, float64(f)*row.Input(t, "reduction")/row.Input(t, "gM2"))
	if float64(c.Ultimate) < row.Input(t, "fub") {
		t.Errorf("class %s: minimum strength %g Pa below the nominal one of the table", c.Name, c.Ultimate)
	}
}
