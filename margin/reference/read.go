package reference

import (
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"math"
	"slices"
	"strconv"
	"strings"

	"casewright/quantity"
	"casewright/quantity/near"
)

var (
	columns  = []string{"id", "quantity", "inputs", "value", "unit", "tolerance_rel", "source", "where_in_source", "status", "note"}
	statuses = []string{"seen", "memory", "solver"}
)

// Table reads the rows of a table of a file system.
func Table(files fs.FS, name string) ([]Row, error) {
	f, err := files.Open(name)
	if err != nil {
		return nil, err
	}
	defer f.Close() //nolint:errcheck // only read
	return Read(f)
}

// Read reads the rows of a table. The error tells of every row that cannot be
// read, by its line, which counts from 1; those that can are returned all the
// same.
func Read(from io.Reader) ([]Row, error) {
	r := csv.NewReader(from)
	r.Comment = '#'
	r.FieldsPerRecord = -1
	head, err := r.Read()
	if err != nil && !errors.Is(err, io.EOF) {
		return nil, unreadable(err)
	}
	if len(head) > 0 {
		head[0] = strings.TrimPrefix(head[0], "\ufeff") // of a spreadsheet
	}
	if !slices.Equal(head, columns) {
		return nil, fmt.Errorf("line 1: the columns must be %s", strings.Join(columns, ","))
	}
	var rows []Row
	var faults []error
	lines := map[string]int{}
	for {
		record, err := r.Read()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			faults = append(faults, unreadable(err))
			break
		}
		line, _ := r.FieldPos(0)
		row, err := parseRow(record)
		row.Line = line
		if first, twice := lines[row.ID]; err == nil && twice {
			err = fmt.Errorf("the id stands twice, first on line %d", first)
		}
		if err != nil {
			faults = append(faults, fmt.Errorf("line %d, row %.40q: %w", line, record[0], err))
			continue
		}
		lines[row.ID] = line
		rows = append(rows, row)
	}
	if rows == nil && faults == nil {
		return nil, errors.New("line 2: no rows")
	}
	return rows, errors.Join(faults...)
}

// unreadable says where a text is no CSV.
func unreadable(err error) error {
	if bad, ok := errors.AsType[*csv.ParseError](err); ok {
		if errors.Is(bad.Err, csv.ErrBareQuote) || errors.Is(bad.Err, csv.ErrQuote) {
			return fmt.Errorf("line %d: a quote stands alone; write \"\" within a quoted field", bad.Line)
		}
		return fmt.Errorf("line %d: %w", bad.Line, bad.Err)
	}
	return err
}

func parseRow(record []string) (Row, error) {
	if len(record) != len(columns) {
		return Row{}, fmt.Errorf("%d fields, want %d (%s); quote a field that holds a comma", len(record), len(columns), strings.Join(columns, ","))
	}
	r := Row{
		ID: record[0], Quantity: record[1], Source: record[6], Where: record[7], Status: record[8], Note: record[9],
		numbers: map[string]float64{}, words: map[string]string{},
	}
	unit, ok := quantity.LookupUnit(record[4])
	switch {
	case r.ID == "" || r.Quantity == "":
		return r, errors.New("id or quantity is missing")
	case r.Source == "" || r.Where == "":
		return r, errors.New("the source is missing; write whose number it is under source, and the page or table under where_in_source")
	case !slices.Contains(statuses, r.Status):
		return r, fmt.Errorf("status %.40q is none of %s", r.Status, strings.Join(statuses, ", "))
	case record[4] == "":
		return r, errors.New(`the unit is missing; write "1" for a ratio or a count`)
	case !ok:
		return r, fmt.Errorf("unknown unit %.40q%s", record[4], nearUnit(record[4]))
	}
	value, err := number(record[3])
	if err != nil {
		return r, fmt.Errorf("value: %w", err)
	}
	r.Unit, r.Value = unit, unit.ToSI(value)
	if r.Tolerance, err = number(record[5]); err != nil {
		return r, fmt.Errorf("tolerance_rel: %w", err)
	}
	if !(r.Tolerance >= 0 && r.Tolerance < 1) {
		return r, fmt.Errorf("tolerance %.40s is not in [0, 1); it is a share of the value, 0.01 for 1 %%", record[5])
	}
	for pair := range strings.SplitSeq(record[2], ";") {
		if pair = strings.TrimSpace(pair); pair == "" {
			continue
		}
		if err := r.input(pair); err != nil {
			return r, err
		}
	}
	return r, r.checkBand()
}

// checkBand refuses half a band and one that nothing lies in.
func (r *Row) checkBand() error {
	low, hasLow := r.numbers["low"]
	high, hasHigh := r.numbers["high"]
	switch {
	case hasLow != hasHigh:
		return errors.New("low and high stand together or not at all")
	case hasLow && !(low > 0 && low <= high):
		return fmt.Errorf("no share of the value lies between %g and %g", low, high)
	case hasLow && r.Value == 0:
		return errors.New("a value of 0 has no shares: low and high do not go with it")
	}
	return nil
}

// input reads one "name=value" pair.
func (r *Row) input(pair string) error {
	name, text, ok := strings.Cut(pair, "=")
	if !ok || name == "" || text == "" {
		return fmt.Errorf("input %.40q is no name=value", pair)
	}
	x, err := number(text)
	isNumber := err == nil
	if i := strings.LastIndexByte(name, '_'); isNumber && i > 0 {
		if unit, ok := quantity.LookupUnit(name[i+1:]); ok {
			name, x = name[:i], unit.ToSI(x)
		}
	}
	_, number := r.numbers[name]
	_, word := r.words[name]
	switch {
	case number || word:
		return fmt.Errorf("input %.40q stands twice", name)
	case isNumber && (math.IsNaN(x) || math.IsInf(x, 0)):
		return fmt.Errorf("input %.40q is too large", pair)
	case isNumber:
		r.numbers[name] = x
	default:
		r.words[name] = text
	}
	return nil
}

func number(text string) (float64, error) {
	x, err := strconv.ParseFloat(text, 64)
	if err != nil || math.IsNaN(x) || math.IsInf(x, 0) {
		return 0, fmt.Errorf("%.40q is no finite number", text)
	}
	return x, nil
}

// nearUnit says which unit was likely meant.
func nearUnit(symbol string) string {
	var known []string
	for k := quantity.Kind(0); k.SI() != ""; k++ {
		for _, u := range quantity.Units(k) {
			known = append(known, u.Symbol())
		}
	}
	if match, ok := near.Match(symbol, known); ok {
		return fmt.Sprintf("; write %q", match)
	}
	return ""
}
