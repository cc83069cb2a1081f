package fastener

import (
	"math"

	"casewright/margin"
	"casewright/quantity"
)

// The range of hole over pitch for which the chart of pin-loaded holes holds.
// Source: see [PeakFactor].
const (
	leastHolePart = 0.15
	mostHolePart  = 0.75
)

// PeakFactor returns the peak stress at the edge of a hole that its screw
// loads, over the mean pressure of the screw on the hole; unit 1.
//
//	c_h = K x/(1 − x),  K = 12.882 − 52.714 x + 89.762 x² − 51.667 x³
//
// x: hole over pitch, unit 1. Below 0.15 the factor of 0.15 is taken, which is
// greater; above 0.75 it is NaN. Source: Pilkey, Peterson's Stress Concentration
// Factors, chart 4.67, close-fitting pin in a strip, K on the net section, from
// memory. Finite elements of a row of holes read 7 to 15 % lower.
func PeakFactor(x float64) float64 {
	if !(x <= mostHolePart) {
		return math.NaN()
	}
	x = math.Max(x, leastHolePart)
	return (12.882 - 52.714*x + 89.762*x*x - 51.667*x*x*x) * x / (1 - x)
}

// HolePeak tells the peak stress beside the holes over the yield strength, for
// those who fire a tube again; unit 1. Source: see [PeakFactor].
var HolePeak = margin.Method{
	ID: "hole.peak", Title: "peak stress beside the holes, over yield strength", Part: "cracks begin at the holes after many tests", Key: "end.screws.count",
	Source: "Peterson's Stress Concentration Factors, pin-loaded hole", Range: "elastic; holes no wider than 0.75 of their pitch",
	Why:  "Once does no harm: the metal yields in a spot and settles. But where the peak passes the yield strength at every test, cracks may begin, so count the tests and look at the holes.",
	Kind: margin.AtMost, Mode: margin.Rule, Unit: quantity.KindRatio, Default: "1", NoteOnly: true,
	Value: "c_h F share/N/(h_min t_b)/F_ty",
	Symbols: []margin.Symbol{
		margin.PeakFactor.At(margin.Greatest), margin.EndLoad.At(margin.Greatest), margin.Share.At(margin.Greatest), margin.Count.At(margin.Only),
		margin.Hole.At(margin.Least), margin.BearingThickness.At(margin.Least), margin.TubeYield.At(margin.Only),
	},
	Eval: func(v *margin.Values) (float64, float64) {
		fs := ScrewLoad(quantity.Force(v[1]), v[2], v[3])
		return v[0] * float64(BearingStress(fs, length(v[4]), length(v[5]))) / v[6], 0
	},
}
