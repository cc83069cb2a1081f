package drawing

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"casewright"
	"casewright/bench"
	"casewright/margin"
	"casewright/quantity"
)

const (
	textSize  = 2.6
	laneStep  = 6.0
	mostWide  = 250.0 // of the motor on paper, mm
	mostHigh  = 90.0
	alongside = 8.0 // from the motor to the first dimension
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
	axial                   []axial
	left, right             []across
	faults                  []fault
	reachBefore, reachAfter float64 // of the motor beyond the tube's ends, mm of the motor
	texts                   []Shape // of dimensions, above all lines
}

// axial is a dimension along the axis, across one of a diameter.
type (
	axial struct {
		from, to float64
		text     string
	}
	across struct {
		at, diameter float64
		text         string
	}
	fault struct {
		at   Point
		text []string
	}
)

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
		out := millimetres(e.Length) - millimetres(e.Screws.FromFace) - millimetres(e.Screws.Edge)
		if i == 0 {
			s.reachBefore = max(0, out)
		} else {
			s.reachAfter = max(0, out)
		}
	}
	whole := s.length + s.reachBefore + s.reachAfter
	for _, s.scale = range scales {
		if whole*s.scale <= mostWide && s.outside*s.scale <= mostHigh {
			break
		}
	}
	s.collect()
	s.faultsOf(r)
	s.layOut(r, whole)
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

// collect gathers the dimensions.
func (s *section) collect() {
	t := &s.design.Tube
	put := func(from, to float64, d casewright.Dimension) {
		if d.IsSet() {
			s.axial = append(s.axial, axial{min(from, to), max(from, to), d.String()})
		}
	}
	diameter := func(list *[]across, at float64, d casewright.Dimension) {
		if d.IsSet() {
			*list = append(*list, across{at, millimetres(d), "⌀" + d.String()})
		}
	}
	put(0, s.length, t.Length)
	diameter(&s.left, 0, t.Inside)
	diameter(&s.left, 0, t.Outside)
	put(0, millimetres(t.LeadIn), t.LeadIn)
	for i := range s.design.Ends {
		e, z := &s.design.Ends[i], s.along(i)
		edge, side := 0.0, &s.left
		if i > 0 {
			edge, side = s.length, &s.right
		}
		hole := z(millimetres(e.Screws.FromFace))
		put(edge, hole, e.Screws.Edge)
		put(hole, z(0), e.Screws.FromFace)
		put(z(0), z(millimetres(e.Length)), e.Length)
		put(z(0), z(millimetres(e.Plate)), e.Plate)
		put(z(millimetres(e.Length)-millimetres(e.Lip)), z(millimetres(e.Length)), e.Lip)
		groove := millimetres(e.Seal.GrooveFromFace)
		put(z(0), z(groove), e.Seal.GrooveFromFace)
		put(z(groove), z(groove+millimetres(e.Seal.GrooveWidth)), e.Seal.GrooveWidth)
		put(z(groove), z(groove+millimetres(e.Seal.GrooveSpacing)), e.Seal.GrooveSpacing)
		diameter(side, z(0), e.Outside)
		diameter(side, z(groove), e.Seal.GrooveDiameter)
		diameter(side, z(0), e.Insert)
		diameter(side, z(millimetres(e.Length)), e.LipDiameter)
		if e.Port.IsSet() && e.Port.Nominal().Sign() > 0 {
			diameter(side, z(0), e.Port)
		}
	}
}

