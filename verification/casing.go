package verification

import (
	"math"

	"github.com/shopspring/decimal"

	"casewright/casing"
	"casewright/margin/reference"
	"casewright/quantity"
)

func pressure(r *reference.Row, name string) quantity.Pressure {
	return quantity.Pressure(r.Of(name))
}
func length(r *reference.Row, name string) quantity.Length { return quantity.Length(r.Of(name)) }

// tube is one of the tables, given by its outside diameter and wall, or by its
// radii.
type tube struct {
	p, e       quantity.Pressure
	bore, wall quantity.Length
	k, nu      float64
}

func tubeOf(r *reference.Row) tube {
	t := tube{}
	if r.Has("p") {
		t.p = pressure(r, "p")
	}
	switch {
	case r.Has("OD"):
		t.wall = length(r, "t")
		t.bore = length(r, "OD") - 2*t.wall
	case r.Has("Db"):
		t.wall, t.bore = length(r, "t"), length(r, "Db")
	default:
		t.bore = 2 * length(r, "Ri")
		t.wall = length(r, "Ro") - t.bore/2
	}
	t.k = float64(1 + 2*t.wall/t.bore)
	if r.Has("E") {
		t.e, t.nu = pressure(r, "E"), r.Of("nu")
	}
	return t
}

func (t tube) hoop() float64   { return float64(casing.BoreHoop(t.p, t.k)) }
func (t tube) mises() float64  { return float64(casing.BoreVonMises(t.p, t.k)) }
func (t tube) growth() float64 { return float64(casing.Growth(t.p, t.bore/2, t.k, t.e, t.nu)) }
func (t tube) axial() float64  { return float64(casing.NetStress(t.p, t.bore, t.wall, 0, 0, 0)) }

// alongBore is how much an axial stress draws the bore's radius in.
func (t tube) alongBore(axial float64) float64 {
	return t.nu * axial * float64(t.bore) / 2 / float64(t.e)
}

var grows = []string{"seal.squeeze_least_offset", "seal.gap"}

