package drawing_test

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"testing"

	"github.com/go-fonts/dejavu/dejavusans"
	"github.com/go-fonts/dejavu/dejavusansbold"
	"golang.org/x/image/font"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
	"pgregory.net/rapid"

	"casewright"
	"casewright/bench"
	"casewright/cmd/casewright/internal/drawing"
	"casewright/quantity"
)

const (
	paperThickness = 0.0001 // m
	overlap, lap   = 16, 15 // of pieces, and beyond the lap line, mm
)

// strips are those of the example, round a tube of another size, with other
// holes.
func strips(t rapid.TB, across float64, count int, start float64, hole, edge string) []bench.Strip {
	t.Helper()
	design, err := casewright.Read("basalt64.toml", []byte(casewright.Example))
	if err != nil {
		t.Fatal(err)
	}
	rows, err := bench.HoleRows(design)
	if err != nil {
		t.Fatal(err)
	}
	size := func(text string) quantity.Dimension {
		d, err := quantity.ParseDimension(text)
		if err != nil {
			t.Fatal(err)
		}
		return d
	}
	var list []bench.Strip
	for _, r := range rows {
		r.Size.Dimension, r.Edge.Dimension = size(hole), size(edge)
		r.Start, r.Holes = start, make([]bench.Hole, count)
		r = r.On(bench.Outer{Across: quantity.Length(across), From: bench.Measured, Drawn: 0.0635})
		list = append(list, bench.StripOf(r, paperThickness))
	}
	return list
}

// A layout is a drawn set of strips: whole, or on paper.
type layout struct {
	list       []bench.Strip
	sheets     []*drawing.Sheet
	round, r   float64 // length of a strip, radius of a hole, mm
	edge, wide float64
	start      float64
	count      int
}

// drawn draws strips round tubes of 38 to 200 mm and any others, of 3 to 16
// holes that do not meet, on both papers or whole.
func drawn(t *rapid.T) layout {
	across := rapid.OneOf(rapid.SampledFrom([]float64{38, 54, 64, 98, 150, 200}), rapid.Float64Range(30, 300)).Draw(t, "D")
	count := rapid.IntRange(3, 16).Draw(t, "N")
	start := rapid.OneOf(rapid.Just(0.0), rapid.Float64Range(0, 359.99), rapid.Float64Range(359.9, 359.99)).Draw(t, "start")
	hole := rapid.SampledFrom([]float64{2.4, 3.4, 5.5, 9, 13}).Filter(func(h float64) bool { return math.Pi*across/float64(count) > 1.5*h }).Draw(t, "hole")
	edge := hole * rapid.Float64Range(1.5, 4).Draw(t, "e/h")
	l := layout{r: hole / 2, start: start, count: count, round: math.Pi * (across + 1e3*paperThickness)}
	l.list = strips(t, across/1e3, count, start, fmt.Sprintf("%g ±0.1 mm", hole), fmt.Sprintf("%.6f mm", edge))
	l.edge, l.wide = 1e3*quantityOf(l.list[0].Edge), 1e3*float64(l.list[0].Height)
	text := drawing.Beside{
		Motor: rapid.SampledFrom([]string{"M", "Basalt 64", strings.Repeat("long ", 20)}).Draw(t, "motor"), File: "basalt64.toml",
		Fails: rapid.SampledFrom([]string{"", "FAILS", "IS REFUSED"}).Draw(t, "fails"), Ruler: bench.Ruler{Inches: rapid.Bool().Draw(t, "inches")},
	}
	if rapid.Bool().Draw(t, "countersunk") {
		for i := range l.list {
			l.list[i].Sink = &bench.Sink{Depth: l.list[i].Size, Angle: 90, Across: 0.0085}
		}
	}
	paper := rapid.SampledFrom([]drawing.Format{{}, drawing.A4, drawing.Letter}).Draw(t, "paper")
	if paper.Width == 0 {
		l.sheets = []*drawing.Sheet{drawing.WholeStrips(l.list, text)}
		return l
	}
	pages, err := drawing.StripPages(l.list, text, paper)
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range pages {
		if p.Width != paper.Width || p.Height != paper.Height {
			t.Fatalf("a page of %g × %g mm", p.Width, p.Height)
		}
	}
	l.sheets = pages
	return l
}

