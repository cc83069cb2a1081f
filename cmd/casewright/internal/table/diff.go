package table

import (
	"fmt"
	"io"
	"math"
	"slices"
	"strings"

	"github.com/olekukonko/tablewriter/tw"

	"casewright"
	"casewright/margin"
	"casewright/quantity"
	"casewright/revision"
)

// MostMoves are the checks that are told of one change, unless all are asked
// for.
const MostMoves = 3

// Diff writes what has changed between two revisions of a design: the values,
// each with what it alone does, the margins, and what gives way first.
func Diff(w io.Writer, r *revision.Revision, o Options) error {
	p := &page{report: r.New, options: o, units: unitsFor(o.Units, r.New.Design)}
	d := r.New.Design
	p.wrapped("", 2, fmt.Sprintf("%s: %s → %s, worst case of tolerances", d.Name.Value, r.Old.Design.File, d.File))
	p.line("")
	if r.Same() {
		p.line("No value and no margin has changed.")
	}
	for i := range r.Changes {
		c := &r.Changes[i]
		text := ChangeWords(c)
		if c.Line > 0 {
			text += fmt.Sprintf(" (line %d)", c.Line)
		}
		p.wrapped("", 2, text)
		for _, told := range Effects(r, c, o) {
			p.wrapped("    ", 6, told)
		}
	}
	if len(r.Moves) > 0 {
		rows := []row{{cells: []string{"all changes together", "was", "is", "margin was", "is", ""}}}
		for i, one := range Moved(r, o) {
			if i == 12 && !o.All {
				rows = append(rows, row{free: fmt.Sprintf("    %d more have changed (--all shows them)", len(r.Moves)-i)})
				break
			}
			one[0] = "  " + one[0]
			rows = append(rows, row{cells: one})
		}
		for i := range rows {
			for j := range rows[i].cells {
				rows[i].cells[j] = p.signs(rows[i].cells[j])
			}
		}
		lines, err := aligned(rows, []tw.Align{tw.AlignLeft, tw.AlignRight, tw.AlignRight, tw.AlignRight, tw.AlignRight, tw.AlignLeft})
		if err != nil {
			return err
		}
		p.line("")
		p.lines(lines)
	}
	p.line("")
	for _, text := range Firsts(r, o) {
		label, rest, _ := strings.Cut(text, ": ")
		p.wrapped(fmt.Sprintf("%-15s", label), 15, rest)
	}
	p.wrapped(fmt.Sprintf("%-15s", "Verdict"), 15, fromTo(Verdict(r.Old), Verdict(r.New)))
	p.line("%s", Caution)
	_, err := io.WriteString(w, p.finish())
	return err
}

// ChangeWords puts a change in words, with what was written and what is.
func ChangeWords(c *revision.Change) string {
	text := c.Words
	if c.Part != "" {
		text = c.Part + ": " + text
	}
	if len(c.Keys) == 1 && c.Was[0] != "" && c.Is[0] != "" && !strings.Contains(text, c.Is[0]) {
		text += fmt.Sprintf(", %s %s → %s", short(c.Keys[0]), c.Was[0], c.Is[0])
	}
	return text
}

// Effects tells what a change alone does, the most important first.
func Effects(r *revision.Revision, c *revision.Change, o Options) []string {
	p := &page{report: r.New, options: o, units: unitsFor(o.Units, r.New.Design)}
	switch {
	case c.Together && strings.HasPrefix(c.Keys[0], "measured."):
		return []string{"tells in a motor as built alone (--as-built)"}
	case c.Together:
		return []string{"the old motor cannot be built with this change alone"}
	case len(c.Alone) == 0:
		return []string{"moves no margin by a hundredth"}
	}
	var list []string
	for _, one := range p.consequences(c) {
		if len(list) == MostMoves && !o.All {
			break
		}
		text := one.text
		if c.Part != one.parts[0] || len(one.parts) > 1 {
			text = strings.Join(one.parts, " and ") + ": " + text
		}
		list = append(list, text)
	}
	if more := len(p.consequences(c)) - len(list); more > 0 {
		list[len(list)-1] += fmt.Sprintf("; %d more", more)
	}
	return list
}

