package drawing

import (
	"fmt"
	"html"
	"io"
	"strconv"
	"strings"
)

// css is the pen as a style sheet has it.
func (p Pen) css() string {
	if p.Width == 0 {
		return ".cw ." + p.Name + "{stroke:none}"
	}
	text := ".cw ." + p.Name + "{stroke-width:" + number(p.Width)
	for i, dash := range p.Dashes {
		if i == 0 {
			text += ";stroke-dasharray:"
		}
		text += number(dash) + " "
	}
	return strings.TrimSpace(text) + "}"
}

var fills = [NumFills]string{None: "nofill", Paper: "paper", Aluminium: "aluminium", Metal: "metal", Steel: "steel", Seal: "seal", Faulty: "faulty", Solid: "solid"}

// styleSheet gives inks and fills, by day and by night.
const styleSheet = `
.cw{color:#111;background:#fff}
.cw text{font-family:"DejaVu Sans",Verdana,sans-serif;fill:currentColor;stroke:none}
.cw .fault{stroke:#b00020}.cw text.fault{fill:#b00020;stroke:none}
.cw .nofill{fill:none}.cw .paper{fill:#fff}.cw .aluminium{fill:#d5dbe1}.cw .metal{fill:#b7c0c9}.cw .steel{fill:#8d969e}.cw .seal{fill:#333}.cw .faulty{fill:#ffd9dd}.cw .solid{fill:currentColor}
@media screen and (prefers-color-scheme:dark){.cw{color:#eee;background:#16191c}.cw .fault{stroke:#ff8a96}.cw text.fault{fill:#ff8a96;stroke:none}.cw .paper{fill:#16191c}.cw .aluminium{fill:#39424a}.cw .metal{fill:#4d5862}.cw .steel{fill:#727d87}.cw .seal{fill:#c9ced3}.cw .faulty{fill:#5a1f27}}
`

// SVG writes the sheet as a picture that stands alone, at true scale.
func (s *Sheet) SVG(w io.Writer) error {
	_, err := io.WriteString(w, `<?xml version="1.0" encoding="UTF-8"?>`+"\n"+s.Inline(true))
	return err
}

// StyleSheet gives the lines, inks and fills of all sheets.
func StyleSheet() string {
	text := styleSheet
	for _, p := range Pens {
		text += p.css()
	}
	return text + "\n"
}

// Inline returns the sheet as an svg element: at true scale, with [StyleSheet]
// in it, or as wide as its place in a page that has [StyleSheet].
func (s *Sheet) Inline(trueScale bool) string {
	var b strings.Builder
	size := ""
	if trueScale {
		size = fmt.Sprintf(` width="%smm" height="%smm"`, number(s.Width), number(s.Height))
	}
	fmt.Fprintf(&b, `<svg xmlns="http://www.w3.org/2000/svg" class="cw" role="img" aria-label="%s"%s viewBox="0 0 %s %s">`, quoted(s.Title+". "+s.Description), size, number(s.Width), number(s.Height))
	fmt.Fprintf(&b, "<title>%s</title><desc>%s</desc>", quoted(s.Title), quoted(s.Description))
	if trueScale {
		b.WriteString("<style>" + StyleSheet() + "</style>")
	}
	b.WriteString(`<g stroke="currentColor" stroke-linejoin="round">`)
	for _, shape := range s.Shapes {
		b.WriteString("\n")
		switch x := shape.(type) {
		case Path:
			x.svg(&b)
		case Circle:
			fmt.Fprintf(&b, `<circle%s class="%s %s" cx="%s" cy="%s" r="%s"/>`, id(x.ID), Pens[x.Style].Name, fills[x.Fill], number(x.Centre.X), number(x.Centre.Y), number(x.R))
		case Text:
			x.svg(&b)
		}
	}
	b.WriteString("\n</g></svg>\n")
	return b.String()
}

func (p Path) svg(b *strings.Builder) {
	fmt.Fprintf(b, `<path%s class="%s %s" d="`, id(p.ID), Pens[p.Style].Name, fills[p.Fill])
	for i, at := range p.Points {
		letter := "L"
		if i == 0 {
			letter = "M"
		}
		b.WriteString(letter + number(at.X) + " " + number(at.Y))
	}
	if p.Closed {
		b.WriteString("Z")
	}
	b.WriteString(`"/>`)
}

func (t Text) svg(b *strings.Builder) {
	turn, bold := "", ""
	if t.Turned {
		turn = fmt.Sprintf(` transform="rotate(-90 %s %s)"`, number(t.At.X), number(t.At.Y))
	}
	if t.Bold {
		bold = ` font-weight="bold"`
	}
	fmt.Fprintf(b, `<text class="%s" x="%s" y="%s" font-size="%s" text-anchor="%s"%s%s>%s</text>`,
		Pens[t.Style].Name, number(t.At.X), number(t.At.Y), number(t.Size), [...]string{"start", "middle", "end"}[t.Anchor], turn, bold, quoted(t.Text))
}

// number is a length in mm to a tenth of a micrometre.
func number(x float64) string {
	text := strconv.FormatFloat(x, 'f', 4, 64)
	text = strings.TrimRight(strings.TrimRight(text, "0"), ".")
	if text == "-0" {
		return "0"
	}
	return text
}

// quoted is a text that XML takes for nothing else: what may not stand in XML
// at all becomes a replacement character.
func quoted(text string) string {
	return html.EscapeString(strings.Map(func(r rune) rune {
		if r < ' ' && r != '\t' || r == 0xFFFE || r == 0xFFFF {
			return '\uFFFD'
		}
		return r
	}, strings.ToValidUTF8(text, "\uFFFD")))
}

func id(name string) string {
	if name == "" {
		return ""
	}
	return ` data-of="` + quoted(name) + `"`
}

// TextWidth is about how wide a text is, in mm: no letter of the usual fonts
// is wider on average. It serves to keep texts apart.
func TextWidth(text string, size float64) float64 {
	return 0.62 * size * float64(len([]rune(text)))
}
