package heat_test

import (
	"errors"
	"flag"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"casewright/casing/heat"
	"casewright/margin/reference"
	"casewright/quantity"
)

var inf = quantity.Temperature(math.Inf(1))

func at(trace string) heat.Place { return heat.Place{Trace: trace, End: -1} }

// twin is case1 with other numbers, as the test that is measured.
func twin(t testing.TB, film, conductivity float64) *heat.History {
	t.Helper()
	m := case1()
	m.Gas[0].Coefficient, m.Layers[0].Conductivity = quantity.HeatTransfer(film), quantity.Conductivity(conductivity)
	h, err := m.Run(heat.Usual)
	if err != nil {
		t.Fatal(err)
	}
	return h
}

// course reads a trace every so often, with noise of a standard deviation.
func course(h *heat.History, p heat.Place, every, until, noise float64) heat.Course {
	r, c := rand.New(rand.NewPCG(1, 2)), heat.Course{Place: p, Sigma: max(noise, 0.5)}
	trace, _ := h.Trace(p)
	for i := range int(until/every) + 1 {
		x := float64(i) * every
		c.Time = append(c.Time, x)
		c.Temperature = append(c.Temperature, float64(h.At(trace, quantity.Time(x)))+noise*r.NormFloat64())
	}
	return c
}

func maximum(h *heat.History, p heat.Place, sigma float64) heat.Maximum {
	trace, _ := h.Trace(p)
	top := h.Peak(trace).Temperature
	return heat.Maximum{Place: p, Least: top, Most: top, Sigma: sigma}
}

func fitting(courses []heat.Course, maxima []heat.Maximum) *heat.Fitting {
	return &heat.Fitting{
		Motor: case1(), Film: heat.Range{Least: 200, Usual: 700, Most: 3000},
		Conductivity: heat.Range{Least: 0.05, Usual: 0.2, Most: 0.6}, Maxima: maxima, Courses: courses,
	}
}

func fit(t testing.TB, f *heat.Fitting) *heat.Fitted {
	t.Helper()
	x, err := f.Fit()
	if err != nil {
		t.Fatal(err)
	}
	return x
}

// near holds a number against what it was made with.
func near(t rapid.TB, name string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got/want-1) <= tolerance) {
		t.Errorf("%s: got %g, want %g within %g of it", name, got, want, tolerance)
	}
}

// TestTwinCourse finds the numbers that a noisy course was made with.
func TestTwinCourse(t *testing.T) {
	c := course(twin(t, 1100, 0.12), at("wall_outside"), 0.5, 120, 0.5)
	c.Time, c.Temperature = append([]float64{-5}, c.Time...), append([]float64{1500}, c.Temperature...) // before ignition
	x := fit(t, fitting([]heat.Course{c}, nil))
	near(t, "film", x.Film, 1100, 0.02)
	near(t, "conductivity", x.Conductivity, 0.12, 0.02)
	switch r := x.Residuals[0]; {
	case !x.Determined || x.FilmBound != heat.Inside || x.ConductivityBound != heat.Inside:
		t.Errorf("the two are not told apart: %+v", x)
	case !(x.FilmRange[0] < x.Film && x.Film < x.FilmRange[1] && x.FilmRange[1] < 1.02*x.FilmRange[0]):
		t.Errorf("a film of %g is open over %g", x.Film, x.FilmRange)
	case !r.Explained || math.Abs(r.RMS-0.5) > 0.1: // the noise is what remains
		t.Errorf("%g K remain of noise of 0.5 K: %+v", r.RMS, r)
	case x.Motor.Gas[0].Coefficient != quantity.HeatTransfer(x.Film) || x.Motor.Layers[0].Conductivity != quantity.Conductivity(x.Conductivity):
		t.Error("the motor does not have the fitted values")
	case x.Runs > mostRuns:
		t.Errorf("%d runs of the model", x.Runs)
	}
	// What is told of the course is what the fitted motor says.
	h, err := x.Motor.Run(heat.Usual)
	if err != nil {
		t.Fatal(err)
	}
	r := x.Residuals[0]
	near(t, "computed", r.Computed, float64(h.At(h.WallOutside, quantity.Time(r.Time))), 1e-12)
	near(t, "difference", r.Difference, r.Computed-r.Measured[0], 1e-12)
	squares, sum := 0.0, 0.0
	for i, at := range c.Time[1:] {
		off := float64(h.At(h.WallOutside, quantity.Time(at))) - c.Temperature[i+1]
		squares, sum = squares+off*off, sum+off
		if math.Abs(off) > math.Abs(r.Difference)+1e-9 {
			t.Errorf("at %g s %g K remain, more than %g", at, off, r.Difference)
		}
	}
	n := float64(len(c.Time) - 1)
	near(t, "RMS", r.RMS, math.Sqrt(squares/n), 1e-9)
	near(t, "misfit", x.Misfit, squares/(0.5*0.5), 1e-6)
	if math.Abs(r.Mean-sum/n) > 1e-9 {
		t.Errorf("mean %g K, want %g", r.Mean, sum/n)
	}
}

