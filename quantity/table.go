package quantity

import (
	"strings"

	"github.com/shopspring/decimal"
)

// An entry is one unit: an amount of v in it is (v + offset) × num / den in SI. The two parts of the factor stay apart because the
// quotient of some, psi for one, is no decimal that ends.
type entry struct {
	symbol           string
	kind             Kind
	num, den, offset decimal.Decimal
	n, d, o          float64 // the same, rounded
	more             []string
}

// The definitions that the non-SI factors are built from. All but π are exact: the pound and the inch by the agreement of 1959,
// standard gravity by the CGPM of 1901.
const (
	inch    = "0.0254"
	foot    = "0.3048"
	pound   = "0.45359237"
	gravity = "9.80665"
	btu     = "1055.05585262" // J, International Table (1956)
	pi      = "3.14159265358979323846264338327950288419716939937510582"
)

// table lists every unit, for each kind in the order an error message names them; the first is the one it proposes. The zero Unit is
// the first entry.
var table = [...]entry{
	unit("1", KindRatio, "1", "1"),
	unit("%", KindRatio, "1", "100"),

	unit("mm", KindLength, "0.001", "1"),
	unit("in", KindLength, inch, "1"),
	unit("cm", KindLength, "0.01", "1"),
	unit("m", KindLength, "1", "1"),
	unit("µm", KindLength, "0.000001", "1"),

	unit("mm²", KindArea, "0.000001", "1"),
	unit("in²", KindArea, inch+" "+inch, "1"),
	unit("m²", KindArea, "1", "1"),

	unit("MPa", KindPressure, "1000000", "1"),
	unit("bar", KindPressure, "100000", "1"),
	unit("psi", KindPressure, pound+" "+gravity, inch+" "+inch),
	unit("ksi", KindPressure, "1000 "+pound+" "+gravity, inch+" "+inch),
	unit("GPa", KindPressure, "1000000000", "1"),
	unit("kPa", KindPressure, "1000", "1"),
	unit("Pa", KindPressure, "1", "1"),

	unit("N", KindForce, "1", "1"),
	unit("kN", KindForce, "1000", "1"),
	unit("lbf", KindForce, pound+" "+gravity, "1"),

	unit("°C", KindTemperature, "1", "1").from("273.15"),
	unit("°F", KindTemperature, "5", "9").from("459.67"),
	unit("K", KindTemperature, "1", "1"),

	unit("K", KindTemperatureDifference, "1", "1"),
	unit("°C", KindTemperatureDifference, "1", "1"),
	unit("°F", KindTemperatureDifference, "5", "9"),

	unit("s", KindTime, "1", "1"),
	unit("ms", KindTime, "0.001", "1"),
	unit("min", KindTime, "60", "1"),

	unit("N m", KindTorque, "1", "1"),
	unit("lbf in", KindTorque, pound+" "+gravity+" "+inch, "1"),
	unit("lbf ft", KindTorque, pound+" "+gravity+" "+foot, "1"),

	unit("kg", KindMass, "1", "1"),
	unit("g", KindMass, "0.001", "1"),
	unit("lb", KindMass, pound, "1"),

	unit("kg/m³", KindDensity, "1", "1"),
	unit("g/cm³", KindDensity, "1000", "1"),
	unit("lb/in³", KindDensity, pound, inch+" "+inch+" "+inch),

	unit("/K", KindExpansion, "1", "1", "1/K", "/°C", "1/°C"),
	unit("µm/(m K)", KindExpansion, "0.000001", "1", "µm/m/K", "µm/(m °C)"),
	unit("/°F", KindExpansion, "9", "5", "1/°F"),

	unit("W/(m K)", KindConductivity, "1", "1", "W/m/K"),
	unit("Btu/(h ft °F)", KindConductivity, btu+" 9", "3600 5 "+foot, "BTU/(h ft °F)", "Btu/(hr ft °F)", "BTU/(hr ft °F)"),

	unit("J/(kg K)", KindSpecificHeat, "1", "1", "J/kg/K"),
	unit("kJ/(kg K)", KindSpecificHeat, "1000", "1", "kJ/kg/K"),
	unit("Btu/(lb °F)", KindSpecificHeat, btu+" 9", "5 "+pound, "BTU/(lb °F)"),

	unit("°", KindAngle, pi, "180"),
	unit("rad", KindAngle, "1", "1"),

	unit("W/(m² K)", KindHeatTransfer, "1", "1", "W/m²K", "W/m² K", "W/m²/K"),
	unit("Btu/(h ft² °F)", KindHeatTransfer, btu+" 9", "3600 5 "+foot+" "+foot, "BTU/(h ft² °F)", "Btu/(hr ft² °F)", "BTU/(hr ft² °F)"),

	unit("m² K/W", KindThermalResistance, "1", "1", "m²K/W", "(m² K)/W"),
	unit("h ft² °F/Btu", KindThermalResistance, "3600 5 "+foot+" "+foot, btu+" 9", "h ft² °F/BTU", "hr ft² °F/Btu"),

	unit("m/s", KindSpeed, "1", "1"),
	unit("km/h", KindSpeed, "1000", "3600"),
	unit("ft/s", KindSpeed, foot, "1"),
	unit("mph", KindSpeed, "5280 "+foot, "3600"),

	unit("kg/s", KindMassFlow, "1", "1"),
	unit("g/s", KindMassFlow, "0.001", "1"),
	unit("lb/s", KindMassFlow, pound, "1"),

	unit("Pa s", KindViscosity, "1", "1"),
	unit("mPa s", KindViscosity, "0.001", "1"),
	unit("µPa s", KindViscosity, "0.000001", "1"),
	unit("lb/(ft s)", KindViscosity, pound, foot),
}

// unit returns an entry; num and den are products of decimals, and more are further spellings.
func unit(symbol string, k Kind, num, den string, more ...string) entry {
	e := entry{symbol: symbol, kind: k, num: product(num), den: product(den), more: more}
	e.n, _ = e.num.Float64()
	e.d, _ = e.den.Float64()
	return e
}

// from returns the entry with its zero at -offset.
func (e entry) from(offset string) entry {
	e.offset = decimal.RequireFromString(offset)
	e.o, _ = e.offset.Float64()
	return e
}

func product(factors string) decimal.Decimal {
	p := decimal.NewFromInt(1)
	for f := range strings.FieldsSeq(factors) {
		p = p.Mul(decimal.RequireFromString(f))
	}
	return p
}

// A spelling is one way to write a unit of a kind.
type spelling struct {
	kind Kind
	text string
}

// spellings finds the place in the table of each accepted spelling, in ASCII.
var spellings = func() map[spelling]uint8 {
	m := make(map[spelling]uint8)
	for i, e := range table {
		for _, text := range append([]string{e.symbol}, e.more...) {
			m[spelling{e.kind, ascii(text)}] = uint8(i)
		}
	}
	return m
}()

// inASCII are the signs that units are written with, each before what stands for it in ASCII: both micro signs and both product dots
// among them, and powers with a caret.
var inASCII = []string{"°", "deg", "²", "2", "³", "3", "^2", "2", "^3", "3", "µ", "u", "μ", "u", "·", " ", "⋅", " "}

// ascii writes a unit in ASCII, one way for all its accepted spellings.
var ascii = strings.NewReplacer(inASCII...).Replace
