package verification

import (
	"errors"
	"fmt"
	"io/fs"
	"math"
	"strings"
	"sync"

	"casewright/margin/reference"
	"casewright/quantity/near"
	tables "casewright/testdata/reference"
)

// A Case is a row of a table and what casewright computes for it.
type Case struct {
	reference.Row
	Table   string   // the file
	Methods []string // ids of the checks that rest on it
	Got     float64  // in SI; NaN where nothing could be computed
	Refused bool     // rightly refused: there is no number
	// Off is the computed number over the row's, less 1; the difference where the
	// row's is 0.
	Off  float64
	Pass bool
}

// Cases computes the rows of the tables that belong to casewright.
func Cases() []Case { return built() }

var built = sync.OnceValue(func() []Case {
	list, err := Run(tables.Files)
	if err != nil {
		panic("verification: " + err.Error()) // a test meets it first
	}
	return list
})

// Run computes the rows of all tables of a file system, in the order of their
// names. The error tells of every row that cannot be read or computed.
func Run(files fs.FS) ([]Case, error) {
	names, err := fs.Glob(files, "*.csv")
	if err != nil {
		return nil, err
	}
	var list []Case
	var faults []error
	for _, name := range names {
		cases, err := Table(files, name)
		list, faults = append(list, cases...), append(faults, err)
	}
	return list, errors.Join(faults...)
}

// Table computes the rows of one table. The error tells of every row that
// cannot be read or computed.
func Table(files fs.FS, name string) ([]Case, error) {
	f, err := files.Open(name)
	if err != nil {
		return nil, err
	}
	defer f.Close() //nolint:errcheck // only read
	rows, err := reference.Read(f)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	var list []Case
	var faults []error
	for _, row := range rows {
		c, err := compute(row, name)
		if err != nil {
			faults = append(faults, fmt.Errorf("%s, row %s: %w", name, row.ID, err))
			continue
		}
		list = append(list, c)
	}
	return list, errors.Join(faults...)
}

func compute(row reference.Row, table string) (Case, error) {
	n, ok := numbers()[row.Quantity]
	if !ok {
		n, ok = property(&row)
	}
	if !ok {
		text := fmt.Sprintf("%q is no number that casewright computes", row.Quantity)
		if match, ok := near.Match(row.Quantity, Names()); ok {
			text += fmt.Sprintf("; write %q", match)
		}
		return Case{}, errors.New(text)
	}
	c := Case{Row: row, Table: table, Methods: n.Methods}
	c.Got = n.Compute(&c.Row)
	if missing := c.Row.Missing(); missing != nil {
		return Case{}, fmt.Errorf("%q needs the inputs %s", row.Quantity, strings.Join(missing, ", "))
	}
	switch {
	case math.IsInf(c.Got, -1):
		c.Refused, c.Pass, c.Got, c.Off = true, true, math.NaN(), 0
	default:
		c.Off, c.Pass = c.Row.Off(c.Got), c.Row.Holds(c.Got)
	}
	return c, nil
}

// Evidence sums up some cases.
type Evidence struct {
	Rows, Seen, Solver, Memory, Failed int
	Worst                              float64 // largest deviation of those that must agree
}

// Sum sums up cases.
func Sum(list []Case) Evidence {
	var e Evidence
	for i := range list {
		c := &list[i]
		e.Rows++
		switch c.Status {
		case "seen":
			e.Seen++
		case "solver":
			e.Solver++
		default:
			e.Memory++
		}
		if !c.Pass {
			e.Failed++
		}
		if c.Agrees() && !c.Refused {
			e.Worst = math.Max(e.Worst, math.Abs(c.Off))
		}
	}
	return e
}

// Of returns the cases that a check rests on.
func Of(list []Case, id string) []Case {
	var of []Case
	for _, c := range list {
		for _, m := range c.Methods {
			if m == id {
				of = append(of, c)
				break
			}
		}
	}
	return of
}
