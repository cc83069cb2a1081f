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
// fs: load of the screw, N. arm: a of [BendingArm], m. core: core diameter d_3,
// m, above 0. Source: beam bending of a round section, W = π d³/32.
func BendingStress(fs quantity.Force, arm, core quantity.Length) quantity.Pressure {
	d := float64(core)
	return quantity.Pressure(32 * float64(fs) * float64(arm) / (math.Pi * d * d * d))
}

// LeastArm is the arm of a screw's load where the wall is thin, in nominal
// diameters, unit 1: the thread gives a little, and so the screw bends inside
// it as well. Source: elastic beam in two beds with the bearing flexibility of
// Tate and Rosenfeld, NACA TN 1051: 0.30 to 0.36 for walls of 0.3 to 1 diameter.
const LeastArm = 0.35

// BendingArm returns the arm at which the wall's load bends a screw, in m.
//
//	a = max(t/2, 0.35 d) + t_p
//
// t: wall, d: nominal screw diameter, packing: t_p, the gap between wall and
// end, all m. Source: middle of the wall to the mouth of the thread; for thin
// walls see [LeastArm].
func BendingArm(t, d, packing quantity.Length) quantity.Length {
	return quantity.Length(math.Max(float64(t)/2, LeastArm*float64(d))) + packing
}

// BendingAndShear returns the bending stress that does a screw as much harm as
// bending and shear at its core together, in Pa.
//
//	σ = 32 F_s √(a² + (5/16 d_3 R_p/R_m)²)/(π d_3³)
//
// fs: load of the screw, N. arm: a of [BendingArm], core: core diameter d_3, m,
// above 0. yield R_p, tensile strength R_m: Pa. Source: EN 1993-1-8 table 3.10,
// from memory: (M/M_Rd)² + (F_v/F_v,Rd)² ≤ 1 with M_Rd = 1.5 W R_p and F_v,Rd =
// 0.6 A R_m, solved for the stress that is held against 1.5 R_p.
func BendingAndShear(fs quantity.Force, arm, core quantity.Length, yield, tensile quantity.Pressure) quantity.Pressure {
	shear := quantity.Length(5.0 / 16 * float64(yield) / float64(tensile) * float64(core))
	return BendingStress(fs, quantity.Length(math.Hypot(float64(arm), float64(shear))), core)
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
	Source: "beam bending at the core; EN 1993-1-8 table 3.10, from memory (1.5 W f_y, bending and shear together); arm at least 0.35 d: elastic beam in two beds, flexibility of NACA TN 1051",
	Range:  "screw held in the thread up to its mouth, head free to lean; walls over one diameter read safe",
	Why:    "A wide gap or a thick wall turns shear into bending: the screws come out crooked after a test, stick in the tube, and the holes are ovalled with them.",
	Kind:   margin.Strength, Mode: margin.Yields, Factor: margin.YieldFactor, Joint: true, Unit: quantity.KindPressure,
	Demand: "32 F share/N √((max(t_max/2, 0.35 d) + t_p)² + (5/16 d_3 R_p/R_m)²)/(π d_3³)", Capacity: "1.5 R_p",
	Symbols: []margin.Symbol{
		margin.EndLoad.At(margin.Greatest), margin.Share.At(margin.Greatest), margin.Count.At(margin.Only), margin.Wall.At(margin.Greatest),
		margin.ScrewDiameter.At(margin.Only), margin.Packing.At(margin.Greatest), margin.CoreDiameter.At(margin.Only), margin.ScrewYield.At(margin.Only), margin.ScrewStrength.At(margin.Only),
	},
	Readings: []margin.Reading{
		{Name: "outermost fibre yields", Formula: "R_p", Of: margin.OfCapacity, Source: "elastic bending"},
		{Name: "all of the section yields", Formula: "16/(3 π) R_p", Of: margin.OfCapacity, Source: "plastic section modulus of a round, d³/6"},
		{Name: "bending alone", Formula: "32 F share/N (max(t_max/2, 0.35 d) + t_p)/(π d_3³)", Of: margin.OfDemand, Source: "without the shear"},
		{Name: "bending alone, built in at the mouth of the thread", Formula: "32 F share/N (t_max/2 + t_p)/(π d_3³)", Of: margin.OfDemand, Source: "arm of half the wall and the gap"},
		{Name: "bending alone, end in the middle of the bore", Formula: "32 F share/N (max(t_max/2, 0.35 d) + t_p/2)/(π d_3³)", Of: margin.OfDemand, Source: "half of the gap on either side"},
	},
	Eval: func(v *margin.Values) (float64, float64) {
		fs := ScrewLoad(quantity.Force(v[0]), v[1], v[2])
		arm := BendingArm(length(v[3]), length(v[4]), length(v[5]))
		return float64(BendingAndShear(fs, arm, length(v[6]), quantity.Pressure(v[7]), quantity.Pressure(v[8]))), PlasticShape * v[7]
	},
	Remark: func(*margin.Values, float64) margin.Notes { return margin.Of(margin.BendingApart) },
}
