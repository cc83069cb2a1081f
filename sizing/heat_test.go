package sizing_test

import (
	"fmt"
	"math"
	"os"
	"strings"
	"testing"

	"casewright"
	"casewright/materials"
	"casewright/quantity"
	"casewright/sizing"
)

func hotDesign(t *testing.T, pairs ...string) *casewright.Design {
	t.Helper()
	text, err := os.ReadFile("../testdata/designs/basalt64-hot.toml")
	if err != nil {
		t.Fatal(err)
	}
	for i := 0; i < len(pairs); i += 2 {
		if !strings.Contains(string(text), pairs[i]) {
			t.Fatalf("the design has no %q", pairs[i])
		}
	}
	d, err := casewright.Read("hot.toml", []byte(strings.NewReplacer(pairs...).Replace(string(text))))
	if err != nil {
		t.Fatal(err)
	}
	return d
}

// Each remedy that is said to be enough is, written into the design; a step less
// is not.
func TestRemedies(t *testing.T) {
	overheats := []string{`compound = "FKM"`, `compound = "NBR"`, `film_coefficient = "300 W/(m² K)"`, `film_coefficient = "2500 W/(m² K)"`, `cover_thickness = "3 mm"`, `cover_thickness = "1 mm"`}
	a, err := sizing.AnswerHeat(hotDesign(t, overheats...))
	if err != nil {
		t.Fatal(err)
	}
	s := &a.Seals[0]
	if s.Spare >= 0 || math.IsNaN(s.Over) || a.Holds() || len(s.Remedies) == 0 {
		t.Fatalf("%+v", s)
	}
	tried := 0
	for _, r := range s.Remedies {
		if !r.Enough || r.Key != "end.heat.cover_thickness" {
			continue
		}
		tried++
		for less, holds := range map[float64]bool{0: true, 0.5e-3: false} {
			mm := fmt.Sprintf("%.2f mm", 1e3*(r.To-less))
			d := hotDesign(t, `compound = "FKM"`, `compound = "NBR"`, `film_coefficient = "300 W/(m² K)"`, `film_coefficient = "2500 W/(m² K)"`, `cover_thickness = "3 mm"`, `cover_thickness = "`+mm+`"`)
			b, err := sizing.AnswerHeat(d)
			if err != nil {
				t.Fatal(err)
			}
			if (b.Seals[0].Spare >= 0) != holds {
				t.Errorf("a cover of %s: %g K to spare", mm, b.Seals[0].Spare)
			}
		}
	}
	if tried == 0 {
		t.Errorf("no cover is advised: %+v", s.Remedies)
	}
}

// A fit to what the design itself computes finds the design's own numbers.
func TestCalibrate(t *testing.T) {
	own := []string{`material = "paper tube"`, "conductivity = \"0.15 W/(m K)\"\ndensity = \"1150 kg/m³\"\nspecific_heat = \"1400 J/(kg K)\""}
	d := hotDesign(t, own...)
	h, err := d.Heated()
	if err != nil {
		t.Fatal(err)
	}
	text := func(k float64) string { return casewright.Kelvins(quantity.Temperature(k)).String() }
	measured := "[heat.measured]\nwall_outside = \"" + text(float64(h.Peak(h.WallOutside).Temperature)) + "\"\nhot_face = \"" + text(float64(h.Peak(h.HotFace).Temperature)) + "\"\n"
	d = hotDesign(t, append(own, "[[heat.layer]]", measured+"\n[[heat.layer]]")...)
	f, err := sizing.Calibrate(d, nil)
	if err != nil {
		t.Fatal(err)
	}
	if math.Abs(f.Film/800-1) > 0.02 || math.Abs(f.Conductivity/0.15-1) > 0.02 {
		t.Errorf("film %g W/(m² K), conductivity %g W/(m K)", f.Film, f.Conductivity)
	}
	for _, r := range f.Residuals {
		if !r.Explained || sizing.PlaceName(d, r.Place) == "" {
			t.Errorf("%+v", r)
		}
	}
	if !sizing.Measured(d) || sizing.Measured(hotDesign(t)) {
		t.Error("what is measured is not seen")
	}
}

