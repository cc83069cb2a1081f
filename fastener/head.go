package fastener

import (
	_ "embed"
	"math"
	"sync"

	"casewright/quantity"
	"casewright/quantity/rows"
)

//go:embed heads.csv
var headsCSV string

// SteelDensity is the density of the steel of screws, in kg/m³. Source: common
// practice, no source; EN 1993-1-1 3.2.6 has the same (from memory).
const SteelDensity = 7850 * quantity.KilogramPerCubicMetre

// CapHead returns the greatest diameter and the greatest height of the head of
// a socket cap screw, in m. Standards have none for M3.5, and then it is NaN
// and false.
// Sources: ISO 4762; ASME B18.3: seen in the copies that the table names.
func (t Thread) CapHead() (diameter, height quantity.Length, ok bool) {
	row, ok := ofDiameter(capHeads(), t.Diameter)
	if !ok {
		nan := quantity.Length(math.NaN())
		return nan, nan, false
	}
	return quantity.Length(value(quantity.KindLength, row[1])), quantity.Length(value(quantity.KindLength, row[2])), true
}

// CapScrewMass returns an estimate of the mass of a socket cap screw, in kg.
//
//	m = ρ π/4 (d_k² k + d² l)
//
// d_k, k: diameter and height of the head, see [Thread.CapHead]. d: nominal
// diameter. length: l, under the head, m, not below 0. ρ: [SteelDensity]. The
// socket and the thread's grooves are not taken off, so it reads high: against
// a seller's chart of weights by 15 to 35 % from M2.5 to M12, by 44 % for a
// short M2. Without a head, or for no such length, it is NaN and false.
// Source: geometry.
func (t Thread) CapScrewMass(length quantity.Length) (quantity.Mass, bool) {
	dk, k, ok := t.CapHead()
	if !ok || !(length >= 0) || math.IsInf(float64(length), 1) {
		return quantity.Mass(math.NaN()), false
	}
	volume := math.Pi/4*float64(dk)*float64(dk)*float64(k) + float64(t.ShankArea())*float64(length)
	return quantity.Mass(float64(SteelDensity) * volume), true
}

// SinkAngle returns the included angle of a countersunk head and its sink, in
// rad: 90° of a metric thread, 82° of a unified one. Sources: ISO 10642 (copy at
// engineeringhardware.com); ASME B18.3, 1.2.3 (copy at
// freestandardsintroduction.com).
func (t Thread) SinkAngle() quantity.Angle {
	if t.Metric {
		return 90 * quantity.Degree
	}
	return 82 * quantity.Degree
}

// SinkDiameter returns the diameter of a countersink where it meets the
// surface, in m.
//
//	d_s = h + 2 s tan(φ/2)
//
// hole: h, m. depth: s, where the cone begins under a flat surface, m; both not
// below 0. angle: φ, [Thread.SinkAngle]. Source: geometry.
func SinkDiameter(hole, depth quantity.Length, angle quantity.Angle) quantity.Length {
	return hole + 2*depth*quantity.Length(math.Tan(float64(angle)/2))
}

var capHeads = sync.OnceValue(func() []sized { return byDiameter(rows.Of(headsCSV, 5)) })
