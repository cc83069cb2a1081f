package sizing

import (
	"bytes"
	"os"
	"strings"
	"testing"

	"casewright"
	"casewright/margin"
)

// TestNewPasses makes motors of many sizes and holds that each reads, passes,
// and that every size in it is the least that passes.
func TestNewPasses(t *testing.T) {
	for _, c := range []struct{ pressure, key, size, more, value string }{
		{"4.5 MPa", "tube.inside_diameter", "57.10 ±0.03 mm", "end.screws.thread", "M5"},
		{"650 psi", "tube.outside_diameter", "2 1/2 in", "", ""},
		{"900 psi", "tube.inside_diameter", "1.759 ±0.001 in", "end.screws.class", "SAE 8"},
		{"8 MPa", "tube.outside_diameter", "75 mm", "end.seal.compound", "NBR"},
		{"3 MPa", "tube.inside_diameter", "57 ±0.03 mm", "end.seal.count", "1"},
		{"2 MPa", "tube.inside_diameter", "38 ±0.02 mm", "end.insert_diameter", "20 mm"},
	} {
		settings := []casewright.Setting{{Key: "motor.pressure", Text: c.pressure}, {Key: c.key, Text: c.size}, {Key: "tube.length", Text: "500 mm"}}
		if c.more != "" {
			settings = append(settings, casewright.Setting{Key: c.more, Text: c.value})
		}
		text, a, err := New("new.toml", "New", settings)
		if err != nil || !a.Holds() {
			t.Errorf("%v: %v", c, err)
			continue
		}
		d, err := casewright.Read("new.toml", text)
		if err != nil || casewright.Check(d).Verdict != margin.Pass {
			t.Errorf("%v: %v", c, err)
		}
		for i := range a.Values {
			v := &a.Values[i]
			part := 0
			for j := range a.Design.Ends {
				if a.Design.Ends[j].Name.Value == v.Part {
					part = j + 1
				}
			}
			holdValue(t, a, v, part)
		}
	}
}

// wantedText is the example with values wanted, all of a name but those that
// begin with what is kept.
func wantedText(t testing.TB, keys ...string) []byte {
	t.Helper()
	text, err := os.ReadFile("../testdata/designs/basalt64.toml")
	if err != nil {
		t.Fatal(err)
	}
	lines := strings.Split(string(text), "\n")
	for i, line := range lines {
		key, value, ok := strings.Cut(line, " = ")
		if !ok || !contains(keys, strings.TrimSpace(key)) || strings.HasPrefix(value, "2 ") || value == "2" {
			continue
		}
		comment := ""
		if at := strings.Index(value, "#"); at >= 0 {
			comment = "    " + value[at:]
		}
		lines[i] = key + ` = "?"` + comment
	}
	return []byte(strings.Join(lines, "\n"))
}

// TestFillKeepsTheRest holds that only what was wanted is written.
func TestFillKeepsTheRest(t *testing.T) {
	text := wantedText(t, "wall", "plate", "count", "edge", "size")
	filled, a, err := FillText("basalt64.toml", text, nil, LeastMass)
	if err != nil || !a.Holds() {
		t.Fatal(err, a)
	}
	before, after := bytes.Split(text, []byte("\n")), bytes.Split(filled, []byte("\n"))
	if len(before) != len(after) {
		t.Fatalf("%d lines, then %d", len(before), len(after))
	}
	for i := range before {
		head, tail, wanted := bytes.Cut(before[i], []byte(`"?"`))
		switch {
		case !wanted && !bytes.Equal(before[i], after[i]):
			t.Errorf("line %d was %q, is %q", i+1, before[i], after[i])
		case wanted && (!bytes.HasPrefix(after[i], head) || !bytes.HasSuffix(after[i], bytes.TrimLeft(tail, " "))):
			t.Errorf("line %d was %q, is %q", i+1, before[i], after[i])
		}
	}
}

// TestGoals holds what each goal is for.
func TestGoals(t *testing.T) {
	text := wantedText(t, "wall", "count", "edge", "thread", "plate")
	type outcome struct {
		mass  float64
		holes int
		least float64
	}
	var got [3]outcome
	for goal := range got {
		_, a, err := FillText("basalt64.toml", text, nil, Goal(goal))
		if err != nil || !a.Holds() {
			t.Fatal(goal, err)
		}
		one := outcome{mass: mass(a.Design), least: 1e9}
		for i := range a.Design.Ends {
			one.holes += a.Design.Ends[i].Screws.Count.Value
		}
		for _, m := range strengths(a.Design) {
			one.least = min(one.least, m)
		}
		got[goal] = one
	}
	if m := got[LeastMass].mass; m > got[FewestHoles].mass || m > got[MostMargin].mass {
		t.Errorf("the lightest is not: %+v", got)
	}
	if n := got[FewestHoles].holes; n > got[LeastMass].holes || n > got[MostMargin].holes {
		t.Errorf("the fewest holes are not: %+v", got)
	}
	if m := got[MostMargin].least; m < got[LeastMass].least+0.2 {
		t.Errorf("the most margin is not: %+v", got)
	}
}

