// Package drawing holds technical drawings as lines, curves and texts on a
// sheet, and writes them as SVG, DXF and PNG. Sizes are mm on the sheet, x to the
// right and y down from the upper left corner.
package drawing

// A Sheet is a drawing of a size on paper.
type Sheet struct {
	Width, Height float64
	Title         string // a few words, for those who do not see it
	Description   string // what it shows, in a sentence or two
	Shapes        []Shape
}

// A Point is a place on a sheet.
type Point struct{ X, Y float64 }

// A Style is what a line or a text is for.
type Style uint8

// The styles.
const (
	Outline   Style = iota // visible edge
	Thin                   // an edge that matters less
	Hidden                 // behind metal, dashed
	Centre                 // centre line, dash and dot
	Dimension              // dimension lines and what is written on them
	Rubber                 // an O-ring
	Fault                  // what fails
	Cut                    // where to cut the paper
	Bare                   // no line: an area alone
	Grid                   // behind the lines of a chart
	Curve                  // the first of the lines of a chart; the others follow
)

// Curves are so many styles from [Curve] on, each with dashes of its own.
const (
	Curves    = 12
	NumStyles = Curve + Curves
)

// A Pen draws the lines of a style.
type Pen struct {
	Name   string
	Width  float64   // mm on paper; 0 draws none
	Dashes []float64 // lines and gaps, mm
}

// What the lines of charts are made of, mm, for a pen of 0.35 mm: gaps of 3 times
// its width, dashes of 6, 12 and 24, after ISO 128-2, from memory;
// a dot is as long as it is wide, so that screens show it.
const (
	gap   = 1.05
	dot   = 0.35
	short = 2.1
	dash  = 4.2
	long  = 8.4
)

// Pens are those of the styles, whatever writes them. Widths after ISO 128, from
// memory.
var Pens = [NumStyles]Pen{
	Outline:   {"outline", 0.35, nil},
	Thin:      {"thin", 0.18, nil},
	Hidden:    {"hidden", 0.18, []float64{1.6, 0.8}},
	Centre:    {"centre", 0.13, []float64{5, 0.8, 0.6, 0.8}},
	Dimension: {"dimension", 0.13, nil},
	Rubber:    {"rubber", 0.25, nil},
	Fault:     {"fault", 0.6, nil},
	Cut:       {"cut", 0.25, []float64{3, 1.5}},
	Bare:      {"bare", 0, nil},
	Grid:      {"grid", 0.13, nil},

	Curve:      {"curve1", 0.35, nil},
	Curve + 1:  {"curve2", 0.35, []float64{dash, gap}},
	Curve + 2:  {"curve3", 0.35, []float64{dot, gap}},
	Curve + 3:  {"curve4", 0.35, []float64{dash, gap, dot, gap}},
	Curve + 4:  {"curve5", 0.35, []float64{long, gap, short, gap}},
	Curve + 5:  {"curve6", 0.35, []float64{dash, gap, dot, gap, dot, gap}},
	Curve + 6:  {"curve7", 0.35, []float64{dash, gap, dash, gap, dot, gap, dot, gap}},
	Curve + 7:  {"curve8", 0.35, []float64{long, gap, dot, gap}},
	Curve + 8:  {"curve9", 0.35, []float64{dash, gap, dash, gap, dot, gap}},
	Curve + 9:  {"curve10", 0.35, []float64{long, gap, short, gap, short, gap}},
	Curve + 10: {"curve11", 0.35, []float64{dash, gap, dot, gap, dot, gap, dot, gap}},
	Curve + 11: {"curve12", 0.35, []float64{long, gap, dot, gap, dot, gap}},
}

// A Fill is what an area is filled with.
type Fill uint8

// The fills.
const (
	None      Fill = iota
	Paper          // covers what lies below
	Aluminium      // the tube
	Metal          // an end
	Steel          // a screw
	Seal           // an O-ring
	Faulty         // what fails
	Solid          // the colour of its line
	NumFills
)

// A Shape is one of [Path], [Circle] and [Text].
type Shape interface{ shape() }

// A Path is a line through points.
type Path struct {
	Points []Point
	Closed bool
	Style  Style
	Fill   Fill
	ID     string // what it is a picture of, as "nozzle/hole"; may be empty
}

// A Circle is a circle.
type Circle struct {
	Centre Point
	R      float64
	Style  Style
	Fill   Fill
	ID     string
}

// A Text is one line of text.
type Text struct {
	At     Point // on its base line
	Text   string
	Size   float64 // height of its letters' body, mm
	Anchor Anchor
	Turned bool // by 90° to the left, to be read from the right
	Bold   bool
	Style  Style
}

// An Anchor is the part of a text that stands at its place.
type Anchor uint8

// The anchors.
const (
	Start Anchor = iota
	Middle
	End
)

func (Path) shape()   {}
func (Circle) shape() {}
func (Text) shape()   {}

// Add puts shapes on the sheet.
func (s *Sheet) Add(shapes ...Shape) { s.Shapes = append(s.Shapes, shapes...) }

// Line puts a straight line on the sheet.
func (s *Sheet) Line(a, b Point, style Style) { s.Add(Path{Points: []Point{a, b}, Style: style}) }

// Scaled returns the sheet with all sizes times k.
func (s *Sheet) Scaled(k float64) *Sheet {
	out := &Sheet{Width: k * s.Width, Height: k * s.Height, Title: s.Title, Description: s.Description}
	at := func(p Point) Point { return Point{k * p.X, k * p.Y} }
	for _, shape := range s.Shapes {
		switch x := shape.(type) {
		case Path:
			points := make([]Point, len(x.Points))
			for i, p := range x.Points {
				points[i] = at(p)
			}
			x.Points = points
			out.Add(x)
		case Circle:
			x.Centre, x.R = at(x.Centre), k*x.R
			out.Add(x)
		case Text:
			x.At, x.Size = at(x.At), k*x.Size
			out.Add(x)
		}
	}
	return out
}
