package main

import (
	"fmt"
	"io"
	"strings"

	"github.com/alecthomas/kong"

	"casewright"
	"casewright/cmd/casewright/internal/table"
)

type manCmd struct{}

// Help follows the flags in man --help.
func (manCmd) Help() string {
	return `Examples:
  casewright man | man -l -
  casewright man > casewright.1

A manual page of all commands and flags. Put it in a folder man1 of the manual
path, as /usr/local/share/man/man1/casewright.1.`
}

// Run writes the manual.
func (manCmd) Run(io *streams, ctx *kong.Context) error { return writeManual(io.out, ctx.Model) }

// manualDay is the day of the manual's own words.
const manualDay = "2026-11-26"

// The words of the manual that are not the commands' own.
var (
	statuses = [][2]string{
		exitPass:    {"0", "Everything passes, or what was asked for is written."},
		exitVerdict: {"1", "A check fails or is refused, or a question has no answer that passes."},
		exitInput:   {"2", "A file or the usage is bad."},
		exitProgram: {"3", "The program failed, or could not write."},
	}
	environment = [][2]string{
		{"NO_COLOR", "Where it is set and not empty there is no colour, unless --color=always asks for it."},
		{"COLUMNS", "How wide to write, 20 to 1000 columns; else the width of the terminal, or 80."},
	}
	files = [][2]string{
		{"*.toml", "Design files and stock files. casewright new writes a design file with comments; the README has a table of all keys. A design file is never changed."},
		{"*.csv", "Tables of numbers from outside, for casewright verify."},
	}
	caveats = []string{
		table.Caution,
		"casewright knows only what the file says, and not whether the parts are so. Propellant, grains and internal ballistics are no subject of it. SAFETY.md says what else is left out.",
	}
)

// writeManual writes the manual page in the macros of man(7).
func writeManual(w io.Writer, app *kong.Application) error {
	m := &manual{}
	m.line(`.TH CASEWRIGHT 1 ` + manualDay + ` "casewright ` + casewright.Version + `" "User Commands"`)
	m.section("NAME")
	m.line(app.Name + ` \- ` + roff(strings.ToLower(app.Help[:1])+strings.TrimSuffix(app.Help[1:], ".")))
	m.section("SYNOPSIS")
	m.line(bold(app.Name) + " " + italic("command") + " " + roff("[flags]"))
	m.section("DESCRIPTION")
	inGroups(app, func(title string, commands []*kong.Node) {
		m.paragraph(title + ":")
		for _, n := range commands {
			m.item(bold(n.Name), n.Help)
		}
	})
	m.section("FLAGS")
	m.flags(app.Flags)
	m.section("COMMANDS")
	inGroups(app, func(_ string, commands []*kong.Node) {
		for _, n := range commands {
			m.command(n)
		}
	})
	m.section("EXIT STATUS")
	m.items(statuses)
	m.section("ENVIRONMENT")
	m.items(environment)
	m.section("FILES")
	m.items(files)
	m.section("EXAMPLES")
	m.paragraph("To start with; each command has more.")
	m.literal(strings.Split(strings.TrimSpace(examples(start)), "\n"))
	m.section("CAVEATS")
	for _, text := range caveats {
		m.paragraph(text)
	}
	_, err := io.WriteString(w, m.String())
	return err
}

// examples are the indented lines of a text.
func examples(text string) string {
	var b strings.Builder
	for line := range strings.Lines(text) {
		if strings.HasPrefix(line, "  ") {
			b.WriteString(strings.TrimPrefix(line, "  "))
		}
	}
	return b.String()
}

// A manual is a text for man(7).
type manual struct {
	strings.Builder
	fresh bool // nothing stands in the section yet: it needs no macro of a paragraph
}

func (m *manual) line(text string) { m.WriteString(text + "\n") }

// macro writes a request with its arguments, quoted.
func (m *manual) macro(name string, args ...string) {
	m.WriteString("." + name)
	for _, arg := range args {
		m.WriteString(` "` + strings.ReplaceAll(roff(arg), `"`, `\(dq`) + `"`)
	}
	m.WriteString("\n")
}

