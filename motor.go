package casewright

import (
	"math"
	"slices"
	"sync"

	"github.com/shopspring/decimal"

	"casewright/casing"
	"casewright/closure"
	"casewright/fastener"
	"casewright/margin"
	"casewright/materials"
	"casewright/quantity"
	"casewright/seal"
)

// A Motor is a design made ready for computing: the least, greatest and
// nominal value of every term in SI, for each of its parts, and the checks
// that apply. It is not changed by [Motor.Evaluate], which may run at once in
// several goroutines.
type Motor struct {
	parts []part
}

type part struct {
	table margin.Table
	rows  []margin.Row
}

// Evaluate appends the outcome of every check to dst, in their fixed order:
// tube, then the ends as in the file. It allocates nothing where dst has room.
func (m *Motor) Evaluate(dst []margin.Check) []margin.Check { return m.evaluate(dst, false) }

// EvaluateNominal is Evaluate at nominal sizes.
func (m *Motor) EvaluateNominal(dst []margin.Check) []margin.Check { return m.evaluate(dst, true) }

func (m *Motor) evaluate(dst []margin.Check, nominal bool) []margin.Check {
	n := len(dst)
	dst = slices.Grow(dst, m.Rows())[:n+m.Rows()]
	for i := range m.parts {
		p := &m.parts[i]
		for j := range p.rows {
			p.rows[j].Evaluate(&dst[n], &p.table, nominal)
			n++
		}
	}
	return dst
}

// Value returns a term of a part, 0 the tube and then the ends, at the end of
// its tolerance that a symbol takes, in SI; NaN where the design does not give
// it. Of a symbol that takes either end it is the greatest.
func (m *Motor) Value(part int, s margin.Symbol) float64 {
	end := s.End
	if end == margin.Either {
		end = margin.Greatest
	}
	return m.parts[part].table.Spans[s.Term][end]
}

// Rows counts the checks of the motor.
func (m *Motor) Rows() int {
	n := 0
	for i := range m.parts {
		n += len(m.parts[i].rows)
	}
	return n
}

// looser tells whether a check is held against a limit of the design file that
// is easier than the method's own, or stands where the method has none.
func (m *Motor) looser(c *margin.Check) bool {
	if !c.Notes.Has(margin.LimitChanged) {
		return false
	}
	var own float64
	if fixed := constants()[c.Method]; fixed.limits[0].IsSet() {
		own = fixed.si[0]
	} else {
		_, own = c.Method.Eval(&c.In)
	}
	if c.Method.Kind == margin.AtMost {
		return !(c.Max <= own)
	}
	return !(c.Min >= own)
}

// Methods returns every method once, in the fixed order of the checks.
func Methods() []*margin.Method { return allMethods() }

var allMethods = sync.OnceValue(func() []*margin.Method {
	every := closure.Features{Plate: true, Insert: true, PipeThread: true, PipeFloor: true}
	return slices.Concat(casing.Methods(), casing.Heated(), endMethods(every, true, true, true))
})

// endMethods are the checks of an end, in their fixed order.
func endMethods(f closure.Features, tightened, heated, washers bool) []*margin.Method {
	list := []*margin.Method{&casing.NetSection, &casing.EndBending}
	list = append(list, fastener.Methods()...)
	if tightened {
		list = append(list, fastener.Tightening()...)
	}
	if washers {
		list = append(list, &fastener.WasherSoftens)
	}
	list = append(list, closure.Methods(f)...)
	list = append(list, seal.Methods()...)
	if heated {
		list = append(list, &seal.Soak, &closure.Temper)
	}
	return list
}

// The factors of safety where the design file gives none. Yield: ASME VIII-1
// allows two thirds of the yield strength. Ultimate: between the 1.5 of
// MIL-STD-1522A and AIAA S-080, which ask for proof test, A-basis material and
// fracture control, and the 3.5 of ASME VIII-1; it assumes a proof test and
// nobody near. Fitting: 14 CFR 25.625.
const (
	defaultYield    = 1.5
	defaultUltimate = 2.0
	defaultFitting  = 1.15
)

func orDefault(a Amount, x float64) float64 {
	if a.IsSet() {
		return a.SI()
	}
	return x
}

// NewMotor makes a design ready for computing.
func NewMotor(d *Design) *Motor {
	b := &builder{design: d, hot: d.hot()}
	b.tube()
	m := &Motor{parts: make([]part, 0, 1+len(d.Ends))}
	ofTube := casing.Methods()
	if d.heated() {
		ofTube = append(ofTube, casing.Heated()...)
	}
	m.parts = append(m.parts, part{b.part.table, b.rows(ofTube, 0)})
	tube := b.part
	for i := range d.Ends {
		b.part = tube
		b.part.exact = make(exacts, len(tube.exact)+20)
		for term, value := range tube.exact {
			b.part.exact[term] = value
		}
		e := &d.Ends[i]
		b.end(i)
		features := closure.Features{
			Plate: e.Plate.IsSet(), Insert: e.Insert.IsSet(),
			PipeThread: e.PortThread.Name != "", PipeFloor: e.PortThread.Name != "" && e.PortDepth.IsSet(),
		}
		rows := b.rows(endMethods(features, e.Screws.Torque.IsSet(), d.IsHeated(i), d.IsHeated(i) && e.Screws.softens()), uint8(i+1))
		m.parts = append(m.parts, part{b.part.table, rows})
	}
	return m
}

// exacts are the terms that are known exactly: metres, or as they stand.
type exacts map[margin.Term][3]decimal.Decimal

// builder derives the terms of one part after the other.
type builder struct {
	design *Design
	part   struct {
		table  margin.Table
		exact  exacts
		absent [margin.NumTerms]bool // what follows from keys that are not given
	}
	strength margin.Reason // why the tube's strength does not count

	hot           *hot
	tubeAt, endAt quantity.Temperature // of the wall, and of the end at hand
}

func floats(x [3]decimal.Decimal) margin.Span {
	return margin.Span{x[0].InexactFloat64(), x[1].InexactFloat64(), x[2].InexactFloat64()}
}

