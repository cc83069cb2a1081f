// Package reference reads the tables of published and solved numbers against
// which the formulas are tested. It serves tests only.
//
// A table is a CSV file with the columns
//
//	id,quantity,inputs,value,unit,tolerance_rel,source,where_in_source,status,note
//
// inputs are "name=value" pairs parted by "; ". A name ends in the unit of its
// value, "p_MPa=5", and is then asked for without it, "p"; without a unit the
// value is a ratio, a count or a word. tolerance_rel is relative, as a rule
// half of the last printed digit; 0 stands for an exact entry. status is
// "seen" (read in a copy of the source), "memory" (remembered, not looked up)
// or "solver" (computed with a general solver).
package reference

import (
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"math"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"

	"casewright/quantity"
)

// A Row is one number from outside the project, and where it comes from.
type Row struct {
	ID       string
	Quantity string // what the number is; a test has one check for each
	Value    float64
	Unit     quantity.Unit // in which Value is printed; Value itself is in SI
	// Tolerance is the relative difference that passes; 0 for an exact entry.
	Tolerance float64

	Source, Where, Status, Note string

	numbers map[string]float64 // in SI, by name without unit
	words   map[string]string
	missing []string
}

// Input returns an input in SI, by its name without the unit. It fails the
// test where the row has no such number.
func (r Row) Input(t testing.TB, name string) float64 {
	t.Helper()
	x, ok := r.numbers[name]
	if !ok {
		t.Fatalf("%s: no number %q among the inputs", r.ID, name)
	}
	return x
}

// Of returns an input in SI, by its name without the unit. Where the row has no
// such number it is NaN, and [Row.Missing] names it.
func (r *Row) Of(name string) float64 {
	x, ok := r.numbers[name]
	if !ok {
		r.missing = append(r.missing, name)
		return math.NaN()
	}
	return x
}

// Text returns an input that is a name or a word. Where the row has none it is
// empty, and [Row.Missing] names it.
func (r *Row) Text(name string) string {
	w, ok := r.words[name]
	if !ok {
		r.missing = append(r.missing, name)
	}
	return w
}

// Missing names the inputs that were asked for in vain.
func (r *Row) Missing() []string { return r.missing }

// HasText reports whether the row has a word of this name among its inputs.
func (r Row) HasText(name string) bool {
	_, ok := r.words[name]
	return ok
}

// Band returns what a computed number may be of the row's, where the two need
// not agree: the inputs "low" and "high", or what "table" says the row is to
// ours: "at most", "at least" or "near".
func (r Row) Band() (low, high float64, ok bool) {
	switch r.words["table"] {
	case "at most":
		return 0.5, 1, true
	case "at least":
		return 1, 2, true
	case "near":
		return 1 - r.Tolerance, 1.003, true
	}
	low, ok = r.numbers["low"]
	return low, r.numbers["high"], ok
}

// Agrees tells that a computed number must be the row's, within its tolerance.
func (r Row) Agrees() bool {
	_, _, ok := r.Band()
	return !ok
}

// Off is a computed number over the row's, less 1; the difference where the
// row's is 0.
func (r Row) Off(got float64) float64 {
	if r.Value == 0 {
		return got
	}
	return got/r.Value - 1
}

// Holds tells whether a computed number, in SI, is the row's within its
// tolerance or lies in its band.
func (r Row) Holds(got float64) bool {
	if low, high, ok := r.Band(); ok {
		return got >= r.Value*(low-rounding) && got <= r.Value*(high+rounding)
	}
	return math.Abs(got-r.Value) <= max(r.Tolerance, rounding)*math.Abs(r.Value)
}

// Has reports whether the row has a number of this name among its inputs.
func (r Row) Has(name string) bool {
	_, ok := r.numbers[name]
	return ok
}

// Word returns an input that is a name or a word. It fails the test where the
// row has none.
func (r Row) Word(t testing.TB, name string) string {
	t.Helper()
	w, ok := r.words[name]
	if !ok {
		t.Fatalf("%s: no word %q among the inputs", r.ID, name)
	}
	return w
}

// rounding is the relative difference that an exact entry may have from a
// computed number.
const rounding = 1e-12

// Close fails the test unless got, in SI, is the row's value within its
// tolerance.
func (r Row) Close(t testing.TB, got float64) {
	t.Helper()
	if !(math.Abs(got-r.Value) <= max(r.Tolerance, rounding)*math.Abs(r.Value)) {
		t.Errorf("%s %s: got %.7g %s, want %.7g within %.2g %% (%s, %s; %s)", r.ID, r.Quantity,
			r.Unit.FromSI(got), r.Unit.Symbol(), r.Unit.FromSI(r.Value), 100*r.Tolerance, r.Source, r.Where, r.Status)
	}
}

