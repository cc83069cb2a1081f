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
	"syscall"

	"github.com/alecthomas/kong"
	"golang.org/x/term"
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
	Check      checkCmd      `cmd:"" group:"design" help:"Every margin of a design file, then what gives way first."`
	Wall       wallCmd       `cmd:"" group:"ask" help:"Least wall of a tube, or the pressure that a wall bears."`
	Edge       edgeCmd       `cmd:"" group:"ask" help:"Least distance of the holes from the tube end."`
	Screws     screwsCmd     `cmd:"" group:"ask" help:"Rows of screws that hold an end, ranked."`
	Groove     grooveCmd     `cmd:"" group:"ask" help:"Ring and groove for a bore, ranked, with the cost of tolerances."`
	Size       sizeCmd       `cmd:"" group:"design" help:"Fill in the values of a design file that are written as \"?\"."`
	Fmt        fmtCmd        `cmd:"" group:"design" help:"Lay out design files in one way, every comment kept."`
	Diff       diffCmd       `cmd:"" group:"design" help:"What has changed from one revision to the next, in words."`
	New        newCmd        `cmd:"" group:"design" help:"Write a commented design file that passes, to start from."`
	Heat       heatCmd       `cmd:"" group:"design" help:"How hot wall, ends and seals get, when, and what cools them."`
	Explain    explainCmd    `cmd:"" group:"design" help:"The worked calculation of a check, or of all, with sources."`
	Wrap       wrapCmd       `cmd:"" group:"bench" help:"Where the holes go: numbers, and strips to wrap round the tube."`
	Report     reportCmd     `cmd:"" group:"bench" help:"All of it on one page: drawing, margins, order, calculations."`
	Watch      watchCmd      `cmd:"" group:"design" help:"Report or check that follows the file as you save it."`
	Draw       drawCmd       `cmd:"" group:"bench" help:"The motor in half-section, to scale, with what fails marked."`
	Jig        jigCmd        `cmd:"" group:"bench" help:"A drilling ring for the holes of an end: drawing and DXF."`
	Sheet      sheetCmd      `cmd:"" group:"bench" help:"Sheets for the machine shop, and what to measure afterwards."`
	Checklist  checklistCmd  `cmd:"" group:"bench" help:"Assembly and test of this very design, step by step."`
	Methods    methodsCmd    `cmd:"" group:"known" help:"All checks: formula, source, validity, how they were verified."`
	Verify     verifyCmd     `cmd:"" group:"known" help:"What casewright computes, against numbers from outside."`
	Materials  materialsCmd  `cmd:"" group:"known" help:"The materials, with every value's source."`
	Schema     schemaCmd     `cmd:"" group:"known" help:"The JSON Schema of design files: editors complete by it."`
	Help       helpCmd       `cmd:"" group:"program" help:"What a command does, its flags, and examples."`
	Completion completionCmd `cmd:"" group:"program" help:"A script with which a shell completes what you type."`
	Man        manCmd        `cmd:"" group:"program" help:"The manual page."`
	Complete   completeCmd   `cmd:"" hidden:""`

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
	terminal bool // out is a terminal, and shows colours
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
	os.Exit(clicked(os.Args[1:], &streams{
		in: os.Stdin, out: bufio.NewWriter(os.Stdout), err: os.Stderr,
		terminal: terminal && understandsColour(os.Stdout.Fd()), watched: term.IsTerminal(int(os.Stderr.Fd())), width: width,
	}, aloneOnConsole))
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
		kong.Help(printHelp),
		kong.ExplicitGroups(groups),
		kong.Vars{"version": version()},
	)
	if err != nil {
		return report(io, status{exitProgram, err.Error()})
	}
	if l := understand(parser.Model, args); l.fault != "" {
		return report(io, status{exitInput, l.fault})
	}
	ctx, err := parser.Parse(args)
	if err != nil {
		return report(io, usage(err))
	}
	return report(io, ctx.Run(io))
}

// usage words what the parser says of a wrong command line.
func usage(err error) status {
	see := "casewright"
	if parse := (*kong.ParseError)(nil); errors.As(err, &parse) && parse.Context.Selected() != nil {
		see = parse.Context.Selected().FullPath()
	}
	return status{exitInput, fmt.Sprintf("%v; see %s --help", err, see)}
}

// columns is the width that the environment asks for; 0 where it does not.
func columns() (n int) {
	if _, err := fmt.Sscanf(os.Getenv("COLUMNS"), "%d", &n); err != nil || n < 20 || n > 1000 {
		return 0
	}
	return n
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
