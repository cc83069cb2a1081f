package main

import (
	"errors"
	"io"

	"casewright"
	"casewright/cmd/casewright/internal/drawing"
	"casewright/cmd/casewright/internal/pdf"
)

type drawCmd struct {
	File   string `arg:"" help:"A design file; - is standard input."`
	Output string `name:"output" short:"o" help:"File to write; its end tells the format. Standard output where none is named."`
	Format string `help:"svg, pdf or dxf." enum:"auto,svg,pdf,dxf" default:"auto"`
}

// Help follows the flags in draw --help.
func (drawCmd) Help() string {
	return `Examples:
  casewright draw basalt64.toml -o basalt64.svg
  casewright draw basalt64.toml -o basalt64.dxf

The whole motor in half-section, to scale, with its dimensions as the file has
them, and with a mark where something fails. DXF is at 1:1.

Exit status: 0 written, 2 the file or the usage is bad, 3 the program failed.`
}

// Run draws the motor.
func (c *drawCmd) Run(s *streams) error {
	format, err := formatOf(c.Format, c.Output, "svg", "pdf", "dxf")
	if err != nil {
		return err
	}
	design, err := readDesign(c.File, s)
	var found casewright.Errors
	if errors.As(err, &found) {
		if err := tellInvalid(s, "draw", format, c.File, found); err != nil {
			return err
		}
		return status{code: exitInput}
	}
	if err != nil {
		return err
	}
	sheet, scale, err := drawing.Section(casewright.Check(design))
	if err != nil {
		return status{exitInput, c.File + ": " + err.Error()}
	}
	return put(s, c.Output, c.File, func(w io.Writer) error {
		switch format {
		case "pdf":
			return pdf.Drawings(w, sheet.Title, []*drawing.Sheet{sheet})
		case "dxf":
			return sheet.Scaled(1 / scale).DXF(w)
		}
		return sheet.SVG(w)
	})
}
