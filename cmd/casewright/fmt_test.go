package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

const looseText = "format=1\n[tube]\nwall='3mm'\n"

// TestRewriteKeeps holds that a file keeps its mode, that a link to it stays a
// link, and that nothing else is left in its folder.
func TestRewriteKeeps(t *testing.T) {
	t.Chdir(t.TempDir())
	if err := os.Mkdir("far", 0o755); err != nil {
		t.Fatal(err)
	}
	file := filepath.Join("far", "own.toml")
	if err := os.WriteFile(file, []byte(looseText), 0o640); err != nil {
		t.Fatal(err)
	}
	if err := os.Symlink(file, "link.toml"); err != nil {
		t.Fatal(err)
	}
	code, out, errs := casewrightRun("", "fmt", "link.toml")
	if code != exitPass || out != "link.toml\n" || errs != "" {
		t.Fatalf("exit status %d, %q, %q", code, out, errs)
	}
	link, err := os.Lstat("link.toml")
	if err != nil || link.Mode()&os.ModeSymlink == 0 {
		t.Errorf("the link is no longer one: %v %v", link.Mode(), err)
	}
	info, err := os.Stat(file)
	if err != nil || info.Mode() != 0o640 {
		t.Errorf("the mode is %v, %v", info.Mode(), err)
	}
	if text, err := os.ReadFile(file); err != nil || string(text) != "format = 1\n\n[tube]\nwall = \"3 mm\"\n" {
		t.Errorf("%q, %v", text, err)
	}
	before := info
	if code, out, _ := casewrightRun("", "fmt", "link.toml"); code != exitPass || out != "" {
		t.Errorf("the second time: exit status %d, %q", code, out)
	}
	after, err := os.Stat(file)
	if err != nil || !os.SameFile(before, after) || after.ModTime() != before.ModTime() {
		t.Errorf("the second time the file was written: %v", err)
	}
	if list, err := os.ReadDir("far"); err != nil || len(list) != 1 {
		t.Errorf("left in the folder: %v, %v", list, err)
	}
}

// TestRewriteRefuses holds that a file which may not be written, or is no longer
// as it was read, stays as it is, and that this is a failure of the program.
func TestRewriteRefuses(t *testing.T) {
	t.Chdir(t.TempDir())
	if err := os.WriteFile("own.toml", []byte(looseText), 0o644); err != nil {
		t.Fatal(err)
	}
	err := rewrite("own.toml", []byte("format = 1\n"), []byte("format = 1\n\n"))
	if told, ok := err.(status); !ok || told.code != exitProgram || !strings.Contains(told.message, "own.toml: it was changed meanwhile") { //nolint:errorlint // never wrapped
		t.Errorf("a file that was changed: %v", err)
	}
	if os.Geteuid() != 0 {
		if err := os.Chmod("own.toml", 0o444); err != nil {
			t.Fatal(err)
		}
		if code, out, errs := casewrightRun("", "fmt", "own.toml"); code != exitProgram || out != "" || !strings.Contains(errs, "cannot write own.toml: ") {
			t.Errorf("a file that may only be read: exit status %d, %q, %q", code, out, errs)
		}
	}
	if text, err := os.ReadFile("own.toml"); err != nil || string(text) != looseText {
		t.Errorf("%q, %v", text, err)
	}
	if list, err := os.ReadDir("."); err != nil || len(list) != 1 {
		t.Errorf("left in the folder: %v, %v", list, err)
	}
}
