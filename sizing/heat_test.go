package sizing_test

import (
	"fmt"
	"math"
	"os"
	"strings"
	"testing"

	"casewright"
	"casewright/quantity"
	"casewright/sizing"
)

func hotDesign(t *testing.T, pairs ...string) *casewright.Design {
	t.Helper()
	text, err := os.ReadFile("../testdata/designs/basalt64-hot.toml")
	if err != nil {
		t.Fatal(err)
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
	d := hotDesign(t)
	h, err := d.Heated()
	if err != nil {
		t.Fatal(err)
	}
	text := func(k float64) string { return casewright.Kelvins(quantity.Temperature(k)).String() }
	measured := "[heat.measured]\nwall_outside = \"" + text(float64(h.Peak(h.WallOutside).Temperature)) + "\"\nhot_face = \"" + text(float64(h.Peak(h.HotFace).Temperature)) + "\"\n"
	d = hotDesign(t, "[[heat.layer]]", measured+"\n[[heat.layer]]")
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
