package main

import (
	"encoding/json"
	"math"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// stateOf is a check in the JSON of check and of diff.
type stateOf struct {
	Verdict string   `json:"verdict"`
	Margin  *float64 `json:"margin"`
}

// TestDiffAgainstChecks holds what diff tells of every pair of example designs
// against the JSON of check for each of the two.
func TestDiffAgainstChecks(t *testing.T) {
	inDesigns(t)
	files, err := filepath.Glob("*.toml")
	if err != nil || len(files) < 4 {
		t.Fatal(files, err)
	}
	type document struct {
		Verdict string `json:"verdict"`
		Checks  []struct {
			stateOf
			Part string `json:"part"`
			ID   string `json:"id"`
		} `json:"checks"`
	}
	checks := func(file string) map[string]stateOf {
		_, out, _ := casewrightRun("", "check", "--format", "json", file)
		var doc document
		if err := json.Unmarshal([]byte(out), &doc); err != nil {
			t.Fatal(err)
		}
		all := map[string]stateOf{}
		for _, c := range doc.Checks {
			all[c.Part+"/"+c.ID] = c.stateOf
		}
		return all
	}
	same := func(a, b stateOf) bool {
		if a.Verdict != b.Verdict || (a.Margin == nil) != (b.Margin == nil) {
			return false
		}
		return a.Margin == nil || math.Abs(*a.Margin-*b.Margin) < 0.005
	}
	for _, before := range files {
		for _, after := range files {
			was, is := checks(before), checks(after)
			var want []string
			for name, now := range is {
				if old, ok := was[name]; !ok || !same(old, now) {
					want = append(want, name)
				}
			}
			for name := range was {
				if _, ok := is[name]; !ok {
					want = append(want, name)
				}
			}
			slices.Sort(want)
			code, out, _ := casewrightRun("", "diff", "--format", "json", before, after)
			if code != exitPass {
				t.Fatalf("%s, %s: %d", before, after, code)
			}
			var doc struct {
				Checks []struct {
					Check string   `json:"check"`
					Was   *stateOf `json:"was"`
					Is    *stateOf `json:"is"`
				} `json:"checks"`
			}
			if err := json.Unmarshal([]byte(out), &doc); err != nil {
				t.Fatal(err)
			}
			var got []string
			for _, c := range doc.Checks {
				got = append(got, c.Check)
				for _, side := range []struct {
					told *stateOf
					of   map[string]stateOf
				}{{c.Was, was}, {c.Is, is}} {
					kept, ok := side.of[c.Check]
					if ok != (side.told != nil) || ok && !cmp.Equal(kept, *side.told) {
						t.Errorf("%s, %s: %s: %v, check has %v", before, after, c.Check, side.told, kept)
					}
				}
			}
			slices.Sort(got)
			if diff := cmp.Diff(want, got); diff != "" {
				t.Errorf("%s, %s: %s", before, after, diff)
			}
			if before == after && strings.Contains(out, `"key"`) {
				t.Errorf("%s differs from itself", before)
			}
		}
	}
}
