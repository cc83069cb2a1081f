package jsonout

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"math"
	"path"
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
	name   string // of the design file, as the baseline has it
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
		one, message := keep(raw)
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
func keep(raw json.RawMessage) (one kept, message string) {
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
	one = kept{name: doc.File, built: doc.AsBuilt, text: raw}
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
	built := r.Design.Drawn != nil
	for _, name := range []string{b.relative(r.Design.File), filepath.ToSlash(filepath.Clean(r.Design.File))} {
		if one := b.find(name, built); one != nil {
			return one.checks
		}
	}
	return nil
}

func (b *Baseline) find(name string, built bool) *kept {
	for i := range b.docs {
		if one := &b.docs[i]; path.Clean(strings.ReplaceAll(one.name, `\`, "/")) == name && one.built == built {
			return one
		}
	}
	return nil
}

// relative names a design file as seen from the baseline's folder, so that it
// does not matter from where the two are named.
func (b *Baseline) relative(file string) string {
	if file == "-" {
		return file
	}
	from, err := filepath.Abs(filepath.Dir(b.file))
	if err == nil {
		var to string
		if to, err = filepath.Abs(file); err == nil {
			to, err = filepath.Rel(from, to)
		}
		file = to
	}
	if err != nil {
		return file
	}
	return filepath.ToSlash(file)
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
	one, message := keep(bytes.TrimSpace(text.Bytes()))
	if message != "" {
		return errors.New(message)
	}
	old := b.find(b.relative(r.Design.File), one.built)
	if old == nil {
		old = b.find(filepath.ToSlash(filepath.Clean(r.Design.File)), one.built)
	}
	if old != nil {
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
