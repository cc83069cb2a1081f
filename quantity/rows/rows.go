// Package rows reads the tables that are part of the program: embedded CSV
// files, one row a line, with # comments and a header.
package rows

import (
	"encoding/csv"
	"strings"
	"unicode"
)

// Of returns the rows of an embedded table below its header, each with so many
// columns. The table is part of the program, so a flaw in it is a programmer's
// mistake and panics.
func Of(table string, columns int) [][]string {
	r := csv.NewReader(strings.NewReader(table))
	r.Comment = '#'
	r.FieldsPerRecord = columns
	return Must(r.ReadAll())[1:]
}

// Must returns a value of an embedded table. An error in reading it is a
// programmer's mistake and panics.
func Must[T any](value T, err error) T {
	if err != nil {
		panic("embedded table: " + err.Error())
	}
	return value
}

// Fold drops blanks and case of a designation, and writes every dash as "-".
func Fold(text string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case unicode.IsSpace(r):
			return -1
		case unicode.Is(unicode.Pd, r), r == '−':
			return '-'
		}
		return unicode.ToLower(r)
	}, text)
}
