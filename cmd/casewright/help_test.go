package main

import (
	"bufio"
	"context"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"
	"unicode/utf8"

	"casewright"
)

// TestHelpGroups holds that every command has a group that there is, and one
// line of 80 columns in the help of the whole program.
func TestHelpGroups(t *testing.T) {
	_, out, _ := casewrightRun("", "--help")
	for _, n := range model(t).Leaves(true) {
		if n.Group == nil || !slices.Contains(groups, *n.Group) {
			t.Errorf("%s has no group of commands; give it the tag group, the key of one of %v", n.Name, groups)
		}
		if !regexp.MustCompile(`(?m)^  ` + n.Name + ` +` + regexp.QuoteMeta(n.Help) + `$`).MatchString(out) {
			t.Errorf("%s has no line of its own", n.Name)
		}
	}
	if long := longest(out); utf8.RuneCountInString(long) > 80 {
		t.Errorf("more than 80 columns: %q", long)
	}
}

// answers are those of the interview of new --ask: the sizes that are needed,
// and what is usual for the rest.
var answers = strings.Join([]string{"", "5 MPa", "57.10 ±0.03 mm", "", "3.2 ±0.15 mm", "420 mm", "", "", "", "", "", "", "", "", ""}, "\n") + "\n"

// endsWith are the examples that end with another status than 0, and why.
var endsWith = map[string]int{
	`casewright fmt --check *.toml`: 1, // my.toml is not laid out
	// One of the designs has its holes too near the end.
	`casewright check --format json *.toml`:                     1,
	`casewright check --format junit *.toml > junit.xml`:        1,
	`casewright check --format sarif *.toml > casewright.sarif`: 1,
}

// TestExamples runs every example of every help in a folder with the example
// designs, through a shell as a person would, up to the first pipe.
func TestExamples(t *testing.T) {
	sh, err := exec.LookPath("bash")
	if err != nil {
		t.Skip(err)
	}
	count := 0
	for _, n := range model(t).Leaves(false) {
		text := strings.ReplaceAll(n.Detail, "\\\n", "")
		_, text, _ = strings.Cut(text, "Examples:\n")
		text, _, _ = strings.Cut(text, "\n\n")
		run := 0
		for line := range strings.Lines(text) {
			line, _, _ = strings.Cut(strings.TrimSpace(line), " | ")
			if run++; !strings.HasPrefix(line, "casewright "+n.Name) {
				t.Errorf("%s: %q is no example of it", n.Name, line)
				continue
			}
			most := 5 * time.Minute
			if n.Name == "watch" {
				most = 5 * time.Second // it runs until it is interrupted
			}
			ctx, cancel := context.WithTimeout(t.Context(), most)
			command := exec.CommandContext(ctx, sh, "-euo", "pipefail", "-c", line)
			command.Cancel = func() error { return command.Process.Signal(os.Interrupt) }
			command.WaitDelay = time.Minute
			command.Dir = exampleFolder(t, n.Name)
			command.Stdin = strings.NewReader(answers)
			out, err := command.CombinedOutput()
			cancel()
			if code := command.ProcessState.ExitCode(); code != endsWith[line] || len(out) == 0 && !strings.ContainsAny(line, ">") && !strings.Contains(line, " -o ") {
				t.Errorf("%s\nends with %d (%v), not %d:\n%s", line, code, err, endsWith[line], out)
			}
		}
		if count += run; run == 0 {
			t.Errorf("%s --help has no example", n.Name)
		}
	}
	t.Logf("%d examples", count)
}

// exampleFolder is a folder with the designs, and with what else the examples
// of a command take.
func exampleFolder(t *testing.T, command string) string {
	t.Helper()
	folder := t.TempDir()
	copied := func(from, to string) {
		text, err := os.ReadFile(from)
		if err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(filepath.Join(folder, to), text, 0o666); err != nil {
			t.Fatal(err)
		}
	}
	files, err := filepath.Glob("../../testdata/designs/*.toml")
	if err != nil || len(files) < 4 {
		t.Fatal(files, err)
	}
	for _, file := range files {
		copied(file, filepath.Base(file))
	}
	write := func(name, text string) {
		if err := os.WriteFile(filepath.Join(folder, name), []byte(text), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	switch command {
	case "new": // writes my.toml
	case "check":
		write("my.toml", casewright.Example+"\n[measured]\n\"tube.wall\" = \"3.18 ±0.02 mm\"\n")
		in := func(name string) string { return filepath.Join(folder, name) }
		if code := run([]string{"check", "--baseline", in("margins.json"), "--write-baseline", in("basalt64.toml")}, &streams{out: bufio.NewWriter(io.Discard), err: io.Discard, width: 80}); code != exitPass {
			t.Fatal(code)
		}
	case "size":
		copied("../../testdata/stock.toml", "stock.toml")
		write("my.toml", regexp.MustCompile(`(?m)^( *)(edge|hole) = [^#\n]*`).ReplaceAllString(casewright.Example, `$1$2 = "?" `))
	case "verify":
		write("my-rows.csv", "id,quantity,inputs,value,unit,tolerance_rel,source,where_in_source,status,note\n"+
			"ME-1,demand of tube.hoop,p_MPa=5; k=1.2,27.73,MPa,0.001,my handbook,page 12,seen,\n")
	case "fmt":
		write("my.toml", strings.ReplaceAll(casewright.Example, " = ", "="))
	default:
		write("my.toml", casewright.Example)
	}
	return folder
}
