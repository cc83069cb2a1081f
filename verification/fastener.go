package verification

import (
	"math"
	"strings"

	"github.com/shopspring/decimal"

	"casewright/fastener"
	"casewright/margin"
	"casewright/margin/reference"
	"casewright/materials"
	"casewright/quantity"
)

// threadOf and classOf are the row's; the zero ones, whose numbers are no
// numbers, where there is none so called.
func threadOf(r *reference.Row) fastener.Thread {
	t, _ := fastener.LookupThread(r.Text("thread"))
	return t
}

func classOf(r *reference.Row) fastener.Class {
	c, _ := fastener.LookupClass(strings.TrimPrefix(name(r, "class"), "class "))
	return c
}

var (
	shears  = []string{"screw.shear"}
	bears   = []string{"hole.bearing", "hole.bearing_yield", "end.bearing", "end.bearing_yield"}
	tears   = []string{"hole.tear_out", "end.hole_land"}
	strong  = []string{"screw.shear", "thread.outlasts"}
	onScrew = []string{"screw.shear", "hole.bearing", "hole.bearing_yield", "hole.tear_out", "end.bearing", "end.bearing_yield", "end.hole_land"}
)

func ofThread(methods []string, f func(fastener.Thread) float64) Number {
	return Number{methods, func(r *reference.Row) float64 {
		t := threadOf(r)
		if t.Name == "" {
			return math.NaN()
		}
		return f(t)
	}}
}

func ofClass(methods []string, f func(fastener.Class) float64) Number {
	return Number{methods, func(r *reference.Row) float64 {
		c := classOf(r)
		if c.Name == "" {
			return math.NaN()
		}
		return f(c)
	}}
}

func ofScrew(methods []string, f func(fastener.Thread, fastener.Class) float64) Number {
	return Number{methods, func(r *reference.Row) float64 {
		t, c := threadOf(r), classOf(r)
		if t.Name == "" || c.Name == "" {
			return math.NaN()
		}
		return f(t, c)
	}}
}

// ofHole is a size of the clearance hole of the row's thread; #12 has none.
func ofHole(methods []string, size func(quantity.Dimension) decimal.Decimal) Number {
	return ofThread(methods, func(t fastener.Thread) float64 {
		hole, ok := t.ClearanceHole()
		if !ok {
			return math.NaN()
		}
		return metres(size(hole))
	})
}