// TestStockIsTakenAsItIs holds that a tube of a stock must agree in what the
// design gives, tolerances included, and that screws are not used twice.
func TestStockIsTakenAsItIs(t *testing.T) {
	text := wantedText(t, "wall", "thread", "class", "count", "hole", "edge")
	for _, c := range []struct{ name, stock, problem string }{
		{"a tube with its bore measured", `[[tube]]
inside_diameter = "57.10 ±0.03 mm"
wall = "3.2 ±0.15 mm"
material = "6061-T6 drawn tube"
`, ""},
		{"another tolerance of the bore", `[[tube]]
inside_diameter = "57.10 ±0.5 mm"
wall = "3.2 ±0.15 mm"
material = "6061-T6 drawn tube"
`, "no tube of the stock"},
		{"another material", `[[tube]]
inside_diameter = "57.10 ±0.03 mm"
wall = "3.2 ±0.15 mm"
material = "6061-T6 extruded tube"
`, "no tube of the stock"},
		{"screws for both ends", `[[screws]]
thread = "M5"
class = "12.9"
count = 12
`, ""},
		{"screws for one end", `[[screws]]
thread = "M5"
class = "12.9"
count = 8
`, "holds nozzle"},
		{"no such ring is wanted", `[[ring]]
size = "010"
`, ""},
	} {
		stock, err := casewright.ReadStock("stock.toml", []byte("format = 1\n"+c.stock))
		if err != nil {
			t.Fatal(err)
		}
		if strings.Contains(c.stock, "screws") {
			text = bytes.Replace(text, []byte(`wall = "?"`), []byte(`wall = "3.2 ±0.15 mm"`), 1)
		}
		_, a, err := FillText("basalt64.toml", text, stock, LeastMass)
		if err != nil {
			t.Fatal(err)
		}
		if a.Holds() != (c.problem == "") || !strings.Contains(a.Problem, c.problem) {
			t.Errorf("%s: holds %t, %q", c.name, a.Holds(), a.Problem)
		}
	}
}

// TestFillRefuses holds what no check decides.
func TestFillRefuses(t *testing.T) {
	for old, told := range map[string]string{
		`length = "420 ±0.5 mm"`:        "tube.length",
		`inside_diameter = "57.10 ±0.0`: "",
		`compound = "FKM"`:              "only a stock decides",
		`groove_from_face = "4 mm"`:     "end.seal.groove_from_face",
	} {
		if told == "" {
			continue
		}
		key, _, _ := strings.Cut(old, " = ")
		text := strings.ReplaceAll(casewright.Example, old, key+` = "?"`)
		if _, _, err := FillText("odd.toml", []byte(text), nil, LeastMass); err == nil || !strings.Contains(err.Error(), told) {
			t.Errorf("%s: %v", key, err)
		}
	}
}

// TestFillFindsAgain takes every size out of a motor that passes, alone and
// with each of its neighbours: one that passes is found again, for what was
// taken out passes.
func TestFillFindsAgain(t *testing.T) {
	text, a, err := New("new.toml", "New", []casewright.Setting{
		{Key: "motor.pressure", Text: "5 MPa"},
		{Key: "tube.inside_diameter", Text: "57.10 ±0.03 mm"},
		{Key: "tube.wall", Text: "3.2 ±0.15 mm"},
		{Key: "tube.length", Text: "420 mm"},
		{Key: "end.screws.thread", Text: "M5"},
	})
	if err != nil || !a.Holds() {
		t.Fatal(err)
	}
	keys := []string{
		"lead_in", "plate", "size", "groove_diameter", "groove_width", "groove_spacing", "class", "count", "hole", "edge", "from_face", "engagement",
	}
	wanted := func(keys ...string) []byte {
		lines := strings.Split(string(text), "\n")
		for i, line := range lines {
			key, value, ok := strings.Cut(line, " = ")
			if ok && contains(keys, strings.TrimSpace(key)) && !strings.HasPrefix(value, "2 ") {
				lines[i] = key + ` = "?"`
			}
		}
		return []byte(strings.Join(lines, "\n"))
	}
	for i, key := range keys {
		for _, set := range [][]string{{key}, {key, keys[(i+1)%len(keys)]}} {
			if _, a, err := FillText("again.toml", wanted(set...), nil, LeastMass); err != nil || !a.Holds() {
				t.Errorf("%v: %v, %+v", set, err, a)
			}
		}
	}
}
