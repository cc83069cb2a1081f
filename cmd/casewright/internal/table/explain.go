package table

import (
	"fmt"
	"io"
	"strings"
	"unicode/utf8"

	"github.com/olekukonko/tablewriter/tw"

	"casewright"
	"casewright/margin/formula"
)

// Explain writes checks worked out, one below the other.
func Explain(w io.Writer, r *casewright.Report, list []Worked, o Options) error {
	p := &page{report: r, options: o, units: unitsFor(o.Units, r.Design)}
	p.head()
	for i := range list {
		p.line("")
		if err := p.worked(&list[i]); err != nil {
			return err
		}
	}
	p.line("")
	p.wrapped("", 2, "The whole motor: "+p.signs(Verdict(r)))
	p.line("%s", p.signs(Caution))
	_, err := io.WriteString(w, p.finish())
	return err
}

// Caution is the line that ends every verdict.
const Caution = "A pass is not permission to fire: see SAFETY.md."

const (
	label  = "  %-9s "
	beside = 12 // columns of a label
)

// worked writes one check worked out.
func (p *page) worked(w *Worked) error {
	p.line("%s", p.worded(w))
	p.labelled("why", w.Why)
	for i, s := range w.Sums {
		p.sum(i == 0, s)
	}
	for i, s := range w.Symbols {
		p.symbol(i == 0, s)
	}
	for i, line := range w.Outcome {
		p.labelled(first(i == 0, "so"), line)
	}
	for i, o := range w.Readings {
		p.labelled(first(i == 0, "other"), o.Text())
	}
	if err := p.effects(w); err != nil {
		return err
	}
	if w.Change != "" {
		p.labelled("mend", "The smallest single change, to a round size: write "+w.Change+".")
	}
	for i, c := range w.Changes {
		p.labelled(first(i == 0 && w.Change == "", "mend"), "Or write "+c+".")
	}
	for i, n := range w.Notes {
		p.labelled(first(i == 0, "notes"), n)
	}
	p.labelled("source", w.Source)
	p.labelled("holds for", w.Range)
	for i, e := range w.Evidence {
		p.labelled(first(i == 0, "verified"), e)
	}
	return nil
}

func first(is bool, text string) string {
	if is {
		return text
	}
	return ""
}

// worded is the line that heads a check, its verdict at the right.
func (p *page) worded(w *Worked) string {
	left := p.signs(w.ID + ": " + w.Title)
	word := w.Word
	width := min(80, p.options.Width)
	gap := max(1, width-utf8.RuneCountInString(left)-len(word))
	if p.options.Colour {
		word = colours[w.verdict] + word + plain
	}
	return left + strings.Repeat(" ", gap) + word
}

func (p *page) labelled(name, text string) {
	if text != "" {
		p.wrapped(fmt.Sprintf(label, name), beside, text)
	}
}

// sum writes a formula, the numbers in it, and what comes out, a line each.
func (p *page) sum(isFirst bool, s WorkedSum) {
	symbols, numbers, result := s.Line()
	p.labelled(first(isFirst, "formula"), join(" = ", s.Name, symbols, first(numbers == "", result)))
	if numbers != "" && numbers != result {
		p.labelled("", join(" = ", s.Name, numbers, result))
	}
}

func join(by string, parts ...string) string {
	var list []string
	for _, part := range parts {
		if part != "" {
			list = append(list, part)
		}
	}
	return strings.Join(list, by)
}

func (p *page) symbol(isFirst bool, s WorkedSymbol) {
	p.labelled(first(isFirst, "where"), s.Name+" = "+s.Value+", "+s.Meaning)
	if s.From != nil {
		p.deeper(join(" = ", s.Name, printed(s.From, nil), printed(s.From, s.Values)))
	}
	for _, o := range s.Origins {
		p.deeper(o)
	}
}

func (p *page) deeper(text string) { p.wrapped(strings.Repeat(" ", beside+2), beside+4, text) }

// Text is the reading as a line.
func (r *WorkedReading) Text() string {
	text := fmt.Sprintf("%s: %s = %s", r.Name, printed(r.Formula, nil), r.Result)
	if r.Over != "" {
		text += " (" + r.Over + ")"
	}
	return text + "; " + r.Source
}

// effects are what a small step of each value does, in columns.
func (p *page) effects(w *Worked) error {
	var rows []row
	for _, e := range w.Effects {
		rows = append(rows, row{cells: []string{p.signs(e.Key), p.signs(e.Written), p.signs(e.Step), p.signs(e.By)}})
	}
	if rows == nil {
		return nil
	}
	lines, err := aligned(rows, []tw.Align{tw.AlignLeft, tw.AlignLeft, tw.AlignLeft, tw.AlignRight})
	if err != nil {
		return err
	}
	p.labelled("changes", "a small step of each value, and what the margin does:")
	for _, line := range lines {
		p.line("%*s%s", beside+2, "", line)
	}
	return nil
}

// printed is a formula with its symbols, or with numbers for them.
func printed(n *formula.Node, values map[string]string) string {
	if values == nil {
		return n.Print()
	}
	return n.PrintWith(func(name string) string { return values[name] })
}
