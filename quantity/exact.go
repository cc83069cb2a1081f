package quantity

import "github.com/shopspring/decimal"

// ExactSI returns the amount in the kind's SI unit as a decimal. It is exact where that decimal ends, as for all units but psi, ksi, °F,
// lb/in³ and degrees of angle; otherwise it is rounded at the 30th place, so a comparison of such amounts is for [Amount.Cmp]. An unset
// amount gives 0.
func (a Amount) ExactSI() decimal.Decimal {
	if !a.set {
		return decimal.Zero
	}
	e := a.unit.entry()
	x := a.value.Add(e.offset).Mul(e.num)
	if e.den.Equal(decimal.NewFromInt(1)) {
		return x // without the zeros that a quotient brings
	}
	return x.DivRound(e.den, 30)
}