func quantityOf(d casewright.Dimension) float64 { return float64(quantity.LengthOf(d.Nominal())) }

var faces = func() (list [2]*sfnt.Font) {
	for i, data := range [][]byte{dejavusans.TTF, dejavusansbold.TTF} {
		f, err := sfnt.Parse(data)
		if err != nil {
			panic(err)
		}
		list[i] = f
	}
	return list
}()

// A rect is a rectangle on a sheet, mm.
type rect struct{ left, top, right, bottom float64 }

func (b rect) meets(c rect) bool {
	const hair = 0.05
	return b.left < c.right-hair && c.left < b.right-hair && b.top < c.bottom-hair && c.top < b.bottom-hair
}

// inkOf is the ink of a text in the font that it is printed in.
func inkOf(t rapid.TB, x drawing.Text) rect {
	t.Helper()
	f := faces[0]
	if x.Bold {
		f = faces[1]
	}
	var buffer sfnt.Buffer
	const em = 1000
	pen := fixed.Int26_6(0)
	var ink fixed.Rectangle26_6
	for _, r := range x.Text {
		i, err := f.GlyphIndex(&buffer, r)
		if err != nil {
			t.Fatal(err)
		}
		bounds, advance, err := f.GlyphBounds(&buffer, i, fixed.I(em), font.HintingNone)
		if err != nil {
			t.Fatal(err)
		}
		ink = ink.Union(bounds.Add(fixed.Point26_6{X: pen}))
		pen += advance
	}
	size := x.Size / em / 64
	shift := [...]float64{0, 0.5, 1}[x.Anchor] * size * float64(pen)
	if x.Turned { // what was to the right is up
		return rect{
			x.At.X + size*float64(ink.Min.Y), x.At.Y + shift - size*float64(ink.Max.X),
			x.At.X + size*float64(ink.Max.Y), x.At.Y + shift - size*float64(ink.Min.X),
		}
	}
	return rect{
		x.At.X - shift + size*float64(ink.Min.X), x.At.Y + size*float64(ink.Min.Y),
		x.At.X - shift + size*float64(ink.Max.X), x.At.Y + size*float64(ink.Max.Y),
	}
}

// around is the rect of points.
func around(points ...drawing.Point) rect {
	b := rect{math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)}
	for _, p := range points {
		b.left, b.right = min(b.left, p.X), max(b.right, p.X)
		b.top, b.bottom = min(b.top, p.Y), max(b.bottom, p.Y)
	}
	return b
}

// apart tells what meets on a sheet: texts each other, lines or circles; and
// what leaves it.
func apart(t rapid.TB, s *drawing.Sheet) {
	t.Helper()
	type named struct {
		rect
		name string
	}
	var texts, others []named
	for _, shape := range s.Shapes {
		switch x := shape.(type) {
		case drawing.Text:
			texts = append(texts, named{inkOf(t, x), x.Text})
		case drawing.Circle:
			c := drawing.Point{X: x.R, Y: x.R}
			others = append(others, named{around(drawing.Point{X: x.Centre.X - c.X, Y: x.Centre.Y - c.Y}, drawing.Point{X: x.Centre.X + c.X, Y: x.Centre.Y + c.Y}), "circle " + x.ID})
		case drawing.Path:
			if strings.HasPrefix(x.ID, "square") {
				for i := range x.Points {
					others = append(others, named{around(x.Points[i], x.Points[(i+1)%4]), x.ID})
				}
				continue
			}
			b := around(x.Points...)
			// Of no width: as wide as its pen.
			others = append(others, named{rect{b.left - 0.1, b.top - 0.1, b.right + 0.1, b.bottom + 0.1}, fmt.Sprintf("path %s %v", x.ID, x.Points)})
		}
	}
	for i, a := range texts {
		for _, b := range texts[:i] {
			if a.meets(b.rect) {
				t.Fatalf("%q meets %q", a.name, b.name)
			}
		}
		for _, b := range others {
			if a.meets(b.rect) {
				t.Fatalf("%q meets %s: %v, %v", a.name, b.name, a.rect, b.rect)
			}
		}
	}
	page := rect{0, 0, s.Width, s.Height}
	for _, a := range append(texts, others...) {
		if a.left < page.left || a.right > page.right || a.top < page.top || a.bottom > page.bottom {
			t.Fatalf("%s leaves the page of %g × %g mm: %v", a.name, s.Width, s.Height, a.rect)
		}
	}
}

