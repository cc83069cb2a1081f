package where

import (
	"bytes"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/BurntSushi/toml"
	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
)

// The inputs show where each key (¶) and each value (§) is expected; the
// harness takes the marks out. Syntax: TOML 1.1.0, seen in the decoder's own
// test suite, which TestPlacesOfCorpus reads.
func TestPlaces(t *testing.T) {
	for _, test := range []struct {
		name, input string
		want        []string // key, entries, value
	}{
		{"nothing", "", nil},
		{"only comments", "# a = 1\n\t# [b]\r\n#", nil},
		{"two ends", `¶format = §1

[¶tube]
¶wall = §"3.20 ±0.15 mm"    # not = "this"

[[¶end]]
¶name = §"bulkhead"

  [¶end.seal]
  ¶size = §"AS568-137"

[[¶end]]
¶name = §"nozzle"

  [¶end.seal]
  ¶size = §"AS568-138" # [[end]]
  [¶end.screws]
	¶count = §8
[¶limits]
¶"hole.edge" = §"2.0"`, []string{
			`format [-1] 1`,
			`tube [-1] `,
			`tube.wall [-1 -1] "3.20 ±0.15 mm"`,
			`end [0] `,
			`end.name [0 -1] "bulkhead"`,
			`end.seal [0 -1] `,
			`end.seal.size [0 -1 -1] "AS568-137"`,
			`end [1] `,
			`end.name [1 -1] "nozzle"`,
			`end.seal [1 -1] `,
			`end.seal.size [1 -1 -1] "AS568-138"`,
			`end.screws [1 -1] `,
			`end.screws.count [1 -1 -1] 8`,
			`limits [-1] `,
			`limits."hole.edge" [-1 -1] "2.0"`,
		}},
		{"arrays of tables within each other", `[[¶end]]
[[¶end.screws]]
¶count = §1
[[¶end.screws]]
¶count = §2
[[¶end]]
[[¶end.screws]]
¶count = §3
[¶end.screws.row]
¶a.b = §4`, []string{
			`end [0] `,
			`end.screws [0 0] `,
			`end.screws.count [0 0 -1] 1`,
			`end.screws [0 1] `,
			`end.screws.count [0 1 -1] 2`,
			`end [1] `,
			`end.screws [1 0] `,
			`end.screws.count [1 0 -1] 3`,
			`end.screws.row [1 0 -1] `,
			`end.screws.row.a.b [1 0 -1 -1 -1] 4`,
		}},
		{"array of tables in a table never headed", "[[¶a.b]]\n¶c=§1\n[[¶a.b]]\n¶c=§2\n[¶a]\n¶d=§3", []string{
			`a.b [-1 0] `, `a.b.c [-1 0 -1] 1`, `a.b [-1 1] `, `a.b.c [-1 1 -1] 2`, `a [-1] `, `a.d [-1 -1] 3`,
		}},
		{"a dotted key into an array of tables, which the decoder takes though TOML does not", "[[¶x.a]]\n[[¶x.a]]\n[¶x]\n¶a.b = §1", []string{
			`x.a [-1 0] `, `x.a [-1 1] `, `x [-1] `, `x.a.b [-1 1 -1] 1`,
		}},
		{"inline tables", `¶end = §{ ¶name = §"a", ¶seal = §{¶size=§"x", ¶b.c = §{}}, ¶d=§1 }
¶next = §true`, []string{
			`end [-1] { name = "a", seal = {size="x", b.c = {}}, d=1 }`,
			`end.name [-1 -1] "a"`,
			`end.seal [-1 -1] {size="x", b.c = {}}`,
			`end.seal.size [-1 -1 -1] "x"`,
			`end.seal.b.c [-1 -1 -1 -1] {}`,
			`end.d [-1 -1] 1`,
			`next [-1] true`,
		}},
		{"arrays of inline tables", `[[¶a]]
[[¶a]]
¶end = §[ {¶name = §"]}", ¶rows=§[{¶n=§1},{¶n=§2}]},
  # {x = 1}
  {¶name = §'#'},]
¶mixed = §[1, {¶x=§2}, [{¶x=§3}, 4, {¶x=§5}], {¶x=§6}]`, []string{
			`a [0] `,
			`a [1] `,
			`a.end [1 -1] [ {name = "]}", rows=[{n=1},{n=2}]},` + "\n  # {x = 1}\n  {name = '#'},]",
			`a.end.name [1 0 -1] "]}"`,
			`a.end.rows [1 0 -1] [{n=1},{n=2}]`,
			`a.end.rows.n [1 0 0 -1] 1`,
			`a.end.rows.n [1 0 1 -1] 2`,
			`a.end.name [1 1 -1] '#'`,
			`a.mixed [1 -1] [1, {x=2}, [{x=3}, 4, {x=5}], {x=6}]`,
			`a.mixed.x [1 1 -1] 2`,
			`a.mixed.x [1 2 -1] 3`,
			`a.mixed.x [1 4 -1] 5`,
			`a.mixed.x [1 5 -1] 6`,
		}},
		{"inline tables of TOML 1.1", "¶a = §{\n  ¶b = §1, # }\n  ¶c = §\"\\e\\x41\\\"}\",\n\n}\n¶d=§1", []string{
			"a [-1] {\n  b = 1, # }\n  c = \"\\e\\x41\\\"}\",\n\n}",
			`a.b [-1 -1] 1`, `a.c [-1 -1] "\e\x41\"}"`, `d [-1] 1`,
		}},
		{"quoted and dotted keys", `¶"a.b" . 'c"#d'	. e = §1
¶"" = §2
¶'x' . "\"" = §3
[ ¶"= 1" . '[x]' ]
¶"\u00e9" = §4
¶"ä\tb"=§5
¶3.14159 = §6
[[ ¶-._ ]]`, []string{
			`"a.b"."c\"#d".e [-1 -1 -1] 1`,
			`"" [-1] 2`,
			`x."\"" [-1 -1] 3`,
			`"= 1"."[x]" [-1 -1] `,
			`"= 1"."[x]"."é" [-1 -1 -1] 4`,
			`"= 1"."[x]"."ä\tb" [-1 -1 -1] 5`,
			`"= 1"."[x]".3.14159 [-1 -1 -1 -1] 6`,
			`-._ [-1 0] `,
		}},
		{"strings of many lines", `¶a = §"""
b = 1
[c] \""" ""
\\"""
¶d = §'''e = "\''' # '''
¶f = §""""g""""" # two quotes of its own at the end
¶h = §''''''
¶i = §""
¶j = §"""\"""""" # three of its own, one escaped
¶k = §'\'
¶l = §"\\"`, []string{
			"a [-1] \"\"\"\nb = 1\n[c] \\\"\"\" \"\"\n\\\\\"\"\"",
			`d [-1] '''e = "\'''`,
			`f [-1] """"g"""""`,
			`h [-1] ''''''`,
			`i [-1] ""`,
			`j [-1] """\""""""`,
			`k [-1] '\'`,
			`l [-1] "\\"`,
		}},
		{"words", "¶a=§1979-05-27 07:32:00Z \t# time\n¶b = §[ 1.5e3 , -inf,+nan ] \n ¶c =\t§0xff", []string{
			`a [-1] 1979-05-27 07:32:00Z`, `b [-1] [ 1.5e3 , -inf,+nan ]`, `c [-1] 0xff`,
		}},
		{"byte-order mark", "\uFEFF¶format = §1\n¶a = §2", []string{`format [-1] 1`, `a [-1] 2`}},
		{"byte-order mark before a header", "\uFEFF [¶a]", []string{`a [-1] `}},
		{"CRLF", "¶a = §1\r\n\r\n[¶b] # c\r\n¶d = §\"\"\"\r\n\\\r\n\"\"\"\r\n¶e=§2\r\n", []string{
			`a [-1] 1`, `b [-1] `, "b.d [-1 -1] \"\"\"\r\n\\\r\n\"\"\"", `b.e [-1 -1] 2`,
		}},
		{"tabs and wide runes", "\t\t¶a\t=\t§'°±µ'\t\n\t¶\"°±𝛑\" = §{ ¶'µ' = §'°', ¶x = §1 }", []string{
			`a [-1] '°±µ'`, `"°±𝛑" [-1] { 'µ' = '°', x = 1 }`, `"°±𝛑"."µ" [-1 -1] '°'`, `"°±𝛑".x [-1 -1] 1`,
		}},
	} {
		t.Run(test.name, func(t *testing.T) {
			input, keys, values := takeMarks(test.input)
			text, meta := takeMeta(t, input)
			if err := Check(text); err != nil {
				t.Error("Check:", err)
			}
			list := Keys(text, meta)
			if list == nil {
				t.Fatal("no places")
			}
			var got []string
			var gotKeys, gotValues [][3]int
			for _, p := range list {
				got = append(got, fmt.Sprintf("%s %v %s", p.Key, p.Entry, p.Value))
				gotKeys = append(gotKeys, [3]int{p.Offset, p.Line, p.Column})
				if p.Value != "" {
					gotValues = append(gotValues, [3]int{p.ValueOffset, p.ValueLine, p.ValueColumn})
				} else if p.ValueOffset != 0 || p.ValueLine != 0 || p.ValueColumn != 0 {
					t.Errorf("header %s has a place for a value", p.Key)
				}
			}
			if diff := cmp.Diff(test.want, got); diff != "" {
				t.Error("places (-want +got):\n" + diff)
			}
			if diff := cmp.Diff(keys, gotKeys); diff != "" {
				t.Error("offset, line and column of keys (-want +got):\n" + diff)
			}
			if diff := cmp.Diff(values, gotValues); diff != "" {
				t.Error("offset, line and column of values (-want +got):\n" + diff)
			}
		})
	}
}

