package fastener

import (
	"github.com/shopspring/decimal"

	"casewright/margin"
	"casewright/quantity"
)

// Methods returns the checks of one row of screws, in their fixed order.
func Methods() []*margin.Method {
	return []*margin.Method{
		&ScrewShear, &HoleBearing, &HoleBearingYield, &HoleTearOut, &EdgeDistance, &Pitch, &OutsideSeal, &Clearance, &HoleFit, &HolePeak,
		&Redistributes, &FirstContact, &ScrewBending, &ThreadOutlasts,
	}
}

// Tightening returns the checks of screws that are tightened to a torque, in
// their fixed order.
func Tightening() []*margin.Method { return []*margin.Method{&ScrewPreload, &ThreadStrip} }

func length(x float64) quantity.Length { return quantity.Length(x) }

// ScrewShear checks the screws in shear, in N. Source: EN 1993-1-8 table 3.4.
var ScrewShear = margin.Method{
	ID: "screw.shear", Title: "screws shear", Part: "the end leaves", Key: "end.screws.thread",
	Why: "Nothing but the screws holds the end. If one shears, the others take its share and " +
		"follow, and the end leaves at full pressure.",
	Source: "EN 1993-1-8 table 3.4 and 3.6.1(12) (packing); ISO 898-1 minimum tensile strength", Range: "one shear plane, screws snug in the end",
	Kind: margin.Strength, Mode: margin.Breaks, Factor: margin.UltimateFactor, Joint: true, Unit: quantity.KindForce,
	Demand: "F share/N", Capacity: "min(1, 9 d/(8 d + 3 t_p)) α_v R_m A",
	Symbols: []margin.Symbol{
		margin.EndLoad.At(margin.Greatest), margin.ShareBreaks.At(margin.Greatest), margin.Count.At(margin.Only),
		margin.ShearFactor.At(margin.Only), margin.ScrewStrength.At(margin.Only), margin.ShearArea.At(margin.Only),
		margin.ScrewDiameter.At(margin.Only), margin.Packing.At(margin.Greatest),
	},
	Eval: func(v *margin.Values) (float64, float64) {
		return float64(ScrewLoad(quantity.Force(v[0]), v[1], v[2])),
			PackingFactor(length(v[6]), length(v[7])) * float64(Shear(v[3], quantity.Pressure(v[4]), quantity.Area(v[5])))
	},
}

// HoleBearing checks the wall against the screw at ultimate bearing strength,
// in Pa. Source: MMPDS 1.4.7.
var HoleBearing = bearing("hole.bearing", "wall gives way at the screws", "the end leaves",
	"The screws push the wall in front of them. If it crumples, the holes lengthen until the "+
		"screws run out of the tube, and the end leaves.",
	margin.Breaks, margin.UltimateFactor,
	margin.ShareBreaks, margin.HoleBearingUltimate, "F_bru")

// HoleBearingYield checks that the holes keep their size, in Pa. Source: MMPDS
// 1.4.7.
var HoleBearingYield = bearing("hole.bearing_yield", "holes stretch", "the holes stretch",
	"Nothing leaves yet, but round holes become slots: the end creeps outwards, the screws sit loose, "+
		"and the tube end is not fit for another firing.",
	margin.Yields, margin.YieldFactor,
	margin.Share, margin.HoleBearingYield, "F_bry")

func bearing(id, title, part, why string, mode margin.Mode, factor margin.Factor, share, strength margin.Term, capacity string) margin.Method {
	return margin.Method{
		ID: id, Title: title, Part: part, Why: why, Key: "end.screws.edge",
		Source: "MMPDS 1.4.7, bearing strength at e/D", Range: "e/D at least 1.0 and t_b/d at least 0.18",
		Kind: margin.Strength, Mode: mode, Factor: factor, Joint: true, Unit: quantity.KindPressure,
		Demand: "F share/N/(d t_b)", Capacity: capacity,
		Symbols: []margin.Symbol{
			margin.EndLoad.At(margin.Greatest), share.At(margin.Greatest), margin.Count.At(margin.Only),
			margin.ScrewDiameter.At(margin.Only), margin.BearingThickness.At(margin.Least), strength.At(margin.Least),
		},
		Valid: func(v *margin.Values) margin.Reason {
			if !(v[4] >= LeastRelativeThickness*v[3]) {
				return margin.ThinSheet
			}
			return margin.None
		},
		Eval: func(v *margin.Values) (float64, float64) {
			return float64(BearingStress(ScrewLoad(quantity.Force(v[0]), v[1], v[2]), length(v[3]), length(v[4]))), v[5]
		},
	}
}