// exactly sets a term that is known exactly.
func (b *builder) exactly(t margin.Term, x [3]decimal.Decimal) margin.Span {
	span := floats(x)
	b.part.exact[t] = x
	b.part.table.Set(t, span, margin.None, 0)
	return span
}

func exactly(x decimal.Decimal) [3]decimal.Decimal { return [3]decimal.Decimal{x, x, x} }

// given passes on whether terms can be set; those that cannot are absent.
func (b *builder) given(all bool, list ...margin.Term) bool {
	for _, t := range list {
		b.part.absent[t] = !all
		if !all {
			b.number(t, math.NaN())
		}
	}
	return all
}

// there tells that terms have been set.
func (b *builder) there(list ...margin.Term) bool {
	for _, t := range list {
		if b.part.absent[t] {
			return false
		}
	}
	return true
}

// size sets a term that is a dimension.
func (b *builder) size(t margin.Term, d quantity.Dimension) margin.Span {
	if !b.given(d.IsSet(), t) {
		return margin.Exactly(math.NaN())
	}
	return b.exactly(t, [3]decimal.Decimal{d.Nominal(), d.Least(), d.Greatest()})
}

func (b *builder) set(t margin.Term, s margin.Span) { b.part.table.Set(t, s, margin.None, 0) }

func (b *builder) number(t margin.Term, x float64) { b.set(t, margin.Exactly(x)) }

func (b *builder) span(t margin.Term) margin.Span { return b.part.table.Spans[t] }

// read sets a term that is a property of a material.
func (b *builder) read(t margin.Term, r materials.Reading, also margin.Reason) {
	reason := also
	if reason == margin.None {
		reason = r.Reason
	}
	b.part.table.Set(t, margin.Exactly(r.SI), reason, r.Notes)
}

func (b *builder) tube() {
	t := &b.design.Tube
	b.part.exact = make(exacts, 40)
	table := &b.part.table
	table.Yield = orDefault(b.design.Yield, defaultYield)
	table.Ultimate = orDefault(b.design.Ultimate, defaultUltimate)
	table.Fitting = orDefault(b.design.Fitting, defaultFitting)

	pressed := b.given(b.design.Pressure.IsSet(), margin.Pressure)
	p := 0.0
	if pressed {
		p = b.design.Pressure.SI()
		b.number(margin.Pressure, p)
	}
	geometry, err := t.sizes().Geometry(t.drawn())
	sized := err == nil
	var bore, k margin.Span
	switch {
	case sized:
		bore = b.exactly(margin.Bore, geometry.Bore)
		k = casing.Ratio(bore, b.exactly(margin.Wall, geometry.Wall))
		b.set(margin.DiameterRatio, k)
	default:
		bore = b.size(margin.Bore, t.Inside.Dimension)
		b.given(false, margin.Wall, margin.DiameterRatio)
	}
	if geometry.Assumed {
		for _, term := range []margin.Term{margin.Wall, margin.DiameterRatio} {
			table.Notes[term] |= margin.Of(margin.WallVariation)
		}
	}
	if b.given(pressed && b.there(margin.Bore), margin.EndLoad) {
		b.set(margin.EndLoad, each(func(i int) float64 { return float64(casing.EndLoad(quantity.Pressure(p), quantity.Length(bore[i]))) }))
	}
	b.tubeAt = b.hot.at(b.hot.tube, true)
	b.tubeMaterial(pressed && sized, p, bore, k)
	b.size(margin.LeadIn, t.LeadIn.Dimension)
	b.number(margin.LeadInAngle, t.leadInAngle())
}

// tubeMaterial sets the strength of the tube, and how it grows where its sizes
// and the pressure p are given.
func (b *builder) tubeMaterial(grows bool, p float64, bore, k margin.Span) {
	table, at, material := &b.part.table, b.tubeAt, b.design.Tube.Material.Material
	known := b.given(material != nil, margin.TubeYield, margin.TubeUltimate, margin.TubeShear, margin.SvenssonFactor, margin.TubePoisson)
	if b.given(known && grows, margin.Growth); !known {
		return
	}
	elongation := material.At(materials.Elongation, at)
	switch {
	case elongation.Reason != margin.None:
		b.strength = elongation.Reason
	case elongation.SI < 0.05:
		b.strength = margin.Brittle
	}
	b.read(margin.TubeYield, material.At(materials.Yield, at), b.strength)
	b.read(margin.TubeUltimate, material.At(materials.Ultimate, at), b.strength)
	b.read(margin.TubeShear, material.At(materials.Shear, at), b.strength)
	b.read(margin.TubePoisson, material.At(materials.Poisson, at), b.strength)
	b.heatStress(material, k)
	b.number(margin.SvenssonFactor, casing.Hardening(material.At(materials.UniformElongation, at).SI))
	if !grows {
		return
	}
	modulus, poisson := material.At(materials.Modulus, at), material.At(materials.Poisson, at)
	// The growth is greatest at the thinnest wall and the largest bore.
	b.set(margin.Growth, each(func(i int) float64 {
		ratio := k[[3]int{0, 2, 1}[i]]
		return float64(casing.Growth(quantity.Pressure(p), quantity.Length(bore[i]/2), ratio, quantity.Pressure(modulus.SI), poisson.SI))
	}))
	table.Reasons[margin.Growth] = firstReason(b.strength, modulus.Reason, poisson.Reason)
	table.Notes[margin.Growth] = table.Notes[margin.Wall] | modulus.Notes | poisson.Notes
}

