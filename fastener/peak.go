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
// memory. Finite elements of a row of holes, a cosine of pressure on each, read
// 7 to 20 % lower where the holes stand at most 6 apart.
func PeakFactor(x float64) float64 {
	if !(x <= mostHolePart) {
		return math.NaN()
	}
	x = math.Max(x, leastHolePart)
	return (12.882 - 52.714*x + 89.762*x*x - 51.667*x*x*x) * x / (1 - x)
}

// PlayFactor is the rise of the peak stress where the pin has room in its hole,
// unit 1. Sources: Shigley, figure A-15-12 (35 to 50 % more, after Frocht and
// Hill); finite elements of a row with a pin a tenth thinner than its hole, at
// least 1.5 holes from the end: 1.5 c_h reads from 1 % low to 60 % high, the
// most where holes crowd, for the chart is of one strip.
const PlayFactor = 1.5

// LeastPeakEdge is the hole centre to the end of the tube, in holes, unit 1,
// below which the peak stress rises fast: by 20 % at 1.25 and by 60 % at 1.
// Source: finite elements, as for [PlayFactor].
const LeastPeakEdge = 1.5

// HolePeak tells the peak stress beside the holes over the yield strength, for
// those who fire a tube again; unit 1. Source: see [PeakFactor].
var HolePeak = margin.Method{
	ID: "hole.peak", Title: "peak stress beside the holes, over yield strength", Part: "cracks begin at the holes after many tests", Key: "end.screws.count",
	Source: "Peterson's Stress Concentration Factors, chart 4.67, pin-loaded hole, from memory; 1.5 for the room of the screw: Shigley, figure A-15-12, after Frocht and Hill",
	Range:  "elastic; holes no wider than 0.75 of their pitch, at least 1.5 holes from the end; room of at most a tenth of the hole was solved",
	Why:    "Once does no harm: the metal yields in a spot and settles. But where the peak passes the yield strength at every test, cracks may begin, so count the tests and look at the holes.",
	Kind:   margin.AtMost, Mode: margin.Rule, Unit: quantity.KindRatio, Default: "1", NoteOnly: true,
	Value: "1.5 c_h F share/N/(h_min t_b)/F_ty",
	Readings: []margin.Reading{
		{Name: "a pin that fills its hole", Formula: "c_h F share/N/(h_min t_b)/F_ty", Of: margin.OfValue, Source: "Peterson's Stress Concentration Factors, chart 4.67"},
		{Name: "a pin a tenth thinner than its hole, the worst that was solved", Formula: "1.86 F share/N/(h_min t_b)/F_ty", Of: margin.OfValue, Source: "finite elements, holes 1.5 to 3 from the end and 2.5 to 10 apart"},
	},
	Symbols: []margin.Symbol{
		margin.PeakFactor.At(margin.Greatest), margin.EndLoad.At(margin.Greatest), margin.Share.At(margin.Greatest), margin.Count.At(margin.Only),
		margin.Hole.At(margin.Least), margin.BearingThickness.At(margin.Least), margin.TubeYield.At(margin.Only), margin.Edge.At(margin.Least),
		margin.Hole.At(margin.Greatest),
	},
	Valid: func(v *margin.Values) margin.Reason {
		// The factor is no number beyond its chart.
		if !(v[0] > 0 && v[7] >= LeastPeakEdge*v[8]) {
			return margin.PinHole
		}
		return margin.None
	},
	Eval: func(v *margin.Values) (float64, float64) {
		fs := ScrewLoad(quantity.Force(v[1]), v[2], v[3])
		return PlayFactor * v[0] * float64(BearingStress(fs, length(v[4]), length(v[5]))) / v[6], 0
	},
}
