package live

import (
	"fmt"
	"io"
	"slices"
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"

	"pgregory.net/rapid"

	"casewright"
)

// written is an excerpt as text, on 40 columns.
func written(list []Excerpt) string {
	t := Terminal{Signs: func(s string) string { return s }}
	return strings.Join(t.Faults(list, 40), "\n") + "\n"
}

// TestExcerpt holds which lines are shown round a fault, and how.
func TestExcerpt(t *testing.T) {
	text := []byte("one\ntwo\n\tthree = 3\nfour\nfive\nsix\nseven\neight")
	for _, c := range []struct {
		name   string
		faults casewright.Errors
		want   string
	}{
		{"in the middle", casewright.Errors{{File: "f", Line: 3, Column: 2, Message: "no", Write: "four"}}, `f: 1 fault
    2 | two
    3 |  three = 3
      |  ^
        no; write four
    4 | four
`},
		{"first and last, out of order", casewright.Errors{{File: "f", Line: 8, Message: "last"}, {File: "f", Line: 1, Message: "first"}}, `f: 2 faults
    1 | one
        first
    2 | two
      ...
    7 | seven
    8 | eight
        last
`},
		{"two that share lines", casewright.Errors{{File: "f", Line: 4, Message: "a"}, {File: "f", Line: 5, Message: "b"}, {File: "f", Line: 5, Message: "c"}}, `f: 3 faults
    3 |  three = 3
    4 | four
        a
    5 | five
        b
        c
    6 | six
`},
		{"without a place", casewright.Errors{{File: "f", Message: "there is no such file"}}, `f: 1 fault
        there is no such file
`},
		{"behind the end", casewright.Errors{{File: "f", Line: 9, Column: 1, Message: "missing"}}, `f: 1 fault
    8 | eight
    9 | 
        missing
`},
		{"in two files", casewright.Errors{{File: "g", Line: 1, Message: "x"}, {File: "f", Line: 1, Message: "y"}}, `g: 1 fault
    1 | g
        x
f: 1 fault
    1 | one
        y
    2 | two
`},
		{"a column behind the line", casewright.Errors{{File: "f", Line: 1, Column: 99, Message: "x"}}, `f: 1 fault
    1 | one
        x
    2 | two
`},
		{"a word too long", casewright.Errors{{File: "f", Line: 8, Message: "a " + strings.Repeat("x", 40) + " b"}}, `f: 1 fault
    7 | seven
    8 | eight
        a
        ` + strings.Repeat("x", 32) + `
        ` + strings.Repeat("x", 8) + ` b
`},
		{"long", casewright.Errors{{File: "f", Line: 1, Message: "this is more than stands on one line of forty"}}, `f: 1 fault
    1 | one
        this is more than stands on one
        line of forty
    2 | two
`},
	} {
		if got := written(Excerpts(c.faults, map[string][]byte{"f": text, "g": []byte("g")})); got != c.want {
			t.Errorf("%s:\n%s\nwant\n%s", c.name, got, c.want)
		}
	}
}

// TestManyFaults holds that a file full of faults does not fill the page, and
// that those left out are counted.
func TestManyFaults(t *testing.T) {
	var faults casewright.Errors
	for i := range 1000 {
		faults = append(faults, &casewright.Error{File: "f", Line: i + 1, Message: fmt.Sprint("fault ", i)})
	}
	text := []byte(strings.Repeat("x\n", 1000))
	list := Excerpts(faults, map[string][]byte{"f": text})
	got := written(list)
	if n := strings.Count(got, "fault "); n != mostFaults || !strings.Contains(got, "f: 1000 faults") || !strings.Contains(got, "... and 960 more") {
		t.Errorf("%d faults:\n%s", n, got)
	}
	html, err := (&View{Faults: list, Stale: true}).frame(1)
	if err != nil || !strings.Contains(string(html), "… and 960 more.") {
		t.Errorf("%v: %s", err, html)
	}
}

// TestEveryFaultShown holds for any text and any places that each fault is told
// once, beside its own line and its neighbours, which stand in order.
func TestEveryFaultShown(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		count := rapid.IntRange(0, 12).Draw(t, "lines")
		text := ""
		for i := range count {
			text += fmt.Sprintf("text %d\n", i+1)
		}
		var faults casewright.Errors
		for i := range rapid.IntRange(1, 8).Draw(t, "faults") {
			faults = append(faults, &casewright.Error{
				File: "f", Line: rapid.IntRange(0, 15).Draw(t, "line"), Column: rapid.IntRange(0, 9).Draw(t, "column"), Message: fmt.Sprintf("fault %d.", i),
			})
		}
		x := Excerpts(faults, map[string][]byte{"f": []byte(text)})[0]
		told := map[string]int{}
		var numbers []int
		for _, l := range x.Lines {
			if l.Number > 0 {
				numbers = append(numbers, l.Number)
				if want := fmt.Sprintf("text %d", l.Number); l.Number <= count && l.Text != want {
					t.Errorf("line %d is %q", l.Number, l.Text)
				}
			}
			for _, e := range l.Faults {
				told[e.Message]++
				if e.Line != l.Number {
					t.Errorf("%s of line %d stands at %d", e.Message, e.Line, l.Number)
				}
			}
		}
		if !slices.IsSorted(numbers) {
			t.Errorf("lines %v", numbers)
		}
		for _, e := range faults {
			if told[e.Message] != 1 {
				t.Errorf("%s is told %d times", e.Message, told[e.Message])
			}
			for n := max(1, e.Line-around); n <= min(count, e.Line+around) && e.Line > 0; n++ {
				if !slices.Contains(numbers, n) {
					t.Errorf("line %d beside %d is not shown", n, e.Line)
				}
			}
		}
	})
}

