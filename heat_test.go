package casewright

import (
	"math"
	"os"
	"strings"
	"testing"

	"casewright/margin"
)

// hotDesign is the example with heat, some of its text replaced.
func hotDesign(t *testing.T, pairs ...string) *Design {
	t.Helper()
	text, err := os.ReadFile("testdata/designs/basalt64-hot.toml")
	if err != nil {
		t.Fatal(err)
	}
	for i := 0; i < len(pairs); i += 2 {
		if !strings.Contains(string(text), pairs[i]) {
			t.Fatalf("the design has no %q", pairs[i])
		}
	}
	d, err := Read("hot.toml", []byte(strings.NewReplacer(pairs...).Replace(string(text))))
	if err != nil {
		t.Fatal(err)
	}
	return d
}

func named(t *testing.T, d *Design, id string) *Result {
	t.Helper()
	r := Check(d)
	for i := range r.Results {
		if r.Results[i].ID() == id {
			return &r.Results[i]
		}
	}
	t.Fatalf("there is no %s", id)
	return nil
}

// Computed temperatures stand in for those that are not given, and for no
// others; what is weaker when hot gets weaker.
func TestHeatStandsIn(t *testing.T) {
	d := hotDesign(t)
	h, err := d.Heated()
	if err != nil {
		t.Fatal(err)
	}
	wall := float64(h.PeakBurning(h.WallInside).Temperature)
	if got := d.Temperature(0).SI(); !(got >= wall && got <= wall+0.1) {
		t.Errorf("the tube is taken at %g K, and is at %g K", got, wall)
	}
	given := hotDesign(t, `material = "6061-T6 drawn tube"`, "material = \"6061-T6 drawn tube\"\ntemperature = \"150 °C\"")
	if got := given.Temperature(0).SI(); got != 423.15 {
		t.Errorf("a tube given at 150 °C is taken at %g K", got)
	}
	bare := hotDesign(t, `film_coefficient = "800 W/(m² K)"`, `film_coefficient = "1500 W/(m² K)"`, `thickness = "1.6 ±0.1 mm"`, `thickness = "0.6 mm"`)
	if cool, hot := named(t, d, "tube/tube.yield"), named(t, bare, "tube/tube.yield"); !(hot.Margin < cool.Margin-0.05) {
		t.Errorf("tube.yield has %g, with a thin liner and a strong film %g", cool.Margin, hot.Margin)
	}
	if r := Check(d); !r.Has("heated") || r.Has("cold") {
		t.Error("it is not told that the temperatures are computed, or told that none is")
	}
}

// The gland is held against its compound during the burn and afterwards; the
// two are told apart.
func TestSoak(t *testing.T) {
	hot := hotDesign(t, `film_coefficient = "300 W/(m² K)"`, `film_coefficient = "2500 W/(m² K)"`, `cover_thickness = "3 mm"`, `cover_thickness = "1 mm"`, `compound = "FKM"`, `compound = "NBR"`)
	if r := named(t, hot, "bulkhead/seal.soak"); r.Verdict != margin.Fail {
		t.Errorf("a hardly covered bulkhead with NBR: seal.soak is %v, margin %g", r.Verdict, r.Margin)
	}
	if r := named(t, hot, "bulkhead/seal.temperature"); r.Verdict != margin.Pass {
		t.Errorf("it is still cool at burnout: seal.temperature is %v, margin %g", r.Verdict, r.Margin)
	}
	// A cold start counts against the cold limit, however hot it gets later.
	cold := hotDesign(t, `ambient = "25 °C"`, `ambient = "-30 °C"`)
	if r := named(t, cold, "nozzle/seal.cold"); r.Verdict != margin.Fail {
		t.Errorf("FKM at -30 °C: seal.cold is %v, margin %g", r.Verdict, r.Margin)
	}
}

