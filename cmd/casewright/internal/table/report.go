package table

import (
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
			cells := p.cells(one)
			cells[0] = words[one.Verdict] + " " + one.ID()
			rows, verdicts = append(rows, cells), append(verdicts, one.Verdict)
		}
	}
	return rows, verdicts
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
		list = append(list, []string{u.text(e.At, quantity.KindPressure, down), digits(e.At/r.Design.Pressure.SI(), 1, down) + " x", e.Result.Method.Mode.String(), e.Result.ID(), e.Result.Method.Part})
	}
	return list
}
