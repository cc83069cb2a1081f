package heat

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"casewright/quantity"
)

// The bounds of a file of courses.
const (
	MostCSVBytes   = 16 << 20
	MostCSVRows    = 1_000_000
	MostCSVColumns = 100
	MostCSVFaults  = 20 // that are told
)

// A CSVFault is one thing that is wrong in a file of courses. Line and Column
// count from 1, the column in letters; both are 0 where the fault has no place.
type CSVFault struct {
	Line, Column int
	Why          string
	Write        string // what to write instead, or to do
}

// Error gives place, reason and remedy.
func (f *CSVFault) Error() string {
	text := f.Why + "; " + f.Write
	if f.Line == 0 {
		return text
	}
	return fmt.Sprintf("%d:%d: %s", f.Line, f.Column, text)
}

// CSVFaults are what is wrong in a file of courses, in its order; at most
// [MostCSVFaults] of them.
type CSVFaults []*CSVFault

// Error gives one fault a line.
func (f CSVFaults) Error() string {
	lines := make([]string, len(f))
	for i, one := range f {
		lines[i] = one.Error()
	}
	return strings.Join(lines, "\n")
}

// ReadCourses reads what thermocouples told, from a file in UTF-8 of at most 16
// MB and a million rows:
//
//	time (s),wall_outside (°C),nozzle/gland (K)
//	0,21.3,294.5
//	0.5,21.4,
//
// The header tells the time with s, ms or min, and the places with °C, K or °F:
// one of the motor, or one of an end after its name, as in ends, and a slash.
// Times are those after ignition and do not decrease; an empty cell is a gap.
// Where the header is divided by semicolons, so are all rows, and decimals have
// a comma; else commas divide, and decimals have a point. Sigma is left 0. The
// error is [CSVFaults], or what the reader met.
func ReadCourses(r io.Reader, ends []string) ([]Course, error) {
	text, err := io.ReadAll(io.LimitReader(r, MostCSVBytes+1))
	if err != nil {
		return nil, err
	}
	t := &table{text: bytes.TrimPrefix(text, []byte("\ufeff"))}
	switch {
	case len(text) > MostCSVBytes:
		t.fail(0, 0, "the file has more than 16 MB", "leave out rows")
	case !utf8.Valid(t.text):
		t.notText()
	default:
		t.read(ends)
	}
	if t.faults != nil {
		return nil, t.faults
	}
	return t.courses, nil
}

// A table is a file of courses that is being read.
type table struct {
	text    []byte
	records *csv.Reader
	comma   bool // decimals have a comma

	time    quantity.Unit
	units   []quantity.Unit // of each column; the first is not used
	courses []Course        // of each column after the first
	last    float64         // time, s
	faults  CSVFaults
}

// fail notes a fault at a line and a column in bytes.
func (t *table) fail(line, column int, why, write string) {
	if len(t.faults) == MostCSVFaults {
		return
	}
	if line > 0 {
		// Columns are counted in letters.
		rest := t.text
		for range line - 1 {
			_, rest, _ = bytes.Cut(rest, []byte("\n"))
		}
		rest, _, _ = bytes.Cut(rest, []byte("\n"))
		column = 1 + utf8.RuneCount(rest[:min(max(column-1, 0), len(rest))])
	}
	t.faults = append(t.faults, &CSVFault{line, column, why, write})
}

// cell notes a fault at a cell of the record read last.
func (t *table) cell(i int, why, write string) {
	line, column := t.records.FieldPos(i)
	t.fail(line, column, why, write)
}

// notText tells where a file is not UTF-8.
func (t *table) notText() {
	line, from, at := 1, 0, 0
	for at < len(t.text) {
		r, size := utf8.DecodeRune(t.text[at:])
		if r == utf8.RuneError && size == 1 {
			break
		}
		if at += size; r == '\n' {
			line, from = line+1, at
		}
	}
	t.fail(line, at-from+1, "this is not UTF-8", "save the file as CSV in UTF-8")
}

func (t *table) read(ends []string) {
	t.records = csv.NewReader(bytes.NewReader(t.text))
	t.records.FieldsPerRecord, t.records.ReuseRecord = -1, true
	if t.comma = semicolons(t.text); t.comma {
		t.records.Comma = ';'
	}
	rows := -1
	for len(t.faults) < MostCSVFaults {
		record, err := t.records.Read()
		var broken *csv.ParseError
		switch {
		case errors.Is(err, io.EOF):
			t.finish(rows)
			return
		case errors.As(err, &broken):
			if broken.Line > broken.StartLine { // a quotation mark that was never closed
				broken.Line, broken.Column = broken.StartLine, 1
			}
			t.fail(broken.Line, broken.Column, "a quotation mark stands where none may", `write numbers without, and names that need it as "a name"`)
			if rows < 0 {
				return
			}
			continue
		case err != nil:
			t.fail(0, 0, err.Error(), "save the file anew")
			return
		}
		if rows++; rows == 0 {
			if t.header(record, ends); t.faults != nil {
				return // the rows would be taken for what they are not
			}
			continue
		}
		if rows > MostCSVRows {
			t.cell(0, "the file has more than a million rows", "leave out rows")
			return
		}
		t.row(record)
	}
}

// semicolons tells whether a header is divided by semicolons; those within
// quotation marks divide nothing.
func semicolons(text []byte) bool {
	quoted := false
	for _, b := range text {
		switch {
		case b == '"':
			quoted = !quoted
		case quoted:
		case b == ';':
			return true
		case b == '\n':
			return false
		}
	}
	return false
}

