package pdf

import "unicode"

// A span is the runes of one line, without the blanks at its end.
type span struct{ from, to int }

// wrap breaks a text into lines no wider than limit, in units of the height of
// its letters; after blanks, and within a word only where it is wider than a
// line. There is at least one line, and a rune at least in each further one.
func (t *shaped) wrap(limit float64) (lines []span) {
	start, after, width := 0, 0, 0.0 // after is the place after the last blank
	for i, r := range t.Runes {
		if r == ' ' {
			width += t.widths[i]
			after = i + 1
			continue
		}
		for width+t.widths[i] > limit && i > start {
			cut := after
			if cut <= start {
				cut = t.letter(start, i)
			}
			lines = append(lines, t.trim(start, cut))
			start = cut
			width = t.width(start, i)
		}
		width += t.widths[i]
	}
	return append(lines, t.trim(start, len(t.Runes)))
}

// letter is the place of the letter that the marks at place i stand on; i itself
// if that letter is the first of the line.
func (t *shaped) letter(start, i int) int {
	at := i
	for at > start && unicode.Is(unicode.M, t.Runes[at]) {
		at--
	}
	if at == start {
		return i
	}
	return at
}

func (t *shaped) trim(from, to int) span {
	for to > from && t.Runes[to-1] == ' ' {
		to--
	}
	return span{from, to}
}

// widest gives the width of the widest word and of the whole text, in units of
// the height of its letters.
func (t *shaped) widest() (word, all float64) {
	run := 0.0
	for i, r := range t.Runes {
		run += t.widths[i]
		if r == ' ' {
			run = 0
		}
		word = max(word, run)
		all += t.widths[i]
	}
	return word, all
}