// takeMarks takes the marks out of an input and returns offset, line and column
// of each, counted from the text before it.
func takeMarks(input string) (text string, keys, values [][3]int) {
	var b strings.Builder
	for _, r := range input {
		switch r {
		case '¶':
			line, column := lineAndColumn(b.String())
			keys = append(keys, [3]int{b.Len(), line, column})
		case '§':
			line, column := lineAndColumn(b.String())
			values = append(values, [3]int{b.Len(), line, column})
		default:
			b.WriteRune(r)
		}
	}
	return b.String(), keys, values
}

// lineAndColumn is where the text goes on after what is before.
func lineAndColumn(before string) (line, column int) {
	before = strings.TrimPrefix(before, "\uFEFF")
	lines := strings.Split(before, "\n")
	return len(lines), utf8.RuneCountInString(lines[len(lines)-1]) + 1
}

// TestPlacesOfCorpus reads the valid files of the test suite that comes with the
// decoder and holds each place against the text and the decoded document.
func TestPlacesOfCorpus(t *testing.T) {
	dir, err := exec.Command("go", "list", "-m", "-f", "{{.Dir}}", "github.com/BurntSushi/toml").Output()
	if err != nil {
		t.Fatal("the decoder's module is not at hand: ", err)
	}
	files := 0
	err = filepath.WalkDir(filepath.Join(strings.TrimSpace(string(dir)), "internal", "toml-test", "tests", "valid"),
		func(name string, _ os.DirEntry, err error) error {
			if err != nil || filepath.Ext(name) != ".toml" {
				return err
			}
			files++
			text, err := os.ReadFile(name)
			if err != nil {
				return err
			}
			t.Run(filepath.Base(name), func(t *testing.T) { checkAgainstDocument(t, text) })
			return nil
		})
	if err != nil {
		t.Error(err)
	}
	if files < 200 {
		t.Errorf("the decoder's test suite has %d valid files, expected 200 or more", files)
	}
}

