package fastener

import (
	"github.com/shopspring/decimal"

	"casewright/margin"
	"casewright/quantity"
)

// WasherSoftens checks the metal at the screws at its hottest against the
// temperature at which their washers soften, in K above 20 °C. Source: table of
// washers.
var WasherSoftens = margin.Method{
	ID: "screw.washer", Title: "screws at their hottest above 20 °C, against what their washers bear", Part: "washers flow and the screws come loose", Key: "end.screws.washer",
	Why: "A soft washer under a hot head creeps out, and the screw that pressed it sits loose. " +
		"Washers that soften are changed after every firing; loose screws leak or shake out.",
	Source: "table of washers: heat deflection or service temperature", Range: "as the heat computation",
	Kind: margin.AtMost, Mode: margin.Rule, Unit: quantity.KindTemperatureDifference,
	Value: "T_b", Limit: "T_w",
	Symbols: []margin.Symbol{margin.HotScrews.At(margin.Only), margin.WasherLimit.At(margin.Only)},
	Eval:    func(v *margin.Values) (float64, float64) { return v[0], v[1] },
	Slack: func(x margin.Exact) decimal.Decimal {
		return x.At(margin.WasherLimit, margin.Only).Sub(x.At(margin.HotScrews, margin.Only))
	},
}
