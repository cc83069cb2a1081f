package seal

import (
	"math"

	"github.com/shopspring/decimal"

	"casewright/margin"
	"casewright/quantity"
)

// Methods returns the checks of a seal, in their fixed order.
func Methods() []*margin.Method {
	return []*margin.Method{
		&SqueezeLeast, &SqueezeLeastOffset, &SqueezeMost, &SqueezeMostOffset, &StretchMost, &StretchLeast,
		&GrooveFill, &Gap, &Hardness, &Temperature, &Cold, &Insertion,
	}
}

func length(x float64) quantity.Length { return quantity.Length(x) }

var (
	one  = decimal.NewFromInt(1)
	two  = decimal.NewFromInt(2)
	four = decimal.NewFromInt(4)
)

const handbook = "seal makers' handbooks, static radial seal"

// SqueezeLeast is the least squeeze as assembled, concentric, unit 1. Source:
// Mechanical Engineers' Handbook vol. 3 and seal makers' handbooks.
var SqueezeLeast = margin.Method{
	ID: "seal.squeeze_least", Title: "least squeeze, concentric", Part: "the seal leaks", Key: "end.seal.groove_diameter",
	Why: "A ring that is hardly squeezed does not touch all round. The first hot gas that passes cuts its own " +
		"channel: soot beyond the ring, then a tube burnt through.",
	Source: handbook + " (10 %)", Range: "groove at least a third of the bore",
	Kind: margin.AtLeast, Mode: margin.Leaks, Unit: quantity.KindRatio, Default: "10 %", Settable: true,
	Value: "1 − (D_b,max − D_g,min)/2/CS_e",
	Symbols: []margin.Symbol{
		margin.Bore.At(margin.Greatest), margin.GrooveDiameter.At(margin.Least), margin.StretchedSection.At(margin.Least),
	},
	Valid: func(v *margin.Values) margin.Reason { return thickRing(v[0], v[1]) },
	Eval:  func(v *margin.Values) (float64, float64) { return Squeeze(length(v[0]), length(v[1]), length(v[2])), 0 },
	// Squared, the root of the stretched section goes: with room = D_b − D_g
	// the limit S is kept when room² D_g ≤ 4 (1 − S)² CS² ID.
	Slack: func(x margin.Exact) decimal.Decimal {
		groove, inside := x.At(margin.GrooveDiameter, margin.Least), x.At(margin.RingInside, margin.Least)
		room := x.At(margin.Bore, margin.Greatest).Sub(groove)
		free := one.Sub(x.Limit).Mul(x.At(margin.Section, margin.Least))
		if room.Sign() < 0 {
			return one
		}
		if groove.Cmp(inside) <= 0 {
			return two.Mul(free).Sub(room)
		}
		return four.Mul(free).Mul(free).Mul(inside).Sub(room.Mul(room).Mul(groove))
	},
}

// thickRing refuses a groove so small in its bore that the smallest groove is
// no longer the worst: the squeeze 1 − (D_b − D_g)/2 √(D_g/ID)/CS falls with D_g
// below D_b/3.
func thickRing(bore, groove float64) margin.Reason {
	if 3*groove < bore {
		return margin.ThickRing
	}
	return margin.None
}

