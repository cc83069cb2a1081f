package main

import (
	"fmt"

	"casewright"
	"casewright/cmd/casewright/internal/jsonout"
	"casewright/cmd/casewright/internal/table"
	"casewright/margin"
	"casewright/quantity/near"
)

type methodsCmd struct {
	ID     string `arg:"" optional:"" help:"One check, as hole.edge, whole."`
	Format string `help:"table or json." enum:"table,json" default:"table"`
	screen
}

// Help follows the flags in methods --help.
func (methodsCmd) Help() string {
	return `Examples:
  casewright methods
  casewright methods hole.tear_out
  casewright methods --format json

All checks with formula, source, where they hold, and against how many numbers
from outside each was verified. casewright verify shows those numbers.`
}

// Run lists all methods, or shows one.
func (c *methodsCmd) Run(io *streams) error {
	list := casewright.Methods()
	if c.ID != "" {
		one, err := method(c.ID)
		if err != nil {
			return err
		}
		list = []*margin.Method{one}
	}
	if c.Format == "json" {
		return jsonout.Methods(io.out, list)
	}
	o := table.Options{Units: c.Units, Colour: c.coloured(io), ASCII: c.ASCII, Width: io.width, All: c.ID != ""}
	return table.Methods(io.out, list, o)
}

// method finds a method by its id.
func method(id string) (*margin.Method, error) {
	if m := casewright.FindMethod(id); m != nil {
		return m, nil
	}
	var known []string
	for _, m := range casewright.Methods() {
		known = append(known, m.ID)
	}
	text := fmt.Sprintf("%.60q is no check", id)
	if match, ok := near.Match(id, known); ok {
		return nil, status{exitInput, fmt.Sprintf("%s; write %q", text, match)}
	}
	return nil, status{exitInput, text + "; casewright methods lists them"}
}