// FuzzExcerpt holds that what a file has in it neither commands a terminal nor
// becomes part of the page, and that a place in the line stays that place.
func FuzzExcerpt(f *testing.F) {
	f.Add([]byte("a = \"\x1b[2J\x1b]0;title\a\"\n"), 1, 2, "no")
	f.Add([]byte("<script>alert(1)</script>\r\n\u202eb\n\xff\xfe"), 2, 1, "<img src=x onerror=alert(1)>")
	f.Add([]byte(strings.Repeat("x", 3*mostRunes)), 1, mostRunes+1, "\x1b")
	f.Add([]byte{}, 0, 0, "")
	f.Fuzz(func(t *testing.T, text []byte, line, column int, message string) {
		faults := casewright.Errors{{File: "f", Line: line, Column: column, Message: message}}
		list := Excerpts(faults, map[string][]byte{"f": text})
		for _, l := range list[0].Lines {
			if i := strings.IndexFunc(l.Text, func(r rune) bool { return r != ' ' && !unicode.IsPrint(r) && r != '\uFFFD' }); i >= 0 {
				t.Errorf("%q is shown", l.Text[i:])
			}
			if utf8.RuneCountInString(l.Text) > mostRunes+1 {
				t.Errorf("a line of %d signs", utf8.RuneCountInString(l.Text))
			}
			if caret := l.Caret(faults[0]); caret != "" && len(caret) != column {
				t.Errorf("the caret for %d stands at %d", column, len(caret))
			}
		}
		for _, l := range (&Terminal{Signs: func(s string) string { return s }}).Faults(append(list, Excerpt{File: message}), 60) {
			if strings.ContainsFunc(l, unicode.IsControl) || utf8.RuneCountInString(l) > 60 && !strings.HasSuffix(l, " fault") && !strings.HasSuffix(l, " faults") {
				t.Errorf("a terminal gets %q", l)
			}
		}
		html, err := (&View{File: "f", Title: message, Faults: list}).frame(1)
		if err != nil {
			t.Fatal(err)
		}
		plain, err := (&View{File: "f", Title: "t", Faults: Excerpts(casewright.Errors{{File: "f", Line: line, Column: column, Message: "m"}}, map[string][]byte{"f": []byte(strings.Repeat("\n", strings.Count(string(text), "\n")+1))})}).frame(1)
		if err != nil {
			t.Fatal(err)
		}
		if count := func(b []byte) int { return strings.Count(string(b), "<script") + strings.Count(string(b), "<img") }; count(html) != count(plain) {
			t.Errorf("text becomes part of the page: %s", html)
		}
	})
}

// TestDraw holds what is drawn where there is little room: the fault and the
// verdict, and no more lines than there are.
func TestDraw(t *testing.T) {
	table := "head\n" + strings.Repeat("row\n", 30) + "\nVERDICT\nfirst\nlast\n"
	faults := Excerpts(casewright.Errors{{File: "f", Line: 1, Message: "no"}}, map[string][]byte{"f": []byte("one\ntwo\nthree\n")})
	for _, c := range []struct {
		faults []Excerpt
		stale  bool
		rows   int
		want   []string
	}{
		{nil, false, 0, []string{"head", "VERDICT", "last"}},
		{nil, false, 60, []string{"head", "VERDICT", "last"}},
		{nil, false, 12, []string{"head", "row", "left out", "VERDICT", "first", "last"}},
		{nil, false, 4, []string{"head", "left out", "VERDICT", "last"}},
		{nil, false, 3, []string{"head", "left out", "VERDICT"}},
		{faults, true, 60, []string{"f: 1 fault", "no", "As it last read well:", "head", "VERDICT"}},
		{faults, true, 14, []string{"f: 1 fault", "no", "As it last read well:", "head", "left out", "VERDICT", "last"}},
		{faults, false, 14, []string{"f: 1 fault", "no", "head", "left out", "VERDICT", "last"}},
	} {
		var b strings.Builder
		term := Terminal{To: &b, Signs: func(s string) string { return s }}
		if err := term.Draw(c.faults, table, c.stale, 80, c.rows); err != nil {
			t.Fatal(err)
		}
		got := b.String()
		if n := strings.Count(got, "\n") + 1; c.rows > 0 && n > c.rows {
			t.Errorf("%+v: %d lines:\n%s", c, n, got)
		}
		at := 0
		for _, want := range c.want {
			i := strings.Index(got[at:], want)
			if i < 0 {
				t.Errorf("rows %d: no %q from %d on:\n%s", c.rows, want, at, got)
				break
			}
			at += i
		}
		if !strings.HasPrefix(got, home) || !strings.HasSuffix(got, below) || strings.Contains(got, "As it last") != c.stale {
			t.Errorf("%q", got)
		}
	}
	for rows := 1; rows < 45; rows++ { // never more than there is room for
		var b strings.Builder
		term := Terminal{To: &b, Signs: func(s string) string { return s }}
		if err := term.Draw(faults, table, true, 80, rows); err != nil {
			t.Fatal(err)
		}
		if n := strings.Count(b.String(), "\n") + 1; n > rows {
			t.Errorf("%d lines on %d rows", n, rows)
		}
	}
	if err := (&Terminal{To: broken{}, Signs: func(s string) string { return s }}).Draw(nil, table, false, 80, 0); err == nil {
		t.Error("a fault of writing is lost")
	}
}

type broken struct{}

func (broken) Write([]byte) (int, error) { return 0, io.ErrClosedPipe }
