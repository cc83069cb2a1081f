package materials_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"casewright/margin"
	"casewright/materials"
	"casewright/quantity"
)

var room = quantity.Celsius(20)

// TestBearingPublished checks the rules between published strengths with those
// of 7075-T6 rolled bar, 100 and 123, 86 and 92 ksi (MIL-HDBK-5J Table 3.7.6.0,
// from memory). The rules: MIL-HDBK-5J 1.4.7.1; below e/D 1.5 ours.
func TestBearingPublished(t *testing.T) {
	m := lookup(t, "7075-T6 bar")
	dry, edge := margin.Of(margin.DryPins, margin.RememberedStrength), margin.Of(margin.EdgeBelow15)
	for _, c := range []struct {
		eOverD, ultimate, yield float64 // ksi
		notes                   margin.Notes
	}{
		{1, 100 / 1.5, 86 / 1.5, dry | edge},
		{1.2, 80, 68.8, dry | edge},
		{1.49, 100 * 1.49 / 1.5, 86 * 1.49 / 1.5, dry | edge},
		{1.5, 100, 86, dry},
		{1.75, 111.5, 89, dry},
		{2, 123, 92, dry},
		{2.01, 123, 92, dry},
		{math.Inf(1), 123, 92, dry},
	} {
		ultimate, yield := m.Bearing(c.eOverD, room)
		ksi := float64(quantity.KSI)
		if !near(ultimate.SI, c.ultimate*ksi) || !near(yield.SI, c.yield*ksi) {
			t.Errorf("e/D %g: %g and %g ksi, want %g and %g", c.eOverD, ultimate.SI/ksi, yield.SI/ksi, c.ultimate, c.yield)
		}
		if ultimate.Notes != c.notes || yield.Notes != c.notes {
			t.Errorf("e/D %g: notes %v and %v, want %v", c.eOverD, ultimate.Notes.List(), yield.Notes.List(), c.notes.List())
		}
	}
}

// TestBearingEstimated checks the estimate after EN 1999-1-1 8.5.5 with the
// tensile strengths 160 and 195 MPa of 6063-T6 (EN 1999-1-1 Table 3.2b, seen).
func TestBearingEstimated(t *testing.T) {
	m := lookup(t, "6063-T6 extruded tube")
	for _, c := range []struct{ eOverD, ultimate, yield float64 }{ // MPa
		{1, 2.5 / 3 * 195, 1.5 / 2 * 160},
		{1.5, 1.25 * 195, 1.125 * 160},
		{2, 2.5 * 2 / 3 * 195, 1.5 * 160},
		{3, 2.5 * 195, 1.5 * 160},
		{4, 2.5 * 195, 1.5 * 160},
	} {
		ultimate, yield := m.Bearing(c.eOverD, room)
		if !near(ultimate.SI, c.ultimate*1e6) || !near(yield.SI, c.yield*1e6) {
			t.Errorf("e/D %g: %g and %g, want %g and %g MPa", c.eOverD, ultimate.SI, yield.SI, c.ultimate, c.yield)
		}
		want := margin.Of(margin.DryPins, margin.BearingEstimated)
		if c.eOverD < 1.5 {
			want |= margin.Of(margin.EdgeBelow15)
		}
		if ultimate.Notes != want || yield.Notes != want {
			t.Errorf("e/D %g: notes %v and %v", c.eOverD, ultimate.Notes.List(), yield.Notes.List())
		}
	}
}

// TestBearingRefused holds that nothing is told below e/D 1.0, of half a
// material, or in too much heat. A ratio of two equal sizes is 1 whatever the
// last place says.
func TestBearingRefused(t *testing.T) {
	m := lookup(t, "6061-T6 drawn tube")
	for _, eOverD := range []float64{0.999, 0.5, 0, -1, math.Inf(-1), math.NaN()} {
		u, y := m.Bearing(eOverD, room)
		if u.Reason != margin.EdgeBelow1 || y.Reason != margin.EdgeBelow1 {
			t.Errorf("e/D %g: reasons %q and %q", eOverD, u.Reason.ID(), y.Reason.ID())
		}
	}
	if u, _ := m.Bearing(math.Nextafter(1, 0), room); u.Reason != margin.None {
		t.Errorf("one unit in the last place below 1: %q", u.Reason.ID())
	}
	if u, _ := m.Bearing(math.Nextafter(1.5, 0), room); u.Notes.Has(margin.EdgeBelow15) {
		t.Error("one unit in the last place below 1.5 has the note")
	}
	u, y := m.Bearing(2, quantity.Celsius(300))
	if u.Reason != margin.Temperature || y.Reason != margin.Temperature {
		t.Errorf("at 300 °C: reasons %q and %q", u.Reason.ID(), y.Reason.ID())
	}
	half := materials.New("mine", "certificate", materials.Bar, 0, map[materials.Property]float64{materials.Yield: 100e6, materials.BearingUltimate15: 300e6})
	u, y = half.Bearing(2, room)
	if u.Reason != margin.MissingProperty || y.Reason != margin.None || !y.Notes.Has(margin.BearingEstimated) {
		t.Errorf("half a pair, no ultimate strength: reasons %q and %q", u.Reason.ID(), y.Reason.ID())
	}
}

// TestBearingInOrder holds that a bearing strength never falls as the edge goes
// away and never rises with heat, and that in the table yield is not above
// ultimate.
func TestBearingInOrder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := materials.All()[rapid.IntRange(0, len(materials.All())-1).Draw(t, "material")]
		a := rapid.Float64Range(0.9, 4).Draw(t, "e/D")
		b := rapid.Float64Range(a, 4).Draw(t, "greater e/D")
		cool := rapid.Float64Range(20, 360).Draw(t, "cooler")
		hot := rapid.Float64Range(cool, 360).Draw(t, "hotter")
		u1, y1 := m.Bearing(a, quantity.Celsius(cool))
		u2, y2 := m.Bearing(b, quantity.Celsius(cool))
		u3, y3 := m.Bearing(a, quantity.Celsius(hot))
		const rounding = 1 + 1e-12
		if u1.SI > u2.SI*rounding || y1.SI > y2.SI*rounding {
			t.Fatalf("%s falls from %g, %g to %g, %g", m.Name, u1.SI, y1.SI, u2.SI, y2.SI)
		}
		if u3.SI > u1.SI*rounding || y3.SI > y1.SI*rounding {
			t.Fatalf("%s rises from %g, %g to %g, %g", m.Name, u1.SI, y1.SI, u3.SI, y3.SI)
		}
		if y1.SI > u1.SI {
			t.Fatalf("%s: bearing yield %g above ultimate %g", m.Name, y1.SI, u1.SI)
		}
	})
}