// Common practice, no source: the rings of a lined motor are hottest well after
// burnout, those of the nozzle too.
func TestPeaksAfterBurnout(t *testing.T) {
	h, err := hotDesign(t).Heated()
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range h.Ends {
		if peak := h.Peak(e.Gland); float64(peak.Time) < 10*h.Burnout || peak.Temperature < h.AtBurnout(e.Gland)+20 {
			t.Errorf("the gland of the %s is hottest %g s after ignition, %g K", e.Name, peak.Time, peak.Temperature)
		}
	}
}

func TestWashersSoften(t *testing.T) {
	soft := hotDesign(t, `class = "12.9"`, "class = \"12.9\"\nwasher = \"PTFE\"", `cover_thickness = "3 mm"`, `cover_thickness = "0.5 mm"`)
	r := named(t, soft, "bulkhead/screw.washer")
	if got, want := r.Value, float64(soft.hot().bolts[0].SI()-293.15); math.Abs(got-want) > 1e-9 {
		t.Errorf("the screws are at %g K above 20 °C, not at %g", want, got)
	}
	if none := hotDesign(t, `class = "12.9"`, "class = \"12.9\"\nwasher = \"none\""); len(Check(none).Results) != len(Check(hotDesign(t)).Results) {
		t.Error("no washer is checked for softening")
	}
}

// Metal that was at 250 °C for a while is soft for good.
func TestTemper(t *testing.T) {
	cooked := hotDesign(t, `film_coefficient = "800 W/(m² K)"`, `film_coefficient = "5000 W/(m² K)"`, `thickness = "1.6 ±0.1 mm"`, `thickness = "0.5 mm"`, `wind = "2 m/s"`, `outside_film = "2 W/(m² K)"`)
	h, err := cooked.Heated()
	if err != nil {
		t.Fatal(err)
	}
	peak := h.Peak(h.WallMean).Temperature
	if r := named(t, cooked, "tube/tube.temper"); r.Verdict == margin.Pass {
		t.Errorf("a tube that was at %g K: tube.temper is %v, margin %g", peak, r.Verdict, r.Margin)
	}
}

// The same heat is computed once; another design is not taken for it.
func TestMemory(t *testing.T) {
	a, err := hotDesign(t).Heated()
	if err != nil {
		t.Fatal(err)
	}
	b, _ := hotDesign(t).Heated()
	if a != b {
		t.Error("the same heat is computed twice")
	}
	for _, pair := range [][2]string{
		{`wind = "2 m/s"`, `wind = "3 m/s"`},
		{`wind = "2 m/s"`, `outside_film = "still air"`},
		{`cover_resistance = "0.0005 m² K/W"`, `cover_resistance = "0.0006 m² K/W"`},
		{`enters = "20 mm"`, `enters = "19 mm"`},
		{`gap_resistance = "0.0005 m² K/W"`, `gap_resistance = "0.0004 m² K/W"`},
		{`material = "paper tube"`, `material = "cork"`},
		{`burn_time = "2.5 s"`, `burn_time = "2.6 s"`},
		{`peak_time = "0.4 s"`, `peak_time = "0.5 s"`},
	} {
		if c, err := hotDesign(t, pair[0], pair[1]).Heated(); err != nil || c == a {
			t.Errorf("%s is taken for %s, %v", pair[1], pair[0], err)
		}
	}
}

func TestMaximum(t *testing.T) {
	for text, want := range map[string][2]float64{
		"88 °C": {361.15, 361.15}, "88 to 93 °C": {361.15, 366.15}, "88 °C to 366.15 K": {361.15, 366.15},
		"at least 120 °C": {393.15, math.Inf(1)}, "at most 60 °C": {0, 333.15}, "at  least 248 °F": {393.15, math.Inf(1)},
	} {
		m, message, _ := maximum(text)
		if message != "" || math.Abs(m.Least-want[0]) > 1e-9 || math.Abs(m.Most-want[1]) > 1e-9 && m.Most != want[1] {
			t.Errorf("%q is %g to %g K, %s", text, m.Least, m.Most, message)
		}
	}
}