// faultsOf gathers what fails, by the place where it does.
func (s *section) faultsOf(r *casewright.Report) {
	number := 0
	for i := range r.Results {
		one := &r.Results[i]
		if one.Verdict != margin.Fail && one.Verdict != margin.Refused {
			continue
		}
		number++
		z, radius := s.place(one)
		text := fmt.Sprintf("%d  %s  %s, %s: %s", number, strings.ToUpper(one.Verdict.String()), clip(one.Part, 30), one.Method.ID, one.Method.Title)
		found := false
		for k := range s.faults {
			if s.faults[k].at == (Point{z, radius}) {
				s.faults[k].text = append(s.faults[k].text, text)
				found = true
			}
		}
		if !found {
			s.faults = append(s.faults, fault{Point{z, radius}, []string{text}})
		}
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

// layOut finds how large the sheet is, and draws.
func (s *section) layOut(r *casewright.Report, whole float64) {
	leftRoom := border + laneStep*float64(len(s.left)) + alongside
	rightRoom := border + laneStep*float64(len(s.right)) + alongside
	width := max(leftRoom+whole*s.scale+rightRoom, 180)
	s.origin = Point{leftRoom + s.reachBefore*s.scale, 0}
	tags := make([]span, len(s.faults))
	names := make([]string, len(s.faults))
	number := 0
	for i, f := range s.faults {
		var list []string
		for range f.text {
			number++
			list = append(list, strconv.Itoa(number))
		}
		names[i] = "✗ " + strings.Join(list, " ")
		x := s.at(f.at.X, 0).X
		w := TextWidth(names[i], textSize) / 2
		tags[i] = span{x - w, x + w}
	}
	tagLane, tagLanes := lanes(tags, 2)
	spans := make([]span, len(s.axial))
	for i, a := range s.axial {
		from, to := s.at(a.from, 0).X, s.at(a.to, 0).X
		w := TextWidth(a.text, textSize)
		if w > to-from-2 { // beside its line, to where there is room
			if to+2+w <= width-border {
				to += 2 + w
			} else {
				from -= 2 + w
			}
		}
		spans[i] = span{from, to}
	}
	axialLane, axialLanes := lanes(spans, 2.5)
	half := s.outside * s.scale / 2
	head := 14 + textSize*4
	s.origin.Y = border + head + laneStep*float64(tagLanes) + alongside + half + 4
	below := s.origin.Y + half + alongside
	legend := below + laneStep*float64(axialLanes) + 6
	s.Width, s.Height = width, max(legend+4.2*float64(number)+border, s.origin.Y+60)
	s.heading(r)
	s.tube()
	for i := range s.design.Ends {
		s.end(i)
	}
	s.Line(s.at(-s.reachBefore-4/s.scale, 0), s.at(s.length+s.reachAfter+4/s.scale, 0), Centre)
	for i, a := range s.axial {
		s.axialDimension(a, spans[i], below+laneStep*float64(axialLane[i]), half)
	}
	for i, d := range s.left {
		s.acrossDimension(d, leftRoom-alongside-laneStep*float64(i))
	}
	edge := s.at(s.length+s.reachAfter, 0).X
	for i, d := range s.right {
		s.acrossDimension(d, edge+alongside+laneStep*float64(i)+3)
	}
	s.Add(s.texts...)
	number = 0
	for i, f := range s.faults {
		at := s.at(f.at.X, f.at.Y)
		y := s.origin.Y - half - alongside - laneStep*float64(tagLane[i])
		s.Add(Circle{Centre: at, R: 2.4, Style: Fault, ID: "fault"})
		s.Line(Point{at.X, at.Y - 2.4}, Point{at.X, y + 1}, Fault)
		s.Add(Text{At: Point{at.X, y}, Text: names[i], Size: textSize, Anchor: Middle, Bold: true, Style: Fault})
		for _, text := range f.text {
			s.Add(Text{At: Point{border, legend + 4.2*float64(number)}, Text: clip(text, int((width-2*border)/(0.62*textSize))), Size: textSize, Style: Fault})
			number++
		}
	}
}

// heading names the motor, its verdict and what is bought for each end.
func (s *section) heading(r *casewright.Report) {
	s.Add(Text{At: Point{border, border + 3}, Text: clip(s.design.Name.Value, 40) + ", " + s.design.Pressure.String() + ": " + strings.ToUpper(r.Verdict.String()), Size: 4, Bold: true})
	s.Add(Text{At: Point{border, border + 8.5}, Text: "scale " + ratio(s.scale) + "; upper half in section, screws turned into it; lower half from outside", Size: textSize})
	for i := range s.design.Ends {
		e := &s.design.Ends[i]
		ring := e.Seal.Ring.Name
		if ring == "" {
			ring = e.Seal.Inside.String() + " × " + e.Seal.Section.String()
		}
		text := fmt.Sprintf("%s: %d × %s, class %s, holes ⌀%s; %d × %s %s",
			clip(e.Name.Value, 24), e.Screws.Count.Value, e.Screws.Thread.Name, e.Screws.Class.Name, e.Screws.Hole.String(), max(1, e.Seal.Count.Value), ring, e.Seal.Compound.Name)
		s.Add(Text{At: Point{border, border + 13.5 + 4.4*float64(i)}, Text: clip(text, int((s.Width-2*border)/(0.62*textSize))), Size: textSize})
	}
}

// box is a rectangle between two places of the motor.
func (s *section) box(z1, r1, z2, r2 float64, style Style, fill Fill, id string) {
	s.Add(Path{Points: []Point{s.at(z1, r1), s.at(z2, r1), s.at(z2, r2), s.at(z1, r2)}, Closed: true, Style: style, Fill: fill, ID: id})
}

func (s *section) tube() {
	s.box(0, -s.outside/2, s.length, 0, Outline, Aluminium, "tube outside")
	s.box(0, 0, s.length, s.bore/2, Thin, Paper, "bore")
	s.box(0, s.bore/2, s.length, s.outside/2, Outline, Aluminium, "tube wall")
}

func (s *section) end(i int) {
	e, z := &s.design.Ends[i], s.along(i)
	outer, length := millimetres(e.Outside)/2, millimetres(e.Length)
	bottom := millimetres(e.Seal.GrooveDiameter) / 2
	profile := []Point{s.at(z(0), 0), s.at(z(0), outer)}
	from, width, spacing := millimetres(e.Seal.GrooveFromFace), millimetres(e.Seal.GrooveWidth), millimetres(e.Seal.GrooveSpacing)
	var rings []Shape
	for k := range max(1, e.Seal.Count.Value) {
		u := from + float64(k)*spacing
		profile = append(profile, s.at(z(u), outer), s.at(z(u), bottom), s.at(z(u+width), bottom), s.at(z(u+width), outer))
		rings = append(rings, Circle{Centre: s.at(z(u+width/2), (bottom+s.bore/2)/2), R: (s.bore/2 - bottom) / 2 * s.scale, Style: Rubber, Fill: Seal, ID: "ring"})
	}
	profile = append(profile, s.at(z(length), outer), s.at(z(length), 0))
	s.Add(Path{Points: profile, Closed: true, Style: Outline, Fill: Metal, ID: e.Name.Value})
	s.Add(rings...)
	// What lies beyond the tube is seen from outside below.
	if out := z(length); out < 0 || out > s.length {
		s.box(min(max(out, 0), s.length), -outer, out, 0, Outline, Metal, "")
	}
	switch {
	case e.Insert.IsSet():
		lip := length - millimetres(e.Lip)
		s.box(z(0), 0, z(lip), millimetres(e.Insert)/2, Thin, Paper, "insert")
		s.box(z(lip), 0, z(length), millimetres(e.LipDiameter)/2, Thin, Paper, "")
		if high := millimetres(e.Insert) / 4 * s.scale; high > 2*textSize && lip*s.scale > TextWidth("insert", textSize) {
			middle := s.at(z(lip/2), millimetres(e.Insert)/4)
			s.Add(Text{At: Point{middle.X, middle.Y + 1}, Text: "insert", Size: textSize, Anchor: Middle, Style: Thin})
		}
	case e.Port.IsSet() && e.Port.Nominal().Sign() > 0:
		s.box(z(0), 0, z(length), millimetres(e.Port)/2, Thin, Paper, "port")
	}
	if e.Plate.IsSet() && millimetres(e.Plate) < length {
		s.Line(s.at(z(millimetres(e.Plate)), 0), s.at(z(millimetres(e.Plate)), bottom), Hidden)
	}
	s.screws(e, z(millimetres(e.Screws.FromFace)))
}

// screws draws the one that is cut open above and the holes that are seen below.
func (s *section) screws(e *casewright.End, z float64) {
	hole, d := millimetres(e.Screws.Hole)/2, 1e3*e.Screws.Thread.Diameter.InexactFloat64()/2
	tip := millimetres(e.Outside)/2 - millimetres(e.Screws.Engagement)
	s.box(z-hole, s.bore/2, z+hole, s.outside/2, Outline, Paper, "hole")
	s.box(z-d, tip, z+d, s.outside/2, Outline, Steel, "screw")
	if width, height, ok := e.Screws.Thread.CapHead(); ok && e.Screws.Head.Value != "countersunk" {
		s.box(z-mm(width)/2, s.outside/2, z+mm(width)/2, s.outside/2+mm(height), Outline, Steel, "head")
	}
	start := 0.0
	if e.Screws.Angle.IsSet() {
		start = e.Screws.Angle.SI()
	}
	for k := range e.Screws.Count.Value {
		a := start + 2*math.Pi*float64(k)/float64(e.Screws.Count.Value)
		// 0° is up; to the right with the first end up is away from the viewer,
		// as the first end lies to the left.
		if math.Sin(a) > -0.05 || math.Cos(a) > 1e-9 {
			continue // behind, or above the axis
		}
		var ring []Point
		for j := range 24 {
			b := 2 * math.Pi * float64(j) / 24
			ring = append(ring, s.at(z+hole*math.Cos(b), s.outside/2*math.Cos(a)+hole*math.Sin(b)*math.Sin(a)))
		}
		s.Add(Path{Points: ring, Closed: true, Style: Outline, Fill: Paper, ID: "hole outside"})
	}
}

// arrows ends a dimension line at a and b.
func (s *section) arrows(a, b Point) {
	s.Line(a, b, Dimension)
	length := math.Hypot(b.X-a.X, b.Y-a.Y)
	if length == 0 {
		return
	}
	u, v := (b.X-a.X)/length, (b.Y-a.Y)/length
	size := min(1.8, length/2)
	for _, tip := range []struct {
		at   Point
		sign float64
	}{{a, 1}, {b, -1}} {
		x, y := tip.at.X+tip.sign*size*u, tip.at.Y+tip.sign*size*v
		s.Add(Path{Points: []Point{tip.at, {x - 0.3*v, y + 0.3*u}, {x + 0.3*v, y - 0.3*u}}, Closed: true, Style: Dimension, Fill: Solid})
	}
}

func (s *section) axialDimension(a axial, room span, y, half float64) {
	from, to := s.at(a.from, 0).X, s.at(a.to, 0).X
	for _, x := range []float64{from, to} {
		s.Line(Point{x, s.origin.Y + half + 1}, Point{x, y + 1}, Dimension)
	}
	s.arrows(Point{from, y}, Point{to, y})
	text := Text{At: Point{(from + to) / 2, y - 0.8}, Text: a.text, Size: textSize, Anchor: Middle, Style: Dimension}
	switch {
	case room.to > to:
		text.At, text.Anchor = Point{to + 2, y + 0.9}, Start
	case room.from < from:
		text.At, text.Anchor = Point{from - 2, y + 0.9}, End
	}
	s.written(text)
}

// written keeps a text of a dimension for the end, with ground that clears it of
// lines.
func (s *section) written(t Text) {
	w := TextWidth(t.Text, t.Size)
	from := t.At.X - [...]float64{Start: 0, Middle: w / 2, End: w}[t.Anchor]
	ground := []Point{{from, t.At.Y - 0.85*t.Size}, {from + w, t.At.Y + 0.25*t.Size}}
	if t.Turned {
		ground = []Point{{t.At.X - 0.85*t.Size, t.At.Y - w/2}, {t.At.X + 0.25*t.Size, t.At.Y + w/2}}
	}
	a, b := ground[0], ground[1]
	s.texts = append(s.texts, Path{Points: []Point{a, {b.X, a.Y}, b, {a.X, b.Y}}, Closed: true, Style: Bare, Fill: Paper}, t)
}

func (s *section) acrossDimension(d across, x float64) {
	top, bottom := s.at(d.at, d.diameter/2), s.at(d.at, -d.diameter/2)
	s.Line(Point{top.X, top.Y}, Point{x, top.Y}, Dimension)
	s.Line(Point{bottom.X, bottom.Y}, Point{x, bottom.Y}, Dimension)
	s.arrows(Point{x, top.Y}, Point{x, bottom.Y})
	s.written(Text{At: Point{x - 0.8, s.origin.Y}, Text: d.text, Size: textSize, Anchor: Middle, Turned: true, Style: Dimension})
}
