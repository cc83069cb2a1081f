package pdf

// Shares divides a width among columns.
var Shares = shares

// measure is a file that is not written.
var measure = newWriter("")

// Wrap breaks a text into lines of a width, of letters 1 mm high, mm.
func Wrap(text string, width float64) (lines []string) {
	t := measure.shape(text, regular)
	for _, s := range t.wrap(width) {
		lines = append(lines, t.Line(s.from, s.to))
	}
	return lines
}

// Width is that of a text in one line, of letters 1 mm high, mm.
func Width(text string) float64 {
	t := measure.shape(text, regular)
	return t.width(0, len(t.Runes))
}
