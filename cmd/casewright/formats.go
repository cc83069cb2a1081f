package main

import (
	"fmt"
	"io"

	"casewright/cmd/casewright/internal/editor"
	"casewright/cmd/casewright/internal/findings"
	"casewright/cmd/casewright/internal/jsonout"
	"casewright/cmd/casewright/internal/junit"
	"casewright/cmd/casewright/internal/sarif"
	"casewright/cmd/casewright/internal/summary"
	"casewright/cmd/casewright/internal/table"
)

// A format is a way to write what came of several files. What it makes of one
// file knows nothing of the others.
type format struct {
	begin   func(io.Writer) error
	file    func(out, messages io.Writer, o *findings.Outcome) error
	between string // the texts of two files that have any
	end     func(w io.Writer, exit int) error
}

// format is the one that is asked for.
func (c *checkCmd) format(s *streams) format {
	o := table.Options{All: c.All, Units: c.Units, Colour: c.coloured(s), ASCII: c.ASCII, Width: s.width}
	found := func(o *findings.Outcome) []findings.Finding { return findings.Of(o, c.Units) }
	switch c.Format {
	case "json":
		return format{file: func(w, _ io.Writer, o *findings.Outcome) error {
			if o.Report == nil {
				return jsonout.Invalid(w, "check", o.File, o.Faults)
			}
			if o.Baseline != "" {
				return jsonout.CheckAgainst(w, o.Report, o.Baseline, o.Kept, o.Losses)
			}
			return jsonout.Check(w, o.Report)
		}}
	case "junit":
		return format{
			begin: func(w io.Writer) error { return text(w, junit.Begin) },
			file:  func(w, _ io.Writer, o *findings.Outcome) error { return junit.Write(w, o, found(o), c.Units) },
			end:   func(w io.Writer, _ int) error { return text(w, junit.End) },
		}
	case "sarif":
		log := sarif.New()
		return format{
			begin: log.Begin,
			file: func(w, _ io.Writer, o *findings.Outcome) error {
				return log.Write(w, append(found(o), findings.Notes(o)...))
			},
			between: sarif.Between,
			end:     log.End,
		}
	case "line":
		return format{file: func(w, _ io.Writer, o *findings.Outcome) error { return editor.Write(w, found(o)) }}
	case "markdown":
		return format{file: func(w, _ io.Writer, outcome *findings.Outcome) error {
			return summary.Write(w, outcome, found(outcome), against(table.Options{All: c.All, Units: c.Units}, outcome, found(outcome)))
		}}
	}
	return format{between: "\n", file: func(w, messages io.Writer, outcome *findings.Outcome) error {
		if outcome.Report == nil {
			_, err := fmt.Fprintln(messages, outcome.Faults.Error())
			return err
		}
		return table.Check(w, outcome.Report, against(o, outcome, found(outcome)))
	}}
}

// against are the options with what is lost against a baseline.
func against(o table.Options, outcome *findings.Outcome, list []findings.Finding) table.Options {
	o.Baseline = outcome.Baseline
	for _, f := range list {
		if f.Kind == findings.Lost {
			o.Lost = append(o.Lost, f.Note+": "+f.Text)
		}
	}
	return o
}

func text(w io.Writer, s string) error {
	_, err := io.WriteString(w, s)
	return err
}
