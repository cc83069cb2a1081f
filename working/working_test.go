package working_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"casewright"
	"casewright/margin"
	"casewright/margin/formula"
	"casewright/testdata/sheet"
	"casewright/working"
)

func example(t testing.TB, name string) *casewright.Report {
	t.Helper()
	d, err := casewright.ReadFile("../testdata/designs/" + name)
	if err != nil {
		t.Fatal(err)
	}
	return casewright.Check(d)
}

var examples = []string{"basalt64.toml", "basalt64-short-edge.toml", "basalt64-bought-tube.toml", "slate2in.toml"}

// holdSums evaluates every formula that is shown with the values that are
// shown, and finds what is shown to come out.
func holdSums(t rapid.TB, c *working.Calculation) {
	id := c.Result.ID()
	value := func(name string) float64 {
		i := slices.IndexFunc(c.Symbols, func(s working.Symbol) bool { return s.Name == name })
		if i < 0 {
			t.Fatalf("%s: the symbol %s is not told", id, name)
		}
		return c.Symbols[i].Value
	}
	same := func(what string, n *formula.Node, want float64) {
		if got := n.Eval(value); !(math.Abs(got-want) <= 1e-9*math.Abs(want)) && !(math.IsNaN(got) && math.IsNaN(want)) {
			t.Fatalf("%s, %s: %s gives %v, shown is %v", id, what, n.Print(), got, want)
		}
	}
	for _, s := range c.Sums {
		// A part with nothing left to hold bears nothing, and not less.
		if s.Formula != nil && !math.IsNaN(s.Value) && !(s.Part == margin.OfCapacity && s.Value == 0) {
			same("sum", s.Formula, s.Value)
		}
	}
	for _, s := range c.Symbols {
		if s.From != nil && !math.IsNaN(s.Value) && told(c, s.From) {
			same(s.Name, s.From, s.Value)
		}
	}
	for _, o := range c.Others {
		same(o.Name, o.Formula, o.Value)
	}
}

// told says whether all symbols of a formula are among those told; the others
// are explained in words.
func told(c *working.Calculation, n *formula.Node) bool {
	for _, name := range n.Names() {
		if !slices.ContainsFunc(c.Symbols, func(s working.Symbol) bool { return s.Name == name }) {
			return false
		}
	}
	return true
}

func all(r *casewright.Report) []working.Calculation { return working.Of(r, working.Find(r, "")) }

func TestSumsOfExamples(t *testing.T) {
	for _, name := range examples {
		r := example(t, name)
		list := all(r)
		if len(list) != len(r.Results) {
			t.Fatalf("%s: %d of %d checks", name, len(list), len(r.Results))
		}
		for i := range list {
			holdSums(t, &list[i])
		}
	}
}

func TestPropertySums(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := sheet.Draw(t).String()
		d, err := casewright.Read("motor.toml", []byte(text))
		if err != nil {
			t.Fatal(err)
		}
		r := casewright.Check(d)
		i := rapid.IntRange(0, len(r.Results)-1).Draw(t, "check")
		for _, c := range working.Of(r, []int{i}) {
			holdSums(t, &c)
		}
	})
}

// TestOrigins holds that every number can be traced: to a key of the file, to
// an entry of a table, to other symbols, or to words.
func TestOrigins(t *testing.T) {
	for _, name := range examples {
		for _, c := range all(example(t, name)) {
			for _, s := range c.Symbols {
				if s.Inputs == nil && s.Entries == nil && s.From == nil && s.Told == "" {
					t.Errorf("%s, %s: nothing says where %s comes from", name, c.Result.ID(), s.Name)
				}
			}
		}
	}
}

// TestTables holds that what rests on a table is told with the table's source.
func TestTables(t *testing.T) {
	reports := []*casewright.Report{
		reading(t, "edge_break", `torque = "4 N m"`+"\nposition = \"0.2 mm\"\nedge_break", "plate =", `port_thread = "1/8-27 NPT"`+"\nport_depth = \"9 mm\"\nplate ="),
		reading(t, `"M5x0.8"`, `"10-32 UNF"`, `"12.9"`, `"A574"`, "edge_break", `torque = "4 N m"`+"\nedge_break"),
	}
	for _, name := range examples {
		reports = append(reports, example(t, name))
	}
	also := map[string]int{"d_p": 1, "L_2": 1, "w_c": 2, "a_n": 2, "F_1": 2, "g_lim": 1} // what they rest on stands within their words
	seen := map[string]bool{}
	for _, r := range reports {
		for _, c := range all(r) {
			for _, s := range c.Symbols {
				threaded := slices.ContainsFunc(s.Inputs, func(in working.Input) bool { return in.Key == "end.port_thread" })
				if n := also[s.Name]; n > 0 && (s.Name != "d_p" || threaded) {
					seen[s.Name] = true
					if len(s.Entries) != n {
						t.Errorf("%s, %s: %d entries, want %d", c.Result.ID(), s.Name, len(s.Entries), n)
					}
				}
				if strings.HasPrefix(s.Told, "table of") && s.Entries == nil {
					t.Errorf("%s: nothing says which %s %s is of", c.Result.ID(), s.Told, s.Name)
				}
				for _, e := range s.Entries {
					if e.What == "" || e.Source == "" || e.Status != "seen" && e.Status != "memory" {
						t.Errorf("%s, %s: %+v", c.Result.ID(), s.Name, e)
					}
				}
			}
		}
	}
	if len(seen) != len(also) {
		t.Errorf("of %v only %v", also, seen)
	}
}

