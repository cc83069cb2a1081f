package closure

import (
	"github.com/shopspring/decimal"

	"casewright/margin"
	"casewright/quantity"
)

const couplingRange = "taper pipe thread NPT, 1/16 to 1/2 in; couplings are of forged steel, ends of aluminium are weaker"

// PortWall checks the metal that is left round a pipe thread, to the groove or
// to the screws, in m. Source: the wall that ASME B16.11 gives a coupling of
// that thread.
var PortWall = margin.Method{
	ID: "end.port_wall", Title: "metal round the pipe thread", Part: "the end splits at the port", Key: "end.port_thread",
	Source: "wall of a class 3000 coupling, ASME B16.11: (outside diameter − thread diameter)/2", Range: couplingRange,
	Why: "A taper thread is a wedge: each turn of the wrench pushes the metal round the hole outwards, before there is any pressure. " +
		"A groove or a screw hole close by leaves a thin bridge that cracks.",
	Kind: margin.AtLeast, Mode: margin.Rule, Unit: quantity.KindLength, Settable: true,
	Value: "w_p,min", Limit: "w_c",
	Symbols: []margin.Symbol{margin.PortWall.At(margin.Least), margin.PortWallLimit.At(margin.Only)},
	Eval:    func(v *margin.Values) (float64, float64) { return v[0], v[1] },
	Slack:   func(x margin.Exact) decimal.Decimal { return overCoupling(x, margin.PortWall) },
}

// PortFloor checks the metal that is left under a pipe thread that does not go
// through, in m. Source: as PortWall.
var PortFloor = margin.Method{
	ID: "end.port_floor", Title: "metal under the pipe thread", Part: "the bottom of the port blows out", Key: "end.port_depth",
	Source: "wall of a class 3000 coupling, ASME B16.11: (outside diameter − thread diameter)/2; to ask it of the floor too is ours", Range: couplingRange + "; depth to the point of the drill",
	Why:  "What is left between the bottom of the hole and the pressure is the thinnest plate of the end.",
	Kind: margin.AtLeast, Mode: margin.Rule, Unit: quantity.KindLength, Settable: true,
	Value: "f_p,min", Limit: "w_c",
	Symbols: []margin.Symbol{margin.PortFloor.At(margin.Least), margin.PortWallLimit.At(margin.Only)},
	Eval:    func(v *margin.Values) (float64, float64) { return v[0], v[1] },
	Slack:   func(x margin.Exact) decimal.Decimal { return overCoupling(x, margin.PortFloor) },
}

// overCoupling is by how much metal exceeds the wall of a coupling, or the
// limit of the design file's own.
func overCoupling(x margin.Exact, metal margin.Term) decimal.Decimal {
	if x.Own {
		return x.At(metal, margin.Least).Sub(x.Limit)
	}
	return x.At(metal, margin.Least).Sub(x.At(margin.PortWallLimit, margin.Only))
}

// PortThread checks that the port's hole is as long as the effective pipe
// thread, unit 1: the plate, or the depth of a hole that does not go through. Source: ASME B1.20.1.
var PortThread = margin.Method{
	ID: "end.port_thread", Title: "port over the effective length of its pipe thread", Part: "the pipe thread leaks or strips", Key: "end.plate",
	Source: "ASME B1.20.1, L_2 = (0.80 D + 6.8)/n; to ask the whole of it is common practice, no source", Range: "taper pipe thread NPT, 1/16 to 1/2 in",
	Why: "A taper thread seals and holds along its whole effective length. In a shorter hole the fitting bottoms out or bears on two or three turns, " +
		"and gas finds its way along them.",
	Kind: margin.AtLeast, Mode: margin.Rule, Unit: quantity.KindRatio, Default: "1.0", Settable: true,
	Value:   "z_p,min/L_2",
	Symbols: []margin.Symbol{margin.PortLength.At(margin.Least), margin.PipeThreadLength.At(margin.Only)},
	Eval:    func(v *margin.Values) (float64, float64) { return v[0] / v[1], 0 },
	Slack: func(x margin.Exact) decimal.Decimal {
		return x.At(margin.PortLength, margin.Least).Sub(x.Limit.Mul(x.At(margin.PipeThreadLength, margin.Only)))
	},
}
