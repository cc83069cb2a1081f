package seal_test

import (
	"fmt"
	"math"
	"testing"

	"casewright/quantity"
	"casewright/seal"
)

func ExampleLookupCompound() {
	c, ok := seal.LookupCompound("Buna-N")
	fmt.Println(c.Name, ok)
	fmt.Printf("to %.0f °C\n", c.Limit.Celsius())
	fmt.Println(c.LimitFrom.Status)
	// Output:
	// NBR true
	// to 100 °C
	// seen
}

// TestCompoundsPublished holds the values against those of seal makers. The
// table takes the one that hurts of several sources, so it may be lower in
// Limit, warmer in Least and greater in Expansion, never the other way.
func TestCompoundsPublished(t *testing.T) {
	for _, c := range []struct {
		name      string
		least     float64 // °C; Parker class values, from memory
		limit     float64 // °C; the same
		expansion float64 // 1/K; Parker O-Ring Handbook table, from memory
		page      float64 // °C; pspglobal.com thermal stability table, seen
		grades    float64 // °C; bodeseal.com technical support, standard grades, seen
	}{
		{"NBR", -34, 121, 1.12e-4, 120, 100},
		{"FKM", -26, 204, 1.62e-4, 200, 200},
		{"VMQ", -54, 232, 1.80e-4, 230, 200},
		{"EPDM", -57, 121, 1.60e-4, 150, 130},
	} {
		got, ok := seal.LookupCompound(c.name)
		if !ok {
			t.Errorf("no compound %s", c.name)
			continue
		}
		if want := min(c.limit, c.page, c.grades); !(math.Abs(got.Limit.Celsius()-want) < 1e-9) {
			t.Errorf("%s: to %.4g °C, want %.4g", c.name, got.Limit.Celsius(), want)
		}
		if at := got.Least.Celsius(); !(at > c.least-1e-9 && at < 0) {
			t.Errorf("%s: from %.4g °C, colder than %.4g", c.name, at, c.least)
		}
		// Rubber expands between 1e-4 and 3e-4 a kelvin: common practice, no source.
		if !(got.Expansion > c.expansion*(1-1e-9) && got.Expansion < 3e-4) {
			t.Errorf("%s: expansion %g, less than %g", c.name, got.Expansion, c.expansion)
		}
	}
	if n := len(seal.Compounds()); n != 4 {
		t.Errorf("%d compounds, want 4", n)
	}
}

// TestCompoundTable: nothing is missing, and each value says where it is from.
func TestCompoundTable(t *testing.T) {
	seen := map[string]bool{}
	for _, c := range seal.Compounds() {
		if seen[c.Name] || c.Common == "" {
			t.Errorf("%s (%s), seen before: %v", c.Name, c.Common, seen[c.Name])
		}
		seen[c.Name] = true
		// The maker's rule halves the gap for silicone alone of these.
		share := 1.0
		if c.Name == "VMQ" {
			share = 0.5
		}
		if c.GapShare != share {
			t.Errorf("%s: gap share %v", c.Name, c.GapShare)
		}
		// A static seal bears 30 % of swell (Parker eHandbook, Volume Change).
		if !(c.Swell > 0 && c.Swell <= 0.30) {
			t.Errorf("%s: swell %v", c.Name, c.Swell)
		}
		if !(c.Least < quantity.Celsius(20) && quantity.Celsius(20) < c.Limit) {
			t.Errorf("%s: from %v K to %v K", c.Name, c.Least, c.Limit)
		}
		for _, from := range []seal.Provenance{c.LimitFrom, c.LeastFrom, c.ExpansionFrom, c.SwellFrom, c.GapShareFrom} {
			if from.Source == "" || from.Status != "seen" && from.Status != "memory" {
				t.Errorf("%s: a value from %q, %q", c.Name, from.Source, from.Status)
			}
		}
	}
}

func TestLookupCompound(t *testing.T) {
	for name, want := range map[string]string{
		"NBR": "NBR", "nbr": "NBR", "nitrile": "NBR", "Buna-N": "NBR", "buna n": "NBR",
		"FKM": "FKM", "Fluorocarbon": "FKM", "fluoroelastomer": "FKM",
		"VMQ": "VMQ", "Silicone": "VMQ", "EPDM": "EPDM", "EPM": "EPDM", "ethylene-propylene": "EPDM",

		"": "", "-": "", "rubber": "", "FVMQ": "", "NB": "", "neoprene": "",
	} {
		got, ok := seal.LookupCompound(name)
		if got.Name != want || ok != (want != "") {
			t.Errorf("LookupCompound(%q) = %q, %v; want %q", name, got.Name, ok, want)
		}
	}
}

func FuzzLookupCompound(f *testing.F) {
	for _, seed := range append(seal.CompoundNames(), "nitrile", "Buna-N", "silicone", "\xff", "") {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, name string) {
		c, ok := seal.LookupCompound(name)
		if !ok {
			if c.Name != "" {
				t.Errorf("%q: not found, and yet %s", name, c.Name)
			}
			return
		}
		if again, ok := seal.LookupCompound(c.Name); !ok || again.Name != c.Name {
			t.Errorf("%q is %s, which is %q, %v", name, c.Name, again.Name, ok)
		}
	})
}
