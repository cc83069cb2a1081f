package drawing

import (
	"fmt"
	"math"

	"casewright/bench"
)

// JigRing draws a drilling ring: seen along the axis with its holes, and in
// section, at true scale, with its sizes as text.
func JigRing(r bench.Ring, text StripText) *Sheet {
	out, bore, opening := mm(r.Outside)/2, mm(r.Bore)/2, mm(r.Opening)/2
	length, stop, guide := mm(r.Length), mm(r.Stop), mm(r.Guide)/2
	left := border + out + 12
	section := left + out + 30
	width := section + length + 20
	notes := ringNotes(r)
	height := border + 22 + 2*out + 24 + 5*float64(len(notes)) + border
	for _, n := range notes {
		width = max(width, 2*border+TextWidth(n, 3))
	}
	s := &Sheet{Width: width, Height: height, Title: "Drilling ring for " + r.End + " of " + text.Motor, Description: "Seen from outside the end of the tube, and in section. It slides on the tube up to its end and guides the drill; true scale, mm."}
	s.Add(Text{At: Point{border, border + 4}, Text: clip(text.Motor, 40) + ", " + clip(r.End, 40) + ": drilling ring", Size: 4.2, Bold: true})
	if text.Fails != "" {
		s.Add(Text{At: Point{border, border + 9}, Text: "DO NOT DRILL: the check " + text.Fails, Size: 3.4, Bold: true, Style: Fault})
	}
	centre := Point{left, border + 22 + out}
	// Along the axis.
	s.Add(Circle{Centre: centre, R: out, Style: Outline, Fill: Metal, ID: "outside"}, Circle{Centre: centre, R: opening, Style: Outline, Fill: Paper, ID: "opening"},
		Circle{Centre: centre, R: bore, Style: Hidden, ID: "bore"})
	for _, h := range r.Holes {
		// 0° is up. To the right of one who looks at the outside is to the left
		// as one looks at the first end, and to the right at the other.
		a := h.Angle * math.Pi / 180
		if r.First {
			a = -a
		}
		cos, sin := math.Sin(a), -math.Cos(a)
		for _, side := range []float64{-guide, guide} {
			s.Line(Point{centre.X + bore*cos - side*sin, centre.Y + bore*sin + side*cos}, Point{centre.X + out*cos - side*sin, centre.Y + out*sin + side*cos}, Hidden)
		}
		s.Line(Point{centre.X + (bore-3)*cos, centre.Y + (bore-3)*sin}, Point{centre.X + (out+3)*cos, centre.Y + (out+3)*sin}, Centre)
		s.Add(Text{At: Point{centre.X + (out+6)*cos, centre.Y + (out+6)*sin + 1}, Text: fmt.Sprint(h.Number), Size: 3, Anchor: Middle})
	}
	s.Line(Point{centre.X - out - 4, centre.Y}, Point{centre.X + out + 4, centre.Y}, Centre)
	s.Line(Point{centre.X, centre.Y - out - 4}, Point{centre.X, centre.Y + out + 4}, Centre)
	// In section, the stop to the left.
	for _, side := range []float64{-1, 1} {
		y := func(radius float64) float64 { return centre.Y + side*radius }
		s.Add(Path{Points: []Point{
			{section, y(opening)}, {section, y(out)}, {section + length, y(out)}, {section + length, y(bore)}, {section + stop, y(bore)}, {section + stop, y(opening)},
		}, Closed: true, Style: Outline, Fill: Metal})
	}
	at := section + stop + mm(r.FromStop)
	s.Add(Path{Points: []Point{{at - guide, centre.Y - out}, {at + guide, centre.Y - out}, {at + guide, centre.Y - bore}, {at - guide, centre.Y - bore}}, Closed: true, Style: Outline, Fill: Paper, ID: "guide"})
	s.Line(Point{at, centre.Y - out - 4}, Point{at, centre.Y - bore + 4}, Centre)
	s.Line(Point{section - 4, centre.Y}, Point{section + length + 4, centre.Y}, Centre)
	y := centre.Y + out + 16
	for _, n := range notes {
		s.Add(Text{At: Point{border, y}, Text: n, Size: 3})
		y += 5
	}
	return s
}

// ringNotes are the sizes of a ring in words.
func ringNotes(r bench.Ring) []string {
	guide := fmt.Sprintf("%d holes ⌀%.2f H7 for the drill, %.6g° apart; no room for bushes: harden, or renew the ring", len(r.Holes), mm(r.Guide), 360/float64(len(r.Holes)))
	if r.Bush {
		guide = fmt.Sprintf("%d holes ⌀%.1f H7, %.6g° apart within 0.1°, for press-fit bushes with a bore of %.2f (DIN 179, from memory)", len(r.Holes), mm(r.Guide), 360/float64(len(r.Holes)), 1e3*r.Size.Nominal().InexactFloat64())
	}
	return []string{
		fmt.Sprintf("bore ⌀%.2f +0.05/-0: the tube at its largest and %.2f mm of room; outside ⌀%.1f; length %.2f", mm(r.Bore), mm(r.Clearance), mm(r.Outside), mm(r.Length)),
		fmt.Sprintf("stop face to the holes %.2f ±0.05; stop %.1f thick, opening ⌀%.1f; stop face and bore square to each other", mm(r.FromStop), mm(r.Stop), mm(r.Opening)),
		guide,
		fmt.Sprintf("hole 1 stands at %.4g° from a line scribed along the ring (up in the drawing); drawn as seen from outside this end of the tube", r.Start),
		"Sizes in mm. Measure the tube that you have and bore the ring to it and the room. Tolerances are common practice, no source. Steel or aluminium; chamfer the mouth of the bore.",
	}
}
