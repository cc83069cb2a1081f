package drawing

import (
	"strings"
	"sync"
	"unicode/utf8"

	"github.com/go-fonts/dejavu/dejavusans"
	"github.com/go-fonts/dejavu/dejavusansbold"
	"golang.org/x/image/font"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
)

// typefaces are the fonts, regular and bold, of all that is printed.
var typefaces = sync.OnceValues(func() (list [2]*sfnt.Font, err error) {
	for i, data := range [][]byte{dejavusans.TTF, dejavusansbold.TTF} {
		if list[i], err = sfnt.Parse(data); err != nil {
			return list, err
		}
	}
	return list, nil
})

// em is how wide a letter is at most, in sizes of letters: as the widest of its
// kind in the usual fonts, and as the bold font has it.
func em(r rune) float64 {
	kind := 0.88
	switch {
	case strings.ContainsRune("MWmw@%—", r) || r >= 0x1100:
		kind = 1.15
	case r >= 'a' && r <= 'z' || r >= '0' && r <= '9' || r == ' ' || r == '-':
		kind = 0.72
	}
	if r < utf8.RuneSelf {
		return kind
	}
	faces, err := typefaces()
	if err != nil {
		return kind
	}
	var buffer sfnt.Buffer
	glyph, err := faces[1].GlyphIndex(&buffer, r)
	if err != nil {
		return kind
	}
	advance, err := faces[1].GlyphAdvance(&buffer, glyph, fixed.I(64), font.HintingNone)
	if err != nil {
		return kind
	}
	return max(kind, float64(advance)/64/64+0.05)
}

// widest is how wide a text is at most, mm, whatever its letters.
func widest(text string, size float64) (width float64) {
	for _, r := range text {
		width += size * em(r)
	}
	return width
}

// fit shortens a name to a width, whatever its letters.
func fit(name string, width, size float64) string {
	letters := []rune(name)
	for i, r := range letters {
		if width -= em(r) * size; width < 0 {
			return string(letters[:max(0, i-2)]) + "…"
		}
	}
	return name
}
