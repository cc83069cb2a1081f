package drawing

import (
	"fmt"
	"math"
	"strings"

	"casewright"
	"casewright/bench"
	"casewright/quantity"
)

// Sizes of a section, mm on its sheet. Turned to lie, A4 and Letter have room
// for the widest and highest with letters of 2.3 mm or more.
const (
	textSize  = 3.2
	laneStep  = 5.2
	lineStep  = 5.0 // of the legend
	margins   = 8.0 // left blank at the sheet's sides
	mostWide  = 330.0
	mostHigh  = 180.0
	leastWide = 180.0
	alongside = 8.0 // from the motor to the first dimension
	named     = 4   // so many lines name faults however high the sheet becomes
)

// scales are those that drawings have. Source: ISO 5455, from memory.
var scales = []float64{5, 2, 1, 0.5, 0.2, 0.1, 0.05, 0.02}

// section is a motor being drawn: the upper half cut open, the lower half from
// outside. z runs along the axis from the tube's first end, r from the axis, up.
type section struct {
	*Sheet
	design                  *casewright.Design
	scale                   float64
	origin                  Point // of z = 0, r = 0
	length, outside, bore   float64
	reachBefore, reachAfter float64 // of the motor beyond the tube's ends, mm of the motor
	axial                   []axial
	left, right             []across
	faults                  []fault
	head                    []string // below the title
	texts                   []Shape  // above all lines
	legend                  float64  // where it begins
	listed                  []Text   // what fails, in words
}

// Section draws a motor in half-section, with its dimensions and with what fails
// in the report, at the scale that it returns: sizes on paper over true ones. The error is [bench.ErrNoTube].
func Section(r *casewright.Report) (sheet *Sheet, scale float64, err error) {
	d := r.Design
	outside, err := bench.Outside(d)
	if err != nil {
		return nil, 0, err
	}
	bore, _, ok := d.Tube.Nominal()
	if !ok || !d.Tube.Length.IsSet() {
		return nil, 0, bench.ErrNoTube
	}
	s := &section{Sheet: &Sheet{}, design: d, length: millimetres(d.Tube.Length), outside: mm(outside), bore: mm(quantity.LengthOf(bore))}
	for i := range d.Ends {
		e := &d.Ends[i]
		out := max(0, millimetres(e.Length)-millimetres(e.Screws.FromFace)-millimetres(e.Screws.Edge))
		if i == 0 {
			s.reachBefore = out
		} else {
			s.reachAfter = out
		}
	}
	s.collect()
	s.faultsOf(r)
	s.choose()
	s.draw(", " + d.Pressure.String() + ": " + strings.ToUpper(r.Verdict.String()))
	s.Title = d.Name.Value + " in half-section"
	s.Description = fmt.Sprintf("Tube, ends, grooves, rings and screws at a scale of %s, the upper half cut open.", ratio(s.scale))
	if len(s.faults) > 0 {
		s.Description += " A circle marks each place where something fails; the list below names it."
	}
	return s.Sheet, s.scale, nil
}

func millimetres(d casewright.Dimension) float64 { return 1e3 * d.Nominal().InexactFloat64() }

// ratio is a scale as drawings write it.
func ratio(scale float64) string {
	if scale >= 1 {
		return fmt.Sprintf("%g:1", scale)
	}
	return fmt.Sprintf("1:%g", math.Round(1/scale))
}

// at is a place of the motor on the sheet.
func (s *section) at(z, r float64) Point {
	return Point{s.origin.X + z*s.scale, s.origin.Y - r*s.scale}
}

// along turns a distance from the pressure face of an end, outwards, into z.
func (s *section) along(i int) func(u float64) float64 {
	e := &s.design.Ends[i]
	face := millimetres(e.Screws.Edge) + millimetres(e.Screws.FromFace)
	if i == 0 {
		return func(u float64) float64 { return face - u }
	}
	return func(u float64) float64 { return s.length - face + u }
}

// choose lays out at the largest scale that has room; at the largest that is not
// too wide, where none has.
func (s *section) choose() {
	for _, s.scale = range scales {
		if s.layOut(); s.Width <= mostWide && s.Height <= mostHigh {
			return
		}
	}
	for _, s.scale = range scales {
		if s.layOut(); s.Width <= mostWide {
			return
		}
	}
}

