package main

import (
	"casewright"
	"casewright/bench"
	"casewright/cmd/casewright/internal/document"
)

type checklistCmd struct{ paperFlags }

// Help follows the flags in checklist --help.
func (checklistCmd) Help() string {
	return `Examples:
  casewright checklist basalt64.toml -o basalt64-checklist.pdf
  casewright checklist basalt64.toml -o basalt64-checklist.md

What to do with this very design, in order and to be ticked off: count the
parts, inspect and deburr, fit the seals, assemble, test with water, before and
after each test.

Exit status: 0 written, 2 the file or the usage is bad, 3 the program failed.`
}

// Run writes the steps.
func (c *checklistCmd) Run(s *streams) error { return c.write(s, "checklist", built{}, steps) }

// steps is the document of checklist.
func steps(r *casewright.Report, _ bool) *document.Document {
	doc := &document.Document{Title: r.Design.Name.Value + ": assembly and test, step by step"}
	add := func(blocks ...document.Block) { doc.Blocks = append(doc.Blocks, blocks...) }
	add(document.Heading{Level: 1, Text: doc.Title}, verdictOf(r))
	group, list := "", []string(nil)
	flush := func() {
		if list != nil {
			add(document.List{Items: list, Ticks: true})
		}
		list = nil
	}
	for _, step := range bench.Assembly(r) {
		if step.Group != group {
			flush()
			group = step.Group
			add(document.Heading{Level: 2, Text: group})
		}
		if step.Caution {
			flush()
			add(document.Paragraph{Text: step.Text, Tone: document.Caution})
			continue
		}
		list = append(list, step.Text)
	}
	flush()
	return doc
}
