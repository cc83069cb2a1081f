package main

import (
	"crypto/sha256"
	"fmt"
	"strings"
	"testing"

	"casewright"
)

// TestExplainRefused: a check that is only told says that it is refused, and
// why, in every format, and shows no other readings.
func TestExplainRefused(t *testing.T) {
	design := strings.ReplaceAll(casewright.Example, `edge = "14 ±0.2 mm"`, `edge = "8.0 mm"`)
	for _, format := range []string{"table", "markdown", "html"} {
		_, out, errs := casewrightRun(design, "explain", "--format", format, "-", "nozzle/hole.peak")
		text := strings.Join(strings.Fields(out), " ")
		for _, want := range []string{"refused: the peak stress is known for holes of at most 0.75", "to mend it: write fewer or smaller holes"} {
			if errs != "" || !strings.Contains(text, want) {
				t.Errorf("%s: no %q in\n%s%s", format, want, out, errs)
			}
		}
		for _, wrong := range []string{"told, not judged", "a pin that fills its hole", "ther readings"} {
			if strings.Contains(text, wrong) {
				t.Errorf("%s: %q in\n%s", format, wrong, out)
			}
		}
	}
	_, out, _ := casewrightRun(casewright.Example, "explain", "-", "nozzle/hole.peak")
	if !strings.Contains(out, "only told, never a verdict") || !strings.Contains(out, "a pin that fills its hole") || strings.Contains(out, "refused") {
		t.Errorf("not refused:\n%s", out)
	}
}

// TestDigest: a document that is kept tells of which text it is.
func TestDigest(t *testing.T) {
	want := fmt.Sprintf("%x", sha256.Sum256([]byte(casewright.Example)))
	for _, format := range []string{"markdown", "html", "json"} {
		if _, out, _ := casewrightRun(casewright.Example, "explain", "--format", format, "-", "tube/tube.hoop"); strings.Count(out, want) != 1 {
			t.Errorf("%s: no %s in\n%s", format, want, out)
		}
	}
}
