package casing

import (
	"math"

	"casewright/quantity"
)

// FaupelBurst returns the burst pressure of a closed tube after Faupel.
//
//	p_b = 2/√3 F_ty ln k (2 − F_ty/F_tu)
//
// fty, ftu: yield and ultimate strength, Pa, fty not above ftu. k: outside
// over inside radius, unit 1, above 1; at 1 and below the pressure is 0. It reads up to 3 % high
// on hard tube against a plastic-instability solution, so it is never used
// alone. Source: Faupel, Trans. ASME 78 (1956) 1031.
func FaupelBurst(fty, ftu quantity.Pressure, k float64) quantity.Pressure {
	if k <= 1 {
		return 0
	}
	return fty * quantity.Pressure(2/math.Sqrt(3)*math.Log(k)*(2-float64(fty)/float64(ftu)))
}

// TurnerBurst returns the burst pressure of a closed tube after Turner: the
// fully plastic wall at the ultimate strength, with the maximum shear stress.
//
//	p_b = F_tu ln k
//
// ftu: ultimate strength, Pa. k: outside over inside radius, unit 1, above 1;
// at 1 and below the pressure is 0. It reads 1 to 12 % low against a plastic-instability
// solution. Source: Turner 1910, as in Christopher et al. 2002 (from memory).
func TurnerBurst(ftu quantity.Pressure, k float64) quantity.Pressure {
	if k <= 1 {
		return 0
	}
	return ftu * quantity.Pressure(math.Log(k))
}

// Hardening returns the factor by which Svensson's burst pressure differs from
// F_tu ln k.
//
//	c_S = 0.25/(n + 0.227) (e/n)^n,  n = ln(1 + uniform elongation)
//
// uniform: uniform elongation, engineering strain, unit 1, in (0, 1]. Outside
// that range, and where it is unknown (NaN), the factor is 1, which leaves
// Turner's pressure. Source: Svensson, J. Applied Mechanics 25 (1958) 89.
func Hardening(uniform float64) float64 {
	if !(uniform > 0 && uniform <= 1) {
		return 1
	}
	n := math.Log1p(uniform)
	return 0.25 / (n + 0.227) * math.Pow(math.E/n, n)
}

// Burst returns the least of Faupel's, Turner's and Svensson's burst pressures
// of a closed tube.
//
//	p_b = min(2/√3 F_ty ln k (2 − F_ty/F_tu), F_tu ln k, c_S F_tu ln k)
//
// fty, ftu: yield and ultimate strength, Pa. k: outside over inside radius,
// unit 1, above 1; at 1 and below the pressure is 0. hardening: c_S of [Hardening], unit 1.
// Source: Faupel 1956; Turner 1910; Svensson 1958.
func Burst(fty, ftu quantity.Pressure, k, hardening float64) quantity.Pressure {
	turner := TurnerBurst(ftu, k)
	return min(FaupelBurst(fty, ftu, k), turner, turner*quantity.Pressure(hardening))
}
