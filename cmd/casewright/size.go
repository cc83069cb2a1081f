package main

import (
	"errors"
	"fmt"
	"io"
	"os"

	"casewright"
	"casewright/cmd/casewright/internal/jsonout"
	"casewright/cmd/casewright/internal/table"
	"casewright/sizing"
)

type sizeCmd struct {
	File   string `arg:"" help:"A design file with values written as \"?\"; - is standard input."`
	Stock  string `help:"A stock file: tubes, screws and rings to take from." placeholder:"FILE"`
	Goal   string `help:"mass: the lightest that passes; holes: the fewest screws; margin: the greatest least margin." enum:"mass,holes,margin" default:"mass"`
	Out    string `help:"Write the design file there instead of to standard output; it is never overwritten." placeholder:"FILE"`
	Format string `help:"design: the design file; json: one line." enum:"design,json" default:"design"`
	All    bool   `help:"Show the passing checks and the standing notes too."`
	screen
}

// Help follows the flags in size --help.
func (sizeCmd) Help() string {
	return `Examples:
  casewright size my.toml > filled.toml
  casewright size my.toml --stock stock.toml --out filled.toml
  casewright size my.toml --goal margin --format json | jq .answers

Write "?" for what is to be found: wall, edge, count, thread, class, hole, size
(of a ring), groove_diameter, groove_width, groove_spacing, outside_diameter,
plate, lip, lip_diameter, length, from_face, engagement, lead_in. The design file
comes out whole, its comments and order kept; what governs each value goes to
standard error.

A stock file has format = 1, then [[tube]] (two of outside_diameter,
inside_diameter and wall, and material), [[screws]] (thread, class, and count if
it matters) and [[ring]] (size, and compound and hardness).`
}

var goals = map[string]sizing.Goal{"mass": sizing.LeastMass, "holes": sizing.FewestHoles, "margin": sizing.MostMargin}

// Run finds what is wanted.
func (c *sizeCmd) Run(io *streams) error {
	filled, a, err := c.find(io)
	var found casewright.Errors
	switch {
	case errors.As(err, &found):
		if c.Format == "json" {
			err = jsonout.NoAnswer(io.out, "size", found)
		} else {
			io.out.Flush()
			_, err = fmt.Fprintln(io.err, found.Error())
		}
		return errors.Join(err, status{code: exitInput})
	case err != nil:
		return err
	}
	passes := a.Holds()
	if c.Format == "json" {
		text := ""
		if passes {
			text = string(filled)
		}
		err = jsonout.Filled(io.out, a, text)
	} else {
		err = table.Answer(io.err, a, table.Options{All: c.All, Units: c.Units, Colour: c.coloured(io), ASCII: c.ASCII, Width: io.width})
	}
	switch {
	case err != nil:
		return err
	case !passes:
		return status{code: exitVerdict}
	case c.Out != "":
		return writeNew(c.Out, string(filled))
	case c.Format == "design":
		_, err = io.out.Write(filled)
	}
	return err
}

// find reads the files and finds what is wanted.
func (c *sizeCmd) find(io *streams) ([]byte, *sizing.Answer, error) {
	text, err := readText(c.File, io)
	if err != nil {
		return nil, nil, err
	}
	stock, err := c.stock(io)
	if err != nil {
		return nil, nil, err
	}
	filled, a, err := sizing.FillText(c.File, text, stock, goals[c.Goal])
	if err == nil && isLaidOut(c.File, text) {
		filled = laidOut(c.File, filled)
	}
	return filled, a, err
}

func (c *sizeCmd) stock(io *streams) (*casewright.Stock, error) {
	if c.Stock == "" {
		return nil, nil
	}
	text, err := readText(c.Stock, io)
	if err != nil {
		return nil, err
	}
	return casewright.ReadStock(c.Stock, text)
}

// readText reads a file, or standard input, of at most 1 MiB.
func readText(file string, s *streams) ([]byte, error) {
	if file == "-" {
		text, err := io.ReadAll(io.LimitReader(s.in, 1<<20+1))
		if err != nil {
			return nil, casewright.Errors{{File: file, Message: "cannot read standard input: " + err.Error()}}
		}
		return text, nil
	}
	text, err := casewright.ReadText(file)
	return text, asErrors(file, err)
}

// writeNew writes a file that is not there yet.
func writeNew(file, text string) error {
	f, err := os.OpenFile(file, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
	if errors.Is(err, os.ErrExist) {
		return status{exitInput, fmt.Sprintf("%q is there already and stays as it is; write another name", file)}
	}
	if err != nil {
		return status{exitProgram, "cannot write: " + err.Error()}
	}
	_, err = f.WriteString(text)
	if err = errors.Join(err, f.Close()); err != nil {
		// Half a file is worse than none.
		return status{exitProgram, "cannot write: " + errors.Join(err, os.Remove(file)).Error()}
	}
	return nil
}
