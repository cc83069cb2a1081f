package bench_test

import (
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/shopspring/decimal"
	"pgregory.net/rapid"

	"casewright"
	"casewright/bench"
	"casewright/margin"
	"casewright/quantity"
)

var groups = []string{
	"Before you begin", "Inspect and deburr", "Seals", "Ends and screws", "Proof test", "Before each test", "After each test", "Cautions",
}

// has tells whether a step of a group says something.
func has(steps []bench.Step, group, text string, caution bool) bool {
	return slices.ContainsFunc(steps, func(s bench.Step) bool {
		return s.Group == group && s.Caution == caution && strings.Contains(s.Text, text)
	})
}

// order holds that the groups stand in their order, all of them, and that a
// design that does not pass begins with a caution.
func order(t rapid.TB, r *casewright.Report) {
	t.Helper()
	steps := bench.Assembly(r)
	var got []string
	for _, s := range steps {
		if s.Text == "" || strings.Contains(s.Text, "%!") {
			t.Fatalf("%+v", s)
		}
		got = append(got, s.Group)
	}
	if diff := cmp.Diff(groups, slices.Compact(got)); diff != "" {
		t.Fatalf("groups (-want +got):\n%s", diff)
	}
	warned := steps[0].Caution && strings.HasPrefix(steps[0].Text, "Do not build or test this design")
	if warned != (r.Verdict != margin.Pass) {
		t.Fatalf("%s, and the first step is %+v", r.Verdict, steps[0])
	}
}

// proof holds that a proof pressure is given to what passes alone, is one and
// a half times the design's, and lies below all that yields or breaks.
func proof(t rapid.TB, r *casewright.Report) {
	t.Helper()
	p := bench.ProofPressure(r)
	if (p.Refused == "") != p.Pressure.IsSet() {
		t.Fatalf("%+v", p)
	}
	given := has(bench.Assembly(r), "Proof test", "Pump slowly to", false)
	if given != p.Pressure.IsSet() {
		t.Fatalf("%+v, and the steps give a pressure: %v", p, given)
	}
	if !p.Pressure.IsSet() {
		return
	}
	expected := r.Design.Pressure
	if r.Verdict != margin.Pass || !p.Pressure.Value().Mul(decimal.NewFromInt(2)).Equal(expected.Value().Mul(decimal.NewFromInt(3))) {
		t.Fatalf("%s at %s, %s", p.Pressure, expected, r.Verdict)
	}
	for _, e := range r.Order {
		if m := e.Result.Method.Mode; m != margin.Yields && m != margin.Breaks {
			continue
		}
		if !(e.At > p.Pressure.SI()) || p.Yields.SI() > e.At*(1+1e-12) {
			t.Fatalf("%s at %v Pa: proof %s, first %s", e.Result.ID(), e.At, p.Pressure, p.Yields)
		}
	}
}

func TestAssembly(t *testing.T) {
	for name, d := range examples(t) {
		t.Run(name, func(t *testing.T) {
			order(t, casewright.Check(d))
			proof(t, casewright.Check(d))
		})
	}
	rapid.Check(t, func(t *rapid.T) {
		r := casewright.Check(random(t))
		order(t, r)
		proof(t, r)
	})
}

func TestProofPressure(t *testing.T) {
	list := examples(t)
	for name, want := range map[string]string{"basalt64.toml": "6.75 MPa", "slate2in.toml": "900 psi", "basalt64-short-edge.toml": ""} {
		if got := bench.ProofPressure(casewright.Check(list[name])).Pressure.String(); got != want {
			t.Errorf("%s: %q, not %q", name, got, want)
		}
	}
}

