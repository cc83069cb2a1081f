package sizing

import (
	"github.com/shopspring/decimal"

	"casewright"
	"casewright/casing"
	"casewright/materials"
	"casewright/quantity"
	"casewright/seal"
)

// A goal says which of the sizes that pass is the answer.
type goal uint8

const (
	smallest goal = iota // the lightest, or the shortest
	largest
	middle // the one farthest from all limits on squeeze
)

// A variable is a key whose size can be found.
type variable struct {
	key  string
	goal goal
	fine bool // drawn in hundredths of a millimetre, else in tenths

	// from and to bound the nominal sizes that are tried, in m; generous is one
	// within them at which nothing else is held up.
	from, to, generous func(*site) decimal.Decimal
	// tolerance returns the deviations that a drawing would give, in m; nil is
	// the general tolerance.
	tolerance func(s *site, nominal decimal.Decimal) (lower, upper decimal.Decimal)
	// frees names the sizes farther along the end, which follow this one.
	frees []string
	// practice is what a workshop or a seal maker's chart would draw, in m; it is
	// taken where all holds there. Nil where there is no such size.
	practice func(*site) (nominal decimal.Decimal, ok bool)
}

// A site is the part of a design in which a size is looked for.
type site struct {
	design *casewright.Design
	part   int
}

func (s *site) end() *casewright.End {
	if s.part == 0 {
		return &casewright.End{}
	}
	return &s.design.Ends[s.part-1]
}

// bore is the nominal bore, in m; the outside diameter where that is all that
// is known.
func (s *site) bore() decimal.Decimal {
	t := &s.design.Tube
	if bore, _, ok := t.Nominal(); ok {
		return bore
	}
	if t.Inside.IsSet() {
		return t.Inside.Nominal()
	}
	return t.Outside.Nominal()
}

// section is the nominal section of the O-ring, in m.
func (s *site) section() decimal.Decimal {
	seal := &s.end().Seal
	if seal.Ring.Name != "" {
		return seal.Ring.Section
	}
	return seal.Section.Nominal()
}

func (s *site) screw() decimal.Decimal { return s.end().Screws.Thread.Diameter }

// grooves is how far the grooves reach from the pressure face, nominal, in m.
func (s *site) grooves() decimal.Decimal {
	seal := &s.end().Seal
	reach := seal.GrooveFromFace.Nominal().Add(seal.GrooveWidth.Nominal())
	if n := seal.Count.Value; n > 1 {
		reach = reach.Add(seal.GrooveSpacing.Nominal().Mul(decimal.NewFromInt(int64(n - 1))))
	}
	return reach
}

// mm is a length of so many millimetres, in m.
func mm(text string) decimal.Decimal { return decimal.RequireFromString(text).Shift(-3) }

// times is a multiple of a length.
func times(x decimal.Decimal, factor string) decimal.Decimal {
	return x.Mul(decimal.RequireFromString(factor))
}

func fixed(text string) func(*site) decimal.Decimal {
	return func(*site) decimal.Decimal { return mm(text) }
}

func bores(factor string) func(*site) decimal.Decimal {
	return func(s *site) decimal.Decimal { return times(s.bore(), factor) }
}

// across is the thickest wall: a share of an outside diameter that is given, or
// the whole bore.
func across(factor string) func(*site) decimal.Decimal {
	return func(s *site) decimal.Decimal {
		if t := &s.design.Tube; t.Outside.IsSet() {
			return times(t.Outside.Nominal(), factor)
		}
		return s.bore()
	}
}

func screws(factor string) func(*site) decimal.Decimal {
	return func(s *site) decimal.Decimal { return times(s.screw(), factor) }
}

func holes(factor string) func(*site) decimal.Decimal {
	return func(s *site) decimal.Decimal { return times(s.end().Screws.Hole.Nominal(), factor) }
}

func sections(factor string) func(*site) decimal.Decimal {
	return func(s *site) decimal.Decimal { return times(s.section(), factor) }
}

func beside(what, more func(*site) decimal.Decimal) func(*site) decimal.Decimal {
	return func(s *site) decimal.Decimal { return what(s).Add(more(s)) }
}