// heatStress sets the stress by heat through the wall, where that is computed.
func (b *builder) heatStress(material *materials.Material, k margin.Span) {
	if !b.given(b.design.heated() && b.there(margin.DiameterRatio), margin.HeatStress, margin.TubeKept) {
		return
	}
	if b.given(true, margin.TubeKept); b.hot.failed {
		b.number(margin.HeatStress, math.NaN())
		b.number(margin.TubeKept, math.NaN())
		return
	}
	b.read(margin.TubeKept, b.hot.tubeKept(material), b.strength)
	modulus, poisson, expansion := material.At(materials.Modulus, b.tubeAt), material.At(materials.Poisson, b.tubeAt), material.At(materials.Expansion, b.tubeAt)
	stress := casing.ThermalStress(quantity.Pressure(modulus.SI), quantity.Expansion(expansion.SI), quantity.TemperatureDifference(b.hot.across), poisson.SI, k[margin.Greatest])
	b.part.table.Set(margin.HeatStress, margin.Exactly(float64(stress)),
		firstReason(b.strength, modulus.Reason, poisson.Reason, expansion.Reason), modulus.Notes|poisson.Notes|expansion.Notes)
}

// each computes a span from an index: nominal, least, greatest.
func each(f func(i int) float64) margin.Span { return margin.Span{f(0), f(1), f(2)} }

func firstReason(list ...margin.Reason) margin.Reason {
	for _, r := range list {
		if r != margin.None {
			return r
		}
	}
	return margin.None
}

func (b *builder) end(number int) {
	e := &b.design.Ends[number]
	b.endAt = b.hot.at(b.hot.end[number], e.Heat.given())
	b.size(margin.EndDiameter, e.Outside.Dimension)
	b.grooves(e)
	b.screws(e)
	b.holes(e)
	b.tightening(&e.Screws)
	b.beside()
	b.body(e)
	b.seal(number)
}

// grooves sets what the place of grooves and screws along the end leaves.
func (b *builder) grooves(e *End) {
	s, w := &e.Seal, &e.Screws
	b.size(margin.GrooveDiameter, s.GrooveDiameter.Dimension)
	b.size(margin.GrooveWidth, s.GrooveWidth.Dimension)
	b.size(margin.HoleFromFace, w.FromFace.Dimension)
	ends := s.GrooveFromFace.IsSet() && s.GrooveWidth.IsSet() && (s.rings() == 1 || s.GrooveSpacing.IsSet())
	held := ends && w.FromFace.IsSet()
	b.given(ends, margin.GrooveEnd)
	b.given(held, margin.ToGroove)
	b.given(held && w.Thread.Name != "" && e.Length.IsSet(), margin.LandWidth)
	if !ends {
		return
	}
	least, greatest := quantity.Dimension.Least, quantity.Dimension.Greatest
	grooveEnd := [3]decimal.Decimal{s.grooveEnd(quantity.Dimension.Nominal), s.grooveEnd(least), s.grooveEnd(greatest)}
	b.exactly(margin.GrooveEnd, grooveEnd)
	if !held {
		return
	}
	from, length := w.FromFace, e.Length
	toGroove := [3]decimal.Decimal{
		from.Nominal().Sub(grooveEnd[0]), from.Least().Sub(grooveEnd[2]), from.Greatest().Sub(grooveEnd[1]),
	}
	b.exactly(margin.ToGroove, toGroove)
	if !b.there(margin.LandWidth) {
		return
	}
	radius := w.Thread.Diameter.Mul(half)
	land := [3]decimal.Decimal{
		decimal.Min(toGroove[0].Sub(radius), length.Nominal().Sub(grooveEnd[0])),
		decimal.Min(toGroove[1].Sub(radius), length.Least().Sub(grooveEnd[2])),
		decimal.Min(toGroove[2].Sub(radius), length.Greatest().Sub(grooveEnd[1])),
	}
	if s.rings() > 1 {
		spacing, width := s.GrooveSpacing, s.GrooveWidth
		for i, between := range []decimal.Decimal{
			spacing.Nominal().Sub(width.Nominal()), spacing.Least().Sub(width.Greatest()), spacing.Greatest().Sub(width.Least()),
		} {
			land[i] = decimal.Min(land[i], between)
		}
	}
	b.exactly(margin.LandWidth, land)
}

func (b *builder) screws(e *End) {
	w := &e.Screws
	table := &b.part.table
	if b.given(w.Count.Value > 0, margin.Count) {
		b.exactly(margin.Count, exactly(decimal.NewFromInt(int64(w.Count.Value))))
	}
	share := orDefault(w.Share, 1)
	b.number(margin.Share, share)
	engagement := b.size(margin.Engagement, w.Engagement.Dimension)
	threaded, classed := w.Thread.Name != "", w.Class.Name != ""
	b.given(threaded && b.there(margin.Engagement), margin.EngagedLength)
	if b.given(threaded, margin.ScrewDiameter, margin.ShearArea, margin.ThreadPitch, margin.PitchDiameter, margin.CoreDiameter, margin.StressDiameter, margin.StressArea, margin.ThreadShear) {
		b.thread(w.Thread.Thread)
		d := b.exactly(margin.ScrewDiameter, exactly(w.Thread.Diameter))
		area := w.Thread.ShankArea()
		if w.InShear.Value {
			area = w.Thread.StressArea()
		}
		b.number(margin.ShearArea, float64(area))
		if b.there(margin.EngagedLength) {
			b.set(margin.EngagedLength, each(func(i int) float64 { return math.Min(engagement[i], closure.MostEngaged*d[i]) }))
		}
	}
	if b.given(classed, margin.ShearFactor) {
		factor, notes := w.Class.ShearShank, margin.Notes(0)
		if w.InShear.Value {
			factor = w.Class.ShearThreads
			if w.Class.ByAnalogy {
				notes = margin.Of(margin.ByAnalogy)
			}
		}
		table.Set(margin.ShearFactor, margin.Exactly(factor), margin.None, notes)
	}
	if b.given(threaded && classed, margin.ScrewStrength, margin.ScrewYield) {
		b.screwStrength(w)
	}
}

// thread sets the sizes of a thread.
func (b *builder) thread(t fastener.Thread) {
	b.number(margin.ThreadPitch, float64(t.PitchLength()))
	b.number(margin.PitchDiameter, float64(t.PitchDiameter()))
	b.number(margin.CoreDiameter, float64(t.MinorDiameter()))
	b.number(margin.StressDiameter, float64(t.StressDiameter()))
	b.number(margin.StressArea, float64(t.StressArea()))
	b.number(margin.ThreadShear, float64(t.StripArea()))
}

