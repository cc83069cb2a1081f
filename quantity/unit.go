package quantity

import "fmt"

// A Unit is one of the units that this package knows. Units compare with ==. The zero Unit is the ratio "1".
type Unit struct{ index uint8 }

func (u Unit) entry() *entry { return &table[u.index] }

// Symbol returns the symbol as it is printed: "mm", "°C", "N m", and "1" for a plain ratio.
func (u Unit) Symbol() string { return u.entry().symbol }

// ASCII returns the symbol in ASCII: "degC", "um", "kg/m3". It is read back as the same unit.
func (u Unit) ASCII() string { return ascii(u.entry().symbol) }

// Kind returns what the unit measures.
func (u Unit) Kind() Kind { return u.entry().kind }

// FromSI returns a number of the kind's SI unit in this unit, to within rounding, for printing.
func (u Unit) FromSI(si float64) float64 {
	e := u.entry()
	return si*e.d/e.n - e.o
}

// ToSI returns a number of this unit in the kind's SI unit, to within rounding. [Amount.SI] rounds only once.
func (u Unit) ToSI(v float64) float64 {
	e := u.entry()
	return (v + e.o) * e.n / e.d
}

// Units returns the units of a kind in the order an error message lists them, the usual one first.
func Units(k Kind) []Unit {
	var units []Unit
	for i := range table {
		if table[i].kind == k {
			units = append(units, Unit{uint8(i)})
		}
	}
	return units
}

// Unit returns the unit of this kind with the given symbol, in any accepted spelling.
func (k Kind) Unit(symbol string) (Unit, bool) {
	i, ok := spellings[spelling{k, ascii(tidy(symbol))}]
	return Unit{i}, ok
}

// LookupUnit returns the unit with the given symbol, in any accepted spelling. K, °C and °F are found as units of temperature; use
// [Kind.Unit] for those of a temperature difference.
func LookupUnit(symbol string) (Unit, bool) {
	for k := range kindCount {
		if u, ok := k.Unit(symbol); ok {
			return u, true
		}
	}
	return Unit{}, false
}

// MustUnit returns the unit with the given symbol, for constants in code. It panics where there is none: a programmer's mistake.
func MustUnit(symbol string) Unit {
	u, ok := LookupUnit(symbol)
	if !ok {
		panic(fmt.Sprintf("quantity: no unit %q", symbol))
	}
	return u
}
