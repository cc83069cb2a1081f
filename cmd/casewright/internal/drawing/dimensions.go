package drawing

import (
	"cmp"
	"maps"
	"math"
	"slices"

	"casewright"
)

type (
	// axial is a dimension along the axis, mm of the motor.
	axial struct {
		from, to float64
		text     string
		side     int     // where the text stands: 0 in its line, 1 and −1 after and before it
		y        float64 // of its line, on the sheet
	}
	// across is a dimension of a diameter.
	across struct {
		at, diameter float64
		text         string
		x            float64 // of its line, on the sheet
		below        float64 // where a text begins that is longer than the line; 0 if it is not
	}
)

// written is a dimension as the design file has it: 1/8 in stays a fraction.
func written(d casewright.Dimension) string {
	if text := d.Text(); text != "" && len(text) <= 30 {
		return text
	}
	return d.String()
}

// collect gathers the dimensions.
func (s *section) collect() {
	t := &s.design.Tube
	put := func(from, to float64, d casewright.Dimension) {
		if d.IsSet() {
			s.axial = append(s.axial, axial{from: min(from, to), to: max(from, to), text: written(d)})
		}
	}
	diameter := func(list *[]across, at float64, d casewright.Dimension) {
		if d.IsSet() && d.Nominal().Sign() > 0 {
			*list = append(*list, across{at: at, diameter: millimetres(d), text: "⌀" + written(d)})
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
		put(z(millimetres(e.Plate)), z(millimetres(e.Plate)-millimetres(e.PortDepth)), e.PortDepth)
		put(z(millimetres(e.Length)-millimetres(e.Lip)), z(millimetres(e.Length)), e.Lip)
		groove := millimetres(e.Seal.GrooveFromFace)
		put(z(0), z(groove), e.Seal.GrooveFromFace)
		put(z(groove), z(groove+millimetres(e.Seal.GrooveWidth)), e.Seal.GrooveWidth)
		put(z(groove), z(groove+millimetres(e.Seal.GrooveSpacing)), e.Seal.GrooveSpacing)
		diameter(side, z(0), e.Outside)
		diameter(side, z(groove), e.Seal.GrooveDiameter)
		diameter(side, z(0), e.Insert)
		diameter(side, z(millimetres(e.Length)), e.LipDiameter)
		diameter(side, z(0), e.Port)
		if thread := e.PortThread; thread.Name != "" {
			*side = append(*side, across{at: z(millimetres(e.Plate)), diameter: 1e3 * thread.Diameter.InexactFloat64(), text: thread.Name})
		}
	}
	for _, list := range [][]across{s.left, s.right} { // the wider is farther out, so that no extension line meets an arrow
		slices.SortStableFunc(list, func(a, b across) int { return cmp.Compare(a.diameter, b.diameter) })
	}
}

// place chooses where the text stands, and returns how far it leaves the motor,
// mm on the sheet.
func (a *axial) place(scale, first, last float64) float64 {
	w := TextWidth(a.text, textSize)
	if a.side = 0; w <= (a.to-a.from)*scale-2 {
		return 0
	}
	after, before := (a.to-last)*scale+2+w, (first-a.from)*scale+2+w
	if a.side = 1; before < after && after > 0 {
		a.side, after = -1, before
	}
	return max(0, after)
}

// axialLanes lays the lines along the axis in lanes below a height, and returns
// how many there are.
func (s *section) axialLanes(below float64) int {
	spans := make([]span, len(s.axial))
	for i, a := range s.axial {
		spans[i] = span{s.at(a.from, 0).X, s.at(a.to, 0).X}
		switch w := 2 + TextWidth(a.text, textSize); a.side {
		case 1:
			spans[i].to += w
		case -1:
			spans[i].from -= w
		}
	}
	lane, count := lanes(spans, 2.5)
	for i := range s.axial {
		s.axial[i].y = below + laneStep*float64(lane[i])
	}
	return count
}

// room is what so many lines of diameters take beside each other.
func (across) room(count int) float64 {
	if count == 0 {
		return 0
	}
	return textSize + 1 + laneStep*float64(count-1)
}

// acrossLanes lays the lines of diameters beside each other, to the left (−1)
// or right (1) of x, and returns how low their texts reach.
func (s *section) acrossLanes(list []across, x, side float64) (deepest float64) {
	if side > 0 {
		x += textSize + 1 // texts stand to the left of their lines
	}
	for i := range list {
		d := &list[i]
		d.x, d.below = x+side*laneStep*float64(i), 0
		if w := TextWidth(d.text, textSize); w+3 > d.diameter*s.scale {
			d.below = s.origin.Y + list[len(list)-1].diameter*s.scale/2 + 2
			deepest = max(deepest, d.below+w)
		}
	}
	return deepest
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

// extensions draws the lines from the motor to its dimensions along the axis,
// one for all that begin or end at a place.
func (s *section) extensions() {
	lowest := map[float64]float64{}
	for _, a := range s.axial {
		for _, z := range []float64{a.from, a.to} {
			lowest[z] = max(lowest[z], a.y+1)
		}
	}
	for _, z := range slices.Sorted(maps.Keys(lowest)) {
		x := s.at(z, 0).X
		s.Line(Point{x, s.origin.Y + s.outside*s.scale/2 + 1}, Point{x, lowest[z]}, Dimension)
	}
}

func (s *section) axialDimension(a *axial) {
	from, to := s.at(a.from, 0).X, s.at(a.to, 0).X
	s.arrows(Point{from, a.y}, Point{to, a.y})
	text := Text{At: Point{(from + to) / 2, a.y - 0.9}, Text: a.text, Size: textSize, Anchor: Middle, Style: Dimension}
	switch a.side {
	case 1:
		text.At, text.Anchor = Point{to + 2, a.y + 0.9}, Start
	case -1:
		text.At, text.Anchor = Point{from - 2, a.y + 0.9}, End
	}
	s.under(text)
}

func (s *section) acrossDimension(d *across) {
	top, bottom := s.at(d.at, d.diameter/2), s.at(d.at, -d.diameter/2)
	s.Line(Point{top.X, top.Y}, Point{d.x, top.Y}, Dimension)
	s.Line(Point{bottom.X, bottom.Y}, Point{d.x, bottom.Y}, Dimension)
	s.arrows(Point{d.x, top.Y}, Point{d.x, bottom.Y})
	text := Text{At: Point{d.x - 0.9, s.origin.Y}, Text: d.text, Size: textSize, Anchor: Middle, Turned: true, Style: Dimension}
	if d.below > 0 { // below all extension lines, on the line drawn out
		text.At.Y, text.Anchor = d.below, End
		s.Line(Point{d.x, bottom.Y}, Point{d.x, d.below + TextWidth(d.text, textSize)}, Dimension)
	}
	s.under(text)
}
