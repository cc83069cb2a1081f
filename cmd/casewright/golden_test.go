package main

import (
	"encoding/json"
	"fmt"
	"maps"
	"math"
	"os"
	"path/filepath"
	"reflect"
	"slices"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/google/go-cmp/cmp"
)

// golden is one output that is kept in testdata/golden.
type golden struct {
	file    string
	columns string
	args    []string
}

func goldens(t *testing.T) []golden {
	t.Helper()
	designs, err := filepath.Glob("../../testdata/designs/*.toml")
	if err != nil || len(designs) == 0 {
		t.Fatalf("no design to show: %v", err)
	}
	list := []golden{
		{"materials.golden", "80", []string{"materials"}},
		{"materials-wide.golden", "140", []string{"materials"}},
		{"materials-imperial.golden", "80", []string{"materials", "--units", "imperial"}},
		{"materials-metal.golden", "80", []string{"materials", "6061-T6 drawn tube"}},
		{"materials-compound.golden", "80", []string{"materials", "FKM"}},
		{"materials-class.golden", "80", []string{"materials", "12.9"}},
		{"materials-stainless.golden", "80", []string{"materials", "--ascii", "--units", "imperial", "A2-70"}},
		{"materials.json.golden", "80", []string{"materials", "--format", "json"}},
		{"methods.golden", "80", []string{"methods"}},
		{"methods-one.golden", "80", []string{"methods", "hole.tear_out"}},
		{"methods-ascii.golden", "80", []string{"methods", "--ascii", "tube.burst"}},
		{"methods.json.golden", "80", []string{"methods", "--format", "json"}},
		{"verify.golden", "80", []string{"verify", "--method", "tube.hoop"}},
		{"verify.json.golden", "80", []string{"verify", "--format", "json", "--method", "tube.hoop"}},
		{"explain-all.golden", "80", []string{"explain", "basalt64-short-edge.toml"}},
		{"explain-part.golden", "140", []string{"explain", "slate2in.toml", "tube"}},
		{"explain-ascii.golden", "80", []string{"explain", "--ascii", "--units", "imperial", "basalt64.toml", "seal.gap"}},
		{"explain-tolerance.golden", "80", []string{"explain", "basalt64-bought-tube.toml", "nozzle/seal.gap", "nozzle/seal.squeeze_least_offset"}},
		{"explain.md.golden", "80", []string{"explain", "--format", "markdown", "basalt64-short-edge.toml", "nozzle/hole.tear_out"}},
		{"explain.html.golden", "80", []string{"explain", "--format", "html", "basalt64-short-edge.toml", "tube", "nozzle/hole.tear_out"}},
		{"explain.json.golden", "80", []string{"explain", "--format", "json", "basalt64-short-edge.toml", "nozzle"}},
	}
	tube := []string{"--outside-diameter", "63.5 mm", "--material", "6061-T6 drawn tube", "--pressure", "4.5 MPa", "--temperature", "90 °C"}
	walled := append([]string{"--wall", "3.2 ±0.15 mm", "--end-temperature", "60 °C"}, tube...)
	inches := []string{"--outside-diameter", "2 1/2 in", "--wall", "0.125 ±0.012 in", "--material", "6061-T6 drawn tube", "--pressure", "650 psi"}
	bore := []string{
		"--inside-diameter", "57.10 ±0.03 mm", "--wall", "3.2 ±0.15 mm", "--material", "6061-T6 drawn tube", "--pressure", "4.5 MPa",
		"--compound", "FKM", "--hardness", "75",
	}
	for _, one := range []struct {
		name string
		args []string
	}{
		{"wall", append([]string{"wall"}, tube...)},
		{"wall-inches", []string{"wall", "--outside-diameter", "2 1/2 in", "--material", "6061-T6 drawn tube", "--pressure", "650 psi"}},
		{"pressure", []string{"wall", "--inside-diameter", "57.10 ±0.03 mm", "--wall", "3.2 ±0.15 mm", "--material", "6061-T6 drawn tube"}},
		{"edge", append([]string{"edge", "--thread", "M5", "--class", "12.9", "--count", "8", "--hole", "5.5 ±0.1 mm"}, walled...)},
		{"edge-fails", append([]string{"edge", "--thread", "M4", "--class", "8.8", "--count", "3"}, walled...)},
		{"screws", append([]string{"screws"}, walled...)},
		{"screws-inches", append([]string{"screws"}, inches...)},
		{"groove", append([]string{"groove"}, bore...)},
		{"groove-bare", []string{"groove", "--inside-diameter", "57.10 ±0.03 mm", "--section", "2.62 mm"}},
		{"groove-none", []string{"groove", "--inside-diameter", "57.10 ±1.5 mm"}},
	} {
		list = append(
			list,
			golden{"answer-" + one.name + ".golden", "80", one.args},
			golden{"answer-" + one.name + ".json.golden", "80", append(slices.Clone(one.args), "--format", "json")},
		)
	}
	for _, path := range designs {
		file := filepath.Base(path)
		name := strings.TrimSuffix(file, ".toml")
		list = append(
			list,
			golden{name + ".golden", "80", []string{"check", file}},
			golden{name + "-all.golden", "80", []string{"check", "--all", file}},
			golden{name + "-wide.golden", "140", []string{"check", "--all", "--units", "imperial", file}},
			golden{name + ".json.golden", "80", []string{"check", "--format", "json", file}},
		)
	}
	for _, format := range []string{"junit", "sarif", "line", "markdown"} {
		list = append(
			list,
			golden{"basalt64-short-edge." + format + ".golden", "80", []string{"check", "--format", format, "basalt64-short-edge.toml"}},
			golden{"bad." + format + ".golden", "80", []string{"check", "--format", format, "-"}},
		)
	}
	return append(
		list,
		golden{"heat.golden", "80", []string{"heat", "basalt64-hot.toml"}},
		golden{"diff.golden", "80", []string{"diff", "basalt64-short-edge.toml", "basalt64.toml"}},
		golden{"diff-all.golden", "80", []string{"diff", "--all", "basalt64-bought-tube.toml", "basalt64-hot.toml"}},
		golden{"diff.md.golden", "80", []string{"diff", "--format", "markdown", "basalt64-short-edge.toml", "basalt64.toml"}},
		golden{"diff.json.golden", "80", []string{"diff", "--format", "json", "basalt64-short-edge.toml", "basalt64.toml"}},
		golden{"heat-imperial.golden", "80", []string{"heat", "--units", "imperial", "--ascii", "basalt64-hot.toml"}},
	)
}

