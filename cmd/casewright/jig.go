package main

import (
	"fmt"
	"io"
	"strings"

	"casewright/bench"
	"casewright/cmd/casewright/internal/drawing"
	"casewright/cmd/casewright/internal/jsonout"
	"casewright/cmd/casewright/internal/pdf"
)

type jigCmd struct {
	File   string `arg:"" help:"A design file; - is standard input."`
	End    string `arg:"" optional:"" help:"Name of the end whose holes are drilled; the first where none is named."`
	Output string `name:"output" short:"o" help:"File to write; its end tells the format. Standard output where none is named."`
	Format string `help:"table, json, svg, dxf or pdf." enum:"auto,table,json,svg,dxf,pdf" default:"auto"`
	Units  string `help:"Units of the text: auto (as the file has the tube), metric or imperial." enum:"auto,metric,imperial" default:"auto"`
	tubeAtHand
}

// Help follows the flags in jig --help.
func (jigCmd) Help() string {
	return `Examples:
  casewright jig basalt64.toml nozzle
  casewright jig basalt64.toml nozzle -o ring.dxf
  casewright jig --outside "63.58 mm" basalt64.toml nozzle -o ring.pdf
  casewright jig --format json basalt64.toml nozzle

A ring that slides on the tube up to its end and guides the drill: bore, stop
face, holes for drill bushes, as text, as JSON, as a drawing, and as DXF (release
12, mm) for a machine shop. Its bore is for the widest tube that the drawing
allows, or for yours: measure it and give --outside, or --as-built where
[measured] has it.

Exit status: 0 written, 2 the file or the usage is bad, 3 the program failed.`
}

// Run writes the drilling ring.
func (c *jigCmd) Run(io *streams) error {
	found, err := c.holes(io, c.File, c.Format, "jig")
	if err != nil {
		return err
	}
	row, err := c.row(found.rows)
	if err != nil {
		return err
	}
	ring, err := bench.RingOf(found.design, row)
	if err != nil {
		return status{exitInput, c.File + ": " + err.Error()}
	}
	format, err := formatOf(c.Format, c.Output, "table", "json", "svg", "dxf", "pdf")
	if err != nil {
		return err
	}
	return put(io, c.Output, c.File, ringWriter(&found, ring, found.beside(c.Units), format))
}

// row is that of the end that was named, the first where none was.
func (c *jigCmd) row(rows []bench.HoleRow) (bench.HoleRow, error) {
	if c.End == "" {
		return rows[0], nil
	}
	var names []string
	for _, r := range rows {
		if strings.EqualFold(r.End, c.End) {
			return r, nil
		}
		names = append(names, r.End)
	}
	return bench.HoleRow{}, status{exitInput, fmt.Sprintf("%.60q is no end of %s; write one of %s", c.End, c.File, strings.Join(names, ", "))}
}

func ringWriter(l *layout, ring bench.Ring, text drawing.Beside, format string) func(io.Writer) error {
	return func(w io.Writer) error {
		sheet := drawing.JigRing(ring, text)
		switch format {
		case "json":
			return jsonout.Ring(w, l.design, l.verdict, ring)
		case "svg":
			return sheet.SVG(w)
		case "dxf":
			return sheet.DXF(w)
		case "pdf":
			return pdf.Drawings(w, sheet.Title, []*drawing.Sheet{sheet})
		}
		if text.Fails != "" {
			fmt.Fprintf(w, "DO NOT DRILL: the check of %s %s.\n\n", l.design.File, text.Fails)
		}
		_, err := fmt.Fprintln(w, drawing.RingTitle(ring, text)+"\n"+strings.Join(drawing.RingNotes(ring, text), "\n"))
		return err
	}
}
