package sizing

import (
	"math"
	"slices"

	"github.com/shopspring/decimal"

	"casewright"
	"casewright/margin"
	"casewright/quantity"
)

// smallestStep is how finely the exact answer is told, in m: one micrometre.
var smallestStep = decimal.New(1, -6)

// wanted is a size that is looked for.
type wanted struct {
	*variable
	part      int
	tolerance *quantity.Dimension // of which the deviations are wished for; nil for the usual
}

// solver settles sizes in a design, which it changes.
type solver struct {
	design *casewright.Design
	unit   quantity.Unit
	need   float64 // least margin of every strength that a size can move
	sizes  []*wanted
}

// unitOf is the unit in which a design gives its tube.
func unitOf(d *casewright.Design) quantity.Unit {
	for _, size := range []casewright.Dimension{d.Tube.Outside, d.Tube.Inside, d.Tube.Wall} {
		if size.IsSet() {
			return size.Unit()
		}
	}
	return quantity.MustUnit("mm")
}

// trial is what the checks say of a design.
type trial struct {
	faults error // why it cannot be built
	checks []margin.Check
}

func try(d *casewright.Design) trial {
	if err := d.Faults(); err != nil {
		return trial{faults: err}
	}
	return trial{checks: casewright.NewMotor(d).Evaluate(nil)}
}

// good tells whether a check holds, with the margin that is needed of a
// strength; a limit need only be kept.
func good(c *margin.Check, need float64) bool {
	if c.Method.Kind != margin.Strength {
		need = 0
	}
	return c.Verdict == margin.Noted || c.Verdict == margin.Pass && c.Margin >= need
}

// at is a copy of the design with one size set.
func (s *solver) at(w *wanted, d casewright.Dimension) *casewright.Design {
	c := s.design.Clone()
	*w.dimension(&site{c, w.part}) = d
	return c
}

func (s *solver) drawn(w *wanted, nominal decimal.Decimal) casewright.Dimension {
	return w.drawn(&site{s.design, w.part}, nominal, s.unit, w.tolerance)
}

// settle settles all sizes, one after the other, until none changes.
func (s *solver) settle() {
	for _, w := range s.sizes {
		where := &site{s.design, w.part}
		*w.dimension(where) = s.drawn(w, s.seed(w, where))
	}
	s.resettle()
}

// resettle settles all sizes from where they are, one after the other, until
// as many in a row as there are have stayed as they were.
func (s *solver) resettle() {
	for i, still := 0, 0; i < 12*len(s.sizes) && still < len(s.sizes); i++ {
		w := s.sizes[i%len(s.sizes)]
		kept := s.design
		s.design = kept.Clone()
		s.free(w)
		before := *w.dimension(&site{kept, w.part})
		after, ok := s.size(w)
		if !ok || before.Equal(after.Dimension) {
			s.design = kept
			still++
			continue
		}
		*w.dimension(&site{s.design, w.part}) = after
		still = 1
	}
}

// free takes back the sizes that must follow another, so that they do not hold
// it up; they are settled after it.
func (s *solver) free(w *wanted) {
	for _, other := range s.sizes {
		if where := (&site{s.design, other.part}); other.part == w.part && slices.Contains(w.frees, other.key) {
			*other.dimension(where) = s.drawn(other, s.seed(other, where))
		}
	}
}

// seed is the size that is taken until it is settled.
func (s *solver) seed(w *wanted, where *site) decimal.Decimal {
	if w.practice != nil {
		if x, ok := w.practice(where); ok {
			return upTo(x, w.step(s.unit))
		}
	}
	return upTo(w.generous(where), w.step(s.unit))
}

// grid tries sizes over the part of a variable's range that can be built, the
// better before the worse.
func (s *solver) grid(w *wanted, at func(decimal.Decimal) trial) ([]decimal.Decimal, []trial) {
	where := &site{s.design, w.part}
	step := w.step(s.unit)
	list := s.between(w, s.buildable(w, upTo(w.from(where), step), upTo(w.to(where), step)))
	trials := make([]trial, len(list))
	for i, x := range list {
		trials[i] = at(x)
	}
	return list, trials
}

// buildable narrows a range to the sizes that can be built, and one step more
// on each side, where some can.
func (s *solver) buildable(w *wanted, bounds ...decimal.Decimal) []decimal.Decimal {
	const n = 24
	from, to := bounds[0], bounds[1]
	step := w.step(s.unit)
	stride := upTo(to.Sub(from).Div(decimal.NewFromInt(n)), step)
	if stride.Sign() <= 0 {
		return bounds
	}
	builds := func(x decimal.Decimal) bool { return s.at(w, s.drawn(w, x)).Faults() == nil }
	first, last := -1, -1
	at := func(i int) decimal.Decimal { return from.Add(stride.Mul(decimal.NewFromInt(int64(i)))) }
	for i := range n + 1 {
		if builds(at(i)) {
			last = i
			if first < 0 {
				first = i
			}
		}
	}
	if first < 0 {
		return bounds
	}
	low, high := at(first), at(last)
	if first > 0 {
		low = s.edge(at(first-1), low, step, builds).Sub(step)
	}
	if last < n {
		high = s.edge(at(last+1), high, step, builds).Add(step)
	}
	return []decimal.Decimal{low, high}
}

