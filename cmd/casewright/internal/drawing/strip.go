package drawing

import (
	"fmt"
	"math"
	"strconv"

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
	overlap = 12.0 // of two pieces of a strip
	lap     = 10.0 // of paper beyond the lap line, to stick it
	header  = 38.0 // above the strip
)

func mm(x quantity.Length) float64 { return float64(x) * 1e3 }

// A StripText is what is written beside a strip.
type StripText struct {
	Motor string
	Fails string // "FAILS" or "IS REFUSED" where the design does not pass
}

// WholeStrips draws the strips in one piece each, below each other.
func WholeStrips(list []bench.Strip, text StripText) *Sheet {
	width, height := 0.0, border
	for _, s := range list {
		width = max(width, mm(s.Length)+lap+2*border)
		height += header + mm(s.Height) + border
	}
	sheet := &Sheet{Width: max(width, 200), Height: height + 60, Title: "Drilling strips for " + text.Motor, Description: "At true scale: cut out, wrap round the tube, measure, drill."}
	y := border
	for _, s := range list {
		sheet.stripHead(s, text, y, 1, 1)
		sheet.strip(s, border, y+header, 0, mm(s.Length)+lap)
		y += header + mm(s.Height) + border
	}
	sheet.scales(border, y)
	return sheet
}

// StripPages draws the strips on pages of paper, in pieces where they are
// longer. A strip that is too wide for the paper is an error.
func StripPages(list []bench.Strip, text StripText, paper Format) ([]*Sheet, error) {
	var pages []*Sheet
	room := paper.Width - 2*border
	for _, s := range list {
		whole := mm(s.Length) + lap
		if mm(s.Height) > paper.Height-2*border-header {
			return nil, fmt.Errorf("the strip for %s is %.0f mm wide: more than the paper has", s.End, mm(s.Height))
		}
		count := 1
		if whole > room {
			count = int(math.Ceil((whole-overlap)/(room-overlap) - 1e-9))
		}
		for i := range count {
			from := float64(i) * (room - overlap)
			to := min(from+room, whole)
			page := &Sheet{
				Width: paper.Width, Height: paper.Height, Title: fmt.Sprintf("Drilling strip for %s of %s, page %d of %d", s.End, text.Motor, i+1, count),
				Description: "At true scale: print without fitting to the page, measure the squares, cut out, wrap round the tube, drill.",
			}
			page.stripHead(s, text, border, i+1, count)
			page.strip(s, border-from, border+header, from, to)
			for _, x := range []float64{from, to} {
				if count > 1 && x > 0 && x < whole {
					inner := x - overlap
					if x == from {
						inner = x + overlap
					}
					for _, edge := range []float64{x, inner} {
						page.register(edge+border-from, border+header, mm(s.Height))
					}
				}
			}
			if below := border + header + mm(s.Height) + 8; below+56 <= paper.Height-border {
				page.scales(border, below)
				pages = append(pages, page)
				continue
			}
			pages = append(pages, page)
			if i == count-1 {
				check := &Sheet{Width: paper.Width, Height: paper.Height, Title: "Scale check", Description: "Squares to measure."}
				check.scales(border, border)
				pages = append(pages, check)
			}
		}
	}
	return pages, nil
}

// stripHead writes what to do above a strip, with a length to measure.
func (s *Sheet) stripHead(strip bench.Strip, text StripText, y float64, page, pages int) {
	end := "First"
	if !strip.First {
		end = "Other"
	}
	name := clip(text.Motor, 30) + ": " + clip(strip.End, 30)
	s.Add(Text{At: Point{border, y + 4}, Text: name, Size: 4.2, Bold: true})
	if text.Fails != "" {
		s.Add(Text{At: Point{border + TextWidth(name, 4.2) + 6, y + 4}, Text: "DO NOT DRILL: the check " + text.Fails, Size: 3.4, Bold: true, Style: Fault})
	}
	part := ""
	if pages > 1 {
		part = fmt.Sprintf(" Piece %d of %d: join at the crosses.", page, pages)
	}
	for i, line := range []string{
		fmt.Sprintf("%s end of the tube. %d holes of %s, %s from the end of the tube.%s", end, len(strip.Holes), strip.Size.String(), strip.Edge.String(), part),
		fmt.Sprintf("Print at 100 %%. The tube is %.2f mm outside, zero line to lap line %.2f mm.", mm(strip.Across), mm(strip.Length)),
		"Printed side out, zero line on the line along the tube, lap under it. Before you drill measure the check length and a square, and see that the lines meet.",
	} {
		s.Add(Text{At: Point{border, y + 10 + 4.6*float64(i)}, Text: line, Size: 2.6})
	}
	// The check length.
	at := y + 27.0
	s.Line(Point{border, at}, Point{border + 100, at}, Outline)
	for _, x := range []float64{border, border + 100} {
		s.Line(Point{x, at - 2}, Point{x, at + 2}, Outline)
	}
	s.Add(Text{At: Point{border + 50, at - 1.2}, Text: "check length 100 mm", Size: 2.6, Anchor: Middle})
}

