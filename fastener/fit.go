package fastener

import (
	"math"

	"github.com/shopspring/decimal"

	"casewright/margin"
	"casewright/quantity"
)

// FirstLoad returns the load that the first screw of a row to touch takes
// before the last one touches, in N: the slack between them times the stiffness
// of one screw in its hole.
//
//	F_1 = (2 T + (h_max − h_min)/2)/C
//	C = ((t + L)/(2 d))^(2/3) 3 (1/(t E_t) + 1/(L E_e) + 1/(2 t E_s) + 1/(2 L E_s))
//
// position: T, position tolerance of a hole as a diameter, in tube and end alike;
// holes: h_max − h_min; wall t, engaged thread L and screw diameter d, all m,
// wall, engaged thread and diameter above 0. tube, end: moduli E_t, E_e; the screw's E_s is 205 GPa;
// Pa. Source: fixed fastener, ASME Y14.5 (along the axis each hole may stand T/2
// off, in tube and end); C after Huth 1986, bolted metal, single shear, from
// memory.
func FirstLoad(position, holes, wall, engaged, d quantity.Length, tube, end quantity.Pressure) quantity.Force {
	slack := 2*float64(position) + float64(holes)/2
	return quantity.Force(slack / compliance(float64(wall), float64(engaged), float64(d), float64(tube), float64(end)))
}

// steelModulus is the modulus of the screws, in Pa.
const steelModulus = 205e9

// compliance of one screw in single shear, in m/N.
func compliance(t, l, d, tube, end float64) float64 {
	return math.Pow((t+l)/(2*d), 2.0/3) * 3 *
		(1/(t*tube) + 1/(l*end) + 1/(2*t*steelModulus) + 1/(2*l*steelModulus))
}

// UnequalShare returns the load of the hardest-loaded screw over the mean
// before the joint beds in; unit 1, from 1 to n. One screw touches first, and
// all others so much later that it has taken F_1 by then.
//
//	min(N, 1 + (N − 1) F_1/F)
//
// first: F_1, load: end load F, N, above 0. n: number of screws. Source:
// springs of equal stiffness with unequal slack.
func UnequalShare(first, load quantity.Force, n float64) float64 {
	return math.Min(n, 1+(n-1)*float64(first)/float64(load))
}

// HoleFit is the room that is left in the holes when every one stands where
// its tolerance allows, in m: whether every screw goes in at every rotation of
// the end. Source: ASME Y14.5 appendix B, fixed fasteners, H = F + 2 T.
var HoleFit = margin.Method{
	ID: "hole.fit", Title: "room in the holes at every rotation of the end", Part: "a screw does not go in", Key: "end.screws.hole",
	Source: "ASME Y14.5 appendix B, fixed fasteners (H = F + 2 T), from memory", Range: "position of holes and threads held to T each, of the threads also where they cross the wall (projected zone); holes drilled to a drawing, not through each other",
	Why:  "Holes that fit in one rotation only turn assembly into a puzzle, and a screw that is forced cuts its thread. Holes that fit in every rotation need this room.",
	Kind: margin.AtLeast, Mode: margin.Rule, Unit: quantity.KindLength, Default: "0 mm", Scale: 1e-3,
	Value:   "h_min − d − 2 T",
	Symbols: []margin.Symbol{margin.Hole.At(margin.Least), margin.ScrewDiameter.At(margin.Only), margin.Position.At(margin.Only)},
	Eval:    func(v *margin.Values) (float64, float64) { return v[0] - v[1] - 2*v[2], 0 },
	Slack: func(x margin.Exact) decimal.Decimal {
		return x.At(margin.Hole, margin.Least).Sub(x.At(margin.ScrewDiameter, margin.Only)).
			Sub(x.At(margin.Position, margin.Only).Mul(decimal.NewFromInt(2)))
	},
}

// FirstContact tells how unequal the load on the screws may be before the
// joint beds in, against the share at which the hardest-loaded hole yields and
// the others follow; unit 1. Source: see [FirstLoad] and [UnequalShare].
var FirstContact = margin.Method{
	ID: "joint.first_contact", Title: "first screw's load over the mean, before bedding in", Part: "the first hole stretches until the others bear", Key: "end.screws.position",
	Source: "springs with unequal slack; stiffness of a screw after Huth 1986; slack of fixed fasteners, ASME Y14.5; all from memory", Range: "holes elastic, screws all alike and straight",
	Why:  "The screw that touches first carries more than its share until its hole gives. Above the limit the joint beds in: holes are a little oval after the first test, and that is no fault. Screws weaker than their holes bend before: see screw.bending.",
	Kind: margin.AtMost, Mode: margin.Rule, Unit: quantity.KindRatio, NoteOnly: true,
	Value: "min(N, 1 + (N − 1) F_1/F)", Limit: "F_bry d t_b N/F",
	Symbols: []margin.Symbol{
		margin.Count.At(margin.Only), margin.FirstLoad.At(margin.Greatest), margin.EndLoad.At(margin.Greatest),
		margin.HoleBearingYield.At(margin.Least), margin.ScrewDiameter.At(margin.Only), margin.BearingThickness.At(margin.Least),
	},
	Eval: func(v *margin.Values) (float64, float64) {
		return UnequalShare(quantity.Force(v[1]), quantity.Force(v[2]), v[0]), v[3] * v[4] * v[5] * v[0] / v[2]
	},
}
