package canonical

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/rogpeppe/go-internal/txtar"

	"casewright"
)

const root = "../../../../"

// TestRules sets out the texts of testdata/rules.txtar, in which a file "name,
// laid out" follows the file "name" where the two differ.
func TestRules(t *testing.T) {
	archive, err := txtar.ParseFile("testdata/rules.txtar")
	if err != nil {
		t.Fatal(err)
	}
	count := 0
	for i, file := range archive.Files {
		if strings.HasSuffix(file.Name, ", laid out") {
			continue
		}
		count++
		want := file
		if i+1 < len(archive.Files) && archive.Files[i+1].Name == file.Name+", laid out" {
			want = archive.Files[i+1]
		}
		t.Run(file.Name, func(t *testing.T) {
			got := setOut(t, file.Data)
			if diff := cmp.Diff(string(want.Data), string(got)); diff != "" {
				t.Errorf("(- wanted, + set out):\n%s", diff)
			}
			hold(t, file.Data)
		})
	}
	if count < 20 {
		t.Errorf("only %d texts", count)
	}
}

func setOut(t testing.TB, text []byte) []byte {
	t.Helper()
	out, err := Text("test.toml", text)
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// What cannot stand in an archive of plain lines.
func TestBytes(t *testing.T) {
	for name, c := range map[string]struct{ in, want string }{
		"nothing":                        {"", ""},
		"blank lines":                    {"\n \n\t\n", ""},
		"no line end":                    {"a = 1", "a = 1\n"},
		"a comment without line end":     {"# a", "# a\n"},
		"CRLF":                           {"# a\r\n\r\n[t]\r\na=1\r\n", "# a\n\n[t]\na = 1\n"},
		"a byte-order mark":              {"\uFEFFformat=1\n", "format = 1\n"},
		"blanks at the ends of lines":    {"a = 1 \t\n# b\t \n[c]  \n", "a = 1\n\n# b\n[c]\n"},
		"CRLF in a string stays":         {"a = \"\"\"x \r\ny\"\"\"\r\nb = 1\r\n", "a = \"\"\"x \r\ny\"\"\"\nb = 1\n"},
		"CRLF in an array goes":          {"a = [ \r\n  1, # one \r\n]\r\n", "a = [\n  1, # one\n]\n"},
		"a string within an array stays": {"a = [ \r\n'''x \r\n'''] \r\n", "a = [\n'''x \r\n''']\n"},
		"strings between line ends":      {"a = [ \n\"\"\" \n\"\"\", \n\"\"\"\r\n\"\"\"\t\n,'x', \n] \n", "a = [\n\"\"\" \n\"\"\",\n\"\"\"\r\n\"\"\"\n,'x',\n]\n"},
		"a tab in a literal string":      {"a = 'x\ty'\n", "a = 'x\ty'\n"},
		"blanks around":                  {" \ta\t=\t1\t#\tb", "a = 1" + strings.Repeat(" ", 33) + "#\tb\n"},
	} {
		t.Run(name, func(t *testing.T) {
			if got := string(setOut(t, []byte(c.in))); got != c.want {
				t.Errorf("got %q, want %q", got, c.want)
			}
			hold(t, []byte(c.in))
		})
	}
}

// What is not TOML, or is refused before it is decoded, is told as the reader
// tells it.
func TestRefused(t *testing.T) {
	for _, text := range []string{
		"a = = 1", "a = 1\na = 2", "[a", "a = 1 b = 2", "\xFF\xFEa = 1", "# \xB0", "a = 1\rb = 2",
		"x = " + strings.Repeat("[", 40) + strings.Repeat("]", 40),
		strings.Repeat("a.", 40) + "a = 1",
		strings.Repeat("#\n", 1<<19) + "\n",
	} {
		out, err := Text("bad.toml", []byte(text))
		var found casewright.Errors
		if out != nil || !errors.As(err, &found) || len(found) != 1 || found[0].File != "bad.toml" {
			t.Errorf("%.40q: %q, %v", text, out, err)
			continue
		}
		_, want := casewright.Read("bad.toml", []byte(text))
		if err.Error() != want.Error() {
			t.Errorf("%.40q: %v, and the reader says %v", text, err, want)
		}
	}
}

// TestOurFiles holds that every design and stock of ours is laid out.
func TestOurFiles(t *testing.T) {
	files, err := filepath.Glob(root + "testdata/designs/*.toml")
	if err != nil || len(files) < 5 {
		t.Fatal(files, err)
	}
	for _, file := range append(files, root+"testdata/stock.toml") {
		text, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		if diff := cmp.Diff(string(text), string(setOut(t, text))); diff != "" {
			t.Errorf("%s (- as it is, + laid out):\n%s", file, diff)
		}
	}
	if string(setOut(t, []byte(casewright.Example))) != casewright.Example {
		t.Error("the example is not laid out")
	}
}
