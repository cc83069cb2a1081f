package main

import (
	"errors"
	"io"

	"casewright"
	"casewright/cmd/casewright/internal/jsonout"
	"casewright/cmd/casewright/internal/table"
	"casewright/sizing"
)

type heatCmd struct {
	File   string `arg:"" help:"A design file with [heat]; - is standard input."`
	Output string `name:"output" short:"o" help:"File to write; its end tells the format. Standard output where none is named."`
	Format string `help:"table or json." enum:"auto,table,json" default:"auto"`
	built
	screen
}

// Help follows the flags in heat --help.
func (heatCmd) Help() string {
	return `Examples:
  casewright heat basalt64-hot.toml
  casewright heat basalt64-hot.toml -o heat.svg
  casewright heat --format json basalt64-hot.toml

How hot the liner, the wall and the ends get while the motor burns and while heat
soaks through afterwards: a table by part, the strength of the tube at the peak of
pressure and at burnout, each gland against what its rubber bears, what to change
where it overheats, and how long to wait before touching. The design has [heat]
with its layers, and [end.heat] for each end that is to be followed.

Exit status: 0 nothing gets hotter than it bears, 1 something does, 2 the file or
the usage is bad, 3 the program failed.`
}

// Run writes how hot the motor gets.
func (c *heatCmd) Run(s *streams) error {
	format, err := formatOf(c.Format, c.Output, "table", "json")
	if err != nil {
		return err
	}
	design, err := c.read(c.File, s)
	var found casewright.Errors
	if errors.As(err, &found) {
		if err := tellInvalid(s, "heat", format, c.File, found); err != nil {
			return err
		}
		return status{code: exitInput}
	}
	if err != nil {
		return err
	}
	if design.Heat.Key == "" {
		return status{exitInput, c.File + ": there is no [heat]; write it with gas_temperature, film_coefficient and [[heat.layer]], and burn_time in [motor]"}
	}
	a, err := sizing.AnswerHeat(design)
	if err != nil {
		return status{exitInput, c.File + ": " + err.Error()}
	}
	if err := put(s, c.Output, c.File, c.writer(a, format, s)); err != nil {
		return err
	}
	if !a.Holds() {
		return status{code: exitVerdict}
	}
	return nil
}

func (c *heatCmd) writer(a *sizing.HeatAnswer, format string, s *streams) func(io.Writer) error {
	return func(w io.Writer) error {
		if format == "json" {
			return jsonout.Heat(w, a)
		}
		return table.Heat(w, a, table.Options{Units: c.Units, Colour: c.coloured(s) && c.Output == "", ASCII: c.ASCII, Width: s.width})
	}
}
