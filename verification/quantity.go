package verification

import (
	"math"

	"casewright/margin/reference"
	"casewright/quantity"
)

// quantityNumbers are the conversions of units, by the name of the kind.
var quantityNumbers = func() map[string]Number {
	m := map[string]Number{}
	for k := quantity.Kind(0); k.SI() != ""; k++ {
		m[k.String()] = Number{nil, func(r *reference.Row) float64 {
			a, err := quantity.Parse(k, r.Text("text"))
			if err != nil {
				return math.NaN()
			}
			return a.SI()
		}}
	}
	return m
}()