// header reads the first row.
func (t *table) header(record []string, ends []string) {
	if len(record) > MostCSVColumns {
		t.cell(MostCSVColumns, fmt.Sprintf("there are %d columns", len(record)), fmt.Sprintf("leave at most %d", MostCSVColumns))
		return
	}
	names, places := placeNames(ends)
	t.units, t.courses = make([]quantity.Unit, len(record)), make([]Course, len(record)-1)
	for i, text := range record {
		name, unit := split(text)
		if i == 0 {
			var ok bool
			if t.time, ok = quantity.KindTime.Unit(unit); name != "time" || !ok {
				t.cell(0, fmt.Sprintf("the first column is %.40q", text), `write "time (s)", "time (ms)" or "time (min)"`)
			}
			continue
		}
		at := slices.Index(names, name)
		if at < 0 {
			t.cell(i, fmt.Sprintf("%.40q is no place whose temperature is computed", name), "write one of "+strings.Join(names, ", "))
			continue
		}
		var ok bool
		if t.units[i], ok = quantity.KindTemperature.Unit(unit); !ok {
			t.cell(i, fmt.Sprintf("%.40q has no unit of temperature", text), fmt.Sprintf(`write "%s (°C)", "%s (K)" or "%s (°F)"`, name, name, name))
		}
		t.courses[i-1].Place = places[at]
	}
	if len(record) < 2 {
		t.cell(0, "there is no column of temperatures", `write a header as "time (s),wall_outside (°C)", divided by commas or semicolons`)
	}
	t.last = math.Inf(-1)
}

// split takes a header apart: a name, and a unit in brackets.
func split(text string) (name, unit string) {
	text = strings.TrimSpace(text)
	open := strings.LastIndexByte(text, '(')
	if open < 0 || !strings.HasSuffix(text, ")") {
		return text, ""
	}
	return strings.TrimSpace(text[:open]), strings.TrimSpace(text[open+1 : len(text)-1])
}

// row reads a row below the header.
func (t *table) row(record []string) {
	if !slices.ContainsFunc(record, func(cell string) bool { return strings.TrimSpace(cell) != "" }) {
		return
	}
	if len(record) != len(t.units) {
		write := "write one cell for each, empty where there is no reading"
		switch {
		case t.comma:
		case slices.ContainsFunc(record, func(cell string) bool { return strings.Contains(cell, ";") }):
			write = "divide the row by commas, as the header is, or the header by semicolons"
		case len(record) > len(t.units):
			write = "write decimals with a point, or divide header and rows by semicolons"
		}
		t.cell(min(len(record), len(t.units))-1, fmt.Sprintf("the row has %d cells, the header %d", len(record), len(t.units)), write)
		return
	}
	at, given, ok := t.number(0, record[0])
	switch {
	case !ok:
		return
	case !given:
		t.cell(0, "the row has no time", "write it, or leave out the row")
		return
	}
	if at = t.time.ToSI(at); !(math.Abs(at) <= 1e6) {
		t.cell(0, fmt.Sprintf("a time of %.4g s is out of range", at), "write at most 1e6 s after ignition")
		return
	}
	if at < t.last {
		t.cell(0, fmt.Sprintf("the time goes back, from %g to %g s", t.last, at), "put the rows in the order of their times")
		return
	}
	t.last = at
	for i := 1; i < len(record); i++ {
		x, given, ok := t.number(i, record[i])
		if !ok || !given {
			continue
		}
		if x = t.units[i].ToSI(x); !(x >= coldestRead && x <= hottestRead) {
			t.cell(i, fmt.Sprintf("%.20q is out of range", record[i]), fmt.Sprintf("write a temperature from %g to %g K, or leave the cell empty", coldestRead, hottestRead))
			continue
		}
		c := &t.courses[i-1]
		c.Time, c.Temperature = append(c.Time, at), append(c.Temperature, x)
	}
}

// What a thermocouple may tell, in K: that of any motor's start to beyond the
// melting point of all metals.
const (
	coldestRead = 100.0
	hottestRead = 5000.0
)

// number reads a cell; given is false where it is empty.
func (t *table) number(i int, cell string) (x float64, given, ok bool) {
	text := strings.ReplaceAll(strings.TrimSpace(cell), "\u2212", "-")
	if text == "" {
		return 0, false, true
	}
	mark, other := ".", ","
	if t.comma {
		mark, other = ",", "."
	}
	switch {
	case strings.Contains(text, other):
		t.cell(i, fmt.Sprintf("%.20q has %q for a decimal mark", cell, other), fmt.Sprintf("write it with %q, as the header asks, and no marks between thousands", mark))
		return 0, true, false
	case strings.Trim(text, "0123456789+-eE"+mark) == "":
		var err error
		if x, err = strconv.ParseFloat(strings.Replace(text, mark, ".", 1), 64); err == nil {
			return x, true, true
		}
	}
	t.cell(i, fmt.Sprintf("%.20q is no number", cell), fmt.Sprintf("write it as 21%s5, or leave the cell empty", mark))
	return 0, true, false
}

// finish looks at what was read.
func (t *table) finish(rows int) {
	if rows < 0 {
		t.fail(0, 0, "the file is empty", `write a header as "time (s),wall_outside (°C)", and rows below`)
		return
	}
	for i := range t.courses {
		if c := &t.courses[i]; len(c.Time) == 0 && t.faults == nil {
			t.fail(1, 1, fmt.Sprintf("column %d holds no reading", i+2), "leave the column out")
		}
	}
}
