package table

import (
	"fmt"
	"math"
	"strings"

	"casewright"
	"casewright/margin"
)

// Told is what there is to say of one check that fails or is refused, in
// sentences of any length.
type Told struct {
	At    casewright.Place // of what one would change; without a line where the file does not give it
	Text  string           // what it has and needs, what tolerances cost it, or why it is refused
	Write []string         // what would mend it, one remedy each
}

// Tell says of one check of a report what the table says of it.
func Tell(r *casewright.Report, c *casewright.Result, o Options) Told {
	p := &page{report: r, options: o, units: unitsFor(o.Units, r.Design)}
	if c.Verdict == margin.Refused {
		at, detail := p.cause(c)
		return Told{at, "refused, " + c.Reason.Text(), []string{detail + c.Reason.Write()}}
	}
	t := Told{At: casewright.Place{Key: c.Key, Line: c.Line, Column: c.Column}}
	a := p.counsel(c)
	t.Text = strings.TrimSuffix(a.checks[0].text, ".")
	if a.dear != nil {
		t.Text = fmt.Sprintf("%s: fails by tolerance only; most is lost to %s (%s)", c.Method.Title, a.costs(), t.Text)
	}
	for i, w := range a.remedies {
		t.Write = append(t.Write, fmt.Sprintf("%s %s = %s%s", w.verb, place(w.key, a.parts), w.value, after(a.fails[i])))
	}
	if a.remedies == nil {
		t.Write = []string{fmt.Sprintf("no %s alone makes it pass", short(c.Key))}
	}
	return t
}

// Stands says of one check of a report what it has, what it needs and by which
// margin it passes.
func Stands(r *casewright.Report, c *casewright.Result, o Options) string {
	has, needs := unitsFor(o.Units, r.Design).hasNeeds(c)
	switch {
	case has == "" || has == "-":
		return c.Method.Title
	case math.IsNaN(c.Margin):
		return fmt.Sprintf("%s: %s, %s", c.Method.Title, has, needs.sentence())
	}
	return fmt.Sprintf("%s: %s, %s; margin %s", c.Method.Title, has, needs.sentence(), Margin(c.Margin))
}
