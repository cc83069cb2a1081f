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

// inks gives inks and fills, by day and by night.
func inks(styles []Style) string {
	by := func(of func(t tint) uint32) (line, text string) {
		line = fmt.Sprintf(".cw .fault{stroke:%[1]s}.cw text.fault{fill:%[1]s;stroke:none}", css(of(faultTint)))
		for _, s := range styles {
			if s >= Grid {
				line += fmt.Sprintf(".cw .%s{stroke:%s}", Pens[s].Name, css(of(s.tint())))
			}
		}
		for f := Paper; f < Solid; f++ {
			text += fmt.Sprintf(".cw .%s{fill:%s}", fills[f], css(of(fillTints[f])))
		}
		return line, text
	}
	sheet := func(of func(t tint) uint32) string {
		return fmt.Sprintf(".cw{color:%s;background:%s}", css(of(inkTint)), css(of(paperTint)))
	}
	day, night := func(t tint) uint32 { return t.day }, func(t tint) uint32 { return t.night }
	lines, areas := by(day)
	dark, shades := by(night)
	return "\n" + sheet(day) + `
.cw text{font-family:"DejaVu Sans",Verdana,sans-serif;fill:currentColor;stroke:none}
` + lines + "\n.cw .nofill{fill:none}" + areas + ".cw .solid{fill:currentColor}\n" +
		"@media screen and (prefers-color-scheme:dark){" + sheet(night) + dark + shades + "}\n"
}

// SVG writes the sheet as a picture that stands alone, at true scale.
func (s *Sheet) SVG(w io.Writer) error {
	_, err := io.WriteString(w, `<?xml version="1.0" encoding="UTF-8"?>`+"\n"+s.Inline(true))
	return err
}

// StyleSheet gives the lines, inks and fills of all sheets.
func StyleSheet() string {
	var all []Style
	for style := range NumStyles {
		all = append(all, style)
	}
	return styleSheet(all)
}

func styleSheet(styles []Style) string {
	text := inks(styles)
	for _, style := range styles {
		text += Pens[style].css()
	}
	return text + "\n"
}

// styles are those of the sheet; of those that only charts have, the ones that
// are used.
func (s *Sheet) styles() (list []Style) {
	var used [NumStyles]bool
	for _, shape := range s.Shapes {
		switch x := shape.(type) {
		case Path:
			used[x.Style] = true
		case Circle:
			used[x.Style] = true
		}
	}
	for style := range NumStyles {
		if style < Grid || used[style] {
			list = append(list, style)
		}
	}
	return list
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
		b.WriteString("<style>" + styleSheet(s.styles()) + "</style>")
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