// Behind a thick liner a bare end heats the tube round it more than the gas heats
// it half-way: there stand the screws, and that temperature is taken.
func TestTubeRoundAHotEnd(t *testing.T) {
	pairs := []string{
		`burn_time = "2.5 s"`, `burn_time = "10 s"`, `thickness = "1.6 ±0.1 mm"`, `thickness = "4 mm"`,
		"cover = \"phenolic paper tube\"\n  cover_thickness = \"3 mm\"", "",
	}
	d := hotDesign(t, pairs...)
	h, err := d.Heated()
	if err != nil {
		t.Fatal(err)
	}
	round, half := float64(h.PeakBurning(h.Ends[0].Tube).Temperature), float64(h.PeakBurning(h.WallInside).Temperature)
	if !(round > half+50) {
		t.Fatalf("the tube is at %g K round the bulkhead, at %g K half-way", round, half)
	}
	if got := d.Temperature(0).SI(); !(got >= round && got <= round+0.1) {
		t.Errorf("the tube is taken at %g K, and is at %g K round the bulkhead", got, round)
	}
	lined := hotDesign(t, pairs[:4]...)
	if cool, hot := named(t, lined, "bulkhead/hole.bearing"), named(t, d, "bulkhead/hole.bearing"); !(hot.Margin < cool.Margin-0.05) {
		t.Errorf("hole.bearing has %g beside a covered bulkhead, %g beside a bare one", cool.Margin, hot.Margin)
	}
	// The tube round the nozzle is cooler, and gives its end less room.
	if got, most := d.hot().beside[1].SI(), round-5; !(got < most) {
		t.Errorf("the tube round the nozzle is at %g K", got)
	}
}

// What heat takes for good from the tube is told where it takes the most.
func TestTemperRoundAHotEnd(t *testing.T) {
	d := hotDesign(t, `burn_time = "2.5 s"`, `burn_time = "30 s"`, `thickness = "1.6 ±0.1 mm"`, `thickness = "18 mm"`, `film_coefficient = "300 W/(m² K)"`, `film_coefficient = "600 W/(m² K)"`,
		"cover = \"phenolic paper tube\"\n  cover_thickness = \"3 mm\"", "")
	h, err := d.Heated()
	if err != nil {
		t.Fatal(err)
	}
	if peak := h.Peak(h.WallMean).Temperature; peak > 373 {
		t.Fatalf("half-way the tube is at %g K", peak)
	}
	if r := named(t, d, "tube/tube.temper"); r.Verdict == margin.Pass {
		t.Errorf("a tube that was at %g K round the bulkhead: tube.temper passes", h.Peak(h.Ends[0].Tube).Temperature)
	}
}

// Heat enters the nozzle behind its rings: the second is the hotter.
func TestSecondRingIsHeld(t *testing.T) {
	two := hotDesign(t)
	one := hotDesign(t, `count = 2                           # two equal grooves`, `count = 1`, `  count = 2
`, ``, `groove_spacing = "6 mm"             # near wall to near wall`, ``, `  groove_spacing = "6 mm"
`, ``)
	if a, b := two.hot().gland[1].SI(), one.hot().gland[1].SI(); !(a > b+0.5) {
		t.Errorf("with two rings the nozzle's gland is at %g K, with the first alone at %g K", a, b)
	}
}

// A test that was hotter than what is computed is told, one that was not is not.
func TestHotterInTest(t *testing.T) {
	for text, want := range map[string]bool{"at least 300 °C": true, "180 to 190 °C": true, "at most 60 °C": false, "90 to 100 °C": false} {
		d := hotDesign(t, "[[heat.layer]]", "[heat.measured]\nwall_outside = \""+text+"\"\n\n[[heat.layer]]")
		if got := Check(d).Has("hotter_in_test"); got != want {
			t.Errorf("%s: %v", text, got)
		}
	}
	d := hotDesign(t, "[[heat.layer]]", "[heat.measured]\n\"nozzle.gland\" = \"at least 150 °C\"\n\n[[heat.layer]]")
	if !Check(d).Has("hotter_in_test") {
		t.Error("a gland that was hotter is not told")
	}
}
