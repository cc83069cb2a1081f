package closure_test

import (
	"testing"

	"casewright/closure"
	"casewright/margin/reference"
	"casewright/quantity"
)

// TestRetainingRings holds shear on a cylinder against makers' data sheets,
// P = C_f π B t S/K, and the load on a ring-shaped face against a cylinder
// with a rod.
func TestRetainingRings(t *testing.T) {
	length := func(t *testing.T, row reference.Row, name string) quantity.Length {
		return quantity.Length(row.Input(t, name))
	}
	reference.Run(t, "../testdata/reference/retaining_rings.csv", map[string]func(*testing.T, reference.Row){
		"ring or groove shear": func(t *testing.T, row reference.Row) {
			f := closure.LipShear(length(t, row, "B"), length(t, row, "t"), quantity.Pressure(row.Input(t, "F")))
			row.Close(t, row.Input(t, "Cf")*float64(f)/row.Input(t, "K"))
		},
		"force on the ring round a rod": func(t *testing.T, row reference.Row) {
			row.Close(t, float64(closure.LandLoad(quantity.Pressure(row.Input(t, "p")), length(t, row, "D"), length(t, row, "d"))))
		},
	})
}
