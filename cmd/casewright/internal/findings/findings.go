// Package findings turns what came of design files into a flat list of what is
// to be mended, which every format for machines and editors reads.
package findings

import (
	"fmt"
	"strings"

	"casewright"
	"casewright/cmd/casewright/internal/table"
	"casewright/margin"
)

// An Outcome is what came of one file: a report, or what is wrong with it.
type Outcome struct {
	File   string
	Report *casewright.Report
	Faults casewright.Errors // nil where there is a report
}

// A Kind is what sort of thing a finding is.
type Kind uint8

// The kinds.
const (
	Fault   Kind = iota // the file cannot be read as a design
	Failed              // a check fails
	Refused             // a check is refused
)

// FaultID is the id of a [Fault], in place of that of a check.
const FaultID = "design_file"

// A Finding is one thing to mend.
type Finding struct {
	File         string
	Line, Column int // from 1, the column in runes; 0 where the place is not known
	Kind         Kind
	Part         string // as in "nozzle"; empty for a fault
	ID           string // of the check, or [FaultID]
	Key          string // as in "end.screws.edge"; empty where it is none
	Text         string // what is wrong, one sentence without its full stop
	Write        string // what would mend it; empty where that is not known
}

// Of lists the findings of one file: the faults in the order of their lines,
// the checks in that of the report.
func Of(o *Outcome, units string) []Finding {
	var list []Finding
	for _, e := range o.Faults {
		list = append(list, Finding{
			File: o.File, Line: e.Line, Column: e.Column, Kind: Fault, ID: FaultID, Key: e.Key, Text: e.Message, Write: e.Write,
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
		list = append(list, Finding{
			File: o.File, Line: t.At.Line, Column: t.At.Column, Kind: kind, Part: r.Part, ID: r.Method.ID, Key: t.At.Key,
			Text: t.Text, Write: strings.Join(t.Write, "; or: "),
		})
	}
	return list
}

// Name names the finding's check in its motor, as in "nozzle/hole.edge"; the id
// alone where it is none of a part.
func (f *Finding) Name() string {
	if f.Part == "" {
		return f.ID
	}
	return f.Part + "/" + f.ID
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
