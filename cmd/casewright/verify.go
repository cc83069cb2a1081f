package main

import (
	"bytes"
	"errors"
	"io/fs"
	"path/filepath"
	"strings"

	"casewright"
	"casewright/cmd/casewright/internal/jsonout"
	"casewright/cmd/casewright/internal/table"
	"casewright/margin/reference"
	"casewright/verification"
)

type verifyCmd struct {
	Files  []string `arg:"" optional:"" name:"file" complete:"csv" help:"Tables of your own, held beside those of casewright."`
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
	var faults []string
	for _, file := range c.Files {
		text, err := readTable(file, io)
		if err != nil {
			faults = append(faults, tableFaults(file, err))
			continue
		}
		more, err := verification.Table(bytes.NewReader(text), filepath.Base(file))
		if err != nil {
			faults = append(faults, tableFaults(file, err))
		}
		list = append(list, more...)
	}
	if faults != nil {
		return status{exitInput, strings.Join(faults, "\ncasewright: ")}
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
		err = table.Verify(io.out, list, c.Short, c.Method, table.Options{Units: c.Units, Colour: c.coloured(io), ASCII: c.ASCII, Width: io.width})
	}
	if err != nil {
		return err
	}
	if n := verification.Sum(list).Failed; n > 0 {
		return status{code: exitVerdict}
	}
	return nil
}

// tableFaults tells what is wrong with a table, a line each.
func tableFaults(file string, err error) string {
	if errors.Is(err, fs.ErrNotExist) {
		return file + ": there is no such file; write the name of a table of rows"
	}
	faults, ok := errors.AsType[reference.Faults](err)
	if !ok {
		return asErrors(file, err).Error()
	}
	lines := make([]string, len(faults))
	for i, fault := range faults {
		lines[i] = file + ": " + fault.Error()
	}
	return strings.Join(lines, "\ncasewright: ")
}

// readTable reads a file, or standard input.
func readTable(file string, io *streams) ([]byte, error) {
	if file == "-" {
		return readText(file, io)
	}
	return casewright.ReadText(file)
}