// A layer that is named by its material conducts the most that it is met with,
// in what is computed as in what is advised; a fit looks between its bounds.
func TestLayersConductTheMost(t *testing.T) {
	paper, ok := materials.LookupLayer("paper tube")
	if !ok || !(paper.Most > paper.Conductivity) {
		t.Fatalf("%+v", paper)
	}
	m, err := hotDesign(t).HeatMotor()
	if err != nil {
		t.Fatal(err)
	}
	if got := m.Layers[0].Solid.Conductivity; got != paper.Most {
		t.Errorf("the liner conducts %g W/(m K), not %g", got, paper.Most)
	}
	cover, _ := materials.LookupLayer("phenolic paper tube")
	if got := m.Ends[0].Cover.Solid.Conductivity; got != cover.Most {
		t.Errorf("the cover conducts %g W/(m K), not %g", got, cover.Most)
	}
	peak := func(pairs ...string) float64 {
		h, err := hotDesign(t, pairs...).Heated()
		if err != nil {
			t.Fatal(err)
		}
		return float64(h.Peak(h.WallInside).Temperature)
	}
	typical := peak(`material = "paper tube"`, "conductivity = \"0.15 W/(m K)\"\ndensity = \"1150 kg/m³\"\nspecific_heat = \"1400 J/(kg K)\"")
	if worst := peak(); !(worst > typical+10) {
		t.Errorf("the wall gets %g K hot, with a typical liner %g K", worst, typical)
	}
}

// What is sized in a design with heat is sized hot: cold, the wall would be
// thinner.
func TestSizedHot(t *testing.T) {
	text := `format = 1
[motor]
name = "Flint"
pressure = "2 MPa"
burn_time = "2 s"
[tube]
outside_diameter = "54 mm"
wall = "?"
length = "400 mm"
material = "6061-T6 drawn tube"
`
	hot := `[heat]
gas_temperature = "2300 K"
film_coefficient = "300 W/(m² K)"
outside_film = "10 W/(m² K)"
bare = true
`
	least := func(text string) float64 {
		d, unknowns, err := casewright.ReadOpen("flint.toml", []byte(text))
		if err != nil {
			t.Fatal(err)
		}
		a, err := sizing.Fill(d, unknowns, nil, 0)
		if err != nil || !a.Holds() {
			t.Fatal(err)
		}
		return a.Values[0].Exact.Nominal().InexactFloat64()
	}
	if cold, warm := least(text), least(text+hot); !(warm > 1.5*cold) {
		t.Errorf("a wall of %g m cold, %g m hot", cold, warm)
	}
}

// Rings behind the holes of the screws seal nothing; and what is written stands
// beside what the file says, not beside the least that is computed.
func TestRemediesCanBeBuilt(t *testing.T) {
	d := hotDesign(t, `compound = "FKM"`, `compound = "NBR"`, `burn_time = "2.5 s"`, `burn_time = "8 s"`)
	a, err := sizing.AnswerHeat(d)
	if err != nil {
		t.Fatal(err)
	}
	moved, thicker := false, false
	for i := range a.Seals {
		for _, r := range a.Seals[i].Remedies {
			switch r.Key {
			case "end.seal.groove_from_face":
				moved = true
				// 22 mm to the screws; 6 + 3.75 mm from first to last wall; M5.
				if last := r.To + 9.75e-3; last > 22e-3-2.5e-3 {
					t.Errorf("the rings of the %s end at %g m, in the holes", a.Seals[i].End, last)
				}
			case "heat.layer.thickness":
				thicker = true
				if math.Abs(r.From-1.6e-3) > 1e-9 {
					t.Errorf("a liner of 1.6 ±0.1 mm is told as %g m", r.From)
				}
				mm := fmt.Sprintf("%.2f ±0.1 mm", 1e3*r.To)
				b, err := sizing.AnswerHeat(hotDesign(t, `compound = "FKM"`, `compound = "NBR"`, `burn_time = "2.5 s"`, `burn_time = "8 s"`, "1.6 ±0.1 mm", mm))
				if err != nil {
					t.Fatal(err)
				}
				if r.Enough != (b.Seals[i].Spare >= 0) {
					t.Errorf("a liner of %s: %g K to spare at the %s", mm, b.Seals[i].Spare, b.Seals[i].End)
				}
			}
			if math.IsInf(float64(r.Peak), 0) || math.IsNaN(float64(r.Peak)) {
				t.Errorf("%s leaves %g K", r.Key, r.Peak)
			}
		}
	}
	if !moved || !thicker {
		t.Errorf("groove %t, liner %t", moved, thicker)
	}
}

