package closure

import (
	"github.com/shopspring/decimal"

	"casewright/fastener"
	"casewright/margin"
	"casewright/quantity"
)

// MostEngaged is the thread depth in screw diameters, unit 1, beyond which
// more depth bears nothing: a radial screw bears near its mouth. Source: ours.
const MostEngaged = 1.5

// Features say which methods an end has beside those of every end.
type Features struct {
	Plate  bool // a plate under pressure: a bulkhead
	Insert bool // a nozzle whose insert a lip holds

	PipeThread bool // the port has a pipe thread
	PipeFloor  bool // which does not go through
}

// Methods returns the checks of an end, in their fixed order.
func Methods(f Features) []*margin.Method {
	var list []*margin.Method
	if f.Plate {
		list = append(list, &Plate, &PlateUltimate)
	}
	if f.PipeThread {
		list = append(list, &PortWall, &PortThread)
	}
	if f.PipeFloor {
		list = append(list, &PortFloor)
	}
	list = append(list, &BearingYield, &Bearing, &HoleLand, &Land, &LandBending, &Engagement, &Clearance)
	if f.Insert {
		list = append(list, &ShoulderShear, &ShoulderBending, &LipReach, &InsertWall)
	}
	return list
}

func length(x float64) quantity.Length { return quantity.Length(x) }

const (
	plateSource = "Timoshenko and Woinowsky-Krieger, Theory of Plates and Shells, art. 16 and 17; Roark table 11.2; Lamé for the pressure on the port's wall"
	plateRange  = "plate supported at the bore; port at most 0.6 of the bore, its plug held by its rim"
)

// Plate checks that the plate stays flat, in Pa. Source: Timoshenko, Plates
// and Shells, art. 16 and 17.
var Plate = plate("end.plate", "plate yields", "the plate bulges",
	"A plate that yields stays domed. It draws the grooves out of round, so that a seal "+
		"which held before leaks at the next firing.",
	margin.Yields, margin.YieldFactor, margin.EndYield, "F_ty", 1)

// PlateUltimate checks that the plate holds, in Pa, with plastic bending of a
// rectangular section. Source: as Plate; 1.5 is the plastic shape factor of a
// rectangle.
var PlateUltimate = plate("end.plate_ultimate", "plate breaks", "the plate breaks",
	"If the plate breaks, its middle leaves along the axis like a plug, at full "+
		"pressure, and all the gas follows it.",
	margin.Breaks, margin.UltimateFactor, margin.EndUltimate, "1.5 F_tu", 1.5)

func plate(id, title, part, why string, mode margin.Mode, factor margin.Factor, strength margin.Term, capacity string, shape float64) margin.Method {
	return margin.Method{
		ID: id, Title: title, Part: part, Why: why, Key: "end.plate", Source: plateSource, Range: plateRange,
		Kind: margin.Strength, Mode: mode, Factor: factor, Unit: quantity.KindPressure,
		Demand: "c_p 3/8 p ((3 + ν) (D_b,max/2)² + (1 − ν) (d_p,max/2)²)/h_min² + (c_p − 1) p (D_b,min² + d_p,max²)/(D_b,min² − d_p,max²)", Capacity: capacity,
		Readings: []margin.Reading{
			{
				Name: "edge built in, no port", Formula: "3/4 p (D_b,max/(2 h_min))²", Of: margin.OfDemand,
				Source: "Timoshenko and Woinowsky-Krieger, Theory of Plates and Shells, art. 16 (moment p a²/8 at the edge)",
			},
		},
		Symbols: []margin.Symbol{
			margin.PortFactor.At(margin.Only), margin.EndPoisson.At(margin.Only), margin.Pressure.At(margin.Only),
			margin.Bore.At(margin.Greatest), margin.Port.At(margin.Greatest), margin.Plate.At(margin.Least), strength.At(margin.Only),
			margin.Bore.At(margin.Least),
		},
		Eval: func(v *margin.Values) (float64, float64) {
			bending := PlateStress(quantity.Pressure(v[2]), length(v[3]), length(v[4]), length(v[5]), v[1], v[0])
			wall := PortWallStress(quantity.Pressure(v[2]), length(v[7]), length(v[4]))
			return float64(bending) + (v[0]-1)*float64(wall), shape * v[6]
		},
		Remark: func(v *margin.Values, _ float64) margin.Notes {
			if v[5] > 0.3*v[3] {
				return margin.Of(margin.ThickPlate)
			}
			return 0
		},
	}
}

