package main

import (
	"bufio"
	"bytes"
	"fmt"
	"io"
	"os"
	"strings"
	"testing"
)

// A baseline is renewed while other files are still held against it: by cores
// that the race detector watches, and all of it where nobody reads what check
// prints, with the exit status of the checks.
func TestRenewedWhole(t *testing.T) {
	inDesigns(t)
	good := must(t, func() ([]byte, error) { return os.ReadFile("basalt64.toml") })
	bad := must(t, func() ([]byte, error) { return os.ReadFile("basalt64-short-edge.toml") })
	t.Chdir(t.TempDir())
	args := []string{"check", "--all", "--baseline", "margins.json", "--write-baseline"}
	for i := range 20 {
		text := good
		if i == 0 {
			text = bad
		}
		name := fmt.Sprintf("%d.toml", i)
		if err := os.WriteFile(name, text, 0o644); err != nil {
			t.Fatal(err)
		}
		args = append(args, name)
	}
	kept := func() int {
		return strings.Count(string(must(t, func() ([]byte, error) { return os.ReadFile("margins.json") })), `"kind":"check"`)
	}
	unread, w := io.Pipe()
	unread.Close()
	var messages bytes.Buffer
	if code := run(args, &streams{in: strings.NewReader(""), out: bufio.NewWriter(w), err: &messages, width: 80}); code != exitVerdict {
		t.Errorf("nobody reads: exit status %d, %s", code, &messages)
	}
	if n := kept(); n != 20 {
		t.Errorf("nobody reads: %d of 20 designs are kept", n)
	}
	if code, _, errs := casewrightRun("", args...); code != exitVerdict || kept() != 20 {
		t.Errorf("renewed: exit status %d, %d designs, %s", code, kept(), errs)
	}
}
