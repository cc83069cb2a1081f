package shell

import (
	"os/exec"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// breaks are those of bash 5, its manual under COMP_WORDBREAKS.
const breaks = " \t\n\"'@><=;|&(:"

// TestBash holds where a line is split and which part of the word under the
// cursor bash replaces. That bash does so is tested by typing, in .ci/shells.
func TestBash(t *testing.T) {
	for _, c := range []struct {
		line  string
		words []string
		kept  int
		quote byte
	}{
		{"casewright ", []string{"casewright", ""}, 0, 0},
		{"casewright  ch", []string{"casewright", "ch"}, 0, 0},
		{`c 'a b' "c d"`, []string{"c", "a b", "c d"}, 0, 0},
		{`c a\ b`, []string{"c", "a b"}, 0, 0},
		{`c "a b`, []string{"c", "a b"}, 0, '"'},
		{`c "a \"b\" \x`, []string{"c", `a "b" \x`}, 0, '"'},
		{`c 'a \`, []string{"c", `a \`}, 0, '\''},
		{`c --format=js`, []string{"c", "--format=js"}, 9, 0},
		{`c --material="60 6`, []string{"c", "--material=60 6"}, 11, '"'},
		{`c --material=60\ 6`, []string{"c", "--material=60 6"}, 11, 0},
		{`c --a="b c" d`, []string{"c", "--a=b c", "d"}, 0, 0},
		{`c a\=b`, []string{"c", "a=b"}, 0, 0},
		{`c ±0.2`, []string{"c", "±0.2"}, 0, 0},
		{`c ""`, []string{"c", ""}, 0, 0},
		{``, []string{""}, 0, 0},
	} {
		words, last := Bash(c.line, breaks)
		if !slices.Equal(words, c.words) || last.kept != c.kept || last.quote != c.quote {
			t.Errorf("%q: %q, %+v; want %q, %d, %q", c.line, words, last, c.words, c.kept, c.quote)
		}
	}
}

// completed is the line after the only candidate is put on it, as bash does:
// it replaces what follows the kept part and closes the quotes.
func completed(text string, quote byte) string {
	w := Word{quote: quote}
	line := w.quoted(text)
	if quote != 0 {
		line = string(quote) + line + string(quote)
	}
	return line
}

// TestQuoted holds that any text comes back whole through its quotes.
func TestQuoted(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.StringMatching(`[ -~±°é]{1,20}`).Draw(t, "text")
		quote := rapid.SampledFrom([]byte{0, '"', '\''}).Draw(t, "quote")
		line := completed(text, quote)
		if words, _ := Bash("c "+line, breaks); len(words) != 2 || words[1] != text {
			t.Fatalf("%q as %s comes back as %q", text, line, words)
		}
	})
}

// TestQuotedBash holds the same of bash itself. An exclamation mark is left
// out: what it does on a terminal no quote of this kind stops.
func TestQuotedBash(t *testing.T) {
	bash, err := exec.LookPath("bash")
	if err != nil {
		t.Skip(err)
	}
	texts := []string{"6061-T6 drawn tube", "#10-24 UNC", `1/8-27 "NPT" (taper)`, "it's", `a\b $x ~y`, "*?[a]{b,c}", "~root", "a;b|c&d<e>f", "`id`$(id)", "±0.2 mm", "-x", "x=y:z@q%^"}
	for _, text := range texts {
		for _, quote := range []byte{0, '"', '\''} {
			line := completed(text, quote)
			out, err := exec.Command(bash, "-c", "set -- "+line+`; printf %s "$1"`).Output()
			if err != nil || string(out) != text {
				t.Errorf("%q as %s comes out of bash as %q, %v", text, line, out, err)
			}
		}
	}
}

// TestWrite holds what is left of the candidates, and the list with help.
func TestWrite(t *testing.T) {
	list := []Candidate{{"--format=table", "a table"}, {"--format=json", "one line\nof JSON, with a help too long for so narrow a list"}, {"--other", ""}}
	for _, c := range []struct {
		line    string
		columns int
		want    string
	}{
		{"c --format=", 0, "table\njson\n"},
		{"c --FORMAT=j", 0, "json\n"},
		{"c --format=", 30, "table  a table\njson   one line of JSON, wi…\n"},
		{"c --format=j", 30, "json\n"},
		{"c --x", 0, ""},
	} {
		var b strings.Builder
		_, w := Bash(c.line, breaks)
		if err := w.Write(&b, list, c.columns); err != nil || b.String() != c.want {
			t.Errorf("%s: %q, %v; want %q", c.line, b.String(), err, c.want)
		}
	}
}

// TestOthers holds what zsh and fish get.
func TestOthers(t *testing.T) {
	list := []Candidate{{`a:b\c`, "help: this"}, {"plain", ""}}
	var z, f strings.Builder
	if err := Zsh(&z, list); err != nil || z.String() != "a\\:b\\\\c:help: this\nplain\n" {
		t.Errorf("zsh: %q, %v", z.String(), err)
	}
	if err := Fish(&f, list, "A:"); err != nil || f.String() != "a:b\\c\thelp: this\n" {
		t.Errorf("fish: %q, %v", f.String(), err)
	}
	if got := Unquoted(`"6061-T6 dr`); got != "6061-T6 dr" {
		t.Errorf("unquoted: %q", got)
	}
}

// TestScript holds that there is a script for each shell, and none for others.
func TestScript(t *testing.T) {
	for _, name := range []string{"bash", "zsh", "fish"} {
		if text, err := Script(name); err != nil || !strings.Contains(text, "complete --shell="+name) {
			t.Errorf("%s: %q, %v", name, text, err)
		}
	}
	if text, err := Script("csh"); err == nil {
		t.Errorf("a script for csh: %q", text)
	}
}

// FuzzBash holds that no line upsets the reader.
func FuzzBash(f *testing.F) {
	f.Add(`c --a="b`, breaks)
	f.Add("\\", "")
	f.Fuzz(func(t *testing.T, line, breaks string) {
		words, last := Bash(line, breaks)
		if len(words) == 0 || words[len(words)-1] != last.text || last.kept > len(last.text) {
			t.Errorf("%q: %q, %+v", line, words, last)
		}
		if err := last.Write(&strings.Builder{}, []Candidate{{last.text + "x", "y"}}, 20); err != nil {
			t.Error(err)
		}
	})
}