// beside sets how the wall bends beside the end.
func (b *builder) beside() {
	if !b.given(b.there(margin.Bore, margin.Wall, margin.Edge, margin.ToGroove, margin.TubePoisson), margin.EdgeFactor) {
		return
	}
	factors := casing.EndBendingFactors(b.span(margin.Bore), b.span(margin.Wall), b.span(margin.Edge), b.span(margin.ToGroove), b.span(margin.TubePoisson)[0])
	b.set(margin.EdgeFactor, factors)
}

// tightening sets the preload of screws that are tightened to a torque.
func (b *builder) tightening(w *Screws) {
	if !b.given(w.Torque.IsSet() && b.there(margin.ScrewDiameter), margin.Preload, margin.Friction) {
		return
	}
	mu, notes := w.Friction.SI(), margin.Notes(0)
	if !w.Friction.IsSet() {
		mu, notes = fastener.LeastFriction, margin.Of(margin.FrictionAssumed)
	}
	b.part.table.Set(margin.Friction, margin.Exactly(mu), margin.None, notes)
	t := w.Thread
	preload := fastener.Preload(quantity.Torque(w.Torque.SI()), t.PitchLength(), t.PitchDiameter(), quantity.LengthOf(t.Diameter), mu)
	b.part.table.Set(margin.Preload, margin.Exactly(float64(preload)), margin.None, notes)
}

// screwStrength sets the strength of the screws at the hotter of tube and end.
func (b *builder) screwStrength(w *Screws) {
	hottest := max(b.tubeAt, b.endAt)
	ratio, reason := fastener.SteelStrengthRatio(hottest)
	if w.Class.Curve != "" {
		ratio, reason = math.NaN(), margin.ScrewTemperature
		if curve, ok := materials.Curve(w.Class.Curve); ok {
			if r := curve.At(materials.Ultimate, hottest); r.Reason == margin.None {
				ratio, reason = r.SI, margin.None
			}
		}
	}
	notes := margin.Notes(0)
	if d := quantity.LengthOf(w.Thread.Diameter); d < w.Class.MinDiameter || d > w.Class.MaxDiameter {
		notes = margin.Of(margin.ClassSize)
	}
	b.part.table.Set(margin.ScrewStrength, margin.Exactly(float64(w.Class.Ultimate)*ratio), reason, notes)
	b.part.table.Set(margin.ScrewYield, margin.Exactly(float64(w.Class.Yield)*ratio), reason, notes)
}

// other is the end of another tolerance that goes with an end: the smallest
// hole with the farthest edge.
var other = [3]int{0, 2, 1}

// holes sets what the holes in the tube leave.
func (b *builder) holes(e *End) {
	w := &e.Screws
	table := &b.part.table
	hole, edge := b.size(margin.Hole, w.Hole.Dimension), b.size(margin.Edge, w.Edge.Dimension)
	edgeBreak := [3]float64{}
	if w.EdgeBreak.IsSet() {
		edgeBreak = w.EdgeBreak.metres()
	}
	sink := b.exactly(margin.Sink, exactly(decimal.Zero))
	deep := margin.None
	if w.HeadDepth.IsSet() {
		sink = b.size(margin.Sink, w.HeadDepth.Dimension)
		if b.there(margin.Wall) && b.part.exact[margin.Sink][margin.Greatest].Mul(decimal.NewFromInt(3)).Cmp(b.part.exact[margin.Wall][margin.Least].Mul(two)) > 0 {
			deep = margin.DeepSink
		}
	}
	lost, chamfered := margin.Span{}, margin.None
	if lead := b.design.Tube.LeadIn; lead.IsSet() {
		lengths, angle := lead.metres(), quantity.Angle(b.design.Tube.leadInAngle())
		lost = each(func(i int) float64 { return float64(fastener.Chamfer(quantity.Length(lengths[i]), angle)) })
		if b.there(margin.Hole, margin.Edge) && w.Edge.Least().Sub(w.Hole.Greatest().Mul(half)).Cmp(lead.Greatest()) < 0 {
			chamfered = margin.LeadInAtHole
		}
	}
	table.Set(margin.ChamferArea, lost, chamfered, 0)
	if b.given(b.there(margin.Wall), margin.BearingThickness) {
		wall := b.span(margin.Wall)
		bears := each(func(i int) float64 {
			j := other[i]
			return float64(fastener.BearingThickness(quantity.Length(wall[i]), quantity.Length(edgeBreak[j]), quantity.Length(sink[j])))
		})
		table.Set(margin.BearingThickness, bears, firstReason(deep, chamfered), table.Notes[margin.Wall])
	}
	bears := b.given(b.there(margin.Hole, margin.Edge, margin.TubeYield), margin.HoleBearingUltimate, margin.HoleBearingYield, margin.HoleBearingGreatest)
	b.fit(e)
	shares := b.given(bears && b.there(margin.Wall, margin.ScrewStrength), margin.ShareBreaks)
	if !bears {
		return
	}
	material := b.design.Tube.Material.Material
	var ultimate, yield [3]materials.Reading
	for i := range 3 {
		ultimate[i], yield[i] = material.Bearing(edge[i]/hole[other[i]], b.tubeAt)
	}
	b.readings(margin.HoleBearingUltimate, ultimate, margin.Least, b.strength)
	b.readings(margin.HoleBearingYield, yield, margin.Least, b.strength)
	b.readings(margin.HoleBearingGreatest, ultimate, margin.Greatest, b.strength)
	if shares {
		b.share(w, ultimate)
	}
}

