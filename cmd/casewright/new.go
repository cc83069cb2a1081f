package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"strconv"

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
	f, err := os.OpenFile(c.File, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
	if errors.Is(err, fs.ErrExist) {
		return status{exitInput, fmt.Sprintf("%s is there already and stays as it is; write another name", strconv.Quote(c.File))}
	}
	if err != nil {
		return status{exitProgram, "cannot write: " + err.Error()}
	}
	_, err = f.WriteString(casewright.Example)
	if err = errors.Join(err, f.Close()); err != nil {
		// Half a file is worse than none.
		return status{exitProgram, "cannot write: " + errors.Join(err, os.Remove(c.File)).Error()}
	}
	_, err = fmt.Fprintf(io.err, "wrote %s; change the sizes to yours, then: casewright check %[1]s\n", c.File)
	return err
}
