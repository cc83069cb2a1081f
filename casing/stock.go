package casing

import (
	_ "embed"
	"slices"
	"sync"

	"github.com/shopspring/decimal"

	"casewright/quantity"
	"casewright/quantity/rows"
)

//go:embed walls.csv
var wallsCSV string

//go:embed wall_tolerances.csv
var wallTolerancesCSV string

// A StockWall is a wall in which aluminium round tube is stocked.
type StockWall struct {
	Wall   decimal.Decimal // nominal, m, exact
	Metric bool            // a wall in whole or half millimetres; else in inches
	Series string          // "metric" or "inch"
	Source string          // who stocks it
	Status string          // "seen" in the copy named, or "memory": remembered, not looked up
}

// StockWalls returns the walls of tube in stock, in m: the metric ones, then
// those in inches, each rising. No stockist has every wall in every diameter.
// Sources: stockists' lists, named in each wall.
func StockWalls() []StockWall { return slices.Clone(stockWalls()) }

var stockWalls = sync.OnceValue(func() []StockWall {
	var list []StockWall
	for _, row := range rows.Of(wallsCSV, 4) {
		list = append(list, StockWall{
			Wall: metres(row[0]), Metric: row[1] == "metric", Series: row[1],
			Source: row[2], Status: row[3],
		})
	}
	return list
})

// WallTolerance returns how far the wall of bought tube may be from its
// nominal thickness at any point, plus or minus, in m, exact.
//
//	extruded: Δt = Δm + 0.10 (t + Δm), the second part from 0.010 to 0.060 in
//	drawn:    Δt = 0.10 t, at least 0.003 in
//
// wall: t, nominal, m. outside: outside diameter, nominal, m. Δm: tolerance of
// the mean wall, from the table; to it comes the bore that is not in the
// middle. Extruded: walls from 0.020 up to 0.750 in, diameters from 0.5 up to
// 18 in, but no thin wall in a wide tube and no thick wall in a narrow one.
// Drawn: walls from 0.25 up to 13 mm, diameters from 3 up to 350 mm. Outside
// the table there is no tolerance, and false. Metric tube has its own
// standards, EN 755-7 and EN 755-8 extruded, EN 754-7 drawn, which were not
// seen; it is read in the same table.
// Sources: Aluminum Association standard tolerances (ANSI H35.2) for extruded
// tube, seen in two copies; the same for drawn tube, from memory.
func WallTolerance(wall, outside decimal.Decimal, drawn bool) (decimal.Decimal, bool) {
	for _, r := range wallTolerances() {
		if r.drawn == drawn && r.outside.holds(outside) && r.wall.holds(wall) {
			return r.mean.Add(decimal.Min(decimal.Max(wall.Add(r.mean).Mul(r.share), r.least), r.most)), true
		}
	}
	return decimal.Decimal{}, false
}

// wallTolerance is one field of the table of tolerances, in m.
type wallTolerance struct {
	drawn              bool
	outside, wall      interval
	mean               decimal.Decimal // of the mean wall
	share, least, most decimal.Decimal // of a wall at any point from the mean
}

// interval is a range of sizes, with from and without below.
type interval struct{ from, below decimal.Decimal }

func (i interval) holds(x decimal.Decimal) bool { return x.Cmp(i.from) >= 0 && x.Cmp(i.below) < 0 }

var wallTolerances = sync.OnceValue(func() []wallTolerance {
	var list []wallTolerance
	for _, row := range rows.Of(wallTolerancesCSV, 11) {
		list = append(list, wallTolerance{
			drawn:   row[0] == "drawn",
			outside: interval{metres(row[1]), metres(row[2])},
			wall:    interval{metres(row[3]), metres(row[4])},
			mean:    metres(row[5]),
			share:   rows.Must(quantity.Parse(quantity.KindRatio, row[6])).ExactSI(),
			least:   metres(row[7]), most: metres(row[8]),
		})
	}
	return list
})

// metres returns a length of an embedded table.
func metres(text string) decimal.Decimal { return rows.Must(quantity.ParseDimension(text)).Nominal() }