// between are sizes from one bound to the other, the better before the worse:
// in equal ratios, or in equal steps where the bounds are near each other.
func (s *solver) between(w *wanted, bounds []decimal.Decimal) []decimal.Decimal {
	step := w.step(s.unit)
	const n = 28
	var list []decimal.Decimal
	low, high := bounds[0].InexactFloat64(), bounds[1].InexactFloat64()
	if !(low > 0 && high >= low) {
		return nil
	}
	for i := range n + 1 {
		x := low + (high-low)*float64(i)/n
		if high > 2*low {
			x = low * math.Pow(high/low, float64(i)/n)
		}
		d := upTo(decimal.NewFromFloat(x), step)
		if i == n {
			// The last that can be built stands one step before the bound.
			list = append(list, upTo(bounds[1], step).Sub(step))
		}
		if len(list) == 0 || !list[len(list)-1].Equal(d) {
			list = append(list, d)
		}
	}
	if w.goal == largest {
		slices.Reverse(list)
	}
	return list
}

// size finds the best drawn size with all others as they are: the first at
// which every check passes that passes at some size. It tells whether there is
// a size at all that can be built.
func (s *solver) size(w *wanted) (casewright.Dimension, bool) {
	if d, ok := s.practised(w); ok {
		return d, true
	}
	list, trials := s.grid(w, func(x decimal.Decimal) trial { return try(s.at(w, s.drawn(w, x))) })
	asked := s.asked(trials)
	if asked == nil {
		return casewright.Dimension{}, false
	}
	if w.goal == middle {
		best := s.best(w, trials, asked)
		return s.drawn(w, s.climb(w, list[best], w.step(s.unit), list, asked)), true
	}
	// What this size holds up counts less than what it can make hold.
	tiers := []asks{asked, asked.possible(s.need)}
	if tiers[1].none() {
		tiers = tiers[:1] // nothing can hold: this size must not hold it up
	}
	for i, a := range tiers {
		if nominal, ok := s.firstDrawn(w, list, trials, a, i == len(tiers)-1); ok {
			return s.drawn(w, nominal), true
		}
	}
	return s.drawn(w, list[s.best(w, trials, tiers[len(tiers)-1])]), true
}

// possible is what is asked of the checks that can hold.
func (a asks) possible(need float64) asks {
	list := slices.Clone(a)
	for j := range list {
		if list[j] < min(need, 0) {
			list[j] = math.NaN()
		}
	}
	return list
}

// none tells that nothing is asked.
func (a asks) none() bool {
	return !slices.ContainsFunc(a, func(x float64) bool { return !math.IsNaN(x) })
}

// firstDrawn finds the first drawn size at which all that is asked is met;
// narrow windows between the sizes that were tried are looked for if wished.
func (s *solver) firstDrawn(w *wanted, list []decimal.Decimal, trials []trial, asked asks, windows bool) (decimal.Decimal, bool) {
	step := w.step(s.unit)
	passes := func(x decimal.Decimal) bool {
		t := try(s.at(w, s.drawn(w, x)))
		return s.holds(&t, asked)
	}
	best := s.best(w, trials, asked)
	switch held := s.holds(&trials[best], asked); {
	case held && best == 0:
		return list[0], true
	case held:
		return s.edge(list[best-1], list[best], step, passes), true
	case !windows:
		return decimal.Zero, false
	}
	return s.window(list[max(0, best-3)], list[min(len(list)-1, best+3)], step, passes)
}

// practised is the size that practice would draw, where every check of the part
// holds there.
func (s *solver) practised(w *wanted) (casewright.Dimension, bool) {
	if w.practice == nil {
		return casewright.Dimension{}, false
	}
	nominal, ok := w.practice(&site{s.design, w.part})
	if !ok {
		return casewright.Dimension{}, false
	}
	step := w.step(s.unit)
	nominal = nominal.Div(step).Round(0).Mul(step)
	if w.goal == largest {
		nominal = upTo(nominal.Neg(), step).Neg()
	}
	d := s.drawn(w, nominal)
	t := try(s.at(w, d))
	return d, s.holdsKeys(&t, w.part, sealed...)
}

// asks says which margin each check asks of a size; NaN where the size does not
// move it.
type asks []float64

// asked finds what is asked of a size from trials over its range: of a check
// that can hold, that it does; of one that is held up by something else too,
// that this size does not hold it up. Nil where no size can be built.
func (s *solver) asked(trials []trial) asks {
	var list asks
	for j := 0; ; j++ {
		low, high, noted, any, need := math.Inf(1), math.Inf(-1), false, false, s.need
		for i := range trials {
			if trials[i].faults != nil || j >= len(trials[i].checks) {
				continue
			}
			c := &trials[i].checks[j]
			any, noted = true, noted || c.Verdict == margin.Noted
			if c.Method.Kind != margin.Strength {
				need = 0
			}
			low, high = math.Min(low, reached(c)), math.Max(high, reached(c))
		}
		if !any {
			return list
		}
		switch {
		case noted:
			list = append(list, math.NaN())
		case high >= need:
			list = append(list, need)
		case high >= 0:
			list = append(list, 0) // it passes, if not by so much
		case high-low > 1e-9 && !math.IsInf(high, -1):
			list = append(list, high-1e-9*math.Max(1, math.Abs(high)))
		default:
			list = append(list, math.NaN())
		}
	}
}

