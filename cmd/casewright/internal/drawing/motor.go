package drawing

import (
	"math"

	"casewright"
	"casewright/fastener"
	"casewright/quantity"
)

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
	case e.PortThread.Name != "":
		s.pipe(e, z)
	case e.Port.IsSet() && e.Port.Nominal().Sign() > 0:
		s.box(z(0), 0, z(length), millimetres(e.Port)/2, Thin, Paper, "port")
	}
	if e.Plate.IsSet() && millimetres(e.Plate) < length {
		s.Line(s.at(z(millimetres(e.Plate)), 0), s.at(z(millimetres(e.Plate)), bottom), Hidden)
	}
	s.screws(e, z(millimetres(e.Screws.FromFace)))
}

// pipe draws a port with its taper thread: its root as the thin line of threads,
// its crest at the tap drill.
func (s *section) pipe(e *casewright.End, z func(float64) float64) {
	plate, t := millimetres(e.Plate), e.PortThread
	inner := 0.0 // where the thread ends
	if e.PortDepth.IsSet() {
		inner = plate - millimetres(e.PortDepth)
	}
	root, drill := 1e3*t.Diameter.InexactFloat64()/2, 1e3*t.TapDrill.InexactFloat64()/2
	if e.Port.IsSet() {
		s.box(z(0), 0, z(plate), millimetres(e.Port)/2, Thin, Paper, "port")
	}
	s.box(z(plate), 0, z(millimetres(e.Length)), root, Thin, Paper, "")
	s.box(z(inner), 0, z(plate), drill, Outline, Paper, "tap drill")
	s.Add(Path{Points: []Point{s.at(z(inner), root-(plate-inner)/32), s.at(z(plate), root)}, Style: Thin, ID: "pipe thread"})
}

// cone is how wide the head of a countersunk screw is, as a radius, where it
// lies flush, and by how much it narrows on the way in; ok is false for others.
func cone(w *casewright.Screws) (mouth, slope float64, ok bool) {
	if w.Head.Value != "countersunk" || !w.HeadDepth.IsSet() {
		return 0, 0, false
	}
	angle := w.Thread.SinkAngle()
	mouth = mm(fastener.SinkDiameter(quantity.LengthOf(w.Hole.Nominal()), quantity.LengthOf(w.HeadDepth.Nominal()), angle)) / 2
	return mouth, math.Tan(float64(angle) / 2), true
}

// screws draws the one that is cut open above and the holes that are seen below.
func (s *section) screws(e *casewright.End, z float64) {
	hole, d := millimetres(e.Screws.Hole)/2, 1e3*e.Screws.Thread.Diameter.InexactFloat64()/2
	tip := millimetres(e.Outside)/2 - millimetres(e.Screws.Engagement)
	s.box(z-hole, s.bore/2, z+hole, s.outside/2, Outline, Paper, "hole")
	if bottom := millimetres(e.Outside)/2 - 1e3*e.Screws.DrilledTo(quantity.Dimension.Nominal).InexactFloat64(); bottom < tip {
		point := min(0.6*d, tip-bottom) // of a drill of 118°
		s.Add(Path{Points: []Point{s.at(z-d, tip), s.at(z-d, bottom+point), s.at(z, bottom), s.at(z+d, bottom+point), s.at(z+d, tip)}, Closed: true, Style: Thin, Fill: Paper, ID: "drilled"})
	}
	s.box(z-d, tip, z+d, s.outside/2, Outline, Steel, "screw")
	mouth, slope, sunk := cone(&e.Screws)
	if sunk {
		area := func(narrow float64, fill Fill, id string) {
			bottom := s.outside/2 - (mouth-narrow)/slope
			s.Add(Path{Points: []Point{s.at(z-mouth, s.outside/2), s.at(z-narrow, bottom), s.at(z+narrow, bottom), s.at(z+mouth, s.outside/2)}, Closed: true, Style: Outline, Fill: fill, ID: id})
		}
		area(hole, Paper, "countersink")
		area(d, Steel, "head")
	} else if width, height, ok := e.Screws.Thread.CapHead(); ok {
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
		ring := func(radius float64, id string) {
			var points []Point
			for j := range 24 {
				b := 2 * math.Pi * float64(j) / 24
				// The upper half is cut away, and the edge of the tube is its horizon.
				r := max(-s.outside/2, min(0, s.outside/2*math.Cos(a)+radius*math.Sin(b)*math.Sin(a)))
				points = append(points, s.at(z+radius*math.Cos(b), r))
			}
			s.Add(Path{Points: points, Closed: true, Style: Outline, Fill: Paper, ID: id})
		}
		if sunk {
			ring(mouth, "countersink outside")
		}
		ring(hole, "hole outside")
	}
}
