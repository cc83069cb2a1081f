package main

import (
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"

	"casewright"
	"casewright/casing/heat"
	"casewright/cmd/casewright/internal/chart"
	"casewright/cmd/casewright/internal/drawing"
	"casewright/cmd/casewright/internal/jsonout"
	"casewright/cmd/casewright/internal/pdf"
	"casewright/cmd/casewright/internal/table"
	"casewright/quantity"
	"casewright/sizing"
)

type heatCmd struct {
	File   string `arg:"" help:"A design file with [heat]; - is standard input."`
	Output string `name:"output" short:"o" help:"File to write; its end tells the format. Standard output where none is named."`
	Format string `help:"table, json, svg, png or pdf." enum:"auto,table,json,svg,png,pdf" default:"auto"`
	built
	screen
}

// Help follows the flags in heat --help.
func (heatCmd) Help() string {
	return `Examples:
  casewright heat basalt64-hot.toml
  casewright heat basalt64-hot.toml -o heat.svg
  casewright heat basalt64-hot.toml -o heat.png
  casewright heat --format json basalt64-hot.toml

How hot the liner, the wall and the ends get while the motor burns and while heat
soaks through afterwards: a table by part, the strength of the tube at the peak of
pressure and at burnout, each gland against what its rubber bears, what to change
where it overheats, and how long to wait before touching. The design has [heat]
with its layers, and [end.heat] for each end that is to be followed.

Where [heat.measured] has what labels or thermocouples told in a test, the film
coefficient and the liner's conductivity are fitted to it, and what stays
unexplained is told. The design's own numbers are not changed: write the fitted
ones into it if you trust them.

Exit status: 0 nothing gets hotter than it bears, 1 something does, 2 the file or
the usage is bad, 3 the program failed.`
}

// Run writes how hot the motor gets.
func (c *heatCmd) Run(s *streams) error {
	format, err := formatOf(c.Format, c.Output, "table", "json", "svg", "png", "pdf")
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
	if sizing.Measured(design) {
		if a.Fit, err = fitted(design); err != nil {
			return err
		}
	}
	if err := put(s, c.Output, c.File, c.writer(a, format, s)); err != nil {
		return err
	}
	if !a.Holds() {
		return status{code: exitVerdict}
	}
	return nil
}

// courseFile is the file of courses that the design names, which lies beside it;
// empty where it names none.
func courseFile(d *casewright.Design) string {
	name := d.Heat.Course.Value
	if name != "" && !filepath.IsAbs(name) && d.File != "-" {
		name = filepath.Join(filepath.Dir(d.File), name)
	}
	return name
}

// fitted is the fit to what was measured.
func fitted(d *casewright.Design) (*heat.Fitted, error) {
	var courses []heat.Course
	if name := courseFile(d); name != "" {
		f, err := os.Open(name)
		if err != nil {
			return nil, status{exitInput, fmt.Sprintf("%s:%d: csv: cannot read %s: %v", d.File, d.Heat.Course.Line, name, cause(err))}
		}
		defer f.Close()
		if courses, err = heat.ReadCourses(f, sizing.HeatedNames(d)); err != nil {
			return nil, status{exitInput, name + ":" + strings.ReplaceAll(err.Error(), "\n", "\n"+name+":")}
		}
	}
	fit, err := sizing.Calibrate(d, courses)
	if err != nil {
		return nil, status{exitInput, fmt.Sprintf("%s: [heat.measured]: %v", d.File, err)}
	}
	return fit, nil
}

// widthPNG is the width of a picture, in pixels.
const widthPNG = 1600

func (c *heatCmd) writer(a *sizing.HeatAnswer, format string, s *streams) func(io.Writer) error {
	options := table.Options{Units: c.Units, Colour: c.coloured(s) && c.Output == "", ASCII: c.ASCII, Width: s.width}
	plot := heatChart(a, options.Inches(a.Design))
	return func(w io.Writer) error {
		switch format {
		case "json":
			return jsonout.Heat(w, a)
		case "svg":
			return drawing.Chart(plot).SVG(w)
		case "png":
			return drawing.Chart(plot).PNG(w, widthPNG)
		case "pdf":
			return pdf.Drawings(w, plot.Title, []*drawing.Sheet{drawing.Chart(plot)})
		}
		if err := table.Heat(w, a, options); err != nil {
			return err
		}
		if _, err := io.WriteString(w, "\n"); err != nil {
			return err
		}
		return table.Plot(w, plot, options)
	}
}

// heatChart is how hot metal and rings get over time. Hot faces are left out:
// beside them all else would lie flat.
func heatChart(a *sizing.HeatAnswer, fahrenheit bool) *chart.Chart {
	unit := quantity.MustUnit("°C")
	if fahrenheit {
		unit = quantity.MustUnit("°F")
	}
	c := &chart.Chart{
		Title: a.Design.Name.Value + ": temperatures after ignition", Unit: unit.Symbol(),
		Note: "Hot faces of liner and ends are left out; the table has them.",
	}
	line := func(part, place, name string) {
		p := a.Find(part, place)
		values := make([]float64, len(p.Trace))
		for i, t := range p.Trace {
			values[i] = unit.FromSI(t)
		}
		c.Series = append(c.Series, chart.Series{Name: name, Time: a.History.Time, Value: values})
	}
	line("tube", "bond", "outer face of the liner")
	line("tube", "wall_mean", "tube wall")
	told := map[string]bool{}
	for i := range a.Seals {
		s := &a.Seals[i]
		line(s.End, "gland", s.End+" gland")
		line(s.End, "bolts", s.End+" screws")
		if !told[s.Compound.Name] {
			told[s.Compound.Name] = true
			c.Levels = append(c.Levels, chart.Level{Name: s.Compound.Name + " bears", Value: unit.FromSI(float64(s.Compound.Limit))})
		}
	}
	c.Levels = append(c.Levels, chart.Level{Name: "touch", Value: unit.FromSI(float64(a.Touch))})
	c.Marks = append(c.Marks, chart.Mark{Time: a.History.Burnout, Name: "burnout"})
	if a.History.Cooled && a.History.Safe > a.History.Burnout {
		name := "all below touch"
		if a.Unfollowed() != nil {
			name = "all that is computed below touch"
		}
		c.Marks = append(c.Marks, chart.Mark{Time: a.History.Safe, Name: name})
	}
	return c
}
