package quantity_test

import (
	"math"
	"strings"
	"testing"

	"casewright/quantity"

	"github.com/shopspring/decimal"
)

func everyKind() []quantity.Kind {
	var kinds []quantity.Kind
	for k := quantity.KindRatio; k.SI() != ""; k++ {
		kinds = append(kinds, k)
	}
	return kinds
}

func TestEveryKindHasItsSIUnit(t *testing.T) {
	for _, k := range everyKind() {
		u, ok := k.Unit(k.SI())
		if !ok || u.Kind() != k {
			t.Errorf("%s: no unit %q", k, k.SI())
			continue
		}
		if v := u.ToSI(1); v != 1 {
			t.Errorf("%s: 1 %s is %g in SI", k, k.SI(), v)
		}
	}
	unknown := quantity.Kind(200)
	if unknown.String() != "unknown kind" || unknown.SI() != "" || quantity.Units(unknown) != nil {
		t.Error("an unknown kind has units")
	}
	if _, err := quantity.Parse(unknown, "1 mm"); err == nil {
		t.Error("an unknown kind parses")
	}
}

func TestEveryUnitIsFoundBySymbolAndASCII(t *testing.T) {
	for _, k := range everyKind() {
		if len(quantity.Units(k)) == 0 {
			t.Errorf("%s has no units", k)
		}
		for _, u := range quantity.Units(k) {
			for _, s := range []string{u.Symbol(), u.ASCII(), " " + u.Symbol() + "\u00a0"} {
				if got, ok := k.Unit(s); !ok || got != u {
					t.Errorf("%s: %q finds %q", k, s, got.Symbol())
				}
			}
			for _, r := range u.ASCII() {
				if r > 127 {
					t.Errorf("%q is not ASCII", u.ASCII())
				}
			}
			if back := u.FromSI(u.ToSI(12.5)); !(math.Abs(back-12.5) < 1e-12) {
				t.Errorf("12.5 %s comes back as %g", u.Symbol(), back)
			}
		}
	}
}

// A unit in the wrong case is corrected, so no two units of a kind may differ by case alone.
func TestNoTwoUnitsDifferByCase(t *testing.T) {
	for _, k := range everyKind() {
		seen := map[string]string{}
		for _, u := range quantity.Units(k) {
			folded := strings.ToLower(u.ASCII())
			if other, ok := seen[folded]; ok {
				t.Errorf("%s: %s and %s", k, other, u.Symbol())
			}
			seen[folded] = u.Symbol()
		}
	}
}

func TestSpellings(t *testing.T) {
	for _, c := range []struct {
		kind     quantity.Kind
		spelling string
		symbol   string
	}{
		{quantity.KindLength, "µm", "µm"}, // U+00B5
		{quantity.KindLength, "μm", "µm"}, // U+03BC
		{quantity.KindLength, "um", "µm"},
		{quantity.KindArea, "mm2", "mm²"},
		{quantity.KindTemperature, "degC", "°C"},
		{quantity.KindTemperature, "degF", "°F"},
		{quantity.KindTemperatureDifference, "degF", "°F"},
		{quantity.KindTorque, "N·m", "N m"},
		{quantity.KindTorque, "N⋅m", "N m"},
		{quantity.KindTorque, "lbf·in", "lbf in"},
		{quantity.KindDensity, "kg/m3", "kg/m³"},
		{quantity.KindDensity, "g/cm3", "g/cm³"},
		{quantity.KindDensity, "lb/in3", "lb/in³"},
		{quantity.KindExpansion, "1/K", "/K"},
		{quantity.KindExpansion, "/°C", "/K"},
		{quantity.KindExpansion, "1/degF", "/°F"},
		{quantity.KindExpansion, "um/(m K)", "µm/(m K)"},
		{quantity.KindExpansion, "μm/(m·K)", "µm/(m K)"},
		{quantity.KindConductivity, "W/(m·K)", "W/(m K)"},
		{quantity.KindConductivity, "W/m/K", "W/(m K)"},
		{quantity.KindSpecificHeat, "J/kg/K", "J/(kg K)"},
		{quantity.KindAngle, "deg", "°"},
		{quantity.KindHeatTransfer, "W/m²K", "W/(m² K)"},
		{quantity.KindHeatTransfer, "W/(m^2 K)", "W/(m² K)"},
		{quantity.KindHeatTransfer, "W/(m2 K)", "W/(m² K)"},
		{quantity.KindThermalResistance, "m²K/W", "m² K/W"},
		{quantity.KindThermalResistance, "m^2 K/W", "m² K/W"},
		{quantity.KindHeatTransfer, "W/m^2K", "W/(m² K)"},
		{quantity.KindHeatTransfer, "BTU/(h ft2 degF)", "Btu/(h ft² °F)"},
		{quantity.KindHeatTransfer, "BTU/(hr·ft²·°F)", "Btu/(h ft² °F)"},
		{quantity.KindThermalResistance, "h·ft^2·°F/BTU", "h ft² °F/Btu"},
		{quantity.KindConductivity, "BTU/(hr ft degF)", "Btu/(h ft °F)"},
		{quantity.KindArea, "mm^2", "mm²"},
		{quantity.KindDensity, "kg/m^3", "kg/m³"},
		{quantity.KindViscosity, "uPa s", "µPa s"},
	} {
		if u, ok := c.kind.Unit(c.spelling); !ok || u.Symbol() != c.symbol || u.Kind() != c.kind {
			t.Errorf("%q finds %q, want %q", c.spelling, u.Symbol(), c.symbol)
		}
	}
	for _, s := range []string{"", "MM", "Mm", "m m", "ft", "psia", "1/", "mm3"} {
		if u, ok := quantity.LookupUnit(s); ok {
			t.Errorf("%q finds %q", s, u.Symbol())
		}
	}
}

