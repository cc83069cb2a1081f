package live

import (
	"bytes"
	"cmp"
	"fmt"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"casewright"
)

// An Excerpt is the lines of a file round what is wrong with it.
type Excerpt struct {
	File         string
	Lines        []Line
	Faults, More int // how many there are, and how many of them are left out
}

// A Line is one line of a file, and what is wrong there. What has no place is
// wrong in line 0, which has no text; a line without a number stands for those
// that are left out.
type Line struct {
	Number int
	Text   string
	Faults []*casewright.Error
}

const (
	mostFaults = 40  // that an excerpt tells
	mostRunes  = 200 // of a line
	around     = 1   // lines before and after
)

// Excerpts are those of each file, in the order of its first fault; texts are
// what the files hold.
func Excerpts(faults casewright.Errors, texts map[string][]byte) (list []Excerpt) {
	var files []string
	of := map[string]casewright.Errors{}
	for _, e := range faults {
		if of[e.File] == nil {
			files = append(files, e.File)
		}
		of[e.File] = append(of[e.File], e)
	}
	for _, file := range files {
		list = append(list, excerpt(file, of[file], texts[file]))
	}
	return list
}

func excerpt(file string, faults casewright.Errors, text []byte) Excerpt {
	x := Excerpt{File: file, Faults: len(faults), More: max(0, len(faults)-mostFaults)}
	faults = slices.Clone(faults)
	slices.SortStableFunc(faults, func(a, b *casewright.Error) int { return cmp.Compare(a.Line, b.Line) })
	at := map[int][]*casewright.Error{}
	for _, e := range faults[:len(faults)-x.More] {
		at[e.Line] = append(at[e.Line], e)
	}
	if at[0] != nil {
		x.Lines = append(x.Lines, Line{Faults: at[0]})
	}
	last := 0
	number := 0
	for line := range bytes.Lines(text) {
		number++
		near := false
		for n := number - around; n <= number+around; n++ {
			near = near || n > 0 && at[n] != nil
		}
		if !near {
			continue
		}
		if number > last+1 && last > 0 {
			x.Lines = append(x.Lines, Line{})
		}
		last = number
		x.Lines = append(x.Lines, Line{Number: number, Text: shown(line), Faults: at[number]})
	}
	// A fault may stand behind the last line, and is never left out.
	for _, e := range faults[:len(faults)-x.More] {
		if e.Line > number && at[e.Line] != nil {
			x.Lines = append(x.Lines, Line{Number: e.Line, Faults: at[e.Line]})
			delete(at, e.Line)
		}
	}
	return x
}

// shown is a line as it can be shown anywhere, and no longer than that.
func shown(line []byte) string {
	text := printable(strings.TrimRight(string(line), "\r\n"))
	if utf8.RuneCountInString(text) > mostRunes {
		text = string([]rune(text)[:mostRunes]) + "…"
	}
	return text
}

// printable is a text that can be shown anywhere, one sign for each of its own: a
// terminal obeys some signs, and no page may hold them.
func printable(text string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case unicode.IsPrint(r):
			return r
		case unicode.IsSpace(r):
			return ' '
		}
		return '\uFFFD'
	}, strings.ToValidUTF8(text, "\uFFFD"))
}

// Title tells of what the excerpt is.
func (x Excerpt) Title() string {
	count := "1 fault"
	if x.Faults != 1 {
		count = fmt.Sprintf("%d faults", x.Faults)
	}
	return printable(x.File) + ": " + count
}

// Caret points, under the line, to the place of a fault; empty where it has none
// within what is shown of the line.
func (l Line) Caret(e *casewright.Error) string {
	if l.Text == "" || e.Column < 1 || e.Column > utf8.RuneCountInString(l.Text)+1 {
		return ""
	}
	return strings.Repeat(" ", e.Column-1) + "^"
}