// A liner that nearly fills the bore cannot be made 8 mm thicker.
func TestRemediesLeaveRoom(t *testing.T) {
	a, err := sizing.AnswerHeat(hotDesign(t, `compound = "FKM"`, `compound = "NBR"`, `thickness = "1.6 ±0.1 mm"`, `thickness = "22 mm"`, `ambient = "25 °C"`, "ambient = \"25 °C\"\ninitial = \"150 °C\""))
	if err != nil {
		t.Fatal(err)
	}
	if len(a.Seals[0].Remedies) == 0 {
		t.Fatal("nothing is advised")
	}
	for _, r := range a.Seals[0].Remedies {
		if math.IsInf(float64(r.Peak), 0) || r.Key == "heat.layer.thickness" && r.To > 28e-3 {
			t.Errorf("%s of %g m leaves %g K", r.Key, r.To, r.Peak)
		}
	}
}

// An end without [end.heat] is not among what cools, and is told so.
func TestUnfollowed(t *testing.T) {
	a, err := sizing.AnswerHeat(hotDesign(t, "[end.heat]\n  hot_area", "#", `film_coefficient = "1500`, `#`, `cover = "graphite"`, `#`, `cover_thickness = "10 mm"`, `#`, `cover_resistance =`, `#`, `enters =`, `#`))
	if err != nil {
		t.Fatal(err)
	}
	if list := a.Unfollowed(); len(list) != 1 || list[0] != "nozzle" {
		t.Errorf("not followed: %v", list)
	}
	if whole, _ := sizing.AnswerHeat(hotDesign(t)); whole.Unfollowed() != nil {
		t.Errorf("not followed: %v", whole.Unfollowed())
	}
}

// Washers that soften are over what they bear, and another is advised: PA 6
// bears 55 °C, fibre 110 °C (table of washers).
func TestSoftWashers(t *testing.T) {
	d := hotDesign(t, `class = "12.9"`, "class = \"12.9\"\nwasher = \"PA 6\"")
	a, err := sizing.AnswerHeat(d)
	if err != nil {
		t.Fatal(err)
	}
	if a.Holds() || !a.Find("bulkhead", "bolts").Over() {
		t.Error("screws with washers of PA 6 hold")
	}
	report, told := casewright.Check(d), 0
	for i := range report.Results {
		r := &report.Results[i]
		if r.Method.ID != "screw.washer" {
			continue
		}
		for _, one := range sizing.Advise(report, r).Fixes {
			told++
			if one.Key != "end.screws.washer" || one.Text != `"fibre"` {
				t.Errorf("%+v", one)
			}
		}
	}
	if told == 0 {
		t.Error("no washer is advised")
	}
}

// A film of 0 cannot be scaled: the refusal speaks of the file, not of the code.
func TestNothingToFit(t *testing.T) {
	text, err := os.ReadFile("../testdata/designs/basalt64-hot.toml")
	if err != nil {
		t.Fatal(err)
	}
	zero := strings.Replace(string(text), `film_coefficient = "800 W/(m² K)"`, "film_coefficient = \"0 W/(m² K)\"\ngas_emissivity = \"0.4\"", 1)
	d, err := casewright.Read("hot.toml", []byte(zero+"\n[heat.measured]\nwall_outside = \"88 to 93 °C\"\n"))
	if err != nil {
		t.Fatal(err)
	}
	if _, err := sizing.Calibrate(d, nil); err == nil || !strings.Contains(err.Error(), "film_coefficient is 0") || strings.Contains(err.Error(), "Gas[0]") {
		t.Errorf("%v", err)
	}
}
