package main

import (
	"fmt"
	"io"

	"casewright/bench"
	"casewright/cmd/casewright/internal/drawing"
	"casewright/cmd/casewright/internal/jsonout"
	"casewright/cmd/casewright/internal/pdf"
	"casewright/cmd/casewright/internal/table"
	"casewright/quantity"
)

type wrapCmd struct {
	File      string `arg:"" help:"A design file; - is standard input."`
	Output    string `name:"output" short:"o" help:"File to write; its end tells the format. Standard output where none is named."`
	Format    string `help:"table, json, pdf or svg." enum:"auto,table,json,pdf,svg" default:"auto"`
	Paper     string `help:"a4 or letter." enum:"a4,letter" default:"a4"`
	Thickness string `help:"Thickness of the paper." default:"0.1 mm"`
	tubeAtHand
	screen
}

// Help follows the flags in wrap --help.
func (wrapCmd) Help() string {
	return `Examples:
  casewright wrap basalt64.toml
  casewright wrap basalt64.toml -o holes.pdf
  casewright wrap --outside "63.58 mm" basalt64.toml -o holes.pdf
  casewright wrap --paper letter basalt64.toml -o holes.pdf

Where the holes go on the tube: as angles for a dividing head, arcs along the
outside and chords for dividers, and as strips of paper at true scale to wrap
round the tube and drill through. Print at 100 %, measure the check length and
a square, and only then cut. Angles count from a line that you draw along the
tube, to the right with the tube's first end up; end.screws.angle turns a row.
A strip for another tube does not close: measure yours and give --outside, or
--as-built where [measured] has it.

Exit status: 0 written, 2 the file or the usage is bad, 3 the program failed.`
}

// Run writes where the holes go.
func (c *wrapCmd) Run(io *streams) error {
	found, err := c.holes(io, c.File, c.Format, "wrap")
	if err != nil {
		return err
	}
	thickness, err := quantity.Parse(quantity.KindLength, c.Thickness)
	if err != nil || thickness.SI() < 0 || thickness.SI() > 0.002 {
		return status{exitInput, fmt.Sprintf("--thickness %q is no thickness of paper; write \"0.1 mm\"", c.Thickness)}
	}
	format, err := formatOf(c.Format, c.Output, "table", "json", "pdf", "svg")
	if err != nil {
		return err
	}
	return put(io, c.Output, c.File, c.writer(&found, quantity.Length(thickness.SI()), format, io))
}

func (c *wrapCmd) writer(l *layout, paper quantity.Length, format string, s *streams) func(io.Writer) error {
	d := l.design
	var strips []bench.Strip
	for _, r := range l.rows {
		strips = append(strips, bench.StripOf(r, paper))
	}
	text := l.beside(c.Units)
	return func(w io.Writer) error {
		switch format {
		case "json":
			return jsonout.Holes(w, d, l.verdict, strips)
		case "svg":
			return drawing.WholeStrips(strips, text).SVG(w)
		case "pdf":
			pages, err := drawing.StripPages(strips, text, map[string]drawing.Format{"a4": drawing.A4, "letter": drawing.Letter}[c.Paper])
			if err != nil {
				return status{exitInput, err.Error()}
			}
			return pdf.Drawings(w, "Drilling strips for "+d.Name.Value, pages)
		}
		if text.Fails != "" {
			fmt.Fprintf(w, "DO NOT DRILL: the check of %s %s.\n\n", d.File, text.Fails)
		}
		return table.Holes(w, d, strips, table.Options{Units: c.Units, Colour: c.coloured(s) && c.Output == "", ASCII: c.ASCII, Width: s.width})
	}
}