// mostRuns of the model make 2 s at 6 ms each, twice what a column takes.
const mostRuns = 330

// TestPlaces: each name leads to its own trace, and no other name to any.
func TestPlaces(t *testing.T) {
	h := &heat.History{
		HotFace: heat.Trace{1}, Bond: heat.Trace{2}, WallInside: heat.Trace{3}, WallMean: heat.Trace{4}, WallOutside: heat.Trace{5},
		Ends: []heat.EndHistory{{}, {Gland: heat.Trace{6}, Face: heat.Trace{7}, Body: heat.Trace{8}, Ring: heat.Trace{9}, Bolts: heat.Trace{10}, Rear: heat.Trace{11}}},
	}
	names := []string{"hot_face", "bond", "wall_inside", "wall_mean", "wall_outside", "gland", "face", "body", "ring", "bolts", "rear"}
	for i, name := range names {
		end := -1
		if i >= 5 {
			end = 1
		}
		if trace, ok := h.Trace(heat.Place{Trace: name, End: end}); !ok || trace[0] != float64(i+1) {
			t.Errorf("%s: %v, %v", name, trace, ok)
		}
		for _, wrong := range []heat.Place{{Trace: name, End: -end}, {Trace: name, End: 2}, {Trace: name, End: -2}, {Trace: name + " ", End: end}} {
			if trace, ok := h.Trace(wrong); ok {
				t.Errorf("%+v is %v", wrong, trace)
			}
		}
	}
}

// TestRange holds the open range against fits to the same course with other
// noise: two thirds of them lie within one standard deviation.
func TestRange(t *testing.T) {
	h := twin(t, 1100, 0.12)
	trace, _ := h.Trace(at("wall_outside"))
	within, of := 0, 12
	for seed := range of {
		r, c := rand.New(rand.NewPCG(3, uint64(seed))), heat.Course{Place: at("wall_outside"), Sigma: 2}
		for x := 4.0; x < 120; x += 8 {
			c.Time, c.Temperature = append(c.Time, x), append(c.Temperature, float64(h.At(trace, quantity.Time(x)))+2*r.NormFloat64())
		}
		x := fit(t, fitting([]heat.Course{c}, nil))
		if x.FilmRange[0] <= 1100 && 1100 <= x.FilmRange[1] {
			within++
		}
	}
	// Binomial, 12 of 0.68: fewer than 4 or all 12 come by chance once in 80.
	if within < 4 || within == of {
		t.Errorf("%d of %d ranges hold the true film", within, of)
	}
}

// TestTwinMaxima: hot face and wall together tell the two numbers apart.
func TestTwinMaxima(t *testing.T) {
	h := twin(t, 1100, 0.12)
	x := fit(t, fitting(nil, []heat.Maximum{maximum(h, at("wall_outside"), 3), maximum(h, at("hot_face"), 30)}))
	near(t, "film", x.Film, 1100, 0.1)
	near(t, "conductivity", x.Conductivity, 0.12, 0.1)
	if !x.Determined {
		t.Errorf("the two are not told apart: %+v", x)
	}
}

