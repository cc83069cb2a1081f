package casewright_test

import (
	"errors"
	"flag"
	"fmt"
	"os"
	"os/exec"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"casewright"
	"casewright/margin"
	"casewright/sizing"
)

// keysTable is the README's table of keys, from the reader's own list.
func keysTable() string {
	var b strings.Builder
	last := ""
	for _, k := range casewright.Keys() {
		table := "`[" + k.Table() + "]`"
		if t := k.Table(); t == "end" || t == "heat.layer" {
			table = "`[[" + t + "]]`"
		}
		if table == last {
			table = ""
		} else {
			last = table
		}
		required := ""
		if k.Required {
			required = "yes"
		}
		fmt.Fprintf(&b, "| %s | `%s = %s` | %s | %s |\n", table, k.Name(), k.Sample, required, k.Meaning)
	}
	return b.String()
}

// checksTable is the README's table of checks, from their definitions.
func checksTable() string {
	var b strings.Builder
	for _, m := range casewright.Methods() {
		what, limit := m.Demand, m.Capacity
		if m.Kind != margin.Strength {
			what, limit = m.Value, m.Limit
			if limit == "" {
				limit = m.Default
			}
			switch m.Kind {
			case margin.AtLeast:
				limit = "≥ " + limit
			case margin.AtMost:
				limit = "≤ " + limit
			case margin.Between:
				limit += " to " + m.DefaultMost
			case margin.Strength:
			}
		}
		factor := map[margin.Factor]string{margin.YieldFactor: " (yield", margin.UltimateFactor: " (ultimate"}[m.Factor]
		if factor != "" {
			if m.Joint {
				factor += " × fitting"
			}
			limit += factor + ")"
		}
		fmt.Fprintf(&b, "| `%s` | %s: %s | %s | %s |\n", m.ID, m.Title, what, limit, m.Source)
	}
	return b.String()
}

// wantedList names the keys whose values can be found, by their tables.
func wantedList() string {
	byTable := map[string][]string{}
	for _, key := range sizing.Wanted() {
		k := casewright.FindKey(key)
		byTable[k.Table()] = append(byTable[k.Table()], "`"+k.Name()+"`")
	}
	var b strings.Builder
	for _, table := range []string{"tube", "end", "end.seal", "end.screws"} {
		fmt.Fprintf(&b, "- of `[%s]`: %s\n", table, strings.Join(byTable[table], ", "))
	}
	return b.String()
}

// update rewrites the README: go test . -run Readme -update.
var update = flag.Bool("update", false, "rewrite what the README shows")

// renew puts a text in the place of another in the README.
func renew(t *testing.T, old, text string) {
	t.Helper()
	readme, err := os.ReadFile("README.md")
	if err == nil {
		err = os.WriteFile("README.md", []byte(strings.Replace(string(readme), old, text, 1)), 0o600)
	}
	if err != nil {
		t.Fatal(err)
	}
}

// rowsLike returns the lines of a text from the first that begins as a table
// does, as long as they go on as the table's do.
func rowsLike(text, table string) string {
	lines := strings.SplitAfter(text, "\n")
	begin := slices.IndexFunc(lines, func(line string) bool { return strings.HasPrefix(line, table[:10]) })
	if begin < 0 {
		return ""
	}
	end := begin
	for end < len(lines) && strings.HasPrefix(lines[end], table[:2]) {
		end++
	}
	return strings.Join(lines[begin:end], "")
}

// TestReadmeOutput keeps the output that the README shows in step with what
// its first command prints.
func TestReadmeOutput(t *testing.T) {
	readme, err := os.ReadFile("README.md")
	if err != nil {
		t.Fatal(err)
	}
	_, rest, _ := strings.Cut(string(readme), "```sh\n")
	command, _, _ := strings.Cut(rest, "\n")
	_, rest, _ = strings.Cut(rest, "```text\n")
	want, _, _ := strings.Cut(rest, "```")
	args := strings.Fields(command)
	if len(args) < 4 || args[0] != "go" {
		t.Fatalf("the README's first command is %q", command)
	}
	run := exec.Command(args[0], args[1:]...)
	run.Env = append(os.Environ(), "COLUMNS=80", "NO_COLOR=1")
	got, err := run.Output()
	var status *exec.ExitError
	if !errors.As(err, &status) || status.ExitCode() != 1 {
		t.Errorf("%s: %v, want exit status 1", command, err)
	}
	if *update {
		renew(t, "```text\n"+want+"```", "```text\n"+string(got)+"```")
	} else if diff := cmp.Diff(want, string(got)); diff != "" {
		t.Errorf("the README shows (-) what the command no longer prints (+):\n%s", diff)
	}
}

// TestReadmeConsole keeps the sessions that the README shows in step with what
// the commands print.
func TestReadmeConsole(t *testing.T) {
	readme, err := os.ReadFile("README.md")
	if err != nil {
		t.Fatal(err)
	}
	sessions := strings.Split(string(readme), "```console\n$ casewright ")[1:]
	if len(sessions) == 0 {
		t.Fatal("the README shows no session")
	}
	for _, session := range sessions {
		command, rest, _ := strings.Cut(strings.ReplaceAll(session, "\\\n", ""), "\n")
		want, _, _ := strings.Cut(rest, "```")
		run := exec.Command("sh", "-c", "go run ./cmd/casewright "+command)
		run.Env = append(os.Environ(), "COLUMNS=80", "NO_COLOR=1")
		got, err := run.Output()
		if err != nil {
			t.Errorf("%s: %v", command, err)
		}
		if *update {
			renew(t, "\n"+want+"```", "\n"+string(got)+"```")
		} else if diff := cmp.Diff(want, string(got)); diff != "" {
			t.Errorf("%s: the README shows (-) what is no longer printed (+):\n%s", command, diff)
		}
	}
}

// TestReadme keeps the README's tables in step with the definitions.
func TestReadme(t *testing.T) {
	text, err := os.ReadFile("README.md")
	if err != nil {
		t.Fatal(err)
	}
	for name, table := range map[string]string{"keys": keysTable(), "checks": checksTable(), "values to be found": wantedList()} {
		if *update {
			renew(t, rowsLike(string(text), table), table)
		} else if !strings.Contains(string(text), table) {
			t.Errorf("the README's table of %s should be\n%s", name, table)
		}
	}
}