// strip draws what lies between two places along a strip whose zero line is at
// x and whose upper edge is at y.
func (s *Sheet) strip(strip bench.Strip, x, y, from, to float64) {
	height, whole := mm(strip.Height), mm(strip.Length)
	end, other := y, y+height
	if !strip.First {
		end, other = other, end
	}
	within := func(v float64) bool { return v >= from-1e-9 && v <= to+1e-9 }
	s.Line(Point{x + from, end}, Point{x + to, end}, Outline)
	s.Line(Point{x + from, other}, Point{x + to, other}, Cut)
	for _, v := range []float64{0, whole + lap} {
		if within(v) {
			s.Line(Point{x + v, y}, Point{x + v, y + height}, Cut)
		}
	}
	towards := 1.0 // from the end of the tube
	if !strip.First {
		towards = -1
	}
	s.Add(Text{At: Point{x + from + 6, end + towards*3 + 0.9}, Text: "end of the tube: keep this edge flush with it", Size: 2.4})
	upright := func(v float64, text string) {
		s.Add(Text{At: Point{x + v, y + height/2}, Text: text, Size: 2.4, Turned: true, Anchor: Middle})
	}
	if within(0) {
		s.Line(Point{x, y}, Point{x, y + height}, Thin)
		upright(-4.5, "zero line, 0°")
	}
	if within(whole) {
		s.Line(Point{x + whole, y}, Point{x + whole, y + height}, Thin)
		upright(whole+lap-1, "lap line")
	}
	for _, m := range strip.Marks {
		v := mm(m.X)
		centres := []float64{v}
		if reach := s.reach(strip); v < reach { // what lies on the zero line lies on the lap line too
			centres = append(centres, v+whole)
		} else if v > whole-reach {
			centres = append(centres, v-whole)
		}
		for _, v := range centres {
			// Left of the zero line a mark may lie on the border, but not off it.
			if within(v) || from == 0 && v < 0 && v >= s.reach(strip)-border {
				s.mark(strip, m, Point{x + v, end + towards*mm(m.Y)})
			}
		}
	}
}

// mark draws one hole: cross-hairs that go on beyond it, and its number.
func (s *Sheet) mark(strip bench.Strip, m bench.Mark, at Point) {
	r, reach := s.reach(strip)-3, s.reach(strip)
	s.Add(Circle{Centre: at, R: r, Style: Outline, ID: "hole " + strip.End + " " + strconv.Itoa(m.Number)})
	s.Line(Point{at.X - reach, at.Y}, Point{at.X + reach, at.Y}, Centre)
	s.Line(Point{at.X, at.Y - reach}, Point{at.X, at.Y + reach}, Centre)
	s.Add(Text{At: Point{at.X + r + 0.8, at.Y - 1}, Text: strconv.Itoa(m.Number), Size: 3, Bold: true})
}

// reach is how far the cross-hairs of a hole go.
func (s *Sheet) reach(strip bench.Strip) float64 {
	return strip.Size.Nominal().InexactFloat64()*1e3/2 + 3
}

// register draws a cross at both edges of a strip, where two pieces meet.
func (s *Sheet) register(x, y, height float64) {
	for _, at := range []float64{y + 4, y + height - 4} {
		s.Line(Point{x - 2.5, at}, Point{x + 2.5, at}, Thin)
		s.Line(Point{x, at - 2.5}, Point{x, at + 2.5}, Thin)
		s.Add(Circle{Centre: Point{x, at}, R: 1.4, Style: Thin})
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

// clip shortens a text to so many letters.
func clip(text string, most int) string {
	letters := []rune(text)
	if len(letters) <= most {
		return text
	}
	return string(letters[:most-1]) + "…"
}