// TestOneMaximum tells a product of the two and no more; the product does not
// depend on where the search begins.
func TestOneMaximum(t *testing.T) {
	top := maximum(twin(t, 1100, 0.12), at("wall_outside"), 3)
	x := fit(t, fitting(nil, []heat.Maximum{top}))
	if x.Determined || x.FilmBound != heat.Inside || x.Misfit > 1e-6 {
		t.Fatalf("one number tells two: %+v", x)
	}
	if x.FilmRange[1] != 3000 || x.ConductivityRange[1] != 0.6 || x.FilmRange[0] < 250 || x.ConductivityRange[0] < 0.06 {
		t.Errorf("open: %g, %g", x.FilmRange, x.ConductivityRange)
	}
	if x.Told.Film < 0.3 || x.Told.Conductivity < 0.3 || max(x.Told.Film, x.Told.Conductivity) != 1 || x.Told.Range[0] < 0.9 || x.Told.Range[1] > 1.1 {
		t.Errorf("told: %+v", x.Told)
	}
	// A small step along what is not told leaves the maximum as it is; one along
	// what is told moves it.
	film, conductivity := x.Told.Film, x.Told.Conductivity
	moved := func(a, b float64) float64 {
		h := twin(t, x.Film*math.Exp(a), x.Conductivity*math.Exp(b))
		return math.Abs(float64(h.Peak(h.WallOutside).Temperature - top.Least))
	}
	if along, across := moved(0.05*film, 0.05*conductivity), moved(0.05*conductivity, -0.05*film); across > along/20 {
		t.Errorf("the maximum moves by %g K along what is told, by %g K across it", along, across)
	}
}

// TestBounds: a bound alone moves the fit as far as needed, and not at all where
// it is met.
func TestBounds(t *testing.T) {
	usual := twin(t, 700, 0.2)
	top := usual.Peak(usual.WallOutside).Temperature
	for _, c := range []struct {
		name        string
		least, most quantity.Temperature
		met         bool
	}{
		{"lower, met", top - 1, inf, true},
		{"upper, met", 0, top + 1, true},
		{"both, met", top - 1, top + 1, true},
		{"lower", top + 20, inf, false},
		{"upper", 0, top - 20, false},
		{"both", top - 30, top - 20, false},
	} {
		x := fit(t, fitting(nil, []heat.Maximum{{Place: at("wall_outside"), Least: c.least, Most: c.most, Sigma: 2}}))
		still := math.Abs(math.Log(x.Film/700)) < 1e-9 && math.Abs(math.Log(x.Conductivity/0.2)) < 1e-9
		if still != c.met || x.Determined || x.Misfit > 1e-5 || x.Runs > mostRuns {
			t.Errorf("%s: %+v", c.name, x)
		}
		bound := c.least // the one that is not met
		if c.least <= top {
			bound = c.most
		}
		if r := x.Residuals[0]; !c.met && math.Abs(r.Computed-float64(bound)) > 0.02 {
			t.Errorf("%s: the maximum is %g K, the bound %g K", c.name, r.Computed, bound)
		}
	}
}

// TestEdge: what the range does not hold ends at its edge, and stays unexplained.
func TestEdge(t *testing.T) {
	f := fitting(nil, []heat.Maximum{{Place: at("wall_outside"), Least: 900, Most: 900, Sigma: 3}})
	x := fit(t, f)
	if x.FilmBound != heat.AtMost || x.ConductivityBound != heat.AtMost || x.Film != 3000 || x.Conductivity != 0.6 || x.Determined || x.Residuals[0].Explained {
		t.Errorf("%+v", x)
	}
	f.Maxima[0].Least, f.Maxima[0].Most = 300, 300
	if x = fit(t, f); x.FilmBound != heat.AtLeast || x.ConductivityBound != heat.AtLeast || x.Residuals[0].Explained || x.Residuals[0].Difference <= 0 {
		t.Errorf("%+v", x)
	}
}

// TestUnexplained: a number that is held wrong leaves a course that the other
// cannot explain, and a range that is wide.
func TestUnexplained(t *testing.T) {
	f := fitting([]heat.Course{course(twin(t, 1100, 0.12), at("wall_outside"), 0.5, 120, 0.5)}, nil)
	f.Conductivity = heat.Range{}
	x := fit(t, f)
	if x.Residuals[0].Explained || x.Rise < 100 || x.Conductivity != 0.15 || x.ConductivityRange != [2]float64{0.15, 0.15} || x.FilmRange[1] < 1.1*x.FilmRange[0] {
		t.Errorf("%+v", x)
	}
	f.Conductivity = heat.Range{Least: 0.12, Usual: 0.12, Most: 0.12}
	x = fit(t, f)
	near(t, "film", x.Film, 1100, 0.02)
	if f.Film, f.Motor.Gas[0].Coefficient = (heat.Range{}), 1100; !x.Residuals[0].Explained {
		t.Errorf("%+v", x)
	}
	f.Conductivity = heat.Range{Least: 0.05, Usual: 0.2, Most: 0.6}
	if x = fit(t, f); x.Film != 1100 {
		t.Errorf("%+v", x)
	}
	near(t, "conductivity", x.Conductivity, 0.12, 0.02)
}