func (m *manual) section(title string) {
	m.macro("SH", title)
	m.fresh = true
}

// text writes a text broken into short lines, each of which is no request.
func (m *manual) text(text string) {
	line := ""
	for _, word := range strings.Fields(text) {
		if line != "" && len(line)+1+len(roff(word)) > 76 {
			m.line(atStart(line))
			line = ""
		}
		line = strings.TrimSpace(line + " " + roff(word))
	}
	if line != "" {
		m.line(atStart(line))
	}
}

func (m *manual) paragraph(text string) {
	m.begin()
	m.text(text)
}

func (m *manual) begin() {
	if !m.fresh {
		m.macro("PP")
	}
	m.fresh = false
}

// item writes a tag, in roff, and a text beside it.
func (m *manual) item(tag, text string) {
	m.fresh = false
	m.macro("TP")
	m.line(tag)
	m.text(text)
}

func (m *manual) items(list [][2]string) {
	for _, one := range list {
		m.item(bold(one[0]), one[1])
	}
}

// literal writes lines as they stand.
func (m *manual) literal(lines []string) {
	m.begin()
	m.macro("EX")
	for _, line := range lines {
		m.line(atStart(roff(line)))
	}
	m.macro("EE")
}

func (m *manual) command(n *kong.Node) {
	m.macro("SS", "casewright "+n.Name)
	m.text(n.Help)
	m.fresh = false
	m.begin()
	usage := bold("casewright " + n.Name)
	for _, arg := range n.Positional {
		usage += " " + italic(arg.Summary())
	}
	m.line(usage + " " + roff("[flags]"))
	for _, arg := range n.Positional {
		m.item(italic(arg.Name), arg.Help)
	}
	m.flags(n.Flags)
	m.detail(n.Detail)
}

func (m *manual) flags(list []*kong.Flag) {
	for _, f := range list {
		if f.Hidden {
			continue
		}
		tag := ""
		if f.Short != 0 {
			tag = bold("-"+string(f.Short)) + ", "
		}
		tag += bold("--" + f.Name)
		if !isSwitch(f) {
			tag += "=" + italic(strings.Trim(f.FormatPlaceHolder(), `"`))
		}
		m.item(tag, f.Help)
	}
}

// detail writes the help of a command: paragraphs, and what is indented as it
// stands.
func (m *manual) detail(text string) {
	var prose, code []string
	end := func() {
		if prose != nil {
			m.paragraph(strings.Join(prose, " "))
		}
		if code != nil {
			m.literal(code)
		}
		prose, code = nil, nil
	}
	for line := range strings.Lines(text) {
		line = strings.TrimRight(line, "\n ")
		indented := strings.HasPrefix(line, "  ")
		if line == "" || indented && prose != nil || !indented && code != nil {
			end()
		}
		switch {
		case indented:
			code = append(code, line)
		case line != "":
			prose = append(prose, line)
		}
	}
	end()
}

func bold(text string) string { return `\fB` + roff(text) + `\fR` }

func italic(text string) string { return `\fI` + roff(text) + `\fR` }

// roff escapes a text so that every formatter prints it sign by sign.
func roff(text string) string {
	var b strings.Builder
	for _, c := range text {
		switch c {
		case '\\':
			b.WriteString(`\e`)
		case '-':
			b.WriteString(`\-`)
		case '\'':
			b.WriteString(`\(aq`)
		case '`':
			b.WriteString(`\(ga`)
		case '^':
			b.WriteString(`\(ha`)
		case '~':
			b.WriteString(`\(ti`)
		default:
			if c > 126 {
				fmt.Fprintf(&b, `\[u%04X]`, c)
			} else {
				b.WriteRune(c)
			}
		}
	}
	return b.String()
}

// atStart keeps a line of text that begins with a dot from being a request.
func atStart(line string) string {
	if strings.HasPrefix(line, ".") {
		return `\&` + line
	}
	return line
}
