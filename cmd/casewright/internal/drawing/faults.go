package drawing

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"casewright"
	"casewright/margin"
)

// A fault is a place where something fails or is refused.
type fault struct {
	at   Point    // z and r
	tag  string   // what stands at it: mark, word and numbers
	y    float64  // of the tag, on the sheet
	text []string // of the legend
}

// faultsOf gathers what fails, by the place where it does, and numbers it.
func (s *section) faultsOf(r *casewright.Report) {
	results := map[Point][]*casewright.Result{}
	var places []Point
	for i := range r.Results {
		one := &r.Results[i]
		if one.Verdict != margin.Fail && one.Verdict != margin.Refused {
			continue
		}
		z, radius := s.place(one)
		at := Point{z, radius}
		if results[at] == nil {
			places = append(places, at)
		}
		results[at] = append(results[at], one)
	}
	slices.SortStableFunc(places, func(a, b Point) int { return cmp.Compare(a.X, b.X) })
	number := 0
	for _, at := range places {
		f, tag := fault{at: at}, []string(nil)
		for _, v := range []margin.Verdict{margin.Fail, margin.Refused} {
			first, word := number+1, strings.ToUpper(v.String())
			for _, one := range results[at] {
				if one.Verdict == v {
					number++
					f.text = append(f.text, fmt.Sprintf("%d  %s  %s: %s", number, word, shortID(one), one.Method.Title))
				}
			}
			switch number - first {
			case -1:
			case 0:
				tag = append(tag, fmt.Sprintf("%s %d", word, first))
			default:
				tag = append(tag, fmt.Sprintf("%s %d–%d", word, first, number))
			}
		}
		f.tag = "✗ " + strings.Join(tag, ", ")
		s.faults = append(s.faults, f)
	}
}

// place is where a check looks.
func (s *section) place(one *casewright.Result) (z, r float64) {
	if one.Check.Part == 0 {
		return s.length / 2, (s.outside + s.bore) / 4
	}
	e, at := &s.design.Ends[one.Check.Part-1], s.along(int(one.Check.Part-1))
	groove := at(millimetres(e.Seal.GrooveFromFace) + millimetres(e.Seal.GrooveWidth)/2)
	hole := at(millimetres(e.Screws.FromFace))
	switch id := one.Method.ID; {
	case strings.HasPrefix(id, "seal."), id == "end.clearance", id == "end.land", id == "end.land_bending":
		return groove, millimetres(e.Outside) / 2
	case strings.HasPrefix(id, "end.plate"), strings.HasPrefix(id, "end.port"):
		return at(millimetres(e.Plate) / 2), millimetres(e.Outside) / 8
	case strings.HasPrefix(id, "end.shoulder"), strings.HasPrefix(id, "end.lip"):
		return at(millimetres(e.Length) - millimetres(e.Lip)/2), (millimetres(e.Insert) + millimetres(e.LipDiameter)) / 4
	}
	return hole, (s.outside + s.bore) / 4
}

// tag lays the tags in lanes above the motor, counted from it in y, and returns
// how many there are.
func (s *section) tag() int {
	spans := make([]span, len(s.faults))
	for i, f := range s.faults {
		x := s.tagged(f)
		spans[i] = span{x, x + TextWidth(f.tag, textSize)}
	}
	lane, count := lanes(spans, 2)
	for i := range s.faults {
		s.faults[i].y = laneStep * float64(lane[i])
	}
	return count
}

// tagged is where the tag begins: over its place, but on the sheet.
func (s *section) tagged(f fault) float64 {
	w := TextWidth(f.tag, textSize)
	return max(margins, min(s.at(f.at.X, 0).X-w/2, s.Width-margins-w))
}

// longest is the width of the longest line of the legend.
func (s *section) longest() (width float64) {
	for _, f := range s.faults {
		for _, text := range f.text {
			width = max(width, TextWidth(text, textSize))
		}
	}
	return width
}

// listLegend names the faults in columns of at most so many lines, and returns
// how many lines there are.
func (s *section) listLegend(most int) (rows int) {
	var list []string
	for _, f := range s.faults {
		list = append(list, f.text...)
	}
	const apart = 8.0
	room := s.Width - 2*margins
	wide, columns := min(s.longest(), room), 1
	fit := func(width float64) { columns = max(1, int((room+apart)/(width+apart))) }
	if wide > 0 {
		fit(wide)
	}
	if most = max(most, named); len(list) > most*columns { // the ids at least
		fit(TextWidth(strings.Repeat("x", 48), textSize))
		wide = min(wide, (room+apart)/float64(columns)-apart)
	}
	rows = min((len(list)+columns-1)/columns, most)
	if most := rows * columns; len(list) > most {
		list = append(list[:most-1:most-1], fmt.Sprintf("and %d more; casewright check names them all", len(list)-most+1))
	}
	s.listed = s.listed[:0]
	for i, text := range list {
		at := Point{margins + (wide+apart)*float64(i/rows), s.legend + lineStep*float64(i%rows)}
		s.listed = append(s.listed, Text{At: at, Text: clip(text, int(wide/TextWidth("x", textSize)+1e-9)), Size: textSize, Style: Fault})
	}
	return rows
}

// mark marks the faults and names them.
func (s *section) mark() {
	for _, f := range s.faults {
		at, y := s.at(f.at.X, f.at.Y), s.origin.Y-s.outside*s.scale/2-alongside-f.y
		s.Add(Circle{Centre: at, R: 2.4, Style: Fault, ID: "fault"})
		s.Line(Point{at.X, at.Y - 2.4}, Point{at.X, y + 1}, Fault)
		s.under(Text{At: Point{s.tagged(f), y}, Text: f.tag, Size: textSize, Bold: true, Style: Fault})
	}
	for _, text := range s.listed {
		s.Add(text)
	}
}