// reached is the margin of a check; less than any where there is none.
func reached(c *margin.Check) float64 {
	if c.Verdict == margin.Refused || math.IsNaN(c.Margin) {
		return math.Inf(-1)
	}
	return c.Margin
}

// met tells whether a check has the margin that is asked of it.
func (a asks) met(j int, c *margin.Check) bool {
	return math.IsNaN(a[j]) || c.Verdict == margin.Noted || reached(c) >= a[j]
}

// holds tells whether all that is asked is met.
func (s *solver) holds(t *trial, asked asks) bool {
	if t.faults != nil {
		return false
	}
	for j := range t.checks {
		if !asked.met(j, &t.checks[j]) {
			return false
		}
	}
	return true
}

// best is the first trial in which all that is asked is met; where there
// is none, the one in which the least is missed.
func (s *solver) best(w *wanted, trials []trial, asked asks) int {
	best, least := -1, math.Inf(1)
	for i := range trials {
		if trials[i].faults != nil {
			continue
		}
		missed := 0.0
		for j := range trials[i].checks {
			if c := &trials[i].checks[j]; !asked.met(j, c) {
				missed += 1 + math.Min(1, asked[j]-math.Max(-1, reached(c)))/100
			}
		}
		if w.goal == middle && missed == 0 {
			missed = -squeezeRoom(trials[i].checks)
		}
		if missed < least {
			best, least = i, missed
		}
		if missed == 0 {
			return i
		}
	}
	return best
}

// squeezeRoom is how far the squeeze lies from its nearest limit, in parts of the
// section.
func squeezeRoom(checks []margin.Check) float64 {
	least := math.Inf(1)
	for i := range checks {
		c := &checks[i]
		if c.Method.Key != "end.seal.groove_diameter" || c.Method.Mode == margin.Rule && c.Method.Kind == margin.AtLeast {
			continue
		}
		if !math.IsNaN(c.Min) {
			least = math.Min(least, c.Value-c.Min)
		}
		if !math.IsNaN(c.Max) {
			least = math.Min(least, c.Max-c.Value)
		}
	}
	return least
}

// edge finds the last size that holds between one that does not and one that
// does, in whole steps.
func (s *solver) edge(fails, holds, step decimal.Decimal, passes func(decimal.Decimal) bool) decimal.Decimal {
	n := holds.Sub(fails).Div(step).Round(0).IntPart()
	side := int64(1)
	if n < 0 {
		n, side = -n, -1
	}
	at := func(i int64) decimal.Decimal { return fails.Add(step.Mul(decimal.NewFromInt(side * i))) }
	low, high := int64(0), n
	for high-low > 1 {
		if middle := (low + high) / 2; passes(at(middle)) {
			high = middle
		} else {
			low = middle
		}
	}
	if high == n {
		return holds
	}
	return at(high)
}

// window looks for the first size that passes in steps, as fine as a few
// hundred trials allow.
func (s *solver) window(from, to, step decimal.Decimal, passes func(decimal.Decimal) bool) (decimal.Decimal, bool) {
	const most = 240
	n := to.Sub(from).Abs().Div(step).Round(0).IntPart()
	stride := step.Mul(decimal.NewFromInt(n/most + 1))
	if to.Cmp(from) < 0 {
		stride = stride.Neg()
	}
	for x := from; x.Sub(to).Sign()*stride.Sign() <= 0; x = x.Add(stride) {
		if passes(x) {
			return x, true
		}
	}
	return decimal.Zero, false
}

// climb finds the drawn size with most room near one of the candidates.
func (s *solver) climb(w *wanted, from, step decimal.Decimal, list []decimal.Decimal, asked asks) decimal.Decimal {
	reach := step
	if len(list) > 1 {
		reach = list[1].Sub(list[0]).Abs()
	}
	rate := func(x decimal.Decimal) float64 {
		t := try(s.at(w, s.drawn(w, x)))
		if t.faults != nil {
			return math.Inf(-1)
		}
		missed := 0.0
		for i := range t.checks {
			if !asked.met(i, &t.checks[i]) {
				missed++
			}
		}
		return squeezeRoom(t.checks) - 10*missed
	}
	best, most := from, rate(from)
	for ; reach.Cmp(step) >= 0; reach = reach.Mul(decimal.RequireFromString("0.5")) {
		jump := upTo(reach, step)
		for _, x := range []decimal.Decimal{best.Sub(jump), best.Add(jump)} {
			if r := rate(x); r > most {
				best, most = x, r
			}
		}
	}
	return best
}
