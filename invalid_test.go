package casewright

import (
	"bytes"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/google/go-cmp/cmp"

	"casewright/margin"
)

// fault is an error as the files of testdata/invalid expect it.
type fault struct {
	Line, Column int // 0 where the file has no place for it
	Text         string
}

// invalid is a file of testdata/invalid: ¶ stands right before each place
// where an error is expected, once for each, and the header has the texts of
// the errors in the order in which they come, first those without a place:
//
//	# want: [tube]: wall: "14" has no unit; write "14 mm"
//	# want at no place: the table [motor] is missing; write [motor]
//
// VERSION stands for the version of casewright.
type invalid struct {
	name   string
	text   []byte // without the marks
	faults []fault
}

func readInvalid(t testing.TB) []invalid {
	t.Helper()
	paths, err := filepath.Glob("testdata/invalid/*.toml")
	if err != nil || len(paths) < 60 {
		t.Fatalf("%d invalid designs, %v", len(paths), err)
	}
	var list []invalid
	for _, path := range paths {
		marked, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		file := invalid{name: filepath.Base(path)}
		var places []fault
		line, column := 1, 1
		for _, r := range string(marked) {
			switch r {
			case '¶':
				places = append(places, fault{Line: line, Column: column})
				continue
			case '\n':
				line, column = line+1, 1
			default:
				column++
			}
			file.text = utf8.AppendRune(file.text, r)
		}
		placed := 0
		for text := range strings.SplitSeq(string(file.text), "\n") {
			text = strings.ReplaceAll(text, "VERSION", Version)
			want, isPlaced := strings.CutPrefix(text, "# want: ")
			other, isNot := strings.CutPrefix(text, "# want at no place: ")
			switch {
			case isNot:
				file.faults = append(file.faults, fault{Text: other})
			case isPlaced && placed < len(places):
				file.faults = append(file.faults, fault{places[placed].Line, places[placed].Column, want})
				placed++
			case isPlaced:
				t.Fatalf("%s: more errors than places", path)
			}
		}
		if placed != len(places) || len(file.faults) == 0 {
			t.Fatalf("%s: %d places, %d errors at them", path, len(places), placed)
		}
		list = append(list, file)
	}
	return list
}

// Every error of a file is told at once, in the order of the file, each at its
// place and with what to write instead; and no other.
func TestInvalid(t *testing.T) {
	for _, file := range readInvalid(t) {
		t.Run(file.name, func(t *testing.T) {
			d, err := Read(file.name, file.text)
			if d != nil {
				t.Errorf("a design was read all the same")
			}
			if diff := cmp.Diff(file.faults, faultsOf(t, err)); diff != "" {
				t.Errorf("errors (- wanted, + told):\n%s", diff)
			}
		})
	}
}

func faultsOf(t testing.TB, err error) []fault {
	t.Helper()
	if err == nil {
		return nil
	}
	var all Errors
	if !errors.As(err, &all) || len(all) == 0 {
		t.Fatalf("%T: %v", err, err)
	}
	var list []fault
	for _, e := range all {
		list = append(list, fault{e.Line, e.Column, e.Text()})
		if text := e.Error(); !utf8.ValidString(text) || strings.ContainsFunc(text, func(r rune) bool { return r < ' ' || r == 0x7F }) {
			t.Errorf("not fit to be printed: %q", text)
		}
	}
	return list
}

// The same text gives the same errors in the same order, every time. One error
// alone has no order.
func TestInvalidIsDeterministic(t *testing.T) {
	for _, file := range readInvalid(t) {
		if len(file.faults) == 1 {
			continue
		}
		_, first := Read(file.name, file.text)
		for range 50 {
			if _, err := Read(file.name, file.text); fmt.Sprint(err) != fmt.Sprint(first) {
				t.Fatalf("%s:\n%v\nthen\n%v", file.name, first, err)
			}
		}
	}
}

