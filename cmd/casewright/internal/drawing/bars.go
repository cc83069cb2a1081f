package drawing

import (
	"fmt"
	"math"
	"slices"

	"casewright"
	"casewright/cmd/casewright/internal/table"
	"casewright/margin"
)

// Bars draws the margins of a report, the least first, at most so many: to the
// right of the line what is left over, to the left what lacks. Beyond 1 and
// below −1 a bar ends in an arrow.
func Bars(r *casewright.Report, most int) *Sheet {
	var list []*casewright.Result
	for i := range r.Results {
		one := &r.Results[i]
		if v := one.Verdict; (v == margin.Pass || v == margin.Fail) && !math.IsNaN(one.Margin) {
			list = append(list, one)
		}
	}
	slices.SortStableFunc(list, func(a, b *casewright.Result) int {
		switch {
		case a.Margin < b.Margin:
			return -1
		case a.Margin > b.Margin:
			return 1
		}
		return 0
	})
	list = list[:min(most, len(list))]
	const names, unit, step = 104.0, 36.0, 5.0
	s := &Sheet{
		Width: names + 2*unit + 40, Height: 14 + step*float64(len(list)) + 4, Title: "Least margins of " + r.Design.Name.Value,
		Description: fmt.Sprintf("A bar for each of the %d checks with the least margin, the least first; left of the line is too little.", len(list)),
	}
	zero := names + unit
	for _, m := range []float64{-1, 0, 1} {
		x := zero + m*unit
		style := Dimension
		if m == 0 {
			style = Outline
		}
		s.Line(Point{x, 9}, Point{x, s.Height - 2}, style)
		s.Add(Text{At: Point{x, 7}, Text: fmt.Sprintf("%g", m), Size: textSize, Anchor: Middle})
	}
	s.Add(Text{At: Point{4, 7}, Text: "check", Size: textSize}, Text{At: Point{s.Width - 4, 7}, Text: "margin", Size: textSize, Anchor: End})
	for i, one := range list {
		y := 12 + step*float64(i)
		style, fill, word := Thin, Metal, ""
		if one.Verdict == margin.Fail {
			style, fill, word = Fault, Faulty, "✗ FAIL "
		}
		s.Add(Text{At: Point{4, y + 2.6}, Text: word + shortID(one), Size: textSize, Style: style})
		length := max(-1, min(1, one.Margin)) * unit
		points := []Point{{zero, y}, {zero + length, y}, {zero + length, y + 3}, {zero, y + 3}}
		if math.Abs(one.Margin) > 1 {
			tip := math.Copysign(2, length)
			points = []Point{{zero, y}, {zero + length, y}, {zero + length + tip, y + 1.5}, {zero + length, y + 3}, {zero, y + 3}}
		}
		s.Add(Path{Points: points, Closed: true, Style: style, Fill: fill, ID: one.ID()})
		s.Add(Text{At: Point{s.Width - 4, y + 2.6}, Text: table.Margin(one.Margin), Size: textSize, Anchor: End, Style: style})
	}
	return s
}

// shortID is the id of a check, the name of its end cut where it is long, and
// never what is checked.
func shortID(one *casewright.Result) string {
	return fit(one.Part, 36, textSize) + "/" + one.Method.ID
}