// SqueezeLeastOffset is the least squeeze with the end pushed aside, under
// pressure and at temperature, unit 1. Source: ours, after MIL-G-5514.
var SqueezeLeastOffset = margin.Method{
	ID: "seal.squeeze_least_offset", Title: "least squeeze, pushed aside, under pressure, hot", Part: "the seal leaks", Key: "end.seal.groove_diameter",
	Why: "Under pressure the bore grows and the end lies to one side. Where the gap is then widest the ring " +
		"can lose touch, and the leak burns at that one spot.",
	Source: "ours (5 %); MIL-G-5514 asks that squeeze stays positive", Range: "elastic tube; groove at least a third of the bore",
	Kind: margin.AtLeast, Mode: margin.Leaks, Unit: quantity.KindRatio, Default: "5 %", Settable: true,
	Value: "1 − ((D_b,max − D_g,min)/2 + δ + 2 u + 2 u_T)/CS_e",
	Readings: []margin.Reading{
		{Name: "concentric, as assembled", Formula: "1 − (D_b,max − D_g,min)/2/CS_e", Of: margin.OfValue, Source: "geometry"},
		{Name: "pushed aside, before pressure and heat", Formula: "1 − ((D_b,max − D_g,min)/2 + δ)/CS_e", Of: margin.OfValue, Source: "geometry"},
	},
	Symbols: []margin.Symbol{
		margin.Bore.At(margin.Greatest), margin.GrooveDiameter.At(margin.Least), margin.Offset.At(margin.Greatest), margin.Growth.At(margin.Greatest),
		margin.HeatOpening.At(margin.Greatest), margin.StretchedSection.At(margin.Least), margin.Pressure.At(margin.Only),
	},
	Valid: func(v *margin.Values) margin.Reason { return thickRing(v[0]+2*(v[2]+2*v[3]+2*v[4]), v[1]) },
	Eval: func(v *margin.Values) (float64, float64) {
		return SqueezeOffset(length(v[0]), length(v[1]), length(v[2]+2*v[3]+2*v[4]), length(v[5])), 0
	},
	GivesWay: func(v *margin.Values, limit float64, _ bool) float64 {
		room := (1-limit)*v[5] - ((v[0]-v[1])/2 + v[2] + 2*v[4])
		return reached(room, 2*v[3], v[6])
	},
}

// reached returns the pressure at which a growth that is so much at pressure p
// has used up the room; 0 where there is none, NaN where nothing grows.
func reached(room, growth, p float64) float64 {
	switch {
	case !(room >= 0):
		return 0
	case !(growth > 0):
		return math.NaN()
	}
	return p * room / growth
}

// SqueezeMost is the greatest squeeze, concentric, unit 1. Source: Mechanical
// Engineers' Handbook vol. 3 (30 %); 32 % for small sections after the
// handbook's own gland for 1.78 mm.
var SqueezeMost = margin.Method{
	ID: "seal.squeeze_most", Title: "greatest squeeze, concentric", Part: "the ring is crushed on insertion", Key: "end.seal.groove_diameter",
	Why: "A ring that is squeezed too hard needs force to go in, rolls or is shaved by the tube end, and " +
		"takes a set. What was shaved off is often the only sign.",
	Source: handbook + " (30 %; 32 % up to 1.80 mm section)", Range: "any",
	Kind: margin.AtMost, Mode: margin.Rule, Unit: quantity.KindRatio, Settable: true,
	Value: "1 − (D_b,min − D_g,max)/2/CS_max", Limit: "S_lim",
	Symbols: []margin.Symbol{
		margin.Bore.At(margin.Least), margin.GrooveDiameter.At(margin.Greatest), margin.Section.At(margin.Greatest), margin.SqueezeLimit.At(margin.Only),
	},
	Eval: func(v *margin.Values) (float64, float64) {
		return Squeeze(length(v[0]), length(v[1]), length(v[2])), v[3]
	},
	Slack: func(x margin.Exact) decimal.Decimal {
		limit := x.Limit
		if !x.Own {
			limit = x.At(margin.SqueezeLimit, margin.Only)
		}
		return crushed(x, margin.Bore, limit)
	},
}

// SqueezeMostOffset is the greatest squeeze with the end against the bore,
// unit 1. Source: ours.
var SqueezeMostOffset = margin.Method{
	ID: "seal.squeeze_most_offset", Title: "greatest squeeze, end against the bore", Part: "the ring is crushed on insertion", Key: "end.seal.groove_diameter",
	Why: "Pushed in off centre, the end crushes the ring on one side. The ring twists in its groove or loses " +
		"a sliver there, which nobody sees once it is closed.",
	Source: "ours (35 %)", Range: "any",
	Kind: margin.AtMost, Mode: margin.Rule, Unit: quantity.KindRatio, Default: "35 %", Settable: true,
	Value: "1 − (D_p,min − D_g,max)/2/CS_max",
	Symbols: []margin.Symbol{
		margin.EndDiameter.At(margin.Least), margin.GrooveDiameter.At(margin.Greatest), margin.Section.At(margin.Greatest),
	},
	Eval:  func(v *margin.Values) (float64, float64) { return Squeeze(length(v[0]), length(v[1]), length(v[2])), 0 },
	Slack: func(x margin.Exact) decimal.Decimal { return crushed(x, margin.EndDiameter, x.Limit) },
}

