package drawing

import (
	"fmt"
	"image"
	"image/color"
	"image/draw"
	"image/png"
	"io"
	"math"
	"unicode"

	"golang.org/x/image/font"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
	"golang.org/x/image/vector"

	"casewright/cmd/casewright/internal/lettering"
)

// The sides of a picture in pixels.
const (
	leastPixels = 16
	mostPixels  = 16384
)

// PNG writes the sheet as a picture of so many pixels across, 16 to 16 384, in
// the colours of the day. A side that comes out of that range is an error, and
// so is a shape that does not lie on the sheet or about it.
func (s *Sheet) PNG(w io.Writer, width int) error {
	scale := float64(width) / s.Width
	height := math.Round(scale * s.Height)
	if width < leastPixels || width > mostPixels || !(height >= leastPixels && height <= mostPixels) {
		return fmt.Errorf("a picture of %d × %.0f pixels: each side is %d to %d", width, height, leastPixels, mostPixels)
	}
	r := &raster{Image: image.NewRGBA(image.Rect(0, 0, width, int(height))), scale: scale, about: max(s.Width, s.Height)}
	draw.Draw(r.Image, r.Image.Bounds(), image.NewUniform(rgba(paperTint.day)), image.Point{}, draw.Src)
	for i, shape := range s.Shapes {
		var err error
		switch x := shape.(type) {
		case Path:
			err = r.path(x.Points, x.Closed, x.Style, x.Fill)
		case Circle:
			err = r.path(around(x.Centre, x.R), true, x.Style, x.Fill)
		case Text:
			err = r.text(x)
		}
		if err != nil {
			return fmt.Errorf("shape %d: %w", i+1, err)
		}
	}
	return png.Encode(w, r.Image)
}

// A raster is a sheet in pixels.
type raster struct {
	Image *image.RGBA
	scale float64 // pixels in a mm
	about float64 // mm: the longer side; no point lies farther off than twice that
}

// path fills an area and draws its line above it.
func (r *raster) path(points []Point, closed bool, style Style, fill Fill) error {
	if err := r.holds(points); err != nil {
		return err
	}
	if fill != None {
		ink := rgba(fillTints[fill].day)
		if fill == Solid {
			ink = style.Ink()
		}
		if err := r.areas(ink, points); err != nil {
			return err
		}
	}
	pen := Pens[style]
	if pen.Width == 0 {
		return nil
	}
	if closed && len(points) > 0 {
		points = append(points[:len(points):len(points)], points[0])
	}
	var list [][]Point
	for _, piece := range dashed(points, pen.Dashes) {
		list = append(list, stroke(piece, pen.Width)...)
	}
	return r.areas(style.Ink(), list...)
}

// holds gives a point that lies on the sheet no more.
func (r *raster) holds(points []Point) error {
	for _, p := range points {
		if !(math.Abs(p.X) <= 2*r.about && math.Abs(p.Y) <= 2*r.about) {
			return fmt.Errorf("(%g, %g) does not lie on the sheet", p.X, p.Y)
		}
	}
	return nil
}

// areas fills areas of one colour. Those that turn the same way may lie over each
// other; one that turns the other way cuts a hole.
func (r *raster) areas(ink color.Color, list ...[]Point) error {
	box := [4]float64{math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)}
	for _, area := range list {
		if err := r.holds(area); err != nil {
			return err
		}
		for _, p := range area {
			box = [4]float64{min(box[0], p.X), min(box[1], p.Y), max(box[2], p.X), max(box[3], p.Y)}
		}
	}
	if box[0] > box[2] {
		return nil
	}
	corner := image.Pt(int(math.Floor(r.scale*box[0])), int(math.Floor(r.scale*box[1])))
	end := image.Pt(int(math.Ceil(r.scale*box[2]))+1, int(math.Ceil(r.scale*box[3]))+1)
	z := vector.NewRasterizer(end.X-corner.X, end.Y-corner.Y)
	at := func(p Point) (x, y float32) {
		return float32(r.scale*p.X - float64(corner.X)), float32(r.scale*p.Y - float64(corner.Y))
	}
	for _, area := range list {
		for i, p := range area {
			if i == 0 {
				z.MoveTo(at(p))
			} else {
				z.LineTo(at(p))
			}
		}
		z.ClosePath()
	}
	z.Draw(r.Image, image.Rectangle{Min: corner, Max: end}, image.NewUniform(ink), image.Point{})
	return nil
}

// around is a circle as points.
func around(centre Point, radius float64) []Point {
	const count = 128
	points := make([]Point, count)
	for i := range points {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / count)
		points[i] = Point{centre.X + radius*cos, centre.Y + radius*sin}
	}
	return points
}

// dashed cuts a line into its dashes; without dashes it is one piece.
func dashed(points []Point, dashes []float64) (pieces [][]Point) {
	if len(dashes) == 0 || len(points) == 0 {
		return [][]Point{points}
	}
	turn, left, piece := 0, dashes[0], []Point{points[0]}
	for i := 1; i < len(points); i++ {
		a, b := points[i-1], points[i]
		length := math.Hypot(b.X-a.X, b.Y-a.Y)
		for left < length {
			p := Point{a.X + (b.X-a.X)*left/length, a.Y + (b.Y-a.Y)*left/length}
			if turn%2 == 0 {
				pieces = append(pieces, append(piece, p))
			}
			a, length = p, length-left
			turn++
			left, piece = dashes[turn%len(dashes)], []Point{p}
		}
		left -= length
		piece = append(piece, b)
	}
	if turn%2 == 0 {
		pieces = append(pieces, piece)
	}
	return pieces
}

