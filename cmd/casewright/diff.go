package main

import (
	"errors"
	"fmt"
	"strings"

	"casewright"
	"casewright/cmd/casewright/internal/document"
	"casewright/cmd/casewright/internal/jsonout"
	"casewright/cmd/casewright/internal/table"
	"casewright/revision"
)

type diffCmd struct {
	Old    string `arg:"" help:"The design file as it was; - is standard input."`
	New    string `arg:"" help:"The design file as it is."`
	Format string `help:"table, markdown or json." enum:"table,markdown,json" default:"table"`
	All    bool   `help:"Show all checks that have changed."`
	built
	screen
}

// Help follows the flags in diff --help.
func (diffCmd) Help() string {
	return `Examples:
  casewright diff basalt64-short-edge.toml basalt64.toml
  casewright diff --format markdown basalt64-short-edge.toml basalt64.toml

What has changed from one revision of a design to the next: each value in words,
with what it alone does to the old motor; every margin that moved; and what
gives way first, before and now. Against the last commit of a repository:
git show HEAD:my.toml | casewright diff - my.toml

Exit status: 0 compared, whatever the verdicts are, 2 a file is bad, 3 the
program failed.`
}

// Run compares the two.
func (c *diffCmd) Run(s *streams) error {
	if c.Old == "-" && c.New == "-" {
		return status{exitInput, "both designs from standard input; write the name of one"}
	}
	var reports [2]*casewright.Report
	bad := false
	for i, file := range []string{c.Old, c.New} {
		design, err := c.read(file, s)
		var found casewright.Errors
		switch {
		case errors.As(err, &found):
			bad = true
			if err := tellInvalid(s, "diff", c.Format, file, found); err != nil {
				return err
			}
		case err != nil:
			return err
		default:
			reports[i] = casewright.Check(design)
		}
	}
	if bad {
		return status{code: exitInput}
	}
	r := revision.Compare(reports[0], reports[1])
	o := table.Options{All: c.All, Units: c.Units, Colour: c.coloured(s), ASCII: c.ASCII, Width: s.width}
	switch c.Format {
	case "json":
		return jsonout.Diff(s.out, r)
	case "markdown":
		return comparison(r, o).Markdown(s.out)
	}
	return table.Diff(s.out, r, o)
}

// comparison is a document of what has changed.
func comparison(r *revision.Revision, o table.Options) *document.Document {
	doc := &document.Document{Title: r.New.Design.Name.Value + ": what has changed"}
	add := func(blocks ...document.Block) { doc.Blocks = append(doc.Blocks, blocks...) }
	add(document.Heading{Level: 2, Text: doc.Title}, document.Paragraph{
		Text: fmt.Sprintf("%s → %s: %s → %s", r.Old.Design.File, r.New.Design.File, table.Verdict(r.Old), table.Verdict(r.New)), Tone: tones[r.New.Verdict],
	})
	var changes []string
	for i := range r.Changes {
		c := &r.Changes[i]
		changes = append(changes, table.ChangeWords(c)+": "+strings.Join(table.Effects(r, c, o), "; "))
	}
	if changes == nil {
		changes = []string{"No value has changed."}
	}
	add(document.List{Items: changes})
	if rows := table.Moved(r, o); rows != nil {
		add(document.Table{Head: []string{"check", "was", "is", "margin was", "is", ""}, Right: []bool{false, true, true, true, true}, Rows: rows})
	}
	add(document.List{Items: table.Firsts(r, o)}, document.Paragraph{Text: table.Caution, Tone: document.Caution})
	return doc
}
