package verification

import (
	"casewright/fastener"
	"casewright/margin"
	"casewright/margin/reference"
	"casewright/quantity"
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
	"peak stress at a hole with room for its pin over its pressure": {[]string{"hole.peak"}, func(r *reference.Row) float64 {
		return fastener.PlayFactor * fastener.PeakFactor(r.Of("x"))
	}},
	"rise of the peak stress with room for the pin": {[]string{"hole.peak"}, func(*reference.Row) float64 { return fastener.PlayFactor }},
	"stiffness of a screw in single lap": {[]string{"joint.first_contact"}, func(r *reference.Row) float64 {
		// What it takes to move a screw by 1 mm, in N.
		e := quantity.Pressure(r.Of("E"))
		return float64(fastener.FirstLoad(0, 2*quantity.Millimetre, length(r, "t"), length(r, "L"), length(r, "d"), e, e))
	}},
}
