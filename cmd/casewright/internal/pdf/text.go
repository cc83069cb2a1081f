package pdf

import (
	"fmt"
	"unicode"

	"github.com/go-fonts/dejavu/dejavusans"
	"github.com/go-fonts/dejavu/dejavusansbold"
	"github.com/go-fonts/dejavu/dejavusansmono"
	"golang.org/x/image/font/sfnt"

	"casewright/cmd/casewright/internal/lettering"
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

// Text that has been shaped is of runes that its face has.
type shaped struct {
	lettering.Text
	face   face
	widths []float64 // of letters 1 mm high, mm
}

func (w *writer) shape(text string, f face) *shaped {
	t := &shaped{Text: lettering.Shape(text), face: f}
	g := w.use(f, 1)
	t.widths = make([]float64, len(t.Runes))
	for i, r := range t.Runes {
		if !g.has(r) {
			r = unicode.ReplacementChar
			t.Runes[i] = r
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

// print writes runes i to j with the base line at x and y.
func (w *writer) print(x, y float64, t *shaped, i, j int, size float64, c colour) {
	if i >= j {
		return
	}
	w.use(t.face, size)
	w.SetFillColor(c[0], c[1], c[2])
	w.SetTextColor(c[0], c[1], c[2])
	w.Text(x, y, t.Line(i, j))
}