func checkAgainstDocument(t *testing.T, text []byte) {
	if err := Check(text); err != nil {
		t.Error("Check:", err)
	}
	var document map[string]any
	meta, err := toml.Decode(string(text), &document)
	if err != nil {
		t.Fatal(err)
	}
	list := Keys(text, meta)
	if list == nil {
		t.Fatal("no places")
	}
	checkPlaces(t, text, meta, list)
	for _, p := range list {
		var want any = document
		for i, part := range p.Key {
			want = want.(map[string]any)[part]
			if p.Entry[i] >= 0 {
				want = elements(want)[p.Entry[i]]
			}
		}
		got := want
		if p.Value != "" {
			var alone map[string]any
			if _, err := toml.Decode("value = "+p.Value, &alone); err != nil {
				t.Errorf("value of %s: %v", p.Key, err)
			}
			got = alone["value"]
		} else if _, isTable := want.(map[string]any); !isTable {
			t.Errorf("header %s %v: decoded to %T", p.Key, p.Entry, want)
		}
		if diff := cmp.Diff(want, got, cmpopts.EquateNaNs()); diff != "" {
			t.Errorf("%s %v at line %d (-decoded +value as written):\n%s", p.Key, p.Entry, p.Line, diff)
		}
	}
}

// elements lists what is in an array, and in the arrays in it.
func elements(array any) (list []any) {
	switch array := array.(type) {
	case []map[string]any:
		for _, e := range array {
			list = append(list, e)
		}
	case []any:
		for _, e := range array {
			list = append(list, elements(e)...)
		}
	default:
		return []any{array}
	}
	return list
}