// BearingYield checks the threads' bed in the end at bearing yield, in Pa.
// Source: MMPDS 1.4.7.
var BearingYield = bearing("end.bearing_yield", "screw beds in the end stretch", "the screw beds stretch",
	"Threads that have pressed their beds wider turn hard on the way out and bring metal with "+
		"them, and the end has moved outwards by as much.",
	margin.Yields, margin.YieldFactor,
	margin.Share, margin.EndBearingYield, "F_bry")

// Bearing checks the threads' bed in the end at ultimate bearing, in Pa.
// Source: MMPDS 1.4.7.
var Bearing = bearing("end.bearing", "screw beds in the end give way", "the end leaves",
	"Behind a strong wall the end is the softer partner. If its metal gives way, the screws tilt and "+
		"slip out of it, and the end leaves without them.",
	margin.Breaks, margin.UltimateFactor,
	margin.ShareBreaks, margin.EndBearingUltimate, "F_bru")

func bearing(id, title, part, why string, mode margin.Mode, factor margin.Factor, share, strength margin.Term, capacity string) margin.Method {
	m := fastener.HoleBearing
	m.ID, m.Title, m.Part, m.Why, m.Key, m.Mode, m.Factor = id, title, part, why, "end.screws.engagement", mode, factor
	m.Source, m.Range = "MMPDS 1.4.7, bearing strength at c/d", "c/d at least 1.0 and L/d at least 0.18"
	m.Demand, m.Capacity = "F share/N/(d L)", capacity
	m.Symbols = []margin.Symbol{
		margin.EndLoad.At(margin.Greatest), share.At(margin.Greatest), margin.Count.At(margin.Only),
		margin.ScrewDiameter.At(margin.Only), margin.EngagedLength.At(margin.Least), strength.At(margin.Least),
	}
	return m
}

// HoleLand checks that no screw tears out towards the groove, in N. Source:
// shear on two planes of net length.
var HoleLand = margin.Method{
	ID: "end.hole_land", Title: "screws tear out to the groove", Part: "the end leaves", Key: "end.screws.from_face",
	Why: "Pressure drives the end outwards while the tube holds the screws. If the metal between screw and groove " +
		"shears, the screws plough into the groove and the end leaves.",
	Source: "shear on two planes of net length, MMPDS 9.7; AISC 360 J3.10", Range: "beside end.bearing",
	Kind: margin.Strength, Mode: margin.Breaks, Factor: margin.UltimateFactor, Joint: true, Unit: quantity.KindForce,
	Demand: "F share/N", Capacity: "2 L (c_min − d/2) F_su",
	Symbols: []margin.Symbol{
		margin.EndLoad.At(margin.Greatest), margin.ShareBreaks.At(margin.Greatest), margin.Count.At(margin.Only),
		margin.EngagedLength.At(margin.Least), margin.ToGroove.At(margin.Least), margin.ScrewDiameter.At(margin.Only), margin.EndShear.At(margin.Only),
	},
	Eval: func(v *margin.Values) (float64, float64) {
		return float64(fastener.ScrewLoad(quantity.Force(v[0]), v[1], v[2])),
			float64(fastener.TearOut(length(v[3]), length(v[4]), length(v[5]), quantity.Pressure(v[6])))
	},
}

// Land checks the narrowest land behind a groove in shear, in N. Source:
// shear on the cylinder at the groove's bottom.
var Land = margin.Method{
	ID: "end.land", Title: "land behind a groove shears off", Part: "the land breaks and the ring is lost", Key: "end.screws.from_face",
	Why:    "The land is what the ring leans on. If it shears off, the ring goes with it and hot gas passes at once.",
	Source: "shear on the cylinder at the bottom of the groove", Range: "land narrower than the end",
	Kind: margin.Strength, Mode: margin.Breaks, Factor: margin.UltimateFactor, Unit: quantity.KindForce,
	Demand: "p π/4 (D_b,max² − D_g,min²)", Capacity: "π D_g,min w_min F_su",
	Symbols: []margin.Symbol{
		margin.Pressure.At(margin.Only), margin.Bore.At(margin.Greatest), margin.GrooveDiameter.At(margin.Least),
		margin.LandWidth.At(margin.Least), margin.EndShear.At(margin.Only),
	},
	Eval: func(v *margin.Values) (float64, float64) {
		return float64(LandLoad(quantity.Pressure(v[0]), length(v[1]), length(v[2]))),
			float64(LipShear(length(v[2]), length(v[3]), quantity.Pressure(v[4])))
	},
}

