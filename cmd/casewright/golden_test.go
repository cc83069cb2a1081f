package main

import (
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"reflect"
	"slices"
	"strings"
	"testing"

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
	return list
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
	for _, g := range list {
		t.Setenv("COLUMNS", g.columns)
		_, got, errs := casewrightRun("", g.args...)
		if got == "" || errs != "" {
			t.Errorf("%q: stdout %q, stderr %q", g.args, got, errs)
			continue
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
			if diff := cmp.Diff(parsed(t, string(want)), parsed(t, got), nearly); diff != "" {
				t.Errorf("%q is not as in %s (-kept +now):\n%s", g.args, g.file, diff)
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

// nearly compares numbers to 1e-12 of themselves.
var nearly = cmp.FilterValues(
	func(a, b float64) bool { return !math.IsNaN(a) && !math.IsNaN(b) },
	cmp.Comparer(func(a, b float64) bool { return math.Abs(a-b) <= 1e-12*math.Max(math.Abs(a), math.Abs(b)) }),
)

// TestNearly holds that the comparison can fail.
func TestNearly(t *testing.T) {
	for _, c := range []struct {
		a, b float64
		want bool
	}{{1, 1 + 1e-13, true}, {1, 1 + 1e-11, false}, {4.5e6, 4.5e6 + 1e-6, true}, {0, 1e-15, false}, {-1, 1, false}} {
		if got := cmp.Equal(map[string]any{"x": c.a}, map[string]any{"x": c.b}, nearly); got != c.want {
			t.Errorf("%g and %g: %t", c.a, c.b, got)
		}
	}
}

// parsed reads JSON, one document a line.
func parsed(t *testing.T, text string) (docs []map[string]any) {
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
