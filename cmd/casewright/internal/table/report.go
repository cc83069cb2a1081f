package table

import (
	"slices"

	"casewright"
	"casewright/margin"
	"casewright/quantity"
)

// Cells are the checks of a report as [Check] has them on the screen, each a
// row: verdict and check, what it has, what it needs, margin, where it gives
// way, how, and its title. Verdicts go with them.
func Cells(r *casewright.Report, o Options) (rows [][]string, verdicts []margin.Verdict) {
	p := &page{report: r, options: o, units: unitsFor(o.Units, r.Design)}
	for _, part := range p.sorted() {
		for _, one := range part.results {
			rows, verdicts = append(rows, p.named(one)), append(verdicts, one.Verdict)
		}
	}
	return rows, verdicts
}

// Least are the rows of [Cells] of what fails or is refused, and of so many of
// the least margins of what passes, the worst first.
func Least(r *casewright.Report, o Options, passing int) [][]string {
	p := &page{report: r, options: o, units: unitsFor(o.Units, r.Design)}
	var list []*casewright.Result
	for i := range r.Results {
		if r.Results[i].Verdict != margin.Noted {
			list = append(list, &r.Results[i])
		}
	}
	slices.SortStableFunc(list, worse)
	var rows [][]string
	for _, one := range list {
		if one.Verdict == margin.Pass {
			if passing--; passing < 0 {
				break
			}
		}
		rows = append(rows, p.named(one))
	}
	return rows
}

// named are the cells of a check with its part.
func (p *page) named(r *casewright.Result) []string {
	cells := p.cells(r)
	cells[0] = words[r.Verdict] + " " + r.ID()
	return cells
}

// First are the rows of [Order] of what gives way first in each way: what
// leaks, breaks and yields.
func First(r *casewright.Report, o Options) [][]string {
	u := unitsFor(o.Units, r.Design)
	var list [][]string
	for _, mode := range []margin.Mode{margin.Leaks, margin.Breaks, margin.Yields} {
		if e := r.First(mode); e != nil {
			list = append(list, u.order(r, e))
		}
	}
	return list
}

// Order tells what gives way at which pressure, the least first, as far as the
// least of each way and at most so many.
func Order(r *casewright.Report, o Options, most int) [][]string {
	u := unitsFor(o.Units, r.Design)
	var list [][]string
	for i := range r.Order {
		e := &r.Order[i]
		if len(list) == most {
			break
		}
		list = append(list, u.order(r, e))
	}
	return list
}

// order are the cells of what gives way: at which pressure, how, which check
// and what happens.
func (u units) order(r *casewright.Report, e *casewright.Event) []string {
	return []string{u.text(e.At, quantity.KindPressure, down), digits(e.At/r.Design.Pressure.SI(), 1, down) + " x", e.Result.Method.Mode.String(), e.Result.ID(), e.Result.Method.Part}
}
