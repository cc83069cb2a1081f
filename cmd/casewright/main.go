// Casewright checks, before metal is cut, whether the case of a small reusable
// motor will hold. Its exit status is 0 where everything passes, 1 where a
// check fails or is refused, 2 where input or usage is bad, 3 where the program
// failed or could not write.
package main

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"os"
	"os/signal"
	"runtime/debug"
	"strings"
	"syscall"

	"github.com/alecthomas/kong"
	"golang.org/x/term"

	"casewright"
)

// The exit statuses.
const (
	exitPass = iota
	exitVerdict
	exitInput
	exitProgram
)

// cli is the whole grammar of the command line.
type cli struct {
	Check     checkCmd     `cmd:"" help:"Every margin of a design file, then what gives way first."`
	Wall      wallCmd      `cmd:"" help:"Least wall of a tube, or the pressure that a wall bears."`
	Edge      edgeCmd      `cmd:"" help:"Least distance of the holes from the tube end."`
	Screws    screwsCmd    `cmd:"" help:"Rows of screws that hold an end, ranked."`
	Groove    grooveCmd    `cmd:"" help:"Ring and groove for a bore, ranked, with what each tolerance costs."`
	Size      sizeCmd      `cmd:"" help:"Fill in the values of a design file that are written as \"?\"."`
	Diff      diffCmd      `cmd:"" help:"What has changed between two revisions of a design, in words."`
	New       newCmd       `cmd:"" help:"Write a commented design file that passes, to start from."`
	Heat      heatCmd      `cmd:"" help:"How hot wall, ends and seals get, when, and what would cool them."`
	Explain   explainCmd   `cmd:"" help:"The worked calculation of a check, or of all: formula, numbers, sources."`
	Wrap      wrapCmd      `cmd:"" help:"Where the holes go on the tube: numbers, and strips to wrap round it."`
	Report    reportCmd    `cmd:"" help:"All of it on one page: drawing, margins, order, each check worked out."`
	Watch     watchCmd     `cmd:"" help:"Report or check that follows the file as you save it."`
	Draw      drawCmd      `cmd:"" help:"The motor in half-section, to scale, with what fails marked."`
	Jig       jigCmd       `cmd:"" help:"A drilling ring for the holes of an end: drawing and DXF."`
	Sheet     sheetCmd     `cmd:"" help:"Sheets for the machine shop, and what to measure of what comes back."`
	Checklist checklistCmd `cmd:"" help:"Assembly and test of this very design, step by step."`
	Methods   methodsCmd   `cmd:"" help:"All checks: formula, source, where they hold, how they were verified."`
	Verify    verifyCmd    `cmd:"" help:"What casewright computes, against numbers from outside."`
	Materials materialsCmd `cmd:"" help:"The materials, with every value's source."`
	Schema    schemaCmd    `cmd:"" help:"The JSON Schema of design files, for editors: they complete and validate."`

	Version kong.VersionFlag `help:"Print the version."`
}

// newCLI makes the grammar, the flags for keys with it.
func newCLI() *cli {
	return &cli{
		Wall:   wallCmd{newQuestion(tubeKeys)},
		Edge:   edgeCmd{newQuestion(edgeKeys)},
		Screws: screwsCmd{newQuestion(screwKeys)},
		Groove: grooveCmd{newQuestion(sealKeys)},
		New:    newNew(),
	}
}

// screen is how to write to a person.
type screen struct {
	Units string `help:"Units of the table: auto (as the file has pressure and tube), metric or imperial." enum:"auto,metric,imperial" default:"auto"`
	Color string `help:"Colour: auto, always or never. NO_COLOR in the environment turns auto off." enum:"auto,always,never" default:"auto"`
	ASCII bool   `name:"ascii" help:"Plain ASCII only."`
}

// streams are the program's input and output.
type streams struct {
	in       io.Reader
	out      *bufio.Writer
	err      io.Writer
	terminal bool // out is a terminal
	watched  bool // err is a terminal
	width    int  // of the terminal, in columns
}

// coloured decides: the flag, else NO_COLOR, else whether it is a terminal.
func (s *screen) coloured(io *streams) bool {
	switch s.Color {
	case "always":
		return true
	case "never":
		return false
	}
	return os.Getenv("NO_COLOR") == "" && io.terminal
}

// status ends a command with an exit status and, unless empty, a message.
type status struct {
	code    int
	message string
}

func (s status) Error() string { return s.message }

