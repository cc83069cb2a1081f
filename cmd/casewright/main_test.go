package main

import (
	"bufio"
	"bytes"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"runtime"
	"strconv"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/alecthomas/kong"
	"github.com/rogpeppe/go-internal/testscript"
)

var update = flag.Bool("update", false, "write the golden files and the scripts' expected output anew")

// TestMain builds the program and puts it first in PATH. It is built without the
// race detector, be the tests with it or not: hundreds of runs in scripts and
// examples would take ten times as long, and what works on several cores is
// tested within the test's own process.
func TestMain(m *testing.M) {
	folder, err := os.MkdirTemp("", "casewright-test-")
	if err == nil {
		name := "casewright"
		if runtime.GOOS == "windows" {
			name += ".exe"
		}
		var out []byte
		if out, err = exec.Command("go", "build", "-o", filepath.Join(folder, name), ".").CombinedOutput(); err != nil {
			err = fmt.Errorf("%w: %s", err, out)
		}
	}
	if err != nil {
		fmt.Fprintln(os.Stderr, "cannot build the program:", err)
		os.Exit(1)
	}
	os.Setenv("PATH", folder+string(os.PathListSeparator)+os.Getenv("PATH"))
	code := m.Run()
	os.RemoveAll(folder)
	os.Exit(code)
}

// TestScripts runs the scripts of testdata/script. Beside the commands that
// every script has, they have
//
//	exits N casewright ARG…   run it and want the exit status N
//	fits N                    no line of the last output is longer than N
//	ascii                     no byte of the last output is above 126
//	lines N                   the last output has so many lines
//	sgr out.txt               write the last output without its colours
func TestScripts(t *testing.T) {
	designs, err := filepath.Abs("../../testdata/designs")
	if err != nil {
		t.Fatal(err)
	}
	testscript.Run(t, testscript.Params{
		Dir:                 "testdata/script",
		RequireExplicitExec: true,
		RequireUniqueNames:  true,
		UpdateScripts:       updating(t),
		Setup: func(e *testscript.Env) error {
			e.Setenv("COLUMNS", "80")
			e.Setenv("NO_COLOR", "")
			e.Setenv("TZ", "UTC")
			files, err := filepath.Glob(filepath.Join(designs, "*.toml"))
			if err != nil || len(files) < 4 {
				return fmt.Errorf("the designs are missing: %v %v", files, err)
			}
			for _, file := range files {
				text, err := os.ReadFile(file)
				if err != nil {
					return err
				}
				if err := os.WriteFile(filepath.Join(e.WorkDir, filepath.Base(file)), text, 0o666); err != nil {
					return err
				}
			}
			return nil
		},
		Condition: func(cond string) (bool, error) {
			if cond == "superuser" { // may read what is forbidden
				return os.Geteuid() == 0, nil
			}
			return false, fmt.Errorf("no condition %q", cond)
		},
		Cmds: map[string]func(*testscript.TestScript, bool, []string){
			"exits": func(ts *testscript.TestScript, neg bool, args []string) {
				if neg || len(args) < 2 {
					ts.Fatalf("usage: exits N command ARG…")
				}
				want, err := strconv.Atoi(args[0])
				ts.Check(err)
				got := 0
				if err := ts.Exec(args[1], args[2:]...); err != nil {
					var exit *exec.ExitError
					if !errors.As(err, &exit) {
						ts.Fatalf("%v", err)
					}
					got = exit.ExitCode()
				}
				if got != want {
					ts.Fatalf("exit status %d, want %d", got, want)
				}
			},
			"fits": func(ts *testscript.TestScript, _ bool, args []string) {
				width, err := strconv.Atoi(args[0])
				ts.Check(err)
				if long := longest(ts.ReadFile("stdout")); utf8.RuneCountInString(long) > width {
					ts.Fatalf("this line has more than %d columns: %q", width, long)
				}
			},
			"ascii": func(ts *testscript.TestScript, _ bool, _ []string) {
				out := ts.ReadFile("stdout")
				if i := strings.IndexFunc(out, func(c rune) bool { return c > 126 }); i >= 0 || out == "" {
					ts.Fatalf("not ASCII, or nothing: %.20q", out[max(0, i):])
				}
			},
			"lines": func(ts *testscript.TestScript, _ bool, args []string) {
				if n := strings.Count(ts.ReadFile("stdout"), "\n"); strconv.Itoa(n) != args[0] {
					ts.Fatalf("%d lines, want %s", n, args[0])
				}
			},
			"sgr": func(ts *testscript.TestScript, _ bool, args []string) {
				ts.Check(os.WriteFile(ts.MkAbs(args[0]), []byte(uncoloured(ts.ReadFile("stdout"))), 0o666))
			},
		},
	})
}

