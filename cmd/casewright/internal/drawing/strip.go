package drawing

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"casewright/bench"
	"casewright/quantity"
)

// A Format is a size of paper, lying, in mm.
type Format struct{ Width, Height float64 }

// The formats. Sources: ISO 216; ANSI/ASME Y14.1 (A size).
var (
	A4     = Format{297, 210}
	Letter = Format{279.4, 215.9}
)

const (
	border  = 12.0 // of the page that printers leave empty, and a little
	overlap = 16.0 // of two pieces of a strip: any hole is whole on one of them
	lap     = 15.0 // of paper beyond the lap line, to stick it, and wide enough for a hole
	joins   = 10.0 // above and below a strip that comes in pieces, for the crosses
	letters = 2.6  // size of what is written above a strip
	leading = 4.2
	squares = 50.8 // the height that they take
)

func mm(x quantity.Length) float64 { return float64(x) * 1e3 }

// WholeStrips draws the strips in one piece each, below each other.
func WholeStrips(list []bench.Strip, text Beside) *Sheet {
	width := 200.0
	for _, s := range list {
		width = max(width, mm(s.Length)+lap+2*border)
	}
	sheet := &Sheet{Width: width, Title: "Drilling strips for " + text.Motor, Description: "At true scale: cut out, wrap round the tube, measure, drill."}
	y := border
	for _, s := range list {
		h := head(s, list, text, width-2*border)
		h.draw(sheet, y, "")
		y += h.height()
		sheet.piece(piece{Strip: s, x: border, y: y, to: mm(s.Length) + lap, last: true})
		y += mm(s.Height) + border
	}
	sheet.scales(border, y)
	sheet.Height = y + squares + border
	return sheet
}

// StripPages draws the strips on pages of paper, in pieces of one length where
// they are longer. A strip that is too wide for the paper is an error.
func StripPages(list []bench.Strip, text Beside, paper Format) ([]*Sheet, error) {
	var pages []*Sheet
	room := paper.Width - 2*border
	for _, s := range list {
		whole, count := mm(s.Length)+lap, 1
		if whole > room {
			count = int(math.Ceil((whole-overlap)/(room-overlap) - 1e-9))
		}
		h, beyond := head(s, list, text, room), 0.0
		if count > 1 {
			beyond = joins
		}
		top := border + h.height() + beyond
		below := top + mm(s.Height) + beyond
		if below > paper.Height-border {
			return nil, fmt.Errorf("the strip for %s is %.0f mm wide: more than the paper has", s.End, mm(s.Height))
		}
		step := (whole - overlap) / float64(count)
		for i := range count {
			from := float64(i) * step
			page := &Sheet{
				Width: paper.Width, Height: paper.Height, Title: fmt.Sprintf("Drilling strip for %s of %s, page %d of %d", s.End, text.Motor, i+1, count),
				Description: "At true scale: print without fitting to the page, measure the squares, join the pieces, cut out, wrap round the tube, drill.",
			}
			p := piece{Strip: s, x: border - from, y: top, from: from, to: from + step + overlap, number: i, last: i == count-1}
			if count == 1 {
				p.to, p.last = whole, true
				h.draw(page, border, "")
			} else {
				h.draw(page, border, joining(i, count))
			}
			page.piece(p)
			pages = append(pages, page)
			if below+8+squares <= paper.Height-border {
				page.scales(border, below+8)
			} else if p.last {
				check := &Sheet{Width: paper.Width, Height: paper.Height, Title: "Scale check", Description: "Squares to measure."}
				check.scales(border, border)
				pages = append(pages, check)
			}
		}
	}
	return pages, nil
}

// A heading is what stands above a strip.
type heading struct {
	name, fails string
	lines       []string
}

