package jsonout

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"math"
	"path/filepath"
	"slices"
	"strings"

	"casewright"
	"casewright/margin"
	"casewright/quantity/where"
	"casewright/revision"
)

// A Baseline is a file of reports, as [Check] writes them, that later ones are
// held against.
type Baseline struct {
	file string
	docs []kept
}

// kept is one report of a baseline.
type kept struct {
	name   string // of the design file, as seen from the baseline's folder
	built  bool
	text   json.RawMessage
	checks []revision.Kept
}

// NewBaseline returns a baseline without a report, to be written to a file.
func NewBaseline(file string) *Baseline { return &Baseline{file: file} }

// ReadBaseline reads a baseline: one report or more, on lines of their own or
// not. The error is a [casewright.Errors] that tells every line which is no
// report.
func ReadBaseline(file string, text []byte) (*Baseline, error) {
	b := NewBaseline(file)
	var faults casewright.Errors
	decoder := json.NewDecoder(bytes.NewReader(text))
	for {
		// The place of the report is where its text begins.
		start := int(decoder.InputOffset())
		start += len(text[start:]) - len(bytes.TrimLeft(text[start:], " \t\r\n"))
		fault := func(message string) {
			line, column := where.Position(text, start)
			faults = append(faults, &casewright.Error{File: file, Line: line, Column: column, Message: message, Write: "it anew: remove the file, then --write-baseline"})
		}
		var raw json.RawMessage
		err := decoder.Decode(&raw)
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			if syntax, ok := errors.AsType[*json.SyntaxError](err); ok && syntax.Offset > 0 {
				start = min(len(text), int(syntax.Offset)-1)
			}
			fault("this is no JSON: " + err.Error())
			break
		}
		one, message := b.keep(raw)
		if message == "" && b.find(one.name, one.built) != nil {
			message = fmt.Sprintf("%q stands twice", one.name)
		}
		if message != "" {
			fault(message)
			continue
		}
		b.docs = append(b.docs, one)
	}
	if faults != nil {
		return nil, faults
	}
	return b, nil
}

// keep takes from the text of a report what is held against later ones; the
// message is empty if all is well.
func (b *Baseline) keep(raw json.RawMessage) (one kept, message string) {
	var doc struct {
		Format  int     `json:"format"`
		Kind    string  `json:"kind"`
		File    string  `json:"file"`
		AsBuilt bool    `json:"as_built"`
		Verdict string  `json:"verdict"`
		Checks  []check `json:"checks"`
		Notes   []Note  `json:"notes"`

		Pressure *Quantity `json:"pressure"`
	}
	if err := json.Unmarshal(raw, &doc); err != nil {
		return one, "this is no report of a check: " + err.Error()
	}
	switch {
	case doc.Format != 1 || doc.Kind != "check":
		return one, "this is no report of a check of format 1"
	case doc.Verdict == "invalid":
		return one, fmt.Sprintf("%q was no design that can be checked", doc.File)
	case doc.File == "" || len(doc.Checks) == 0:
		return one, "this report has no file or no checks"
	}
	number := func(x *float64) float64 {
		if x == nil {
			return math.NaN()
		}
		return *x
	}
	value := func(q *Quantity) float64 {
		if q == nil {
			return math.NaN()
		}
		return q.Value
	}
	one = kept{name: b.named(doc.File), built: doc.AsBuilt, text: raw}
	if doc.Pressure != nil {
		cold := slices.ContainsFunc(doc.Notes, func(n Note) bool { return n.ID == "cold" })
		one.checks = revision.OfMotor(doc.Pressure.Value, cold)
	}
	for i := range doc.Checks {
		c := &doc.Checks[i]
		if c.Part == "" || c.ID == "" {
			return one, "a check of this report has no part or no id"
		}
		one.checks = append(one.checks, revision.Kept{
			Part: c.Part, Item: c.Item, ID: c.ID, Margin: number(c.Margin), Factor: c.Factor, Min: value(c.Min), Max: value(c.Max),
			Own: slices.ContainsFunc(c.Notes, func(n Note) bool { return n.ID == margin.LimitChanged.ID() }),
		})
	}
	return one, ""
}

// Of returns what is kept of a report's design; nil where nothing is.
func (b *Baseline) Of(r *casewright.Report) []revision.Kept {
	if one := b.find(b.relative(r.Design.File), r.Design.Drawn != nil); one != nil {
		return one.checks
	}
	return nil
}

// Copy returns a baseline of its own with the same reports.
func (b *Baseline) Copy() *Baseline { return &Baseline{b.file, slices.Clone(b.docs)} }

func (b *Baseline) find(name string, built bool) *kept {
	for i := range b.docs {
		if one := &b.docs[i]; one.name == name && one.built == built {
			return one
		}
	}
	return nil
}

// named is the name of a design file that stands in a baseline, which may have
// been written elsewhere, as [Baseline.relative] has it.
func (b *Baseline) named(file string) string {
	if file == "-" {
		return file
	}
	file = strings.ReplaceAll(file, `\`, "/")
	if !filepath.IsAbs(file) {
		file = filepath.Join(filepath.Dir(b.file), file)
	}
	return b.relative(file)
}

// relative names a design file as seen from the baseline's folder, so that it
// does not matter from where the two are named; by its full path where no path
// leads there, as from one drive to another.
func (b *Baseline) relative(file string) string {
	if file == "-" {
		return file
	}
	if full, err := filepath.Abs(file); err == nil {
		file = full
		if from, err := filepath.Abs(filepath.Dir(b.file)); err == nil {
			if to, err := filepath.Rel(from, full); err == nil {
				file = to
			}
		}
	}
	return strings.ReplaceAll(file, `\`, "/")
}

// Renew takes a report in, in place of that of the same file.
func (b *Baseline) Renew(r *casewright.Report) error {
	design := *r.Design
	design.File = b.relative(design.File)
	named := *r
	named.Design = &design
	var text bytes.Buffer
	if err := Check(&text, &named); err != nil {
		return err
	}
	one, message := b.keep(bytes.TrimSpace(text.Bytes()))
	if message != "" {
		return errors.New(message)
	}
	if old := b.find(one.name, one.built); old != nil {
		*old = one
	} else {
		b.docs = append(b.docs, one)
	}
	return nil
}

// Write writes the baseline: each report as [Check] does, but each of its
// checks on a line of its own, so that a repository shows what changes.
func (b *Baseline) Write(w io.Writer) error {
	for _, one := range b.docs {
		// A quotation mark in a text is escaped: this stands between checks only.
		text := bytes.ReplaceAll(one.text, []byte(`{"part":`), []byte("\n"+`{"part":`))
		text = bytes.ReplaceAll(text, []byte("\n\n"), []byte("\n"))
		if _, err := w.Write(append(text, '\n')); err != nil {
			return err
		}
	}
	return nil
}