var fastenerNumbers = map[string]Number{
	"tensile stress area":        ofThread(strong, func(t fastener.Thread) float64 { return float64(t.StressArea()) }),
	"area at the minor diameter": ofThread(nil, func(t fastener.Thread) float64 { return float64(t.CoreArea()) }),
	"minor diameter":             ofThread([]string{"screw.bending"}, func(t fastener.Thread) float64 { return float64(t.MinorDiameter()) }),
	"minimum ultimate tensile load": ofScrew(strong, func(t fastener.Thread, c fastener.Class) float64 {
		return float64(t.StressArea()) * float64(c.Ultimate)
	}),
	"proof load": ofScrew(nil, func(t fastener.Thread, c fastener.Class) float64 { return float64(t.StressArea()) * float64(c.Proof) }),
	"least tensile load": ofScrew(strong, func(t fastener.Thread, c fastener.Class) float64 {
		return float64(fastener.Shear(c.ShearThreads, c.Ultimate, t.StressArea())) / c.ShearThreads
	}),
	"minimum tensile strength":           ofClass(nil, func(c fastener.Class) float64 { return float64(c.Ultimate) }),
	"minimum yield strength":             ofClass(nil, func(c fastener.Class) float64 { return float64(c.Yield) }),
	"proof stress":                       ofClass(nil, func(c fastener.Class) float64 { return float64(c.Proof) }),
	"least diameter":                     ofClass(nil, func(c fastener.Class) float64 { return float64(c.MinDiameter) }),
	"greatest diameter":                  ofClass(nil, func(c fastener.Class) float64 { return float64(c.MaxDiameter) }),
	"shear factor, threads in the plane": ofClass(shears, func(c fastener.Class) float64 { return c.ShearThreads }),
	"steel strength ratio": {shears, func(r *reference.Row) float64 {
		at, err := quantity.Parse(quantity.KindTemperature, r.Text("temperature"))
		if err != nil {
			return math.NaN()
		}
		ratio, reason := fastener.SteelStrengthRatio(quantity.Temperature(at.SI()))
		if reason != margin.None {
			return r.Refuse()
		}
		return ratio
	}},
	"head diameter": ofThread(nil, func(t fastener.Thread) float64 { d, _, _ := t.CapHead(); return float64(d) }),
	"head height":   ofThread(nil, func(t fastener.Thread) float64 { _, h, _ := t.CapHead(); return float64(h) }),
	"mass of a cap screw": {nil, func(r *reference.Row) float64 {
		m, _ := threadOf(r).CapScrewMass(length(r, "length"))
		return float64(m)
	}},
	"least clearance hole":            ofHole([]string{"hole.clearance"}, quantity.Dimension.Least),
	"greatest clearance hole":         ofHole(nil, quantity.Dimension.Greatest),
	"tolerance of the clearance hole": ofHole(nil, quantity.Dimension.Upper),

	"bearing resistance": {bears, bearingResistance},
	"shear resistance, threads in the plane": {shears, func(r *reference.Row) float64 {
		f := fastener.Shear(classOf(r).ShearThreads, pressure(r, "fub"), quantity.Area(r.Of("As")))
		return float64(f) * r.Of("reduction") / r.Of("gM2")
	}},
	// The code's 0.8 of a group is our share of 1.25: at the group's resistance
	// the hardest-loaded bolt carries its own.
	"group of bolts at 0.8 of each": {[]string{"joint.redistributes", "screw.shear"}, func(r *reference.Row) float64 {
		n := r.Of("ns")
		return r.Of("Fv") / float64(fastener.ScrewLoad(1, 1.25, n))
	}},
	"least pitch over hole": {[]string{"hole.pitch"}, func(*reference.Row) float64 { return defaultOf(&fastener.Pitch) }},
	"bearing at 2.4 F_u": {bears, func(r *reference.Row) float64 {
		return r.Of("phi") * 2.4 * r.Of("Fu") / float64(fastener.BearingStress(1, length(r, "d"), length(r, "t")))
	}},
	"tear-out": {tears, func(r *reference.Row) float64 {
		return r.Of("phi") * float64(fastener.TearOut(length(r, "t"), length(r, "e"), length(r, "h"), quantity.Pressure(0.6*r.Of("Fu"))))
	}},
	"shear, threads excluded": {shears, excluded},
	"shear of a row":          {onScrew, func(r *reference.Row) float64 { return excluded(r) / float64(fastener.ScrewLoad(1, 1, r.Of("n"))) }},

	"limit load at e/d 1":        {tears, pinTearOut},
	"limit load at e/d 1.25":     {tears, pinTearOut},
	"limit load at e/d 1.5":      {tears, pinTearOut},
	"tear-out on the net length": {tears, pinTearOut},
	"bearing at the yield strength": {bears, func(r *reference.Row) float64 {
		return r.Of("Sy") / float64(fastener.BearingStress(1, length(r, "d"), length(r, "t")))
	}},
	"load of the hardest-loaded screw": {onScrew, func(r *reference.Row) float64 {
		return float64(fastener.ScrewLoad(quantity.Force(r.Of("F")), r.Of("share"), r.Of("N")))
	}},
	"overload while elastic": {[]string{"joint.first_contact"}, func(r *reference.Row) float64 {
		return fastener.UnequalShare(quantity.Force(r.Of("F1")), quantity.Force(r.Of("F")), r.Of("N"))
	}},
	"load of each screw when all holes have yielded": {onScrew, func(r *reference.Row) float64 {
		return float64(fastener.ScrewLoad(quantity.Force(r.Of("F")), 1, r.Of("N")))
	}},
}

func excluded(r *reference.Row) float64 {
	const alpha = 0.5 // of 120 ksi: the example's F_nv
	d := r.Of("db")
	return float64(fastener.Shear(alpha, quantity.Pressure(r.Of("Fnv")/alpha), quantity.Area(math.Pi/4*d*d)))
}

func pinTearOut(r *reference.Row) float64 {
	return float64(fastener.TearOut(length(r, "t"), length(r, "e"), length(r, "d"), pressure(r, "tau")))
}

// bearingResistance is F = k1 αb fu d t/γ of EN 1993-1-8 table 3.4, with t less
// half of a countersink. Where the end distance governs, αb is that of our
// estimate for a material without bearing strengths.
func bearingResistance(r *reference.Row) float64 {
	d0, fu := r.Of("d0"), r.Of("fu")
	alpha, k1 := 1.0, 2.5
	if r.Has("e1") {
		m := materials.New("plate", "the example", materials.Plate, 0, map[materials.Property]float64{materials.Ultimate: fu, materials.Yield: fu / 1.5})
		estimate, _ := m.Bearing(r.Of("e1")/d0, quantity.Celsius(20))
		if estimate.Reason != margin.None {
			return math.NaN()
		}
		alpha = math.Min(alpha, estimate.SI/fu/2.5)
	}
	if r.Has("p1") {
		alpha = math.Min(alpha, r.Of("p1")/d0/3-0.25)
	}
	if r.Has("e2") {
		k1 = math.Min(k1, 2.8*r.Of("e2")/d0-1.7)
	}
	if r.Has("p2") {
		k1 = math.Min(k1, 1.4*r.Of("p2")/d0-1.7)
	}
	bears := fastener.BearingThickness(length(r, "t"), 0, length(r, "sink"))
	return k1 * alpha * fu / r.Of("gM2") / float64(fastener.BearingStress(1, length(r, "d"), bears))
}
