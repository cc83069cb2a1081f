package main

import (
	"errors"
	"os"
	"path/filepath"
	"strings"

	"casewright/cmd/casewright/internal/jsonout"
	"casewright/cmd/casewright/internal/table"
	"casewright/verification"
)

type verifyCmd struct {
	Files  []string `arg:"" optional:"" name:"file" help:"Tables of your own, held beside those of casewright."`
	Method string   `help:"Only the rows that one check rests on." placeholder:"ID"`
	Short  bool     `help:"Only the rows that fail, and the counts."`
	Format string   `help:"table or json." enum:"table,json" default:"table"`
	screen
}

// Help follows the flags in verify --help.
func (verifyCmd) Help() string {
	return `Examples:
  casewright verify
  casewright verify --method hole.tear_out
  casewright verify --short my-rows.csv

Holds what casewright computes against numbers from outside: a row each, with
its source, what is expected, what is computed, and how far the two are apart.
Rows were seen in a copy of their source, are remembered, or come from a general
solver. README tells how to write a table.

Exit status: 0 every row holds, 1 one does not, 2 a table is bad, 3 the program
failed.`
}

// Run computes all rows.
func (c *verifyCmd) Run(io *streams) error {
	list := verification.Cases()
	var faults []error
	for _, file := range c.Files {
		more, err := verification.Table(os.DirFS(filepath.Dir(file)), filepath.Base(file))
		if err != nil {
			faults = append(faults, err)
		}
		list = append(list, more...)
	}
	if err := errors.Join(faults...); err != nil {
		return status{exitInput, strings.ReplaceAll(err.Error(), "\n", "\ncasewright: ")}
	}
	if c.Method != "" {
		if _, err := method(c.Method); err != nil {
			return err
		}
		list = verification.Of(list, c.Method)
	}
	var err error
	if c.Format == "json" {
		err = jsonout.Verify(io.out, list)
	} else {
		err = table.Verify(io.out, list, c.Short, table.Options{Units: c.Units, Colour: c.coloured(io), ASCII: c.ASCII, Width: io.width})
	}
	if err != nil {
		return err
	}
	if n := verification.Sum(list).Failed; n > 0 {
		return status{code: exitVerdict}
	}
	return nil
}
