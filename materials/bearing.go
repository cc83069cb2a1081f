package materials

import (
	"casewright/margin"
	"casewright/quantity"
)

// Bearing returns the ultimate and the yield bearing strength, in pascals, at
// an edge distance and a temperature. eOverD is the distance from the centre of
// the hole to the edge over the diameter of the hole, from 1.0 up.
//
// Published strengths are linear from e/D 1.5 to 2.0 and constant above. From
// 1.0 to 1.5 they are taken in proportion to e/D, with the note
// [margin.EdgeBelow15]. Source: MIL-HDBK-5J 1.4.7.1, which publishes them at
// 1.5 and 2.0 and asks for tests below 1.5; the proportion is ours.
//
// Where no pair is known the strength is estimated from tension, with the note
// [margin.BearingEstimated]:
//
//	F_bru = 2.5 min(e/(3 D), 1) F_tu        F_bry = 1.5 min(e/(2 D), 1) F_ty
//
// Source: after EN 1999-1-1 8.5.5. All are for dry pins ([margin.DryPins]).
//
// Both are refused with [margin.EdgeBelow1] below e/D 1.0 and for NaN, and each
// for the reasons of [Material.At], whose notes they carry too.
func (m *Material) Bearing(eOverD float64, t quantity.Temperature) (ultimate, yield Reading) {
	// The ratio of two sizes is off by some units in its last place, which
	// must not decide.
	const rounding = 1e-9
	switch {
	case !m.Form.HoldsPressure():
		return refused(margin.Form), refused(margin.Form)
	case !(eOverD >= 1-rounding):
		return refused(margin.EdgeBelow1), refused(margin.EdgeBelow1)
	}
	notes := margin.Of(margin.DryPins)
	if eOverD < 1.5-rounding {
		notes |= margin.Of(margin.EdgeBelow15)
	}
	ultimate = m.published(BearingUltimate15, BearingUltimate2, eOverD, t)
	if ultimate.Reason == margin.MissingProperty {
		ultimate = m.At(Ultimate, t).times(2.5*min(eOverD/3, 1), margin.Of(margin.BearingEstimated))
	}
	yield = m.published(BearingYield15, BearingYield2, eOverD, t)
	if yield.Reason == margin.MissingProperty {
		yield = m.At(Yield, t).times(1.5*min(eOverD/2, 1), margin.Of(margin.BearingEstimated))
	}
	return ultimate.times(1, notes), yield.times(1, notes)
}

// published reads a pair of strengths at an edge distance.
func (m *Material) published(at15, at2 Property, eOverD float64, t quantity.Temperature) Reading {
	a, b := m.At(at15, t), m.At(at2, t)
	switch {
	case a.Reason != margin.None:
		return a
	case b.Reason != margin.None:
		return b
	}
	share := (min(max(eOverD, 1.5), 2) - 1.5) / 0.5
	return Reading{SI: (a.SI + share*(b.SI-a.SI)) * min(eOverD/1.5, 1), Notes: a.Notes | b.Notes}
}

// times returns the reading times a factor with further notes; one that is
// refused stays as it is.
func (r Reading) times(factor float64, notes margin.Notes) Reading {
	if r.Reason != margin.None {
		return r
	}
	return Reading{SI: r.SI * factor, Notes: r.Notes | notes}
}
