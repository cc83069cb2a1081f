package sizing

import (
	_ "embed"
	"sync"

	"github.com/shopspring/decimal"

	"casewright/quantity"
	"casewright/quantity/rows"
)

//go:embed general.csv
var generalCSV string

// A GeneralClass is a class of general tolerances.
type GeneralClass byte

// The classes of ISO 2768-1 that a workshop keeps on metal; the zero class is
// none of them.
const (
	Fine   GeneralClass = 'f'
	Medium GeneralClass = 'm'
	Coarse GeneralClass = 'c'
)

// General returns the general tolerance of a linear size in the class medium,
// plus and minus, in m, exact. nominal: m, from 0.5 mm to 2 m; outside there is
// none, and false. Source: see [GeneralClass.Tolerance].
func General(nominal decimal.Decimal) (decimal.Decimal, bool) { return Medium.Tolerance(nominal) }

// Tolerance returns the general tolerance of a linear size, plus and minus, in
// m, exact. nominal: m, from 0.5 mm to 2 m; outside, and for a class that is
// not of the table, there is none, and false. Source: ISO 2768-1 table 1, seen
// in copies.
func (c GeneralClass) Tolerance(nominal decimal.Decimal) (decimal.Decimal, bool) {
	for i, r := range generals() {
		if r.class != c || nominal.Cmp(r.to) > 0 {
			continue
		}
		side := nominal.Cmp(r.over)
		first := i == 0 || generals()[i-1].class != c
		if side > 0 || side == 0 && first {
			return r.tolerance, true
		}
		break
	}
	return decimal.Decimal{}, false
}

// general is a row of the table, in m: sizes above over, up to and including
// to; the first of a class includes over.
type general struct {
	class               GeneralClass
	over, to, tolerance decimal.Decimal
}

var generals = sync.OnceValue(func() []general {
	metres := func(text string) decimal.Decimal { return rows.Must(quantity.ParseDimension(text)).Nominal() }
	var list []general
	for _, row := range rows.Of(generalCSV, 6) {
		list = append(list, general{GeneralClass(row[0][0]), metres(row[1]), metres(row[2]), metres(row[3])})
	}
	return list
})
