package materials_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"casewright/margin"
	"casewright/materials"
	"casewright/quantity"
)

func lookup(t testing.TB, name string) *materials.Material {
	t.Helper()
	m, ok := materials.Lookup(name)
	if !ok {
		t.Fatalf("no material %q", name)
	}
	return m
}

// near tells whether two numbers agree but for rounding.
func near(a, b float64) bool { return math.Abs(a-b) <= 1e-9*math.Abs(b) }

// drawMaterial draws a material of the table, or a user's with pairs of
// bearing strengths or without.
func drawMaterial(t *rapid.T) *materials.Material {
	all := materials.All()
	i := rapid.IntRange(0, len(all)+1).Draw(t, "material")
	if i < len(all) {
		return all[i]
	}
	values := map[materials.Property]float64{}
	for p := range materials.NumProperties {
		if rapid.Bool().Draw(t, "known") {
			values[p] = rapid.Float64Range(1, 1e9).Draw(t, p.Key())
		}
	}
	form := rapid.SampledFrom(materials.Forms()).Draw(t, "form")
	return materials.New("mine", "certificate", form, quantity.Celsius(rapid.Float64Range(-50, 300).Draw(t, "at")), values)
}

func drawTemperature(t *rapid.T, label string) quantity.Temperature {
	return quantity.Celsius(rapid.OneOf(rapid.Float64Range(-60, 400), rapid.Float64(), rapid.SampledFrom([]float64{-40, 20, 40, 100, 150, 200, 300, 350, math.NaN(), math.Inf(1), math.Inf(-1)})).Draw(t, label))
}

// whole holds that a reading is either refused, with neither number nor notes,
// or a number.
func whole(t *rapid.T, what string, r materials.Reading) {
	switch refused := r.Reason != margin.None; {
	case refused && !(math.IsNaN(r.SI) && r.Notes == 0):
		t.Fatalf("%s: refused for %q, with %g and notes %v", what, r.Reason.ID(), r.SI, r.Notes.List())
	case !refused && !(r.SI >= 0 && r.SI <= math.MaxFloat64):
		t.Fatalf("%s: %g without a reason", what, r.SI)
	}
}

func TestReadingIsWhole(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m, temperature := drawMaterial(t), drawTemperature(t, "T")
		for p := range materials.NumProperties + 2 {
			whole(t, p.Key(), m.At(p, temperature))
		}
		ultimate, yield := m.Bearing(rapid.Float64().Draw(t, "e/D"), temperature)
		whole(t, "ultimate bearing", ultimate)
		whole(t, "bearing yield", yield)
	})
}

// TestNeverRises holds that no strength, and no modulus, rises with
// temperature, and that none comes back in more heat once it is refused.
func TestNeverRises(t *testing.T) {
	for _, m := range materials.All() {
		for p := range materials.NumProperties {
			before := m.At(p, quantity.Celsius(20))
			for c := 20.0; c <= 400; c += 0.125 {
				now := m.At(p, quantity.Celsius(c))
				if before.Reason == margin.Temperature && now.Reason == margin.None {
					t.Fatalf("%s %s is known again at %g °C", m.Name, p.Key(), c)
				}
				if now.SI > before.SI {
					t.Fatalf("%s %s rises from %g to %g at %g °C", m.Name, p.Key(), before.SI, now.SI, c)
				}
				before = now
			}
		}
	}
}

