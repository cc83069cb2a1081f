package lettering

import (
	"unicode"

	"golang.org/x/text/unicode/norm"
)

const (
	nonJoiner = '\u200C'
	joiner    = '\u200D'
	tatweel   = '\u0640' // the line that lengthens a joint
)

// forms holds, for an Arabic letter or for lam with alef, its shapes in the
// order in which Unicode lists them: isolated, final and, for a letter that
// joins on both sides, initial and medial.
var forms = arabicForms()

func arabicForms() map[string][]rune {
	m := map[string][]rune{}
	for _, block := range [][2]rune{{0xFB50, 0xFBB1}, {0xFBD3, 0xFBE5}, {0xFBFC, 0xFBFF}, {0xFE80, 0xFEFC}} {
		for r := block[0]; r <= block[1]; r++ {
			if unicode.IsLetter(r) {
				base := norm.NFKC.String(string(r))
				m[base] = append(m[base], r)
			}
		}
	}
	return m
}

// A letter is a rune and the shapes that it may take.
type letter struct {
	r      rune
	shapes []rune
}

// before and after tell whether a letter joins the one before it, the one
// after it.
func (l letter) before() bool { return len(l.shapes) >= 2 || l.r == tatweel || l.r == joiner }
func (l letter) after() bool  { return len(l.shapes) == 4 || l.r == tatweel || l.r == joiner }

// join gives the Arabic letters of a text in the order of reading the shapes
// that they take beside each other.
func join(text []rune) []rune {
	letters := lettersOf(text)
	out := make([]rune, len(letters))
	last := letter{} // the last that is no mark over or under another
	for i, l := range letters {
		out[i] = l.r
		if mark(l.r) {
			continue
		}
		shape := 0
		if last.after() && l.before() {
			shape = 1
		}
		if l.after() && next(letters[i+1:]).before() {
			shape += 2
		}
		if shape < len(l.shapes) {
			out[i] = l.shapes[shape]
		}
		last = l
	}
	return out
}

// lettersOf takes lam and alef together, which stand in one shape.
func lettersOf(text []rune) []letter {
	var letters []letter
	for i := 0; i < len(text); i++ {
		if i+1 < len(text) && text[i] == '\u0644' {
			if pair := forms[string(text[i:i+2])]; pair != nil {
				letters = append(letters, letter{text[i], pair})
				i++
				continue
			}
		}
		letters = append(letters, letter{text[i], forms[string(text[i])]})
	}
	return letters
}

// next is the first letter that is no mark, or none.
func next(letters []letter) letter {
	for _, l := range letters {
		if !mark(l.r) {
			return l
		}
	}
	return letter{}
}

func mark(r rune) bool { return unicode.In(r, unicode.Mn, unicode.Me) }