var casingNumbers = map[string]Number{
	"bore hoop":                   {[]string{"tube.hoop"}, func(r *reference.Row) float64 { return tubeOf(r).hoop() }},
	"von Mises at the bore":       {[]string{"tube.yield"}, func(r *reference.Row) float64 { return tubeOf(r).mises() }},
	"growth of the bore radius":   {grows, func(r *reference.Row) float64 { return tubeOf(r).growth() }},
	"mean axial stress, no holes": {[]string{"tube.net_section"}, func(r *reference.Row) float64 { return tubeOf(r).axial() }},
	// Without the axial stress a = p/(k² − 1) the square of the von Mises
	// stress is greater by a².
	"von Mises at the bore, open ends": {[]string{"tube.yield"}, func(r *reference.Row) float64 {
		t := tubeOf(r)
		return math.Hypot(t.mises(), t.axial())
	}},
	"growth of the bore radius, open ends": {grows, func(r *reference.Row) float64 {
		t := tubeOf(r)
		return t.growth() + t.alongBore(t.axial())
	}},
	"growth of the bore radius in plane strain": {grows, func(r *reference.Row) float64 {
		t := tubeOf(r)
		return t.growth() + t.alongBore(t.axial()-r.Of("axial"))
	}},
	"growth of a thin closed tube, on the diameter": {grows, func(r *reference.Row) float64 {
		const thin = 1e-6 // wall over bore
		d := length(r, "d")
		return 2 * float64(casing.Growth(quantity.Pressure(r.Of("hoop")*2*thin), d/2, 1+2*thin, pressure(r, "E"), r.Of("nu")))
	}},
	"axial stress, two pressures": {[]string{"tube.net_section"}, func(r *reference.Row) float64 {
		ri, ro := length(r, "ri"), length(r, "ro")
		inside, outside := casing.EndLoad(pressure(r, "pi"), 2*ri), casing.EndLoad(pressure(r, "po"), 2*ro)
		return float64(inside-outside) / (math.Pi * float64(ro*ro-ri*ri))
	}},
	"wall stress of a gas cylinder, factor on D²": {grows, func(r *reference.Row) float64 { a, _ := cylinderFactors(r.Of("nu")); return a }},
	"wall stress of a gas cylinder, factor on d²": {grows, func(r *reference.Row) float64 { _, b := cylinderFactors(r.Of("nu")); return b }},
	"pressure over stress where the wall is half the bore radius": {[]string{"tube.hoop"}, func(r *reference.Row) float64 {
		return 1 / float64(casing.BoreHoop(1, r.Of("k")))
	}},
	"stress of a wall after Lamé": {[]string{"tube.hoop"}, func(r *reference.Row) float64 {
		s, p := r.Of("S"), r.Of("P")
		return float64(casing.BoreHoop(quantity.Pressure(p), math.Sqrt((s+p)/(s-p))))
	}},
	"force on a piston": {
		[]string{"tube.net_section", "screw.shear", "hole.bearing", "hole.bearing_yield", "hole.tear_out"},
		func(r *reference.Row) float64 { return float64(casing.EndLoad(pressure(r, "p"), length(r, "D"))) },
	},
	"net area": {[]string{"tube.net_section"}, func(r *reference.Row) float64 {
		// A tube of the same gross area and wall.
		wall := length(r, "t")
		bore := quantity.Length(r.Of("A")/(math.Pi*float64(wall)) - float64(wall))
		return float64(casing.EndLoad(1, bore)) / float64(casing.NetStress(1, bore, wall, r.Of("n"), length(r, "d0"), 0))
	}},
	"share of the ultimate strength on the net section": {[]string{"tube.net_section"}, func(*reference.Row) float64 {
		return capacityOf(&casing.NetSection)
	}},
	"stress at the bore by heat through the wall": {[]string{"tube.heat_stress"}, func(r *reference.Row) float64 {
		t := tubeOf(r)
		return float64(casing.ThermalStress(t.e, quantity.Expansion(r.Of("alpha")), quantity.TemperatureDifference(r.Of("dT")), t.nu, t.k))
	}},
	"solved burst, hard tube": burst(known),
	"solved burst, soft tube": burst(known),
	"Faupel's burst pressure": burst(func(b bursts) quantity.Pressure { return casing.FaupelBurst(b.fty, b.ftu, b.k) }),
	"Turner's burst pressure": burst(func(b bursts) quantity.Pressure { return casing.TurnerBurst(b.ftu, b.k) }),
	"Svensson's burst pressure": burst(func(b bursts) quantity.Pressure {
		return casing.TurnerBurst(b.ftu, b.k) * quantity.Pressure(b.hardening)
	}),
	"solved burst, cold-worked tube that still stretches far": burst(known),
	"stocked wall": {nil, func(r *reference.Row) float64 {
		near := math.NaN()
		for _, w := range casing.StockWalls() {
			if x := float64(quantity.LengthOf(w.Wall)); w.Metric == (r.Unit.Symbol() == "mm") && !(math.Abs(x-r.Value) >= math.Abs(near-r.Value)) {
				near = x
			}
		}
		return near
	}},
	"deviation of the mean wall": {nil, func(r *reference.Row) float64 {
		wall, tolerance := wallTolerance(r)
		// At any point it is a tenth of the mean wall, at least 0.010 in.
		return tolerance - math.Max(0.1*(wall+r.Value), 0.010*float64(quantity.Inch))
	}},
	"wall at any point, share of the wall": {nil, func(r *reference.Row) float64 {
		wall, tolerance := wallTolerance(r)
		return tolerance / wall
	}},
}

// cylinderFactors finds a and b of S = p (a D² + b d²)/(D² − d²), S being E
// times the hoop strain at the bore, from the growth of two walls.
func cylinderFactors(nu float64) (a, b float64) {
	at := func(k float64) float64 { return float64(casing.Growth(1, 1, k, 1, nu)) * (k*k - 1) }
	const k1, k2 = 1.25, 1.75
	a = (at(k2) - at(k1)) / (k2*k2 - k1*k1)
	return a, at(k1) - a*k1*k1
}

type bursts struct {
	fty, ftu     quantity.Pressure
	k, hardening float64
}

func known(b bursts) quantity.Pressure { return casing.Burst(b.fty, b.ftu, b.k, b.hardening) }

func burst(after func(bursts) quantity.Pressure) Number {
	return Number{[]string{"tube.burst"}, func(r *reference.Row) float64 {
		// The tables have the true uniform strain; materials the engineering one.
		return float64(after(bursts{pressure(r, "Fty"), pressure(r, "Ftu"), tubeRatio(r), casing.Hardening(math.Expm1(r.Of("n")))}))
	}}
}

func tubeRatio(r *reference.Row) float64 {
	od := r.Of("OD")
	return od / (od - 2*r.Of("t"))
}

func wallTolerance(r *reference.Row) (wall, tolerance float64) {
	size := func(name string) decimal.Decimal {
		return decimalOf(r.Of(name) / float64(quantity.Inch)).Round(4).Mul(decimal.New(254, -4))
	}
	w := size("wall")
	got, ok := casing.WallTolerance(w, size("outside"), r.Text("form") == "drawn")
	if !ok {
		return math.NaN(), math.NaN()
	}
	return float64(quantity.LengthOf(w)), float64(quantity.LengthOf(got))
}