// crushed is the exact room to the greatest squeeze under a wall that is the
// bore, or the end lying against it.
func crushed(x margin.Exact, wall margin.Term, limit decimal.Decimal) decimal.Decimal {
	room := x.At(wall, margin.Least).Sub(x.At(margin.GrooveDiameter, margin.Greatest))
	return room.Sub(two.Mul(one.Sub(limit)).Mul(x.At(margin.Section, margin.Greatest)))
}

// StretchMost is the greatest stretch of the ring over its groove, unit 1.
// Source: seal makers' handbooks (5 %).
var StretchMost = margin.Method{
	ID: "seal.stretch", Title: "greatest stretch over the groove", Part: "the ring thins and ages", Key: "end.seal.groove_diameter",
	Why: "A stretched ring is thinner than its table says and cracks sooner in heat and air. Look for " +
		"fine cracks across a ring that has lain assembled.",
	Source: handbook + " (5 %)", Range: "any",
	Kind: margin.AtMost, Mode: margin.Rule, Unit: quantity.KindRatio, Default: "5 %", Settable: true,
	Value:   "(D_g,max − ID_min)/ID_min",
	Symbols: []margin.Symbol{margin.GrooveDiameter.At(margin.Greatest), margin.RingInside.At(margin.Least)},
	Eval:    func(v *margin.Values) (float64, float64) { return Stretch(length(v[0]), length(v[1])), 0 },
	Slack: func(x margin.Exact) decimal.Decimal {
		return one.Add(x.Limit).Mul(x.At(margin.RingInside, margin.Least)).Sub(x.At(margin.GrooveDiameter, margin.Greatest))
	},
}

// StretchLeast is the least stretch of the ring over its groove, unit 1.
// Source: common practice, no source: a loose ring is cut on insertion.
var StretchLeast = margin.Method{
	ID: "seal.stretch_least", Title: "least stretch over the groove", Part: "a loose ring is cut on insertion", Key: "end.seal.groove_diameter",
	Why: "A ring larger than its groove stands out in a loop. The tube end catches it on the way in, and " +
		"a ring that is cut leaks from the first moment.",
	Source: "common practice, no source", Range: "any",
	Kind: margin.AtLeast, Mode: margin.Rule, Unit: quantity.KindRatio, Default: "0 %",
	Value:   "(D_g,min − ID_max)/ID_max",
	Symbols: []margin.Symbol{margin.GrooveDiameter.At(margin.Least), margin.RingInside.At(margin.Greatest)},
	Eval:    func(v *margin.Values) (float64, float64) { return Stretch(length(v[0]), length(v[1])), 0 },
	Remark: func(_ *margin.Values, value float64) margin.Notes {
		if value < 0.01 {
			return margin.Of(margin.LooseRing)
		}
		return 0
	},
	Slack: func(x margin.Exact) decimal.Decimal {
		return x.At(margin.GrooveDiameter, margin.Least).Sub(x.At(margin.RingInside, margin.Greatest))
	},
}

// GrooveFill is the greatest fill of the groove, hot and swollen, unit 1.
// Source: seal makers' handbooks (90 %).
var GrooveFill = margin.Method{
	ID: "seal.fill", Title: "greatest fill of the groove, hot and swollen", Part: "the ring has no room and crushes the land", Key: "end.seal.groove_width",
	Why: "Rubber gives way but is not compressed. With no room left in the groove a warm, swollen ring pushes on the " +
		"land or out into the gap, and comes out chewed along its edge.",
	Source: handbook + " (90 %)", Range: "any",
	Kind: margin.AtMost, Mode: margin.Rule, Unit: quantity.KindRatio, Default: "90 %", Settable: true,
	Value: "π/4 CS_max² (1 + ψ) (1 + 3 α_r ΔT)/(w_min (D_b,min − D_g,max)/2)",
	Readings: []margin.Reading{
		{Name: "as assembled, without swell and heat", Formula: "π/4 CS_max²/(w_min (D_b,min − D_g,max)/2)", Of: margin.OfValue, Source: handbook},
	},
	Symbols: []margin.Symbol{
		margin.Section.At(margin.Greatest), margin.Swell.At(margin.Only), margin.RubberExpansion.At(margin.Only), margin.Heating.At(margin.Greatest),
		margin.GrooveWidth.At(margin.Least), margin.Bore.At(margin.Least), margin.GrooveDiameter.At(margin.Greatest),
	},
	Eval: func(v *margin.Values) (float64, float64) {
		return Fill(length(v[0]), v[1], v[2]*v[3], length(v[4]), length(v[5]), length(v[6])), 0
	},
	Remark: func(_ *margin.Values, value float64) margin.Notes {
		if value > 0.85 {
			return margin.Of(margin.FillAbove85)
		}
		return 0
	},
}

