package main

import (
	"regexp"
	"strings"
	"testing"

	"github.com/alecthomas/kong"
)

// TestManual holds that the manual has every command and flag, and all its
// sections. That it is well formed two formatters say, in .ci/shells.
func TestManual(t *testing.T) {
	code, out, errs := casewrightRun("", "man")
	if code != exitPass || errs != "" {
		t.Fatalf("exit status %d, %q", code, errs)
	}
	for _, section := range []string{"NAME", "SYNOPSIS", "DESCRIPTION", "FLAGS", "COMMANDS", "EXIT STATUS", "ENVIRONMENT", "FILES", "EXAMPLES", "CAVEATS"} {
		if !strings.Contains(out, "\n.SH \""+section+"\"\n") {
			t.Errorf("no section %s", section)
		}
	}
	for _, n := range model(t).Leaves(true) {
		_, part, ok := strings.Cut(out, "\n.SS \"casewright "+n.Name+"\"\n")
		if !ok {
			t.Errorf("no command %s", n.Name)
			continue
		}
		part, _, _ = strings.Cut(part, "\n.S")
		for _, f := range n.Flags {
			if tag := bold("--" + f.Name); !f.Hidden && !strings.Contains(part, tag+"\n") && !strings.Contains(part, tag+"=") {
				t.Errorf("%s: no flag --%s", n.Name, f.Name)
			}
		}
	}
	for _, word := range []string{"NO_COLOR", "COLUMNS"} {
		if !strings.Contains(out, bold(word)) {
			t.Errorf("no %s", word)
		}
	}
	if strings.Contains(out, "casewright complete") {
		t.Error("the command for shells is told to people")
	}
	known := regexp.MustCompile(`^\.(TH|SH|SS|PP|TP|EX|EE)\b`)
	for line := range strings.Lines(out) {
		if line[0] == '.' && !known.MatchString(line) || line[0] == '\'' {
			t.Errorf("a text is a request: %q", line)
		}
		if i := strings.IndexFunc(line, func(c rune) bool { return c > 126 }); i >= 0 {
			t.Errorf("not ASCII: %q", line)
		}
	}
}

// TestManualEscapes holds that signs which mean something to a formatter are
// printed as they are.
func TestManualEscapes(t *testing.T) {
	m := &manual{}
	m.command(&kong.Node{Name: "x", Help: ".dot first", Detail: "Examples:\n  .literal \\ -o 'a' ~/b ^ ` ±\n\n'quoted text"})
	want := `.SS "casewright x"
\&.dot first
.PP
\fBcasewright x\fR [flags]
.PP
Examples:
.PP
.EX
  .literal \e \-o \(aqa\(aq \(ti/b \(ha \(ga \[u00B1]
.EE
.PP
\(aqquoted text
`
	if m.String() != want {
		t.Errorf("%s\nnot\n%s", m.String(), want)
	}
}