// checkPlaces holds what is true of the places of any text.
func checkPlaces(t *testing.T, text []byte, meta toml.MetaData, list []Key) {
	t.Helper()
	if len(list) != len(meta.Keys()) {
		t.Fatalf("%d places, %d keys", len(list), len(meta.Keys()))
	}
	offset, line := -1, 1
	for i, p := range list {
		if !cmp.Equal(p.Key, meta.Keys()[i]) || len(p.Entry) != len(p.Key) {
			t.Errorf("place %d: key %q, entries %v, decoder's key %q", i, p.Key, p.Entry, meta.Keys()[i])
		}
		if p.Offset <= offset || p.Line < line || (p.Line > line) != bytes.Contains(text[max(offset, 0):p.Offset], []byte("\n")) {
			t.Errorf("%s: offset %d, line %d after offset %d, line %d", p.Key, p.Offset, p.Line, offset, line)
		}
		offset, line = p.Offset, p.Line
		if !bytes.HasPrefix(text, []byte("\xFF\xFE")) && !bytes.HasPrefix(text, []byte("\xFE\xFF")) {
			if l, c := lineAndColumn(string(text[:p.Offset])); l != p.Line || c != p.Column {
				t.Errorf("%s: %d:%d, expected %d:%d", p.Key, p.Line, p.Column, l, c)
			}
		}
		if p.End <= p.Offset || p.Value != "" && p.End > p.ValueOffset ||
			unblanked.Replace(string(text[p.Offset:p.End])) != unblanked.Replace(strings.Join(p.Spelling, ".")) {
			t.Errorf("%q ends at %d and is spelt %q", text[p.Offset:], p.End, p.Spelling)
		}
		if !startsWithPartOf(string(text[p.Offset:]), p.Key) {
			t.Errorf("line %d does not start with a part of %q", p.Line, p.Key)
		}
		if !strings.HasPrefix(string(text[p.ValueOffset:]), p.Value) {
			t.Errorf("value of %s is not at its offset", p.Key)
		}
	}
}

var unblanked = strings.NewReplacer(" ", "", "\t", "")

// startsWithPartOf reports whether a part of the key begins the text, after its
// quote and up to an escape.
func startsWithPartOf(text string, key toml.Key) bool {
	for _, part := range key {
		if strings.HasPrefix(text, part) && part != "" || strings.HasPrefix(text, `"`+part+`"`) || strings.HasPrefix(text, "'"+part+"'") {
			return true
		}
		if before, _, escaped := strings.Cut(text, `\`); escaped && before[:min(1, len(before))] == `"` && strings.HasPrefix(part, before[1:]) {
			return true
		}
	}
	return false
}

// Each string in three quotes is marked by § before and behind it.
func TestLongStrings(t *testing.T) {
	for _, marked := range []string{
		"", `a = 1 # """x"""`, `a = '"""'`, `a = "'''"`,
		`a = §"""x"""§`, "a = §'''\n'''''§ # '''",
		"a = [ §\"\"\"\\\"\"\" x\n\"\"\"§, {b = §''''''§}, '' ]\n[c]\nd = §\"\"\"\"\"\"\"§",
	} {
		var want [][2]int
		parts := strings.Split(marked, "§")
		at := 0
		for i, part := range parts[:len(parts)-1] {
			at += len(part)
			if i%2 == 0 {
				want = append(want, [2]int{at, 0})
			} else {
				want[len(want)-1][1] = at
			}
		}
		text := strings.Join(parts, "")
		takeMeta(t, text)
		if got, err := LongStrings([]byte(text)); err != nil || !cmp.Equal(got, want) {
			t.Errorf("%q: %v, %v, want %v", text, got, err, want)
		}
	}
	for _, text := range []string{`a = """x`, "[a", "a = " + strings.Repeat("[", 40)} {
		if got, err := LongStrings([]byte(text)); err == nil {
			t.Errorf("%q: %v", text, got)
		}
	}
}

