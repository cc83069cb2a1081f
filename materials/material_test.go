package materials_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"casewright/margin"
	"casewright/materials"
	"casewright/quantity"
)

// TestNames holds the names that design files use.
func TestNames(t *testing.T) {
	for _, name := range []string{
		"6061-T6 drawn tube", "6061-T6 extruded tube", "6061-T6 bar", "6063-T6 extruded tube",
		"EN AW-6082-T6 extruded tube", "EN AW-6082-T6 bar", "EN AW-6060-T66 extruded tube",
		"2024-T3 drawn tube", "7075-T6 bar", "4130 normalised tube", "4130 normalised bar", "1018 cold drawn bar",
		"304 annealed tube", "304 annealed bar", "316 annealed tube", "316 annealed bar",
		"17-4PH H900 bar", "17-4PH H1025 bar", "C360 brass bar",
	} {
		m, ok := materials.Lookup("  " + strings.ToUpper(strings.ReplaceAll(name, " ", "\t ")) + "\n")
		if !ok || m.Name != name || m.User {
			t.Errorf("Lookup(%q): %v", name, m)
		}
		if !slices.Contains(materials.Names(), name) {
			t.Errorf("Names lacks %q", name)
		}
		if strings.HasSuffix(name, "bar") != (m.Form == materials.Bar) {
			t.Errorf("%s has the form %q", name, m.Form)
		}
	}
	if len(materials.Names()) != len(materials.All()) {
		t.Error("Names and All differ")
	}
	for _, name := range []string{"", " ", "6061", "6061-T6drawn tube", "6061-T6 drawn tube x"} {
		if m, ok := materials.Lookup(name); ok || m != nil {
			t.Errorf("Lookup(%q) found %v", name, m)
		}
	}
}

// TestListsAreCopies holds that a caller may sort or cut what it is given.
func TestListsAreCopies(t *testing.T) {
	materials.All()[0] = nil
	materials.Names()[0] = ""
	materials.Curves()[0] = nil
	materials.Forms()[0] = ""
	r, ok := materials.Curve("6061-t6")
	if !ok || materials.All()[0] == nil || materials.Names()[0] == "" || materials.Curves()[0] == nil || materials.Forms()[0] == "" {
		t.Fatal("a list is shared")
	}
	r.Points(materials.Yield)[1].Ratio = 0
	if r.Points(materials.Yield)[1].Ratio == 0 {
		t.Fatal("the points are shared")
	}
}

func FuzzLookup(f *testing.F) {
	for _, name := range materials.Names() {
		f.Add(name)
	}
	f.Add("\xff\u00a0ẞİ")
	f.Fuzz(func(t *testing.T, name string) {
		m, ok := materials.Lookup(name)
		if ok != (m != nil) {
			t.Fatal("found and nothing")
		}
		if ok && !strings.EqualFold(strings.Join(strings.Fields(name), " "), m.Name) {
			t.Fatalf("%q found %q", name, m.Name)
		}
		materials.Curve(name)
		if form, ok := materials.ParseForm(name); ok != (form != "") {
			t.Fatal("form and nothing")
		}
	})
}

func TestForms(t *testing.T) {
	for _, f := range materials.Forms() {
		if got, ok := materials.ParseForm(" " + strings.ToUpper(string(f)) + " "); !ok || got != f {
			t.Errorf("ParseForm(%q): %q", f, got)
		}
		weak := f == materials.Casting || f == materials.Polymer || f == materials.Printed
		if f.HoldsPressure() == weak {
			t.Errorf("%s holds pressure: %v", f, f.HoldsPressure())
		}
		if f.MayHaveSeams() != (f == materials.ExtrudedTube) {
			t.Errorf("%s may have seams: %v", f, f.MayHaveSeams())
		}
	}
	for _, text := range []string{"", "tube", "drawntube"} {
		if f, ok := materials.ParseForm(text); ok || f != "" || materials.Form(text).HoldsPressure() {
			t.Errorf("ParseForm(%q): %q", text, f)
		}
	}
}

func TestProperties(t *testing.T) {
	keys := map[string]bool{}
	for p := range materials.NumProperties {
		if p.Key() == "" || p.Symbol() == "" || p.Meaning() == "" || keys[p.Key()] {
			t.Errorf("property %d: key %q, symbol %q, meaning %q", p, p.Key(), p.Symbol(), p.Meaning())
		}
		keys[p.Key()] = true
		f, changes := p.Follows()
		if changes != (p.IsStrength() || p == materials.Modulus) {
			t.Errorf("%s changes with temperature: %v", p.Key(), changes)
		}
		if g, _ := f.Follows(); g != f || changes && f.Kind() != p.Kind() {
			t.Errorf("%s follows %s", p.Key(), f.Key())
		}
	}
	bad := materials.NumProperties
	if _, ok := bad.Follows(); ok || bad.Key() != "" || bad.IsStrength() {
		t.Error("a property that does not exist has a key, follows a curve or is a strength")
	}
}

func TestNew(t *testing.T) {
	m := materials.New("my tube", "certificate 17", materials.DrawnTube, 0, map[materials.Property]float64{
		materials.Yield: 250e6, materials.Ultimate: 290e6, materials.Poisson: 0.33, materials.Expansion: 23.6e-6,
		materials.Elongation: 0, materials.Shear: 0, materials.Modulus: math.NaN(), materials.Density: -1,
		materials.Conductivity: math.Inf(1), materials.NumProperties: 1, 255: 1,
	})
	if !m.User || m.Curve != "" || m.Name != "my tube" || m.Form != materials.DrawnTube {
		t.Errorf("New: %+v", m)
	}
	want := []materials.Property{materials.Yield, materials.Ultimate, materials.Poisson, materials.Expansion, materials.Elongation}
	if diff := cmp.Diff(want, m.Properties()); diff != "" {
		t.Error(diff)
	}
	v, ok := m.Value(materials.Yield)
	if diff := cmp.Diff(materials.Value{SI: 250e6, Text: "250 MPa", Source: "certificate 17"}, v); !ok || diff != "" {
		t.Error(diff)
	}
	for p, want := range map[materials.Property]string{materials.Poisson: "0.33", materials.Expansion: "2.36e-05 /K", materials.Elongation: "0"} {
		if v, _ := m.Value(p); v.Text != want {
			t.Errorf("%s is written %q, want %q", p.Key(), v.Text, want)
		}
	}
	if r := m.At(materials.Modulus, quantity.Celsius(20)); r.Reason != margin.MissingProperty {
		t.Errorf("a modulus that is not a number: reason %q", r.Reason.ID())
	}
	if _, ok := m.Value(materials.NumProperties); ok {
		t.Error("a property that does not exist is known")
	}
	if _, ok := materials.Lookup("my tube"); ok {
		t.Error("a user's material is in the table")
	}
}
