package drawing

import (
	"fmt"
	"strconv"
	"strings"

	"casewright/bench"
)

// A Beside is what is written beside a strip or a ring.
type Beside struct {
	Motor  string
	Fails  string // "FAILS" or "IS REFUSED" where the design does not pass
	File   string // base name of the design file
	SHA256 [32]byte
	bench.Ruler
}

// from tells of which state of which file this is.
func (b Beside) from() string {
	return fmt.Sprintf("From %s, SHA-256 %x…", clip(b.File, 60), b.SHA256[:6])
}

// degrees is an angle to the thousandth of a degree, without needless zeros.
func degrees(angle float64) string {
	text := strconv.FormatFloat(angle, 'f', 3, 64)
	return strings.TrimSuffix(strings.TrimRight(text, "0"), ".") + "°"
}

// clip shortens a text to so many letters.
func clip(text string, most int) string {
	letters := []rune(text)
	if len(letters) <= most {
		return text
	}
	return string(letters[:most-1]) + "…"
}

// lines breaks texts at blanks into lines of at most a width, mm, at a size of
// letters, mm. Each text begins a line; an empty text has none.
func lines(texts []string, width, size float64) (list []string) {
	for _, text := range texts {
		line := ""
		for _, word := range strings.Fields(text) {
			switch {
			case line == "":
				line = word
			case TextWidth(line+" "+word, size) > width:
				list = append(list, line)
				line = word
			default:
				line += " " + word
			}
		}
		if line != "" {
			list = append(list, line)
		}
	}
	return list
}
