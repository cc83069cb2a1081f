// Package findings turns what came of design files into a flat list of what is
// to be mended, which every format for machines and editors reads.
package findings

import (
	"fmt"
	"strings"

	"casewright"
	"casewright/cmd/casewright/internal/table"
	"casewright/margin"
	"casewright/revision"
)

// An Outcome is what came of one file: a report, or what is wrong with it.
type Outcome struct {
	File   string
	Report *casewright.Report
	Faults casewright.Errors // nil where there is a report

	Baseline string          // file of the margins that the report is held against; empty for none
	Kept     bool            // the baseline has margins of this design
	Losses   []revision.Loss // what is lost against it
}

// A Kind is what sort of thing a finding is.
type Kind uint8

// The kinds.
const (
	Fault   Kind = iota // the file cannot be read as a design
	Failed              // a check fails
	Refused             // a check is refused
	Noted               // something to keep in mind
	Lost                // less than is kept in the baseline
)

// The ids of a [Fault], of [Noted] and of [Lost], in place of that of a check.
const (
	FaultID = "design_file"
	NoteID  = "note"
	LostID  = "baseline"
)

// A Finding is one thing to mend.
type Finding struct {
	File         string
	Line, Column int // from 1, the column in runes; 0 where the place is not known
	Kind         Kind
	Part         string // as in "nozzle"; empty where it is none of a check
	ID           string // of the check, [FaultID], [NoteID] or [LostID]
	Note         string // the id of a note, as in "gap_hot", or the check that has lost, as in "nozzle/hole.edge"; else empty
	Key          string // as in "end.screws.edge"; empty where it is none
	Text         string // what is wrong, one sentence without its full stop
	Write        string // what would mend it; empty where that is not known
}

// Of lists the findings of one file: the faults in the order of their lines,
// the checks in that of the report, then what is lost against the baseline.
func Of(o *Outcome, units string) []Finding {
	var list []Finding
	for _, e := range o.Faults {
		list = append(list, Finding{
			File: o.File, Line: e.Line, Column: e.Column, Kind: Fault, ID: FaultID, Key: e.Key,
			Text: strings.TrimSuffix(e.Message, "."), Write: e.Write,
		})
	}
	if o.Report == nil {
		return list
	}
	for i := range o.Report.Results {
		r := &o.Report.Results[i]
		kind := Failed
		switch r.Verdict {
		case margin.Fail:
		case margin.Refused:
			kind = Refused
		default:
			continue
		}
		t := table.Tell(o.Report, r, table.Options{Units: units})
		at := placeOf(o.Report.Design, t.At, int(r.Check.Part))
		list = append(list, Finding{
			File: o.File, Line: at.Line, Column: at.Column, Kind: kind, Part: r.Part, ID: r.Method.ID, Key: t.At.Key,
			Text: t.Text, Write: strings.Join(t.Write, "; or: "),
		})
	}
	return append(list, lost(o)...)
}

// lost lists what is lost against the baseline.
func lost(o *Outcome) []Finding {
	if o.Baseline == "" {
		return nil
	}
	renew := "take it back, or say that it is meant: --write-baseline"
	if !o.Kept {
		return []Finding{{
			File: o.File, Kind: Lost, ID: LostID, Note: "new", Text: fmt.Sprintf("%s has no margins of this design to hold it against", o.Baseline), Write: "take it in with --write-baseline",
		}}
	}
	var list []Finding
	for _, l := range o.Losses {
		f := Finding{File: o.File, Kind: Lost, ID: LostID, Note: l.Kept.Name(), Text: l.Text, Write: renew}
		if l.Whole {
			f.Note = l.Kept.Part
		}
		part := 0
		if l.Now != nil {
			part = int(l.Now.Check.Part)
		}
		if l.At.Key != "" {
			at := placeOf(o.Report.Design, l.At, part)
			f.Line, f.Column, f.Key = at.Line, at.Column, l.At.Key
		}
		list = append(list, f)
	}
	return list
}

// placeOf is where a key stands, or the table that it would stand in.
func placeOf(d *casewright.Design, at casewright.Place, part int) casewright.Place {
	if at.Line > 0 {
		return at
	}
	return d.TablePlace(at.Key, part)
}

// Notes lists what a report asks to be kept in mind, each note once: at the
// first of the checks that bear it, or without a place where it is on the whole
// motor.
func Notes(o *Outcome) []Finding {
	var list []Finding
	if o.Report == nil {
		return list
	}
	for _, n := range table.Remarks(o.Report) {
		f := Finding{File: o.File, Kind: Noted, ID: NoteID, Note: n.ID, Text: n.Text}
		if r := n.First; r != nil {
			at := placeOf(o.Report.Design, casewright.Place{Key: r.Key, Line: r.Line, Column: r.Column}, int(r.Check.Part))
			f.Line, f.Column, f.Key = at.Line, at.Column, r.Key
		}
		list = append(list, f)
	}
	return list
}

// Title names a design file to a person.
func Title(file string) string {
	if file == "-" {
		return "standard input"
	}
	return file
}

// Name names the finding's check in its motor, as in "nozzle/hole.edge", a
// note, as in "note/gap_hot", or a loss, as in "baseline/nozzle/hole.edge"; the
// id alone of a fault.
func (f *Finding) Name() string {
	switch {
	case f.Part != "":
		return f.Part + "/" + f.ID
	case f.Note != "":
		return f.ID + "/" + f.Note
	}
	return f.ID
}

// Sentence is the finding in one line: what is wrong and what would mend it.
func (f *Finding) Sentence() string {
	if f.Write == "" {
		return f.Text
	}
	return fmt.Sprintf("%s; %s", f.Text, f.advice())
}

// advice begins small, as it follows a semicolon.
func (f *Finding) advice() string {
	if f.Kind == Fault {
		return "write " + f.Write
	}
	first, rest, _ := strings.Cut(f.Write, " ")
	return strings.TrimSpace(strings.ToLower(first) + " " + rest)
}
