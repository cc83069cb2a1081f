package bench

import (
	"errors"
	"math"

	"casewright"
	"casewright/quantity"
)

// A HoleRow is the row of holes of one end, on the outside of the tube.
type HoleRow struct {
	End    string
	Part   int  // of the end, from 1
	First  bool // at the tube's first end, which is up; else at the other
	Across quantity.Length
	Size   casewright.Dimension // the hole
	Edge   casewright.Dimension // hole centre to the end of the tube
	Start  float64              // of the first hole from the line along the tube, degrees
	Holes  []Hole
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

// ErrNoTube says that a design has not the sizes of its tube.
var ErrNoTube = errors.New("the tube has not two of outside_diameter, inside_diameter and wall")

// Outside returns the outside diameter of a design's tube at nominal sizes, in
// m. The error is [ErrNoTube].
func Outside(d *casewright.Design) (quantity.Length, error) {
	if d.Tube.Outside.IsSet() {
		return quantity.LengthOf(d.Tube.Outside.Nominal()), nil
	}
	bore, wall, ok := d.Tube.Nominal()
	if !ok {
		return 0, ErrNoTube
	}
	return quantity.LengthOf(bore.Add(wall).Add(wall)), nil
}

// HoleRows returns the rows of holes of a design, in the order of its ends: the
// first is at the upper end of the tube. The error is [ErrNoTube].
func HoleRows(d *casewright.Design) ([]HoleRow, error) {
	across, err := Outside(d)
	if err != nil {
		return nil, err
	}
	var list []HoleRow
	for i := range d.Ends {
		e := &d.Ends[i]
		row := HoleRow{End: e.Name.Value, Part: i + 1, First: i == 0, Across: across, Size: e.Screws.Hole, Edge: e.Screws.Edge}
		if e.Screws.Angle.IsSet() {
			row.Start = math.Mod(e.Screws.Angle.SI()/float64(quantity.Degree), 360)
		}
		row.Holes = Circle(across, e.Screws.Count.Value, row.Start)
		list = append(list, row)
	}
	return list, nil
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