// Gap is the greatest diametral clearance behind the ring, under pressure and
// at temperature, in m. Source: seal maker's table of the limits of diametral
// clearance.
var Gap = margin.Method{
	ID: "seal.gap", Title: "greatest diametral clearance behind the ring", Part: "pressure pushes the ring into the gap", Key: "end.outside_diameter",
	Why: "Pressure pushes rubber into a gap as it does putty. A wide gap bites the ring away on " +
		"the side of low pressure until gas passes.",
	Source: "seal maker's extrusion limits, diametral clearance", Range: "70 to 90 Shore A, to 3000 psi",
	Kind: margin.AtMost, Mode: margin.Leaks, Unit: quantity.KindLength, Settable: true, Scale: 1e-3,
	Value: "D_b,max − D_p,min + 2 u + 2 u_T", Limit: "g_lim",
	Readings: []margin.Reading{
		{Name: "as assembled, before pressure and heat", Formula: "D_b,max − D_p,min", Of: margin.OfValue, Source: "geometry"},
		{
			Name: "radial, the end in the middle", Formula: "(D_b,max − D_p,min)/2 + u + u_T", Of: margin.OfValue,
			Source: "geometry; for tables that limit the radial gap",
		},
	},
	Symbols: []margin.Symbol{
		margin.Bore.At(margin.Greatest), margin.EndDiameter.At(margin.Least), margin.Growth.At(margin.Greatest), margin.HeatOpening.At(margin.Greatest),
		margin.GapLimit.At(margin.Only), margin.Pressure.At(margin.Only), margin.Hardness.At(margin.Only), margin.GapShare.At(margin.Only),
	},
	Eval: func(v *margin.Values) (float64, float64) { return v[0] - v[1] + 2*v[2] + 2*v[3], v[4] },
	GivesWay: func(v *margin.Values, limit float64, own bool) float64 {
		still := v[0] - v[1] + 2*v[3]
		if own {
			return reached(limit-still, 2*v[2], v[5])
		}
		return float64(GapGivesWay(length(still), 2*v[2]/v[5], v[6], v[7]))
	},
}

// Hardness is the range of hardness of the ring, in Shore A, unit 1. Source:
// range of the seal maker's table of gaps.
var Hardness = margin.Method{
	ID: "seal.hardness", Title: "hardness of the ring, Shore A", Part: "too soft is pushed into the gap, too hard does not follow the bore", Key: "end.seal.hardness",
	Why: "A soft ring flows into the gap, a hard one does not follow the tool marks of the bore. The " +
		"limits of the gap are known for this range alone.",
	Source: "range of the seal maker's extrusion limits", Range: "any",
	Kind: margin.Between, Mode: margin.Rule, Unit: quantity.KindRatio, Default: "70", DefaultMost: "90",
	Value:   "H",
	Symbols: []margin.Symbol{margin.Hardness.At(margin.Only)},
	Eval:    func(v *margin.Values) (float64, float64) { return v[0], 0 },
}