// variables are the sizes that can be found, the heaviest first: in that order
// they are settled. What goes before is settled with generous sizes of what
// follows, so that it comes out as light as it can be.
var variables = []*variable{
	{key: "tube.outside_diameter", goal: smallest, from: bores("1.002"), to: bores("2"), generous: bores("1.5")},
	{key: "tube.wall", goal: smallest, from: fixed("0.1"), to: across("0.495"), generous: bores("0.2"), tolerance: wallTolerance},
	{key: "end.plate", goal: smallest, frees: []string{"end.length"}, from: fixed("0.5"), to: within((*site).length, bores("1")), generous: within((*site).length, bores("0.5"))},
	{key: "end.lip", goal: smallest, from: fixed("0.5"), to: within((*site).length, bores("1")), generous: within((*site).shorter, bores("0.3"))},
	{
		key: "end.lip_diameter", goal: largest,
		from: func(s *site) decimal.Decimal { return times(s.end().Insert.Nominal(), "0.3") }, to: func(s *site) decimal.Decimal { return s.end().Insert.Nominal() },
		generous: func(s *site) decimal.Decimal { return times(s.end().Insert.Nominal(), "0.8") },
	},
	{key: "end.outside_diameter", goal: largest, fine: true, from: bores("0.95"), to: bores("1"), generous: bores("0.998"), tolerance: shaft, practice: fitted},
	{key: "end.seal.groove_width", goal: smallest, frees: []string{"end.seal.groove_spacing", "end.screws.from_face", "end.length"}, fine: true, tolerance: width, practice: printedWidth, from: sections("1"), to: sections("3"), generous: sections("1.45")},
	{
		key: "end.seal.groove_diameter", goal: middle, fine: true, tolerance: groove, practice: printedGroove,
		from:     beside(bores("1"), sections("-2")),
		to:       beside(bores("1"), sections("-1.2")),
		generous: beside(bores("1"), sections("-1.62")),
	},
	{key: "end.seal.groove_spacing", goal: smallest, frees: []string{"end.screws.from_face", "end.length"}, from: grooveWidths("1.01"), to: within((*site).widest, beside(grooveWidths("2"), bores("0.5"))), generous: within((*site).widest, beside(grooveWidths("1"), sections("1.5")))},
	{key: "tube.lead_in", goal: smallest, from: fixed("0.2"), to: fixed("20"), generous: leadIn},
	{key: "end.screws.edge", goal: smallest, from: holes("0.6"), to: holes("8"), generous: holes("3")},
	{key: "end.screws.engagement", goal: smallest, from: screws("0.5"), to: screws("3"), generous: screws("1.6")},
	{key: "end.screws.from_face", goal: smallest, frees: []string{"end.length"}, from: beside((*site).grooves, screws("0.5")), to: within((*site).farthest, beside((*site).grooves, bores("2"))), generous: within((*site).farthest, beside((*site).grooves, screws("4")))},
	{key: "end.length", goal: smallest, from: fixed("2"), to: beside(lastScrew, bores("2")), generous: beside(lastScrew, screws("3"))},
}

// within bounds a length by another, where that is known and leaves any.
func within(limit, size func(*site) decimal.Decimal) func(*site) decimal.Decimal {
	return func(s *site) decimal.Decimal {
		x := size(s)
		if most := limit(s); most.Sign() > 0 {
			return decimal.Min(x, most)
		}
		return x
	}
}

// length is that of the end, in m; 0 where it is not known yet.
func (s *site) length() decimal.Decimal { return s.end().Length.Nominal() }

// shorter is a lip's share of the end.
func (s *site) shorter() decimal.Decimal { return times(s.length(), "0.4") }

// farthest is how far from the pressure face a screw may stand.
func (s *site) farthest() decimal.Decimal {
	if s.length().Sign() == 0 {
		return decimal.Zero
	}
	return s.length().Sub(times(s.screw(), "0.5"))
}

// widest is the spacing at which the last groove still lies before screws that
// are placed, or within an end whose length is known.
func (s *site) widest() decimal.Decimal {
	seal, w := &s.end().Seal, &s.end().Screws
	n := seal.Count.Value - 1
	end := s.length()
	if w.FromFace.IsSet() {
		end = w.FromFace.Nominal().Sub(times(s.screw(), "0.5"))
	}
	if n < 1 || end.Sign() == 0 {
		return decimal.Zero
	}
	return end.Sub(seal.GrooveFromFace.Nominal()).Sub(seal.GrooveWidth.Nominal()).Div(decimal.NewFromInt(int64(n)))
}

