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

func ExampleLookupClass() {
	c, ok := fastener.LookupClass("SAE grade 5")
	fmt.Println(c.Name, ok)
	fmt.Printf("R_m = %.0f MPa, α_v = %.1f\n", c.Ultimate/quantity.Megapascal, c.ShearThreads)
	// Output:
	// SAE 5 true
	// R_m = 827 MPa, α_v = 0.6
}

func ExampleSteelStrengthRatio() {
	ratio, reason := fastener.SteelStrengthRatio(quantity.Celsius(120))
	fmt.Printf("%.3f %q\n", ratio, reason.ID())
	ratio, reason = fastener.SteelStrengthRatio(quantity.Celsius(350))
	fmt.Printf("%.3f %q\n", ratio, reason.ID())
	// Output:
	// 0.962 ""
	// NaN "screw_temperature"
}

// TestClassTable holds the table against slips.
func TestClassTable(t *testing.T) {
	list := fastener.Classes()
	if len(list) != 18 || len(fastener.ClassNames()) != 18 {
		t.Fatalf("%d classes, %d names; want 18", len(list), len(fastener.ClassNames()))
	}
	seen := map[string]bool{}
	for _, c := range list {
		if seen[c.Name] {
			t.Errorf("%s twice", c.Name)
		}
		seen[c.Name] = true
		if c.ShearThreads != 0.5 && c.ShearThreads != 0.6 || c.ShearShank != 0.6 {
			t.Errorf("%s: shear factors %v and %v", c.Name, c.ShearThreads, c.ShearShank)
		}
		if !(c.Yield > 200*quantity.Megapascal && c.Yield < c.Ultimate && c.Ultimate < 1300*quantity.Megapascal) {
			t.Errorf("%s: yield %g, ultimate %g", c.Name, c.Yield, c.Ultimate)
		}
		stainless := c.Standard == "ISO 3506-1"
		if stainless != (c.Proof == 0) || !(c.Proof < c.Yield) {
			t.Errorf("%s: proof stress %g, yield %g", c.Name, c.Proof, c.Yield)
		}
		if want := map[string]string{"A2": "304", "A4": "316"}[c.Name[:2]]; c.Curve != want || stainless != (want != "") {
			t.Errorf("%s of %s: curve %q, want %q", c.Name, c.Standard, c.Curve, want)
		}
		if !(0 < c.MinDiameter && c.MinDiameter < c.MaxDiameter) {
			t.Errorf("%s: for %g to %g m", c.Name, c.MinDiameter, c.MaxDiameter)
		}
		if c.Standard == "" {
			t.Errorf("%s: no standard", c.Name)
		}
	}
}

// TestClassNotes names the classes with a note of their own. EN 1993-1-8 table
// 3.4, from memory, lists neither 12.9 nor American grades: they take the
// factor of the class they are most like. 12.9 and A574 stretch little.
func TestClassNotes(t *testing.T) {
	like := map[string]string{"12.9": "10.9", "SAE 2": "4.6", "SAE 5": "8.8", "SAE 8": "10.9", "ASTM A574": "10.9"}
	brittle := map[string]bool{"12.9": true, "ASTM A574": true}
	for _, c := range fastener.Classes() {
		model, analogy := fastener.LookupClass(like[c.Name])
		if c.ByAnalogy != analogy {
			t.Errorf("%s: by analogy %v", c.Name, c.ByAnalogy)
		}
		if analogy && c.ShearThreads != model.ShearThreads {
			t.Errorf("%s: shear factor %v, not that of %s", c.Name, c.ShearThreads, model.Name)
		}
		if c.LowDuctility != brittle[c.Name] {
			t.Errorf("%s: low ductility %v", c.Name, c.LowDuctility)
		}
	}
}

func TestLookupClass(t *testing.T) {
	for name, want := range map[string]string{
		"12.9": "12.9", " 8.8 ": "8.8", "A2-70": "A2-70", "a2–70": "A2-70", "sae5": "SAE 5", "SAE grade 5": "SAE 5", "SAE Grade 8": "SAE 8",
		"ASTM A574": "ASTM A574", "a574": "ASTM A574",

		"": "", "12": "", "12.90": "", "129": "", "A2": "", "A2-7": "", "SAE": "", "SAE grade": "", "grade 5": "", "5": "", "ASTM": "", "ASTM 12.9": "", "SAE grade grade 5": "",
	} {
		got, ok := fastener.LookupClass(name)
		if got.Name != want || ok != (want != "") {
			t.Errorf("LookupClass(%q) = %q, %v; want %q", name, got.Name, ok, want)
		}
	}
}

func TestSteelStrengthRatioEnds(t *testing.T) {
	for _, c := range []struct {
		celsius float64
		ratio   float64 // NaN: refused
	}{
		{-273.15, math.NaN()},
		{-40.01, math.NaN()},
		{-40, 1},
		{0, 1},
		{20, 1},
		{60, 0.984},  // half way from 1 to 0.968
		{250, 0.919}, // half way from 0.935 to 0.903
		{300, 0.903},
		{300.01, math.NaN()},
		{400, math.NaN()},
		{math.Inf(1), math.NaN()},
		{math.Inf(-1), math.NaN()},
		{math.NaN(), math.NaN()},
	} {
		got, reason := fastener.SteelStrengthRatio(quantity.Celsius(c.celsius))
		if math.IsNaN(c.ratio) {
			if reason != margin.ScrewTemperature || !math.IsNaN(got) {
				t.Errorf("%v °C: %v, %q; want it refused", c.celsius, got, reason.ID())
			}
			continue
		}
		if reason != margin.None || !(math.Abs(got-c.ratio) < 1e-9) {
			t.Errorf("%v °C: %v, %q; want %v", c.celsius, got, reason.ID(), c.ratio)
		}
	}
	// The limits as a design file gives them.
	for _, text := range []string{"-40 °C", "300 °C", "572 °F"} {
		at, err := quantity.Parse(quantity.KindTemperature, text)
		if err != nil {
			t.Fatal(err)
		}
		if _, reason := fastener.SteelStrengthRatio(quantity.Temperature(at.SI())); reason != margin.None {
			t.Errorf("%s: %q", text, reason.ID())
		}
	}
}

// TestSteelStrengthRatioFalls: hotter is never stronger.
func TestSteelStrengthRatioFalls(t *testing.T) {
	degrees := rapid.Float64Range(-40, 300)
	rapid.Check(t, func(t *rapid.T) {
		a, b := degrees.Draw(t, "a"), degrees.Draw(t, "b")
		cool, why := fastener.SteelStrengthRatio(quantity.Celsius(min(a, b)))
		hot, why2 := fastener.SteelStrengthRatio(quantity.Celsius(max(a, b)))
		if why != margin.None || why2 != margin.None || !(hot <= cool && cool <= 1 && hot >= 0.9) {
			t.Fatalf("%v °C: %v %q, %v °C: %v %q", min(a, b), cool, why.ID(), max(a, b), hot, why2.ID())
		}
	})
}

func FuzzLookupClass(f *testing.F) {
	for _, seed := range append(fastener.ClassNames(), "SAE grade 5", "A574", "astm", "\xff", "A2−70") {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, name string) {
		c, ok := fastener.LookupClass(name)
		if !ok {
			if c.Name != "" {
				t.Errorf("%q: not found, and yet %s", name, c.Name)
			}
			return
		}
		if again, ok := fastener.LookupClass(c.Name); !ok || again.Name != c.Name {
			t.Errorf("%q is %s, which is %q, %v", name, c.Name, again.Name, ok)
		}
	})
}
