package pdf

// Levels are the levels of embedding of a paragraph, and its own.
var Levels = levels

// Visual gives one line of text in the order of paper, before letters are
// joined and what a font lacks is replaced.
func Visual(text string) string {
	runes := []rune(text)
	l, base := levels(runes)
	reorder(runes, l, base)
	return string(runes)
}

// Join gives the shapes of Arabic letters.
func Join(text string) string { return string(join([]rune(text))) }

// Clean makes a text one that can be written.
var Clean = clean

// Shares divides a width among columns.
var Shares = shares

// measure is a file that is not written.
var measure = newWriter("")

// Wrap breaks a text into lines of a width, of letters 1 mm high, mm.
func Wrap(text string, width float64) (lines []string) {
	t := measure.shape(text, regular)
	for _, s := range t.wrap(width) {
		lines = append(lines, t.line(s.from, s.to))
	}
	return lines
}

// Width is that of a text in one line, of letters 1 mm high, mm.
func Width(text string) float64 {
	t := measure.shape(text, regular)
	return t.width(0, len(t.runes))
}