// TestEnds fits the films of both ends in proportion, from the gland of one.
func TestEndsFit(t *testing.T) {
	f := fitting(nil, nil)
	end := heat.End{
		Name: "nozzle", Body: aluminium, Mass: 0.12, Length: 0.034, Gland: 0.006, Bolts: 0.02, Hot: 8e-4, Entry: 0.02,
		Gas: [2]heat.Film{{Temperature: 2500, Coefficient: 400}, {Temperature: 295}}, Joint: 5e-4, Outside: 1e-3,
	}
	other := end
	other.Gas[0].Correlation = func(_, _ quantity.Temperature) quantity.HeatTransfer { return 200 }
	f.Motor.Ends = []heat.End{end, other}
	f.Film, f.Conductivity, f.ScaleEnds = heat.Range{Least: 400, Usual: 800, Most: 1600}, heat.Range{}, true
	m := case1()
	m.Gas[0].Coefficient *= 1.5
	m.Ends = []heat.End{end, other}
	m.Ends[0].Gas[0].Coefficient = 600
	m.Ends[1].Gas[0].Correlation = nil
	m.Ends[1].Gas[0].Coefficient = 300
	h, err := m.Run(heat.Usual)
	if err != nil {
		t.Fatal(err)
	}
	for number := range m.Ends {
		f.Maxima = []heat.Maximum{maximum(h, heat.Place{Trace: "gland", End: number}, 2)}
		x := fit(t, f)
		near(t, "film", x.Film, 1200, 0.001)
		near(t, "film of the end", float64(x.Motor.Ends[0].Gas[0].Coefficient), 600, 0.001)
	}
	if f.Motor.Ends[0].Gas[0].Coefficient != 400 {
		t.Error("the motor that was given has changed")
	}
}

// TestFaults: what is no fitting is told, all at once.
func TestFittingFaults(t *testing.T) {
	good := func() *heat.Fitting {
		return fitting([]heat.Course{{Place: at("bond"), Time: []float64{0, 1, 1, 2}, Temperature: []float64{300, 301, 302, 303}, Sigma: 1}},
			[]heat.Maximum{{Place: at("bond"), Least: 300, Most: 300, Sigma: 1}})
	}
	nan := math.NaN()
	for field, spoil := range map[string]func(*heat.Fitting){
		"Motor":                      func(f *heat.Fitting) { f.Motor = nil },
		"Wall":                       func(f *heat.Fitting) { f.Motor.Wall = 0 },
		"Film":                       func(f *heat.Fitting) { f.Film, f.Conductivity = heat.Range{}, heat.Range{} },
		"Film ":                      func(f *heat.Fitting) { f.Film.Usual = nan },
		"Film  ":                     func(f *heat.Fitting) { f.Film.Least = 0 },
		"Film   ":                    func(f *heat.Fitting) { f.Film.Most = 300 },
		"Film    ":                   func(f *heat.Fitting) { f.Motor.Gas[0].Correlation = heat.StillAir(0.05) },
		"Conductivity":               func(f *heat.Fitting) { f.Conductivity.Most = 1001 },
		"Conductivity ":              func(f *heat.Fitting) { f.Motor.Layers = nil },
		"ScaleEnds":                  func(f *heat.Fitting) { f.ScaleEnds, f.Motor.Gas[0].Coefficient = true, 0 },
		"Maxima":                     func(f *heat.Fitting) { f.Maxima, f.Courses = nil, nil },
		"Maxima[0].Place":            func(f *heat.Fitting) { f.Maxima[0].Trace = "Bond" },
		"Maxima[0].Place ":           func(f *heat.Fitting) { f.Maxima[0].End = 0 },
		"Maxima[0].Place  ":          func(f *heat.Fitting) { f.Maxima[0].End = -2 },
		"Maxima[0].Sigma":            func(f *heat.Fitting) { f.Maxima[0].Sigma = 0 },
		"Maxima[0].Least":            func(f *heat.Fitting) { f.Maxima[0].Least = 301 },
		"Maxima[0].Least ":           func(f *heat.Fitting) { f.Maxima[0].Least = quantity.Temperature(nan) },
		"Maxima[0].Least  ":          func(f *heat.Fitting) { f.Maxima[0].Least, f.Maxima[0].Most = 0, inf },
		"Courses[0].Place":           func(f *heat.Fitting) { f.Courses[0].Trace = "gland" },
		"Courses[0].Sigma":           func(f *heat.Fitting) { f.Courses[0].Sigma = nan },
		"Courses[0].Temperature":     func(f *heat.Fitting) { f.Courses[0].Time = f.Courses[0].Time[:3] },
		"Courses[0].Temperature[1]":  func(f *heat.Fitting) { f.Courses[0].Temperature[1] = nan },
		"Courses[0].Time[3]":         func(f *heat.Fitting) { f.Courses[0].Time[3] = 0.5 },
		"Courses[0].Time[0]":         func(f *heat.Fitting) { f.Courses[0].Time[0] = nan },
		"Courses[0].Time":            func(f *heat.Fitting) { f.Courses[0].Time = []float64{-4, -3, -2, -1} },
		"Courses[0].Time ":           func(f *heat.Fitting) { f.Courses[0].Time, f.Courses[0].Temperature = nil, nil },
		"Courses[0].Time  ":          func(f *heat.Fitting) { f.Courses[0].Time[3] = 2e6 },
		"Courses[0].Temperature[0] ": func(f *heat.Fitting) { f.Courses[0].Temperature[0] = -1 },
	} {
		f := good()
		spoil(f)
		_, err := f.Fit()
		var faults heat.Faults
		if !errors.As(err, &faults) || !slices.ContainsFunc(faults, func(one *heat.Fault) bool { return one.Field == strings.TrimSpace(field) }) {
			t.Errorf("%s: %v", field, err)
		}
	}
	if _, err := good().Fit(); err != nil {
		t.Error(err)
	}
	f := good()
	f.Maxima[0].Sigma, f.Courses[0].Sigma = 0, 0
	if _, err := f.Fit(); strings.Count(err.Error(), "\n") != 1 {
		t.Errorf("two faults: %v", err)
	}
}