func TestPlacesRatherNoneThanWrong(t *testing.T) {
	_, twoKeys := takeMeta(t, "a = 1\n[b]")
	for _, test := range []struct{ name, text string }{
		{"fewer keys", "a = 1"},
		{"more keys", "a = 1\n[b]\nc = 2"},
		{"another key", "a = 1\n[c]"},
		{"another key, quoted", "'A' = 1\n[b]"},
		{"another key before an escape", "\"x\\u0061\" = 1\n[b]"},
		{"another key by length", "a = 1\n[b.b]"},
		{"a key in another table", "[a]\nb = 1"},
		{"a longer key", "aa = 1\n[b]"},
		{"not TOML", "a = 1\n[b"},
		{"no value", "a =\n[b]"},
		{"two on a line", "a = '1' [b]"},
		{"open string", "a = \"\n[b]"},
		{"open string of many lines", "a = 1\n[b]\nc = \"\"\"\n\"\""},
		{"open array", "a = [1\n[b]"},
	} {
		if got := Keys([]byte(test.text), twoKeys); got != nil {
			t.Errorf("%s: %v", test.name, got)
		}
	}
	text, meta := takeMeta(t, "a = 1\n[b]")
	if len(Keys(text, meta)) != 2 {
		t.Error("no places for the right text")
	}
	_, threeTables := takeMeta(t, "[a]\n[b]\n[a.c]")
	if Keys([]byte("[a]\n[b]\nc = 1"), threeTables) != nil {
		t.Error("places for a key in another table of that depth")
	}
	// Too deep for the scan, though the decoder takes it.
	if Keys(takeMeta(t, "a = "+strings.Repeat("[", 33)+strings.Repeat("]", 33))) != nil {
		t.Error("places for what is nested too deep")
	}
}

// The decoder drops a byte-order mark of UTF-16 too, whatever follows it.
func TestPlacesAfterMarkOfUTF16(t *testing.T) {
	for _, mark := range []string{"\xFF\xFE", "\xFE\xFF"} {
		list := Keys(takeMeta(t, mark+" a = 1"))
		if len(list) != 1 || list[0].Offset != 3 || list[0].Line != 1 || list[0].Column != 2 {
			t.Errorf("after %q: %+v", mark, list)
		}
	}
}

func takeMeta(t *testing.T, text string) ([]byte, toml.MetaData) {
	t.Helper()
	var document map[string]any
	meta, err := toml.Decode(text, &document)
	if err != nil {
		t.Fatal(err)
	}
	return []byte(text), meta
}