// share sets the share of the load that the hardest-loaded screw takes when
// something breaks.
func (b *builder) share(w *Screws, ultimate [3]materials.Reading) {
	table := &b.part.table
	wall, d, hole, edge := b.span(margin.Wall), b.span(margin.ScrewDiameter), b.span(margin.Hole), b.span(margin.Edge)
	shear := fastener.Shear(b.span(margin.ShearFactor)[0], quantity.Pressure(b.span(margin.ScrewStrength)[0]), quantity.Area(b.span(margin.ShearArea)[0]))
	fsu := quantity.Pressure(b.span(margin.TubeShear)[0])
	share := b.span(margin.Share)
	for i := range share {
		// At the worst sizes the hole is at its strongest: thickest wall,
		// farthest edge, smallest hole.
		j := [3]int{0, 2, 2}[i]
		ratio := fastener.Redistribution(shear, quantity.Pressure(ultimate[j].SI), fsu, quantity.Length(d[0]),
			quantity.Length(wall[j]), quantity.Length(edge[j]), quantity.Length(hole[other[j]]))
		// What cannot be computed at one end of the tolerances counts as not
		// sharing, so that a wider tolerance never lowers the share.
		unknown := i != int(margin.Only) && ultimate[margin.Least].Reason != margin.None
		if !(ratio >= leastRedistribution) || unknown || table.Reasons[margin.TubeShear] != margin.None {
			share[i] = math.Max(share[i], raisedShare)
		}
	}
	notes := margin.Notes(0)
	if share[margin.Greatest] > b.span(margin.Share)[0] {
		notes |= margin.Of(margin.ShareRaised)
		if w.Class.LowDuctility {
			notes |= margin.Of(margin.LowScrewDuctility)
		}
	}
	table.Set(margin.ShareBreaks, share, margin.None, notes)
}

// fit sets how the holes fit their screws, and what follows from their places.
func (b *builder) fit(e *End) {
	w := &e.Screws
	if b.given(b.there(margin.Bore, margin.Wall, margin.Hole, margin.Count), margin.PeakFactor) {
		bore, wall, hole, n := b.span(margin.Bore), b.span(margin.Wall), b.span(margin.Hole), b.span(margin.Count)[0]
		factor := func(i, j int) float64 {
			arc := fastener.Arc(quantity.Length(bore[j]), quantity.Length(wall[j]), n)
			return fastener.PeakFactor(hole[i] / float64(arc))
		}
		// Over the pressure on the least hole; the least pitch hurts, and of the
		// holes sometimes the least and sometimes the greatest.
		b.set(margin.PeakFactor, margin.Span{
			factor(0, 0), factor(1, 2), math.Max(factor(1, 1), factor(2, 1)*hole[1]/hole[2]),
		})
	}
	// A position that is not given is told as a note.
	b.number(margin.Position, math.NaN())
	b.number(margin.FirstLoad, math.NaN())
	if !w.Position.IsSet() {
		return
	}
	b.exactly(margin.Position, exactly(w.Position.Greatest()))
	tube, end := b.design.Tube.Material.Material, e.Material.Material
	if !b.given(tube != nil && end != nil && b.there(margin.Wall, margin.Hole, margin.EngagedLength), margin.FirstLoad) {
		return
	}
	wall, engaged, hole := b.span(margin.Wall), b.span(margin.EngagedLength), b.span(margin.Hole)
	ofTube, ofEnd := tube.At(materials.Modulus, b.tubeAt), end.At(materials.Modulus, b.endAt)
	load := func(spread float64, t, l int) float64 {
		return float64(fastener.FirstLoad(quantity.LengthOf(w.Position.Greatest()), quantity.Length(spread), quantity.Length(wall[t]),
			quantity.Length(engaged[l]), quantity.LengthOf(w.Thread.Diameter), quantity.Pressure(ofTube.SI), quantity.Pressure(ofEnd.SI)))
	}
	// A screw may be stiffer for more engagement, or for less.
	spread := hole[margin.Greatest] - hole[margin.Least]
	first := margin.Span{
		load(0, 0, 0), min(load(spread, 1, 1), load(spread, 1, 2)),
		max(load(spread, 1, 1), load(spread, 1, 2), load(spread, 2, 1), load(spread, 2, 2)),
	}
	b.part.table.Set(margin.FirstLoad, first, firstReason(ofTube.Reason, ofEnd.Reason), ofTube.Notes|ofEnd.Notes)
}

// Where the holes do not give before a screw shears, the hardest-loaded screw
// is taken 1.25 times the mean. Source: EN 1993-1-8 3.7 and the joint guide's
// factor 0.8 on a group of bolts.
const (
	leastRedistribution = 1.2
	raisedShare         = 1.25
)

// readings sets a term whose three values are read apart; the reason and the
// notes are those of the end that the formulas take.
func (b *builder) readings(t margin.Term, r [3]materials.Reading, end margin.End, also margin.Reason) {
	b.read(t, r[end], also)
	b.part.table.Spans[t] = margin.Span{r[0].SI, r[1].SI, r[2].SI}
}

// body sets what the end itself bears.
func (b *builder) body(e *End) {
	at := b.endAt
	b.drilled(e)
	b.plate(e)
	b.size(margin.InsertDiameter, e.Insert.Dimension)
	b.size(margin.LipDiameter, e.LipDiameter.Dimension)
	b.size(margin.Lip, e.Lip.Dimension)
	material := e.Material.Material
	known := b.given(material != nil, margin.EndYield, margin.EndUltimate, margin.EndShear, margin.EndPoisson)
	bears := b.given(known && b.there(margin.ToGroove, margin.ScrewDiameter), margin.EndBearingUltimate, margin.EndBearingYield)
	if !known {
		return
	}
	b.read(margin.EndYield, material.At(materials.Yield, at), margin.None)
	b.read(margin.EndUltimate, material.At(materials.Ultimate, at), margin.None)
	b.read(margin.EndShear, material.At(materials.Shear, at), margin.None)
	b.read(margin.EndPoisson, material.At(materials.Poisson, at), margin.None)
	if !bears {
		return
	}
	toGroove, d := b.span(margin.ToGroove), b.span(margin.ScrewDiameter)
	var ultimate, yield [3]materials.Reading
	for i := range 3 {
		ultimate[i], yield[i] = material.Bearing(toGroove[i]/d[i], at)
	}
	b.readings(margin.EndBearingUltimate, ultimate, margin.Least, margin.None)
	b.readings(margin.EndBearingYield, yield, margin.Least, margin.None)
}