// A proof pressure at what yields or breaks first is refused, one just below
// is not. 1.5 × 4.5 MPa is 6.75 MPa.
func TestProofPressureBelowYield(t *testing.T) {
	for _, c := range []struct {
		mode  margin.Mode
		at    float64
		given bool
	}{
		{margin.Yields, 6.751e6, true},
		{margin.Yields, 6.7509e6, false},
		{margin.Yields, 6.75e6, false},
		{margin.Yields, 3e6, false},
		{margin.Breaks, 6.75e6, false},
		{margin.Breaks, 6.76e6, true},
		{margin.Leaks, 6e6, true},
	} {
		r := casewright.Check(changed(t))
		i := slices.IndexFunc(r.Order, func(e casewright.Event) bool { return e.Result.Method.Mode == c.mode })
		e := r.Order[i]
		e.At = c.at
		r.Order = append([]casewright.Event{e}, slices.Delete(r.Order, i, i+1)...)
		if p := bench.ProofPressure(r); (p.Refused == "") != c.given {
			t.Errorf("%s at %v Pa: %+v", c.mode, c.at, p)
		}
		if leaks := has(bench.Assembly(r), "Proof test", "not above the proof pressure", true); leaks != (c.mode == margin.Leaks) {
			t.Errorf("%s at %v Pa: warns of a leak: %v", c.mode, c.at, leaks)
		}
	}
}

func TestNoProofPressureWhereRefused(t *testing.T) {
	r := casewright.Check(changed(t))
	r.Verdict = margin.Refused
	if p := bench.ProofPressure(r); p.Refused == "" || p.Pressure.IsSet() {
		t.Errorf("%+v", p)
	}
	order(t, r)
}

// A design that is not whole passes what it has, but has no proof pressure.
func TestProofPressureOfHalfAMotor(t *testing.T) {
	text, _, _ := strings.Cut(casewright.Example, "[[end]]\nname = \"nozzle\"")
	d, err := casewright.Read("half.toml", []byte(text))
	if err != nil {
		t.Fatal(err)
	}
	r := casewright.Check(d)
	if p := bench.ProofPressure(r); r.Verdict != margin.Pass || p.Refused == "" {
		t.Errorf("%s, %+v", r.Verdict, p)
	}
	if !has(bench.Assembly(r), "Before you begin", "not whole", true) {
		t.Error("nothing warns of half a motor")
	}
}

func TestStepsFollowTheDesign(t *testing.T) {
	after := func(line string) []string {
		return []string{`edge_break = "0.3 mm"`, "edge_break = \"0.3 mm\"\n" + line}
	}
	for _, c := range []struct {
		change      []string
		group, text string
		caution     bool
	}{
		{nil, "Before you begin", "4 × AS568-137 FKM 75 Shore A.", false},
		{nil, "Before you begin", "16 × M5x0.8 class 12.9.", false},
		{nil, "Inspect and deburr", "Measure first, at nozzle: outside diameter where it fits the bore, 56.95 to 57.00 mm", false},
		{nil, "Ends and screws", "No torque is given", false},
		{nil, "Ends and screws", "nozzle: no position tolerance is given", false},
		{nil, "Seals", "Grease for FKM", false},
		{[]string{`"FKM"`, `"VMQ"`}, "Seals", "No silicone grease", false},
		{[]string{`"FKM"`, `"EPDM"`}, "Seals", "No mineral oil", false},
		{after(`torque = "2 N m"`), "Ends and screws", "Torque 2 N m", false},
		// Room 5.4 − 5 − 2 × 0.1 and − 2 × 0.3 mm.
		{after(`position = "0.1 mm"`), "Ends and screws", "nozzle: the holes are computed to fit at every rotation", false},
		{after(`position = "0.3 mm"`), "Ends and screws", "nozzle: the holes need not fit at every rotation", true},
		{[]string{`temperature = "90 °C"`, ""}, "Before you begin", "Temperatures are missing", true},
		{[]string{"format = 1", "format = 1\n[factors]\nultimate = \"1.4\""}, "Before you begin", "a pass means less", true},
	} {
		if !has(bench.Assembly(casewright.Check(changed(t, c.change...))), c.group, c.text, c.caution) {
			t.Errorf("%v: no step of %q says %q", c.change, c.group, c.text)
		}
	}
}

// Pressure in the file's own unit, whatever it is.
func TestProofPressureUnit(t *testing.T) {
	p := bench.ProofPressure(casewright.Check(changed(t, `"4.5 MPa"`, `"45.0 bar"`)))
	if want := quantity.NewAmount(decimal.RequireFromString("67.5"), quantity.MustUnit("bar")); p.Pressure.String() != want.String() {
		t.Errorf("%s, not %s", p.Pressure, want)
	}
}
