package bench

import (
	"fmt"

	"casewright"
	"casewright/quantity"
)

// A Ruler writes lengths that are laid out or measured by hand: in mm to the
// hundredth, or in inches to four places with the mm in brackets.
type Ruler struct{ Inches bool }

var inch = quantity.MustUnit("in")

// Length writes a length.
func (r Ruler) Length(x quantity.Length) string {
	if r.Inches {
		return fmt.Sprintf("%.4f in (%.2f mm)", float64(x/quantity.Inch), 1e3*float64(x))
	}
	return fmt.Sprintf("%.2f mm", 1e3*float64(x))
}

// Size writes a size as the design file has it, tolerance included, and beside
// it the nominal size in mm or in inches where one of the two is asked for and
// the file has the other.
func (r Ruler) Size(d casewright.Dimension) string {
	text, x := d.String(), quantity.LengthOf(d.Nominal())
	switch {
	case d.Unit() == inch:
		return fmt.Sprintf("%s (%.2f mm)", text, 1e3*float64(x))
	case r.Inches:
		return fmt.Sprintf("%.4f in (%s)", float64(x/quantity.Inch), text)
	}
	return text
}

// Origin tells where an outside diameter is from; of a measured one what is
// drawn, and whether the drawing's tolerance allows it.
func (r Ruler) Origin(o Outer) string {
	if o.From == Drawn {
		return string(Drawn)
	}
	text := string(o.From) + "; drawn " + r.Length(o.Drawn)
	if !o.InTolerance() {
		text += fmt.Sprintf(", which allows %s to %s: check the tube as built", r.Length(o.Allowed[0]), r.Length(o.Allowed[1]))
	}
	return text
}

// Sink tells how the holes of a row are countersunk; empty where they are not.
func (r Ruler) Sink(s *Sink) string {
	if s == nil {
		return ""
	}
	return fmt.Sprintf("Drill first, countersink afterwards: %s deep, cone of %.0f°, %s across, measured along the tube.", r.Size(s.Depth), s.Angle, r.Length(s.Across))
}
