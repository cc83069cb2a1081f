package materials

import "casewright/quantity"

// A Property is one thing known of a material. Strengths are engineering
// stresses: force over the section before the test.
type Property uint8

// The properties, in the order in which they are printed. Yield is the 0.2 %
// proof strength. The digits of the bearing strengths are the edge distance
// over the diameter of the hole: 1.5 and 2.
const (
	Yield Property = iota
	Ultimate
	Shear
	BearingUltimate15
	BearingUltimate2
	BearingYield15
	BearingYield2
	Modulus
	Poisson
	Density
	Expansion
	Elongation
	UniformElongation
	Conductivity
	SpecificHeat
	NumProperties
)

// info is what a property is. Of those that change with temperature, follows
// is the property by whose name a curve lists them; of the others it is the
// property itself.
type info struct {
	key     string
	symbol  string
	meaning string
	kind    quantity.Kind
	follows Property
}

var properties = [NumProperties]info{
	Yield:             {"yield", "F_ty", "yield strength (0.2 % proof)", quantity.KindPressure, Yield},
	Ultimate:          {"ultimate", "F_tu", "ultimate tensile strength", quantity.KindPressure, Ultimate},
	Shear:             {"shear", "F_su", "ultimate shear strength", quantity.KindPressure, Ultimate},
	BearingUltimate15: {"bearing_ultimate_1_5", "F_bru", "ultimate bearing strength at e/D 1.5", quantity.KindPressure, Ultimate},
	BearingUltimate2:  {"bearing_ultimate_2", "F_bru", "ultimate bearing strength at e/D 2.0", quantity.KindPressure, Ultimate},
	BearingYield15:    {"bearing_yield_1_5", "F_bry", "bearing yield strength at e/D 1.5", quantity.KindPressure, Yield},
	BearingYield2:     {"bearing_yield_2", "F_bry", "bearing yield strength at e/D 2.0", quantity.KindPressure, Yield},
	Modulus:           {"modulus", "E", "modulus of elasticity", quantity.KindPressure, Modulus},
	Poisson:           {"poisson", "ν", "Poisson's ratio", quantity.KindRatio, Poisson},
	Density:           {"density", "ρ", "density", quantity.KindDensity, Density},
	Expansion:         {"expansion", "α", "mean linear thermal expansion from 20 to 100 °C", quantity.KindExpansion, Expansion},
	Elongation:        {"elongation", "A", "elongation after fracture", quantity.KindRatio, Elongation},
	UniformElongation: {"uniform_elongation", "A_g", "elongation at the greatest load, before the neck", quantity.KindRatio, UniformElongation},
	Conductivity:      {"conductivity", "λ", "thermal conductivity", quantity.KindConductivity, Conductivity},
	SpecificHeat:      {"specific_heat", "c_p", "specific heat", quantity.KindSpecificHeat, SpecificHeat},
}

// Key returns the property's key in a design file's [[material]] and in the
// tables: "yield", "bearing_ultimate_1_5". A property that does not exist has
// none.
func (p Property) Key() string { return p.info().key }

// Symbol returns the property's symbol as handbooks write it: "F_ty".
func (p Property) Symbol() string { return p.info().symbol }

// Meaning says in a few words what the property is.
func (p Property) Meaning() string { return p.info().meaning }

// Kind returns what the property measures, which sets its SI unit.
func (p Property) Kind() quantity.Kind { return p.info().kind }

// IsStrength tells whether the property is a stress that the material bears:
// all pressures but the modulus.
func (p Property) IsStrength() bool {
	return p.Kind() == quantity.KindPressure && p != Modulus
}

// Follows returns the property whose curve p follows with temperature: Yield,
// Ultimate or Modulus. The other properties follow none: they are taken as
// constant.
func (p Property) Follows() (Property, bool) {
	f := p.info().follows
	return f, f == Yield || f == Ultimate || f == Modulus
}

func (p Property) info() info {
	if p >= NumProperties {
		return info{follows: p}
	}
	return properties[p]
}

// propertyOf finds a property by its key.
func propertyOf(key string) (Property, bool) {
	for p := range NumProperties {
		if properties[p].key == key {
			return p, true
		}
	}
	return 0, false
}
