package main

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"casewright"
	"casewright/cmd/casewright/internal/findings"
	"casewright/cmd/casewright/internal/jsonout"
	"casewright/revision"
)

// held are the flags of margins that are kept in a file.
type held struct {
	Baseline      string   `help:"A file with the margins of designs, to hold them against." placeholder:"FILE"`
	Drop          *float64 `help:"How much a margin may be lower than in the baseline; 0.01 unless given." placeholder:"0.01"`
	WriteBaseline bool     `help:"Write the margins into the baseline, in place of those it has of these designs."`
}

// mostBaseline is the size of a baseline, of some thousand designs.
const mostBaseline = 256 << 20

// open reads the baseline; nil where none is asked for. One that is to be
// written need not be there.
func (h *held) open() (*jsonout.Baseline, error) {
	switch {
	case h.Baseline == "" && h.WriteBaseline:
		return nil, status{exitInput, "--write-baseline needs the file; write --baseline FILE too"}
	case h.Baseline == "" && h.Drop != nil:
		return nil, status{exitInput, "--drop goes with a baseline; write --baseline FILE too"}
	case h.Baseline == "":
		return nil, nil
	case h.Baseline == "-":
		return nil, status{exitInput, "--baseline - : a baseline is a file; write its name"}
	case !(h.drop() >= 0 && h.drop() <= 10):
		return nil, status{exitInput, "--drop is the difference of two margins, from 0 to 10; write --drop 0.01"}
	}
	info, err := os.Stat(h.Baseline)
	if errors.Is(err, fs.ErrNotExist) && h.WriteBaseline {
		return jsonout.NewBaseline(h.Baseline), nil
	}
	switch {
	case err != nil:
	case !info.Mode().IsRegular():
		return nil, casewright.Errors{{File: h.Baseline, Message: "is no plain file", Write: "the name of a baseline"}}
	case info.Size() > mostBaseline:
		return nil, casewright.Errors{{File: h.Baseline, Message: "is too large for a baseline"}}
	}
	text, err := os.ReadFile(h.Baseline)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, casewright.Errors{{File: h.Baseline, Message: "there is no such baseline", Write: "it with --write-baseline"}}
	}
	if err != nil {
		return nil, asErrors(h.Baseline, err)
	}
	return jsonout.ReadBaseline(h.Baseline, text)
}

// drop is how much a margin may be lower.
func (h *held) drop() float64 {
	if h.Drop == nil {
		return 0.01
	}
	return *h.Drop
}

// hold holds an outcome against the baseline and tells whether nothing is lost.
// Where the baseline is renewed what is lost is meant, and told as a message.
func (h *held) hold(o *findings.Outcome, baseline *jsonout.Baseline, messages io.Writer) bool {
	kept := baseline.Of(o.Report)
	losses := revision.Losses(o.Report, kept, h.drop())
	if h.WriteBaseline {
		for _, l := range losses {
			name := l.Kept.Name()
			if l.Whole {
				name = l.Kept.Part
			}
			fmt.Fprintf(messages, "casewright: %s: kept from now on: %s: %s\n", o.File, name, l.Text)
		}
		return true
	}
	o.Baseline, o.Kept, o.Losses = h.Baseline, kept != nil, losses
	return o.Kept && len(losses) == 0
}

// keep writes the baseline, unless a file was bad: half of the designs would
// have no new margins.
func (c *checkCmd) keep(s *streams, baseline *jsonout.Baseline, code int) error {
	if code >= exitInput {
		return status{code, c.Baseline + " is not written: not all files could be checked"}
	}
	file := c.Baseline
	if target, err := filepath.EvalSymlinks(file); err == nil {
		file = target // a link to it stays one
	}
	if err := writeWhole(file, c.Files, baseline.Write); err != nil {
		if told := (status{}); errors.As(err, &told) {
			told.message = strings.Replace(told.message, "-o ", "--baseline ", 1)
			return told
		}
		return err
	}
	if err := s.out.Flush(); err != nil {
		return err
	}
	designs := "designs"
	if len(c.Files) == 1 {
		designs = "design"
	}
	_, err := fmt.Fprintf(s.err, "casewright: wrote %s with the margins of %d %s\n", c.Baseline, len(c.Files), designs)
	return err
}

// noBaseline tells what is wrong with a baseline.
func (c *checkCmd) noBaseline(s *streams, err error) error {
	var found casewright.Errors
	if !errors.As(err, &found) {
		return err
	}
	s.out.Flush()
	fmt.Fprintln(s.err, found.Error())
	return status{code: exitInput}
}
