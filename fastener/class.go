package fastener

import (
	_ "embed"
	"math"
	"strings"
	"sync"

	"casewright/margin"
	"casewright/quantity"
	"casewright/quantity/rows"
)

//go:embed classes.csv
var classesCSV string

//go:embed steel_at_temperature.csv
var steelCSV string

// A Class is a strength class of screws: what the standard promises at 20 °C
// of every screw so marked.
type Class struct {
	Name string // "12.9", "A2-70", "SAE 5", "ASTM A574"

	Ultimate quantity.Pressure // minimum tensile strength R_m, Pa
	Yield    quantity.Pressure // minimum yield or 0.2 % proof strength, Pa
	Proof    quantity.Pressure // proof stress S_p, Pa; 0 where the standard gives none

	ShearThreads float64 // α_v, shear over tensile strength, threads in the plane; 0.5 or 0.6
	ShearShank   float64 // α_v with the plain shank in the plane; 0.6
	ByAnalogy    bool    // ShearThreads is taken from a like class of EN 1993-1-8

	LowDuctility bool   // breaks before it gives way much: 12.9, ASTM A574
	Curve        string // what it loses when hot: "" carbon or alloy steel, "304" or "316" stainless

	MinDiameter quantity.Length // least nominal diameter for which these hold, m, included
	MaxDiameter quantity.Length // greatest nominal diameter for which these hold, m, included

	Standard string // that defines the class
	Source   string // of the strengths
	Status   string // "seen" in the copy named, or "memory": remembered, not looked up

	ShearSource string // of ShearThreads and ShearShank
	ShearStatus string // as Status
}

// Classes returns all classes. Sources: ISO 898-1, ISO 3506-1, SAE J429 and
// ASTM A574 for the strengths; EN 1993-1-8 table 3.4 and EN 1993-1-4 6.2 for
// the shear factors; which of these were seen stands in each class.
func Classes() []Class {
	var list []Class
	for _, row := range classRows().rows {
		list = append(list, readClass(row))
	}
	return list
}

// ClassNames returns the names of all classes, in the order of [Classes].
func ClassNames() []string { return classRows().names() }

// ClassSpellings returns all that [LookupClass] knows a class by, without
// blanks and capitals, which are left to it.
func ClassSpellings() []string { return classRows().spellings(classKeys) }

// LookupClass returns the class of a name: "12.9", "A2-70", "SAE 5", "SAE
// grade 5", "ASTM A574" or "A574". Case and blanks do not matter.
func LookupClass(name string) (Class, bool) {
	row, ok := classRows().byKey[rows.Fold(name)]
	if !ok {
		return Class{}, false
	}
	return readClass(row), true
}

// SteelStrengthRatio returns the strength of a carbon or alloy steel screw at
// temperature t over that at 20 °C: 1 up to 20 °C, then linear between the
// points of the table. Below −40 °C, where screws may be brittle and nothing is
// tabulated, and above 300 °C it is refused, and NaN. Sources: EN 1993-1-2
// table D.1, from memory; 1 below 20 °C: common practice, no source.
func SteelStrengthRatio(t quantity.Temperature) (float64, margin.Reason) {
	points := steel()
	last := points[len(points)-1]
	if !(t >= quantity.Celsius(-40) && t <= last.at) {
		return math.NaN(), margin.ScrewTemperature
	}
	for i, p := range points {
		switch {
		case t > p.at:
		case i == 0:
			return p.ratio, margin.None
		default:
			from := points[i-1]
			part := float64((t - from.at) / (p.at - from.at))
			return from.ratio + part*(p.ratio-from.ratio), margin.None
		}
	}
	return last.ratio, margin.None
}

// steelPoint is one point of the curve of carbon and alloy steel screws.
type steelPoint struct {
	at    quantity.Temperature
	ratio float64
}

var steel = sync.OnceValue(func() []steelPoint {
	var points []steelPoint
	for _, row := range rows.Of(steelCSV, 4) {
		points = append(points, steelPoint{
			at:    quantity.Temperature(value(quantity.KindTemperature, row[0])),
			ratio: value(quantity.KindRatio, row[1]),
		})
	}
	return points
})

// classRows are the rows of the table and the keys by which they are searched.
var classRows = sync.OnceValue(func() table { return index(rows.Of(classesCSV, 16), classKeys) })

// classKeys are the spellings of a class: "SAE 5" and "SAE grade 5", and "A574"
// of "ASTM A574".
func classKeys(row []string) []string {
	key := rows.Fold(row[0])
	if grade, ok := strings.CutPrefix(key, "sae"); ok {
		return []string{key, "saegrade" + grade}
	}
	return []string{key, strings.TrimPrefix(key, "astm")}
}

// readClass reads one row of the table.
func readClass(row []string) Class {
	c := Class{
		Name:         row[0],
		Ultimate:     quantity.Pressure(value(quantity.KindPressure, row[1])),
		Yield:        quantity.Pressure(value(quantity.KindPressure, row[2])),
		ShearThreads: value(quantity.KindRatio, row[4]),
		ShearShank:   value(quantity.KindRatio, row[5]),
		ByAnalogy:    row[6] == "yes",
		LowDuctility: row[7] == "yes",
		Curve:        row[8],
		MinDiameter:  quantity.Length(value(quantity.KindLength, row[9])),
		MaxDiameter:  quantity.Length(value(quantity.KindLength, row[10])),
		Standard:     row[11],
		Source:       row[12],
		Status:       row[13],
		ShearSource:  row[14],
		ShearStatus:  row[15],
	}
	if row[3] != "" {
		c.Proof = quantity.Pressure(value(quantity.KindPressure, row[3]))
	}
	return c
}

// value returns an amount of an embedded table in SI.
func value(k quantity.Kind, text string) float64 {
	return rows.Must(quantity.Parse(k, text)).SI()
}