// updating tells whether expected output is to be written anew, which is never
// so where nobody looks at it.
func updating(t *testing.T) bool {
	t.Helper()
	if *update && os.Getenv("CI") != "" {
		t.Fatal("-update is for a person, not for CI")
	}
	return *update
}

// longest returns the longest line, colours aside.
func longest(text string) (long string) {
	for line := range strings.Lines(uncoloured(text)) {
		line = strings.TrimSuffix(line, "\n")
		if utf8.RuneCountInString(line) > utf8.RuneCountInString(long) {
			long = line
		}
	}
	return long
}

var sgr = regexp.MustCompile("\x1b\\[[0-9;]*m")

func uncoloured(text string) string { return sgr.ReplaceAllString(text, "") }

// casewrightRun runs the program within the test, and not on a terminal.
func casewrightRun(input string, args ...string) (code int, out, errs string) {
	var o, e bytes.Buffer
	code = run(args, &streams{in: strings.NewReader(input), out: bufio.NewWriter(&o), err: &e, width: 80})
	return code, o.String(), e.String()
}

// inDesigns makes the folder of the designs the current one.
func inDesigns(t *testing.T) {
	t.Helper()
	t.Chdir("../../testdata/designs")
	t.Setenv("COLUMNS", "80")
	t.Setenv("NO_COLOR", "")
}

// TestGrammar holds that the command line can be built at all, and that the
// help of every command shows how it is used.
func TestGrammar(t *testing.T) {
	parser, err := kong.New(&cli{}, kong.Vars{"version": "x"})
	if err != nil {
		t.Fatal(err)
	}
	commands := 0
	for _, leaf := range parser.Model.Leaves(true) {
		commands++
		code, out, errs := casewrightRun("", leaf.Name, "--help")
		if code != exitPass || errs != "" {
			t.Errorf("%s --help: exit status %d, %q", leaf.Name, code, errs)
		}
		if !strings.Contains(out, "Example") || strings.Count(out, "casewright "+leaf.Name) < 2 {
			t.Errorf("%s --help shows no example:\n%s", leaf.Name, out)
		}
	}
	if commands < 3 {
		t.Errorf("%d commands: check, new and materials are due at least", commands)
	}
}

// TestStart holds that without arguments the program says where to start.
func TestStart(t *testing.T) {
	code, out, errs := casewrightRun("")
	if n := strings.Count(out, "\n"); code != exitPass || errs != "" || n < 8 || n > 12 {
		t.Errorf("exit status %d, %d lines, stderr %q; want 0 and about ten lines", code, n, errs)
	}
	if !strings.Contains(out, "casewright new ") || !strings.Contains(out, "casewright check ") || !strings.Contains(out, "SAFETY.md") {
		t.Errorf("it does not say where to start:\n%s", out)
	}
}

// TestTerminal holds when colour is used: by the flag, else not with NO_COLOR,
// else on a terminal only.
func TestTerminal(t *testing.T) {
	inDesigns(t)
	for _, c := range []struct {
		noColor  string
		terminal bool
		flag     string
		want     bool
	}{
		{"", true, "auto", true},
		{"", false, "auto", false},
		{"1", true, "auto", false},
		{"1", true, "always", true},
		{"1", false, "always", true},
		{"", false, "always", true},
		{"", true, "never", false},
	} {
		t.Setenv("NO_COLOR", c.noColor)
		var out bytes.Buffer
		run([]string{"check", "--color", c.flag, "basalt64-short-edge.toml"}, &streams{out: bufio.NewWriter(&out), err: io.Discard, terminal: c.terminal, width: 80})
		if got := strings.Contains(out.String(), "\x1b["); got != c.want {
			t.Errorf("%+v: colour is %t", c, got)
		}
	}
}

