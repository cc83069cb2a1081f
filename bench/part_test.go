package bench_test

import (
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"casewright"
	"casewright/bench"
	"casewright/quantity"
	"casewright/testdata/sheet"
)

// place is a key of a part: 0 the tube, then the ends.
type place struct {
	Key    string
	Number int
}

// examples reads the example designs, metric and inch.
func examples(t *testing.T) map[string]*casewright.Design {
	t.Helper()
	files, err := filepath.Glob("../testdata/designs/*.toml")
	if err != nil || len(files) < 4 {
		t.Fatalf("%d examples, %v", len(files), err)
	}
	list := map[string]*casewright.Design{}
	for _, file := range files {
		d, err := casewright.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		list[filepath.Base(file)] = d
	}
	return list
}

// changed is the first example with other texts in place of its own.
func changed(t *testing.T, pairs ...string) *casewright.Design {
	t.Helper()
	text := casewright.Example
	for i := 0; i < len(pairs); i += 2 {
		if !strings.Contains(text, pairs[i]) {
			t.Fatalf("the example has no %q", pairs[i])
		}
		text = strings.ReplaceAll(text, pairs[i], pairs[i+1])
	}
	d, err := casewright.Read("changed.toml", []byte(text))
	if err != nil {
		t.Fatal(err)
	}
	return d
}

// random draws a design that can be built.
func random(t *rapid.T) *casewright.Design {
	d, err := casewright.Read("motor.toml", []byte(sheet.Draw(t, sheet.SameSign).String()))
	if err != nil {
		t.Fatal(err)
	}
	return d
}

// given lists the dimensions of metal that a design sets.
func given(d *casewright.Design) map[place]quantity.Dimension {
	list := map[place]quantity.Dimension{}
	for number := range len(d.Ends) + 1 {
		for _, k := range casewright.Keys() {
			if strings.HasPrefix(k.Path, "end.") != (number > 0) || strings.Contains("."+k.Path, ".heat.") {
				continue // liners and covers are on no sheet
			}
			if f, ok := k.Field(d, number).(*casewright.Dimension); ok && f.IsSet() {
				list[place{k.Path, number}] = f.Dimension
			}
		}
	}
	return list
}

// rows are the rows of all parts that are of a key of the file.
func rows(d *casewright.Design) map[place][]bench.Row {
	list := map[place][]bench.Row{}
	for _, p := range bench.Parts(d) {
		for _, r := range p.Rows {
			if r.Key != "" {
				list[place{r.Key, r.Number}] = append(list[place{r.Key, r.Number}], r)
			}
		}
	}
	return list
}

// once holds that every dimension stands in one row, and every other key in at
// most one.
func once(t rapid.TB, d *casewright.Design) {
	t.Helper()
	list := rows(d)
	for at, r := range list {
		if len(r) != 1 {
			t.Fatalf("%v stands in %d rows", at, len(r))
		}
	}
	for at, size := range given(d) {
		r := list[at]
		if len(r) != 1 {
			t.Fatalf("%v stands in %d rows", at, len(r))
		}
		if size.Nominal().IsZero() {
			continue // the port of a solid plate
		}
		if !strings.Contains(r[0].Text, size.String()) {
			t.Fatalf("%v is %s, not %s", at, r[0].Text, size)
		}
	}
}

func TestEveryDimensionOnce(t *testing.T) {
	for name, d := range examples(t) {
		t.Run(name, func(t *testing.T) { once(t, d) })
	}
	rapid.Check(t, func(t *rapid.T) { once(t, random(t)) })
}

// The drawings' own texts, and what follows from them by hand: 5 − 0.8, and
// 0.190 − 1/32 = 0.15875 up to a thousandth. ±0.3 mm is ISO 2768-m from 30 to
// 120 mm, and 0.2 mm from 6 to 30 mm, of which 0.007 in remain.
func TestRowTexts(t *testing.T) {
	list := examples(t)
	want := map[string]map[place]string{
		"basalt64.toml": {
			{"tube.inside_diameter", 0}:    "57.10 ±0.03 mm",
			{"tube.lead_in", 0}:            "3 mm (no tolerance given) × 15° to the axis",
			{"end.outside_diameter", 1}:    "57.00 +0/-0.05 mm",
			{"end.length", 1}:              "36 mm (general tolerance ISO 2768-m: ±0.3 mm)",
			{"end.screws.hole", 1}:         "⌀5.5 ±0.1 mm through one wall, 8 × equally spaced 45°",
			{"end.screws.engagement", 1}:   "M5x0.8 - 6H, 9 mm (general tolerance ISO 2768-m: ±0.2 mm) full thread, drill 4.2 mm, 8 × equally spaced 45°",
			{"end.seal.groove_width", 2}:   "3.60 +0.15/-0 mm",
			{"end.seal.groove_width", 1}:   "3.60 +0.15/-0 mm",
			{"end.lip_diameter", 2}:        "⌀25 ±0.1 mm",
			{"end.seal.size", 2}:           "AS568-137",
			{"end.screws.thread", 1}:       "M5x0.8",
			{"end.seal.groove_spacing", 1}: "6 mm (general tolerance ISO 2768-m: ±0.1 mm)",
		},
		"slate2in.toml": {
			{"tube.length", 0}:           "14 ±0.015625 in",
			{"end.plate", 1}:             "0.375 in (general tolerance ISO 2768-m: ±0.2 mm, 0.007 in)",
			{"end.screws.engagement", 2}: "10-32 UNF - 2B, 0.25 in (general tolerance ISO 2768-m: ±0.2 mm, 0.007 in) full thread, drill 0.159 in, 8 × equally spaced 45°",
		},
	}
	for name, texts := range want {
		all, got := rows(list[name]), map[place]string{}
		for at := range texts {
			for _, r := range all[at] {
				got[at] = r.Text
			}
		}
		if diff := cmp.Diff(texts, got); diff != "" {
			t.Errorf("%s (-want +got):\n%s", name, diff)
		}
	}
}

