package fastener

import (
	"math"

	"casewright/margin"
	"casewright/quantity"
)

// BendingStress returns the largest bending stress of a screw at its core, as
// if it were built in at the mouth of its thread, in Pa.
//
//	σ = 32 F_s a/(π d_3³)
//
// fs: load of the screw, N. arm: a, from the mouth of the thread to the middle
// of the wall, m: half the wall and the gap between. core: core diameter d_3, m,
// above 0. Source: beam bending of a round section, W = π d³/32.
func BendingStress(fs quantity.Force, arm, core quantity.Length) quantity.Pressure {
	d := float64(core)
	return quantity.Pressure(32 * float64(fs) * float64(arm) / (math.Pi * d * d * d))
}

// PackingFactor returns what is left of a screw's shear strength where it
// crosses packing or a gap; unit 1. It is 1 up to a third of the diameter.
//
//	β_p = min(1, 9 d/(8 d + 3 t_p))
//
// d: nominal screw diameter, packing: t_p, the gap, both m and at least 0.
// Source: EN 1993-1-8 3.6.1(12).
func PackingFactor(d, packing quantity.Length) float64 {
	return math.Min(1, 9*float64(d)/(8*float64(d)+3*float64(packing)))
}

// PlasticShape is the bending that a screw bears over that at which its
// outermost fibre yields; unit 1. A round section that yields all through bears
// 1.7. Source: EN 1993-1-8 table 3.10, M_Rd = 1.5 W_el f_yp of a pin.
const PlasticShape = 1.5

// ScrewBending checks that the screws stay straight, in Pa. Source: EN 1993-1-8
// table 3.10.
var ScrewBending = margin.Method{
	ID: "screw.bending", Title: "screws bend between wall and end", Part: "the screws bend", Key: "end.screws.thread",
	Source: "beam bending at the core, arm of half the wall and the gap; EN 1993-1-8 table 3.10 (1.5 W f_y)",
	Range:  "screw held in the thread up to its mouth",
	Why:    "A wide gap or a thick wall turns shear into bending: the screws come out crooked after a test, stick in the tube, and the holes are ovalled with them.",
	Kind:   margin.Strength, Mode: margin.Yields, Factor: margin.YieldFactor, Joint: true, Unit: quantity.KindPressure,
	Demand: "32 F share/N (t_max/2 + t_p)/(π d_3³)", Capacity: "1.5 R_p",
	Symbols: []margin.Symbol{
		margin.EndLoad.At(margin.Greatest), margin.Share.At(margin.Greatest), margin.Count.At(margin.Only), margin.Wall.At(margin.Greatest),
		margin.Packing.At(margin.Greatest), margin.CoreDiameter.At(margin.Only), margin.ScrewYield.At(margin.Only),
	},
	Readings: []margin.Reading{
		{Name: "outermost fibre yields", Formula: "R_p", Of: margin.OfCapacity, Source: "elastic bending"},
		{Name: "without the gap", Formula: "32 F share/N t_max/2/(π d_3³)", Of: margin.OfDemand, Source: "arm of half the wall"},
	},
	Eval: func(v *margin.Values) (float64, float64) {
		fs := ScrewLoad(quantity.Force(v[0]), v[1], v[2])
		return float64(BendingStress(fs, length(v[3]/2+v[4]), length(v[5]))), PlasticShape * v[6]
	},
	Remark: func(*margin.Values, float64) margin.Notes { return margin.Of(margin.BendingApart) },
}