func grooveWidths(factor string) func(*site) decimal.Decimal {
	return func(s *site) decimal.Decimal { return times(s.end().Seal.GrooveWidth.Nominal(), factor) }
}

// leadIn is a chamfer that takes in every ring of the design.
func leadIn(s *site) decimal.Decimal {
	deepest := mm("1")
	for i := range s.design.Ends {
		deepest = decimal.Max(deepest, times((&site{s.design, i + 1}).section(), "1.7"))
	}
	return deepest
}

func lastScrew(s *site) decimal.Decimal {
	return decimal.Max(s.end().Screws.FromFace.Nominal(), s.grooves(), s.end().Plate.Nominal())
}

// wallTolerance is that of bought tube, 10 % where its standard has none.
func wallTolerance(s *site, nominal decimal.Decimal) (lower, upper decimal.Decimal) {
	outside := s.design.Tube.Outside.Nominal()
	if !s.design.Tube.Outside.IsSet() {
		outside = s.bore().Add(nominal).Add(nominal)
	}
	drawn := s.design.Tube.Material.Material != nil && s.design.Tube.Material.Form == materials.DrawnTube
	t, ok := casing.WallTolerance(nominal, outside, drawn)
	if !ok {
		t = times(nominal, "0.1")
	}
	t = upTo(t, mm("0.01"))
	return t.Neg(), t
}

// shaft is a turned diameter that fits a bore: h8 of ISO 286-1, from memory,
// rounded up to a hundredth.
func shaft(_ *site, nominal decimal.Decimal) (lower, upper decimal.Decimal) {
	return standardTolerance(nominal).Neg(), decimal.Zero
}

// groove is a turned diameter in a groove, as much either way.
func groove(_ *site, nominal decimal.Decimal) (lower, upper decimal.Decimal) {
	t := upTo(times(standardTolerance(nominal), "0.5"), mm("0.01"))
	return t.Neg(), t
}

// width is the tolerance of a turned groove: seal makers print 0.005 in over.
func width(*site, decimal.Decimal) (lower, upper decimal.Decimal) {
	return decimal.Zero, mm("0.13")
}

// grades are the standard tolerance IT8 and the fundamental deviation f, in
// micrometres, by the greatest size in mm. Source: ISO 286-1 tables 1 and 2,
// from memory.
var grades = []struct{ to, it8, f int64 }{
	{3, 14, 6},
	{6, 18, 10},
	{10, 22, 13},
	{18, 27, 16},
	{30, 33, 20},
	{50, 39, 25},
	{80, 46, 30},
	{120, 54, 36},
	{180, 63, 43},
	{250, 72, 50},
	{315, 81, 56},
	{400, 89, 62},
	{500, 97, 68},
}

// gradeOf is the row of the table for a size in m; the last for what is wider.
func gradeOf(nominal decimal.Decimal) (it8, f decimal.Decimal) {
	g := grades[len(grades)-1]
	for _, one := range grades {
		if nominal.Cmp(decimal.New(one.to, -3)) <= 0 {
			g = one
			break
		}
	}
	return decimal.New(g.it8, -6), decimal.New(g.f, -6)
}

// standardTolerance is IT8 of a size, rounded up to a hundredth, in m.
func standardTolerance(nominal decimal.Decimal) decimal.Decimal {
	it8, _ := gradeOf(nominal)
	return upTo(it8, mm("0.01"))
}

// fitted is an end that goes in by hand: below the least bore by the least
// clearance that the seal maker prints, or by the deviation f.
func fitted(s *site) (decimal.Decimal, bool) {
	least := s.leastBore()
	_, clearance := gradeOf(least)
	if g, ok := seal.GlandFor(s.section()); ok {
		clearance = g.Clearance[0]
	}
	return least.Sub(clearance), true
}

