package main

import (
	"errors"
	"fmt"
	"path/filepath"

	"casewright"
	"casewright/bench"
	"casewright/cmd/casewright/internal/drawing"
	"casewright/cmd/casewright/internal/table"
	"casewright/margin"
	"casewright/quantity"
)

// tubeAtHand is which tube the holes are laid out on.
type tubeAtHand struct {
	built
	Outside string `help:"Outside diameter of the tube at hand, as measured: \"64.02 mm\"." placeholder:"LENGTH"`
}

// layout is what wrap and jig need: a design, its rows of holes on the tube at
// hand, and the verdict.
type layout struct {
	design  *casewright.Design
	rows    []bench.HoleRow
	verdict margin.Verdict
}

// holes reads a design file and the rows of holes in it.
func (t *tubeAtHand) holes(s *streams, file, format, kind string) (layout, error) {
	design, err := t.read(file, s)
	var found casewright.Errors
	if errors.As(err, &found) {
		if err := tellInvalid(s, kind, format, file, found); err != nil {
			return layout{}, err
		}
		return layout{}, status{code: exitInput}
	}
	if err != nil {
		return layout{}, err
	}
	rows, err := bench.HoleRows(design)
	if err != nil {
		return layout{}, status{exitInput, file + ": " + err.Error()}
	}
	if len(rows) == 0 {
		return layout{}, status{exitInput, file + ": no end is described, and so there are no holes"}
	}
	if t.Outside != "" {
		across, err := quantity.Parse(quantity.KindLength, t.Outside)
		if err != nil {
			return layout{}, status{exitInput, fmt.Sprintf("--outside: %v", err)}
		}
		outer, err := rows[0].Measuring(quantity.Length(across.SI()))
		if err != nil {
			return layout{}, status{exitInput, fmt.Sprintf("--outside %q: %v; write what you measured across the tube", t.Outside, err)}
		}
		for i := range rows {
			rows[i] = rows[i].On(outer)
		}
	}
	return layout{design, rows, casewright.Check(design).Verdict}, nil
}

// fails is how the check ends of a design of which nothing may be drilled.
func (l *layout) fails() string {
	switch l.verdict {
	case margin.Fail:
		return "FAILS"
	case margin.Refused:
		return "IS REFUSED"
	case margin.Pass, margin.Noted:
	}
	return ""
}

// beside is what stands beside strips and rings.
func (l *layout) beside(units string) drawing.Beside {
	return drawing.Beside{
		Motor: l.design.Name.Value, Fails: l.fails(), File: filepath.Base(l.design.File), SHA256: l.design.SHA256,
		Ruler: bench.Ruler{Inches: table.Options{Units: units}.Inches(l.design)},
	}
}
