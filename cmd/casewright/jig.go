package main

import (
	"fmt"
	"io"
	"strings"

	"casewright/bench"
	"casewright/cmd/casewright/internal/drawing"
	"casewright/cmd/casewright/internal/pdf"
)

type jigCmd struct {
	File   string `arg:"" help:"A design file; - is standard input."`
	End    string `arg:"" optional:"" help:"Name of the end whose holes are drilled; the first where none is named."`
	Output string `name:"output" short:"o" help:"File to write; its end tells the format. Standard output where none is named."`
	Format string `help:"table, svg, dxf or pdf." enum:"auto,table,svg,dxf,pdf" default:"auto"`
}

// Help follows the flags in jig --help.
func (jigCmd) Help() string {
	return `Examples:
  casewright jig basalt64.toml nozzle
  casewright jig basalt64.toml nozzle -o ring.dxf

A ring that slides on the tube up to its end and guides the drill: bore, stop
face, holes for drill bushes, as text, as a drawing, and as DXF (release 12, mm)
for a machine shop.

Exit status: 0 written, 2 the file or the usage is bad, 3 the program failed.`
}

// Run writes the drilling ring.
func (c *jigCmd) Run(io *streams) error {
	design, rows, err := holes(io, c.File, c.Format, "jig")
	if err != nil {
		return err
	}
	row := rows[0]
	if c.End != "" {
		found := false
		var names []string
		for _, r := range rows {
			names = append(names, r.End)
			if strings.EqualFold(r.End, c.End) {
				row, found = r, true
			}
		}
		if !found {
			return status{exitInput, fmt.Sprintf("%.60q is no end of %s; write one of %s", c.End, c.File, strings.Join(names, ", "))}
		}
	}
	ring, err := bench.RingOf(design, row)
	if err != nil {
		return status{exitInput, c.File + ": " + err.Error()}
	}
	format, err := formatOf(c.Format, c.Output, "table", "svg", "dxf", "pdf")
	if err != nil {
		return err
	}
	return put(io, c.Output, c.File, ringWriter(drawing.JigRing(ring, stripText(design)), format))
}

func ringWriter(sheet *drawing.Sheet, format string) func(io.Writer) error {
	return func(w io.Writer) error {
		switch format {
		case "svg":
			return sheet.SVG(w)
		case "dxf":
			return sheet.DXF(w)
		case "pdf":
			return pdf.Drawings(w, sheet.Title, []*drawing.Sheet{sheet})
		}
		for _, shape := range sheet.Shapes {
			if text, ok := shape.(drawing.Text); ok && (len(text.Text) > 3) {
				if _, err := fmt.Fprintln(w, text.Text); err != nil {
					return err
				}
			}
		}
		return nil
	}
}
