package main

import (
	"errors"
	"fmt"
	"strings"

	"casewright"
	"casewright/cmd/casewright/internal/jsonout"
	"casewright/cmd/casewright/internal/page"
	"casewright/cmd/casewright/internal/table"
	"casewright/margin"
	"casewright/quantity/near"
	"casewright/working"
)

type explainCmd struct {
	File   string   `arg:"" help:"A design file; - is standard input."`
	Check  []string `arg:"" optional:"" help:"A check, as nozzle/hole.edge; or all of a part or of an id. All checks where none is named."`
	Format string   `help:"table, markdown, html or json." enum:"table,markdown,html,json" default:"table"`
	built
	screen
}

// Help follows the flags in explain --help.
func (explainCmd) Help() string {
	return `Examples:
  casewright explain basalt64.toml nozzle/hole.tear_out
  casewright explain basalt64.toml tube
  casewright explain --format html basalt64.toml > basalt64.html

The worked calculation of one check, or of all: the formula, each symbol with
its value and where it comes from, the sums, the margin, what would change it,
the source, and what the formula was verified against. In the sums all units
go together: N, mm and MPa, or lbf, in and psi.

Exit status: 0 what is explained passes, 1 it fails or is refused, 2 the file
is bad or there is no such check, 3 the program failed.`
}

// Run explains the checks that are named, in the order of the report; the
// whole report with the worst first.
func (c *explainCmd) Run(io *streams) error {
	design, err := c.read(c.File, io)
	var found casewright.Errors
	if errors.As(err, &found) {
		if err := tellInvalid(io, "explain", c.Format, c.File, found); err != nil {
			return err
		}
		return status{code: exitInput}
	}
	if err != nil {
		return err
	}
	r := casewright.Check(design)
	which, err := c.which(r)
	if err != nil {
		return err
	}
	calculations := working.Of(r, which)
	if err := c.write(io, r, calculations); err != nil {
		return err
	}
	for _, i := range which {
		if v := r.Results[i].Verdict; v == margin.Fail || v == margin.Refused {
			return status{code: exitVerdict}
		}
	}
	return nil
}

func (c *explainCmd) write(io *streams, r *casewright.Report, calculations []working.Calculation) error {
	if c.Format == "json" {
		return jsonout.Explain(io.out, r, calculations)
	}
	o := table.Options{Units: c.Units, Colour: c.coloured(io), ASCII: c.ASCII, Width: io.width}
	var list []table.Worked
	for i := range calculations {
		list = append(list, table.Work(r, &calculations[i], o))
	}
	switch c.Format {
	case "html":
		return page.HTML(io.out, r, list)
	case "markdown":
		return page.Markdown(io.out, r, list)
	}
	return table.Explain(io.out, r, list, o)
}

// which finds the checks that are named.
func (c *explainCmd) which(r *casewright.Report) ([]int, error) {
	if len(c.Check) == 0 {
		all := working.Find(r, "")
		working.Worst(r, all)
		return all, nil
	}
	// The name of an end may hold blanks, so that the words may be one name.
	words := c.Check
	if whole := strings.Join(words, " "); len(working.Find(r, whole)) > 0 {
		words = []string{whole}
	}
	var list []int
	seen := map[int]bool{}
	for _, word := range words {
		found := working.Find(r, word)
		if found == nil {
			return nil, status{exitInput, noCheck(r, word)}
		}
		for _, i := range found {
			if !seen[i] {
				seen[i] = true
				list = append(list, i)
			}
		}
	}
	return list, nil
}

// noCheck says that nothing is so called, and what was likely meant.
func noCheck(r *casewright.Report, word string) string {
	var known []string
	for i := range r.Results {
		one := &r.Results[i]
		known = append(known, one.ID(), one.Method.ID, one.Part)
	}
	text := fmt.Sprintf("%.60q is no check of %s", word, r.Design.File)
	if match, ok := near.Match(word, known); ok {
		return fmt.Sprintf("%s; write %q", text, match)
	}
	return text + "; casewright check --all lists them"
}
