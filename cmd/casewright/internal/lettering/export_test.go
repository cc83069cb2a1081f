package lettering

// Levels are the levels of embedding of a paragraph, and its own.
var Levels = levels

// Visual gives one line of text in the order of paper, before letters are
// joined.
func Visual(text string) string {
	runes := []rune(text)
	l, base := levels(runes)
	reorder(runes, l, base)
	return string(runes)
}

// Join gives the shapes of Arabic letters.
func Join(text string) string { return string(join([]rune(text))) }
