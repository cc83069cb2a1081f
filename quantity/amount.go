package quantity

import (
	"cmp"
	"math/big"

	"github.com/shopspring/decimal"
)

// An Amount is an exact decimal number and its unit, as written, without a tolerance. The zero Amount is unset.
type Amount struct {
	value decimal.Decimal
	unit  Unit
	text  string
	set   bool
}

// Parse reads an amount of the given kind, such as "4.5 MPa" or "120 °C". A ratio is written without a unit or in %. The error is a
// *[SyntaxError]: no number or no unit, a unit of another kind, a tolerance, a temperature below absolute zero. The sign is not
// judged: a negative pressure parses.
func Parse(k Kind, text string) (Amount, error) {
	w, err := parse(k, text, false)
	if err != nil {
		return Amount{}, err
	}
	return Amount{w.nominal, w.unit, text, true}, nil
}

// NewAmount returns the amount of v in the unit u.
func NewAmount(v decimal.Decimal, u Unit) Amount { return Amount{value: v, unit: u, set: true} }

// IsSet reports whether the amount was given at all.
func (a Amount) IsSet() bool { return a.set }

// Kind returns what the amount measures.
func (a Amount) Kind() Kind { return a.unit.Kind() }

// Unit returns the unit it was written in.
func (a Amount) Unit() Unit { return a.unit }

// Value returns the exact number, in its unit.
func (a Amount) Value() decimal.Decimal { return a.value }

// Text returns the amount as written, "" if it was computed.
func (a Amount) Text() string { return a.text }

// SI returns the amount in the kind's SI unit, as the float64 nearest to the exact value: equal amounts give the same number,
// whatever their units.
func (a Amount) SI() float64 {
	e := a.unit.entry()
	num, den := a.value.Add(e.offset).Mul(e.num).Rat(), e.den.Rat()
	f, _ := new(big.Rat).Quo(num, den).Float64()
	return f
}

// Sign returns -1, 0 or +1, the sign of the amount in SI: a temperature of -10 °C is positive, and 0 only at absolute zero.
func (a Amount) Sign() int { return a.value.Add(a.unit.entry().offset).Sign() }

// Cmp compares two amounts of one kind and returns -1, 0 or +1. It is exact and never divides: 1500 psi equals 1.5 ksi, and 212 °F
// equals 100 °C. Amounts of different kinds are never equal; they are ordered by kind, an unset one before all.
func (a Amount) Cmp(b Amount) int {
	if !a.set || !b.set {
		return cmp.Compare(btoi(a.set), btoi(b.set))
	}
	if c := cmp.Compare(a.Kind(), b.Kind()); c != 0 {
		return c
	}
	x, y := a.unit.entry(), b.unit.entry()
	return a.value.Add(x.offset).Mul(x.num).Mul(y.den).Cmp(b.value.Add(y.offset).Mul(y.num).Mul(x.den))
}

func btoi(b bool) int {
	if b {
		return 1
	}
	return 0
}

// Equal reports whether both are unset, or are the same amount in whatever units.
func (a Amount) Equal(b Amount) bool { return a.Cmp(b) == 0 }

// String returns the number with the digits it was written with, and its unit: "4.50 MPa", "15°". It is read back as an equal amount.
// An unset amount gives "".
func (a Amount) String() string {
	if !a.set {
		return ""
	}
	return attach(plain(a.value), a.unit)
}

// plain writes a decimal without an exponent and with its trailing zeros, as they stand on a drawing.
func plain(d decimal.Decimal) string { return d.StringFixed(max(0, -d.Exponent())) }

// attach puts the unit after a number.
func attach(number string, u Unit) string {
	switch u.Symbol() {
	case "1":
		return number
	case "°":
		return number + "°"
	}
	return number + " " + u.Symbol()
}
