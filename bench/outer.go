package bench

import (
	"errors"
	"fmt"
	"math"

	"casewright"
	"casewright/quantity"
)

// An Outer is the outside of the tube that holes are laid out on; diameters in
// m.
type Outer struct {
	Across quantity.Length // as drawn or as measured
	Widest quantity.Length // the most that it may be, by the tolerance or the gauge
	From   Origin          // of Across

	Drawn   quantity.Length    // nominal of the drawing
	Allowed [2]quantity.Length // least and greatest by the drawing's tolerance
}

// An Origin is where the outside diameter of a tube is from.
type Origin string

// The origins.
const (
	Drawn        Origin = "drawn"
	Measured     Origin = "measured"
	PartMeasured Origin = "measured in part" // bore or wall; the other is drawn
)

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

// OuterOf returns the outside of a design's tube: of the drawing, or, of a
// design as built, as far as it was measured. The error is [ErrNoTube].
func OuterOf(d *casewright.Design) (Outer, error) {
	across, err := Outside(d)
	if err != nil {
		return Outer{}, err
	}
	o := Outer{Across: across, From: Drawn, Drawn: across, Allowed: outsideLimits(&d.Tube)}
	o.Widest = o.Allowed[1]
	if d.Drawn == nil {
		return o, nil
	}
	if o.Drawn, err = Outside(d.Drawn); err != nil {
		return Outer{}, err
	}
	o.Allowed = outsideLimits(&d.Drawn.Tube)
	outside := d.Tube.Outside.IsSet()
	measured := map[string]bool{}
	for _, m := range d.Measured {
		measured[m.Key] = true
	}
	switch bore, wall := measured["tube.inside_diameter"], measured["tube.wall"]; {
	case outside && measured["tube.outside_diameter"], !outside && bore && wall:
		o.From = Measured
	case !outside && (bore || wall):
		o.From = PartMeasured
	}
	return o, nil
}

// outsideLimits are the least and the greatest outside diameter of a tube.
func outsideLimits(t *casewright.Tube) [2]quantity.Length {
	if t.Outside.IsSet() {
		return [2]quantity.Length{quantity.LengthOf(t.Outside.Least()), quantity.LengthOf(t.Outside.Greatest())}
	}
	return [2]quantity.Length{
		quantity.LengthOf(t.Inside.Least().Add(t.Wall.Least()).Add(t.Wall.Least())),
		quantity.LengthOf(t.Inside.Greatest().Add(t.Wall.Greatest()).Add(t.Wall.Greatest())),
	}
}

// InTolerance tells whether the drawing allows the diameter; where it has no
// tolerance there is nothing to be held to.
func (o Outer) InTolerance() bool {
	least, most := o.Allowed[0], o.Allowed[1]
	return least >= most || o.Across >= least && o.Across <= most
}

// MostOff is how far a measured outside diameter may lie from the drawn one, as
// a fraction: what is farther off is another tube, or a slip of the pen. Ours.
const MostOff = 0.05

// Measuring returns the outside of a tube that measures so much across, m. It is
// an error where that is more than [MostOff] from the drawn diameter.
func (o Outer) Measuring(across quantity.Length) (Outer, error) {
	if off := math.Abs(float64(across/o.Drawn) - 1); !(off <= MostOff+1e-12) {
		return Outer{}, fmt.Errorf("a tube of %.2f mm outside is more than %.0f %% from the drawn %.2f mm: that is another tube", 1e3*float64(across), 100*MostOff, 1e3*float64(o.Drawn))
	}
	o.Across, o.Widest, o.From = across, across, Measured
	return o, nil
}
