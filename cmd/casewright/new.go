package main

import (
	"bufio"
	"errors"
	"fmt"
	"path/filepath"
	"slices"
	"strings"

	"github.com/alecthomas/kong"

	"casewright"
	"casewright/cmd/casewright/internal/table"
	"casewright/sizing"
)

type newCmd struct {
	File string `arg:"" help:"The file to write; - is standard output."`
	Ask  bool   `help:"Ask for the sizes, one after the other."`
	kong.Plugins
	screen

	keys *keyFlags
}

// newKeys are the keys that a starter takes: all, but for those of which the
// two ends have their own.
var newKeys = []string{"motor", "factors", "tube", "end.material", "end.outside_diameter", "end.length", "end.plate", "end.port", "end.insert_diameter", "end.lip_diameter", "end.lip", "end.temperature", "end.seal", "end.screws"}

func newNew() newCmd {
	flags, plugins := newKeyFlags(newKeys...)
	return newCmd{Plugins: plugins, keys: flags}
}

// Help follows the flags in new --help.
func (newCmd) Help() string {
	return `Examples:
  casewright new my.toml
  casewright new my.toml --ask
  casewright new my.toml --pressure "5 MPa" --inside-diameter "57.10 ±0.03 mm" \
    --wall "3.2 ±0.15 mm" --length "420 mm" --thread M5

Without a size it writes an invented motor to start from. With pressure, length
and a diameter, or with --ask, it writes a motor of your own sizes: what you do
not give is computed so that every check passes. Both ends get the same seal and
screws. The file is never overwritten.`
}

// Run writes the example, or a motor of the person's own sizes.
func (c *newCmd) Run(io *streams) error {
	settings := c.keys.settings()
	if c.Ask {
		if len(settings) > 0 {
			return status{exitInput, "--ask asks for the sizes; give it alone, or the sizes as flags"}
		}
		var err error
		if settings, err = ask(io); err != nil {
			return err
		}
	}
	text := casewright.Example
	if len(settings) > 0 {
		var err error
		if text, err = c.compute(io, settings); err != nil {
			return err
		}
	}
	if c.File == "-" {
		_, err := io.out.WriteString(text)
		return err
	}
	if err := writeNew(c.File, text); err != nil {
		return err
	}
	_, err := fmt.Fprintf(io.err, "wrote %s; change the sizes to yours, then: casewright check %[1]s\n", c.File)
	return err
}

// compute makes the text of a motor of a person's own sizes.
func (c *newCmd) compute(io *streams, settings []casewright.Setting) (string, error) {
	fault := func(err error) error {
		var found casewright.Errors
		if !errors.As(err, &found) {
			return err
		}
		io.out.Flush()
		for i := range found { // the file is not written: it has no lines
			found[i].File, found[i].Line, found[i].Column = "", 0, 0
		}
		fmt.Fprintln(io.err, inFlags(found).Error())
		return status{code: exitInput}
	}
	name := strings.TrimSuffix(filepath.Base(c.File), filepath.Ext(c.File))
	if c.File == "-" {
		name = "Motor"
	}
	for _, s := range settings {
		if s.Key == "motor.name" {
			name = s.Text
		}
	}
	filled, a, err := sizing.New(c.File, name, settings)
	if err != nil {
		return "", fault(err)
	}
	if !a.Holds() {
		err := table.Answer(io.err, a, table.Options{All: true, Units: c.Units, Colour: c.coloured(io), ASCII: c.ASCII, Width: io.width})
		return "", errors.Join(err, status{exitVerdict, "nothing is written: no such motor passes; change what was given"})
	}
	return string(laidOut(c.File, filled)), nil
}

// A question of the interview.
type asked struct {
	key  string
	need bool   // an answer is needed
	or   string // what an empty answer means
}

// interview are the questions, in the order of a person's thoughts.
var interview = []asked{
	{"motor.name", false, "the name of the file"},
	{"motor.pressure", true, ""},
	{"tube.inside_diameter", false, "the outside diameter is asked next"},
	{"tube.outside_diameter", false, "the bore above will do"},
	{"tube.wall", false, "it is computed"},
	{"tube.length", true, ""},
	{"tube.material", false, "6061-T6 drawn tube"},
	{"tube.temperature", false, "90 °C"},
	{"end.material", false, "6061-T6 bar"},
	{"end.seal.compound", false, "FKM"},
	{"end.seal.hardness", false, "75"},
	{"end.seal.size", false, "it is chosen"},
	{"end.screws.thread", false, "it is chosen"},
	{"end.screws.class", false, "it is chosen"},
	{"end.screws.count", false, "it is computed"},
}

// ask holds the interview on the terminal, or whatever standard input is. A
// wrong answer is asked again.
func ask(io *streams) ([]casewright.Setting, error) {
	lines := bufio.NewScanner(io.in)
	var given []casewright.Setting
	fmt.Fprintln(io.err, "Answer as on a drawing; an empty line takes what stands in brackets.")
	for i := 0; i < len(interview); {
		q := interview[i]
		k := casewright.FindKey(q.key)
		if skipped(q.key, given) {
			i++
			continue
		}
		hint := "as " + strings.Trim(k.Sample, `"`)
		if q.or != "" {
			hint += "; [" + q.or + "]"
		}
		fmt.Fprintf(io.err, "%s: %s\n  %s > ", strings.ReplaceAll(k.Path, "end.", ""), k.Meaning, hint)
		if !lines.Scan() {
			fmt.Fprintln(io.err)
			return nil, status{exitInput, "the answers end before the questions; nothing is written"}
		}
		text := strings.TrimSpace(lines.Text())
		if text == "" {
			if q.need || q.key == "tube.outside_diameter" && !answered("tube.inside_diameter", given) {
				fmt.Fprintln(io.err, "  this one is needed")
				continue
			}
			i++
			continue
		}
		one := append(slices.Clone(given), casewright.Setting{Key: q.key, Text: text, Name: k.Name()})
		if _, err := casewright.Assemble(nil, 1, one); err != nil {
			fmt.Fprintln(io.err, "  "+strings.ReplaceAll(err.Error(), "\n", "\n  "))
			continue
		}
		given = one
		i++
	}
	return given, nil
}

func answered(key string, given []casewright.Setting) bool {
	for _, s := range given {
		if s.Key == key {
			return true
		}
	}
	return false
}

// skipped tells that a question has no sense after the answers given: a tube
// has two sizes.
func skipped(key string, given []casewright.Setting) bool {
	return key == "tube.wall" && answered("tube.inside_diameter", given) && answered("tube.outside_diameter", given)
}