// layOut finds at its scale where everything stands, and how large the sheet is.
func (s *section) layOut() {
	s.headOf()
	width := leastWide - 2*margins
	for _, text := range s.head {
		width = max(width, TextWidth(text, textSize))
	}
	width = max(width, s.longest())
	whole := (s.reachBefore + s.length + s.reachAfter) * s.scale
	beside := alongside
	for i := range s.axial {
		beside = max(beside, 4+s.axial[i].place(s.scale, -s.reachBefore, s.length+s.reachAfter))
	}
	first := margins + across{}.room(len(s.left)) + beside
	last := first + whole
	s.origin.X = first + s.reachBefore*s.scale
	s.Width = max(last+beside+across{}.room(len(s.right))+margins, min(mostWide, width+2*margins))
	tagLanes := s.tag()
	half := s.outside * s.scale / 2
	s.origin.Y = margins + 6 + lineStep*float64(len(s.head)) + laneStep*float64(tagLanes) + alongside + half + 4
	below := s.origin.Y + half + alongside
	deepest := below + laneStep*float64(s.axialLanes(below))
	deepest = max(deepest, s.acrossLanes(s.left, first-beside, -1), s.acrossLanes(s.right, last+beside, 1))
	s.legend = deepest + 6
	rows := s.listLegend(int((mostHigh - margins - s.legend) / lineStep))
	s.Height = s.legend + lineStep*float64(rows) + margins
}

// draw draws what is laid out, under the motor's name and what is told of it.
func (s *section) draw(told string) {
	room := s.Width - 2*margins
	s.Add(Text{At: Point{margins, margins + 4}, Text: fit(s.design.Name.Value, room-1.1*TextWidth(told, 4), 4) + told, Size: 4, Bold: true})
	for i, text := range s.head {
		s.Add(Text{At: Point{margins, margins + 4 + lineStep*float64(i+1)}, Text: clip(text, int(room/TextWidth("x", textSize))), Size: textSize})
	}
	s.tube()
	for i := range s.design.Ends {
		s.end(i)
	}
	s.Line(s.at(-s.reachBefore-4/s.scale, 0), s.at(s.length+s.reachAfter+4/s.scale, 0), Centre)
	s.extensions()
	for i := range s.axial {
		s.axialDimension(&s.axial[i])
	}
	for _, list := range [][]across{s.left, s.right} {
		for i := range list {
			s.acrossDimension(&list[i])
		}
	}
	s.mark()
	s.Add(s.texts...)
}

// headOf says at what scale the motor is drawn, and what is bought for each end.
func (s *section) headOf() {
	s.head = []string{"scale " + ratio(s.scale) + "; upper half in section, screws turned into it; lower half from outside"}
	for i := range s.design.Ends {
		e := &s.design.Ends[i]
		ring := e.Seal.Ring.Name
		if ring == "" {
			ring = written(e.Seal.Inside) + " × " + written(e.Seal.Section)
		}
		text := fmt.Sprintf("%s: %d × %s, class %s, holes ⌀%s", fit(e.Name.Value, 40, textSize), e.Screws.Count.Value, e.Screws.Thread.Name, e.Screws.Class.Name, written(e.Screws.Hole))
		if e.Screws.HeadDepth.IsSet() {
			text += ", countersunk " + written(e.Screws.HeadDepth) + " deep"
		}
		s.head = append(s.head, text+fmt.Sprintf("; %d × %s %s", max(1, e.Seal.Count.Value), ring, e.Seal.Compound.Name))
	}
}

// under puts ground under a text that clears it of lines, and keeps both for
// the end.
func (s *section) under(t Text) {
	w := TextWidth(t.Text, t.Size)
	from := [...]float64{Start: 0, Middle: w / 2, End: w}[t.Anchor]
	a, b := Point{t.At.X - from, t.At.Y - 0.85*t.Size}, Point{t.At.X - from + w, t.At.Y + 0.25*t.Size}
	if t.Turned {
		a, b = Point{t.At.X - 0.85*t.Size, t.At.Y + from - w}, Point{t.At.X + 0.25*t.Size, t.At.Y + from}
	}
	s.texts = append(s.texts, Path{Points: []Point{a, {b.X, a.Y}, b, {a.X, b.Y}}, Closed: true, Style: Bare, Fill: Paper}, t)
}