// leastBore is the bore at its least, in m.
func (s *site) leastBore() decimal.Decimal {
	t := &s.design.Tube
	if t.Inside.IsSet() {
		return t.Inside.Least()
	}
	return t.Outside.Least().Sub(t.Wall.Greatest()).Sub(t.Wall.Greatest())
}

// printedGroove is the bottom of the groove in the middle of the depth that
// the seal maker prints.
func printedGroove(s *site) (decimal.Decimal, bool) {
	g, ok := seal.GlandFor(s.section())
	return s.bore().Sub(g.Depth[0]).Sub(g.Depth[1]), ok
}

func printedWidth(s *site) (decimal.Decimal, bool) {
	g, ok := seal.GlandFor(s.section())
	return g.Width[0], ok
}

// upTo rounds up to whole steps.
func upTo(x, step decimal.Decimal) decimal.Decimal {
	rest := x.Mod(step)
	switch {
	case rest.IsZero():
		return x
	case rest.Sign() < 0:
		return x.Sub(rest)
	}
	return x.Sub(rest).Add(step)
}

// find returns the variable of a key; nil if its size cannot be found.
func find(key string) *variable {
	for _, v := range variables {
		if v.key == key {
			return v
		}
	}
	return nil
}

// dimension is the size of the variable in a design.
func (v *variable) dimension(s *site) *casewright.Dimension {
	return casewright.FindKey(v.key).Field(s.design, s.part).(*casewright.Dimension)
}

// drawn returns a nominal size as a drawing would give it, with a tolerance;
// own is one that is wished for, nil where there is none.
func (v *variable) drawn(s *site, nominal decimal.Decimal, unit quantity.Unit, own *quantity.Dimension) casewright.Dimension {
	zero := decimal.Zero
	d := quantity.NewDimension(zero, zero, zero, unit).WithNominal(tidy(nominal))
	var lower, upper decimal.Decimal
	switch {
	case own != nil:
		lower, upper = own.Lower(), own.Upper()
	case v.tolerance != nil:
		lower, upper = v.tolerance(s, nominal)
	default:
		lower, upper = usual(nominal)
	}
	if unit.Symbol() == "in" && own == nil {
		lower, upper = upTo(lower.Neg(), halfThousandth).Neg(), upTo(upper, halfThousandth)
	}
	return casewright.Dimension{Dimension: d.WithDeviations(tidy(lower), tidy(upper)), Place: casewright.Place{Key: v.key}}
}

// drawnAfter says what the usual tolerance of a key, and what practice draws,
// comes from; empty of a key that has none.
func drawnAfter(key string) string {
	switch v := find(key); {
	case key == "end.screws.hole":
		return "clearance hole of ISO 273 medium or ASME B18.2.8 normal"
	case v == nil:
		return ""
	case key == "tube.wall":
		return "tolerance of bought tube, ANSI H35.2 (drawn from memory)"
	case v.practice != nil:
		return "static radial glands of seal makers' charts; ISO 286-1 tolerance grade 8, from memory"
	}
	return "general tolerance of ISO 2768-1, medium"
}

// usual is the general tolerance, or a fifth of what is smaller still.
func usual(nominal decimal.Decimal) (lower, upper decimal.Decimal) {
	t, ok := General(nominal)
	if !ok {
		t = times(nominal, "0.2")
	}
	return t.Neg(), t
}

// exactly is a size without a tolerance.
func (v *variable) exactly(nominal decimal.Decimal, unit quantity.Unit) casewright.Dimension {
	zero := decimal.Zero
	return casewright.Dimension{Dimension: quantity.NewDimension(zero, zero, zero, unit).WithNominal(tidy(nominal)), Place: casewright.Place{Key: v.key}}
}

// tidy is a number without the zeros that computing has left at its end: a
// dimension is written with the digits that it has.
func tidy(x decimal.Decimal) decimal.Decimal { return decimal.RequireFromString(x.String()) }

var halfThousandth = decimal.RequireFromString("0.0000127") // of an inch, in m

// step is the step in which the size is drawn, in m.
func (v *variable) step(unit quantity.Unit) decimal.Decimal {
	switch inches := unit.Symbol() == "in"; {
	case inches && v.fine:
		return halfThousandth
	case inches:
		return times(halfThousandth, "10")
	case v.fine:
		return mm("0.01")
	}
	return mm("0.1")
}
