package drawing

import (
	"bytes"
	"fmt"
	"io"
	"slices"
	"strings"
)

// A layer is a DXF layer of a style, with its colour number and its line type.
type layer struct {
	name   string
	colour int
	line   string
}

// layers are those of the styles; curves have a line type of their own each,
// named like the layer.
var layers = func() [NumStyles]layer {
	list := plainLayers
	for style := Curve; style < NumStyles; style++ {
		name := strings.ToUpper(Pens[style].Name)
		list[style] = layer{name, []int{7, 5, 30, 3, 6, 8}[int(style-Curve)%len(curveTints)], name}
	}
	return list
}()

var plainLayers = [NumStyles]layer{
	Outline: {"OUTLINE", 7, "CONTINUOUS"}, Thin: {"THIN", 8, "CONTINUOUS"}, Hidden: {"HIDDEN", 8, "DASHED"},
	Centre: {"CENTRE", 2, "DASHDOT"}, Dimension: {"DIMENSION", 3, "CONTINUOUS"}, Rubber: {"RUBBER", 8, "CONTINUOUS"},
	Fault: {"FAULT", 1, "CONTINUOUS"}, Cut: {"CUT", 5, "DASHED"}, Bare: {"AREAS", 9, "CONTINUOUS"},
	Grid: {"GRID", 9, "CONTINUOUS"},
}

// DXF writes the sheet as a drawing of release 12, in mm, y upwards from the
// lower left corner, each style on its layer. Fills are left out. Source: the
// published DXF reference, release 12; that release has no word for the unit, so
// the header borrows those of release 2000 (millimetres, metric), which readers
// of either look for.
func (s *Sheet) DXF(w io.Writer) error {
	var b bytes.Buffer
	put := func(pairs ...any) {
		for i := 0; i+1 < len(pairs); i += 2 {
			fmt.Fprintf(&b, "%3v\r\n%v\r\n", pairs[i], pairs[i+1])
		}
	}
	up := func(p Point) Point { return Point{p.X, s.Height - p.Y} }
	put(0, "SECTION", 2, "HEADER", 9, "$ACADVER", 1, "AC1009", 9, "$INSUNITS", 70, 4, 9, "$MEASUREMENT", 70, 1,
		9, "$EXTMIN", 10, "0.0", 20, "0.0", 9, "$EXTMAX", 10, number(s.Width), 20, number(s.Height), 0, "ENDSEC")
	put(0, "SECTION", 2, "TABLES")
	styles, curves := s.styles(), s.curves()
	put(0, "TABLE", 2, "LTYPE", 70, 3+len(curves))
	put(0, "LTYPE", 2, "CONTINUOUS", 70, 0, 3, "solid", 72, 65, 73, 0, 40, "0.0")
	put(0, "LTYPE", 2, "DASHED", 70, 0, 3, "dashed", 72, 65, 73, 2, 40, "3.0", 49, "2.0", 49, "-1.0")
	put(0, "LTYPE", 2, "DASHDOT", 70, 0, 3, "dash dot", 72, 65, 73, 4, 40, "6.4", 49, "4.0", 49, "-0.8", 49, "0.8", 49, "-0.8")
	for _, style := range curves {
		put(lineType(style)...)
	}
	put(0, "ENDTAB", 0, "TABLE", 2, "LAYER", 70, len(styles))
	for _, style := range styles {
		l := layers[style]
		put(0, "LAYER", 2, l.name, 70, 0, 62, l.colour, 6, l.line)
	}
	put(0, "ENDTAB", 0, "TABLE", 2, "STYLE", 70, 1)
	put(0, "STYLE", 2, "STANDARD", 70, 0, 40, "0.0", 41, "1.0", 50, "0.0", 71, 0, 42, "3.0", 3, "txt", 4, "")
	put(0, "ENDTAB", 0, "ENDSEC", 0, "SECTION", 2, "ENTITIES")
	for _, shape := range s.Shapes {
		switch x := shape.(type) {
		case Path:
			if x.Style == Bare {
				continue
			}
			points := x.Points
			if x.Closed && len(points) > 0 {
				points = append(points[:len(points):len(points)], points[0])
			}
			if x.Style >= Curve {
				// Its dashes run on round the corners: flag 128.
				put(0, "POLYLINE", 8, layers[x.Style].name, 66, 1, 70, 128, 10, "0.0", 20, "0.0", 30, "0.0")
				for _, p := range points {
					at := up(p)
					put(0, "VERTEX", 8, layers[x.Style].name, 10, number(at.X), 20, number(at.Y))
				}
				put(0, "SEQEND", 8, layers[x.Style].name)
				continue
			}
			for i := 1; i < len(points); i++ {
				a, c := up(points[i-1]), up(points[i])
				put(0, "LINE", 8, layers[x.Style].name, 10, number(a.X), 20, number(a.Y), 11, number(c.X), 21, number(c.Y))
			}
		case Circle:
			c := up(x.Centre)
			put(0, "CIRCLE", 8, layers[x.Style].name, 10, number(c.X), 20, number(c.Y), 40, number(x.R))
		case Text:
			at, turn := up(x.At), 0
			if x.Turned {
				turn = 90
			}
			put(0, "TEXT", 8, layers[x.Style].name, 10, number(at.X), 20, number(at.Y), 40, number(0.72*x.Size), 1, dxfText(x.Text), 50, turn,
				72, int(x.Anchor), 11, number(at.X), 21, number(at.Y))
		}
	}
	put(0, "ENDSEC", 0, "EOF")
	_, err := w.Write(b.Bytes())
	return err
}

// curves are the styles of curves on the sheet.
func (s *Sheet) curves() []Style {
	return slices.DeleteFunc(s.styles(), func(style Style) bool { return style < Curve })
}

// lineType is the line type of a curve: dashes are positive, gaps negative.
func lineType(style Style) []any {
	whole, dashes := 0.0, Pens[style].Dashes
	for _, x := range dashes {
		whole += x
	}
	pairs := []any{0, "LTYPE", 2, layers[style].line, 70, 0, 3, Pens[style].Name, 72, 65, 73, len(dashes), 40, number(whole)}
	for i, x := range dashes {
		if i%2 == 1 {
			x = -x
		}
		pairs = append(pairs, 49, number(x))
	}
	return pairs
}

// dxfCodes are the three signs that every reader of release 12 has a code for.
var dxfCodes = map[rune]string{'⌀': "%%c", '±': "%%p", '°': "%%d"}

// dxfText is a text in ASCII: other characters by their code or number, and
// what a reader would take for a code of its own broken up. Texts end at 250
// bytes.
func dxfText(text string) string {
	text = strings.ReplaceAll(strings.ToValidUTF8(text, "?"), `\`, "/")
	var b strings.Builder
	for at, r := range text {
		piece := string(r)
		switch code := dxfCodes[r]; {
		case code != "":
			piece = code
		case r < ' ' || r == 0x7f:
			piece = " "
		case r > 0xFFFF:
			piece = "?"
		case r > 0x7f:
			piece = fmt.Sprintf(`\U+%04X`, r)
		}
		if strings.HasPrefix(piece, "%") && strings.HasSuffix(text[:at], "%") {
			piece = " " + piece
		}
		if b.Len()+len(piece) > 250 {
			break
		}
		b.WriteString(piece)
	}
	return b.String()
}