// drilled sets how deep the holes of the screws go into the end.
func (b *builder) drilled(e *End) {
	if b.given(e.Screws.DrilledTo(quantity.Dimension.Nominal).Sign() > 0, margin.Drilled) {
		b.exactly(margin.Drilled, [3]decimal.Decimal{
			e.Screws.DrilledTo(quantity.Dimension.Nominal), e.Screws.DrilledTo(quantity.Dimension.Least), e.Screws.DrilledTo(quantity.Dimension.Greatest),
		})
	}
}

// withinHoles is the radius of what is left of an end within the holes of its
// screws.
func (b *builder) withinHoles() [3]decimal.Decimal {
	outside, depth := b.part.exact[margin.EndDiameter], b.part.exact[margin.Drilled]
	return [3]decimal.Decimal{outside[0].Mul(half).Sub(depth[0]), outside[1].Mul(half).Sub(depth[2]), outside[2].Mul(half).Sub(depth[1])}
}

// plate sets the plate of a bulkhead and what its port does to it.
func (b *builder) plate(e *End) {
	table := &b.part.table
	b.size(margin.Plate, e.Plate.Dimension)
	port := b.port(e)
	switch {
	case port[margin.Greatest].Sign() == 0 && (e.Port.IsSet() || e.PortThread.given()):
		b.number(margin.PortFactor, 1) // said to be solid
	case port[margin.Greatest].Sign() == 0:
		table.Set(margin.PortFactor, margin.Exactly(1), margin.None, margin.Of(margin.TakenAsSolid))
	case !b.given(b.there(margin.Bore), margin.PortFactor):
	case port[margin.Greatest].Cmp(b.part.exact[margin.Bore][margin.Least].Mul(largestPort)) > 0:
		table.Set(margin.PortFactor, margin.Exactly(math.NaN()), margin.PortTooLarge, 0)
	default:
		b.number(margin.PortFactor, 2)
	}
}

var largestPort = decimal.NewFromFloat(closure.LargestPort)

// port sets the hole in the plate, 0 for a solid one, and the metal round and
// under its pipe thread. A thread is as wide a hole as its pipe.
func (b *builder) port(e *End) [3]decimal.Decimal {
	port := exactly(decimal.Zero)
	if e.Port.IsSet() {
		port = [3]decimal.Decimal{e.Port.Nominal(), e.Port.Least(), e.Port.Greatest()}
	}
	thread := e.PortThread.PipeThread
	if !b.given(thread.Name != "", margin.PipeThreadLength, margin.PortWallLimit, margin.PortLength, margin.PortWall, margin.PortFloor) {
		b.exactly(margin.Port, port)
		return port
	}
	port = exactly(thread.Diameter)
	b.exactly(margin.Port, port)
	b.exactly(margin.PipeThreadLength, exactly(thread.EffectiveLength()))
	b.exactly(margin.PortWallLimit, exactly(thread.CouplingWall()))
	radius := thread.Diameter.Mul(half)
	if groove := e.Seal.GrooveDiameter; b.given(groove.IsSet() && b.there(margin.Drilled, margin.EndDiameter), margin.PortWall) {
		within := b.withinHoles()
		b.exactly(margin.PortWall, [3]decimal.Decimal{
			decimal.Min(groove.Nominal().Mul(half), within[0]).Sub(radius),
			decimal.Min(groove.Least().Mul(half), within[1]).Sub(radius),
			decimal.Min(groove.Greatest().Mul(half), within[2]).Sub(radius),
		})
	}
	plate, hole := e.Plate, e.PortDepth
	if b.given(plate.IsSet() && hole.IsSet(), margin.PortFloor) {
		b.exactly(margin.PortFloor, [3]decimal.Decimal{
			plate.Nominal().Sub(hole.Nominal()), plate.Least().Sub(hole.Greatest()), plate.Greatest().Sub(hole.Least()),
		})
	}
	if !hole.IsSet() {
		hole = plate // the port goes through
	}
	if b.given(plate.IsSet(), margin.PortLength) {
		b.exactly(margin.PortLength, [3]decimal.Decimal{
			decimal.Min(plate.Nominal(), hole.Nominal()), decimal.Min(plate.Least(), hole.Least()), decimal.Min(plate.Greatest(), hole.Greatest()),
		})
	}
	return port
}

// gapHot is the temperature above which the table of gaps is doubtful, 71 °C
// (160 °F), as the seal makers say.
const gapHot = 71 + 273.15

func (b *builder) seal(number int) {
	e := &b.design.Ends[number]
	s := &e.Seal
	bore, outside, groove := b.span(margin.Bore), b.span(margin.EndDiameter), b.span(margin.GrooveDiameter)
	section := b.size(margin.Section, s.section())
	inside := b.size(margin.RingInside, s.inside())
	if b.given(b.there(margin.Section, margin.RingInside, margin.GrooveDiameter), margin.StretchedSection) {
		b.set(margin.StretchedSection, each(func(i int) float64 {
			return float64(seal.Stretched(quantity.Length(section[i]), quantity.Length(groove[i]), quantity.Length(inside[i])))
		}))
	}
	fits := b.there(margin.Bore, margin.EndDiameter)
	if b.given(fits, margin.Offset) {
		b.set(margin.Offset, margin.Span{
			(bore[0] - outside[0]) / 2, (bore[1] - outside[2]) / 2, (bore[2] - outside[1]) / 2,
		})
	}
	if b.given(fits && (b.tubeAt == room || b.there(margin.TubeYield)) && (b.endAt == room || b.there(margin.EndYield)), margin.HeatOpening, margin.HeatClosing) {
		b.heats(number, bore, outside)
	}
	if opening := b.part.table.Spans[margin.HeatOpening]; b.given(b.there(margin.Bore, margin.EndDiameter, margin.HeatOpening), margin.Packing) {
		// The end lies on one side, and all the room is on the other.
		b.set(margin.Packing, margin.Span{
			bore[0] - outside[0] + 2*opening[0], math.Max(0, bore[1]-outside[2]), bore[2] - outside[1] + 2*opening[2],
		})
	}
	if b.given(b.there(margin.Section), margin.SqueezeLimit) {
		most := squeezeMost
		if nominal := s.section().Nominal(); nominal.Cmp(smallSection) <= 0 {
			most = squeezeMostSmall
		}
		b.exactly(margin.SqueezeLimit, exactly(most))
	}
	b.rubber(s, number)
}

