package materials

import (
	"math"
	"slices"

	"casewright/margin"
	"casewright/quantity"
)

// The limits where no curve says better: strengths at 20 °C are taken to hold
// from −40 °C, and to 40 °C. Common practice, no source.
const (
	coldest quantity.Temperature = 233.15
	warmest quantity.Temperature = 313.15
)

// A Point is one point of a curve, and where it comes from.
type Point struct {
	T      quantity.Temperature
	Ratio  float64 // of the property at T to that at 20 °C, from 0 to 1
	Source string  // document
	Where  string  // table or figure in it
	Status string  // Seen or Memory
	Note   string  // what else is to be known, empty if nothing
}

// A Retention is a curve: how much of its strength and stiffness at 20 °C a
// metal retains while it is hot.
type Retention struct {
	Name   string
	points [NumProperties][]Point
}

// Curves returns all curves, in the order of their table.
func Curves() []*Retention {
	var list []*Retention
	for _, name := range firsts(curvesCSV) {
		if r := lookupCurve(name); r != nil {
			list = append(list, r)
		}
	}
	return list
}

// Curve finds a curve by its name, without regard to case and extra blanks.
func Curve(name string) (*Retention, bool) {
	r := lookupCurve(name)
	return r, r != nil
}

// Properties returns the properties that have points of their own, in their
// fixed order: Yield, Ultimate and Modulus, as far as they are known.
func (r *Retention) Properties() []Property {
	var list []Property
	for p := range NumProperties {
		if len(r.points[p]) > 0 {
			list = append(list, p)
		}
	}
	return list
}

// Points returns the points that a property follows, coldest first, none for
// one that follows no curve. The first is at 20 °C, where the ratio is 1.
func (r *Retention) Points(p Property) []Point {
	f, ok := p.Follows()
	if !ok {
		return nil
	}
	return slices.Clone(r.points[f])
}

// end returns the temperature of the last point that a strength follows, and
// more than any temperature where there is none.
func (r *Retention) end(p Property) quantity.Temperature {
	f, _ := p.Follows()
	if r == nil || len(r.points[f]) == 0 {
		return quantity.Temperature(math.Inf(1))
	}
	return r.points[f][len(r.points[f])-1].T
}

// At returns the ratio of a property at the temperature t, in kelvins, to that
// at 20 °C: from 0 to 1, by straight lines between the points. It is 1 from
// −40 °C to the first point and refused with [margin.Temperature] when colder
// (or for NaN) or above the last point.
//
// The ratio of a property that follows no curve is 1. Where the points of one
// that does are missing it is 1 from −40 to 40 °C and refused outside. The
// ratio of a strength has the note [margin.RememberedStrength] where it rests
// on a point from memory, other than that at 20 °C.
func (r *Retention) At(p Property, t quantity.Temperature) Reading {
	f, _ := p.Follows()
	if f >= NumProperties || len(r.points[f]) == 0 {
		return constant(p, t, warmest)
	}
	points := r.points[f]
	last := points[len(points)-1]
	if !within(coldest, t, last.T) {
		return refused(margin.Temperature)
	}
	switch i := slices.IndexFunc(points, func(q Point) bool { return t <= q.T }); i {
	case 0:
		return Reading{SI: 1}
	case -1: // above the last point by rounding only
		return Reading{SI: last.Ratio, Notes: remembered(p, last)}
	default:
		a, b := points[i-1], points[i]
		x := float64(t-a.T) / float64(b.T-a.T)
		return Reading{SI: a.Ratio + x*(b.Ratio-a.Ratio), Notes: remembered(p, a, b)}
	}
}

// constant is the ratio of a property without a curve: 1 as far as it holds.
func constant(p Property, t, upTo quantity.Temperature) Reading {
	if _, changes := p.Follows(); changes && !within(coldest, t, upTo) {
		return refused(margin.Temperature)
	}
	return Reading{SI: 1}
}

// remembered notes a strength that rests on points from memory.
func remembered(p Property, points ...Point) margin.Notes {
	for _, q := range points {
		if q.Status != Seen && p.IsStrength() {
			return margin.Of(margin.RememberedStrength)
		}
	}
	return 0
}

// rounding is what °C and °F may lose on their way to kelvins.
const rounding = 1e-6

// within tells whether a temperature lies between two others, both included,
// but for rounding.
func within(low, t, high quantity.Temperature) bool {
	return t >= low-rounding && t <= high+rounding
}
