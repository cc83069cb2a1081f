package fastener

import (
	_ "embed"
	"sync"

	"github.com/shopspring/decimal"

	"casewright/quantity"
	"casewright/quantity/rows"
)

//go:embed holes.csv
var holesCSV string

// ClearanceHole returns the hole through which the screw passes, with its
// tolerance, in mm for a metric thread and in inches for a unified one:
// "5.5 +0.18/-0 mm", "0.28125 +0.009/-0 in". It is the medium (normal) fit,
// H13, of the thread's diameter, whatever the pitch. A unified hole is the
// drill of the standard, whose printed limits may differ from ours by
// 0.001 in. There is no hole for #12, and then it is false.
// Sources: ISO 273, medium, with ISO 286-1, IT13; ASME B18.2.8, normal fit:
// seen in the copies that the table names.
func (t Thread) ClearanceHole() (quantity.Dimension, bool) {
	row, ok := ofDiameter(clearanceHoles(), t.Diameter)
	if !ok {
		return quantity.Dimension{}, false
	}
	return rows.Must(quantity.ParseDimension(row[1])), true
}

var clearanceHoles = sync.OnceValue(func() []sized { return byDiameter(rows.Of(holesCSV, 4)) })

// sized is a row of a table by nominal diameter, which stands in its first
// column.
type sized struct {
	diameter decimal.Decimal // m
	row      []string
}

func byDiameter(table [][]string) []sized {
	list := make([]sized, len(table))
	for i, row := range table {
		list[i] = sized{rows.Must(quantity.ParseDimension(row[0])).Nominal(), row}
	}
	return list
}

// ofDiameter returns the row of exactly this diameter, in m.
func ofDiameter(list []sized, diameter decimal.Decimal) ([]string, bool) {
	for _, s := range list {
		if s.diameter.Equal(diameter) {
			return s.row, true
		}
	}
	return nil, false
}