// HoleTearOut checks that no hole tears out to the end of the tube, in N.
// Source: shear on two planes, net length.
var HoleTearOut = margin.Method{
	ID: "hole.tear_out", Title: "holes tear out to the tube end", Part: "the end leaves", Key: "end.screws.edge",
	Why: "The screws are the only thing that holds the end. If the metal between a hole and the tube " +
		"end shears out, the end leaves at full pressure.",
	Source: "shear on two planes of net length, MMPDS 9.7; AISC 360 J3.10", Range: "beside hole.bearing, which governs above e/h 1.5",
	Kind: margin.Strength, Mode: margin.Breaks, Factor: margin.UltimateFactor, Joint: true, Unit: quantity.KindForce,
	Demand: "F share/N", Capacity: "2 (t_b (e_min − h_max/2) − A_c) F_su",
	Readings: []margin.Reading{
		{
			Name: "two planes from the hole's centre, unconservative", Formula: "2 t_b e_min F_su", Of: margin.OfCapacity,
			Source: "common practice, no source; above the limit load of a pin in its hole in every case solved",
		},
	},
	Symbols: []margin.Symbol{
		margin.EndLoad.At(margin.Greatest), margin.ShareBreaks.At(margin.Greatest), margin.Count.At(margin.Only),
		margin.BearingThickness.At(margin.Least), margin.Edge.At(margin.Least), margin.Hole.At(margin.Greatest), margin.TubeShear.At(margin.Only),
		margin.ChamferArea.At(margin.Greatest),
	},
	Eval: func(v *margin.Values) (float64, float64) {
		return float64(ScrewLoad(quantity.Force(v[0]), v[1], v[2])),
			float64(TearOut(length(v[3]), length(v[4]), length(v[5]), quantity.Pressure(v[6]))) - 2*v[7]*v[6]
	},
}

// EdgeDistance is the rule of the edge distance in hole diameters, unit 1.
// Source: MMPDS 1.4.7 tabulates bearing at 1.5 and 2.0; 2.0 is the usual
// drawing rule.
var EdgeDistance = margin.Method{
	ID: "hole.edge", Title: "hole centre to tube end, in holes", Part: "a hole stands near the tube end", Key: "end.screws.edge",
	Why: "Bearing strengths are measured with this much metal beyond the hole. Nearer the tube end less is " +
		"known, and a drill that wanders takes more of what is left.",
	Source: "MMPDS 1.4.7 (e/D 2.0)", Range: "any",
	Kind: margin.AtLeast, Mode: margin.Rule, Unit: quantity.KindRatio, Default: "2.0", Settable: true,
	Value:   "e_min/h_max",
	Symbols: []margin.Symbol{margin.Edge.At(margin.Least), margin.Hole.At(margin.Greatest)},
	Eval:    func(v *margin.Values) (float64, float64) { return v[0] / v[1], 0 },
	Slack: func(x margin.Exact) decimal.Decimal {
		return x.At(margin.Edge, margin.Least).Sub(x.Limit.Mul(x.At(margin.Hole, margin.Greatest)))
	},
}

// Clearance is the room of the screw in its hole, on the diameter, in m.
// Source: geometry.
var Clearance = margin.Method{
	ID: "hole.clearance", Title: "room of the screw in its hole, on the diameter", Part: "the screw does not enter", Key: "end.screws.hole",
	Why: "A screw thicker than its hole does not go in, or cuts the wall where it is forced. It is " +
		"found out at the bench, with the rings already in.",
	Source: "geometry", Range: "any",
	Kind: margin.AtLeast, Mode: margin.Rule, Unit: quantity.KindLength, Default: "0 mm", Scale: 1e-3,
	Value:   "h_min − d",
	Symbols: []margin.Symbol{margin.Hole.At(margin.Least), margin.ScrewDiameter.At(margin.Only)},
	Eval:    func(v *margin.Values) (float64, float64) { return v[0] - v[1], 0 },
	Slack: func(x margin.Exact) decimal.Decimal {
		return x.At(margin.Hole, margin.Least).Sub(x.At(margin.ScrewDiameter, margin.Only))
	},
}