// TestYieldNotAboveUltimate holds the order of the two strengths at every
// temperature. At 200 °C it binds: the yield strength of 6061-T6 would be
// 0.79 × 240, its ultimate strength is 0.70 × 260.
func TestYieldNotAboveUltimate(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m, temperature := drawMaterial(t), drawTemperature(t, "T")
		yield, ultimate := m.At(materials.Yield, temperature), m.At(materials.Ultimate, temperature)
		if yield.SI > ultimate.SI {
			t.Fatalf("%s: yield %g above ultimate %g", m.Name, yield.SI, ultimate.SI)
		}
	})
	m := lookup(t, "6061-T6 bar")
	if got := m.At(materials.Yield, quantity.Celsius(200)).SI; !near(got, 0.70*260e6) {
		t.Errorf("6061-T6 yield at 200 °C is %g, want that of the ultimate strength", got)
	}
	if got := m.At(materials.Yield, quantity.Celsius(201)); got.Reason != margin.Temperature {
		t.Errorf("6061-T6 yield at 201 °C is %g, though its ultimate strength is not known there", got.SI)
	}
	if got := m.At(materials.Yield, quantity.Celsius(175)).SI; !near(got, (0.91+0.79)/2*240e6) {
		t.Errorf("6061-T6 yield at 175 °C is %g, want the mean of 150 and 200 °C", got)
	}
}

// TestTemperatureLimits tries both sides of each limit of the 6061-T6 curve, of
// a material without a curve and of a user's.
func TestTemperatureLimits(t *testing.T) {
	curve, none := lookup(t, "6061-T6 drawn tube"), lookup(t, "17-4PH H900 bar")
	values := map[materials.Property]float64{materials.Ultimate: 300e6, materials.Poisson: 0.3}
	user := materials.New("mine", "certificate", materials.Bar, quantity.Celsius(120), values)
	plain := materials.New("mine", "certificate", materials.Bar, 0, values)
	for _, c := range []struct {
		name string
		m    *materials.Material
		p    materials.Property
		at   float64 // °C
		want margin.Reason
	}{
		{"curve, cold", curve, materials.Ultimate, -40, margin.None},
		{"curve, too cold", curve, materials.Ultimate, -40.01, margin.Temperature},
		{"curve, last point of ultimate", curve, materials.Ultimate, 200, margin.None},
		{"curve, above it", curve, materials.Ultimate, 200.01, margin.Temperature},
		{"curve, shear goes with ultimate", curve, materials.Shear, 200.01, margin.Temperature},
		{"curve, bearing goes with ultimate", curve, materials.BearingUltimate15, 200.01, margin.Temperature},
		{"curve, yield ends with ultimate", curve, materials.Yield, 200, margin.None},
		{"curve, above it", curve, materials.BearingYield2, 200.01, margin.Temperature},
		{"curve, modulus", curve, materials.Modulus, 200, margin.None},
		{"curve, modulus above", curve, materials.Modulus, 200.01, margin.Temperature},
		{"no curve, cold", none, materials.Yield, -40, margin.None},
		{"no curve, too cold", none, materials.Yield, -40.01, margin.Temperature},
		{"no curve, 40 °C", none, materials.Modulus, 40, margin.None},
		{"no curve, above", none, materials.Modulus, 40.01, margin.Temperature},
		{"constant, hot", none, materials.Density, 500, margin.None},
		{"constant, NaN", none, materials.Expansion, math.NaN(), margin.None},
		{"strength, NaN", none, materials.Yield, math.NaN(), margin.Temperature},
		{"user, up to at", user, materials.Ultimate, 120, margin.None},
		{"user, above", user, materials.Ultimate, 120.01, margin.Temperature},
		{"user, constant", user, materials.Poisson, 120.01, margin.None},
		{"user, too cold", user, materials.Ultimate, -40.01, margin.Temperature},
		{"user without at", plain, materials.Ultimate, 40, margin.None},
		{"user without at, above", plain, materials.Ultimate, 40.01, margin.Temperature},
	} {
		if got := c.m.At(c.p, quantity.Celsius(c.at)).Reason; got != c.want {
			t.Errorf("%s: %s at %g °C: reason %q, want %q", c.name, c.p.Key(), c.at, got.ID(), c.want.ID())
		}
	}
	// Half a millionth of a kelvin above the last point is that point.
	if r := curve.At(materials.Ultimate, quantity.Celsius(200+5e-7)); r.Reason != margin.None || !near(r.SI, 0.70*260e6) {
		t.Errorf("at 200 °C and a bit: %+v", r)
	}
	// The same limit written in °F is the same limit: 392 °F is 200 °C.
	a, err := quantity.Parse(quantity.KindTemperature, "392 °F")
	if err != nil {
		t.Fatal(err)
	}
	if r := curve.At(materials.Ultimate, quantity.Temperature(a.SI())); r.Reason != margin.None {
		t.Errorf("at 392 °F: %s", r.Reason.ID())
	}
}