// TestStripsKeepApart: no text on a strip touches another, a line, a cross or a
// hole, and nothing leaves the paper.
func TestStripsKeepApart(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		for _, s := range drawn(t).sheets {
			apart(t, s)
		}
	})
}

// A strip as it is found again on a sheet: the paper between two places along
// it.
type found struct {
	*drawing.Sheet
	end      string
	from, to float64 // along the strip
	x, flush float64 // of the zero line and of the tube's end on the sheet
	away     float64 // 1 or -1: which way the middle of the tube lies
}

// pieces finds the strips of a layout again: by the lines of their edges.
func (l layout) pieces(t rapid.TB) (list []found) {
	t.Helper()
	next := map[string]float64{}
	for _, sheet := range l.sheets {
		for _, shape := range sheet.Shapes {
			arrow, ok := shape.(drawing.Path)
			if !ok || !strings.HasPrefix(arrow.ID, "arrow ") {
				continue
			}
			p := found{Sheet: sheet, end: strings.TrimPrefix(arrow.ID, "arrow "), away: math.Copysign(1, arrow.Points[1].Y-arrow.Points[0].Y)}
			for _, shape := range sheet.Shapes { // the flush edge, towards which the arrow does not point
				line, ok := shape.(drawing.Path)
				if !ok || len(line.Points) != 2 || line.Style != drawing.Outline || line.Points[0].Y != line.Points[1].Y || line.ID != "" {
					continue
				}
				if off := p.away * (arrow.Points[0].Y - line.Points[0].Y); off > 0 && off < l.wide && line.Points[1].X-line.Points[0].X != 100 {
					p.flush = line.Points[0].Y
					p.from = next[p.end]
					p.x = line.Points[0].X - p.from
					p.to = line.Points[1].X - p.x
				}
			}
			if p.flush == 0 {
				t.Fatalf("the strip of %s has no flush edge", p.end)
			}
			list = append(list, p)
			next[p.end] = p.to - overlap
		}
	}
	return list
}

// TestStripsReadBack: each hole lies where its angle says, to 0.01 mm, in every
// piece into which it reaches, and whole in one of them; together the pieces
// are as long as the strip.
func TestStripsReadBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := drawn(t)
		whole, ends := map[string]int{}, map[string]float64{}
		for _, p := range l.pieces(t) {
			ends[p.end] = p.to
			for k := range l.count {
				id := "hole " + p.end + " " + strconv.Itoa(k+1)
				arc := l.round * math.Mod(l.start+360*float64(k)/float64(l.count), 360) / 360
				want := 0
				var centres []drawing.Point
				for _, v := range []float64{arc - l.round, arc, arc + l.round} {
					if v+l.r > p.from+1e-6 && v-l.r < p.to-1e-6 {
						want++
						centres = append(centres, drawing.Point{X: p.x + v, Y: p.flush + p.away*l.edge})
					}
				}
				near := func(at drawing.Point, far float64) int {
					for i, c := range centres {
						if math.Abs(math.Hypot(at.X-c.X, at.Y-c.Y)-far) < 0.01 {
							return i
						}
					}
					t.Fatalf("%s is drawn at %v, and should be at %v", id, at, centres)
					return 0
				}
				got := map[int]bool{}
				for _, shape := range p.Shapes {
					switch x := shape.(type) {
					case drawing.Circle:
						if x.ID == id {
							got[near(x.Centre, 0)] = true
							whole[id]++
						}
					case drawing.Path:
						if x.ID != id {
							continue
						}
						for _, at := range x.Points {
							got[near(at, l.r)] = true
							if at.X < p.x+p.from-1e-6 || at.X > p.x+p.to+1e-6 {
								t.Fatalf("%s leaves its piece at %v", id, at)
							}
						}
					}
				}
				if len(got) != want {
					t.Fatalf("%s is drawn %d times of %d in the piece from %g to %g", id, len(got), want, p.from, p.to)
				}
			}
		}
		for _, s := range l.list {
			if got := ends[s.End]; math.Abs(got-l.round-lap) > 0.01 {
				t.Fatalf("the pieces of %s are %g mm long, with %g mm of lap; round it is %g mm", s.End, got, float64(lap), l.round)
			}
			for k := range l.count {
				if id := "hole " + s.End + " " + strconv.Itoa(k+1); whole[id] == 0 {
					t.Fatalf("%s is whole in no piece", id)
				}
			}
		}
	})
}

