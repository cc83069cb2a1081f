package quantity

// A Kind says what a number measures. Two kinds never mix, even where their units look alike: a temperature is not a temperature
// difference, and a torque is not an energy.
type Kind uint8

// The kinds. The zero Kind is a ratio.
const (
	KindRatio Kind = iota
	KindLength
	KindArea
	KindPressure // stress and modulus too
	KindForce
	KindTemperature
	KindTemperatureDifference
	KindTime
	KindTorque
	KindMass
	KindDensity
	KindExpansion
	KindConductivity
	KindSpecificHeat
	KindAngle
	KindHeatTransfer
	KindThermalResistance // of an area
	KindSpeed
	KindMassFlow
	KindViscosity // dynamic
	kindCount
)

var kinds = [kindCount]struct{ name, si string }{
	KindRatio:                 {"ratio", "1"},
	KindLength:                {"length", "m"},
	KindArea:                  {"area", "m²"},
	KindPressure:              {"pressure", "Pa"},
	KindForce:                 {"force", "N"},
	KindTemperature:           {"temperature", "K"},
	KindTemperatureDifference: {"temperature difference", "K"},
	KindTime:                  {"time", "s"},
	KindTorque:                {"torque", "N m"},
	KindMass:                  {"mass", "kg"},
	KindDensity:               {"density", "kg/m³"},
	KindExpansion:             {"thermal expansion", "1/K"},
	KindConductivity:          {"thermal conductivity", "W/(m K)"},
	KindSpecificHeat:          {"specific heat", "J/(kg K)"},
	KindAngle:                 {"angle", "rad"},
	KindHeatTransfer:          {"heat transfer coefficient", "W/(m² K)"},
	KindThermalResistance:     {"thermal resistance", "m² K/W"},
	KindSpeed:                 {"speed", "m/s"},
	KindMassFlow:              {"mass flow", "kg/s"},
	KindViscosity:             {"viscosity", "Pa s"},
}

// String returns the name of the kind in plain words: "length", "specific heat".
func (k Kind) String() string {
	if k >= kindCount {
		return "unknown kind"
	}
	return kinds[k].name
}

// SI returns the symbol of the SI unit of the kind: "m", "Pa", "K", and "1" for a ratio. [Kind.Unit] finds the unit by it.
func (k Kind) SI() string {
	if k >= kindCount {
		return ""
	}
	return kinds[k].si
}

// indefinite returns the name with its article: "a length", "an angle".
func (k Kind) indefinite() string {
	name := k.String()
	switch name[0] {
	case 'a', 'e', 'i', 'o', 'u':
		return "an " + name
	}
	return "a " + name
}