// head words what to know and to do.
func head(s bench.Strip, list []bench.Strip, text Beside, width float64) heading {
	h := heading{name: clip(text.Motor, 30) + ": " + clip(s.End, 30)}
	if text.Fails != "" {
		h.fails = "DO NOT DRILL: the check " + text.Fails
	}
	end := "First"
	if !s.First {
		end = "Other"
	}
	h.lines = lines([]string{
		fmt.Sprintf("%s end of the tube: %d holes of %s, centres %s from the end of the tube. %s", end, len(s.Holes), text.Size(s.Size), text.Size(s.Edge), text.Sink(s.Sink)),
		fmt.Sprintf("For a tube of %s outside (%s) and paper of %s: zero line to lap line %s.", text.Length(s.Across), text.Origin(s.Outer), text.Length(s.Paper), text.Length(s.Length)),
		register(s, list),
		"Print at 100 %. Printed side out, zero line on the line along the tube, lap under it, arrow to the middle of the tube. Before you drill measure the check length and a square, and see that the lines meet.",
		text.from(),
	}, width, letters)
	return h
}

// register tells how the rows of the ends stand to each other.
func register(s bench.Strip, list []bench.Strip) string {
	words := []string{"Hole 1 stands at " + degrees(s.Start)}
	for _, other := range list {
		if other.Part != s.Part {
			words = append(words, "that of "+clip(other.End, 30)+" at "+degrees(other.Start))
		}
	}
	text := strings.Join(words, ", ")
	if len(words) > 1 {
		text += ", from one and the same line along the whole tube"
	}
	return text + ". Numbers rise to the right with the first end up, at either end."
}

func (h heading) height() float64 {
	if h.fails != "" {
		return 25 + leading*float64(len(h.lines))
	}
	return 20 + leading*float64(len(h.lines))
}

// draw writes the heading at a height, with a length to measure. part is which
// piece of the strip follows and how it is joined; empty where it is whole.
func (h heading) draw(s *Sheet, y float64, part string) {
	s.Add(Text{At: Point{border, y + 4}, Text: h.name, Size: 4.2, Bold: true})
	at := y + 9
	if h.fails != "" {
		s.Add(Text{At: Point{border, at}, Text: h.fails, Size: 3.4, Bold: true, Style: Fault})
		at += 5
	}
	for _, text := range h.lines {
		s.Add(Text{At: Point{border, at}, Text: text, Size: letters})
		at += leading
	}
	at += 4
	s.Line(Point{border, at}, Point{border + 100, at}, Outline)
	for _, x := range []float64{border, border + 100} {
		s.Line(Point{x, at - 2}, Point{x, at + 2}, Outline)
	}
	s.Add(Text{At: Point{border + 50, at - 1.2}, Text: "check length 100 mm", Size: letters, Anchor: Middle})
	for i, text := range lines([]string{part}, 0.9*(s.Width-2*border-104), letters) {
		s.Add(Text{At: Point{border + 104, at - 1.2 + leading*float64(i)}, Text: text, Size: letters, Bold: true})
	}
}

// joining tells how a piece is joined with the next.
func joining(i, count int) string {
	part := fmt.Sprintf("Piece %d of %d. ", i+1, count)
	if i == count-1 {
		return part + fmt.Sprintf("It goes under piece %d, cross on cross. Measure from zero line to lap line, then cut out.", i)
	}
	return part + fmt.Sprintf("Cut off what is right of the last crosses; lay it on piece %d, cross on cross, and stick it.", i+2)
}

// A piece is what lies between two places along a strip, its zero line at x and
// its upper edge at y of the sheet.
type piece struct {
	bench.Strip
	x, y     float64
	from, to float64
	number   int // from 0
	last     bool
}

// away is a place at a distance from the end of the tube.
func (p *piece) away(distance float64) float64 {
	if p.First {
		return p.y + distance
	}
	return p.y + mm(p.Height) - distance
}

func (p *piece) holds(v float64) bool { return v >= p.from-1e-9 && v <= p.to+1e-9 }

// radius is that of the holes; reach is how far their cross-hairs go.
func (p *piece) radius() float64 { return mm(quantity.LengthOf(p.Size.Nominal())) / 2 }
func (p *piece) reach() float64  { return p.radius() + 3 }

// What is written on a strip stands beyond the cross-hairs, row by row, so many
// mm from them: on the side of the tube's end there may be no room.
const (
	numbersAt = 4.2
	linesAt   = 8.2
	arrowAt   = 12.2
	small     = 2.4

	flushAt   = 3.4 // from the end of the tube, where there is room
	flushRoom = 4.6
)

