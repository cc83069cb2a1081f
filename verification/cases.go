package verification

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"math"
	"slices"
	"strings"
	"sync"

	"casewright"
	"casewright/margin/reference"
	"casewright/materials"
	"casewright/quantity/near"
	tables "casewright/testdata/reference"
)

// A Case is a row of a table and what casewright computes for it.
type Case struct {
	reference.Row
	Table   string   // the file
	Methods []string // ids of the checks that rest on it
	Got     float64  // in SI; NaN where nothing could be computed
	// Off is the computed number over the row's, less 1; the difference where the
	// row's is 0; NaN where there is no such number.
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
// names.
func Run(files fs.FS) ([]Case, error) {
	names, err := fs.Glob(files, "*.csv")
	if err != nil {
		return nil, err
	}
	var list []Case
	var faults []error
	for _, name := range names {
		cases, err := table(files, name)
		if err != nil {
			faults = append(faults, fmt.Errorf("%s: %w", name, err))
		}
		list = append(list, cases...)
	}
	return list, errors.Join(faults...)
}

func table(files fs.FS, name string) ([]Case, error) {
	f, err := files.Open(name)
	if err != nil {
		return nil, err
	}
	defer f.Close() //nolint:errcheck // only read
	return Table(f, name)
}

// Table computes the rows of one table, which has this name. Where rows cannot
// be read or computed the error is a [reference.Faults], and the other rows are
// returned all the same.
func Table(from io.Reader, name string) ([]Case, error) {
	rows, err := reference.Read(from)
	faults, ok := errors.AsType[reference.Faults](err)
	if err != nil && !ok {
		return nil, err
	}
	var list []Case
	for _, row := range rows {
		c, err := compute(row, name)
		if err != nil {
			faults = append(faults, reference.Fault{Line: row.Line, ID: row.ID, Err: err})
			continue
		}
		list = append(list, c)
	}
	if faults == nil {
		return list, nil
	}
	slices.SortStableFunc(faults, func(a, b reference.Fault) int { return a.Line - b.Line })
	return list, faults
}

func compute(row reference.Row, table string) (Case, error) {
	n, ok := numbers()[row.Quantity]
	if !ok {
		n, ok = property(&row)
	}
	switch kind, sum := kindOf(row.Quantity); {
	case !ok && row.HasText("property"):
		return Case{}, noProperty(row.Text("property"))
	case !ok:
		return Case{}, unknown(row.Quantity)
	case sum && row.Unit.Kind().SI() != kind.SI():
		return Case{}, fmt.Errorf("%q is measured in %s, not in %s", row.Quantity, kind.SI(), row.Unit.Symbol())
	}
	c := Case{Row: row, Table: table, Methods: n.Methods}
	c.Got = n.Compute(&c.Row)
	if missing := c.Row.Missing(); missing != nil {
		return Case{}, lacks(&row, missing)
	}
	if c.Refused() {
		c.Got, c.Off, c.Pass = math.NaN(), math.NaN(), c.MustRefuse()
		return c, nil
	}
	c.Got = finite(c.Got)
	c.Off, c.Pass = finite(c.Row.Off(c.Got)), c.Row.Holds(c.Got) && !c.MustRefuse()
	return c, nil
}

// finite is NaN for what is infinite: that is no number either.
func finite(x float64) float64 {
	if math.IsInf(x, 0) {
		return math.NaN()
	}
	return x
}

// lacks names the inputs that are not there, and those that may be meant.
func lacks(row *reference.Row, missing []string) error {
	slices.Sort(missing)
	missing = slices.Compact(missing)
	text := fmt.Sprintf("%q needs the inputs %s", row.Quantity, strings.Join(missing, ", "))
	for _, given := range row.Inputs() {
		for _, name := range missing {
			if strings.HasPrefix(given, name+"_") {
				text += fmt.Sprintf("; %.40q ends in no unit", given)
			}
		}
	}
	return errors.New(text)
}

// noProperty says which property was likely meant.
func noProperty(key string) error {
	var keys []string
	for p := range materials.NumProperties {
		keys = append(keys, p.Key())
	}
	text := fmt.Sprintf("%.40q is no property of a material", key)
	if match, ok := near.Match(key, keys); ok {
		return fmt.Errorf("%s; write %q", text, match)
	}
	return fmt.Errorf("%s; there are %s", text, strings.Join(keys, ", "))
}

// unknown says which number was likely meant.
func unknown(name string) error {
	text := fmt.Sprintf("%.60q is no number that casewright computes", name)
	if match, ok := near.Match(name, Names()); ok {
		return fmt.Errorf("%s; write %q", text, match)
	}
	for _, sum := range sums {
		id, ok := strings.CutPrefix(name, sum)
		if !ok {
			continue
		}
		if m := casewright.FindMethod(id); m != nil { // the other kind of check
			return fmt.Errorf("%s; write %q or %q", text, sumsOf(m)[0]+id, sumsOf(m)[1]+id)
		}
		var ids []string
		for _, m := range casewright.Methods() {
			ids = append(ids, m.ID)
		}
		if match, ok := near.Match(id, ids); ok {
			return fmt.Errorf("%s; the check is %q", text, match)
		}
	}
	return fmt.Errorf("%s; README tells what may stand there", text)
}

// Evidence sums up some cases.
type Evidence struct {
	Rows, Seen, Solver, Memory, Failed int
	Agree                              int     // rows that must agree; others lie in a band
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
		if c.Agrees() {
			e.Agree++
		}
		if c.Agrees() && !math.IsNaN(c.Off) {
			e.Worst = math.Max(e.Worst, math.Abs(c.Off))
		}
	}
	return e
}

// For sums up the rows of casewright's own tables that a check rests on.
func For(id string) Evidence { return Sum(Of(Cases(), id)) }

// Enough tells that there is enough to rest on: three rows or more, one of them
// seen in its source or solved.
func (e Evidence) Enough() bool { return e.Rows >= 3 && e.Seen+e.Solver >= 1 }

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
