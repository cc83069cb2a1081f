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

// A Fault is what is wrong with a line of a table.
type Fault struct {
	Line int    // from 1
	ID   string // of the row, where it has one
	Err  error
}

// Error tells the line, the row and what is wrong.
func (f Fault) Error() string {
	if f.ID == "" {
		return fmt.Sprintf("line %d: %v", f.Line, f.Err)
	}
	return fmt.Sprintf("line %d, row %.40q: %v", f.Line, f.ID, f.Err)
}

// Unwrap returns what is wrong.
func (f Fault) Unwrap() error { return f.Err }

// Faults are all that is wrong with a table, in the order of its lines.
type Faults []Fault

// Error tells them all, a line each.
func (f Faults) Error() string {
	var b strings.Builder
	for i, fault := range f {
		if i > 0 {
			b.WriteByte('\n')
		}
		b.WriteString(fault.Error())
	}
	return b.String()
}

// Table reads the rows of a table of a file system.
func Table(files fs.FS, name string) ([]Row, error) {
	f, err := files.Open(name)
	if err != nil {
		return nil, err
	}
	defer f.Close() //nolint:errcheck // only read
	return Read(f)
}

// Read reads the rows of a table. Where the table is at fault the error is a
// [Faults], and the rows that can be read are returned all the same.
func Read(from io.Reader) ([]Row, error) {
	r := csv.NewReader(from)
	r.Comment = '#'
	r.FieldsPerRecord = -1
	head, err := r.Read()
	if err != nil && !errors.Is(err, io.EOF) {
		return nil, asFaults(nil, err)
	}
	if len(head) > 0 {
		head[0] = strings.TrimPrefix(head[0], "\ufeff") // of a spreadsheet
	}
	if !slices.Equal(head, columns) {
		return nil, Faults{{1, "", fmt.Errorf("the columns must be %s", strings.Join(columns, ","))}}
	}
	var rows []Row
	var faults Faults
	lines := map[string]int{}
	for {
		record, err := r.Read()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			return rows, asFaults(faults, err)
		}
		line, _ := r.FieldPos(0)
		row, err := parseRow(record)
		row.Line = line
		if first, twice := lines[row.ID]; err == nil && twice {
			err = fmt.Errorf("the id stands twice, first on line %d", first)
		}
		if err != nil {
			faults = append(faults, Fault{line, record[0], err})
			continue
		}
		lines[row.ID] = line
		rows = append(rows, row)
	}
	switch {
	case faults != nil:
		return rows, faults
	case rows == nil:
		return nil, Faults{{2, "", errors.New("there are no rows")}}
	}
	return rows, nil
}

// asFaults adds where a text is no CSV; what the system says stands alone.
func asFaults(faults Faults, err error) error {
	bad, ok := errors.AsType[*csv.ParseError](err)
	if !ok {
		return err
	}
	what := bad.Err
	if errors.Is(what, csv.ErrBareQuote) || errors.Is(what, csv.ErrQuote) {
		what = errors.New(`a quote stands alone; write "" for one within a quoted field`)
	}
	return append(faults, Fault{bad.Line, "", what})
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
	if math.IsInf(r.Value, 0) {
		return r, fmt.Errorf("value %.40s %s is too large", record[3], record[4])
	}
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