func TestColdIsFullStrength(t *testing.T) {
	for _, m := range materials.All() {
		for _, p := range m.Properties() {
			v, _ := m.Value(p)
			for _, c := range []float64{-40, -10, 20} {
				if got := m.At(p, quantity.Celsius(c)); got.Reason != margin.None || !near(got.SI, v.SI) {
					t.Errorf("%s %s at %g °C: %g, want %g", m.Name, p.Key(), c, got.SI, v.SI)
				}
			}
		}
	}
}

func TestReasonsInOrder(t *testing.T) {
	values := map[materials.Property]float64{materials.Yield: 50e6}
	for _, f := range []materials.Form{materials.Casting, materials.Polymer, materials.Printed, "tin", ""} {
		m := materials.New("mine", "data sheet", f, 0, values)
		for p := range materials.NumProperties {
			if got := m.At(p, quantity.Celsius(500)).Reason; got != margin.Form {
				t.Errorf("%s %s: reason %q", f, p.Key(), got.ID())
			}
		}
		u, y := m.Bearing(0.5, quantity.Celsius(500))
		if u.Reason != margin.Form || y.Reason != margin.Form {
			t.Errorf("%s bearing: reasons %q and %q", f, u.Reason.ID(), y.Reason.ID())
		}
	}
	m := materials.New("mine", "data sheet", materials.Bar, 0, values)
	if got := m.At(materials.Shear, quantity.Celsius(500)).Reason; got != margin.MissingProperty {
		t.Errorf("missing and hot: reason %q", got.ID())
	}
}

func TestNotes(t *testing.T) {
	user := materials.New("mine", "certificate", materials.Bar, 0, map[materials.Property]float64{materials.Yield: 200e6, materials.Density: 2700})
	typical, remembered := margin.TypicalStrength, margin.RememberedStrength
	for _, c := range []struct {
		m    *materials.Material
		p    materials.Property
		at   float64
		want margin.Notes
	}{
		{lookup(t, "6061-T6 drawn tube"), materials.Yield, 20, 0},                              // characteristic, seen
		{lookup(t, "6061-T6 drawn tube"), materials.Yield, 20.5, margin.Of(remembered)},        // its curve is from memory
		{lookup(t, "6061-T6 drawn tube"), materials.Modulus, 90, 0},                            // not a strength
		{lookup(t, "6061-T6 drawn tube"), materials.BearingYield15, 20, margin.Of(remembered)}, // from memory
		{lookup(t, "6063-T6 extruded tube"), materials.Shear, 20, margin.Of(remembered)},       // estimated
		{lookup(t, "1018 cold drawn bar"), materials.Yield, 20, margin.Of(typical, remembered)},
		{lookup(t, "1018 cold drawn bar"), materials.Density, 20, 0},
		{user, materials.Yield, 20, margin.Of(margin.UserMaterial)},
		{user, materials.Density, 20, margin.Of(margin.UserMaterial)},
	} {
		r := c.m.At(c.p, quantity.Celsius(c.at))
		if r.Reason != margin.None || r.Notes != c.want {
			t.Errorf("%s %s at %g °C: reason %q, notes %v, want %v", c.m.Name, c.p.Key(), c.at, r.Reason.ID(), r.Notes.List(), c.want.List())
		}
	}
}
