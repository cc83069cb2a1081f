package drawing

import (
	"fmt"
	"math"

	"casewright/bench"
	"casewright/quantity"
)

// JigRing draws a drilling ring: seen along the axis with its holes, and in
// section, at true scale, with its sizes as text.
func JigRing(r bench.Ring, text Beside) *Sheet {
	out, bore, opening := mm(r.Outside)/2, mm(r.Bore)/2, mm(r.Opening)/2
	length, stop, guide := mm(r.Length), mm(r.Stop), mm(r.Guide)/2
	left := border + out + 12
	section := left + out + 30
	width := section + length + 20
	notes := RingNotes(r, text)
	height := border + above + 2*out + 24 + 5*float64(len(notes)) + border
	for _, n := range notes {
		width = max(width, 2*border+TextWidth(n, 3))
	}
	width = max(width, 2*border+TextWidth(RingTitle(r, text), 4.2))
	s := &Sheet{Width: width, Height: height, Title: "Drilling ring for " + r.End + " of " + text.Motor, Description: "Seen from outside the end of the tube, and in section. It slides on the tube up to its end and guides the drill; true scale, mm."}
	s.Add(Text{At: Point{border, border + 4}, Text: RingTitle(r, text), Size: 4.2, Bold: true})
	if text.Fails != "" {
		s.Add(Text{At: Point{border, border + 9}, Text: "DO NOT DRILL: the check " + text.Fails, Size: 3.4, Bold: true, Style: Fault})
	}
	centre := Point{left, border + above + out}
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
		s.Add(Text{At: Point{centre.X + (out+numbersOut)*cos, centre.Y + (out+numbersOut)*sin + 1}, Text: fmt.Sprint(h.Number), Size: 3, Anchor: Middle})
	}
	s.Line(Point{centre.X - out - 4, centre.Y}, Point{centre.X + out + 4, centre.Y}, Centre)
	s.Line(Point{centre.X, centre.Y - out - 4}, Point{centre.X, centre.Y + out + 4}, Centre)
	s.Add(Path{Points: []Point{{centre.X, centre.Y - bore}, {centre.X, centre.Y - out}}, Style: Outline, ID: "scribed line"},
		Text{At: Point{centre.X, centre.Y - out - 11}, Text: "0°, scribed line", Size: 3, Anchor: Middle})
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

// numbersOut is how far outside a ring the numbers of its holes stand.
const numbersOut = 7

// above is the room over a ring for its name, the mark of 0° and the numbers.
const above = 30

// RingTitle names a ring.
func RingTitle(r bench.Ring, text Beside) string {
	return clip(text.Motor, 40) + ", " + clip(r.End, 40) + ": drilling ring"
}

// RingNotes are the sizes of a ring in words.
func RingNotes(r bench.Ring, text Beside) []string {
	long := text.Length
	hole := long(quantity.LengthOf(r.Size.Nominal()))
	apart := ""
	if len(r.Holes) > 1 {
		apart = ", " + degrees(360/float64(len(r.Holes))) + " apart within 0.1°"
	}
	guide := fmt.Sprintf("%d holes ⌀%s H7 for the drill%s; no room for bushes: harden, or renew the ring", len(r.Holes), hole, apart)
	if r.Bush {
		guide = fmt.Sprintf("%d holes ⌀%s H7%s, for press-fit bushes with a bore of %s (DIN 179, from memory)", len(r.Holes), long(r.Guide), apart, hole)
	}
	tube := fmt.Sprintf("the tube at its widest, %s (drawn)", long(r.Widest))
	if r.From != bench.Drawn {
		tube = fmt.Sprintf("the tube, %s at its widest (%s)", long(r.Widest), text.Origin(r.Outer))
	}
	notes := []string{
		fmt.Sprintf("bore ⌀%s +%s/-0: %s, and %s of room", long(r.Bore), long(boreMore), tube, long(r.Clearance)),
		fmt.Sprintf("outside ⌀%s; length %s", long(r.Outside), long(r.Length)),
		fmt.Sprintf("stop face to the holes %s ±%s; stop %s thick, opening ⌀%s; stop face and bore square to each other", long(r.FromStop), long(stopMore), long(r.Stop), long(r.Opening)),
		guide,
		fmt.Sprintf("hole 1 stands at %s from a line scribed along the ring (0°, up in the drawing), which goes on the line along the tube; drawn as seen from outside this end of the tube", degrees(r.Start)),
	}
	if sink := text.Sink(r.Sink); sink != "" {
		notes = append(notes, sink+" Take the ring off before you countersink.")
	}
	last := "Sizes in mm."
	if text.Inches {
		last = "Sizes in inches, in brackets in mm."
	}
	if r.From == bench.Drawn {
		last += " Measure the tube that you have: --outside bores the ring to it."
	}
	return append(notes, last+" Tolerances are common practice, no source. Steel or aluminium; chamfer the mouth of the bore.", text.from())
}

// Tolerances of a ring, m.
const (
	boreMore quantity.Length = 0.00005
	stopMore quantity.Length = 0.00005
)
