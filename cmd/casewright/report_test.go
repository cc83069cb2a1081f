package main

import (
	"math"
	"strings"
	"testing"

	"casewright"
	"casewright/cmd/casewright/internal/document"
	"casewright/cmd/casewright/internal/drawing"
	"casewright/cmd/casewright/internal/pdf"
	"casewright/cmd/casewright/internal/table"
	"casewright/margin"
)

// TestReportOnPaper: on paper all that fails or is refused is worked out and
// twelve of the rest, none of which has a greater margin than one left out; and
// on either paper the letters of figures that lie are 2 mm high or more.
func TestReportOnPaper(t *testing.T) {
	for _, pressure := range []string{"4.5 MPa", "9 MPa", "45 MPa"} {
		d, err := casewright.Read("", []byte(strings.Replace(casewright.Example, "4.5 MPa", pressure, 1)))
		if err != nil {
			t.Fatal(err)
		}
		r := casewright.Check(d)
		worked := func(paper bool) map[string]bool {
			ids := map[string]bool{}
			for _, b := range wholeReport(r, table.Options{}, paper).Blocks {
				if fold, ok := b.(document.Fold); ok {
					ids[fold.Blocks[0].(document.Worked).Check.ID] = true
				}
			}
			return ids
		}
		if n := len(worked(false)); n != len(r.Results) {
			t.Errorf("%s: %d checks on screen, want %d", pressure, n, len(r.Results))
		}
		on, passes := worked(true), 0
		greatest, least := math.Inf(-1), math.Inf(1)
		for i := range r.Results {
			switch one := &r.Results[i]; {
			case one.Verdict == margin.Fail || one.Verdict == margin.Refused:
				if !on[one.ID()] {
					t.Errorf("%s: %s is missing", pressure, one.ID())
				}
			case one.Verdict != margin.Pass:
			case on[one.ID()]:
				passes++
				greatest = max(greatest, one.Margin)
			default:
				least = min(least, one.Margin)
			}
		}
		if passes != 12 || greatest > least {
			t.Errorf("%s: %d that pass, up to %g, while one of %g is left out", pressure, passes, greatest, least)
		}
		for _, b := range wholeReport(r, table.Options{}, true).Blocks {
			figure, ok := b.(document.Figure)
			for _, paper := range []pdf.Paper{pdf.A4, pdf.Letter} {
				if ok && max(paper.Fit(figure.Sheet), pdf.Paper{Width: paper.Height, Height: paper.Width}.Fit(figure.Sheet))*lowest(figure.Sheet) < 2 {
					t.Errorf("%s: the letters of %q are too low", pressure, figure.Caption)
				}
			}
		}
	}
}

// lowest is the height of the lowest letters.
func lowest(s *drawing.Sheet) float64 {
	low := math.Inf(1)
	for _, shape := range s.Shapes {
		if x, ok := shape.(drawing.Text); ok {
			low = min(low, x.Size)
		}
	}
	return low
}
