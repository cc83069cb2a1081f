package drawing_test

import (
	"bytes"
	"image"
	"image/color"
	"image/draw"
	"image/png"
	"math"
	"strings"
	"testing"

	"casewright/cmd/casewright/internal/drawing"
)

// pixels decodes the PNG of a sheet.
func pixels(t *testing.T, s *drawing.Sheet, width int) *image.RGBA {
	t.Helper()
	var b bytes.Buffer
	if err := s.PNG(&b, width); err != nil {
		t.Fatal(err)
	}
	picture, err := png.Decode(&b)
	if err != nil {
		t.Fatal(err)
	}
	fast := image.NewRGBA(picture.Bounds())
	draw.Draw(fast, fast.Bounds(), picture, image.Point{}, draw.Src)
	return fast
}

// ink is how dark a pixel is: 0 where it is white.
func ink(p *image.RGBA, x, y int) float64 { return darkness(p.RGBAAt(x, y)) }

func darkness(c color.RGBA) float64 { return 1 - float64(min(c.R, c.G, c.B))/0xff }

// TestPNGInk: in pixels of 0.1 mm the picture of a chart is as large as its
// sheet, each line has ink where its points are, and the sheet's edge has none.
func TestPNGInk(t *testing.T) {
	c := heating(3)
	s := drawing.Chart(c)
	width := int(10 * s.Width)
	p := pixels(t, s, width)
	if got := p.Bounds().Size(); got.X != width || math.Abs(float64(got.Y)-10*s.Height) > 1 {
		t.Fatalf("%v pixels of a sheet of %g × %g mm", got, s.Width, s.Height)
	}
	scale := float64(width) / s.Width
	inked, all := 0, 0
	for _, shape := range s.Shapes {
		line, ok := shape.(drawing.Path)
		if !ok || line.ID != "series node 1" {
			continue
		}
		for _, at := range line.Points {
			all++
			if ink(p, int(scale*at.X), int(scale*at.Y)) > 0.5 {
				inked++
			}
		}
	}
	if all != 60 || inked != all {
		t.Errorf("%d of %d points have ink", inked, all)
	}
	for x := range width {
		if ink(p, x, 0) > 0 || ink(p, x, p.Bounds().Dy()-1) > 0 {
			t.Fatalf("ink at the edge, %d", x)
		}
	}
}

// TestPNGPens: a line has the width of its pen and as much ink along it as its
// dashes say, in one stretch or in many.
func TestPNGPens(t *testing.T) {
	for style := range drawing.NumStyles {
		pen := drawing.Pens[style]
		long, dashes := 0.0, 0.0
		for i, x := range pen.Dashes {
			long += x
			if i%2 == 0 {
				dashes += x
			}
		}
		share := 1.0
		if long > 0 {
			share = dashes / long
		}
		from, turns := 10.0, 1.0
		if long > 0 {
			turns = math.Floor(400 / long)
		} else {
			long = 400
		}
		length := turns * long
		for _, steps := range []int{1, 400} {
			s := &drawing.Sheet{Width: 420, Height: 20}
			path := drawing.Path{Style: style}
			for i := range steps + 1 {
				path.Points = append(path.Points, drawing.Point{X: from + length*float64(i)/float64(steps), Y: 10})
			}
			s.Add(path)
			p := pixels(t, s, 4200)
			sum := 0.0
			for x := range 4200 {
				for y := 94; y < 106; y++ {
					sum += ink(p, x, y)
				}
			}
			full := darkness(style.Ink())
			want := full * length * 10 * share * pen.Width * 10
			if math.Abs(sum-want) > 0.02*want+1e-9 {
				t.Errorf("%s in %d steps: ink of %.0f pixels, want %.0f", pen.Name, steps, sum, want)
			}
		}
	}
}

// TestPNGTexts: the ink of a text lies where the font says, to a pixel of
// 0.1 mm, at each anchor, bold and turned.
func TestPNGTexts(t *testing.T) {
	for _, anchor := range []drawing.Anchor{drawing.Start, drawing.Middle, drawing.End} {
		for _, turned := range []bool{false, true} {
			x := drawing.Text{At: drawing.Point{X: 50, Y: 50}, Text: "Hg ⌀63.5 ±0.05", Size: 5, Anchor: anchor, Turned: turned, Bold: turned}
			s := &drawing.Sheet{Width: 100, Height: 100}
			s.Add(x)
			p := pixels(t, s, 1000)
			want := inkOf(t, x)
			got := rect{math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)}
			for x := range 1000 {
				for y := range 1000 {
					if ink(p, x, y) > 0.1 {
						at := drawing.Point{X: float64(x) / 10, Y: float64(y) / 10}
						got = rect{min(got.left, at.X), min(got.top, at.Y), max(got.right, at.X+0.1), max(got.bottom, at.Y+0.1)}
					}
				}
			}
			for i, d := range []float64{got.left - want.left, got.top - want.top, got.right - want.right, got.bottom - want.bottom} {
				if !(math.Abs(d) <= 0.15) {
					t.Errorf("anchor %d, turned %v: side %d is %g mm off", anchor, turned, i, d)
				}
			}
		}
	}
}

