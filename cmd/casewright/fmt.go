package main

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"slices"

	"github.com/rogpeppe/go-internal/diff"

	"casewright"
	"casewright/cmd/casewright/internal/canonical"
)

type fmtCmd struct {
	Files []string `arg:"" name:"file" help:"Design files and stock files; - is standard input, written to standard output."`
	Check bool     `help:"Change nothing; name the files that are not laid out, and end with 1 if there are any."`
	Diff  bool     `help:"Change nothing; show what would be changed."`
}

// Help follows the flags in fmt --help.
func (fmtCmd) Help() string {
	return `Examples:
  casewright fmt my.toml
  casewright fmt --check *.toml
  casewright fmt --diff my.toml
  casewright fmt - < my.toml > laid-out.toml

Each file is set out in one way, whole or not at all, and the names of those that
change are printed. Tables and keys come in the order of the README's table, each
with its comments; sizes are written as on a drawing, digit for digit as they were.
No value changes its meaning, and no comment is lost. A file that is not TOML stays
as it is; one that casewright would not accept as a design is laid out all the same.

Exit status: 0 done, 1 with --check a file is not laid out, 2 a file is bad,
3 the program failed or could not write; the largest over all files.`
}

// Run lays out every file in the order given.
func (c *fmtCmd) Run(io *streams) error {
	if len(c.Files) > 1 && slices.Contains(c.Files, "-") {
		return status{exitInput, "- is laid out to standard output; give it alone"}
	}
	code := exitPass
	for _, file := range c.Files {
		err := c.one(io, file)
		var found casewright.Errors
		if errors.As(err, &found) {
			err = tellInvalid(io, "fmt", "text", file, found)
			code = max(code, exitInput)
		}
		if isClosedPipe(err) {
			break
		}
		if err != nil {
			code = max(code, report(io, err))
		}
	}
	return status{code: code}
}

// one lays out one file.
func (c *fmtCmd) one(s *streams, file string) error {
	text, err := readText(file, s)
	if err != nil {
		return err
	}
	out, err := canonical.Text(file, text)
	if errors.Is(err, canonical.ErrUncertain) {
		return status{exitProgram, fmt.Sprintf("%s stays as it is: %v", file, err)}
	}
	if err != nil {
		return err
	}
	changes := !bytes.Equal(text, out)
	if c.Diff {
		_, err = s.out.Write(diff.Diff(file, text, file, out))
	}
	switch {
	case err != nil:
		return err
	case c.Check && changes:
		if !c.Diff {
			_, err = fmt.Fprintln(s.out, file)
		}
		return errors.Join(err, status{code: exitVerdict})
	case c.Check || c.Diff:
		return nil
	case file == "-":
		_, err = s.out.Write(out)
		return err
	case !changes:
		return nil
	}
	if err := rewrite(file, text, out); err != nil {
		return err
	}
	_, err = fmt.Fprintln(s.out, file)
	return err
}

// laidOut is the text of a file that is new in its canonical layout.
func laidOut(file string, text []byte) []byte {
	if out, err := canonical.Text(file, text); err == nil {
		return out
	}
	return text
}

// isLaidOut tells whether a text is in its canonical layout.
func isLaidOut(file string, text []byte) bool { return bytes.Equal(laidOut(file, text), text) }

// rewrite puts a text in place of that of a file, whole or not at all. The file
// keeps its mode, and a link to it stays one. What is no longer as it was read
// is left alone.
func rewrite(file string, was, text []byte) error {
	fail := func(err error) error {
		return status{exitProgram, fmt.Sprintf("cannot write %s: %v", file, cause(err))}
	}
	target, mode, err := writable(file)
	if err != nil {
		return fail(err)
	}
	return replace(target, mode, func(w io.Writer) error {
		now, err := casewright.ReadText(target)
		if err == nil && !bytes.Equal(now, was) {
			err = errors.New("it was changed meanwhile; run again")
		}
		if err != nil {
			return fail(err)
		}
		_, err = w.Write(text)
		return err
	})
}
