package casewright

import (
	"errors"
	"strings"
	"testing"
)

const stockText = `format = 1
[[tube]]
outside_diameter = "63.5 mm"
wall = "3.2 ±0.15 mm"
material = "6061-T6 drawn tube"
[[tube]]
outside_diameter = "2 1/2 in"
inside_diameter = "2.26 ±0.001 in"
wall_variation = "0.01 in"
material = "6061-T6 drawn tube"
[[screws]]
thread = "M5"
class = "12.9"
count = 40
[[screws]]
thread = "10-32"
class = "SAE 8"
[[ring]]
size = "-137"
compound = "FKM"
hardness = 75
[[ring]]
size = "226"
`

func TestReadStock(t *testing.T) {
	s, err := ReadStock("stock.toml", []byte(stockText))
	if err != nil {
		t.Fatal(err)
	}
	if len(s.Tubes) != 2 || len(s.Screws) != 2 || len(s.Rings) != 2 {
		t.Fatalf("%d tubes, %d screws, %d rings", len(s.Tubes), len(s.Screws), len(s.Rings))
	}
	if got := s.Tubes[1].Inside.String(); got != "2.26 ±0.001 in" || s.Tubes[0].Variation.IsSet() {
		t.Errorf("the second tube has a bore of %s", got)
	}
	if s.Screws[0].Count.Value != 40 || s.Screws[1].Count.Value != 0 || s.Screws[1].Thread.Name != "10-32 UNF" {
		t.Errorf("screws %+v", s.Screws)
	}
	if s.Rings[1].Ring.Name != "AS568-226" || s.Rings[1].Compound.Name != "" || s.Rings[0].Hardness.Value != 75 {
		t.Errorf("rings %+v", s.Rings)
	}
}

// TestReadStockTellsAllFaults holds that a stock file is read as strictly as a
// design file, and that all of its faults are told at once, in their order.
func TestReadStockTellsAllFaults(t *testing.T) {
	_, err := ReadStock("stock.toml", []byte(`format = 2
[[tube]]
outside_diameter = "63.5"
wall = "3.2 mm"
material = "6061-T6 drawn tub"
[[tube]]
wall = "3 mm"
material = "6061-T6 drawn tube"
length = "1 m"
[[screws]]
thread = "M5x1"
[[ring]]
Size = "AS568-137"
[[rings]]
size = "AS568-137"
[motor]
`))
	var all Errors
	if !errors.As(err, &all) {
		t.Fatal(err)
	}
	want := []string{
		`stock.toml:1: casewright ` + Version + ` reads format 1 only; write format = 1`,
		`stock.toml:3: [[tube]] 1: outside_diameter: "63.5" has no unit; write "63.5 mm"`,
		`stock.toml:5: [[tube]] 1: material: "6061-T6 drawn tub" is not known; write "6061-T6 drawn tube"; casewright materials lists them, and [[material]] describes your own`,
		`stock.toml:6: [tube]: a tube has two of outside_diameter, inside_diameter and wall; given: wall; write exactly two of them`,
		`stock.toml:9: [[tube]] 2: "length" is not a key; write one of outside_diameter, inside_diameter, wall, wall_variation, material`,
		`stock.toml:10: [[screws]] 1: "class" is missing (strength class of the screws); write class = "12.9"`,
		`stock.toml:11: [[screws]] 1: thread: "M5x1" is not known; write one of M5x0.8, M5x0.5; casewright materials tells how threads are written`,
		`stock.toml:13: [[ring]] 1: "Size" is not a key; write "size" (O-ring size)`,
		`stock.toml:14: "rings" is not a table of a stock file; write [[ring]]`,
		`stock.toml:16: "motor" is not a table of a stock file; write one of [[tube]], [[screws]], [[ring]]`,
	}
	var got []string
	for _, one := range all {
		got = append(got, one.Error())
	}
	if a, b := strings.Join(got, "\n"), strings.Join(want, "\n"); a != b {
		t.Errorf("told:\n%s\nwant:\n%s", a, b)
	}
}

