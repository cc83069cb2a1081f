package materials_test

import (
	"math"
	"testing"

	"casewright/margin"
	"casewright/materials"
	"casewright/quantity"
)

// TestBetweenPoints checks the straight line between two points: EN 1999-1-2
// Table 1, 6061-T6, 0.95 at 100 and 0.91 at 150 °C; EN 1993-1-2 Annex C,
// 1.4401, k_u 0.93 at 100 and 0.87 at 200 °C; both from memory.
func TestBetweenPoints(t *testing.T) {
	for _, c := range []struct {
		curve string
		p     materials.Property
		at    float64
		want  float64
	}{
		{"6061-T6", materials.Yield, 60, 0.975},
		{"6061-T6", materials.BearingYield2, 125, 0.93},
		{"316", materials.Ultimate, 150, 0.90},
		{"316", materials.Shear, 175, 0.885},
		{"316", materials.Ultimate, -40, 1},
		{"316", materials.Poisson, 150, 1},
	} {
		r, ok := materials.Curve(c.curve)
		if !ok {
			t.Fatalf("no curve %q", c.curve)
		}
		if got := r.At(c.p, quantity.Celsius(c.at)); got.Reason != margin.None || !near(got.SI, c.want) {
			t.Errorf("%s %s at %g °C: %g, want %g", c.curve, c.p.Key(), c.at, got.SI, c.want)
		}
	}
}

// TestOutsidePoints holds that a curve tells nothing outside its points. The
// stainless ones serve screws too: they end at 300 °C.
func TestOutsidePoints(t *testing.T) {
	for _, name := range []string{"304", "316"} {
		r, ok := materials.Curve(name)
		if !ok {
			t.Fatalf("no curve %q", name)
		}
		if got := r.At(materials.Ultimate, quantity.Celsius(300)); got.Reason != margin.None || !got.Notes.Has(margin.RememberedStrength) {
			t.Errorf("%s at 300 °C: %+v", name, got)
		}
		for _, c := range []float64{300.01, -40.01, math.NaN(), math.Inf(1), math.Inf(-1)} {
			if got := r.At(materials.Ultimate, quantity.Celsius(c)); got.Reason != margin.Temperature || !math.IsNaN(got.SI) {
				t.Errorf("%s at %g °C: %+v", name, c, got)
			}
		}
		if got := r.Points(materials.Density); got != nil {
			t.Errorf("%s has points of density: %v", name, got)
		}
	}
	empty := &materials.Retention{Name: "empty"}
	for c, want := range map[float64]margin.Reason{-41: margin.Temperature, 20: margin.None, 40: margin.None, 41: margin.Temperature} {
		if got := empty.At(materials.Yield, quantity.Celsius(c)).Reason; got != want {
			t.Errorf("a curve without points at %g °C: reason %q, want %q", c, got.ID(), want.ID())
		}
	}
	if _, ok := materials.Curve("tin"); ok {
		t.Error("there is a curve of tin")
	}
}

// TestNoAllocation holds that reading a property costs no memory: a motor is
// evaluated many times over.
func TestNoAllocation(t *testing.T) {
	m := lookup(t, "6061-T6 drawn tube")
	if n := testing.AllocsPerRun(100, func() {
		m.At(materials.Yield, quantity.Celsius(90))
		m.Bearing(1.7, quantity.Celsius(90))
	}); n != 0 {
		t.Errorf("%g allocations", n)
	}
}

// TestUltimateFallsFaster holds how the ultimate ratios of the 6000 alloys are
// built: the proof ratio of EN 1999-1-2 Table 1 times the quotient of the
// typical ultimate and yield ratios of 6061-T6, (290/310)/(262/276) at 100 and
// (234/310)/(214/276) at 149 °C (Aluminum Association, from memory), and at
// 200 °C 0.70 of MIL-HDBK-5J Figure 3.6.2.2.1 (from memory) to 0.79; never
// above, and less by rounding and by other sources at most.
func TestUltimateFallsFaster(t *testing.T) {
	for _, name := range []string{"6061-T6", "6063-T6", "6082-T6"} {
		r, ok := materials.Curve(name)
		if !ok {
			t.Fatalf("no curve %q", name)
		}
		for _, c := range []struct{ at, quotient, less float64 }{
			{100, (290.0 / 310) / (262.0 / 276), 0.010},
			{150, (234.0 / 310) / (214.0 / 276), 0.001},
			{200, 0.70 / 0.79, 0.001},
		} {
			want := r.At(materials.Yield, quantity.Celsius(c.at)).SI * c.quotient
			if got := r.At(materials.Ultimate, quantity.Celsius(c.at)).SI; !(got <= want+1e-12 && got >= want-c.less) {
				t.Errorf("%s at %g °C: %g, want %.4f rounded down", name, c.at, got, want)
			}
		}
	}
}

// TestNoSuchPropertyFollowsNoCurve: a number that is no property has the ratio
// of one that follows no curve, 1.
func TestNoSuchPropertyFollowsNoCurve(t *testing.T) {
	for _, r := range materials.Curves() {
		for _, p := range []materials.Property{materials.NumProperties, 255} {
			if got := r.At(p, quantity.Celsius(150)); got.Reason != margin.None || got.SI != 1 {
				t.Errorf("%s, property %d: %g, %q", r.Name, p, got.SI, got.Reason.ID())
			}
		}
	}
}
