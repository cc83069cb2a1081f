package quantity_test

import (
	"math"
	"testing"

	"casewright/quantity"
	"casewright/verification"
	"casewright/verification/held"
)

// TestNISTSP811 holds the conversion factors against those that NIST prints in
// SP 811, to half of the last printed digit; each row says whether it was seen
// in a copy or remembered.
func TestNISTSP811(t *testing.T) {
	also := held.Also{}
	for _, k := range []quantity.Kind{
		quantity.KindPressure, quantity.KindForce, quantity.KindLength, quantity.KindArea, quantity.KindTorque, quantity.KindMass,
		quantity.KindDensity, quantity.KindTime, quantity.KindAngle, quantity.KindTemperatureDifference, quantity.KindTemperature,
		quantity.KindConductivity, quantity.KindSpecificHeat, quantity.KindHeatTransfer, quantity.KindThermalResistance,
		quantity.KindSpeed, quantity.KindMassFlow, quantity.KindViscosity,
	} {
		also[k.String()] = func(t *testing.T, c *verification.Case) { rounded(t, k, c) }
	}
	held.Table(t, "nist_sp811.csv", also)
}

// rounded holds the rounded factor used for printing against the exact one.
func rounded(t *testing.T, k quantity.Kind, c *verification.Case) {
	if c.Tolerance > 5e-7 { // seven digits are printed
		t.Fatalf("tolerance %g", c.Tolerance)
	}
	if c.Unit.Symbol() != k.SI() {
		t.Errorf("the SI unit is %s, want %s", k.SI(), c.Unit.Symbol())
	}
	a, err := quantity.Parse(k, c.Text("text"))
	if err != nil {
		t.Fatal(err)
	}
	v, _ := a.Value().Float64()
	if got := a.Unit().ToSI(v); !(math.Abs(got-c.Value) <= c.Tolerance*c.Value+1e-15*c.Value) {
		t.Errorf("ToSI gives %.10g", got)
	}
	if got := a.Unit().FromSI(c.Value); !(math.Abs(got-v) <= 2*c.Tolerance*v+1e-12*math.Max(c.Value, v)) {
		t.Errorf("FromSI gives %.10g, want %g", got, v)
	}
}