// A file that is no text, or no design, is told in one line; it must neither
// take long nor bring the program down.
func TestInvalidBytes(t *testing.T) {
	wide := func(order func(unit uint16) [2]byte) []byte {
		var b []byte
		for _, r := range "\uFEFF" + Example {
			unit := order(uint16(r))
			b = append(b, unit[:]...)
		}
		return b
	}
	var tables strings.Builder
	for i := range 30_000 {
		fmt.Fprintf(&tables, "[a%d]\n", i)
	}
	latin := bytes.ReplaceAll([]byte(Example), []byte("±"), []byte{0xB1})
	for _, test := range []struct {
		name string
		text []byte
		want string // begins so
	}{
		{"binary", []byte("\x7fELF\x02\x01\x01\x00\x00\x00\x00\x00\xff\xfe\x90"), "bad.toml:1: the file holds NUL bytes and is not a text"},
		{"binary without NUL", []byte("\x89PNG\r\n\x1a\n\xff\xd8"), "bad.toml:1: the byte 0x89 is not UTF-8"},
		{"NUL", []byte("format = 1\nname\x00 = 2\n"), "bad.toml:2: the file holds NUL bytes and is not a text"},
		{"UTF-16, little end first", wide(func(u uint16) [2]byte { return [2]byte{byte(u), byte(u >> 8)} }), "bad.toml:1: the file is UTF-16; save it as UTF-8"},
		{"UTF-16, big end first", wide(func(u uint16) [2]byte { return [2]byte{byte(u >> 8), byte(u)} }), "bad.toml:1: the file is UTF-16; save it as UTF-8"},
		{"UTF-16 without a mark", wide(func(u uint16) [2]byte { return [2]byte{byte(u), byte(u >> 8)} })[2:], "bad.toml:1: the file is UTF-16; save it as UTF-8"},
		{"Latin-1", latin, `bad.toml:10: the byte 0xB1 is not UTF-8 ('±' in Latin-1); save the file as UTF-8`},
		{"carriage returns alone", bytes.ReplaceAll([]byte(Example), []byte("\n"), []byte("\r")), "bad.toml:1: a carriage return stands without a line feed"},
		{"escape", []byte("# \x1b[31m\n"), "bad.toml:1: the control character 0x1B stands in the text; delete it"},
		{"larger than 1 MiB", append([]byte(Example), bytes.Repeat([]byte("#\n"), 1<<19)...), "bad.toml: the file has "},
		{"deep arrays", []byte("a = " + strings.Repeat("[", 100_000)), "bad.toml:1: arrays and inline tables lie more than 32 deep"},
		{"deep tables", []byte("a = " + strings.Repeat("{a = ", 100_000)), "bad.toml:1: arrays and inline tables lie more than 32 deep"},
		{"8 KB of dots", []byte(strings.Repeat("a.", 4096) + "a = 1\n"), "bad.toml:1: the key has more than 32 dots"},
		{"8 KB of a key", []byte(strings.Repeat("a", 8192) + " = 1\n"), "bad.toml:1: the key is longer than 1024 bytes"},
		{"many tables", []byte(tables.String()), "bad.toml:20001: the file has more than 20000 names"},
		{"many keys", []byte(strings.Repeat("a = 1\n", 30_000)), "bad.toml:20001: the file has more than 20000 names"},
		{"prose", []byte("Dear casewright, will it hold?\n"), "bad.toml:1: this is not TOML: "},
		{"a line end in an escape", []byte("name = \"Fl\\\nint\"\n"), "bad.toml:1: this is not TOML: "},
		{"JSON", []byte(`{"format": 1}`), "bad.toml:1: this is not TOML: "},
	} {
		d, err := Read("bad.toml", test.text)
		if d != nil || err == nil || !strings.HasPrefix(err.Error(), test.want) || strings.Contains(err.Error(), "\n") {
			t.Errorf("%s: %v, want %s…", test.name, err, test.want)
		}
		if err != nil {
			faultsOf(t, err)
		}
	}
}

// An empty file, or one of comments, lacks all that a design must have.
func TestInvalidEmpty(t *testing.T) {
	for _, text := range []string{"", "\n\n", "# nothing\n", "\uFEFF"} {
		_, err := Read("bad.toml", []byte(text))
		want := []fault{
			{0, 0, "the table [motor] is missing; write [motor]"},
			{0, 0, "the table [tube] is missing; write [tube]"},
			{1, 1, "the format of the file is missing; write format = 1 as the first line"},
		}
		if diff := cmp.Diff(want, faultsOf(t, err)); diff != "" {
			t.Errorf("%q (- wanted, + told):\n%s", text, diff)
		}
	}
}

func TestInvalidFiles(t *testing.T) {
	dir := t.TempDir()
	if _, err := ReadFile(dir); err == nil || err.Error() != dir+": is a directory; write the name of a design file" {
		t.Errorf("directory: %v", err)
	}
	if _, err := ReadFile(filepath.Join(dir, "none.toml")); !errors.Is(err, os.ErrNotExist) {
		t.Errorf("no file: %v", err)
	}
	large := filepath.Join(dir, "large.toml")
	if err := os.WriteFile(large, bytes.Repeat([]byte("# a\n"), 1<<18+1), 0o600); err != nil {
		t.Fatal(err)
	}
	if _, err := ReadFile(large); err == nil || !strings.Contains(err.Error(), "larger than 1 MiB") {
		t.Errorf("large file: %v", err)
	}
	just := filepath.Join(dir, "just.toml")
	room := 1<<20 - len(Example)
	if err := os.WriteFile(just, []byte(Example+"#"+strings.Repeat(" ", room-1)), 0o600); err != nil {
		t.Fatal(err)
	}
	if _, err := ReadFile(just); err != nil {
		t.Errorf("1 MiB: %v", err)
	}
}

