package casing

import (
	"math"

	"casewright/quantity"
)

// BoreHoop returns the hoop stress at the bore of a thick tube under inside
// pressure.
//
//	σ_t = p (k² + 1)/(k² − 1)
//
// p: inside pressure, gauge, Pa, at least 0. k: outside over inside radius,
// unit 1, in (1, ∞); at 1 and
// below there is no wall and the stress is +Inf.
// Source: Lamé; Timoshenko, Strength of Materials II, thick cylinders.
func BoreHoop(p quantity.Pressure, k float64) quantity.Pressure {
	if k <= 1 {
		return quantity.Pressure(math.Inf(1))
	}
	return p * quantity.Pressure((k*k+1)/(k*k-1))
}

// BoreVonMises returns the von Mises stress at the bore of a thick tube with
// closed ends under inside pressure.
//
//	σ_v = √3 p k²/(k² − 1)
//
// p: inside pressure, gauge, Pa, at least 0. k: outside over inside radius,
// unit 1, in (1, ∞); at 1 and
// below there is no wall and the stress is +Inf.
// Source: Lamé stresses in the distortion energy criterion; Faupel 1956.
func BoreVonMises(p quantity.Pressure, k float64) quantity.Pressure {
	if k <= 1 {
		return quantity.Pressure(math.Inf(1))
	}
	return p * quantity.Pressure(math.Sqrt(3)*k*k/(k*k-1))
}

// Growth returns the growth of the bore radius of a thick tube with closed
// ends under inside pressure, far from the ends.
//
//	u = p R_i/(E (k² − 1)) ((1 − 2ν) + (1 + ν) k²)
//
// p: inside pressure, gauge, Pa, at least 0. ri: bore radius, m. k: outside
// over inside radius, unit 1, in (1, ∞); at 1 and below the growth is +Inf. e: modulus
// of elasticity, Pa. nu: Poisson's ratio, unit 1, in [0, 0.5]. It holds while
// the wall is elastic.
// Source: Lamé; Roark, Formulas for Stress and Strain, thick-walled vessels.
func Growth(p quantity.Pressure, ri quantity.Length, k float64, e quantity.Pressure, nu float64) quantity.Length {
	if k <= 1 {
		return quantity.Length(math.Inf(1))
	}
	return quantity.Length(float64(p) * float64(ri) / (float64(e) * (k*k - 1)) * ((1 - 2*nu) + (1+nu)*k*k))
}

// EndLoad returns the force with which pressure pushes an end out of the tube.
//
//	F = p π/4 D_b²
//
// p: inside pressure, gauge, Pa. bore: full bore of the tube, m, also for a
// nozzle: throat, friction and soft washers carry nothing. The result is in N.
// Source: equilibrium of the closed end.
func EndLoad(p quantity.Pressure, bore quantity.Length) quantity.Force {
	return quantity.Force(float64(p) * math.Pi / 4 * float64(bore) * float64(bore))
}
