package main

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"slices"

	"casewright"
	"casewright/cmd/casewright/internal/findings"
	"casewright/cmd/casewright/internal/jsonout"
	"casewright/margin"
)

type checkCmd struct {
	Files  []string `arg:"" name:"file" help:"Design files; - is standard input."`
	Format string   `help:"table, json, junit, sarif, line or markdown." enum:"table,json,junit,sarif,line,markdown" default:"table"`
	All    bool     `help:"Show the passing checks too."`
	held
	built
	screen
}

// Help follows the flags in check --help.
func (checkCmd) Help() string {
	return `Examples:
  casewright check basalt64.toml
  casewright check --all --units imperial basalt64.toml
  casewright check --as-built my.toml
  casewright check --format json *.toml | jq .verdict
  casewright check --format junit *.toml > junit.xml
  casewright check --format sarif *.toml > casewright.sarif
  casewright check --baseline margins.json --write-baseline basalt64.toml
  casewright check --baseline margins.json basalt64.toml

junit is for servers that build and test, sarif for code hosts that mark lines,
line for editors, markdown for a comment or the summary of a build.

A baseline keeps the margins of designs in a repository: check then fails too
where a margin is lower than kept by more than --drop, where a check is no longer
done, or where the file asks less: a factor, a limit, the pressure, or no
temperature any more.

Exit status: 0 all pass, 1 a check fails or is refused, 2 a file is bad,
3 the program failed; the largest over all files.`
}

// Run checks the files, on all cores, and writes what came of them in the order
// given.
func (c *checkCmd) Run(s *streams) error {
	if first := slices.Index(c.Files, "-"); first >= 0 && slices.Contains(c.Files[first+1:], "-") {
		return status{exitInput, "- stands twice, and standard input can be read once; give it once"}
	}
	baseline, err := c.open()
	if err != nil {
		return c.noBaseline(s, err)
	}
	var renewed *jsonout.Baseline // what is kept is read by all cores meanwhile
	if c.WriteBaseline {
		renewed = baseline.Copy()
	}
	f := c.format(s)
	bar := newProgress(s, len(c.Files))
	defer bar.end()
	if f.begin != nil {
		if err := f.begin(s.out); err != nil {
			return err
		}
	}
	code, written := exitPass, false
	err = inOrder(
		len(c.Files),
		func(i int) *checked { return c.check(c.Files[i], f, baseline, s) },
		func(_ int, one *checked) error {
			if one.err != nil {
				return one.err
			}
			code = max(code, one.code)
			if c.WriteBaseline && one.report != nil {
				if err := renewed.Renew(one.report); err != nil {
					return err
				}
			}
			return bar.step(func() error {
				if written && one.out.Len() > 0 {
					s.out.WriteString(f.between)
				}
				written = written || one.out.Len() > 0
				err := one.write(s)
				if c.WriteBaseline && isClosedPipe(err) {
					return nil // nobody reads on, but all are to be kept
				}
				return err
			})
		},
	)
	bar.end()
	if err == nil && f.end != nil {
		err = f.end(s.out, code)
	}
	if err != nil && !isClosedPipe(err) {
		return err
	}
	if c.WriteBaseline {
		if err := c.keep(s, renewed, code); err != nil && !isClosedPipe(err) {
			return err
		}
	}
	return status{code: code} // where nobody reads on, what was found so far stands
}

// checked is what came of one file.
type checked struct {
	code          int
	report        *casewright.Report // nil of a bad file
	out, messages bytes.Buffer
	err           error
}

// check checks one file.
func (c *checkCmd) check(file string, f format, baseline *jsonout.Baseline, s *streams) *checked {
	one := &checked{}
	o := &findings.Outcome{File: file}
	design, err := c.read(file, s)
	switch {
	case errors.As(err, &o.Faults):
		one.code = exitInput
	case err != nil:
		one.err = err
		return one
	default:
		o.Report = casewright.Check(design)
		if o.Report.Verdict != margin.Pass {
			one.code = exitVerdict
		}
		one.report = o.Report
		if baseline != nil && !c.hold(o, baseline, &one.messages) {
			one.code = exitVerdict
		}
	}
	one.err = f.file(&one.out, &one.messages, o)
	return one
}

// write writes it, its messages after all that was written before.
func (one *checked) write(s *streams) error {
	_, err := s.out.Write(one.out.Bytes())
	if one.messages.Len() > 0 || s.terminal {
		err = s.out.Flush()
	}
	if _, failed := s.err.Write(one.messages.Bytes()); err == nil {
		err = failed
	}
	return err
}

// tellInvalid tells what is wrong with a design file: as JSON in place of a
// document of that kind, else on the screen.
func tellInvalid(io *streams, kind, format, file string, found casewright.Errors) error {
	if format == "json" {
		return jsonout.Invalid(io.out, kind, file, found)
	}
	io.out.Flush()
	_, err := fmt.Fprintln(io.err, found.Error())
	return err
}

// readDesign reads one design file, or standard input. What is wrong with the
// file is always a casewright.Errors.
func readDesign(file string, s *streams) (*casewright.Design, error) {
	text, err := readText(file, s)
	if err != nil {
		return nil, err
	}
	return casewright.Read(file, text)
}

// built is the flag of commands that take what was measured.
type built struct {
	AsBuilt bool `help:"Take what [measured] says in place of the drawing's sizes."`
}

// read reads a design file, as drawn or as built.
func (b built) read(file string, s *streams) (*casewright.Design, error) {
	text, err := readText(file, s)
	if err != nil {
		return nil, err
	}
	return b.design(file, text)
}

// design reads the text of a design file, as drawn or as built.
func (b built) design(file string, text []byte) (*casewright.Design, error) {
	design, err := casewright.Read(file, text)
	if err == nil && b.AsBuilt {
		return design.AsBuilt()
	}
	return design, err
}

// asErrors words what the system says of a file that cannot be read.
func asErrors(file string, err error) error {
	var path *fs.PathError
	if !errors.As(err, &path) {
		return err
	}
	message, write := "cannot be read: "+path.Err.Error(), ""
	if errors.Is(err, fs.ErrNotExist) {
		message, write = "there is no such file", "the name of a design file, or make one with casewright new"
	}
	return casewright.Errors{{File: file, Message: message, Write: write}}
}