// LandBending checks that the narrowest land behind a groove does not bend
// over, in Pa. Source: beam bending of a cantilever strip.
var LandBending = margin.Method{
	ID: "end.land_bending", Title: "land behind a groove bends", Part: "the land bends and the ring is lost", Key: "end.screws.from_face",
	Why: "A land that bends over opens the gap that the ring has to bridge. Afterwards its edge is seen " +
		"turned outwards and the ring is nibbled on that side.",
	Source: "beam bending of a cantilever strip", Range: "land that is as strong all round",
	Kind: margin.Strength, Mode: margin.Yields, Factor: margin.YieldFactor, Unit: quantity.KindPressure,
	Demand: "p (2 D_b,max³ − 3 D_b,max² D_g,min + D_g,min³)/(4 D_g,min w_min²)", Capacity: "F_ty",
	Symbols: []margin.Symbol{
		margin.Pressure.At(margin.Only), margin.Bore.At(margin.Greatest), margin.GrooveDiameter.At(margin.Least),
		margin.LandWidth.At(margin.Least), margin.EndYield.At(margin.Only),
	},
	Eval: func(v *margin.Values) (float64, float64) {
		return float64(LandBendingStress(quantity.Pressure(v[0]), length(v[1]), length(v[2]), length(v[3]))), v[4]
	},
}

// Engagement is the rule of the thread depth in screw diameters, unit 1.
// Source: common practice, no source.
var Engagement = margin.Method{
	ID: "end.engagement", Title: "thread depth in the end, in screw diameters", Part: "the threads are shallow", Key: "end.screws.engagement",
	Why: "With few threads in the end a screw tips under load and strips what holds it. At the bench it is " +
		"felt as a screw that turns on and never comes tight.",
	Source: "common practice, no source", Range: "any",
	Kind: margin.AtLeast, Mode: margin.Rule, Unit: quantity.KindRatio, Default: "1.0", Settable: true,
	Value:   "l_e,min/d",
	Symbols: []margin.Symbol{margin.Engagement.At(margin.Least), margin.ScrewDiameter.At(margin.Only)},
	Eval:    func(v *margin.Values) (float64, float64) { return v[0] / v[1], 0 },
	Remark: func(v *margin.Values, value float64) margin.Notes {
		if value < 1.5 {
			return margin.Of(margin.EngagementBelow15)
		}
		return 0
	},
	Slack: func(x margin.Exact) decimal.Decimal {
		return x.At(margin.Engagement, margin.Least).Sub(x.Limit.Mul(x.At(margin.ScrewDiameter, margin.Only)))
	},
}

// Clearance is the room of the end in the bore, on the diameter, cold and at
// temperature, unpressurised, in m. Source: geometry and linear expansion.
var Clearance = margin.Method{
	ID: "end.clearance", Title: "room of the end in the bore, on the diameter", Part: "the end does not go in, or sticks", Key: "end.outside_diameter",
	Why: "An end without room jams in the tube, when it goes in or once it is warm. Driving it out again " +
		"scores the bore on which the rings must seal.",
	Source: "geometry; linear expansion from 20 °C", Range: "any",
	Kind: margin.AtLeast, Mode: margin.Rule, Unit: quantity.KindLength, Default: "0 mm", Scale: 1e-3,
	Value:   "D_b,min − D_p,max − g_T",
	Symbols: []margin.Symbol{margin.Bore.At(margin.Least), margin.EndDiameter.At(margin.Greatest), margin.HeatClosing.At(margin.Greatest)},
	Eval:    func(v *margin.Values) (float64, float64) { return v[0] - v[1] - v[2], 0 },
	Slack: func(x margin.Exact) decimal.Decimal {
		return x.At(margin.Bore, margin.Least).Sub(x.At(margin.EndDiameter, margin.Greatest)).Sub(x.At(margin.HeatClosing, margin.Greatest)).Sub(x.Limit)
	},
}

// LipReach is how far the lip reaches over the insert, on the diameter, in m.
// Source: ours; at the worst sizes the insert must still lie on the lip.
var LipReach = margin.Method{
	ID: "end.lip_reach", Title: "lip over the insert, on the diameter", Part: "the insert passes through the lip", Key: "end.lip_diameter",
	Why: "Where the lip hardly reaches over the insert, the insert can slip through it at the worst sizes, " +
		"and the throat is gone although every screw holds.",
	Source: "ours (1.0 mm)", Range: "any",
	Kind: margin.AtLeast, Mode: margin.Rule, Unit: quantity.KindLength, Default: "1.0 mm", Scale: 1e-3,
	Value:   "D_i,min − D_l,max",
	Symbols: []margin.Symbol{margin.InsertDiameter.At(margin.Least), margin.LipDiameter.At(margin.Greatest)},
	Eval:    func(v *margin.Values) (float64, float64) { return v[0] - v[1], 0 },
	Slack: func(x margin.Exact) decimal.Decimal {
		return x.At(margin.InsertDiameter, margin.Least).Sub(x.At(margin.LipDiameter, margin.Greatest)).Sub(x.Limit)
	},
}