// TestGolden compares every output with the one that was looked at and kept.
// Text is compared as it stands; the numbers of JSON may differ by 1e-12 of
// themselves, as processors round differently.
func TestGolden(t *testing.T) {
	list := goldens(t)
	folder, err := filepath.Abs("testdata/golden")
	if err != nil {
		t.Fatal(err)
	}
	write := updating(t)
	inDesigns(t)
	bad, err := os.ReadFile("../invalid/end-many-faults.toml") // on standard input, without the marks of its faults
	if err != nil {
		t.Fatal(err)
	}
	input := strings.ReplaceAll(string(bad), "¶", "")
	for _, g := range list {
		t.Setenv("COLUMNS", g.columns)
		_, got, errs := casewrightRun(input, g.args...)
		if got == "" || errs != "" {
			t.Errorf("%q: stdout %q, stderr %q", g.args, got, errs)
			continue
		}
		for _, line := range strings.Split(got, "\n") {
			if strings.HasPrefix(g.file, "answer-") && !strings.HasSuffix(g.file, ".json.golden") && utf8.RuneCountInString(line) > 80 {
				t.Errorf("%q: wider than 80 columns: %q", g.args, line)
			}
		}
		path := filepath.Join(folder, g.file)
		if write {
			if err := os.WriteFile(path, []byte(got), 0o666); err != nil {
				t.Fatal(err)
			}
			continue
		}
		want, err := os.ReadFile(path)
		if err != nil {
			t.Errorf("no golden file: %v; look at the output, and write it with -update", err)
			continue
		}
		if strings.HasSuffix(g.file, ".json.golden") {
			if diff := differences("", parsed(t, string(want)), parsed(t, got)); diff != nil {
				t.Errorf("%q is not as in %s:\n  %s", g.args, g.file, strings.Join(diff, "\n  "))
			}
			continue
		}
		if diff := cmp.Diff(strings.Split(string(want), "\n"), strings.Split(got, "\n")); diff != "" {
			t.Errorf("%q is not as in %s (-kept +now):\n%s", g.args, g.file, diff)
		}
	}
	kept, err := filepath.Glob(filepath.Join(folder, "*"))
	if err != nil || len(kept) == 0 {
		t.Fatalf("no golden files at all: %v", err)
	}
	for _, path := range kept {
		if !slices.ContainsFunc(list, func(g golden) bool { return g.file == filepath.Base(path) }) {
			t.Errorf("%s belongs to no output", path)
		}
	}
}

