package casing

import (
	"math"

	"casewright/margin"
	"casewright/quantity"
)

// Heated returns the checks of a tube whose heat is computed, in their fixed
// order.
func Heated() []*margin.Method { return []*margin.Method{&HeatStress, &Temper} }

// HeatStress checks that the wall does not go on yielding, firing after firing,
// by pressure and by the difference of temperature through it, unit 1: both
// stresses at the bore over the yield strength. Source: Timoshenko and Goodier,
// Theory of Elasticity, art. 151; ASME VIII-2 5.5.6 for the limit.
var HeatStress = margin.Method{
	ID: "tube.heat_stress", Title: "pressure and heat through the wall together", Part: "the tube goes on yielding, firing after firing", Key: "heat.layer.thickness",
	Source: "Timoshenko and Goodier, Theory of Elasticity, art. 151; ASME VIII-2 5.5.6, from memory: range of primary and secondary stress at most 3 S = min(2 F_ty, 1.25 F_tu), twice yield for ductile metals",
	Range:  "elastic tube, evenly heated all round; the temperature through the wall as in steady flow; both stresses taken as if they were highest at once and pulled one way",
	Why: "The bore side of a bare or thinly lined wall is hotter than its outside and wants to grow, while the outside holds it. " +
		"That stress comes on top of the pressure's; it may yield a little once and settle, above the limit each firing stretches the tube further.",
	Kind: margin.AtMost, Mode: margin.Yields, Unit: quantity.KindRatio,
	Value: "(√3 p k²/(k² − 1) + σ_T)/F_ty", Limit: "min(2, 1.25 F_tu/F_ty)",
	Symbols: []margin.Symbol{
		margin.Pressure.At(margin.Only), margin.DiameterRatio.At(margin.Least), margin.HeatStress.At(margin.Only),
		margin.TubeYield.At(margin.Only), margin.TubeUltimate.At(margin.Only),
	},
	Eval: func(v *margin.Values) (float64, float64) {
		return (float64(BoreVonMises(quantity.Pressure(v[0]), v[1])) + v[2]) / v[3], twiceYield(v[3], v[4])
	},
	Remark: func(v *margin.Values, value float64) margin.Notes {
		if value > 1 && value <= twiceYield(v[3], v[4]) {
			return margin.Of(margin.LocalYield)
		}
		return 0
	},
	GivesWay: func(v *margin.Values, limit float64, _ bool) float64 {
		return (limit*v[3] - v[2]) / float64(BoreVonMises(1, v[1]))
	},
}

// Temper is the share of its yield strength that the tube keeps for good after
// a firing's heat, unit 1. Source: see materials.Material.Kept.
var Temper = margin.Method{
	ID: "tube.temper", Title: "yield strength that the tube keeps after a firing's heat", Part: "the tube is soft for the next firing", Key: "heat.layer.thickness",
	Why: "A tempered tube that was too hot for too long stays soft after it has cooled, and nothing shows it. " +
		"The next firing meets a tube that is weaker than its certificate.",
	Source: "published losses after heating, table of the material; reduced time of Arrhenius (Sherby and Dorn 1952, from memory)", Range: "as the table of losses; one firing, the wall at its mean temperature, half-way or round an end, whichever loses more",
	Kind: margin.AtLeast, Mode: margin.Rule, Unit: quantity.KindRatio, Default: "95 %", Settable: true,
	Value:   "κ_t",
	Symbols: []margin.Symbol{margin.TubeKept.At(margin.Only)},
	Eval:    func(v *margin.Values) (float64, float64) { return v[0], 0 },
}

// twiceYield is the range of stress, over the yield strength, within which
// metal yields once and then no more.
func twiceYield(yield, ultimate float64) float64 { return math.Min(2, 1.25*ultimate/yield) }

// ThermalStress returns the greatest stress that a difference of temperature
// through a wall sets up in a tube that is free to grow, at the bore, in Pa:
// along and around alike.
//
//	σ_T = E α ΔT/(2 (1 − ν)) (2 k²/(k² − 1) − 1/ln k)
//
// e: modulus, Pa. alpha: expansion, 1/K. difference: of the two faces, K. nu:
// Poisson's ratio, unit 1, in [0, 0.5]. k: outside over inside radius, above 1.
// Source: Timoshenko and Goodier, Theory of Elasticity, art. 151 (from memory).
func ThermalStress(e quantity.Pressure, alpha quantity.Expansion, difference quantity.TemperatureDifference, nu, k float64) quantity.Pressure {
	return quantity.Pressure(float64(e) * float64(alpha) * math.Abs(float64(difference)) / (2 * (1 - nu)) * (2*k*k/(k*k-1) - 1/math.Log(k)))
}
