package sizing

import (
	"bytes"
	"fmt"
	"slices"
	"strconv"

	"casewright"
)

// FillText finds what the text of a design file wants, and returns the text
// with it, as it reads and passes. Where not all can pass there is no text, and
// the answer says what came nearest. The error is a casewright.Errors.
func FillText(file string, text []byte, stock *casewright.Stock, goal Goal) ([]byte, *Answer, error) {
	design, unknowns, err := casewright.ReadOpen(file, text)
	if err != nil {
		return nil, nil, err
	}
	if len(unknowns) == 0 {
		return nil, nil, casewright.Errors{{File: file, Message: "nothing is wanted in this file", Write: `"?" for a value that is to be found`}}
	}
	a, err := Fill(design, unknowns, stock, goal)
	if err != nil || a.Nearest {
		return nil, a, err
	}
	filled := Write(text, unknowns, a)
	whole, err := casewright.Read(file, filled)
	if err != nil {
		return nil, nil, fmt.Errorf("what was found cannot be read back: %w", err)
	}
	a.Design, a.Report = whole, casewright.Check(whole)
	return filled, a, nil
}

// Write returns the text of a design file with what has been found in place of
// what was wanted; all else stays as it is.
func Write(text []byte, unknowns []casewright.Unknown, a *Answer) []byte {
	out := slices.Clone(text)
	for i := len(unknowns) - 1; i >= 0; i-- {
		u := unknowns[i]
		value := strconv.Quote(a.Values[i].Drawing)
		if _, err := strconv.Atoi(a.Values[i].Drawing); err == nil {
			value = a.Values[i].Drawing
		}
		end := u.End
		// A comment behind it stays in its column where there is room.
		for grown := len([]rune(value)) - (u.End - u.Start); grown > 0 && bytes.HasPrefix(out[end:], []byte("  ")); grown-- {
			end++
		}
		out = slices.Replace(out, u.Start, end, []byte(value)...)
	}
	return out
}
