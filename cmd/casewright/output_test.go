package main

import (
	"bytes"
	"errors"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/alecthomas/kong"
)

// TestInputKept holds, for every command that has -o, that it never writes over
// the design it reads, however that is reached, and writes beside it.
func TestInputKept(t *testing.T) {
	design, err := os.ReadFile("../../testdata/designs/basalt64-hot.toml")
	if err != nil {
		t.Fatal(err)
	}
	parser, err := kong.New(&cli{}, kong.Vars{"version": "x"})
	if err != nil {
		t.Fatal(err)
	}
	commands := 0
	for _, leaf := range parser.Model.Leaves(true) {
		flags := map[string]*kong.Flag{}
		for _, flag := range leaf.Flags {
			flags[flag.Name] = flag
		}
		if flags["output"] == nil || len(leaf.Positional) == 0 { // schema reads no design
			continue
		}
		commands++
		format, start := "pdf", "%PDF-"
		if !strings.Contains(flags["format"].Help, format) {
			format, start = "json", "{"
		}
		t.Run(leaf.Name, func(t *testing.T) { keepsInput(t, []string{leaf.Name, "--format", format}, design, start) })
	}
	if commands < 6 {
		t.Errorf("%d commands with -o: draw, jig, wrap, report, sheet and checklist are due", commands)
	}
}

// keepsInput runs a command on a design, whose output begins with start.
func keepsInput(t *testing.T, command []string, design []byte, start string) {
	t.Chdir(t.TempDir())
	if err := errors.Join(os.WriteFile("own", design, 0o644), os.Link("own", "hard"), os.Symlink("own", "soft")); err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		name, stdin, file, output string
		kept                      bool // refused, as the output is the input
	}{
		{name: "named", file: "own", output: "own", kept: true},
		{name: "named by another path", file: "./own", output: "../" + filepath.Base(must(t, os.Getwd)) + "/own", kept: true},
		{name: "hard link", file: "own", output: "hard", kept: true},
		{name: "symbolic link to the input", file: "own", output: "soft", kept: true},
		{name: "read through the link", file: "soft", output: "own", kept: true},
		{name: "standard input", stdin: "own", file: "-", output: "own", kept: true},
		{name: "standard input, hard link", stdin: "own", file: "-", output: "hard", kept: true},
		{name: "standard input, symbolic link", stdin: "soft", file: "-", output: "own", kept: true},
		{name: "beside it", stdin: "own", file: "-", output: "other"},
		{name: "over another output", file: "own", output: "other"},
	} {
		cmd := exec.Command("casewright", append(command[:len(command):len(command)], c.file, "-o", c.output)...)
		if c.stdin != "" {
			f, err := os.Open(c.stdin)
			if err != nil {
				t.Fatal(err)
			}
			defer f.Close()
			cmd.Stdin = f
		}
		said, err := cmd.CombinedOutput()
		if exit := (*exec.ExitError)(nil); err != nil && !errors.As(err, &exit) {
			t.Fatal(err)
		}
		// A design that fails is written all the same.
		code := cmd.ProcessState.ExitCode()
		if refused := code == exitInput && strings.Contains(string(said), "is the file that is read"); refused != c.kept || !refused && code > exitVerdict {
			t.Errorf("%s: exit status %d: %s", c.name, code, said)
		}
		for _, name := range []string{"own", "hard", "soft"} {
			if now, err := os.ReadFile(name); err != nil || !bytes.Equal(now, design) {
				t.Fatalf("%s: %s is no longer the design: %v", c.name, name, err)
			}
		}
	}
	if out, err := os.ReadFile("other"); err != nil || !bytes.HasPrefix(out, []byte(start)) {
		t.Errorf("beside it: %.10q, %v", out, err)
	}
}

func must[T any](t *testing.T, f func() (T, error)) T {
	t.Helper()
	x, err := f()
	if err != nil {
		t.Fatal(err)
	}
	return x
}

// TestWholeOrNot holds that a write that breaks off leaves what was there, and
// nothing beside it.
func TestWholeOrNot(t *testing.T) {
	t.Chdir(t.TempDir())
	broken := errors.New("broken off")
	half := func(w io.Writer) error {
		if _, err := io.WriteString(w, "half"); err != nil {
			return err
		}
		return broken
	}
	left := func() (names []string) {
		for _, e := range must(t, func() ([]os.DirEntry, error) { return os.ReadDir(".") }) {
			names = append(names, e.Name())
		}
		return names
	}
	if err := writeWhole("new", nil, half); err == nil || len(left()) != 0 {
		t.Errorf("a new file: error %v, left %v", err, left())
	}
	if err := os.WriteFile("old", []byte("old"), 0o644); err != nil {
		t.Fatal(err)
	}
	if err := writeWhole("old", nil, half); err == nil || len(left()) != 1 {
		t.Errorf("an old file: error %v, left %v", err, left())
	}
	if now := must(t, func() ([]byte, error) { return os.ReadFile("old") }); string(now) != "old" {
		t.Errorf("an old file is now %q", now)
	}
	if err := os.Mkdir("folder", 0o755); err != nil {
		t.Fatal(err)
	}
	if err := writeWhole("folder", nil, half); err == nil || !strings.Contains(err.Error(), "no plain file") {
		t.Errorf("a folder: error %v", err)
	}
}