// The texts show where the fault is expected (¶), unless the whole file is at
// fault.
func TestCheckBeforeDecoding(t *testing.T) {
	const mebibyte = 1 << 20
	nested := func(n int, open, inner, end string) string {
		return "a = " + strings.Repeat(open, n) + inner + strings.Repeat(end, n)
	}
	for _, test := range []struct {
		name, text     string
		message, write string // parts of them; "" where the text is let through
	}{
		{name: "nothing"},
		{name: "a design", text: "\uFEFFformat = 1\r\n[tube]\r\nwall = \"3 ±0.1 mm\" # °, µ, 𝛑\t.\r\n"},
		{name: "a fault that the decoder tells", text: "a = = 1"},

		{name: "1 MiB", text: strings.Repeat("#\n", mebibyte/2)},
		{"1 MiB and one byte", strings.Repeat("#\n", mebibyte/2) + "\n", "1048577 bytes, more than 1048576", "one motor a file"},
		{"a million tables", strings.Repeat("[[x]]\n", 1_000_000), "6000000 bytes", "one motor a file"},
		{name: "many tables", text: strings.Repeat("[[x]]\n", 20_000)},
		{"too many tables", strings.Repeat("[[x]]\n", 20_000) + "[[¶x]]\n" + strings.Repeat("[[x]]\n", 150_000), "more than 20000 names", "one motor a file"},
		{"too many keys", "\n[a]\n" + strings.Repeat("a=1\n", 19_999) + "¶a=1\n" + strings.Repeat("a=1\n", 150_000), "more than 20000 names", "one motor a file"},
		{"too many dotted keys", strings.Repeat("a.a.a.a=1\n", 5_000) + "¶a.a.a.a=1\n" + strings.Repeat("a.a.a.a=1\n", 50_000), "more than 20000 names", "one motor a file"},
		{"too many arrays", "x=[" + strings.Repeat("[],\n", 19_998) + "¶[],\n" + strings.Repeat("[],\n", 150_000) + "]", "more than 20000 names", "one motor a file"},
		{"too many inline tables", "x=[" + strings.Repeat("{},\n", 19_998) + "¶{},\n" + strings.Repeat("{},\n", 150_000) + "]", "more than 20000 names", "one motor a file"},

		{"8 KiB of dots", "b = 1\n¶" + strings.Repeat("a.", 4096) + "a = 1", "more than 32 dots", "header"},
		{name: "32 dots", text: strings.Repeat("a.", 32) + "a = 1"},
		{"33 dots", "¶" + strings.Repeat("a.", 33) + "a = 1", "more than 32 dots", "header"},
		{"33 dots in a header", "[[ ¶" + strings.Repeat("a . ", 33) + "a]]", "more than 32 dots", "header"},
		{"33 dots in quoted parts", "¶" + strings.Repeat("'a'.", 33) + "a = 1", "more than 32 dots", "header"},
		{name: "32 dots with the header", text: "[" + strings.Repeat("a.", 16) + "a]\n" + strings.Repeat("b.", 15) + "b=1"},
		{"33 dots with the header", "[" + strings.Repeat("a.", 16) + "a]\n¶" + strings.Repeat("b.", 16) + "b=1", "more than 32 dots", "header"},
		{"33 dots with inline tables", "a = {b = {\n¶" + strings.Repeat("c.", 31) + "c=1}}", "more than 32 dots", "header"},
		{name: "dots in strings and comments", text: "'" + strings.Repeat(".", 99) + "' = \"" + strings.Repeat(".", 99) + "\" # " + strings.Repeat(".a", 99)},
		{name: "dots in a value of many lines", text: "a = '''\n" + strings.Repeat("a.", 99) + "a = 1\n'''"},
		{name: "a key of 1024 bytes", text: strings.Repeat("a", 1024) + " = 1"},
		{"a key of 1025 bytes", "¶" + strings.Repeat("a", 1025) + " = 1", "longer than 1024 bytes", "known keys"},
		{"a key of 1025 bytes with the header", "[" + strings.Repeat("a", 1024) + "]\n¶b = 1", "longer than 1024 bytes", "known keys"},

		{name: "32 arrays deep", text: nested(16, "[[", "", "]]")},
		{"33 arrays deep", nested(16, "[[", "¶[]", "]]"), "more than 32 deep", "brackets"},
		{"open arrays", "b = 1\na = " + strings.Repeat("[", 32) + "¶" + strings.Repeat("[", 1_000_000), "more than 32 deep", "brackets"},
		{name: "open headers", text: strings.Repeat("[", 1_000_000)}, // The decoder stops at the third bracket.
		{name: "32 inline tables deep", text: nested(32, "{a=", "1", "}")},
		{"33 inline tables deep", nested(32, "{a=", "¶{}", "}"), "more than 32 deep", "brackets"},
		{"33 of both deep", nested(16, "[{a=", "¶[]", "}]"), "more than 32 deep", "brackets"},

		{"UTF-16LE with a mark", "¶\xFF\xFEa\x00 \x00=\x00", "UTF-16", "save it as UTF-8"},
		{"UTF-16BE with a mark", "¶\xFE\xFF\x00a\x00 \x00=", "UTF-16", "save it as UTF-8"},
		{"UTF-16LE without", "¶#\x00 \x00\x14\x20\xB0\x00\n\x00", "UTF-16", "save it as UTF-8"},
		{"UTF-16LE without, half of it Greek", "¶a\x00b\x00 \x00=\x00\xB1\x03\xB2\x03\xB3\x03\xB4\x03", "UTF-16", "save it as UTF-8"},
		{"UTF-16BE without", "¶\x00#\x00 \x20\x14\x00\xB0\x00\n", "UTF-16", "save it as UTF-8"},
		{"a mark of UTF-16 before UTF-8", "¶\xFF\xFEformat = 1", "UTF-16", "save it as UTF-8"},
		{"NUL bytes", "format = 1\n°¶\x00\x00\x00", "NUL", "UTF-8"},
		{"one NUL byte", "a¶\x00", "NUL", "UTF-8"},
		{"only NUL bytes", "¶" + strings.Repeat("\x00", 999), "NUL", "UTF-8"},
		{"a picture", "¶\x89PNG\r\n\x1A\n\x00\x00\x00\rIHDR", "NUL", "UTF-8"},
		{"a control character", "a = 1\n b = \"¶\x1B[0m\"", "control character 0x1B", "delete"},
		{"delete", "# ¶\x7F", "control character 0x7F", "delete"},
		{"line ends of CR", "a = 1¶\rb = 1\r", "carriage return", "CRLF"},
		{"CR at the end", "a = 1\r\n¶\r", "carriage return", "CRLF"},
		{"Latin-1", "a = 1\nb = \"°, then 90 ¶\xB0C\"\n", `0xB0 is not UTF-8 ('°' in Latin-1)`, "save the file as UTF-8"},
		{"Latin-1 after a mark", "\uFEFFa = \"¶\xB1\"", `'±' in Latin-1`, "save the file as UTF-8"},
		{"Windows-1252", "# ¶\x96", "0x96 is not UTF-8", "save the file as UTF-8"},
		{"a rune cut short", "# ¶\xE2\x82", "0xE2 is not UTF-8", "save the file as UTF-8"},
	} {
		t.Run(test.name, func(t *testing.T) {
			var line, column int
			before, after, marked := strings.Cut(test.text, "¶")
			if marked {
				line, column = lineAndColumn(before)
			}
			err := Check([]byte(before + after))
			var got *Fault
			switch {
			case test.message == "":
				if err != nil {
					t.Errorf("refused: %v", err)
				}
			case !errors.As(err, &got):
				t.Errorf("got %v, expected a *Fault", err)
			case got.Line != line || got.Column != column ||
				!strings.Contains(got.Message, test.message) || !strings.Contains(got.Write, test.write):
				t.Errorf("got %d:%d %q; %q, expected at %d:%d", got.Line, got.Column, got.Message, got.Write, line, column)
			}
		})
	}
}

