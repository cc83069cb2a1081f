package fastener

import (
	_ "embed"
	"math"
	"strconv"
	"strings"
	"sync"

	"github.com/shopspring/decimal"

	"casewright/quantity"
	"casewright/quantity/rows"
)

//go:embed threads.csv
var threadsCSV string

// A Thread is a standard screw thread, with its basic sizes.
type Thread struct {
	Name   string // "M5x0.8", "10-32 UNF", "1/4-20 UNC"
	Metric bool   // an ISO metric thread; else a unified inch thread
	Coarse bool   // the coarse pitch of its diameter

	Diameter       decimal.Decimal // nominal (basic major) diameter d, m, exact
	Pitch          decimal.Decimal // P of a metric thread, m, exact; 0 of a unified one
	ThreadsPerInch int             // n of a unified thread; 0 of a metric one

	Source string // of diameter and pitch
	Status string // "seen" in the copy named, or "memory": remembered, not looked up
}

// Threads returns all threads: metric from M2 to M12, then unified from #4 to
// 1/2 in, each by rising diameter and the coarse pitch first. Sources: ISO 261
// and ISO 262; ASME B1.1.
func Threads() []Thread {
	var list []Thread
	for _, row := range threadRows().rows {
		list = append(list, readThread(row))
	}
	return list
}

// ThreadNames returns the names of all threads, in the order of [Threads].
func ThreadNames() []string { return threadRows().names() }

// ThreadSpellings returns all that [LookupThread] knows a thread by: its name,
// and that without the pitch or the series where the rest is enough. Case,
// blanks, a # before them and zeros at the end of a decimal are left to it.
func ThreadSpellings() []string { return threadRows().spellings(threadKeys) }

// LookupThread returns the thread of a designation: "M5x0.8", "M5×0.8", or
// "M5" for the coarse pitch; "10-32 UNF", "#10-32" or "1/4-20". Case, blanks
// and trailing zeros of a decimal do not matter.
func LookupThread(text string) (Thread, bool) {
	row, ok := threadRows().byKey[threadKey(text)]
	if !ok {
		return Thread{}, false
	}
	return readThread(row), true
}

// StressArea returns the tensile stress area A_s, in m².
//
//	metric:  A_s = π/4 (d − 0.9382 P)²
//	unified: A_s = 0.7854 (D − 0.9743/n)²
//
// d, D: nominal diameter; P: pitch; n: threads per inch, for D in inches.
// Sources: ISO 898-1; ASME B1.1 appendix B.
func (t Thread) StressArea() quantity.Area {
	if t.Metric {
		d := float64(quantity.LengthOf(t.Diameter)) - 0.9382*t.pitch()
		return quantity.Area(math.Pi / 4 * d * d)
	}
	d := float64(quantity.LengthOf(t.Diameter)) - 0.9743*t.pitch()
	return quantity.Area(0.7854 * d * d)
}

// ShankArea returns the area of the plain shank at its nominal diameter,
// π d²/4, in m². A shank rolled to the pitch diameter is thinner. Source:
// geometry.
func (t Thread) ShankArea() quantity.Area {
	d := float64(quantity.LengthOf(t.Diameter))
	return quantity.Area(math.Pi / 4 * d * d)
}

// MinorDiameter returns the minor diameter of the screw, d_3 = d − 1.22687 P
// with P = 1/n of a unified thread, in m: a rounded root 17/24 H deep, without
// tolerance or allowance. Sources, from memory: ISO 898-1 (d_3 = d_1 − H/6);
// ASME B1.1, whose later editions have a root less deep.
func (t Thread) MinorDiameter() quantity.Length {
	return quantity.LengthOf(t.Diameter) - quantity.Length(1.22687*t.pitch())
}

// CoreArea returns the area at the minor diameter, π d_3²/4, in m². Source:
// see [Thread.MinorDiameter].
func (t Thread) CoreArea() quantity.Area {
	d := float64(t.MinorDiameter())
	return quantity.Area(math.Pi / 4 * d * d)
}

// pitch returns the pitch in m. Of a unified thread it need not be a decimal
// that ends, so it is no exact number as the rest. The zero Thread has none.
func (t Thread) pitch() float64 {
	if t.ThreadsPerInch != 0 {
		return float64(quantity.Inch) / float64(t.ThreadsPerInch)
	}
	return float64(quantity.LengthOf(t.Pitch))
}

// table is an embedded table: its rows, and the keys by which they are
// searched. A row is read when it is asked for: a check needs one of them.
type table struct {
	rows  [][]string
	byKey map[string][]string
}

func index(rows [][]string, keys func(row []string) []string) table {
	t := table{rows: rows, byKey: make(map[string][]string, 2*len(rows))}
	for _, row := range rows {
		for _, key := range keys(row) {
			t.byKey[key] = row
		}
	}
	return t
}

// names returns the first field of every row.
func (t table) names() []string {
	list := make([]string, len(t.rows))
	for i, row := range t.rows {
		list[i] = row[0]
	}
	return list
}

// spellings returns the keys of every row.
func (t table) spellings(keys func(row []string) []string) []string {
	var list []string
	for _, row := range t.rows {
		list = append(list, keys(row)...)
	}
	return list
}

var threadRows = sync.OnceValue(func() table { return index(rows.Of(threadsCSV, 7), threadKeys) })

// threadKeys are the spellings of a thread: whole, and without the pitch of a
// coarse metric thread or the series of a unified one.
func threadKeys(row []string) []string {
	keys := []string{threadKey(row[0])}
	switch metric := row[3] != ""; {
	case !metric:
		short, _, _ := strings.Cut(row[0], " ")
		keys = append(keys, threadKey(short))
	case row[1] == "coarse":
		short, _, _ := strings.Cut(row[0], "x")
		keys = append(keys, threadKey(short))
	}
	return keys
}

// readThread reads one row of the table.
func readThread(row []string) Thread {
	t := Thread{
		Name:     row[0],
		Coarse:   row[1] == "coarse",
		Diameter: rows.Must(quantity.ParseDimension(row[2])).Nominal(),
		Metric:   row[3] != "",
		Source:   row[5],
		Status:   row[6],
	}
	if t.Metric {
		t.Pitch = rows.Must(quantity.ParseDimension(row[3])).Nominal()
	} else {
		t.ThreadsPerInch = rows.Must(strconv.Atoi(row[4]))
	}
	return t
}

// threadKey reduces a designation to one spelling: "M5 × 0.80" to "m5x0.8".
func threadKey(text string) string {
	key := strings.TrimPrefix(rows.Fold(strings.ReplaceAll(text, "×", "x")), "#")
	size, isMetric := strings.CutPrefix(key, "m")
	if !isMetric {
		return key
	}
	diameter, pitch, hasPitch := strings.Cut(size, "x")
	if !hasPitch {
		return "m" + plain(diameter)
	}
	return "m" + plain(diameter) + "x" + plain(pitch)
}

// plain writes a decimal without the zeros that do not count: "1.50", ".8".
func plain(number string) string {
	if strings.HasPrefix(number, ".") {
		number = "0" + number
	}
	if strings.Contains(number, ".") {
		number = strings.TrimSuffix(strings.TrimRight(number, "0"), ".")
	}
	return number
}