// TestThinned: a course of many rows is fitted by their means, and says the same.
func TestThinned(t *testing.T) {
	h := twin(t, 1100, 0.12)
	many := course(h, at("wall_outside"), 0.01, 120, 0.5) // 12 001 rows
	x := fit(t, fitting([]heat.Course{many}, nil))
	near(t, "film", x.Film, 1100, 0.005)
	near(t, "conductivity", x.Conductivity, 0.12, 0.005)
	if r := x.Residuals[0]; math.Abs(r.RMS/0.5-1) > 0.02 { // of the rows, not of the means
		t.Errorf("RMS %g K", r.RMS)
	}
	if !(x.Misfit > 800 && x.Misfit < 1200) { // a thousand means, each about 1
		t.Errorf("misfit %g", x.Misfit)
	}
}

// few lets rapid check a few only: each fit is some hundred runs of the model.
func few(t *testing.T) {
	t.Helper()
	checks := flag.Lookup("rapid.checks")
	before := checks.Value.String()
	if err := checks.Value.Set("6"); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = checks.Value.Set(before) })
}

// TestPropertyRecovers: exact data give back what they were made with.
func TestPropertyRecovers(t *testing.T) {
	few(t)
	rapid.Check(t, func(r *rapid.T) {
		film, conductivity := rapid.Float64Range(250, 2500).Draw(r, "film"), rapid.Float64Range(0.06, 0.5).Draw(r, "conductivity")
		h := twin(t, film, conductivity)
		x, err := fitting([]heat.Course{course(h, at("wall_outside"), 1, 150, 0)}, nil).Fit()
		if err != nil {
			r.Fatal(err)
		}
		near(r, "film", x.Film, film, 1e-3)
		near(r, "conductivity", x.Conductivity, conductivity, 1e-3)
		if x.Misfit > 1e-3 {
			r.Errorf("misfit %g", x.Misfit)
		}
	})
}