// Temperature is the gland's temperature against the compound's continuous
// limit, both above 20 °C, in K. Source: seal makers' handbooks.
var Temperature = margin.Method{
	ID: "seal.temperature", Title: "gland above 20 °C, against the compound's limit", Part: "the ring hardens and leaks", Key: "end.seal.compound",
	Why: "Above its limit rubber hardens and keeps the shape of its groove. The ring comes out flat and " +
		"stiff, and where it no longer springs back gas passes.",
	Source: "seal makers' handbooks, continuous limit of the compound", Range: "any",
	Kind: margin.AtMost, Mode: margin.Leaks, Unit: quantity.KindTemperatureDifference,
	Value: "T_g", Limit: "T_c",
	Symbols: []margin.Symbol{margin.GlandTemperature.At(margin.Only), margin.CompoundLimit.At(margin.Only)},
	Eval:    func(v *margin.Values) (float64, float64) { return v[0], v[1] },
	Slack: func(x margin.Exact) decimal.Decimal {
		return x.At(margin.CompoundLimit, margin.Only).Sub(x.At(margin.GlandTemperature, margin.Only))
	},
}

// Soak is the gland at its hottest after burnout against the limit of the
// compound, in K. Source: seal makers' handbooks.
var Soak = margin.Method{
	ID: "seal.soak", Title: "gland after burnout above 20 °C, against the compound's limit", Part: "the ring is cooked after burnout", Key: "end.seal.compound",
	Why: "Heat that liner and hot face still hold soaks into the metal after burnout, and the gland is hottest when " +
		"all seems over. The ring then melts or hardens in its groove, and the end sticks in the tube.",
	Source: "seal makers' handbooks, continuous limit of the compound", Range: "as the heat computation: constant properties, a liner that stays whole",
	Kind: margin.AtMost, Mode: margin.Rule, Unit: quantity.KindTemperatureDifference,
	Value: "T_s", Limit: "T_c",
	Symbols: []margin.Symbol{margin.SoakGland.At(margin.Only), margin.CompoundLimit.At(margin.Only)},
	Eval:    func(v *margin.Values) (float64, float64) { return v[0], v[1] },
	Slack: func(x margin.Exact) decimal.Decimal {
		return x.At(margin.CompoundLimit, margin.Only).Sub(x.At(margin.SoakGland, margin.Only))
	},
}

// Cold is the gland at its coldest against the least temperature of the
// compound, in K. Source: seal makers' handbooks.
var Cold = margin.Method{
	ID: "seal.cold", Title: "coldest gland above the compound's least temperature", Part: "the cold ring does not follow and leaks", Key: "end.seal.compound",
	Why: "Cold rubber is as stiff as leather and follows the bore too slowly, while pressure rises in a blink at " +
		"ignition. The first gas is past before the ring seals.",
	Source: "seal makers' handbooks, least temperature of the compound", Range: "any",
	Kind: margin.AtLeast, Mode: margin.Leaks, Unit: quantity.KindTemperatureDifference, Default: "0 K", Scale: 100,
	Value:   "T_k − T_l",
	Symbols: []margin.Symbol{margin.ColdGland.At(margin.Only), margin.ColdLimit.At(margin.Only)},
	Eval:    func(v *margin.Values) (float64, float64) { return v[0] - v[1], 0 },
	Slack: func(x margin.Exact) decimal.Decimal {
		return x.At(margin.ColdGland, margin.Only).Sub(x.At(margin.ColdLimit, margin.Only))
	},
}

// Insertion is the mouth of the lead-in against the ring in its groove, in m.
// Source: common practice, no source: the mouth takes in the free ring.
var Insertion = margin.Method{
	ID: "seal.insertion", Title: "mouth of the lead-in, against the ring in its groove", Part: "the tube end cuts the ring", Key: "tube.lead_in",
	Why: "The ring has to slide under the tube end. Where the mouth of the chamfer is smaller than the ring, the " +
		"edge takes a slice off it, and from outside nothing shows.",
	Source: "common practice, no source", Range: "any",
	Kind: margin.AtLeast, Mode: margin.Rule, Unit: quantity.KindLength,
	Value: "D_b,min + 2 l_i,min tan(θ)", Limit: "D_g,max + 2 CS_max",
	Symbols: []margin.Symbol{
		margin.Bore.At(margin.Least), margin.LeadIn.At(margin.Least), margin.LeadInAngle.At(margin.Only),
		margin.GrooveDiameter.At(margin.Greatest), margin.Section.At(margin.Greatest),
	},
	Eval: func(v *margin.Values) (float64, float64) {
		return float64(Mouth(length(v[0]), length(v[1]), quantity.Angle(v[2]))), v[3] + 2*v[4]
	},
}