// Pitch is the rule of the distance between holes, in hole diameters, unit 1.
// Source: EN 1993-1-8 table 3.3.
var Pitch = margin.Method{
	ID: "hole.pitch", Title: "hole to hole round the tube, in holes", Part: "the holes crowd", Key: "end.screws.count",
	Why: "Crowded holes leave narrow bridges of wall, and these tear from hole to hole as a sheet of stamps " +
		"does. Each screw then pulls a piece out instead of bearing.",
	Source: "EN 1993-1-8 table 3.3 (p2 2.4 d0)", Range: "any",
	Kind: margin.AtLeast, Mode: margin.Rule, Unit: quantity.KindRatio, Default: "2.4", Settable: true,
	Value: "π (D_b,min + t_min)/N/h_max",
	Symbols: []margin.Symbol{
		margin.Bore.At(margin.Least), margin.Wall.At(margin.Least), margin.Count.At(margin.Only), margin.Hole.At(margin.Greatest),
	},
	Eval: func(v *margin.Values) (float64, float64) {
		return float64(Arc(length(v[0]), length(v[1]), v[2])) / v[3], 0
	},
	Remark: func(_ *margin.Values, value float64) margin.Notes {
		if value < 3 {
			return margin.Of(margin.PitchBelow3)
		}
		return 0
	},
}

// OutsideSeal is the room between the last groove and the holes, in m.
// Source: common practice, no source; the ring must not reach a hole.
var OutsideSeal = margin.Method{
	ID: "hole.outside_seal", Title: "last groove to the edge of the holes", Part: "gas reaches the holes", Key: "end.screws.from_face",
	Why: "A ring that lies at a hole has no wall to seal on. It is pushed into the hole and cut, " +
		"and hot gas blows out past the screw.",
	Source: "common practice, no source", Range: "any",
	Kind: margin.AtLeast, Mode: margin.Rule, Unit: quantity.KindLength, Default: "1.0 mm", Settable: true, Scale: 1e-3,
	Value:   "f_min − h_max/2 − g_max",
	Symbols: []margin.Symbol{margin.HoleFromFace.At(margin.Least), margin.Hole.At(margin.Greatest), margin.GrooveEnd.At(margin.Greatest)},
	Eval:    func(v *margin.Values) (float64, float64) { return v[0] - v[1]/2 - v[2], 0 },
	Slack: func(x margin.Exact) decimal.Decimal {
		half := decimal.RequireFromString("0.5")
		return x.At(margin.HoleFromFace, margin.Least).Sub(x.At(margin.Hole, margin.Greatest).Mul(half)).
			Sub(x.At(margin.GrooveEnd, margin.Greatest)).Sub(x.Limit)
	},
}

// Redistributes tells whether the holes give before a screw shears, so that
// the screws share the load; unit 1. Source: EN 1993-1-8 3.7.
var Redistributes = margin.Method{
	ID: "joint.redistributes", Title: "holes give before a screw shears", Part: "one screw takes too much", Key: "end.screws.thread",
	Why: "One screw always touches first. If its hole gives a little before the screw shears, the others take " +
		"up the load. If not, they break one after the other.",
	Source: "EN 1993-1-8 3.7; 1.2 after the ductility condition of the thin-sheet tables", Range: "e/D at least 1.0",
	Kind: margin.AtLeast, Mode: margin.Rule, Unit: quantity.KindRatio, Default: "1.2", NoteOnly: true,
	Value: "α_v R_m A/min(F_bru d t_max, 2 t_max (e_max − h_min/2) F_su)",
	Symbols: []margin.Symbol{
		margin.ShearFactor.At(margin.Only), margin.ScrewStrength.At(margin.Only), margin.ShearArea.At(margin.Only),
		margin.HoleBearingGreatest.At(margin.Greatest), margin.ScrewDiameter.At(margin.Only), margin.Wall.At(margin.Greatest),
		margin.Edge.At(margin.Greatest), margin.Hole.At(margin.Least), margin.TubeShear.At(margin.Only),
	},
	Eval: func(v *margin.Values) (float64, float64) {
		shear := Shear(v[0], quantity.Pressure(v[1]), quantity.Area(v[2]))
		return Redistribution(shear, quantity.Pressure(v[3]), quantity.Pressure(v[8]), length(v[4]), length(v[5]), length(v[6]), length(v[7])), 0
	},
}
