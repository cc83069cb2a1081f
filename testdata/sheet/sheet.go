// Package sheet makes design files for tests: from lines, and at random.
package sheet

import (
	"fmt"
	"slices"
	"strings"

	"github.com/shopspring/decimal"
)

// A Sheet is a design file as tests make it and change it.
type Sheet struct{ Cells []Cell }

// A Cell is one key of a sheet. Of the two ends the tables are end1, end1.seal
// and so on.
type Cell struct {
	Table, Key string
	Text       string // the value as written, quotes included
	Size       *Size  // where it is a length
}

// A Size is a length with its tolerance, in its unit.
type Size struct {
	Nominal, Lower, Upper decimal.Decimal
	Unit                  string
}

func (z Size) String() string {
	switch {
	case z.Lower.IsZero() && z.Upper.IsZero():
		return z.Nominal.String() + " " + z.Unit
	case z.Lower.Neg().Equal(z.Upper):
		return z.Nominal.String() + " ±" + z.Upper.String() + " " + z.Unit
	}
	signed := func(d decimal.Decimal) string {
		if d.Sign() < 0 {
			return d.String()
		}
		return "+" + d.String()
	}
	return fmt.Sprintf("%s %s/%s %s", z.Nominal, signed(z.Upper), signed(z.Lower), z.Unit)
}

var sheetTables = []string{
	"motor", "factors", "limits", "tube", "material",
	"end1", "end1.seal", "end1.screws", "end2", "end2.seal", "end2.screws",
}

// String is the text of the design file.
func (s *Sheet) String() string {
	var b strings.Builder
	b.WriteString("format = 1\n")
	for _, table := range sheetTables {
		headed := false
		for _, c := range s.Cells {
			if c.Table != table {
				continue
			}
			if !headed {
				headed = true
				header := strings.NewReplacer("end1", "end", "end2", "end").Replace(table)
				if header == "end" || header == "material" {
					header = "[" + header + "]"
				}
				fmt.Fprintf(&b, "[%s]\n", header)
			}
			fmt.Fprintf(&b, "%s = %s\n", c.Key, c.Text)
		}
	}
	return b.String()
}

// Of makes a sheet of lines such as `end1.screws.count = 8`.
func Of(lines string) *Sheet {
	s := &Sheet{}
	return s.With(strings.Split(strings.TrimSpace(lines), "\n")...)
}

// With returns a copy with other values; a line without a value deletes its key.
func (s *Sheet) With(lines ...string) *Sheet {
	c := &Sheet{slices.Clone(s.Cells)}
	for _, line := range lines {
		path, text, ok := strings.Cut(strings.TrimSpace(line), " =")
		table, key := "limits", strings.TrimPrefix(path, "limits.")
		if key == path {
			dot := strings.LastIndexByte(path, '.')
			table, key = path[:dot], path[dot+1:]
		}
		if !ok {
			panic("no value: " + line)
		}
		c.Set(Cell{Table: table, Key: key, Text: strings.TrimSpace(text)})
	}
	return c
}

// Set sets a key; an empty text deletes it.
func (s *Sheet) Set(c Cell) {
	i := slices.IndexFunc(s.Cells, func(other Cell) bool { return other.Table == c.Table && other.Key == c.Key })
	switch {
	case i < 0 && c.Text != "":
		s.Cells = append(s.Cells, c)
	case i >= 0 && c.Text == "":
		s.Cells = slices.Delete(s.Cells, i, i+1)
	case i >= 0:
		s.Cells[i] = c
	}
}