// row is the base line of letters that stand at a distance from the end of the
// tube or nearer it.
func (p *piece) row(distance, size float64) float64 {
	if p.First {
		return p.away(distance)
	}
	return p.away(distance) + 0.75*size
}

// base is that of letters at so much beyond the cross-hairs.
func (p *piece) base(beyond, size float64) float64 {
	return p.row(mm(quantity.LengthOf(p.Edge.Nominal()))+p.reach()+beyond, size)
}

func (s *Sheet) piece(p piece) {
	height, whole := mm(p.Height), mm(p.Length)
	s.Line(Point{p.x + p.from, p.away(0)}, Point{p.x + p.to, p.away(0)}, Outline)
	s.Line(Point{p.x + p.from, p.away(height)}, Point{p.x + p.to, p.away(height)}, Cut)
	upright := func(v float64, style Style) {
		if p.holds(v) {
			s.Line(Point{p.x + v, p.y}, Point{p.x + v, p.y + height}, style)
		}
	}
	upright(0, Outline)
	upright(whole, Thin)
	upright(whole+lap, Cut)
	if !p.last {
		s.joint(p, p.number, p.to-overlap)
	}
	if p.number > 0 {
		s.joint(p, p.number-1, p.from)
	}
	for _, m := range p.Marks {
		// What lies near the zero line lies on the lap line too.
		for _, v := range []float64{mm(m.X) - whole, mm(m.X), mm(m.X) + whole} {
			s.mark(p, m.Number, v)
		}
	}
	s.words(p)
}

// joint draws the crosses above and below the overlap that begins at a place: on
// both pieces the same.
func (s *Sheet) joint(p piece, number int, v float64) {
	for _, x := range []float64{p.x + v, p.x + v + overlap} {
		for _, y := range []float64{p.y - joins/2, p.y + mm(p.Height) + joins/2} {
			id := "joint " + p.End + " " + strconv.Itoa(number+1)
			s.Line(Point{x - 2.5, y}, Point{x + 2.5, y}, Thin)
			s.Line(Point{x, y - 2.5}, Point{x, y + 2.5}, Thin)
			s.Add(Circle{Centre: Point{x, y}, R: 1.4, Style: Thin, ID: id})
		}
	}
}

// mark draws as much of a hole as reaches into the piece: its circle,
// cross-hairs that go on beyond it, and its number.
func (s *Sheet) mark(p piece, number int, v float64) {
	r, reach := p.radius(), p.reach()
	if v+reach <= p.from || v-reach >= p.to {
		return
	}
	left, right := max(v-reach, p.from), min(v+reach, p.to)
	y := p.away(mm(quantity.LengthOf(p.Edge.Nominal())))
	id := "hole " + p.End + " " + strconv.Itoa(number)
	if v-r >= p.from && v+r <= p.to {
		s.Add(Circle{Centre: Point{p.x + v, y}, R: r, Style: Outline, ID: id})
	} else {
		for _, arc := range arcs(Point{p.x + v, y}, r, p.x+p.from, p.x+p.to) {
			s.Add(Path{Points: arc, Style: Outline, ID: id})
		}
	}
	// Without gaps: the middle is where one pricks.
	s.Line(Point{p.x + left, y}, Point{p.x + right, y}, Thin)
	if p.holds(v) {
		s.Line(Point{p.x + v, y - reach}, Point{p.x + v, y + reach}, Thin)
	}
	p.label(s, number, v)
}

// arcs is what two uprights leave of a circle that one of them cuts.
func arcs(centre Point, r, left, right float64) (list [][]Point) {
	const steps = 96
	begin := 0.0 // a place that is cut off
	if centre.X-r < left {
		begin = math.Pi
	}
	var turns []float64 // from there on
	for i := range steps {
		turns = append(turns, 2*math.Pi*float64(i)/steps)
	}
	for _, x := range []float64{left, right} {
		if c := (x - centre.X) / r; math.Abs(c) < 1 {
			for _, a := range []float64{math.Acos(c), -math.Acos(c)} {
				turns = append(turns, math.Mod(a-begin+4*math.Pi, 2*math.Pi))
			}
		}
	}
	slices.Sort(turns)
	var arc []Point
	for _, turn := range append(turns, 2*math.Pi) {
		at := Point{centre.X + r*math.Cos(begin+turn), centre.Y + r*math.Sin(begin+turn)}
		if at.X >= left-1e-9 && at.X <= right+1e-9 {
			arc = append(arc, at)
			continue
		}
		if len(arc) > 1 {
			list = append(list, arc)
		}
		arc = nil
	}
	return list
}