// TestPNGAreas: fills have the colours of the day, a later shape covers an
// earlier one, and what is closed has its last side.
func TestPNGAreas(t *testing.T) {
	s := &drawing.Sheet{Width: 100, Height: 50}
	s.Add(
		drawing.Path{Points: []drawing.Point{{X: 10, Y: 10}, {X: 40, Y: 10}, {X: 40, Y: 40}, {X: 10, Y: 40}}, Closed: true, Fill: drawing.Metal},
		drawing.Circle{Centre: drawing.Point{X: 25, Y: 25}, R: 10, Style: drawing.Fault, Fill: drawing.Solid},
	)
	p := pixels(t, s, 1000)
	for at, want := range map[image.Point][3]uint32{
		{120, 120}: {0xb7, 0xc0, 0xc9},
		{250, 250}: {0xb0, 0x00, 0x20},
		{800, 250}: {0xff, 0xff, 0xff},
		{100, 250}: {0x11, 0x11, 0x11}, // the last side
	} {
		r, g, b, _ := p.At(at.X, at.Y).RGBA()
		if got := [3]uint32{r >> 8, g >> 8, b >> 8}; got != want {
			t.Errorf("%v is %x, want %x", at, got, want)
		}
	}
}

// TestPNGRefuses: what is no size of a picture or no place is an error, and no
// name is.
func TestPNGRefuses(t *testing.T) {
	with := func(shape drawing.Shape) *drawing.Sheet {
		s := &drawing.Sheet{Width: 100, Height: 50}
		s.Add(shape)
		return s
	}
	nan, inf := math.NaN(), math.Inf(1)
	for name, c := range map[string]struct {
		sheet *drawing.Sheet
		width int
	}{
		"small":    {with(drawing.Text{}), 1},
		"large":    {with(drawing.Text{}), 1 << 20},
		"negative": {with(drawing.Text{}), -100},
		"no sheet": {&drawing.Sheet{}, 100},
		"nan":      {with(drawing.Path{Points: []drawing.Point{{X: nan, Y: 1}, {X: 2, Y: 2}}}), 100},
		"infinite": {with(drawing.Path{Points: []drawing.Point{{X: 1, Y: 1}, {X: 2, Y: inf}}, Style: drawing.Hidden}), 100},
		"radius":   {with(drawing.Circle{R: 1e9}), 100},
		"letters":  {with(drawing.Text{Text: "a", Size: nan}), 100},
	} {
		var b bytes.Buffer
		if err := c.sheet.PNG(&b, c.width); err == nil || b.Len() > 0 {
			t.Errorf("%s: %d bytes and no error", name, b.Len())
		}
	}
	for _, name := range names {
		pixels(t, with(drawing.Text{Text: clipped(name), Size: 3, At: drawing.Point{X: 5, Y: 5}}), 500)
	}
	for _, shape := range []drawing.Shape{drawing.Path{}, drawing.Path{Points: []drawing.Point{{X: 1, Y: 1}}, Style: drawing.Hidden, Closed: true, Fill: drawing.Solid}, drawing.Circle{}} {
		pixels(t, with(shape), 100)
	}
}

// clipped is as much of a name as a sheet has room for.
func clipped(name string) string {
	return strings.ToValidUTF8(name[:min(len(name), 60)], "")
}

// TestPNGCorners: a corner is round on its outside, to either side and where a
// line closes: two bars of width w that meet at a right angle share w²/4, and a
// quarter of a disc of radius w/2 is added.
func TestPNGCorners(t *testing.T) {
	const w, leg, scale = 0.6, 4.0, 100.0
	corner := (math.Pi/4 - 1) * w * w / 4
	at := func(x, y float64) drawing.Point { return drawing.Point{X: 3 + x, Y: 3 + y} }
	for name, c := range map[string]struct {
		path drawing.Path
		area float64
	}{
		"right":  {drawing.Path{Points: []drawing.Point{at(0, 0), at(leg, 0), at(leg, leg)}}, 2*leg*w + corner},
		"left":   {drawing.Path{Points: []drawing.Point{at(leg, leg), at(leg, 0), at(0, 0)}}, 2*leg*w + corner},
		"closed": {drawing.Path{Points: []drawing.Point{at(0, 0), at(leg, 0), at(leg, leg), at(0, leg)}, Closed: true}, 4 * (leg*w + corner)},
	} {
		c.path.Style = drawing.Fault
		s := &drawing.Sheet{Width: 10, Height: 10}
		s.Add(c.path)
		p, sum := pixels(t, s, 10*scale), 0.0
		for x := range p.Rect.Dx() {
			for y := range p.Rect.Dy() {
				sum += ink(p, x, y)
			}
		}
		if want := c.area * scale * scale * darkness(drawing.Fault.Ink()); math.Abs(sum-want) > 200 {
			t.Errorf("%s: ink of %.0f pixels, want %.0f", name, sum, want)
		}
	}
}