// stroke is a line as areas that turn one way: a bar for each of its stretches
// and a wedge on the outside of each corner, also of that where it closes.
func stroke(points []Point, width float64) (list [][]Point) {
	type bar struct{ to, normal Point } // the normal is half the width long, to the left
	var bars []bar
	for i := 1; i < len(points); i++ {
		a, b := points[i-1], points[i]
		length := math.Hypot(b.X-a.X, b.Y-a.Y)
		if length == 0 {
			continue
		}
		n := Point{width / 2 * (b.Y - a.Y) / length, -width / 2 * (b.X - a.X) / length}
		list = append(list, []Point{{a.X + n.X, a.Y + n.Y}, {b.X + n.X, b.Y + n.Y}, {b.X - n.X, b.Y - n.Y}, {a.X - n.X, a.Y - n.Y}})
		bars = append(bars, bar{b, n})
	}
	for i, one := range bars {
		if i+1 < len(bars) {
			list = append(list, wedge(one.to, one.normal, bars[i+1].normal))
		} else if one.to == points[0] {
			list = append(list, wedge(one.to, one.normal, bars[0].normal))
		}
	}
	return list
}

// wedge rounds the corner between two bars, of which it takes the normals.
func wedge(at, before, after Point) []Point {
	turn := math.Atan2(before.X*after.Y-before.Y*after.X, before.X*after.X+before.Y*after.Y)
	if turn < 0 { // to the left: the outside lies to the right
		before, after, turn = Point{-after.X, -after.Y}, Point{-before.X, -before.Y}, -turn
	}
	count := int(math.Ceil(turn / (math.Pi / 8)))
	points := []Point{at, {at.X + before.X, at.Y + before.Y}}
	for i := 1; i <= count; i++ {
		sin, cos := math.Sincos(turn * float64(i) / float64(count))
		points = append(points, Point{at.X + before.X*cos - before.Y*sin, at.Y + before.X*sin + before.Y*cos})
	}
	return points
}

// text fills the letters of a text.
func (r *raster) text(t Text) error {
	faces, err := typefaces()
	if err != nil {
		return err
	}
	face := faces[0]
	if t.Bold {
		face = faces[1]
	}
	letters := lettering.Shape(t.Text)
	outline, width, err := outlines(face, letters.Line(0, len(letters.Runes)))
	if err != nil {
		return err
	}
	shift := [...]float64{Start: 0, Middle: 0.5, End: 1}[t.Anchor] * width
	for _, area := range outline {
		for i, p := range area {
			x, y := t.Size*(p.X-shift), t.Size*p.Y
			if t.Turned {
				x, y = y, -x
			}
			area[i] = Point{t.At.X + x, t.At.Y + y}
		}
	}
	return r.areas(t.Style.Ink(), outline...)
}

// outlines are those of the letters of a line, in sizes of letters from its
// beginning, and how wide it is.
func outlines(face *sfnt.Font, line string) (list [][]Point, width float64, err error) {
	const em = 1024 // pixels: the outlines are as fine as this
	var buffer sfnt.Buffer
	for _, letter := range line {
		glyph, err := face.GlyphIndex(&buffer, letter)
		if err == nil && glyph == 0 {
			glyph, err = face.GlyphIndex(&buffer, unicode.ReplacementChar)
		}
		if err != nil {
			return nil, 0, err
		}
		segments, err := face.LoadGlyph(&buffer, glyph, fixed.I(em), nil)
		if err != nil {
			return nil, 0, err
		}
		at := func(p fixed.Point26_6) Point {
			return Point{width + float64(p.X)/64/em, float64(p.Y) / 64 / em}
		}
		for _, s := range segments {
			if s.Op == sfnt.SegmentOpMoveTo {
				list = append(list, []Point{at(s.Args[0])})
				continue
			}
			last := &list[len(list)-1]
			*last = append(*last, curved(s, (*last)[len(*last)-1], at)...)
		}
		advance, err := face.GlyphAdvance(&buffer, glyph, fixed.I(em), font.HintingNone)
		if err != nil {
			return nil, 0, err
		}
		width += float64(advance) / 64 / em
	}
	return list, width, nil
}

// curved is a segment of an outline as straight lines. The fonts have curves of
// the second degree only.
func curved(s sfnt.Segment, from Point, at func(fixed.Point26_6) Point) (points []Point) {
	if s.Op != sfnt.SegmentOpQuadTo {
		return []Point{at(s.Args[0])}
	}
	control, to := at(s.Args[0]), at(s.Args[1])
	const count = 6
	for i := 1; i <= count; i++ {
		t := float64(i) / count
		a, b, c := (1-t)*(1-t), 2*t*(1-t), t*t
		points = append(points, Point{a*from.X + b*control.X + c*to.X, a*from.Y + b*control.Y + c*to.Y})
	}
	return points
}
