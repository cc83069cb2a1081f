package verification

import (
	"casewright/fastener"
	"casewright/margin"
	"casewright/margin/reference"
)

var fitNumbers = map[string]Number{
	// The tolerance at which no room is left is half of that without any.
	"position tolerance of fixed fasteners": {[]string{"hole.fit"}, func(r *reference.Row) float64 {
		room, _ := fastener.HoleFit.Eval(&margin.Values{r.Of("H"), r.Of("F"), 0})
		return room / 2
	}},
	"peak stress at a pin-loaded hole over its pressure": {[]string{"hole.peak"}, func(r *reference.Row) float64 {
		return fastener.PeakFactor(r.Of("x"))
	}},
}
