package table

import (
	"fmt"
	"io"
	"strconv"

	"github.com/olekukonko/tablewriter/tw"

	"casewright"
	"casewright/bench"
	"casewright/quantity"
)

// Holes writes where the holes go on the tube, a table a row of them.
func Holes(w io.Writer, d *casewright.Design, strips []bench.Strip, o Options) error {
	p := &page{options: o, units: unitsFor(o.Units, d)}
	by := bench.Ruler{Inches: p.units.inches}
	p.wrapped("", 2, p.signs(fmt.Sprintf("%s: where the holes go, on a tube of %s outside (%s)", d.Name.Value, by.Length(strips[0].Across), by.Origin(strips[0].Outer))))
	for _, s := range strips {
		end := "first"
		if !s.First {
			end = "other"
		}
		p.line("")
		p.wrapped("", 2, p.signs(fmt.Sprintf("%s: %d holes of %s, %s from the %s end of the tube", s.End, len(s.Holes), by.Size(s.Size), by.Size(s.Edge), end)))
		rows := []row{{cells: []string{"hole", "angle", "arc", "chord", "on paper"}}}
		for i, h := range s.Holes {
			rows = append(rows, row{cells: []string{
				strconv.Itoa(h.Number), p.signs(fmt.Sprintf("%.3f°", h.Angle)), p.long(h.Arc), p.long(h.Chord), p.long(s.Marks[i].X),
			}})
		}
		lines, err := aligned(rows, []tw.Align{tw.AlignRight, tw.AlignRight, tw.AlignRight, tw.AlignRight, tw.AlignRight})
		if err != nil {
			return err
		}
		for _, line := range lines {
			p.line("  %s", line)
		}
		p.wrapped("", 2, p.signs(fmt.Sprintf("The strip is %s from its zero line to its lap line, on paper of %s.", by.Length(s.Length), by.Length(s.Paper))))
		if sink := by.Sink(s.Sink); sink != "" {
			p.wrapped("", 2, p.signs(sink))
		}
	}
	p.line("")
	closing := "Angles and arcs count from a line along the tube, the same for all its ends, to the right as you look at its outside with the first end up; chords go straight from hole 1. " +
		"Each counts from the beginning, so that no error adds up."
	if strips[0].From == bench.Drawn {
		closing += " Measure the tube: if it is not this thick, write what it is with --outside."
	}
	p.wrapped("", 2, closing)
	_, err := io.WriteString(w, p.finish())
	return err
}

// Inches tells whether a person reads the lengths of a design in inches.
func (o Options) Inches(d *casewright.Design) bool { return unitsFor(o.Units, d).inches }

// long is a length to the hundredth of a millimetre, or to the half thousandth
// of an inch.
func (p *page) long(x quantity.Length) string {
	if p.units.inches {
		return strconv.FormatFloat(float64(x/quantity.Inch), 'f', 4, 64) + " in"
	}
	return strconv.FormatFloat(1e3*float64(x), 'f', 2, 64) + " mm"
}
