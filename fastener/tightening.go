package fastener

import (
	"math"

	"casewright/margin"
	"casewright/quantity"
)

// LeastFriction is the friction in thread and under the head, unit 1, that is
// taken where none is given: the least of oiled or plainly greased screws. Paste
// with molybdenum sulphide, graphite or wax goes down to 0.04 and gives 1.6 times
// the preload. Source: VDI 2230 table A5, friction class B begins at 0.08, A at
// 0.04; from memory.
const LeastFriction = 0.08

// Preload returns the force with which a screw presses when it is tightened,
// in N.
//
//	F_M = T/(P/(2 π) + d_2 μ/√3 + 0.65 d μ)
//
// torque: T, N m. pitch P, d2: pitch diameter, d: nominal diameter, m. mu:
// friction in thread and under the head, unit 1; the least gives the greatest
// preload. The head rubs at a mean diameter of 1.3 d: that of a head 1.5 d wide
// on a hole of 1.1 d. A narrower head gives more preload, a countersunk one
// less. Source: VDI 2230, M_A = F_M (0.16 P + 0.58 d_2 μ_G + D_Km μ_K/2); D_Km =
// 1.3 d, from memory.
func Preload(torque quantity.Torque, pitch, d2, d quantity.Length, mu float64) quantity.Force {
	arm := float64(pitch)/(2*math.Pi) + float64(d2)*mu/math.Sqrt(3) + 0.65*float64(d)*mu
	return quantity.Force(float64(torque) / arm)
}

// TighteningStress returns the stress in a screw as it is tightened, tension
// and torsion together, in Pa.
//
//	σ = 4 F_M/(π d_0²) √(1 + 3 (3/2 d_2/d_0 (P/(π d_2) + 2/√3 μ))²)
//
// preload: F_M, N. d0: mean of pitch and core diameter, d2: pitch diameter,
// pitch P, all m. mu: friction in the thread, unit 1. Source: VDI 2230, torsion
// of a section that yields all through (W = π d_0³/12).
func TighteningStress(preload quantity.Force, d0, d2, pitch quantity.Length, mu float64) quantity.Pressure {
	torsion := 1.5 * float64(d2) / float64(d0) * (float64(pitch)/(math.Pi*float64(d2)) + 2/math.Sqrt(3)*mu)
	return quantity.Pressure(4 * float64(preload) / (math.Pi * float64(d0) * float64(d0)) * math.Sqrt(1+3*torsion*torsion))
}

// ScrewPreload is the stress in the screw as it is tightened over its yield
// strength, unit 1. Source: VDI 2230, 90 % of the yield strength.
var ScrewPreload = margin.Method{
	ID: "screw.preload", Title: "stress of tightening over the yield strength", Part: "the screw yields under the wrench", Key: "end.screws.torque",
	Source: "VDI 2230, from memory (90 % of R_p; tension and torsion; the head rubs at 1.3 d)", Range: "friction alike in thread and under the head; at just this torque, cold",
	Why:  "A screw that yields under the wrench has used up what it should hold with, and loosens at the next test. Grease halves the torque that it bears.",
	Kind: margin.AtMost, Mode: margin.Rule, Unit: quantity.KindRatio, Default: "0.9",
	Value: "4 F_M/(π d_0²) √(1 + 3 (3/2 d_2/d_0 (P/(π d_2) + 2/√3 μ))²)/R_p",
	Symbols: []margin.Symbol{
		margin.Preload.At(margin.Only), margin.StressDiameter.At(margin.Only), margin.PitchDiameter.At(margin.Only),
		margin.ThreadPitch.At(margin.Only), margin.Friction.At(margin.Only), margin.ScrewYield.At(margin.Only),
	},
	Readings: []margin.Reading{
		{Name: "tension alone", Formula: "4 F_M/(π d_0²)/R_p", Of: margin.OfValue, Source: "without the torsion of tightening"},
	},
	Eval: func(v *margin.Values) (float64, float64) {
		return float64(TighteningStress(quantity.Force(v[0]), length(v[1]), length(v[2]), length(v[3]), v[4])) / v[5], 0
	},
}