// A byte-order mark, line ends of Windows, and other ways to write the same
// tables make no difference; lines and columns are counted as an editor does.
func TestSameDesignWrittenOtherwise(t *testing.T) {
	want := Check(readExample(t, Example))
	crlf := strings.ReplaceAll(Example, "\n", "\r\n")
	for name, text := range map[string]string{
		"byte-order mark":         "\uFEFF" + Example,
		"CRLF":                    crlf,
		"CRLF, byte-order mark":   "\uFEFF" + crlf,
		"no last line end":        strings.TrimRight(Example, "\n"),
		"tabs and blanks":         strings.NewReplacer("\n", " \t\n", " = ", "\t=  ").Replace(Example),
		"literal strings":         strings.ReplaceAll(Example, `"`, `'`),
		"signs in ASCII":          strings.NewReplacer(" ±", "+-", " °C", " degC").Replace(Example),
		"seal and screws counted": strings.NewReplacer("[end.seal]", "[[end.seal]]", "[end.screws]", "[[end.screws]]").Replace(Example),
		"headers with blanks":     strings.NewReplacer("[end.seal]", "[ end . seal ]", "[tube]", `["tube"]`).Replace(Example),
		"numbers in quotes":       strings.NewReplacer("hardness = 75", `hardness = "75"`, "count = 8", `count = " 8 "`).Replace(Example),
	} {
		got := Check(readExample(t, text))
		for i := range want.Results {
			a, b := &want.Results[i], &got.Results[i]
			if a.ID() != b.ID() || a.Line != b.Line || !alike(a.Margin, b.Margin, 0) || a.Verdict != b.Verdict {
				t.Errorf("%s: %s at line %d has margin %v, want %s at line %d, %v", name, b.ID(), b.Line, b.Margin, a.ID(), a.Line, a.Margin)
			}
		}
	}
	for _, text := range []string{Example, crlf, "\uFEFF" + crlf} {
		broken := strings.Replace(text, `edge = "14 ±0.2 mm"`, `egde = "14 ±0.2 mm"`, 1)
		_, err := Read("bad.toml", []byte(broken))
		line := 1 + strings.Count(text[:strings.Index(text, "edge = ")], "\n")
		want := []fault{{line, 3, `[end.screws] of "bulkhead": "egde" is not a key; write "edge" (hole centre to the end of the tube)`}}
		if diff := cmp.Diff(want, faultsOf(t, err)); diff != "" {
			t.Errorf("(- wanted, + told):\n%s", diff)
		}
	}
}

func readExample(t *testing.T, text string) *Design {
	t.Helper()
	d, err := Read("example.toml", []byte(text))
	if err != nil {
		t.Fatal(err)
	}
	return d
}

// Tables written on one line give the same design too; the lines are others.
func TestInlineTables(t *testing.T) {
	text := `format = 1
motor = {name = "Flint", pressure = "2 MPa"}
tube.wall = "3 mm"
tube.inside_diameter = "57 mm"
tube.length = "300 mm"
tube.material = "6061-T6 drawn tube"
end = [
  {name = "bulkhead", kind = "bulkhead", material = "6061-T6 bar", outside_diameter = "56.9 mm", length = "40 mm", plate = "12 mm",
   seal = {section = "2.6 mm", inside_diameter = "52 mm", compound = "FKM", hardness = 75,
     groove_diameter = "53 mm", groove_width = "3.6 mm", groove_from_face = "4 mm"},
   screws = {thread = "M5", class = "8.8", count = 8, hole = "5.5 mm",
     edge = "14 mm", from_face = "20 mm", engagement = "9 mm"}},
]
`
	r, want := Check(readExample(t, text)), Check(read(t, plainSheet()))
	for i := range want.Results {
		a, b := &want.Results[i], &r.Results[i]
		if a.ID() != b.ID() || !alike(a.Margin, b.Margin, 0) {
			t.Errorf("%s has margin %v, want %s, %v", b.ID(), b.Margin, a.ID(), a.Margin)
		}
		if b.Method.ID == "hole.edge" && (b.Line != 12 || b.Verdict != margin.Pass) {
			t.Errorf("hole.edge is %v and stands at line %d, want pass, 12", b.Verdict, b.Line)
		}
	}
	_, err := Read("bad.toml", []byte(strings.Replace(text, "edge = ", "egde = ", 1)))
	if diff := cmp.Diff([]fault{{12, 6, `[end.screws] of "bulkhead": "egde" is not a key; write "edge" (hole centre to the end of the tube)`}}, faultsOf(t, err)); diff != "" {
		t.Errorf("(- wanted, + told):\n%s", diff)
	}
}
