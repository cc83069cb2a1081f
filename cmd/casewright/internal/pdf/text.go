package pdf

import (
	"fmt"
	"slices"
	"strings"
	"unicode"

	"github.com/go-fonts/dejavu/dejavusans"
	"github.com/go-fonts/dejavu/dejavusansbold"
	"github.com/go-fonts/dejavu/dejavusansmono"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/text/unicode/norm"
)

// A face is one of the fonts. A file holds only those that it uses.
type face uint8

const (
	regular face = iota
	bold
	mono
)

func (f face) family() string { return [...]string{"sans", "bold", "mono"}[f] }

func (f face) data() []byte {
	return [...][]byte{dejavusans.TTF, dejavusansbold.TTF, dejavusansmono.TTF}[f]
}

// glyphs tells what a face can draw.
type glyphs struct {
	font   *sfnt.Font
	buffer sfnt.Buffer
	widths map[rune]float64 // of letters 1 mm high, mm
}

func (g *glyphs) has(r rune) bool {
	i, err := g.font.GlyphIndex(&g.buffer, r)
	return err == nil && i != 0
}

// use takes up a face at a size, mm.
func (w *writer) use(f face, size float64) *glyphs {
	g := w.glyphs[f]
	if g == nil {
		font, err := sfnt.Parse(f.data())
		if err != nil {
			w.SetError(fmt.Errorf("font %s: %w", f.family(), err))
		}
		g = &glyphs{font: font, widths: map[rune]float64{}}
		w.glyphs[f] = g
		w.AddUTF8FontFromBytes(f.family(), "", f.data())
	}
	w.SetFont(f.family(), "", size*72/25.4)
	return g
}

// Text that has been shaped is in the order of reading, of runes that its face
// has; each line of it is put into the order of paper when it is printed.
type shaped struct {
	face   face
	runes  []rune
	widths []float64 // of letters 1 mm high, mm
	levels []int     // of embedding, nil where all are 0
	base   int       // level of the paragraph
}

func (w *writer) shape(text string, f face) *shaped {
	t := &shaped{face: f}
	in := []rune(clean(text))
	if slices.ContainsFunc(in, rightToLeft) {
		t.runes = unjoined(join(in))
		t.levels, t.base = levels(t.runes)
		for i, r := range t.runes {
			if m, ok := mirror[r]; ok && t.levels[i]%2 == 1 {
				t.runes[i] = m
			}
		}
	} else {
		t.runes = unjoined(in)
	}
	g := w.use(f, 1)
	t.widths = make([]float64, len(t.runes))
	for i, r := range t.runes {
		if !g.has(r) {
			r = unicode.ReplacementChar
			t.runes[i] = r
		}
		width, ok := g.widths[r]
		if !ok {
			width = w.GetStringWidth(string(r))
			g.widths[r] = width
		}
		t.widths[i] = width
	}
	return t
}

// width is that of runes i to j, of letters 1 mm high, mm.
func (t *shaped) width(i, j int) (sum float64) {
	for _, x := range t.widths[i:j] {
		sum += x
	}
	return sum
}

// line gives runes i to j as one line in the order of paper.
func (t *shaped) line(i, j int) string {
	runes := slices.Clone(t.runes[i:j])
	if t.levels != nil {
		reorder(runes, slices.Clone(t.levels[i:j]), t.base)
	}
	return string(runes)
}

// print writes runes i to j with the base line at x and y.
func (w *writer) print(x, y float64, t *shaped, i, j int, size float64, c colour) {
	if i >= j {
		return
	}
	w.use(t.face, size)
	w.SetFillColor(c[0], c[1], c[2])
	w.SetTextColor(c[0], c[1], c[2])
	w.Text(x, y, t.line(i, j))
}

// clean makes of any text one that fpdf can take: of whole runes up to U+FFFF,
// blanks for whatever ends lines or controls, and no marks that are not seen,
// except those by which Arabic letters join or do not.
func clean(text string) string {
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
