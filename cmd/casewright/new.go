package main

import (
	"fmt"

	"casewright"
)

type newCmd struct {
	File string `arg:"" help:"The file to write; - is standard output."`
}

// Help follows the flags in new --help.
func (newCmd) Help() string {
	return `Example:
  casewright new my.toml

The file is never overwritten.`
}

// Run writes the example.
func (c *newCmd) Run(io *streams) error {
	if c.File == "-" {
		_, err := io.out.WriteString(casewright.Example)
		return err
	}
	if err := writeNew(c.File, casewright.Example); err != nil {
		return err
	}
	_, err := fmt.Fprintf(io.err, "wrote %s; change the sizes to yours, then: casewright check %[1]s\n", c.File)
	return err
}
