package verification

import (
	"math"

	"casewright/margin"
	"casewright/margin/reference"
	"casewright/materials"
	"casewright/quantity"
)

// tempers are the checks of what heat takes for good.
var tempers = []string{"tube.temper", "end.temper"}

// heatedNumbers are those of the tables that heat asks for: liners, soft
// washers, and what is left of a strength after heat.
var heatedNumbers = map[string]Number{
	"conductivity of a layer":  ofLayer(func(l *materials.Layer) float64 { return float64(l.Conductivity) }),
	"density of a layer":       ofLayer(func(l *materials.Layer) float64 { return float64(l.Density) }),
	"specific heat of a layer": ofLayer(func(l *materials.Layer) float64 { return float64(l.SpecificHeat) }),
	"softening of a washer": {[]string{"screw.washer"}, func(r *reference.Row) float64 {
		w, ok := materials.LookupWasher(r.Text("washer"))
		if !ok {
			return math.NaN()
		}
		return float64(w.Softens)
	}},
	"share kept after heat": {tempers, func(r *reference.Row) float64 {
		time, err := quantity.Parse(quantity.KindTime, r.Text("time"))
		if err != nil {
			return math.NaN()
		}
		return keptAfter(r, quantity.Time(time.SI()))
	}},
	"time until a share is kept": {tempers, func(r *reference.Row) float64 {
		share := r.Of("share")
		low, high := -10.0, 30.0 // ln of seconds
		for range 80 {
			if mid := (low + high) / 2; keptAfter(r, quantity.Time(math.Exp(mid))) > share {
				low = mid
			} else {
				high = mid
			}
		}
		return math.Exp(high)
	}},
}

func ofLayer(value func(*materials.Layer) float64) Number {
	return Number{nil, func(r *reference.Row) float64 {
		l, ok := materials.LookupLayer(r.Text("layer"))
		if !ok {
			return math.NaN()
		}
		return value(l)
	}}
}

// keptAfter is what a row's material keeps of its yield strength, or of that
// named under "strength", after a time at its temperature.
func keptAfter(r *reference.Row, time quantity.Time) float64 {
	m, ok := materials.Lookup(r.Text("material"))
	at, err := quantity.Parse(quantity.KindTemperature, r.Text("T"))
	if !ok || err != nil {
		return math.NaN()
	}
	p := materials.Yield
	if r.HasText("strength") && r.Text("strength") == materials.Ultimate.Key() {
		p = materials.Ultimate
	}
	got := m.Kept(p, []materials.Heat{{Temperature: quantity.Temperature(at.SI()), Time: time}})
	if got.Reason == margin.Exposure {
		return r.Refuse()
	}
	return got.SI
}
