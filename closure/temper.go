package closure

import (
	"casewright/margin"
	"casewright/quantity"
)

// Temper is the share of its yield strength that an end keeps for good after a
// firing's heat, unit 1. Source: see materials.Material.Kept.
var Temper = margin.Method{
	ID: "end.temper", Title: "yield strength that the end keeps after a firing's heat", Part: "the end is soft for the next firing", Key: "end.heat.cover_thickness",
	Why: "The end takes heat at its hot face and from the tube, and stays hot for minutes. " +
		"Metal that lost its temper looks as before; threads and lands give way first.",
	Source: "published losses after heating, table of the material; reduced time of Arrhenius (Sherby and Dorn 1952, from memory)", Range: "as the table of losses; one firing, the end all through as hot as its hottest metal",
	Kind: margin.AtLeast, Mode: margin.Rule, Unit: quantity.KindRatio, Default: "95 %", Settable: true,
	Value:   "κ_e",
	Symbols: []margin.Symbol{margin.EndKept.At(margin.Only)},
	Eval:    func(v *margin.Values) (float64, float64) { return v[0], 0 },
}
