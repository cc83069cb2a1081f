package casing

import (
	"math"

	"casewright/margin"
	"casewright/quantity"
)

// Methods returns the checks of the tube itself, in their fixed order.
func Methods() []*margin.Method { return []*margin.Method{&Yield, &Hoop, &BurstPressure} }

const thick = "elastic tube far from its ends, k above 1"

// thinWall are the thin-wall formulas of the hoop stress, by each of the three
// diameters. use says what else is to be known of them.
func thinWall(use string) []margin.Reading {
	return []margin.Reading{
		{Name: "hoop stress of a thin wall, by the bore", Formula: "p/(k − 1)", Of: margin.OfDemand, Source: "membrane formula p D_i/(2 t)" + use},
		{Name: "hoop stress of a thin wall, by the mean diameter", Formula: "p (k + 1)/(2 (k − 1))", Of: margin.OfDemand, Source: "membrane formula p D_m/(2 t)" + use},
		{Name: "hoop stress of a thin wall, by the outside diameter", Formula: "p k/(k − 1)", Of: margin.OfDemand, Source: "Barlow, p D_o/(2 t)" + use},
	}
}

// Yield checks that the bore stays elastic: the von Mises stress against the
// yield strength, both Pa. Source: Lamé; distortion energy.
var Yield = margin.Method{
	ID: "tube.yield", Title: "wall yields at the bore", Part: "the tube swells", Key: "tube.wall",
	Why: "A tube that yields stays wider than it was. The O-rings that fitted lose their squeeze, and a bore that " +
		"measures larger after a test is scrap although nothing flew.",
	Source: "Lamé; distortion energy (von Mises), closed ends", Range: thick,
	Kind: margin.Strength, Mode: margin.Yields, Factor: margin.YieldFactor, Unit: quantity.KindPressure,
	Demand: "√3 p k²/(k² − 1)", Capacity: "F_ty",
	Readings: append([]margin.Reading{
		{Name: "Tresca, twice the greatest shear stress", Formula: "2 p k²/(k² − 1)", Of: margin.OfDemand, Source: "Lamé; greatest shear stress (Tresca)"},
	}, thinWall(", which handbooks compare with the yield strength")...),
	Symbols: []margin.Symbol{margin.Pressure.At(margin.Only), margin.DiameterRatio.At(margin.Least), margin.TubeYield.At(margin.Only)},
	Eval: func(v *margin.Values) (float64, float64) {
		return float64(BoreVonMises(quantity.Pressure(v[0]), v[1])), v[2]
	},
}

// Hoop compares the bore hoop stress with the ultimate strength, both Pa. It
// is a margin and no event: BurstPressure is that event. Source: Lamé.
var Hoop = margin.Method{
	ID: "tube.hoop", Title: "hoop stress at the bore", Part: "the tube bursts", Key: "tube.wall",
	Why: "This is the stress that most people work out first, so that other people's sums can be held against it. " +
		"A wall that reaches its strength here splits lengthwise.",
	Source: "Lamé, thick wall", Range: thick,
	Kind: margin.Strength, Mode: margin.Unordered, Factor: margin.UltimateFactor, Unit: quantity.KindPressure,
	Demand: "p (k² + 1)/(k² − 1)", Capacity: "F_tu",
	Readings: thinWall(""),
	Symbols:  []margin.Symbol{margin.Pressure.At(margin.Only), margin.DiameterRatio.At(margin.Least), margin.TubeUltimate.At(margin.Only)},
	Eval: func(v *margin.Values) (float64, float64) {
		return float64(BoreHoop(quantity.Pressure(v[0]), v[1])), v[2]
	},
}

