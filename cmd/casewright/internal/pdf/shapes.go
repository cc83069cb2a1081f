package pdf

import (
	"errors"
	"fmt"

	"casewright/cmd/casewright/internal/drawing"
)

// A colour is red, green and blue of 0 to 255.
type colour [3]int

var (
	black = colour{0, 0, 0}
	white = colour{255, 255, 255}
	dark  = colour{150, 0, 0} // dark red: what fails
)

// ink is the colour of a style's lines and texts: that of the screen by day for
// the lines of charts, else as dark as a printer without colour needs it.
func ink(style drawing.Style) colour {
	switch {
	case style == drawing.Fault:
		return dark
	case style >= drawing.Grid:
		c := style.Ink()
		return colour{int(c.R), int(c.G), int(c.B)}
	}
	return black
}

// fills are the colours of areas; None has none, Solid that of its line.
var fills = [drawing.NumFills]colour{
	drawing.Paper:     white,
	drawing.Aluminium: {238, 238, 238},
	drawing.Metal:     {222, 222, 222},
	drawing.Steel:     {200, 200, 200},
	drawing.Seal:      {90, 90, 90},
	drawing.Faulty:    {250, 205, 200},
}

// A frame is where the upper left corner of a sheet stands on a page, and how
// large a mm of the sheet is there.
type frame struct{ x, y, scale float64 }

func (f frame) at(p drawing.Point) (x, y float64) { return f.x + f.scale*p.X, f.y + f.scale*p.Y }

// sheet draws a sheet that [check] has passed. Lines keep their width at any
// scale.
func (w *writer) sheet(s *drawing.Sheet, f frame) {
	for _, shape := range s.Shapes {
		switch shape := shape.(type) {
		case drawing.Path:
			w.path(shape, f)
		case drawing.Circle:
			w.pen(shape.Style)
			x, y := f.at(shape.Centre)
			w.Circle(x, y, f.scale*shape.R, w.fill(shape.Style, shape.Fill))
		case drawing.Text:
			w.label(shape, f)
		}
	}
}

func (w *writer) path(p drawing.Path, f frame) {
	if len(p.Points) < 2 {
		return
	}
	w.pen(p.Style)
	how := w.fill(p.Style, p.Fill)
	w.MoveTo(f.at(p.Points[0]))
	for _, point := range p.Points[1:] {
		w.LineTo(f.at(point))
	}
	if p.Closed {
		w.ClosePath()
	}
	w.DrawPath(how)
}

func (w *writer) label(t drawing.Text, f frame) {
	face := regular
	if t.Bold {
		face = bold
	}
	x, y := f.at(t.At)
	text := w.shape(t.Text, face)
	size := f.scale * t.Size
	shift := [...]float64{drawing.Start: 0, drawing.Middle: 0.5, drawing.End: 1}[t.Anchor] * size * text.width(0, len(text.Runes))
	if t.Turned {
		w.TransformBegin()
		w.TransformRotate(90, x, y)
		defer w.TransformEnd()
	}
	w.print(x-shift, y, text, 0, len(text.Runes), size, ink(t.Style))
}

func (w *writer) pen(style drawing.Style) {
	p, c := drawing.Pens[style], ink(style)
	w.SetLineWidth(p.Width)
	w.SetDashPattern(p.Dashes, 0)
	w.SetDrawColor(c[0], c[1], c[2])
}

// fill takes up a colour to fill with and gives how to draw: line, or both.
func (w *writer) fill(style drawing.Style, fill drawing.Fill) string {
	if fill == drawing.None {
		return "D"
	}
	c := fills[fill]
	if fill == drawing.Solid {
		c = ink(style)
	}
	w.SetFillColor(c[0], c[1], c[2])
	if style == drawing.Bare {
		return "F"
	}
	return "DF"
}

// check gives what keeps a sheet from being drawn.
func check(s *drawing.Sheet) error {
	if s == nil {
		return errors.New("it is missing")
	}
	if !side(s.Width) || !side(s.Height) {
		return fmt.Errorf("%g mm × %g mm is no size of a page; each side is 1 mm to %d mm", s.Width, s.Height, largest)
	}
	for i, shape := range s.Shapes {
		var err error
		switch shape := shape.(type) {
		case drawing.Path:
			err = sound(shape.Style, shape.Fill, shape.Points...)
		case drawing.Circle:
			err = sound(shape.Style, shape.Fill, shape.Centre)
			if err == nil && (!length(shape.R) || shape.R < 0) {
				err = fmt.Errorf("%g mm is no radius", shape.R)
			}
		case drawing.Text:
			err = sound(shape.Style, drawing.None, shape.At)
			switch {
			case err != nil:
			case !length(shape.Size) || shape.Size <= 0:
				err = fmt.Errorf("%g mm is no size of letters", shape.Size)
			case shape.Anchor > drawing.End:
				err = fmt.Errorf("%d is no anchor", shape.Anchor)
			}
		default:
			err = fmt.Errorf("%T is no shape", shape)
		}
		if err != nil {
			return fmt.Errorf("shape %d: %w", i+1, err)
		}
	}
	return nil
}

func sound(style drawing.Style, fill drawing.Fill, points ...drawing.Point) error {
	if style >= drawing.NumStyles {
		return fmt.Errorf("%d is no style", style)
	}
	if fill >= drawing.NumFills {
		return fmt.Errorf("%d is no fill", fill)
	}
	for _, p := range points {
		if !length(p.X) || !length(p.Y) {
			return fmt.Errorf("(%g, %g) is no point", p.X, p.Y)
		}
	}
	return nil
}