// TestColours holds that FAIL is red, that a word stands beside each colour,
// and that colour moves nothing.
func TestColours(t *testing.T) {
	inDesigns(t)
	for _, args := range [][]string{
		{"check", "--all", "basalt64-short-edge.toml"},
		{"check", "--all", "basalt64.toml"},
		{"check", "basalt64-bought-tube.toml", "slate2in.toml"},
		{"materials"},
		{"materials", "12.9"},
		{"materials", "6061-T6 bar"},
	} {
		_, plain, _ := casewrightRun("", args...)
		_, coloured, _ := casewrightRun("", append(args, "--color", "always")...)
		if uncoloured(coloured) != plain {
			t.Errorf("%s: colour changes the text", args)
		}
		spans := regexp.MustCompile("\x1b\\[([0-9;]+)m([^\x1b]*)\x1b\\[0m").FindAllStringSubmatch(coloured, -1)
		if n := strings.Count(coloured, "\x1b["); n == 0 || n != 2*len(spans) {
			t.Errorf("%s: %d colours, %d of them switched off", args, n, len(spans))
		}
		for _, span := range spans {
			want, ok := map[string]string{
				"FAIL": "31", "REFUSED": "31", "pass": "32", "PASS": "32", "note": "33",
				"memory": "33", "none": "33", "part": "33",
			}[span[2]]
			if !ok || span[1] != want {
				t.Errorf("%s: colour %s on %q", args, span[1], span[2])
			}
		}
		for line := range strings.Lines(coloured) {
			if strings.HasPrefix(line, "  FAIL ") || strings.HasPrefix(line, "FAIL:") {
				t.Errorf("%s: FAIL is not red: %q", args, line)
			}
		}
	}
}

// TestWidth holds that no line is longer than the terminal, at 80 columns and
// above, and that more room shows more.
func TestWidth(t *testing.T) {
	inDesigns(t)
	for _, args := range [][]string{
		{"check", "basalt64.toml"},
		{"check", "basalt64-short-edge.toml"},
		{"check", "basalt64-bought-tube.toml"},
		{"check", "slate2in.toml"},
		{"check", "--all", "basalt64-bought-tube.toml"},
		{"check", "--all", "slate2in.toml"},
		{"check", "--all", "--units", "imperial", "basalt64-bought-tube.toml"},
		{"check", "--all", "--ascii", "basalt64-bought-tube.toml"},
		{"materials"},
		{"materials", "--units", "imperial"},
		{"materials", "--ascii"},
		{"materials", "6061-T6 drawn tube"},
		{"materials", "--ascii", "6061-T6 drawn tube"},
		{"materials", "A2-70"},
		{"materials", "nitrile"},
	} {
		shown := map[int]string{}
		for _, width := range []int{80, 140} {
			t.Setenv("COLUMNS", strconv.Itoa(width))
			_, shown[width], _ = casewrightRun("", args...)
			if long := longest(shown[width]); utf8.RuneCountInString(long) > width {
				t.Errorf("%s: a line of %d columns at %d: %q", args, utf8.RuneCountInString(long), width, long)
			}
		}
		if len(longest(shown[140])) <= len(longest(shown[80])) && args[0] == "check" {
			t.Errorf("%s: 140 columns show no more than 80", args)
		}
	}
}