// effect is what a change does to a check, at one or both ends alike.
type effect struct {
	text  string
	parts []string
}

// consequences are those of a change, the most important first.
func (p *page) consequences(c *revision.Change) []effect {
	var list []effect
	for i := range c.Alone {
		m := &c.Alone[i]
		of := m.New
		if of == nil {
			of = m.Old
		}
		text := p.moved(m)
		if n := slices.IndexFunc(list, func(e effect) bool { return e.text == text }); n >= 0 {
			list[n].parts = union(list[n].parts, []string{of.Part})
			continue
		}
		list = append(list, effect{text, []string{of.Part}})
	}
	return list
}

// moved puts in words what has become of a check.
func (p *page) moved(m *revision.Move) string {
	switch {
	case m.New == nil:
		return m.Old.Method.ID + " is no longer checked"
	case m.Old == nil:
		return m.New.Method.ID + " is checked now: " + words[m.New.Verdict]
	}
	of, was, is := "", p.figure(m.Old), p.figure(m.New)
	if was == is && !math.IsNaN(m.Old.Margin) && !math.IsNaN(m.New.Margin) {
		// As much as before, of which another amount is asked.
		of, was, is = "margin ", Margin(m.Old.Margin), Margin(m.New.Margin)
	}
	text := fmt.Sprintf("%s, %sfrom %s to %s", m.New.Method.Title, of, was, is)
	if m.Old.Verdict != m.New.Verdict {
		text += fmt.Sprintf(" (%s → %s)", words[m.Old.Verdict], words[m.New.Verdict])
	}
	return text
}

// figure is what tells a person most of a check: the pressure at which a part
// gives way, else what it has.
func (p *page) figure(r *casewright.Result) string {
	switch {
	case r.Verdict == margin.Refused:
		return "refused"
	case r.Method.Kind == margin.Strength:
		if at := p.units.text(r.GivesWayAt, quantity.KindPressure, down); at != "" {
			return at
		}
	}
	has, _ := p.units.hasNeeds(r)
	return has
}

// Moved are the checks that have changed, each a row: check, what it had and
// has, margin before and now, verdict.
func Moved(r *revision.Revision, o Options) [][]string {
	p := &page{report: r.New, options: o, units: unitsFor(o.Units, r.New.Design)}
	var rows [][]string
	for i := range r.Moves {
		m := &r.Moves[i]
		cells := make([]string, 6)
		for k, one := range []*casewright.Result{m.Old, m.New} {
			if one == nil {
				continue
			}
			has, _ := p.units.hasNeeds(one)
			cells[0], cells[1+k], cells[3+k], cells[5] = one.ID(), has, Margin(one.Margin), words[one.Verdict]
		}
		switch {
		case m.New == nil:
			cells[5] = "gone"
		case m.Old == nil:
			cells[5] = "new, " + words[m.New.Verdict]
		case m.Old.Verdict != m.New.Verdict:
			cells[5] = words[m.Old.Verdict] + " → " + words[m.New.Verdict]
		}
		rows = append(rows, cells)
	}
	return rows
}

// Firsts tell for each way to give way what goes first, before and now.
func Firsts(r *revision.Revision, o Options) []string {
	p := &page{report: r.New, options: o, units: unitsFor(o.Units, r.New.Design)}
	var list []string
	for _, mode := range []struct {
		mode  margin.Mode
		label string
	}{{margin.Leaks, "Leaks first"}, {margin.Breaks, "Breaks first"}, {margin.Yields, "Yields first"}} {
		text := func(one *casewright.Report) string {
			e := one.First(mode.mode)
			if e == nil {
				return "nothing"
			}
			return fmt.Sprintf("%s at %s", e.Result.ID(), p.units.text(e.At, quantity.KindPressure, down))
		}
		list = append(list, mode.label+": "+fromTo(text(r.Old), text(r.New)))
	}
	return list
}

// fromTo tells what became of something; once where it stayed.
func fromTo(was, is string) string {
	if was == is {
		return is + ", as before"
	}
	return was + " → " + is
}
