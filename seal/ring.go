package seal

import (
	_ "embed"
	"slices"
	"strconv"
	"strings"
	"sync"

	"github.com/shopspring/decimal"

	"casewright/quantity"
	"casewright/quantity/rows"
)

//go:embed rings.csv
var ringsCSV string

// A Ring is an O-ring of a standard size, free and at room temperature. Each
// tolerance is ±. The sizes are exact: the standard's inches times 0.0254.
type Ring struct {
	Name   string // "AS568-137"
	Series int    // 0, 100, 200, 300 or 400; one section each

	Inside           decimal.Decimal // inside diameter ID, m
	InsideTolerance  decimal.Decimal // m
	Section          decimal.Decimal // section CS, m
	SectionTolerance decimal.Decimal // m

	Source string // of the inside diameter and its tolerance
	Status string // "seen" in a copy, "memory": remembered, not looked up, or which value is which
}

// InsideDimension returns the inside diameter with its tolerance, in inches.
func (r Ring) InsideDimension() quantity.Dimension { return inches(r.Inside, r.InsideTolerance) }

// SectionDimension returns the section with its tolerance, in inches.
func (r Ring) SectionDimension() quantity.Dimension { return inches(r.Section, r.SectionTolerance) }

// inches returns a size and its ± tolerance, both in m, as a dimension that
// is printed in inches.
func inches(size, tolerance decimal.Decimal) quantity.Dimension {
	zero := decimal.Decimal{}
	return quantity.NewDimension(zero, zero, zero, inch).WithNominal(size).WithDeviations(tolerance.Neg(), tolerance)
}

// Rings returns all rings: the sizes of AS568 that fit bores to 160 mm, by
// dash number, so by series and rising inside diameter. Source: SAE AS568,
// most of it from memory; each ring says so.
func Rings() []Ring { return slices.Clone(rings()) }

// RingNames returns the names of all rings, in the order of [Rings].
func RingNames() []string {
	list := rings()
	names := make([]string, len(list))
	for i, r := range list {
		names[i] = r.Name
	}
	return names
}

// LookupRing returns the ring of a size: "AS568-137", "AS568 137", "-137" or
// "137". Case and blanks do not matter; the dash number has three digits.
func LookupRing(text string) (Ring, bool) {
	key := ringKey(text)
	if len(key) != 3 {
		return Ring{}, false
	}
	// One row is read, not the table: a check needs one ring.
	_, rest, ok := strings.Cut(ringsCSV, "\n"+ringPrefix+key+",")
	if !ok {
		return Ring{}, false
	}
	line, _, _ := strings.Cut(rest, "\n")
	header := strings.Repeat(",", ringColumns-1) + "\n"
	return readRing(rows.Of(header+ringPrefix+key+","+line, ringColumns)[0]), true
}

// inch is the unit of the standard.
var inch = quantity.MustUnit("in")

const (
	ringPrefix  = "AS568-"
	ringColumns = 7
)

var rings = sync.OnceValue(func() []Ring {
	var list []Ring
	for _, row := range rows.Of(ringsCSV, ringColumns) {
		list = append(list, readRing(row))
	}
	return list
})

// readRing reads one row of the table.
func readRing(row []string) Ring {
	metres := func(text string) decimal.Decimal {
		return rows.Must(quantity.ParseDimension(text + " in")).Nominal()
	}
	return Ring{
		Name:             row[0],
		Series:           rows.Must(strconv.Atoi(ringKey(row[0]))) / 100 * 100,
		Inside:           metres(row[1]),
		InsideTolerance:  metres(row[2]),
		Section:          metres(row[3]),
		SectionTolerance: metres(row[4]),
		Source:           row[5],
		Status:           row[6],
	}
}

// ringKey reduces a size to its dash number: "AS568 -137" to "137".
func ringKey(text string) string {
	return strings.TrimPrefix(strings.TrimPrefix(rows.Fold(text), "as568"), "-")
}