// differences lists where two values of JSON differ, one place a line. Numbers
// are alike to 1e-12 of themselves.
func differences(path string, kept, now any) (list []string) {
	switch a := kept.(type) {
	case map[string]any:
		b, ok := now.(map[string]any)
		if !ok {
			break
		}
		if id, ok := a["id"]; ok {
			path += fmt.Sprintf("(%v)", id)
		}
		keys := maps.Clone(a)
		maps.Copy(keys, b)
		for _, key := range slices.Sorted(maps.Keys(keys)) {
			x, inA := a[key]
			y, inB := b[key]
			switch {
			case !inB:
				list = append(list, fmt.Sprintf("%s.%s is no longer there", path, key))
			case !inA:
				list = append(list, fmt.Sprintf("%s.%s is new: %v", path, key, y))
			default:
				list = append(list, differences(path+"."+key, x, y)...)
			}
		}
		return list
	case []any:
		b, ok := now.([]any)
		if !ok || len(a) != len(b) {
			break
		}
		for i := range a {
			list = append(list, differences(fmt.Sprintf("%s[%d]", path, i), a[i], b[i])...)
		}
		return list
	case float64:
		if b, ok := now.(float64); ok && math.Abs(a-b) <= 1e-12*math.Max(math.Abs(a), math.Abs(b)) {
			return nil
		}
	default:
		if kept == now {
			return nil
		}
	}
	return []string{fmt.Sprintf("%s: %v, was %v", path, now, kept)}
}

// TestDifferences holds that the comparison can fail.
func TestDifferences(t *testing.T) {
	for _, c := range []struct {
		kept, now string
		want      int
	}{
		{`{"x": 4500000}`, `{"x": 4500000.000001}`, 0},
		{`{"x": 4500000}`, `{"x": 4500000.0001}`, 1},
		{`{"x": 0}`, `{"x": 1e-15}`, 1},
		{`{"x": 1}`, `{"x": -1}`, 1},
		{`{"x": 1}`, `{"x": "1"}`, 1},
		{`{"x": [1, 2]}`, `{"x": [1]}`, 1},
		{`{"x": [1, {"y": true}]}`, `{"x": [2, {"y": false}]}`, 2},
		{`{"x": {}}`, `{"x": []}`, 1},
		{`{"x": 1, "y": 2}`, `{"x": 1, "z": 2}`, 2},
		{`{"x": null, "y": "a"}`, `{"x": null, "y": "a"}`, 0},
	} {
		if got := differences("", parsed(t, c.kept+"\n"), parsed(t, c.now+"\n")); len(got) != c.want {
			t.Errorf("%s and %s: %q, want %d", c.kept, c.now, got, c.want)
		}
	}
}

// parsed reads JSON, one document a line.
func parsed(t *testing.T, text string) (docs []any) {
	t.Helper()
	if !strings.HasSuffix(text, "\n") {
		t.Errorf("no newline at the end: %.40q", text)
	}
	for line := range strings.Lines(text) {
		var doc map[string]any
		if err := json.Unmarshal([]byte(line), &doc); err != nil {
			t.Fatalf("a line is not one JSON document: %v: %.80q", err, line)
		}
		if reflect.DeepEqual(doc, map[string]any{}) {
			t.Errorf("an empty document: %q", line)
		}
		docs = append(docs, doc)
	}
	return docs
}