// InsertWall is the metal between the bottoms of the screws' holes and the
// insert, in m. Source: ours; see [margin.Drilled] for how deep a hole goes.
var InsertWall = margin.Method{
	ID: "end.insert_wall", Title: "metal between screw holes and insert", Part: "gas passes the seals through a screw hole", Key: "end.screws.engagement",
	Why: "Gas creeps behind an insert. Where a screw's hole breaks through to it, or a bridge of foil is left that does, " +
		"the gas has a way out along the thread that no ring bars, and it burns the hole wider.",
	Source: "ours (1.0 mm)", Range: "insert that stands beside the screws",
	Kind: margin.AtLeast, Mode: margin.Rule, Unit: quantity.KindLength, Default: "1.0 mm", Scale: 1e-3,
	Value:   "(D_p,min − D_i,max)/2 − z_d,max",
	Symbols: []margin.Symbol{margin.EndDiameter.At(margin.Least), margin.InsertDiameter.At(margin.Greatest), margin.Drilled.At(margin.Greatest)},
	Eval:    func(v *margin.Values) (float64, float64) { return (v[0]-v[1])/2 - v[2], 0 },
	Slack: func(x margin.Exact) decimal.Decimal {
		// Twice, so that nothing is divided.
		beside := x.At(margin.EndDiameter, margin.Least).Sub(x.At(margin.InsertDiameter, margin.Greatest))
		return beside.Sub(x.At(margin.Drilled, margin.Greatest).Add(x.Limit).Mul(two))
	},
}

// ShoulderShear checks the lip that holds a nozzle's insert in shear, in N.
// Source: shear on a cylinder.
var ShoulderShear = margin.Method{
	ID: "end.shoulder_shear", Title: "lip shears round the insert", Part: "the nozzle insert leaves", Key: "end.lip",
	Why:    "The lip alone keeps the insert in the nozzle. If it shears all round, the insert is fired out of the back.",
	Source: "shear on a cylinder", Range: "pressure on the full face of the insert",
	Kind: margin.Strength, Mode: margin.Breaks, Factor: margin.UltimateFactor, Unit: quantity.KindForce,
	Demand: "p π/4 D_i,max²", Capacity: "π D_i,min l_min F_su",
	Symbols: []margin.Symbol{
		margin.Pressure.At(margin.Only), margin.InsertDiameter.At(margin.Greatest), margin.InsertDiameter.At(margin.Least),
		margin.Lip.At(margin.Least), margin.EndShear.At(margin.Only),
	},
	Eval: func(v *margin.Values) (float64, float64) {
		return float64(LandLoad(quantity.Pressure(v[0]), length(v[1]), 0)), float64(LipShear(length(v[2]), length(v[3]), quantity.Pressure(v[4])))
	},
}

// ShoulderBending checks the lip that holds a nozzle's insert in bending, in
// Pa. Source: beam bending of a cantilever strip.
var ShoulderBending = margin.Method{
	ID: "end.shoulder_bending", Title: "lip bends under the insert", Part: "the lip bends", Key: "end.lip",
	Why: "A lip that bends stays bent. The insert shifts and tilts, gas finds a way behind it, and " +
		"after the test it rattles or sits crooked.",
	Source: "beam bending of a cantilever strip", Range: "insert that bears on a flat face of the lip",
	Kind: margin.Strength, Mode: margin.Yields, Factor: margin.YieldFactor, Unit: quantity.KindPressure,
	Demand: "6 p π/4 D_i,max² (D_i,max − D_l,min)/4/(π D_i,min)/l_min²", Capacity: "F_ty",
	Symbols: []margin.Symbol{
		margin.Pressure.At(margin.Only), margin.InsertDiameter.At(margin.Greatest), margin.InsertDiameter.At(margin.Least),
		margin.LipDiameter.At(margin.Least), margin.Lip.At(margin.Least), margin.EndYield.At(margin.Only),
	},
	Eval: func(v *margin.Values) (float64, float64) {
		return float64(LipBending(quantity.Pressure(v[0]), length(v[1]), length(v[2]), length(v[3]), length(v[4]))), v[5]
	},
}