// heats sets how heat opens and closes the room between end and bore.
func (b *builder) heats(number int, bore, outside margin.Span) {
	e, table := &b.design.Ends[number], &b.part.table
	tubeHeat := strain(b.design.Tube.Material.Material, b.tubeAt)
	endHeat := strain(e.Material.Material, b.endAt)
	reason, hot := firstReason(tubeHeat.Reason, endHeat.Reason), tubeHeat.Notes|endHeat.Notes
	opening := func(d, p float64) float64 {
		return float64(seal.HeatOpening(tubeHeat.SI, endHeat.SI, quantity.Length(d), quantity.Length(p)))
	}
	// Cold and hot are both looked at: the least of each is the cold one, 0.
	table.Set(margin.HeatOpening, margin.Span{opening(bore[0], outside[0]), 0, opening(bore[2], outside[1])}, reason, hot)
	// The tube may be hotter elsewhere than round this end, and helps less here.
	round := tubeHeat
	if own := b.hot.beside[number]; own.IsSet() {
		round = strain(b.design.Tube.Material.Material, own.kelvin())
	}
	closing := func(d, p float64) float64 { return math.Max(0, endHeat.SI*p-round.SI*d) }
	table.Set(margin.HeatClosing, margin.Span{closing(bore[0], outside[0]), 0, closing(bore[1], outside[2])}, reason, hot)
	if span := b.span(margin.HeatClosing); span[margin.Greatest] == 0 && span[margin.Only] == 0 {
		b.part.exact[margin.HeatClosing] = exactly(decimal.Zero)
	}
}

// rubber sets what the compound of the ring bears.
func (b *builder) rubber(s *Seal, number int) {
	table := &b.part.table
	gland, hotter, colder := b.tubeAt, b.hot.tube, b.hot.end[number]
	if b.endAt > b.tubeAt {
		gland, hotter, colder = b.endAt, b.hot.end[number], b.hot.tube
	}
	if own := b.hot.gland[number]; own.IsSet() && !b.design.Tube.Temperature.IsSet() {
		gland, hotter = own.kelvin(), own
	}
	warm := math.Max(0, float64(gland)-room)
	table.Set(margin.Heating, margin.Span{warm, 0, warm}, margin.None, 0)
	b.exactly(margin.GlandTemperature, exactly(kelvinAbove20(hotter)))
	if math.IsNaN(float64(gland)) {
		b.number(margin.GlandTemperature, math.NaN())
	}
	// The ring must seal at ignition, before anything is warm: heat that comes
	// later earns nothing.
	b.exactly(margin.ColdGland, exactly(decimal.Min(decimal.Zero, kelvinAbove20(colder), kelvinAbove20(b.hot.initial))))

	if soak := b.hot.soak[number]; b.given(soak.IsSet() || b.hot.failed, margin.SoakGland) {
		if b.exactly(margin.SoakGland, exactly(kelvinAbove20(soak))); b.hot.failed {
			b.number(margin.SoakGland, math.NaN())
		}
	}
	b.afterwards(number)
	c := &s.Compound
	made := b.given(c.Name != "", margin.Swell, margin.RubberExpansion, margin.CompoundLimit, margin.ColdLimit, margin.GapShare)
	if made {
		b.number(margin.Swell, c.Swell)
		b.number(margin.RubberExpansion, c.Expansion)
		b.exactly(margin.CompoundLimit, exactly(decimal.NewFromFloat(float64(c.Limit)).Sub(room20)))
		b.exactly(margin.ColdLimit, exactly(decimal.NewFromFloat(float64(c.Least)).Sub(room20)))
		b.number(margin.GapShare, c.GapShare)
	}
	hardness := float64(s.Hardness.Value)
	if b.given(s.Hardness.Value > 0, margin.Hardness) {
		b.number(margin.Hardness, hardness)
	}
	if !b.given(made && b.there(margin.Hardness, margin.Pressure), margin.GapLimit) {
		return
	}
	gap, why := seal.GapLimit(b.design.Pressure.Amount, hardness, c.GapShare)
	notes := margin.Notes(0)
	if gland > gapHot {
		notes |= margin.Of(margin.GapHot)
	}
	if b.design.limit(seal.Gap.ID) != nil {
		why = margin.None
	}
	table.Set(margin.GapLimit, margin.Exactly(float64(gap)), why, notes)
}

// afterwards sets what heat leaves of an end and of the washers at its screws.
func (b *builder) afterwards(number int) {
	e, h := &b.design.Ends[number], b.hot.ofEnd(b.design, number)
	if b.given(b.design.IsHeated(number) && e.Material.Material != nil, margin.EndKept) {
		if b.number(margin.EndKept, math.NaN()); h != nil {
			b.read(margin.EndKept, e.Material.Kept(materials.Yield, b.hot.exposure(h.Metal)), margin.None)
		}
	}
	if b.given(b.design.IsHeated(number) && e.Screws.softens(), margin.HotScrews, margin.WasherLimit) {
		b.exactly(margin.WasherLimit, exactly(decimal.NewFromFloat(float64(e.Screws.Washer.Softens)).Sub(room20)))
		if b.exactly(margin.HotScrews, exactly(kelvinAbove20(b.hot.bolts[number]))); h == nil {
			b.number(margin.HotScrews, math.NaN())
		}
	}
}

// softens tells whether there are washers that heat may soften.
func (s *Screws) softens() bool { return s.Washer.Washer != nil && s.Washer.Softens > 0 }

