package table

import (
	"fmt"
	"io"
	"strings"

	"casewright/margin"
	"casewright/verification"
)

// Methods writes the definitions of checks: a line each, or whole.
func Methods(w io.Writer, list []*margin.Method, o Options) error {
	p := newListing(o)
	if o.All {
		for _, m := range list {
			p.method(m)
		}
		return p.write(w)
	}
	rows := []row{{cells: []string{"check", "rows", "seen", "solver", "memory", "most off"}}}
	for _, m := range list {
		rows = append(rows, row{cells: append([]string{m.ID}, evidenceCells(verification.For(m.ID))...)})
		rows = p.free(rows, m.Title+": "+Formula(m))
	}
	p.grid(rows, left, right, right, right, right, right)
	p.line("")
	p.say("", 2, "rows: numbers from outside that the check was verified against, and the largest deviation of those that must agree; others lie in a band; casewright verify shows them, casewright methods ID a check whole.")
	return p.write(w)
}

// Formula is what a method compares, on one line.
func Formula(m *margin.Method) string {
	if m.Kind == margin.Strength {
		return m.Demand + " against " + m.Capacity + factorWords(m)
	}
	return m.Value + toldOf(m) + " " + limitOf(m)
}

func factorWords(m *margin.Method) string {
	var words []string
	switch m.Factor {
	case margin.YieldFactor:
		words = append(words, "yield")
	case margin.UltimateFactor:
		words = append(words, "ultimate")
	case margin.NoFactor:
	}
	if m.Joint {
		words = append(words, "fitting")
	}
	if words == nil {
		return ""
	}
	return " (factor: " + strings.Join(words, " × ") + ")"
}

// toldOf says of a check without a verdict that its limit is no more than a
// number to compare with.
func toldOf(m *margin.Method) string {
	if m.NoteOnly {
		return ", only told beside"
	}
	return ""
}

// limitOf is what a value is held against.
func limitOf(m *margin.Method) string {
	limit := m.Limit
	if limit == "" {
		limit = m.Default
	}
	switch m.Kind {
	case margin.AtMost:
		return "≤ " + limit
	case margin.Between:
		return m.Default + " to " + m.DefaultMost
	case margin.AtLeast, margin.Strength:
	}
	return "≥ " + limit
}

// method writes one method whole.
func (p *listing) method(m *margin.Method) {
	const indent = 12
	label := func(name, text string) {
		if text != "" {
			p.say(fmt.Sprintf("  %-9s ", name), indent, text)
		}
	}
	p.say("", 2, m.ID+": "+m.Title)
	label("why", m.Why)
	if m.Kind == margin.Strength {
		label("demand", m.Demand)
		label("capacity", m.Capacity+factorWords(m))
	} else {
		label("value", m.Value)
		label("limit", limitOf(m)+first(m.Settable, ", or the design file's own")+first(m.NoteOnly, " to compare with; only told, never a verdict"))
	}
	for i, s := range m.Symbols {
		info := s.Term.Info()
		text := s.Name() + ": " + info.Meaning
		if unit := info.Kind.SI(); unit != "1" {
			text += ", " + unit
		}
		label(first(i == 0, "where"), text)
	}
	for i, o := range m.Readings {
		label(first(i == 0, "other"), o.Name+": "+o.Formula+"; "+o.Source)
	}
	if m.Part != "" {
		mode := m.Mode.String()
		label("gives way", strings.TrimPrefix(mode+": ", ": ")+m.Part)
	}
	label("key", m.Key)
	label("source", m.Source)
	label("holds for", m.Range)
	for i, e := range evidenceLines(verification.For(m.ID)) {
		label(first(i == 0, "verified"), e)
	}
}
