package seal

import (
	_ "embed"
	"slices"
	"sync"

	"github.com/shopspring/decimal"

	"casewright/quantity"
	"casewright/quantity/rows"
)

//go:embed glands.csv
var glandsCSV string

// A Gland is the static radial gland that seal makers print for a section,
// without backup rings; each size from its least to its greatest, in m, exact.
type Gland struct {
	Section   decimal.Decimal    // of the ring
	Depth     [2]decimal.Decimal // half of bore less groove diameter
	Width     [2]decimal.Decimal // of the groove
	Clearance [2]decimal.Decimal // of the end in the bore, on the diameter

	Source string
	Status string // "seen" in the copy named, or "memory"
}

// Glands returns the printed glands, by rising section. Source: seal makers'
// charts, named in each.
func Glands() []Gland { return slices.Clone(glands()) }

// GlandFor returns the printed gland for a nominal section in m, which may
// differ by a twentieth of a millimetre, as 2.6 mm from 0.103 in; false where
// none is printed.
func GlandFor(section decimal.Decimal) (Gland, bool) {
	for _, g := range glands() {
		if g.Section.Sub(section).Abs().Cmp(printed) <= 0 {
			return g, true
		}
	}
	return Gland{}, false
}

var printed = decimal.RequireFromString("0.00005") // m

var glands = sync.OnceValue(func() []Gland {
	var list []Gland
	for _, row := range rows.Of(glandsCSV, 9) {
		inches := func(column int) decimal.Decimal {
			return rows.Must(quantity.ParseDimension(row[column] + " in")).Nominal()
		}
		list = append(list, Gland{
			Section: inches(0),
			Depth:   [2]decimal.Decimal{inches(1), inches(2)},
			Width:   [2]decimal.Decimal{inches(3), inches(4)},
			Clearance: [2]decimal.Decimal{
				inches(5), inches(6),
			},
			Source: row[7], Status: row[8],
		})
	}
	return list
})