// Load returns the rows of a table. It fails the test where the table has no
// rows, or a row lacks its source or status or cannot be read.
func Load(t testing.TB, path string) []Row {
	t.Helper()
	f, err := os.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := Read(f)
	if err != nil {
		t.Fatalf("%s: %v", path, err)
	}
	return rows
}

// Run gives each row of a table to the check of its quantity, in a subtest
// named by the row's id. It fails the test where a row has no check, and where
// a check finds no row.
func Run(t *testing.T, path string, checks map[string]func(*testing.T, Row)) {
	t.Helper()
	used := map[string]bool{}
	for _, row := range Load(t, path) {
		check, ok := checks[row.Quantity]
		if !ok {
			t.Errorf("%s: no test for %q", row.ID, row.Quantity)
			continue
		}
		used[row.Quantity] = true
		t.Run(row.ID, func(t *testing.T) { check(t, row) })
	}
	for name := range checks {
		if !used[name] {
			t.Errorf("%s: no row for %q", path, name)
		}
	}
}

var columns = []string{"id", "quantity", "inputs", "value", "unit", "tolerance_rel", "source", "where_in_source", "status", "note"}

// Read reads the rows of a table. The error names the row that cannot be read.
func Read(from io.Reader) ([]Row, error) {
	r := csv.NewReader(from)
	r.Comment = '#'
	records, err := r.ReadAll()
	switch {
	case err != nil:
		return nil, err
	case len(records) == 0 || !slices.Equal(records[0], columns):
		return nil, fmt.Errorf("the columns must be %s", strings.Join(columns, ","))
	case len(records) == 1:
		return nil, errors.New("no rows")
	}
	var rows []Row
	ids := map[string]bool{}
	for _, record := range records[1:] {
		row, err := parseRow(record)
		if err == nil && ids[row.ID] {
			err = errors.New("the id stands twice")
		}
		if err != nil {
			return nil, fmt.Errorf("row %q: %w", record[0], err)
		}
		ids[row.ID] = true
		rows = append(rows, row)
	}
	return rows, nil
}

func parseRow(record []string) (Row, error) {
	r := Row{
		ID: record[0], Quantity: record[1], Source: record[6], Where: record[7], Status: record[8], Note: record[9],
		numbers: map[string]float64{}, words: map[string]string{},
	}
	unit, ok := quantity.LookupUnit(record[4])
	switch {
	case r.ID == "" || r.Quantity == "":
		return r, errors.New("id or quantity is missing")
	case r.Source == "" || r.Where == "":
		return r, errors.New("the source is missing")
	case !slices.Contains([]string{"seen", "memory", "solver"}, r.Status):
		return r, fmt.Errorf("status %q is none of seen, memory, solver", r.Status)
	case !ok:
		return r, fmt.Errorf("unknown unit %q", record[4])
	}
	value, err := number(record[3])
	if err != nil {
		return r, err
	}
	r.Unit, r.Value = unit, unit.ToSI(value)
	if r.Tolerance, err = number(record[5]); err != nil {
		return r, err
	}
	if !(r.Tolerance >= 0 && r.Tolerance < 1) {
		return r, fmt.Errorf("tolerance %s is not in [0, 1)", record[5])
	}
	for pair := range strings.SplitSeq(record[2], "; ") {
		if pair == "" {
			continue
		}
		if err := r.input(pair); err != nil {
			return r, err
		}
	}
	return r, nil
}

// input reads one "name=value" pair.
func (r *Row) input(pair string) error {
	name, text, ok := strings.Cut(pair, "=")
	if !ok || name == "" || text == "" {
		return fmt.Errorf("input %q is no name=value", pair)
	}
	_, isNumber := r.numbers[name]
	_, isWord := r.words[name]
	x, err := number(text)
	if err != nil {
		if isNumber || isWord {
			return fmt.Errorf("input %q stands twice", name)
		}
		r.words[name] = text
		return nil
	}
	if i := strings.LastIndexByte(name, '_'); i > 0 {
		if unit, ok := quantity.LookupUnit(name[i+1:]); ok {
			name, x = name[:i], unit.ToSI(x)
			_, isNumber = r.numbers[name]
			_, isWord = r.words[name]
		}
	}
	if isNumber || isWord {
		return fmt.Errorf("input %q stands twice", name)
	}
	r.numbers[name] = x
	return nil
}

func number(text string) (float64, error) {
	x, err := strconv.ParseFloat(text, 64)
	if err != nil || math.IsNaN(x) || math.IsInf(x, 0) {
		return 0, fmt.Errorf("%q is no finite number", text)
	}
	return x, nil
}