// TestReadOpen holds where the values stand that are wanted, and that nothing
// else may be left out.
func TestReadOpen(t *testing.T) {
	text := strings.Replace(Example, `"3.20 ±0.15 mm"`, `"?"`, 1)
	text = strings.Replace(text, "count = 8", `count = '?'`, 1)
	d, wanted, err := ReadOpen("open.toml", []byte(text))
	if err != nil || !d.Open || len(wanted) != 2 {
		t.Fatal(err, wanted)
	}
	for i, want := range []struct {
		key, text string
		part      int
	}{{"tube.wall", `"?"`, 0}, {"end.screws.count", `'?'`, 1}} {
		u := wanted[i]
		if u.Key != want.key || u.Part != want.part || text[u.Start:u.End] != want.text || u.Line < 1 {
			t.Errorf("%+v is %q", u, text[u.Start:u.End])
		}
	}
	whole, wanted, err := ReadOpen("whole.toml", []byte(Example))
	if err != nil || whole.Open || wanted != nil {
		t.Error(err, wanted)
	}
	for _, one := range []struct{ old, now, told string }{
		{`length = "420 ±0.5 mm"`, ``, `"length" is missing`},
		{`temperature = "90 °C"`, `temperature = "?"`, `tube.temperature: "?": no check decides this value`},
		{`name = "Basalt 64"`, `name = "?"`, `motor.name: "?": no check decides this value`},
	} {
		if _, _, err := ReadOpen("open.toml", []byte(strings.Replace(text, one.old, one.now, 1))); err == nil || !strings.Contains(err.Error(), one.told) {
			t.Errorf("%s: %v", one.now, err)
		}
	}
	if _, err := Read("open.toml", []byte(text)); err == nil || !strings.Contains(err.Error(), "let casewright size find it") {
		t.Error(err)
	}
}

func TestAssemble(t *testing.T) {
	base, err := Read("base.toml", []byte(Example))
	if err != nil {
		t.Fatal(err)
	}
	d, err := Assemble(base, 2, []Setting{{"end.screws.edge", "9 mm", "--edge"}, {"end.screws.threads_in_shear", "false", "--threads-in-shear"}})
	if err != nil {
		t.Fatal(err)
	}
	if d.Ends[1].Screws.Edge.String() != "9 mm" || d.Ends[1].Screws.InShear.Value || !d.Ends[0].Screws.InShear.Value {
		t.Errorf("%+v", d.Ends[1].Screws)
	}
	if base.Open || base.Ends[1].Screws.Edge.String() != "14 ±0.2 mm" {
		t.Error("the base has changed")
	}
	_, err = Assemble(nil, 0, []Setting{
		{"tube.wall", "3", "--wall"}, {"end.screws.edge", "9 mm", "--edge"}, {"tube.egde", "9 mm", "--egde"}, {"tube.material", "?", "--material"},
	})
	for _, told := range []string{`--wall: "3" has no unit; write "3 mm"`, `--edge: "end.screws.edge" is not a key that can be given here`, `--egde: "tube.egde"`, `--material: "?" is a value`} {
		if err == nil || !strings.Contains(err.Error(), told) {
			t.Errorf("%q is not told: %v", told, err)
		}
	}
}

// Any bytes are either refused with errors, or a stock whose parts are whole.
func FuzzReadStock(f *testing.F) {
	f.Add([]byte(stockText))
	f.Add([]byte("format = 1\n[[ring]]\nsize = 137\n"))
	f.Add([]byte("format = 1\n[tube]\nwall = \"1 mm\"\n"))
	f.Add([]byte("format = 1\nring = [{size = \"AS568-137\"}, 3]\n"))
	f.Fuzz(func(t *testing.T, text []byte) {
		s, err := ReadStock("fuzz.toml", text)
		if err != nil {
			var all Errors
			if s != nil || !errors.As(err, &all) || len(all) == 0 {
				t.Fatalf("stock %v, error %T: %v", s != nil, err, err)
			}
			return
		}
		for _, tube := range s.Tubes {
			if _, _, ok := tube.Nominal(); !ok || tube.Material.Material == nil {
				t.Errorf("a tube without size or material: %+v", tube)
			}
		}
		for _, w := range s.Screws {
			if w.Thread.Name == "" || w.Class.Name == "" {
				t.Errorf("a screw without thread or class: %+v", w)
			}
		}
	})
}

// Any bytes are refused, or an open design of which every check that stands is
// computed, and what is wanted stands where it is told.
func FuzzReadOpen(f *testing.F) {
	f.Add([]byte(strings.ReplaceAll(Example, `"14 ±0.2 mm"`, `"?"`)))
	f.Add([]byte(strings.ReplaceAll(Example, `"57.10 ±0.03 mm"`, `"?"`)))
	f.Add([]byte(strings.ReplaceAll(Example, `"AS568-137"`, `"""?"""`)))
	f.Fuzz(func(t *testing.T, text []byte) {
		d, wanted, err := ReadOpen("fuzz.toml", text)
		if err != nil {
			return
		}
		for _, u := range wanted {
			if u.Start < 0 || u.End > len(text) || !strings.Contains(string(text[u.Start:u.End]), "?") && !strings.Contains(string(text[u.Start:u.End]), `\`) {
				t.Errorf("%+v", u)
			}
		}
		if d.Open != (len(wanted) > 0) {
			t.Errorf("open is %t", d.Open)
		}
		Check(d)
	})
}