func TestLookupUnit(t *testing.T) {
	if u, ok := quantity.LookupUnit("K"); !ok || u.Kind() != quantity.KindTemperature {
		t.Errorf("K is a unit of %s", u.Kind())
	}
	if u := quantity.MustUnit("psi"); u.Kind() != quantity.KindPressure {
		t.Errorf("psi is a unit of %s", u.Kind())
	}
	if u := quantity.MustUnit("1"); u != (quantity.Unit{}) {
		t.Error("the zero Unit is not the ratio")
	}
	defer func() {
		if recover() == nil {
			t.Error("MustUnit of an unknown unit returned")
		}
	}()
	quantity.MustUnit("furlong")
}

// The constants for code and the table for texts are two places; they have to agree to the last bit.
func TestConstantsAgreeWithTheTable(t *testing.T) {
	one := decimal.NewFromInt(1)
	for _, c := range []struct {
		kind   quantity.Kind
		symbol string
		value  float64
	}{
		{quantity.KindLength, "m", float64(quantity.Metre)},
		{quantity.KindLength, "cm", float64(quantity.Centimetre)},
		{quantity.KindLength, "mm", float64(quantity.Millimetre)},
		{quantity.KindLength, "µm", float64(quantity.Micrometre)},
		{quantity.KindLength, "in", float64(quantity.Inch)},
		{quantity.KindArea, "m²", float64(quantity.SquareMetre)},
		{quantity.KindArea, "mm²", float64(quantity.SquareMillimetre)},
		{quantity.KindArea, "in²", float64(quantity.SquareInch)},
		{quantity.KindPressure, "Pa", float64(quantity.Pascal)},
		{quantity.KindPressure, "kPa", float64(quantity.Kilopascal)},
		{quantity.KindPressure, "MPa", float64(quantity.Megapascal)},
		{quantity.KindPressure, "GPa", float64(quantity.Gigapascal)},
		{quantity.KindPressure, "bar", float64(quantity.Bar)},
		{quantity.KindPressure, "psi", float64(quantity.PSI)},
		{quantity.KindPressure, "ksi", float64(quantity.KSI)},
		{quantity.KindForce, "N", float64(quantity.Newton)},
		{quantity.KindForce, "kN", float64(quantity.Kilonewton)},
		{quantity.KindForce, "lbf", float64(quantity.PoundForce)},
		{quantity.KindTemperature, "K", float64(quantity.Kelvin)},
		{quantity.KindTemperature, "°C", float64(quantity.Celsius(1))},
		{quantity.KindTemperatureDifference, "K", float64(quantity.DeltaKelvin)},
		{quantity.KindTime, "s", float64(quantity.Second)},
		{quantity.KindTime, "ms", float64(quantity.Millisecond)},
		{quantity.KindTime, "min", float64(quantity.Minute)},
		{quantity.KindTorque, "N m", float64(quantity.NewtonMetre)},
		{quantity.KindTorque, "lbf in", float64(quantity.PoundForceInch)},
		{quantity.KindTorque, "lbf ft", float64(quantity.PoundForceFoot)},
		{quantity.KindMass, "kg", float64(quantity.Kilogram)},
		{quantity.KindMass, "g", float64(quantity.Gram)},
		{quantity.KindMass, "lb", float64(quantity.Pound)},
		{quantity.KindDensity, "kg/m³", float64(quantity.KilogramPerCubicMetre)},
		{quantity.KindDensity, "g/cm³", float64(quantity.GramPerCubicCentimetre)},
		{quantity.KindDensity, "lb/in³", float64(quantity.PoundPerCubicInch)},
		{quantity.KindExpansion, "/K", float64(quantity.PerKelvin)},
		{quantity.KindConductivity, "W/(m K)", float64(quantity.WattPerMetreKelvin)},
		{quantity.KindSpecificHeat, "J/(kg K)", float64(quantity.JoulePerKilogramKelvin)},
		{quantity.KindAngle, "rad", float64(quantity.Radian)},
		{quantity.KindAngle, "°", float64(quantity.Degree)},
		{quantity.KindHeatTransfer, "W/(m² K)", float64(quantity.WattPerSquareMetreKelvin)},
		{quantity.KindThermalResistance, "m² K/W", float64(quantity.SquareMetreKelvinPerWatt)},
		{quantity.KindSpeed, "m/s", float64(quantity.MetrePerSecond)},
		{quantity.KindSpeed, "km/h", 1 / 3.6},
		{quantity.KindSpeed, "mph", 0.44704}, // exact, NIST SP 811 B.8
		{quantity.KindMassFlow, "kg/s", float64(quantity.KilogramPerSecond)},
		{quantity.KindMassFlow, "lb/s", float64(quantity.Pound)},
		{quantity.KindViscosity, "Pa s", float64(quantity.PascalSecond)},
	} {
		u, ok := c.kind.Unit(c.symbol)
		if got := quantity.NewAmount(one, u).SI(); !ok || got != c.value {
			t.Errorf("1 %s is %v, the constant %v", c.symbol, got, c.value)
		}
	}
	if c := quantity.Celsius(120).Celsius(); !(math.Abs(c-120) < 1e-12) {
		t.Errorf("120 °C comes back as %v", c)
	}
}
