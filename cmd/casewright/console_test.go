package main

import (
	"bufio"
	"bytes"
	"runtime/debug"
	"strings"
	"testing"
)

// TestClicked holds that after a double click the window waits for Enter, that
// files dropped on the icon are checked, and that nobody waits in a shell.
func TestClicked(t *testing.T) {
	inDesigns(t)
	for _, c := range []struct {
		args    []string
		alone   bool
		code    int
		waits   bool
		out     string
		message string
	}{
		{nil, true, exitPass, true, "casewright new my.toml", "open a terminal"},
		{nil, false, exitPass, false, "casewright new my.toml", ""},
		{[]string{"basalt64.toml"}, true, exitPass, true, "PASS", ""},
		{[]string{"basalt64.toml", "basalt64-short-edge.TOML"}, true, exitInput, true, "PASS", "there is no such file"},
		{[]string{"basalt64-short-edge.toml"}, true, exitVerdict, true, "FAIL", ""},
		{[]string{"basalt64.toml"}, false, exitInput, false, "", "write check before it"},
		{[]string{"check", "basalt64.toml"}, true, exitPass, false, "PASS", ""},
		{[]string{"--all.toml"}, true, exitInput, true, "", "there is no such file"},
		{[]string{"--version"}, true, exitPass, false, "0", ""},
	} {
		in := strings.NewReader("\nnext")
		var out, errs bytes.Buffer
		asked := 0
		code := clicked(c.args, &streams{in: in, out: bufio.NewWriter(&out), err: &errs, width: 80}, func() bool { asked++; return c.alone })
		if code != c.code || !strings.Contains(out.String(), c.out) || !strings.Contains(errs.String(), c.message) {
			t.Errorf("%q: exit status %d, %.200q, %q", c.args, code, out.String(), errs.String())
		}
		if waits := strings.HasSuffix(errs.String(), "Press Enter to close this window. "); waits != c.waits || waits != (in.Len() < 5) {
			t.Errorf("%q: waits %t, %d bytes unread; want %t", c.args, waits, in.Len(), c.waits)
		}
		if asked > 1 {
			t.Errorf("%q: the console was asked %d times", c.args, asked)
		}
	}
}

// TestClickedClosed holds that a console without input closes at once.
func TestClickedClosed(t *testing.T) {
	_, _, _ = casewrightRun("")
	code := clicked(nil, &streams{in: strings.NewReader(""), out: bufio.NewWriter(&bytes.Buffer{}), err: &bytes.Buffer{}, width: 80}, func() bool { return true })
	if code != exitPass {
		t.Errorf("exit status %d", code)
	}
}

// TestVersion holds what --version tells with and without a stamp.
func TestVersion(t *testing.T) {
	stamp := []debug.BuildSetting{{Key: "vcs", Value: "git"}, {Key: "vcs.revision", Value: "0123456789abcdef0123"}, {Key: "vcs.time", Value: "2026-11-26T10:00:00Z"}, {Key: "vcs.modified", Value: "false"}}
	if got := versionOf(stamp); !strings.HasSuffix(got, " (0123456789ab 2026-11-26)") {
		t.Error(got)
	}
	stamp[3].Value = "true"
	if got := versionOf(stamp); !strings.HasSuffix(got, " (0123456789ab 2026-11-26, changed)") {
		t.Error(got)
	}
	if got := versionOf(nil); strings.ContainsAny(got, "( ") || got == "" {
		t.Error(got)
	}
}
