package pdf_test

import (
	"math"
	"regexp"
	"strings"
	"testing"

	"casewright"
	"casewright/bench"
	"casewright/cmd/casewright/internal/drawing"
)

var strokes = regexp.MustCompile(`([\d.]+) ([\d.]+) m\s+([\d.]+) ([\d.]+) l\s+S`)

// TestStripOnPaper: in the PDF the cross-hairs of each hole meet where its
// angle says, to 0.01 mm.
func TestStripOnPaper(t *testing.T) {
	design, err := casewright.Read("basalt64.toml", []byte(strings.Replace(casewright.Example, "engagement =", "angle = \"11°\"\n  engagement =", 1)))
	if err != nil {
		t.Fatal(err)
	}
	rows, err := bench.HoleRows(design)
	if err != nil {
		t.Fatal(err)
	}
	strip := bench.StripOf(rows[0], 0.0001)
	sheets, err := drawing.StripPages([]bench.Strip{strip}, drawing.Beside{Motor: "Basalt"}, drawing.A4)
	if err != nil || len(sheets) != 1 {
		t.Fatalf("%d sheets, %v", len(sheets), err)
	}
	reach := 2*(2.75+3) - 0.01 // of a cross-hair, mm
	var across, along [][2]float64
	for _, page := range contents(t, drawings(t, sheets...)) {
		for _, m := range strokes.FindAllStringSubmatch(page, -1) {
			n := numbers(t, m[1:])
			switch dx, dy := math.Abs(n[2]-n[0]), math.Abs(n[3]-n[1]); {
			case dy < 0.005 && math.Abs(dx-reach) < 0.03:
				across = append(across, [2]float64{(n[0] + n[2]) / 2, n[1]})
			case dx < 0.005 && math.Abs(dy-reach) < 0.03:
				along = append(along, [2]float64{n[0], (n[1] + n[3]) / 2})
			}
		}
	}
	// Hole 1 lies so near the zero line that it is on the lap too.
	angles := []float64{11, 360 + 11}
	for k := range 7 {
		angles = append(angles, 11+45*float64(k+1))
	}
	if len(across) != len(angles) || len(along) != len(angles) {
		t.Fatalf("%d and %d strokes of %d cross-hairs", len(across), len(along), len(angles))
	}
	var y float64 // of the holes on the sheet
	for _, shape := range sheets[0].Shapes {
		if c, ok := shape.(drawing.Circle); ok && c.ID == "hole bulkhead 1" {
			y = c.Centre.Y
		}
	}
	round := math.Pi * (63.5 + 0.1)
	for k, angle := range angles {
		want := [2]float64{12 + round*angle/360, 210 - y}
		for _, got := range [][2]float64{across[k], along[k]} {
			if math.Hypot(got[0]-want[0], got[1]-want[1]) > 0.01 {
				t.Errorf("stroke %d at %.3f, %.3f mm, want %.3f, %.3f mm", k+1, got[0], got[1], want[0], want[1])
			}
		}
	}
}
