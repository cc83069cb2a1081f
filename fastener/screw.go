package fastener

import (
	"math"

	"casewright/quantity"
)

// Shear returns the load at which a screw shears in one plane, in N.
//
//	F_v = α_v R_m A
//
// alpha: α_v, shear over tensile strength, unit 1, 0.5 or 0.6. rm: minimum
// tensile strength, Pa. a: area in the plane, m²: the stress area where
// threads cross it, else the shank. Source: EN 1993-1-8 table 3.4.
func Shear(alpha float64, rm quantity.Pressure, a quantity.Area) quantity.Force {
	return quantity.Force(alpha * float64(rm) * float64(a))
}

// Redistribution returns how much later a screw shears than its hole yields
// over in bearing or tears out; unit 1. From 1.2 the holes of the
// hardest-loaded screws give and the others take their share.
//
//	α_v R_m A / min(F_bru d t, 2 t (e − h/2) F_su)
//
// shear: screw shear load, N. fbru, fsu: ultimate bearing and shear strength
// of the tube, Pa. d, t, e, h: screw diameter, wall, edge distance and hole,
// m, each at the end that makes the hole strongest. NaN where the hole has no
// strength. Source: EN 1993-1-8 3.7; the 1.2 after the ductility condition of
// the thin-sheet tables.
func Redistribution(shear quantity.Force, fbru, fsu quantity.Pressure, d, t, e, h quantity.Length) float64 {
	bearing := float64(fbru) * float64(d) * float64(t)
	hole := math.Min(bearing, float64(TearOut(t, e, h, fsu)))
	if !(hole > 0) {
		return math.NaN()
	}
	return float64(shear) / hole
}
