// Package lettering brings text into the letters and the order of paper: Arabic
// letters take the shapes in which they join, and what is read from right to
// left stands so beside what is read from left to right.
package lettering

import (
	"slices"
	"strings"
	"unicode"

	"golang.org/x/text/unicode/norm"
)

// A Text has its runes in the order of reading; each line of it is put into the
// order of paper by [Text.Line].
type Text struct {
	Runes  []rune // any of them may be replaced by one of the same direction
	levels []int  // of embedding, nil where all are 0
	base   int    // level of the paragraph
}

// Shape cleans a text and gives it in the shapes of its letters.
func Shape(text string) Text {
	in := []rune(Clean(text))
	if !slices.ContainsFunc(in, rightToLeft) {
		return Text{Runes: unjoined(in)}
	}
	t := Text{Runes: unjoined(join(in))}
	t.levels, t.base = levels(t.Runes)
	for i, r := range t.Runes {
		if m, ok := mirror[r]; ok && t.levels[i]%2 == 1 {
			t.Runes[i] = m
		}
	}
	return t
}

// Line gives runes i to j as one line in the order of paper.
func (t *Text) Line(i, j int) string {
	runes := slices.Clone(t.Runes[i:j])
	if t.levels != nil {
		reorder(runes, slices.Clone(t.levels[i:j]), t.base)
	}
	return string(runes)
}

// Clean makes of any text one of whole runes up to U+FFFF, the most that a PDF's
// fonts take, with blanks for whatever ends lines or controls, and no marks that
// are not seen, except those by which Arabic letters join or do not.
func Clean(text string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case r > 0xFFFF:
			return unicode.ReplacementChar
		case unicode.In(r, unicode.Cc, unicode.Zl, unicode.Zp):
			return ' '
		case unicode.Is(unicode.Cf, r) && r != joiner && r != nonJoiner:
			return -1
		}
		return r
	}, norm.NFC.String(strings.ToValidUTF8(text, string(unicode.ReplacementChar))))
}

// unjoined leaves out the marks that have done their work when letters are
// joined.
func unjoined(text []rune) []rune {
	return slices.DeleteFunc(text, func(r rune) bool { return r == joiner || r == nonJoiner })
}
