package fastener

import (
	"math"

	"casewright/quantity"
)

// LeastRelativeThickness is the thickness over the screw diameter, unit 1,
// below which bearing strengths do not hold. Source: MMPDS 1.4.7 (from memory).
const LeastRelativeThickness = 0.18

// ScrewLoad returns the load of the hardest-loaded screw of a row, in N.
//
//	F_s = F share/N
//
// f: end load, N. share: load of the hardest-loaded screw over the mean, unit
// 1, at least 1. n: number of screws, at least 1. Source: equilibrium.
func ScrewLoad(f quantity.Force, share, n float64) quantity.Force {
	return f * quantity.Force(share/n)
}

// BearingStress returns the mean pressure of a screw on its hole, in Pa.
//
//	σ_b = F_s/(d t)
//
// fs: load of the screw, N. d: nominal screw diameter, m. t: thickness that
// bears, m. Source: definition of bearing stress, MMPDS 1.4.7.
func BearingStress(fs quantity.Force, d, t quantity.Length) quantity.Pressure {
	return quantity.Pressure(float64(fs) / (float64(d) * float64(t)))
}

// TearOut returns the load at which a screw tears its hole out to an edge, N.
//
//	F = 2 t (e − h/2) F_su
//
// t: thickness, m. e: hole centre to the edge, m. h: hole, m. fsu: shear
// strength, Pa. Where no thickness or no length is left, the result is 0. A
// chamfer at the edge takes 2 A_c F_su from it, see [Chamfer]. It reads 0.5 to 1 of a limit-load solution up to e/h 1.5; above that
// bearing governs, so the two checks belong together.
// Source: shear on two planes, net length, as MMPDS 9.7 and AISC J3.10 use it.
func TearOut(t, e, h quantity.Length, fsu quantity.Pressure) quantity.Force {
	net := float64(e) - float64(h)/2
	if t <= 0 || net <= 0 {
		return 0
	}
	return quantity.Force(2 * float64(t) * net * float64(fsu))
}

// Chamfer returns the area, in m², that a chamfer at the end of the tube takes
// from a plane along its axis.
//
//	A_c = l² tan θ/2
//
// l: length of the chamfer along the axis, m. angle: θ to the axis, rad, in
// [0, π/2). Source: geometry, a triangle.
func Chamfer(l quantity.Length, angle quantity.Angle) quantity.Area {
	return quantity.Area(float64(l) * float64(l) * math.Tan(float64(angle)) / 2)
}

// BearingThickness returns the wall that bears on a screw, in m.
//
//	t_b = t − edge_break/2 − sink/2
//
// t: wall, edgeBreak: chamfer at the inside of the hole, sink: depth of a
// countersink, all m and at least 0. Source: half of a chamfer bears; for
// countersunk screws EN 1993-1-8 table 3.4 note 2.
func BearingThickness(t, edgeBreak, sink quantity.Length) quantity.Length {
	return t - edgeBreak/2 - sink/2
}

// Arc returns the distance between neighbouring holes along the middle of the
// wall, in m.
//
//	π (D_b + t)/N
//
// bore D_b and wall t in m; n: number of holes, at least 1. Source: geometry.
func Arc(bore, t quantity.Length, n float64) quantity.Length {
	return quantity.Length(math.Pi * (float64(bore) + float64(t)) / n)
}