// BurstPressure compares the pressure with the least of three burst formulas,
// all Pa. Source: Faupel 1956; Turner 1910; Svensson 1958.
var BurstPressure = margin.Method{
	ID: "tube.burst", Title: "tube bursts", Part: "the tube bursts", Key: "tube.wall",
	Why: "A tube that bursts opens along its length and throws pieces sideways, towards whoever stands " +
		"there. It need not leak first to give a warning.",
	Source: "least of Faupel 1956, Turner (F_tu ln k) and, where uniform elongation is known, Svensson 1958",
	Range:  "ductile tube, closed ends, no holes or notches",
	Kind:   margin.Strength, Mode: margin.Breaks, Factor: margin.UltimateFactor, Unit: quantity.KindPressure,
	Demand: "p", Capacity: "min(2/√3 F_ty ln(k) (2 − F_ty/F_tu), F_tu ln(k), c_S F_tu ln(k))",
	Readings: []margin.Reading{
		{Name: "Faupel", Formula: "2/√3 F_ty ln(k) (2 − F_ty/F_tu)", Of: margin.OfCapacity, Source: "Faupel 1956"},
		{Name: "Turner", Formula: "F_tu ln(k)", Of: margin.OfCapacity, Source: "Turner 1910"},
		{Name: "Svensson", Formula: "c_S F_tu ln(k)", Of: margin.OfCapacity, Source: "Svensson 1958"},
	},
	Symbols: []margin.Symbol{
		margin.Pressure.At(margin.Only), margin.DiameterRatio.At(margin.Least), margin.TubeYield.At(margin.Only),
		margin.TubeUltimate.At(margin.Only), margin.SvenssonFactor.At(margin.Only),
	},
	Eval: func(v *margin.Values) (float64, float64) {
		return v[0], float64(Burst(quantity.Pressure(v[2]), quantity.Pressure(v[3]), v[1], v[4]))
	},
}

// NetSection checks the tube's section through a row of holes, once an end:
// mean stress against 0.9 F_tu, both Pa, at the largest and the smallest bore,
// the worse. Source: EN 1999-1-1 6.2.3.
var NetSection = margin.Method{
	ID: "tube.net_section", Title: "tube tears through the holes", Part: "the tube parts at the holes", Key: "end.screws.count",
	Why: "The row of holes is the weakest ring of the tube. If the wall tears there, the end leaves with " +
		"the last ring of the tube still screwed to it.",
	Source: "EN 1999-1-1 6.2.3 (0.9 F_tu on the net section)", Range: "holes that leave some section",
	Kind: margin.Strength, Mode: margin.Breaks, Factor: margin.UltimateFactor, Joint: true, Unit: quantity.KindPressure,
	Demand: "p π/4 D_b²/(π t_min (D_b + t_min) − N (h_max t_min + s_max²))", Capacity: "0.9 F_tu",
	Readings: []margin.Reading{
		{Name: "whole section, away from the holes", Formula: "p π/4 D_b²/(π t_min (D_b + t_min))", Of: margin.OfDemand, Source: "Lamé, closed ends: axial stress"},
	},
	Symbols: []margin.Symbol{
		margin.Pressure.At(margin.Only), margin.Bore.At(margin.Either), margin.Wall.At(margin.Least), margin.Count.At(margin.Only),
		margin.Hole.At(margin.Greatest), margin.Sink.At(margin.Greatest), margin.TubeUltimate.At(margin.Only),
	},
	Eval: func(v *margin.Values) (float64, float64) {
		return float64(NetStress(quantity.Pressure(v[0]), quantity.Length(v[1]), quantity.Length(v[2]), v[3],
			quantity.Length(v[4]), quantity.Length(v[5]))), 0.9 * v[6]
	},
}

// Ratio returns k = (D_b + 2 t)/D_b at nominal, worst and best sizes; unit 1.
// bore and wall are in m. Where a bore is not above 0 it is NaN; where a wall
// is not above 0 it is at most 1, and the stress is infinite. Source:
// definition.
func Ratio(bore, wall margin.Span) margin.Span {
	k := func(d, t float64) float64 {
		if !(d > 0) {
			return math.NaN()
		}
		return (d + 2*t) / d
	}
	return margin.Span{
		k(bore[margin.Only], wall[margin.Only]),
		k(bore[margin.Greatest], wall[margin.Least]),
		k(bore[margin.Least], wall[margin.Greatest]),
	}
}