// label writes the number of a hole, beside a line or an edge that lies there.
// Where holes are crowded the letters are smaller.
func (p *piece) label(s *Sheet, number int, v float64) {
	if !p.holds(v) {
		return
	}
	text := strconv.Itoa(number)
	size := min(3, 0.6*mm(p.Length)/float64(len(p.Marks))/TextWidth(text, 1))
	free := TextWidth(text, size)/2 + 0.6
	whole := mm(p.Length)
	at := v
	if math.Abs(at-whole) < free {
		if at > whole+1e-9 {
			at = whole + free
		} else {
			at = whole - free
		}
	}
	at = min(max(at, p.from+free), p.to-free)
	s.Add(Text{At: Point{p.x + at, p.base(numbersAt, size)}, Text: text, Size: size, Bold: true, Anchor: Middle})
}

// words writes which line is which, and the arrow that keeps the strip from
// being turned round.
func (s *Sheet) words(p piece) {
	whole := mm(p.Length)
	zero, lapped := "0°, zero line", "lap line"
	if whole < 50 {
		zero, lapped = "0°", "lap"
	}
	at := p.base(linesAt, small)
	if p.holds(0) {
		s.Add(Text{At: Point{p.x + 1.5, at}, Text: zero, Size: small})
	}
	if p.holds(whole) {
		s.Add(Text{At: Point{p.x + whole - 1.5, at}, Text: lapped, Size: small, Anchor: End})
	}
	from := p.from + 3
	if p.number > 0 {
		from += overlap // what the piece before covers
	}
	room := min(p.to, whole) - 1.5 - (from + 4)
	end := "first"
	if !p.First {
		end = "other"
	}
	edge := mm(quantity.LengthOf(p.Edge.Nominal()))
	flush := "; opposite edge flush with the " + end + " end"
	if edge-p.reach() >= flushRoom {
		s.fitting(Point{p.x + from, p.row(flushAt, small)}, room+4, end+" end of the tube: keep this edge flush with it", "flush: "+end+" end")
		flush = ""
	}
	beyond := edge + p.reach() + arrowAt
	tail, neck, tip := p.away(beyond-2.8), p.away(beyond-0.6), p.away(beyond+1)
	x := p.x + from + 1.2
	s.Add(Path{Points: []Point{{x, tail}, {x, neck}}, Style: Outline, ID: "arrow " + p.End},
		Path{Points: []Point{{x - 0.9, neck}, {x + 0.9, neck}, {x, tip}}, Closed: true, Style: Outline, Fill: Solid})
	s.fitting(Point{p.x + from + 4, p.base(arrowAt, small)}, room, "to the middle of the tube"+flush+": "+clip(p.End, 30), "to the middle of the tube"+flush, "to the middle", "middle")
}

// fitting writes the first of some texts that has room, mm; none where none has.
func (s *Sheet) fitting(at Point, room float64, texts ...string) {
	for _, text := range texts {
		if TextWidth(text, small) <= room {
			s.Add(Text{At: at, Text: text, Size: small})
			return
		}
	}
}

// scales draws the squares that tell whether the print is at scale.
func (s *Sheet) scales(x, y float64) {
	for _, square := range []struct {
		side float64
		text string
	}{{50, "50 mm"}, {50.8, "2 in"}} {
		s.Add(Path{Points: []Point{{x, y}, {x + square.side, y}, {x + square.side, y + square.side}, {x, y + square.side}}, Closed: true, Style: Thin, ID: "square " + square.text})
		s.Add(Text{At: Point{x + square.side/2, y + square.side/2}, Text: square.text + " each way", Size: 3, Anchor: Middle})
		x += square.side + 8
	}
}