// The greatest squeeze, and that of sections up to 1.80 mm. Source: see
// seal.SqueezeMost.
var (
	squeezeMost      = decimal.RequireFromString("0.30")
	squeezeMostSmall = decimal.RequireFromString("0.32")
	smallSection     = decimal.RequireFromString("0.00180")
	room20           = decimal.RequireFromString("293.15")
)

// strain is the thermal strain of a material from 20 °C.
func strain(m *materials.Material, t quantity.Temperature) materials.Reading {
	if t == room {
		return materials.Reading{} // of whatever material
	}
	r := m.At(materials.Expansion, t)
	r.SI *= float64(t) - room
	return r
}

// kelvinAbove20 is a temperature less 20 °C, in K. It is exact for K and °C;
// for °F it is rounded far beyond any limit that is written in degrees.
func kelvinAbove20(a Amount) decimal.Decimal {
	if !a.IsSet() {
		return decimal.Zero
	}
	return a.ExactSI().Sub(room20)
}

// limit is the design file's own limit of a check, nil where it gives none.
func (d *Design) limit(id string) *Limit {
	for i := range d.Limits {
		if d.Limits[i].ID == id {
			return &d.Limits[i]
		}
	}
	return nil
}

// rows applies methods to the part whose terms have been set.
func (b *builder) rows(methods []*margin.Method, number uint8) []margin.Row {
	rows := make([]margin.Row, 0, len(methods))
	for _, m := range methods {
		rows = append(rows, margin.Row{Method: m, Part: number, Min: math.NaN(), Max: math.NaN()})
		row := &rows[len(rows)-1]
		var limit quantity.Amount
		x := math.NaN()
		if own := b.design.limit(m.ID); own != nil {
			limit, x, row.OwnLimit = own.Amount.Amount, own.SI(), true
		} else if m.Default != "" {
			c := constants()[m]
			limit, x = c.limits[0], c.si[0]
		}
		if limit.IsSet() {
			if m.Kind == margin.AtMost {
				row.Max = x
			} else {
				row.Min = x
			}
		}
		if m.DefaultMost != "" {
			row.Max = constants()[m].si[1]
		}
		b.remarks(row, number)
		if b.design.Open && b.lacks(row) {
			rows = rows[:len(rows)-1]
			continue
		}
		row.Bind(&b.part.table)
		if m.Slack != nil {
			row.Sign = b.sign(row, limit, false)
			row.Nominal = b.sign(row, limit, true)
		}
	}
	return rows
}

// lacks tells that the design does not give what a row needs. A lead-in that is
// not given is told as a note.
func (b *builder) lacks(row *margin.Row) bool {
	return slices.ContainsFunc(row.Method.Symbols, func(s margin.Symbol) bool {
		return b.part.absent[s.Term] && !(row.NoVerdict && s.Term == margin.LeadIn)
	})
}

// constant limits of a method, exact and in SI.
type limits struct {
	limits [2]quantity.Amount
	si     [2]float64
}

// constants are the limits that methods are defined with, read once.
var constants = sync.OnceValue(func() map[*margin.Method]*limits {
	all := map[*margin.Method]*limits{}
	for _, m := range allMethods() {
		var l limits
		for i, text := range []string{m.Default, m.DefaultMost} {
			if text != "" {
				l.limits[i] = constant(m.Unit, text)
				l.si[i] = l.limits[i].SI()
			}
		}
		all[m] = &l
	}
	return all
})

func constant(k quantity.Kind, text string) quantity.Amount {
	a, err := quantity.Parse(k, text)
	if err != nil {
		panic("casewright: limit " + text + ": " + err.Error()) // a test reads every method's limit
	}
	return a
}

// remarks gives a row the notes that it always carries.
func (b *builder) remarks(row *margin.Row, number uint8) {
	tube := &b.design.Tube
	switch row.Method {
	case &casing.BurstPressure:
		if tube.Material.Material == nil {
			return
		}
		if e := tube.Material.At(materials.Elongation, room); e.SI < 0.08 {
			row.Notes |= margin.Of(margin.LowElongation)
		}
		if tube.Material.Form.MayHaveSeams() {
			row.Notes |= margin.Of(margin.Seamless)
		}
	case &fastener.Pitch:
		if b.design.Ends[number-1].Screws.Count.Value < 6 {
			row.Notes |= margin.Of(margin.FewScrews)
		}
	case &fastener.HoleFit, &fastener.FirstContact:
		if !b.design.Ends[number-1].Screws.Position.IsSet() {
			row.NoVerdict = true
			if row.Method == &fastener.HoleFit {
				row.Notes |= margin.Of(margin.Transferred)
			}
		}
	case &seal.Insertion:
		if !tube.LeadIn.IsSet() {
			row.NoVerdict = true
			row.Notes |= margin.Of(margin.NoLeadIn)
		}
		if !b.design.Ends[number-1].Screws.EdgeBreak.IsSet() {
			row.Notes |= margin.Of(margin.NoEdgeBreak)
		}
	}
}

// undecided is how near to 0 a computed margin must lie for the exact answer
// to be asked: far more than a float64 loses, and rarely met.
const undecided = 1e-9

// sign is the exact answer of a row at its limit.
func (b *builder) sign(row *margin.Row, limit quantity.Amount, nominal bool) margin.Sign {
	var c margin.Check
	row.Evaluate(&c, &b.part.table, nominal)
	if !(math.Abs(c.Margin) <= undecided) {
		return margin.Undecided
	}
	known := true
	slack := row.Method.Slack(margin.Exact{
		At: func(t margin.Term, e margin.End) decimal.Decimal {
			x, ok := b.part.exact[t]
			if !ok {
				known = false
				return decimal.Zero
			}
			if nominal {
				e = margin.Only
			}
			return x[e]
		},
		Limit: limit.ExactSI(),
		Own:   row.OwnLimit,
	})
	switch {
	case !known:
		return margin.Undecided
	case slack.Sign() < 0:
		return margin.Below
	case slack.Sign() == 0:
		return margin.Equal
	}
	return margin.Above
}
