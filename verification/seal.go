package verification

import (
	"math"
	"strconv"

	"github.com/shopspring/decimal"

	"casewright/margin"
	"casewright/margin/reference"
	"casewright/quantity"
	"casewright/seal"
)

var (
	least     = []string{"seal.squeeze_least", "seal.squeeze_least_offset"}
	most      = []string{"seal.squeeze_most", "seal.squeeze_most_offset"}
	stretched = []string{"seal.stretch", "seal.stretch_least", "seal.squeeze_least", "seal.squeeze_least_offset"}
)

// gland is one of a handbook's table, at the ends of its tolerances.
type gland struct {
	thin, thick      quantity.Length // section
	shallow, deep    quantity.Length // gland depth
	clearance, width quantity.Length
}

func glandOf(r *reference.Row) gland {
	return gland{
		thin: length(r, "section") - length(r, "tolerance"), thick: length(r, "section") + length(r, "tolerance"),
		shallow: length(r, "least_depth"), deep: length(r, "most_depth"),
		clearance: length(r, "clearance"), width: length(r, "width") - length(r, "width_tolerance"),
	}
}

func (g gland) least() float64 { return seal.Squeeze(2*g.deep, 0, g.thin) }
func (g gland) most() float64  { return seal.Squeeze(2*g.shallow, 0, g.thick) }

var sealNumbers = map[string]Number{
	"least squeeze":                 {least, func(r *reference.Row) float64 { return glandOf(r).least() }},
	"greatest squeeze":              {most, func(r *reference.Row) float64 { return glandOf(r).most() }},
	"least squeeze, as a length":    {least, func(r *reference.Row) float64 { g := glandOf(r); return g.least() * float64(g.thin) }},
	"greatest squeeze, as a length": {most, func(r *reference.Row) float64 { g := glandOf(r); return g.most() * float64(g.thick) }},
	"gland of a handbook": {[]string{
		"seal.squeeze_least", "seal.squeeze_least_offset", "seal.squeeze_most", "seal.squeeze_most_offset", "seal.fill",
	}, handbookGland},
	"greatest static squeeze": {most, func(r *reference.Row) float64 {
		var v margin.Values
		for i, s := range seal.SqueezeMost.Symbols {
			if s.Term == margin.SqueezeLimit {
				v[i] = r.Value
			}
		}
		_, limit := seal.SqueezeMost.Eval(&v)
		return limit
	}},
	"greatest stretch": {[]string{"seal.stretch"}, func(*reference.Row) float64 { return defaultOf(&seal.StretchMost) }},
	"static radial gland, greatest squeeze": {most, func(r *reference.Row) float64 {
		g, ok := seal.GlandFor(decimalOf(r.Of("section")))
		if !ok {
			return math.NaN()
		}
		return seal.Squeeze(2*quantity.LengthOf(g.Depth[0]), 0, length(r, "section")+length(r, "tolerance"))
	}},
	"loss of section at constant volume": {stretched, lossOfSection},
	"loss of section, a maker's fit":     {stretched, lossOfSection},
	"growth of a length by heat": {
		[]string{"end.clearance", "seal.squeeze_least_offset", "seal.gap"},
		func(r *reference.Row) float64 {
			return 2 * float64(seal.HeatOpening(r.Of("alpha")*r.Of("dT"), 0, length(r, "L"), 0))
		},
	},
	"largest diametral clearance": {[]string{"seal.gap", "seal.hardness"}, func(r *reference.Row) float64 {
		middle := (r.Of("from") + r.Of("to")) / 2
		gap, reason := seal.GapLimit(quantity.NewAmount(decimalOf(middle), quantity.MustUnit("Pa")), r.Of("shore"), 1)
		if reason != margin.None {
			return r.Refuse()
		}
		return float64(gap)
	}},
	"continuous limit of a compound":  ofCompound(func(c seal.Compound) quantity.Temperature { return c.Limit }, "seal.temperature", "seal.soak"),
	"least temperature of a compound": ofCompound(func(c seal.Compound) quantity.Temperature { return c.Least }, "seal.cold"),
	"share of the clearance for silicone": {[]string{"seal.gap"}, func(*reference.Row) float64 {
		silicone, _ := seal.LookupCompound("VMQ")
		return silicone.GapShare
	}},
	"inside diameter":           ofRing(func(r seal.Ring) decimal.Decimal { return r.Inside }),
	"inside diameter tolerance": ofRing(func(r seal.Ring) decimal.Decimal { return r.InsideTolerance }),
	"section":                   ofRing(func(r seal.Ring) decimal.Decimal { return r.Section }),
	"section tolerance":         ofSeries(func(r seal.Ring) decimal.Decimal { return r.SectionTolerance }, math.Max),
	"least inside diameter":     ofSeries(func(r seal.Ring) decimal.Decimal { return r.Inside }, math.Min),
	"greatest inside diameter":  ofSeries(func(r seal.Ring) decimal.Decimal { return r.Inside }, math.Max),
}

func ofCompound(f func(seal.Compound) quantity.Temperature, methods ...string) Number {
	return Number{methods, func(r *reference.Row) float64 {
		c, ok := seal.LookupCompound(r.Text("compound"))
		if !ok {
			return math.NaN()
		}
		return float64(f(c))
	}}
}

func lossOfSection(r *reference.Row) float64 {
	return 1 - float64(seal.Stretched(1, quantity.Length(1+r.Of("stretch")), 1))
}

// handbookGland is 1 where a gland of the handbook passes every check of the
// seal: what it sells must pass.
func handbookGland(r *reference.Row) float64 {
	g := glandOf(r)
	greatest := 0.30
	if r.Of("section") <= 0.00180 {
		greatest = 0.32
	}
	aside := g.clearance / 2
	const swell, heat = 0.05, 0 // the least allowance of any compound, cold
	for _, c := range []struct{ value, least, most float64 }{
		{g.least(), defaultOf(&seal.SqueezeLeast), 1},
		{seal.SqueezeOffset(2*g.deep, 0, aside, g.thin), defaultOf(&seal.SqueezeLeastOffset), 1},
		{g.most(), 0, greatest},
		{seal.Squeeze(2*(g.shallow-aside), 0, g.thick), 0, defaultOf(&seal.SqueezeMostOffset)},
		{seal.Fill(g.thick, swell, heat, g.width, 2*g.shallow, 0), 0, defaultOf(&seal.GrooveFill)},
	} {
		if !(c.value >= c.least && c.value <= c.most) {
			return 0
		}
	}
	return 1
}

func ofRing(f func(seal.Ring) decimal.Decimal) Number {
	return Number{nil, func(r *reference.Row) float64 {
		ring, ok := seal.LookupRing(r.Text("ring"))
		if !ok {
			return math.NaN()
		}
		return metres(f(ring))
	}}
}

// ofSeries reduces all rings of a series to one number.
func ofSeries(f func(seal.Ring) decimal.Decimal, reduce func(a, b float64) float64) Number {
	return Number{nil, func(r *reference.Row) float64 {
		got := math.NaN()
		for _, ring := range seal.Rings() {
			if strconv.Itoa(ring.Series) != strconv.Itoa(int(r.Of("series"))) {
				continue
			}
			if x := metres(f(ring)); math.IsNaN(got) {
				got = x
			} else {
				got = reduce(got, x)
			}
		}
		return got
	}}
}