// TestASCII holds that --ascii is ASCII, of every output.
func TestASCII(t *testing.T) {
	inDesigns(t)
	for _, args := range [][]string{
		{"check", "--ascii", "--all", "basalt64.toml", "basalt64-short-edge.toml", "basalt64-bought-tube.toml", "slate2in.toml"},
		{"materials", "--ascii"},
		{"materials", "--ascii", "--units", "imperial", "EN AW-6082-T6 bar"},
		{"materials", "--ascii", "12.9"},
		{"materials", "--ascii", "VMQ"},
	} {
		_, out, _ := casewrightRun("", args...)
		if i := strings.IndexFunc(out, func(c rune) bool { return c > 126 }); i >= 0 || len(out) < 200 {
			t.Errorf("%s: not ASCII at %q", args, out[max(0, i):][:20])
		}
		if i := strings.IndexByte(out, '?'); i >= 0 {
			t.Errorf("%s: a sign without a spelling in ASCII near %q", args, out[max(0, i-20):i+1])
		}
	}
}

// program runs the program as a process of its own.
func program(t *testing.T, stdout *os.File, args ...string) (code int, errs string) {
	t.Helper()
	cmd := exec.Command("casewright", args...)
	var e bytes.Buffer
	cmd.Stdout, cmd.Stderr = stdout, &e
	err := cmd.Run()
	var exit *exec.ExitError
	if err != nil && !errors.As(err, &exit) {
		t.Fatal(err)
	}
	return cmd.ProcessState.ExitCode(), e.String()
}

// TestClosedPipe holds that a reader that goes away, as head does, is no
// fault: nothing is said, and the status is that of the verdict.
func TestClosedPipe(t *testing.T) {
	inDesigns(t)
	many := make([]string, 30) // more than a buffer holds
	for i := range many {
		many[i] = "basalt64-short-edge.toml"
	}
	for _, args := range [][]string{
		{"check", "basalt64.toml"},
		append([]string{"check", "--all"}, many...),
		append([]string{"check", "--format", "json"}, many...),
		{"materials"},
		{"materials", "--format", "json"},
		{"new", "-"},
		{},
		{"check", "--help"},
	} {
		r, w, err := os.Pipe()
		if err != nil {
			t.Fatal(err)
		}
		r.Close() // nobody reads
		code, errs := program(t, w, args...)
		w.Close()
		want, _, _ := casewrightRun("", args...)
		if errs != "" || code != want {
			t.Errorf("%.60q: exit status %d, stderr %q; want %d and quiet", args, code, errs, want)
		}
	}
}

// TestHead reads the first line only, and goes away while more is written.
func TestHead(t *testing.T) {
	inDesigns(t)
	args := []string{"check", "--all"}
	for range 40 {
		args = append(args, "basalt64.toml")
	}
	r, w, err := os.Pipe()
	if err != nil {
		t.Fatal(err)
	}
	first := make(chan string)
	go func() {
		line, _ := bufio.NewReaderSize(r, 16).ReadString('\n')
		r.Close()
		first <- line
	}()
	code, errs := program(t, w, args...)
	w.Close()
	if line := <-first; !strings.HasPrefix(line, "Basalt 64") {
		t.Errorf("the first line is %q", line)
	}
	if errs != "" || code != exitPass {
		t.Errorf("exit status %d, stderr %q; want 0 and quiet", code, errs)
	}
}

// TestFullDisk holds that output which cannot be written is told, with status
// 3: half a report must not look like a whole one.
func TestFullDisk(t *testing.T) {
	full, err := os.OpenFile("/dev/full", os.O_WRONLY, 0)
	if err != nil {
		t.Skip("no /dev/full here: ", err)
	}
	defer full.Close()
	inDesigns(t)
	for _, args := range [][]string{
		{"check", "basalt64.toml"},
		{"check", "--format", "json", "basalt64-short-edge.toml"},
		{"check", "--all", "basalt64.toml", "basalt64.toml", "basalt64.toml", "basalt64.toml"},
		{"materials"},
		{"new", "-"},
		{},
		{"--help"},
	} {
		code, errs := program(t, full, args...)
		if code != exitProgram || !strings.Contains(errs, "cannot write") && !strings.Contains(errs, "no space left") {
			t.Errorf("%q: exit status %d, stderr %q; want 3 and a message", args, code, errs)
		}
		if strings.Count(errs, "\n") != 1 {
			t.Errorf("%q: not one line: %q", args, errs)
		}
	}
}