// reading is the report of the example with some of its text replaced.
func reading(t *testing.T, oldnew ...string) *casewright.Report {
	t.Helper()
	d, err := casewright.Read("motor.toml", []byte(strings.NewReplacer(oldnew...).Replace(casewright.Example)))
	if err != nil {
		t.Fatal(err)
	}
	return casewright.Check(d)
}

// TestRefused holds that no other reading is made of numbers that are refused,
// be it of a check that is only told.
func TestRefused(t *testing.T) {
	for id, r := range map[string]*casewright.Report{
		"nozzle/hole.peak": reading(t, `edge = "14 ±0.2 mm"`, `edge = "8.0 mm"`),
		"tube/tube.burst":  reading(t, `temperature = "90 °C"`, `temperature = "400 °C"`),
	} {
		c := working.Of(r, working.Find(r, id))[0]
		if c.Result.Reason == margin.None || len(c.Result.Method.Readings) == 0 || c.Others != nil {
			t.Errorf("%s: reason %q, other readings %+v", id, c.Result.Reason.ID(), c.Others)
		}
	}
}

// TestLines holds that a value is told with the line where it stands.
func TestLines(t *testing.T) {
	r := example(t, "basalt64-short-edge.toml")
	c := working.Of(r, working.Find(r, "nozzle/hole.edge"))[0]
	if len(c.Symbols) != 2 {
		t.Fatalf("%+v", c.Symbols)
	}
	edge := c.Symbols[0]
	if edge.Name != "e_min" || edge.Value != 0.0063 || len(edge.Inputs) != 1 || edge.Inputs[0] != (working.Input{Key: "end.screws.edge", Text: "6.5 ±0.2 mm", Line: 72}) {
		t.Errorf("%+v", edge)
	}
	if len(c.Changes) != 1 || c.Changes[0].Text != `"11.5 ±0.2 mm"` {
		t.Errorf("%+v", c.Changes)
	}
}

// TestEntries holds that a strength is told with its value at 20 °C, its basis
// and its source.
func TestEntries(t *testing.T) {
	r := example(t, "basalt64.toml")
	c := working.Of(r, working.Find(r, "tube/tube.yield"))[0]
	i := slices.IndexFunc(c.Symbols, func(s working.Symbol) bool { return s.Name == "F_ty" })
	if i < 0 || len(c.Symbols[i].Entries) != 1 {
		t.Fatalf("%+v", c.Symbols)
	}
	if e := c.Symbols[i].Entries[0]; e.What != "6061-T6 drawn tube, yield strength (0.2 % proof)" || e.Value == "" || e.Basis == "" || e.Source == "" || e.Status == "" {
		t.Errorf("%+v", e)
	}
	// 4.5 MPa are 653 psi.
	gap := working.Of(r, working.Find(r, "nozzle/seal.gap"))[0]
	i = slices.IndexFunc(gap.Symbols, func(s working.Symbol) bool { return s.Name == "g_lim" })
	if e := gap.Symbols[i].Entries; len(e) != 1 || e[0].What != "500 to 1000 psi: diametral clearance" || e[0].Value != "0.010 in at 70 and 0.024 in at 90 Shore A" {
		t.Errorf("%+v", e)
	}
}

func TestFind(t *testing.T) {
	r := example(t, "basalt64.toml")
	for word, want := range map[string]int{
		"": len(r.Results), "nozzle/hole.edge": 1, "hole.edge": 2, "tube": 3, "no such": 0,
	} {
		if got := len(working.Find(r, word)); got != want {
			t.Errorf("%q finds %d, want %d", word, got, want)
		}
	}
}

func TestWorst(t *testing.T) {
	r := example(t, "basalt64-short-edge.toml")
	list := working.Find(r, "")
	working.Worst(r, list)
	if first := r.Results[list[0]].ID(); first != "nozzle/hole.edge" {
		t.Errorf("%s comes first", first)
	}
	if last := r.Results[list[len(list)-1]]; last.Verdict != margin.Noted {
		t.Errorf("%s comes last", last.ID())
	}
}

// TestOwnLimit holds that a limit of the design file's own is told as such, and
// not as the method's formula.
func TestOwnLimit(t *testing.T) {
	text := casewright.Example + "\n[limits]\n\"seal.gap\" = \"0.5 mm\"\n"
	d, err := casewright.Read("own.toml", []byte(text))
	if err != nil {
		t.Fatal(err)
	}
	r := casewright.Check(d)
	c := working.Of(r, working.Find(r, "nozzle/seal.gap"))[0]
	limit := c.Sums[1]
	if !limit.Own || !limit.Most || limit.Formula != nil || limit.Value != 0.0005 {
		t.Errorf("%+v", limit)
	}
}
