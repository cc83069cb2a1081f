// Package canonical sets out the text of a design file, or of a stock file, in one
// canonical way, without a change to what it says:
//
//   - Tables come in the order of [casewright.Tables]; those of one end, and of
//     heat, in the order of [casewright.Keys]. What is written several times,
//     as [[end]] is, keeps its order. A table that is not known follows the known.
//   - Keys come in the order of [casewright.Keys], unknown ones after them; but no
//     key crosses a blank line, and a table with dotted keys keeps its order, as
//     do the keys before the first table.
//   - A comment right above a key or a header, and that at the end of its line,
//     go with it. One right below the last key of a table, and apart from what
//     follows, stays with that table. One between blank lines stands before what
//     follows. Head and end of the file stay.
//   - One blank line stands before a header and its comment, none after it, and at
//     most one elsewhere. Tables of an entry such as [[end]] are set in by two
//     blanks, with their keys.
//   - Keys stand as key = value. Comments at the ends of lines stand in the 39th
//     column, and further right in lines next to each other of which one needs it.
//   - Lengths and amounts are written as on a drawing, digit for digit as they
//     were: "57.0+0/-.05mm" becomes "57.0 +0/-0.05 mm". Strings stand in double
//     quotes where that needs no escape. All other values stay as they are, those
//     of [limits] and [heat.measured] among them, and what runs over several lines
//     stays line by line.
//   - Lines end with LF and without blanks, the file with one line end, and without
//     a byte-order mark. Within strings in three quotes nothing is touched.
//
// Setting out twice gives the same as once.
package canonical

import (
	"errors"

	"casewright"
	"casewright/quantity/where"
)

// ErrUncertain says that a file cannot be set out without doubt that it would
// say the same.
var ErrUncertain = errors.New("it cannot be told with certainty that the file would say the same")

// Text returns the text in its canonical layout. The text need not be a good
// design, but it must be TOML: the error is a [casewright.Errors] where it is not,
// or is refused before it is decoded, and [ErrUncertain] where what was set out
// would not decode to the same. file is the name that errors give.
func Text(file string, text []byte) ([]byte, error) {
	before, keys, fault := casewright.Decode(file, text)
	if fault != nil {
		return nil, casewright.Errors{fault}
	}
	lines, err := split(text, keys)
	if err != nil {
		return nil, err
	}
	// The decoder reads some texts that are not quite TOML, in which order
	// matters: those keep theirs.
	for _, ordered := range []bool{true, false} {
		d := arrange(lines)
		if ordered {
			d.order()
		}
		out := d.print()
		if after, _, fault := casewright.Decode(file, out); fault == nil && same("", before, after) {
			return out, nil
		}
	}
	return nil, ErrUncertain
}

// split takes a text apart into its lines.
func split(text []byte, keys []where.Key) ([]line, error) {
	long, err := where.LongStrings(text)
	if err != nil {
		return nil, ErrUncertain
	}
	s := &splitter{text: text, long: long}
	return s.lines(keys)
}