// A row of seven holes stands at no whole angle; position and countersink go
// to the tube, a port and its thread to the bulkhead.
func TestMoreRows(t *testing.T) {
	d := changed(
		t, "count = 8", "count = 7", `edge_break = "0.3 mm"`, "edge_break = \"0.3 mm\"\nposition = \"0.2 mm\"\nhead = \"countersunk\"\nhead_depth = \"1.5 mm\"",
		`plate = "12 mm"`, "plate = \"12 mm\"\nport = \"8 mm\"\nport_thread = \"1/8-27 NPT\"",
	)
	want := map[place]string{
		{"end.screws.hole", 2}:       "⌀5.5 ±0.1 mm through one wall, 7 × equally spaced 360°/7 (51.429°)",
		{"end.screws.position", 1}:   "⌀0.2 mm, in tube and end alike",
		{"end.screws.head_depth", 1}: "1.5 mm (general tolerance ISO 2768-m: ±0.1 mm) deep, 90°, about ⌀8.5 mm along the tube",
		{"end.port", 1}:              "⌀8 mm (general tolerance ISO 2768-m: ±0.2 mm)",
		{"end.port_thread", 1}:       "1/8-27 NPT, from outside, drill 0.332 in",
	}
	got := map[place]string{}
	for at, r := range rows(d) {
		if _, ok := want[at]; ok {
			got[at] = r[0].Text
		}
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
	once(t, d)
}

// Rubber has no general tolerance of metal.
func TestRingBySizes(t *testing.T) {
	d := changed(t, `size = "AS568-137"`, "section = \"2.62 mm\"\ninside_diameter = \"52.07 ±0.43 mm\"")
	got := map[string]string{}
	for at, r := range rows(d) {
		if at.Number == 1 && (at.Key == "end.seal.section" || at.Key == "end.seal.inside_diameter") {
			got[at.Key] = r[0].Text
		}
	}
	want := map[string]string{"end.seal.section": "2.62 mm (no tolerance given)", "end.seal.inside_diameter": "52.07 ±0.43 mm"}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
	once(t, d)
}

// What is not of the file tells where it comes from, and the parts to be made
// stand before those to be bought, each as often as it is needed.
func TestParts(t *testing.T) {
	type part struct {
		Name, Material string
		Bought         bool
		Quantity       int
	}
	var got []part
	for _, p := range bench.Parts(examples(t)["basalt64.toml"]) {
		got = append(got, part{p.Name, p.Material, p.Bought, p.Quantity})
		for _, r := range p.Rows {
			if r.Key == "" && r.Source == "" {
				t.Errorf("%s, %s: of no key and no source", p.Name, r.What)
			}
		}
	}
	want := []part{
		{"tube", "6061-T6 drawn tube", false, 1},
		{"bulkhead", "6061-T6 bar", false, 1},
		{"nozzle", "6061-T6 bar", false, 1},
		{"screws of the bulkhead", "12.9", true, 8},
		{"O-rings of the bulkhead", "FKM", true, 2},
		{"screws of the nozzle", "12.9", true, 8},
		{"O-rings of the nozzle", "FKM", true, 2},
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
}

// A design with nothing in it but its open ends has sheets all the same.
func TestPartsOfOpenDesign(t *testing.T) {
	d, err := casewright.Assemble(nil, 2, []casewright.Setting{{Key: "tube.wall", Text: "3 mm", Name: "--wall"}})
	if err != nil {
		t.Fatal(err)
	}
	once(t, d)
	r := casewright.Check(d)
	if p := bench.ProofPressure(r); p.Refused == "" {
		t.Error("a proof pressure is given for a design without one")
	}
	if len(bench.Inspection(r)) != 1 || len(bench.Assembly(r)) == 0 {
		t.Error("an open design has no steps, or more to measure than it gives")
	}
}
