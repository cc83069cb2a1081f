package materials

import (
	"math"

	"casewright/margin"
	"casewright/quantity"
)

// A Reading is a property at a temperature. Where Reason is set the property
// is refused, SI is NaN and there are no notes.
type Reading struct {
	SI     float64 // in the SI unit of the property's kind; 1 for a ratio
	Reason margin.Reason
	Notes  margin.Notes
}

func refused(reason margin.Reason) Reading { return Reading{SI: math.NaN(), Reason: reason} }

// At returns a property at a temperature t, in kelvins. Strengths and the
// modulus are those at 20 °C times the ratio of the material's curve; the
// other properties are taken as at 20 °C. The yield strength is never above
// the ultimate strength at the same temperature.
//
// It is refused with [margin.Form] where the form must not hold pressure, with
// [margin.MissingProperty] where the property is not known, and, strengths and
// modulus only, with [margin.Temperature] below −40 °C (or for NaN), above the
// last point of the curve, or above [Material.UpTo] without a curve. All end
// where the first of the strengths ends: a material that is known in part is
// not known.
//
// The notes say that the material is the user's; of a strength, whether it is
// typical ([margin.TypicalStrength]) and whether it or its curve is estimated
// or from memory ([margin.RememberedStrength]).
func (m *Material) At(p Property, t quantity.Temperature) Reading {
	if _, changes := p.Follows(); changes && t > min(m.retention.end(Yield), m.retention.end(Ultimate))+rounding {
		return refused(margin.Temperature)
	}
	r := m.at(p, t)
	if p != Yield || r.Reason != margin.None {
		return r
	}
	if u := m.at(Ultimate, t); u.SI < r.SI {
		return Reading{SI: u.SI, Notes: r.Notes | u.Notes}
	}
	return r
}

// StrongTo returns the temperature, in K, to which yield and ultimate strength
// are known: the end of the material's curve, else [Material.UpTo]; 0 for no
// material.
func (m *Material) StrongTo() quantity.Temperature {
	switch {
	case m == nil:
		return 0
	case m.retention == nil:
		return m.UpTo
	}
	return min(m.retention.end(Yield), m.retention.end(Ultimate))
}

func (m *Material) at(p Property, t quantity.Temperature) Reading {
	v, ok := m.Value(p)
	switch {
	case !m.Form.HoldsPressure():
		return refused(margin.Form)
	case !ok:
		return refused(margin.MissingProperty)
	}
	ratio := m.ratio(p, t)
	if ratio.Reason != margin.None {
		return ratio
	}
	return Reading{SI: v.SI * ratio.SI, Notes: ratio.Notes | m.notes(p, v)}
}

// ratio returns what is left of a property at a temperature.
func (m *Material) ratio(p Property, t quantity.Temperature) Reading {
	if m.retention != nil {
		return m.retention.At(p, t)
	}
	return constant(p, t, m.UpTo)
}

// notes returns what is to be said of a value at 20 °C.
func (m *Material) notes(p Property, v Value) margin.Notes {
	switch {
	case m.User:
		return margin.Of(margin.UserMaterial)
	case !p.IsStrength():
		return 0
	}
	var notes margin.Notes
	if v.Basis == BasisTypical {
		notes = margin.Of(margin.TypicalStrength)
	}
	if v.Status != Seen {
		notes |= margin.Of(margin.RememberedStrength)
	}
	return notes
}
