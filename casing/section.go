package casing

import (
	"math"

	"casewright/quantity"
)

// NetStress returns the mean axial stress in the tube through a row of holes.
//
//	σ = F/(π t (D_b + t) − N (h t + s²)),  F = p π/4 D_b²
//
// p: inside pressure, gauge, Pa. bore D_b and wall t: m, t above 0. n: number
// of holes, unit 1. hole h: their diameter, m. sink s: depth of a countersink
// of up to 90°, m, 0 without: it takes a triangle of depth s at each side of
// the hole. The result is in Pa; +Inf where the holes leave no section.
// Source: EN 1999-1-1 6.2.3 (net section); the share of the sink is geometry.
func NetStress(p quantity.Pressure, bore, wall quantity.Length, n float64, hole, sink quantity.Length) quantity.Pressure {
	d, t, h, s := float64(bore), float64(wall), float64(hole), float64(sink)
	area := math.Pi*t*(d+t) - n*(h*t+s*s)
	if area <= 0 {
		return quantity.Pressure(math.Inf(1))
	}
	return quantity.Pressure(float64(EndLoad(p, bore)) / area)
}
