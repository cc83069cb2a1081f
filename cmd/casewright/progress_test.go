package main

import (
	"bytes"
	"fmt"
	"strings"
	"testing"
)

// bar makes a bar whose time has come, on a terminal.
func bar(w *bytes.Buffer, total int) *progress {
	p := newProgress(&streams{err: w, watched: true}, total)
	p.timer.Stop()
	return p
}

// TestProgress: the bar tells how far it is, is gone before anything else is
// written, and stays gone.
func TestProgress(t *testing.T) {
	t.Setenv("CI", "")
	t.Setenv("TERM", "xterm")
	var w bytes.Buffer
	p := bar(&w, 4)
	say := func(text string) {
		if err := p.step(func() error { _, err := fmt.Fprintln(&w, text); return err }); err != nil {
			t.Fatal(err)
		}
	}
	say("one") // before its time: nothing to take away
	p.tick()
	p.tick()
	say("two")
	say("three")
	p.tick()
	p.end()
	p.tick()
	p.end()
	quarter := "\r[" + strings.Repeat("#", 7) + strings.Repeat(".", 23) + "] 1 of 4 files"
	most := "\r[" + strings.Repeat("#", 22) + strings.Repeat(".", 8) + "] 3 of 4 files"
	want := "one\n" + quarter + quarter + "\r\x1b[Ktwo\nthree\n" + most + "\r\x1b[K"
	if w.String() != want {
		t.Errorf("%q, want %q", w.String(), want)
	}
}

// TestNoProgress: no bar in a pipe, in CI, or where a terminal knows nothing.
func TestNoProgress(t *testing.T) {
	for _, c := range []struct {
		watched  bool
		ci, term string
		want     bool
	}{
		{true, "", "xterm", true},
		{true, "", "", true},
		{false, "", "xterm", false},
		{true, "true", "xterm", false},
		{true, "", "dumb", false},
	} {
		t.Setenv("CI", c.ci)
		t.Setenv("TERM", c.term)
		var w bytes.Buffer
		p := newProgress(&streams{err: &w, watched: c.watched}, 1)
		if p.timer != nil {
			p.timer.Stop()
		}
		p.tick()
		if got := w.Len() > 0; got != c.want {
			t.Errorf("%+v: %q", c, w.String())
		}
		p.end()
	}
}
