package bench

import (
	"math"

	"casewright"
	"casewright/fastener"
	"casewright/quantity"
)

// A HoleRow is the row of holes of one end, on the outside of the tube.
type HoleRow struct {
	Outer
	End   string
	Part  int                  // of the end, from 1
	First bool                 // at the tube's first end, which is up; else at the other
	Size  casewright.Dimension // the hole
	Edge  casewright.Dimension // hole centre to the end of the tube
	Start float64              // of the first hole from the line along the tube, degrees
	Holes []Hole
	Sink  *Sink // nil where the heads are not countersunk
}

// A Sink is the countersink of a hole, made after the hole.
type Sink struct {
	Depth  casewright.Dimension // along the axis of the hole
	Angle  float64              // of the cone, degrees
	Across quantity.Length      // at the tube's surface, measured along the tube, m
}

// A Hole is one hole of a row. Angles and arcs are counted from the line drawn
// along the tube, to the right as one looks at the outside of the tube with its
// first end up; each by itself, so that no error adds up.
type Hole struct {
	Number int
	Angle  float64         // degrees, from 0 to below 360
	Arc    quantity.Length // along the outside of the tube, m
	Chord  quantity.Length // straight from the first hole, for dividers, m
}

// HoleRows returns the rows of holes of a design, in the order of its ends: the
// first is at the upper end of the tube. Of a design as built the tube is as
// thick as it was measured, but the holes stand where the drawing has them: a
// hole that could be measured needs no drilling. The error is [ErrNoTube].
func HoleRows(d *casewright.Design) ([]HoleRow, error) {
	outer, err := OuterOf(d)
	if err != nil {
		return nil, err
	}
	if d.Drawn != nil {
		d = d.Drawn
	}
	var list []HoleRow
	for i := range d.Ends {
		e := &d.Ends[i]
		row := HoleRow{End: e.Name.Value, Part: i + 1, First: i == 0, Size: e.Screws.Hole, Edge: e.Screws.Edge, Sink: sinkOf(&e.Screws)}
		if e.Screws.Angle.IsSet() {
			row.Start = math.Mod(e.Screws.Angle.SI()/float64(quantity.Degree), 360)
		}
		row.Holes = make([]Hole, e.Screws.Count.Value)
		list = append(list, row.On(outer))
	}
	return list, nil
}

// On returns the row on a tube with that outside.
func (r HoleRow) On(o Outer) HoleRow {
	r.Outer, r.Holes = o, Circle(o.Across, len(r.Holes), r.Start)
	return r
}

// sinkOf is the countersink of the screws.
func sinkOf(w *casewright.Screws) *Sink {
	if w.Head.Value != "countersunk" || !w.HeadDepth.IsSet() || !w.Hole.IsSet() || w.Thread.Name == "" {
		return nil
	}
	angle := w.Thread.SinkAngle()
	return &Sink{
		Depth: w.HeadDepth, Angle: float64(angle / quantity.Degree),
		Across: fastener.SinkDiameter(quantity.LengthOf(w.Hole.Nominal()), quantity.LengthOf(w.HeadDepth.Nominal()), angle),
	}
}

// Circle returns n holes evenly round a circle, the first at an angle.
//
//	s = D α/2,  c = D sin(π k/N) for the hole k after the first
//
// across: diameter D of the circle, m. start: degrees. Source: geometry; the
// chords are those of tables of hole circles.
func Circle(across quantity.Length, n int, start float64) []Hole {
	holes := make([]Hole, n)
	for k := range holes {
		angle := math.Mod(start+360*float64(k)/float64(n), 360)
		holes[k] = Hole{
			Number: k + 1, Angle: angle,
			Arc:   across * quantity.Length(math.Pi*angle/360),
			Chord: across * quantity.Length(math.Sin(math.Pi*float64(k)/float64(n))),
		}
	}
	return holes
}
