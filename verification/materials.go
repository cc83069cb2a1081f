package verification

import (
	"math"

	"casewright/margin"
	"casewright/margin/reference"
	"casewright/materials"
	"casewright/quantity"
)

// property returns a row's number of a material, and whether it is about one.
func property(r *reference.Row) (Number, bool) {
	if !r.HasText("property") {
		return Number{}, false
	}
	name := r.Text("property")
	for p := range materials.NumProperties {
		if p.Key() == name {
			return Number{nil, func(r *reference.Row) float64 { return propertyOf(r, p) }}, true
		}
	}
	return Number{}, false
}

func propertyOf(r *reference.Row, p materials.Property) float64 {
	at := quantity.Celsius(20)
	if r.HasText("T") {
		t, err := quantity.Parse(quantity.KindTemperature, r.Text("T"))
		if err != nil {
			return math.NaN()
		}
		at = quantity.Temperature(t.SI())
	}
	var got materials.Reading
	if r.Has("curve") || r.HasText("curve") { // 304 is a name
		curve, ok := materials.Curve(name(r, "curve"))
		if !ok {
			return math.NaN()
		}
		got = curve.At(p, at)
	} else {
		m, ok := materials.Lookup(r.Text("material"))
		if !ok {
			return math.NaN()
		}
		got = m.At(p, at)
	}
	if r.HasText("table") && r.Text("table") == "refused" {
		if got.Reason == margin.Temperature {
			return r.Refuse()
		}
		return math.NaN()
	}
	if r.HasText("of") { // published as a value, held as a ratio
		whole, err := quantity.Parse(p.Kind(), r.Text("of"))
		if err != nil {
			return math.NaN()
		}
		return got.SI * whole.SI()
	}
	return got.SI
}
