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
	"shear resistance across packing": {shears, func(r *reference.Row) float64 {
		whole := fastener.Shear(r.Of("alpha_v"), quantity.Pressure(r.Of("fub")), quantity.Area(r.Of("A")))
		return fastener.PackingFactor(length(r, "d"), length(r, "tp")) * float64(whole) / r.Of("gM2")
	}},
	// The moment at which the stress is what a pin bears.
	"bending resistance of a pin": {[]string{"screw.bending"}, func(r *reference.Row) float64 {
		return fastener.PlasticShape * r.Of("fyp") / r.Of("gM0") / float64(fastener.BendingStress(1, 1, length(r, "d")))
	}},
	"moment of a screw over its load": {[]string{"screw.bending"}, func(r *reference.Row) float64 {
		return float64(fastener.BendingArm(length(r, "t"), length(r, "d"), length(r, "gap")))
	}},
	"least major diameter of a screw":             ofThread(nil, func(t fastener.Thread) float64 { return float64(t.LeastMajor()) }),
	"greatest pitch diameter of a tapped hole":    ofThread(nil, func(t fastener.Thread) float64 { return float64(t.GreatestPitchDiameter()) }),
	"strength of a screw's thread over the end's": {strips, func(*reference.Row) float64 { return fastener.SoftScrew }},
	"depth at which a screw breaks as its thread strips": {[]string{"thread.outlasts"}, func(r *reference.Row) float64 {
		perLength := fastener.Strip(threadOf(r).StripArea(), 1, 0, quantity.Pressure(r.Of("Fsu")), quantity.Pressure(r.Of("Rm")))
		return r.Of("Rm") * r.Of("As") / float64(perLength)
	}},
}