// TestPropertyOrder: the order in which data are given changes nothing.
func TestPropertyOrder(t *testing.T) {
	few(t)
	h := twin(t, 1100, 0.12)
	maxima := []heat.Maximum{
		maximum(h, at("wall_outside"), 3), maximum(h, at("hot_face"), 30), maximum(h, at("bond"), 5),
		{Place: at("wall_inside"), Least: 470, Most: inf, Sigma: 1},
	}
	courses := []heat.Course{course(h, at("wall_outside"), 5, 60, 1), course(h, at("bond"), 7, 60, 1)}
	want := fit(t, fitting(courses, maxima))
	for i, r := range want.Residuals { // maxima, then courses, as given
		if i < 4 && (r.Course != -1 || r.Place != maxima[i].Place) || i >= 4 && (r.Course != i-4 || r.Place != courses[i-4].Place) {
			t.Errorf("residual %d is of %+v", i, r)
		}
	}
	rapid.Check(t, func(r *rapid.T) {
		x, err := fitting(rapid.Permutation(courses).Draw(r, "courses"), rapid.Permutation(maxima).Draw(r, "maxima")).Fit()
		if err != nil {
			r.Fatal(err)
		}
		if x.Film != want.Film || x.Conductivity != want.Conductivity || x.FilmRange != want.FilmRange || x.Told != want.Told {
			r.Errorf("got %+v, want %+v", x, want)
		}
	})
}

// TestScipy holds fits to the same readings against SciPy's least_squares on a
// model of finite elements.
func TestScipy(t *testing.T) {
	rows, err := reference.Table(os.DirFS("../../testdata/reference/solver"), "heat_fit.csv")
	if err != nil || len(rows) < 6 {
		t.Fatalf("%d rows, %v", len(rows), err)
	}
	found := map[string]*heat.Fitted{}
	for i := range rows {
		r := &rows[i]
		set := strings.TrimRight(r.ID, "hk")
		if found[set] == nil {
			found[set] = fit(t, fittingOf(r))
		}
		if missing := r.Missing(); missing != nil {
			t.Fatalf("%s: no inputs %v", r.ID, missing)
		}
		got := found[set].Film
		if r.Quantity == "fitted conductivity" {
			got = found[set].Conductivity
		}
		if !r.Holds(got) {
			t.Errorf("%s: got %g, want %g within %g of it; %s", r.ID, got, r.Value, r.Tolerance, r.Source)
		}
	}
}

func fittingOf(r *reference.Row) *heat.Fitting {
	solid := func(k, density, heatOf float64) heat.Solid {
		return heat.Solid{Conductivity: quantity.Conductivity(k), Density: quantity.Density(density), SpecificHeat: quantity.SpecificHeat(heatOf)}
	}
	ambient := quantity.Temperature(r.Of("ambient"))
	f := &heat.Fitting{
		Motor: &heat.Motor{
			Layers: []heat.Layer{{Name: "liner", Solid: solid(0.2, r.Of("density"), r.Of("heat")), Thickness: quantity.Length(r.Of("liner"))}},
			Tube:   solid(r.Of("tube"), r.Of("tube_density"), r.Of("tube_heat")),
			Bore:   quantity.Length(r.Of("bore")), Wall: quantity.Length(r.Of("wall")), Length: 0.4,
			Gas:     [2]heat.Film{{Temperature: quantity.Temperature(r.Of("gas")), Coefficient: 800}, {Temperature: ambient}},
			Outside: heat.Film{Temperature: ambient, Coefficient: quantity.HeatTransfer(r.Of("outside"))},
			Start:   quantity.Temperature(r.Of("start")), Burn: quantity.Time(r.Of("burn")), Until: 400, Touch: 320,
		},
		Film: heat.Range{Least: 200, Usual: 800, Most: 4000}, Conductivity: heat.Range{Least: 0.05, Usual: 0.2, Most: 1},
	}
	sigma := r.Of("sigma")
	if r.Has("top") {
		for place, name := range map[string]string{"hot_face": "face", "wall_outside": "top"} {
			x := quantity.Temperature(r.Of(name))
			f.Maxima = append(f.Maxima, heat.Maximum{Place: at(place), Least: x, Most: x, Sigma: sigma})
		}
		return f
	}
	c := heat.Course{Place: at("wall_outside"), Sigma: sigma}
	for i := 0; r.Has(fmt.Sprint("t", i)); i++ {
		c.Time, c.Temperature = append(c.Time, r.Of(fmt.Sprint("t", i))), append(c.Temperature, r.Of(fmt.Sprint("T", i)))
	}
	f.Courses = []heat.Course{c}
	return f
}

func BenchmarkFit(b *testing.B) {
	f := fitting([]heat.Course{course(twin(b, 1100, 0.12), at("wall_outside"), 0.05, 120, 0.5)}, nil)
	for b.Loop() {
		fit(b, f)
	}
}