func TestTextErrorWords(t *testing.T) {
	for text, want := range map[string]string{
		"a = 1\n# \xB0":               `line 2: the byte 0xB0 is not UTF-8 ('°' in Latin-1); save the file as UTF-8`,
		"# \x96":                      `line 1: the byte 0x96 is not UTF-8; save the file as UTF-8`,
		strings.Repeat("\n", 1<<20+1): `the file has 1048577 bytes, more than 1048576 (1 MiB); write one motor a file`,
	} {
		if err := Check([]byte(text)); err == nil || err.Error() != want {
			t.Errorf("got %v, want %v", err, want)
		}
	}
}

// FuzzPlaces holds that no text makes the check or the scan panic, and that
// every text which is let through and decodes has its places.
func FuzzPlaces(f *testing.F) {
	for _, seed := range []string{
		"\uFEFFformat = 1\r\n[[end]]\r\n[end.seal]\r\nsize = '''a'''",
		"\xFF\xFEa = 1",
		"\xFE\xFFa\t=\t1",
		"a.b.\"c\\e\" = [{x = 1, y = \"\"\"\"z\\\"\"\"\"\"\"}, [{}], # c\n]",
		"a = {\n b.c = 1979-05-27 07:32:00 ,\n }\n'' = 0x1F",
		"[[x.a]]\n[x]\na.b = 1",
		"a = []\na.b = ''",
		"a = [{b = 1}]\na.c = 2",
		"a = {b = [{}], b.c = 1}",
		"\"\\\\\"=\"\"\"\\\\\"\"\"\"\"\"",
		strings.Repeat("a.", 40) + "a = " + strings.Repeat("[", 40) + strings.Repeat("]", 40),
	} {
		f.Add([]byte(seed))
	}
	f.Fuzz(func(t *testing.T, text []byte) {
		refused := Check(text)
		if refused != nil && len(text) > 4096 {
			return // What takes the decoder too long is refused for that.
		}
		var document map[string]any
		meta, err := toml.Decode(string(text), &document)
		if err != nil {
			return
		}
		list := Keys(text, meta)
		if list == nil {
			if refused == nil {
				t.Errorf("no places for %d keys", len(meta.Keys()))
			}
			return
		}
		checkPlaces(t, text, meta, list)
		for _, p := range list {
			if _, err := toml.Decode("value = "+p.Value, &document); err != nil && p.Value != "" {
				t.Errorf("value of %s, %q: %v", p.Key, p.Value, err)
			}
		}
	})
}
