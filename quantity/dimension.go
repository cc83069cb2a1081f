package quantity

import (
	"math/big"
	"strings"

	"github.com/shopspring/decimal"
)

// A Dimension is a length with its tolerance, as on a drawing, exact. The zero Dimension is unset.
type Dimension struct {
	nominal, lower, upper decimal.Decimal // metres; lower and upper are signed deviations
	unit                  Unit
	text                  string
	set                   bool
}

// ParseDimension reads a length with or without a tolerance: "63.5 mm", "63.5 ±0.1 mm", "57.0 +0/-0.05 mm", "2 1/2 ±1/64 in". The two
// deviations may stand in either order and may have the same sign. The error is a *[SyntaxError]. The sign of the size is not judged.
func ParseDimension(text string) (Dimension, error) {
	w, err := parse(KindLength, text, true)
	if err != nil {
		return Dimension{}, err
	}
	d := NewDimension(w.nominal, w.first, w.second, w.unit)
	d.text = text
	return d, nil
}

// NewDimension returns the dimension with the given nominal size and signed deviations, all in the unit u. The deviations are
// taken in either order. A unit that does not measure length gives the unset Dimension.
func NewDimension(nominal, lower, upper decimal.Decimal, u Unit) Dimension {
	if u.Kind() != KindLength {
		return Dimension{}
	}
	if lower.Cmp(upper) > 0 {
		lower, upper = upper, lower
	}
	metre := u.entry().num // a length has no divisor
	return Dimension{nominal: nominal.Mul(metre), lower: lower.Mul(metre), upper: upper.Mul(metre), unit: u, set: true}
}

// IsSet reports whether the dimension was given at all.
func (d Dimension) IsSet() bool { return d.set }

// Nominal returns the size before the tolerance, in metres.
func (d Dimension) Nominal() decimal.Decimal { return d.nominal }

// Lower returns the lower deviation, in metres: -0.00005 of "57.0 +0/-0.05 mm".
func (d Dimension) Lower() decimal.Decimal { return d.lower }

// Upper returns the upper deviation, in metres.
func (d Dimension) Upper() decimal.Decimal { return d.upper }

// Least returns the least size within the tolerance, in metres.
func (d Dimension) Least() decimal.Decimal { return d.nominal.Add(d.lower) }

// Greatest returns the greatest size within the tolerance, in metres.
func (d Dimension) Greatest() decimal.Decimal { return d.nominal.Add(d.upper) }

// Unit returns the unit it was written in.
func (d Dimension) Unit() Unit { return d.unit }

// Text returns the dimension as written, "" if it was computed.
func (d Dimension) Text() string { return d.text }

// HasTolerance reports whether a deviation differs from zero. Without a tolerance the size is taken as exact.
func (d Dimension) HasTolerance() bool { return !d.lower.IsZero() || !d.upper.IsZero() }

// WithNominal returns a dimension of another nominal size, in metres, with the same deviations and unit.
func (d Dimension) WithNominal(metres decimal.Decimal) Dimension {
	d.nominal, d.text = metres, ""
	return d
}

// WithDeviations returns a dimension of the same nominal size and unit with other signed deviations, in metres and in either order.
func (d Dimension) WithDeviations(lower, upper decimal.Decimal) Dimension {
	if lower.Cmp(upper) > 0 {
		lower, upper = upper, lower
	}
	d.lower, d.upper, d.text = lower, upper, ""
	return d
}

// Exact returns the nominal size without a tolerance.
func (d Dimension) Exact() Dimension { return d.WithDeviations(decimal.Decimal{}, decimal.Decimal{}) }

// Equal reports whether both are unset, or have the same size and the same deviations, in whatever units.
func (d Dimension) Equal(b Dimension) bool {
	return d.set == b.set && d.nominal.Equal(b.nominal) && d.lower.Equal(b.lower) && d.upper.Equal(b.upper)
}

// String returns the text of a drawing in the dimension's unit: "14.2 ±0.2 mm", "57.0 +0/-0.05 mm", "57.0 mm". It is read back as an
// equal dimension, except that a size which is no decimal in the unit, as 1 mm is not in inches, is rounded to 6 places. An unset
// dimension gives "".
func (d Dimension) String() string {
	if !d.set {
		return ""
	}
	size := d.in(d.nominal)
	switch {
	case !d.HasTolerance():
	case d.lower.Equal(d.upper.Neg()):
		size += " ±" + d.in(d.upper)
	default:
		size += " " + signed(d.in(d.upper), "+") + "/" + signed(d.in(d.lower), "-")
	}
	return attach(size, d.unit)
}

// signed gives a deviation its sign. That of zero is the one a drawing shows: +0.15/-0, +0/-0.05.
func signed(number, zero string) string {
	switch {
	case strings.HasPrefix(number, "-"):
		return number
	case strings.Trim(number, "0.") == "":
		return zero + number
	}
	return "+" + number
}

// in writes metres in the unit of the dimension, with the digits they were written with.
func (d Dimension) in(metres decimal.Decimal) string {
	metre := d.unit.entry().num
	v := new(big.Rat).Quo(metres.Rat(), metre.Rat())
	places, ends := v.FloatPrec()
	if !ends || places > maxPlaces {
		return strings.TrimRight(strings.TrimRight(v.FloatString(6), "0"), ".")
	}
	return v.FloatString(max(places, int(metre.Exponent()-metres.Exponent())))
}
