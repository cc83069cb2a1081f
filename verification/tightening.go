package verification

import (
	"math"

	"casewright/fastener"
	"casewright/margin/reference"
	"casewright/quantity"
)

var strips = []string{"thread.strip", "thread.outlasts"}

var tighteningNumbers = map[string]Number{
	"preload at a torque": {[]string{"screw.preload", "thread.strip"}, func(r *reference.Row) float64 {
		return float64(fastener.Preload(quantity.Torque(r.Of("T")), length(r, "P"), length(r, "d2"), length(r, "d"), r.Of("mu")))
	}},
	"share of the yield strength at a preload": {[]string{"screw.preload"}, func(r *reference.Row) float64 {
		t, c := threadOf(r), classOf(r)
		if t.Name == "" || c.Name == "" {
			return math.NaN()
		}
		stress := fastener.TighteningStress(quantity.Force(r.Of("F")), t.StressDiameter(), t.PitchDiameter(), t.PitchLength(), r.Of("mu"))
		return float64(stress / c.Yield)
	}},
	"shear area of a tapped thread": {strips, func(r *reference.Row) float64 {
		t := threadOf(r)
		if t.Name == "" {
			return math.NaN()
		}
		return float64(t.StripArea()) * r.Of("l")
	}},
	"bending that a pin bears over that of its outermost fibre": {[]string{"screw.bending"}, func(*reference.Row) float64 { return capacityOf(&fastener.ScrewBending) }},
	"share of the shear strength across packing": {[]string{"screw.shear"}, func(r *reference.Row) float64 {
		return fastener.PackingFactor(length(r, "d"), length(r, "tp"))
	}},
}
