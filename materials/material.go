package materials

import (
	"math"
	"strconv"

	"casewright/quantity"
)

// A Material is an alloy in one temper and product form, with its properties.
// Those of the table are shared by everybody: do not change them.
type Material struct {
	Name      string
	Form      Form
	SizeRange string // products for which the strengths hold; empty for a user's
	Curve     string // name of the Retention that it follows; empty if none
	User      bool   // the user's own, not of the table

	// UpTo is the highest temperature at which strengths and modulus are taken
	// as at 20 °C. It is zero where the material follows a curve.
	UpTo quantity.Temperature

	retention *Retention
	values    [NumProperties]Value
	known     [NumProperties]bool
}

// All returns the materials of the table, in its order.
func All() []*Material {
	var list []*Material
	for _, name := range Names() {
		if m := lookup(name); m != nil {
			list = append(list, m)
		}
	}
	return list
}

// Names returns the names of the materials of the table, in its order.
func Names() []string { return firsts(materialsCSV) }

// Lookup finds a material of the table by its name, without regard to case and
// extra blanks.
func Lookup(name string) (*Material, bool) {
	m := lookup(name)
	return m, m != nil
}

// New returns a material of the user's own. Its values are in the SI units of
// their kinds; strengths and modulus are taken to hold up to the temperature
// at, or to 40 °C where that is zero. A value that is not a finite number
// above 0 (for an elongation, 0 or more) is left out, so that every check that
// needs it is refused.
func New(name, source string, form Form, at quantity.Temperature, values map[Property]float64) *Material {
	m := &Material{Name: name, Form: form, User: true, UpTo: at}
	if at == 0 {
		m.UpTo = warmest
	}
	for p, si := range values {
		if p < NumProperties && plausible(p, si) {
			m.set(p, Value{SI: si, Text: text(p, si), Source: source})
		}
	}
	return m
}

// plausible tells whether a number can be a value of the property at all.
func plausible(p Property, si float64) bool {
	if math.IsInf(si, 0) {
		return false
	}
	return si > 0 || p == Elongation && si >= 0
}

// text writes a value in the usual unit of its kind.
func text(p Property, si float64) string {
	unit := quantity.Units(p.Kind())[0]
	number := strconv.FormatFloat(unit.FromSI(si), 'g', 6, 64)
	if unit.Symbol() == "1" {
		return number
	}
	return number + " " + unit.Symbol()
}

func (m *Material) set(p Property, v Value) { m.values[p], m.known[p] = v, true }

// Value returns a property at 20 °C with its source, and whether it is known.
func (m *Material) Value(p Property) (Value, bool) {
	if p >= NumProperties {
		return Value{}, false
	}
	return m.values[p], m.known[p]
}

// Properties returns the properties that are known, in their fixed order.
func (m *Material) Properties() []Property {
	var list []Property
	for p := range NumProperties {
		if m.known[p] {
			list = append(list, p)
		}
	}
	return list
}