const start = `casewright says, before metal is cut, whether a motor's case will hold.

  casewright wall --help            least wall; also edge, screws, groove
  casewright new my.toml --ask      write a design file of your own sizes
  casewright check my.toml          every margin, and what gives way first
  casewright explain my.toml        the same worked out, number by number
  casewright size my.toml           find the values that you wrote as "?"
  casewright wrap my.toml           where the holes go; -o holes.pdf for a strip
  casewright verify                 what it computes, against printed numbers
  casewright check --help           all flags of a command

A pass is not permission to fire: see SAFETY.md.
`

func main() {
	// A reader that goes away is no fault: writing then fails, and the program
	// ends quietly.
	signal.Ignore(syscall.SIGPIPE)
	// A check lasts milliseconds: collecting garbage would cost more than it
	// frees. Finding sizes tries thousands of motors, and gains by it.
	debug.SetGCPercent(-1)
	debug.SetMemoryLimit(32 << 20)
	width := 80
	terminal := term.IsTerminal(int(os.Stdout.Fd()))
	if terminal {
		if w, _, err := term.GetSize(int(os.Stdout.Fd())); err == nil && w > 0 {
			width = w
		}
	}
	os.Exit(run(os.Args[1:], &streams{
		in: os.Stdin, out: bufio.NewWriter(os.Stdout), err: os.Stderr,
		terminal: terminal, watched: term.IsTerminal(int(os.Stderr.Fd())), width: width,
	}))
}

// exit carries kong's wish to end the program out of its parser.
type exit int

// run runs one command line and returns the exit status.
func run(args []string, io *streams) (code int) {
	if columns := columns(); columns > 0 {
		io.width = columns
	}
	defer func() {
		switch fault := recover().(type) {
		case nil:
		case exit:
			code = int(fault)
		default:
			code = report(io, status{exitProgram, fmt.Sprintf("the program has failed, its fault and not yours: %v", fault)})
		}
		code = flush(io, code)
	}()
	if len(args) == 0 {
		fmt.Fprint(io.out, start)
		return exitPass
	}
	c := newCLI()
	parser, err := kong.New(c,
		kong.Name("casewright"),
		kong.Description("Says, before metal is cut, whether a motor's case will hold."),
		kong.Writers(io.out, io.err),
		kong.Exit(func(code int) { panic(exit(code)) }),
		kong.ConfigureHelp(kong.HelpOptions{Compact: true}),
		kong.Vars{"version": casewright.Version},
	)
	if err != nil {
		return report(io, status{exitProgram, err.Error()})
	}
	if flag := repeated(args); flag != "" {
		return report(io, status{exitInput, fmt.Sprintf("%s is given twice; give it once", flag)})
	}
	ctx, err := parser.Parse(args)
	if err != nil {
		return report(io, status{exitInput, err.Error() + "; see casewright --help"})
	}
	return report(io, ctx.Run(io))
}

// columns is the width that the environment asks for; 0 where it does not.
func columns() (n int) {
	if _, err := fmt.Sscanf(os.Getenv("COLUMNS"), "%d", &n); err != nil || n < 20 || n > 1000 {
		return 0
	}
	return n
}

// repeated finds a flag that stands twice: the parser would silently take the
// last.
func repeated(args []string) string {
	seen := map[string]bool{}
	for _, arg := range args {
		if arg == "--" {
			break
		}
		if name, _, _ := strings.Cut(arg, "="); strings.HasPrefix(name, "--") {
			if seen[name] {
				return name
			}
			seen[name] = true
		}
	}
	return ""
}

// report tells of an error and gives the exit status that goes with it.
func report(io *streams, err error) int {
	if err == nil {
		return exitPass
	}
	s := status{exitProgram, err.Error()}
	errors.As(err, &s)
	if isClosedPipe(err) {
		return exitPass
	}
	if s.message != "" {
		io.out.Flush()
		fmt.Fprintln(io.err, "casewright: "+s.message)
	}
	return s.code
}

// flush writes what is left; a full disk is a failure, a reader that went away
// is not.
func flush(io *streams, code int) int {
	err := io.out.Flush()
	if err == nil || isClosedPipe(err) || code == exitProgram {
		return code // all well, nobody reads, or told already
	}
	fmt.Fprintln(io.err, "casewright: cannot write: "+err.Error())
	return exitProgram
}

func isClosedPipe(err error) bool {
	return errors.Is(err, syscall.EPIPE) || errors.Is(err, io.ErrClosedPipe)
}
