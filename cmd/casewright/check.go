package main

import (
	"errors"
	"fmt"
	"io/fs"

	"casewright"
	"casewright/cmd/casewright/internal/jsonout"
	"casewright/cmd/casewright/internal/table"
	"casewright/margin"
)

type checkCmd struct {
	Files  []string `arg:"" name:"file" help:"Design files; - is standard input."`
	Format string   `help:"table or json." enum:"table,json" default:"table"`
	All    bool     `help:"Show the passing checks too."`
	built
	screen
}

// Help follows the flags in check --help.
func (checkCmd) Help() string {
	return `Examples:
  casewright check basalt64.toml
  casewright check --all --units imperial basalt64.toml
  casewright check --as-built basalt64.toml
  casewright check --format json *.toml | jq .verdict

Exit status: 0 all pass, 1 a check fails or is refused, 2 a file is bad,
3 the program failed; the largest over all files.`
}

// Run checks every file in the order given.
func (c *checkCmd) Run(io *streams) error {
	code := exitPass
	for i, file := range c.Files {
		design, err := c.read(file, io)
		var found casewright.Errors
		switch {
		case errors.As(err, &found):
			code = max(code, exitInput)
			err = tellInvalid(io, "check", c.Format, file, found)
		case err == nil:
			r := casewright.Check(design)
			if r.Verdict != margin.Pass {
				code = max(code, exitVerdict)
			}
			err = c.write(io, r, i)
		}
		if isClosedPipe(err) {
			break // nobody reads on, but what was found so far stands
		}
		if err != nil {
			return err
		}
	}
	return status{code: code}
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

func (c *checkCmd) write(io *streams, r *casewright.Report, i int) error {
	if c.Format == "json" {
		return jsonout.Check(io.out, r)
	}
	if i > 0 {
		fmt.Fprintln(io.out)
	}
	return table.Check(io.out, r, table.Options{
		All: c.All, Units: c.Units, Colour: c.coloured(io), ASCII: c.ASCII, Width: io.width,
	})
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
	design, err := readDesign(file, s)
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