// TestJoints: each piece has the crosses of its neighbour at the same places
// along the strip, and as far from the end of the tube.
func TestJoints(t *testing.T) {
	joined := 0
	rapid.Check(t, func(t *rapid.T) {
		l := drawn(t)
		crosses := map[string][]drawing.Point{}
		count := map[string]int{}
		for _, p := range l.pieces(t) {
			count[p.end]++
			for _, shape := range p.Shapes {
				if c, ok := shape.(drawing.Circle); ok && strings.HasPrefix(c.ID, "joint "+p.end+" ") {
					crosses[c.ID] = append(crosses[c.ID], drawing.Point{X: c.Centre.X - p.x, Y: c.Centre.Y - p.flush})
				}
			}
		}
		for end, n := range count {
			for i := 1; i < n; i++ {
				joined++
				list := crosses[fmt.Sprintf("joint %s %d", end, i)]
				if len(list) != 8 {
					t.Fatalf("%d crosses at joint %d of %s", len(list), i, end)
				}
				for j := range 4 {
					if a, b := list[j], list[j+4]; math.Hypot(a.X-b.X, a.Y-b.Y) > 1e-6 {
						t.Fatalf("joint %d of %s: %v on one piece, %v on the other", i, end, a, b)
					}
				}
			}
			if crosses[fmt.Sprintf("joint %s %d", end, n)] != nil {
				t.Fatalf("crosses at the end of the strip of %s", end)
			}
		}
	})
	if joined == 0 {
		t.Error("no strip came in pieces")
	}
}

// TestStripTexts: what the hands must know stands on the paper.
func TestStripTexts(t *testing.T) {
	list := strips(t, 0.06402, 8, 0, "5.5 mm", "14 mm")
	list[1].Start = 22.5
	list[0].Sink = &bench.Sink{Depth: list[0].Size, Angle: 82, Across: 0.0085}
	var all []string
	for _, shape := range drawing.WholeStrips(list, drawing.Beside{File: "my.toml", SHA256: [32]byte{0xab, 0xcd}, Ruler: bench.Ruler{Inches: true}}).Shapes {
		if x, ok := shape.(drawing.Text); ok {
			all = append(all, x.Text)
		}
	}
	text := strings.Join(all, " ")
	for _, want := range []string{
		"2.5205 in (64.02 mm) outside (measured; drawn 2.5000 in (63.50 mm))", "paper of 0.0039 in (0.10 mm)", "From my.toml, SHA-256 abcd00000000…",
		"that of nozzle at 22.5°", "that of bulkhead at 0°", "countersink afterwards: 0.2165 in (5.5 mm) deep, cone of 82°, 0.3346 in (8.50 mm) across",
		"first end of the tube: keep this edge", "other end of the tube: keep this edge",
	} {
		if !strings.Contains(text, want) {
			t.Errorf("no %q in %s", want, text)
		}
	}
}

// TestWideStrip: a strip wider than the paper is refused.
func TestWideStrip(t *testing.T) {
	far := strips(t, 0.05, 8, 0, "5.5 mm", "14 mm")
	far[0].Height = 0.3
	if _, err := drawing.StripPages(far, drawing.Beside{}, drawing.A4); err == nil {
		t.Error("a strip of 300 mm goes on A4")
	}
}
