package canonical

import (
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/txtar"
)

// corpus visits texts of TOML, good and bad: our designs, those that are no good
// designs, those of testdata/rules.txtar, and what the decoder is tested with.
func corpus(t testing.TB, visit func(name string, text []byte)) {
	t.Helper()
	for _, dir := range []string{"testdata/designs", "testdata/invalid", "testdata/fuzz"} {
		files := 0
		err := filepath.WalkDir(filepath.Join(root, dir), func(name string, entry fs.DirEntry, err error) error {
			if err != nil || entry.IsDir() {
				return err
			}
			text, err := os.ReadFile(name)
			if err != nil {
				return err
			}
			files++
			visit(name, text)
			if strings.Contains(string(text), "¶") {
				visit(name, []byte(strings.ReplaceAll(string(text), "¶", "")))
			}
			return nil
		})
		if err != nil || files == 0 {
			t.Fatalf("%s: %d files, %v", dir, files, err)
		}
	}
	archive, err := txtar.ParseFile("testdata/rules.txtar")
	if err != nil {
		t.Fatal(err)
	}
	for _, file := range archive.Files {
		visit(file.Name, file.Data)
		visit(file.Name+", CRLF", []byte(strings.ReplaceAll(string(file.Data), "\n", "\r\n")))
	}
	dir, err := exec.Command("go", "list", "-m", "-f", "{{.Dir}}", "github.com/BurntSushi/toml").Output()
	if err != nil {
		t.Fatal("the decoder's module is not at hand: ", err)
	}
	suite := filepath.Join(strings.TrimSpace(string(dir)), "internal", "toml-test", "tests")
	err = filepath.WalkDir(suite, func(name string, _ fs.DirEntry, err error) error {
		if err != nil || filepath.Ext(name) != ".toml" {
			return err
		}
		text, err := os.ReadFile(name)
		if err == nil {
			visit(strings.TrimPrefix(name, suite), text)
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
}

// TestCorpus holds the properties over all texts at hand, most of which both
// decoders read.
func TestCorpus(t *testing.T) {
	decoded, read := 0, 0
	corpus(t, func(name string, text []byte) {
		t.Run(filepath.Base(name), func(t *testing.T) {
			hold(t, text)
			if out, err := Text(name, text); err == nil {
				decoded++
				if holdPeer(t, text, out) {
					read++
				}
			}
		})
	})
	t.Logf("%d texts are TOML, the peer reads %d of them", decoded, read)
	if decoded < 400 || read < decoded*8/10 {
		t.Errorf("%d texts are TOML, and the peer reads %d", decoded, read)
	}
}

// FuzzText holds the properties over whatever is TOML.
func FuzzText(f *testing.F) {
	corpus(f, func(_ string, text []byte) {
		if len(text) < 8192 {
			f.Add(text)
		}
	})
	f.Fuzz(func(t *testing.T, text []byte) {
		if len(text) > 16384 {
			return // The properties take long over it, and a short one shows as much.
		}
		hold(t, text)
	})
}
