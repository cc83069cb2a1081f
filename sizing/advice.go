package sizing

import (
	"cmp"
	"math"
	"slices"
	"strconv"
	"strings"

	"github.com/shopspring/decimal"

	"casewright"
	"casewright/closure"
	"casewright/fastener"
	"casewright/margin"
	"casewright/materials"
	"casewright/quantity"
	"casewright/seal"
)

// Advice says what to do about a check that fails.
type Advice struct {
	Result *casewright.Result
	Costs  []Loss // where only tolerances fail: the two that cost most, first the dearest
	Fixes  []Fix  // each makes the check pass
}

// A Loss is what the tolerance of one dimension takes from a check: its value
// (a limit) or its margin (a strength) would be that much better with the
// dimension at its nominal size. SI.
type Loss struct {
	Key  string
	Text string // the dimension as written
	Cost float64
	// Better is a dimension to write instead, after measuring the part or with
	// a tighter tolerance, and Value what the check then has; empty where none
	// was found that helps. Passes tells that the check then passes.
	Better Fix
	Value  float64
	Passes bool
}

// A Fix is what to write in the design file instead, to make a check pass.
type Fix struct {
	Key   string // as in "end.screws.edge"
	Text  string // the value, as one would write it
	Also  string // a second key and value that go with it; empty for none
	Bound string // "or more", "or less", or empty
	Fails []string
}

// Advise says what to do about a check that fails in a report. It tries sizes
// until the check passes, with the very checks of casewright.Check.
func Advise(r *casewright.Report, result *casewright.Result) Advice {
	a := Advice{Result: result}
	t := remedy{report: r, result: result}
	if result.ByTolerance() {
		a.Costs = t.costs()
	}
	a.Fixes = t.fixes()
	return a
}

// remedy evaluates one check in a changed copy of the design.
type remedy struct {
	report *casewright.Report
	result *casewright.Result
}

// change is a copy of the design and the end that the check belongs to.
func (t *remedy) change() (*casewright.Design, *casewright.End) {
	d := t.report.Design.Clone()
	return d, (&site{d, int(t.result.Check.Part)}).end()
}

// outcome is the check in a changed design; nil where it cannot be built.
func (t *remedy) outcome(d *casewright.Design) *margin.Check {
	c, _ := t.outcomes(d)
	return c
}

func (t *remedy) outcomes(d *casewright.Design) (*margin.Check, []margin.Check) {
	if d.Faults() != nil {
		return nil, nil
	}
	all := casewright.NewMotor(d).Evaluate(nil)
	for i := range all {
		if all[i].Method == t.result.Method && all[i].Part == t.result.Check.Part {
			return &all[i], all
		}
	}
	return nil, nil
}

// fails lists the checks that pass in the report and no longer do in a
// changed design.
func (t *remedy) fails(d *casewright.Design) []string {
	_, all := t.outcomes(d)
	var ids []string
	for i := range all {
		if i >= len(t.report.Results) {
			break
		}
		before := &t.report.Results[i]
		if before.Verdict == margin.Pass && all[i].Verdict != margin.Pass {
			ids = append(ids, before.ID())
		}
	}
	return ids
}

// measure is the measure of a check that rises as it gets better.
func measure(c *margin.Check) float64 {
	switch {
	case c == nil:
		return math.NaN()
	case c.Method.Kind == margin.Strength:
		return c.Margin
	case c.Method.Kind == margin.AtMost:
		return -c.Value
	}
	return c.Value
}

// dimension is the dimension of a key, in the part that the check belongs to;
// nil where it is none.
func (t *remedy) dimension(d *casewright.Design, key string) *casewright.Dimension {
	k := casewright.FindKey(key)
	if k == nil {
		return nil
	}
	field, _ := k.Field(d, int(t.result.Check.Part)).(*casewright.Dimension)
	return field
}

// costs finds the two dimensions whose tolerance costs the check most.
func (t *remedy) costs() []Loss {
	base := measure(&t.result.Check)
	var list []Loss
	for _, k := range casewright.Keys() {
		d, _ := t.change()
		field := t.dimension(d, k.Path)
		if field == nil || !field.IsSet() || !field.HasTolerance() {
			continue
		}
		written := field.Dimension
		field.Dimension = written.Exact()
		if cost := measure(t.outcome(d)) - base; cost > 1e-12 {
			list = append(list, Loss{Key: k.Path, Text: written.String(), Cost: cost})
		}
	}
	slices.SortStableFunc(list, func(a, b Loss) int {
		if a.Cost > b.Cost {
			return -1
		}
		return 1
	})
	list = list[:min(2, len(list))]
	for i := range list {
		t.tighten(&list[i])
		if i > 0 && list[i].Better.Text == list[0].Better.Text {
			list[i].Better = Fix{} // said already
		}
	}
	return list
}

// measured is the tolerance of a tube's size that has been measured with a
// micrometer or a bore gauge. Source: common practice, no source.
var measured = decimal.RequireFromString("0.00003") // m

// tighten finds a dimension to write instead of one whose tolerance is dear.
func (t *remedy) tighten(c *Loss) {
	d, _ := t.change()
	field := t.dimension(d, c.Key)
	written := field.Dimension
	nominal, _, _ := d.Tube.Nominal()
	switch {
	case (c.Key == "tube.outside_diameter" || c.Key == "tube.wall") && !d.Tube.Inside.IsSet():
		// Bought by outside diameter and wall: the bore is what matters.
		bore := written.WithNominal(nominal).WithDeviations(measured.Neg(), measured)
		d.Tube.Inside.Dimension, d.Tube.Outside = bore, casewright.Dimension{}
		t.try(c, d, "tube.inside_diameter", bore.String())
		c.Better.Also = "in place of outside_diameter"
	case strings.HasPrefix(c.Key, "tube.") && c.Key != "tube.lead_in":
		field.Dimension = written.WithDeviations(measured.Neg(), measured)
		t.try(c, d, c.Key, field.String())
	default:
		for _, share := range []string{"0.5", "0.25", "0.1"} {
			part := decimal.RequireFromString(share)
			d, _ := t.change()
			field := t.dimension(d, c.Key)
			field.Dimension = written.WithDeviations(written.Lower().Mul(part), written.Upper().Mul(part))
			t.try(c, d, c.Key, field.String())
			if check := t.outcome(d); check != nil && check.Verdict == margin.Pass {
				return
			}
		}
	}
}

// try notes a better dimension and what the check then has.
func (t *remedy) try(c *Loss, d *casewright.Design, key, text string) {
	check := t.outcome(d)
	if check == nil || !(measure(check) > measure(&t.result.Check)) {
		return
	}
	c.Better = Fix{Key: key, Text: strconv.Quote(text), Fails: t.fails(d)}
	c.Value, c.Passes = check.Value, check.Verdict == margin.Pass
	if check.Method.Kind == margin.Strength {
		c.Value = check.Margin
	}
}

// fixes finds what to write instead.
func (t *remedy) fixes() []Fix {
	switch t.result.Method {
	case &fastener.ScrewShear:
		return append(t.count(), t.thread()...)
	case &seal.Hardness:
		near := seal.Hardness.Default
		if t.result.Value > t.result.Max {
			near = seal.Hardness.DefaultMost
		}
		return []Fix{{Key: t.result.Key, Text: near}}
	case &seal.Temperature, &seal.Soak, &seal.Cold:
		return t.compound()
	case &fastener.WasherSoftens:
		return t.washer()
	}
	switch t.result.Key {
	case "end.screws.count":
		if list := t.count(); len(list) > 0 || !t.report.Design.Tube.Wall.IsSet() {
			return list
		}
		return t.size("tube.wall")
	case "tube.wall":
		if d := t.report.Design; !d.Tube.Wall.IsSet() {
			return t.size("tube.outside_diameter")
		}
	}
	list := t.size(t.result.Key)
	switch t.result.Method {
	case &closure.Land, &closure.LandBending:
		// The narrowest land may be another than that before the screws.
		for _, key := range []string{"end.seal.groove_spacing", "end.length"} {
			if len(list) == 0 {
				list = t.size(key)
			}
		}
	}
	if len(list) > 0 || !t.result.Method.Joint {
		return list
	}
	// The dimension that one would change first does not help: the load on
	// each screw, the screw or the wall will.
	list = append(t.count(), t.thread()...)
	if d := t.report.Design; strings.HasPrefix(t.result.Method.ID, "hole.") && d.Tube.Wall.IsSet() {
		list = append(list, t.size("tube.wall")...)
	}
	return list
}

// count finds the number of screws nearest to the present one that passes.
func (t *remedy) count() []Fix {
	_, e := t.change()
	now := e.Screws.Count.Value
	for step := 1; step <= 60; step++ {
		for _, n := range []int{now + step, now - step} {
			if n < 1 {
				continue
			}
			d, e := t.change()
			e.Screws.Count.Value = n
			if c := t.outcome(d); c != nil && c.Verdict == margin.Pass {
				bound := "or more"
				if n < now {
					bound = "or less"
				}
				return []Fix{{Key: "end.screws.count", Text: strconv.Itoa(n), Bound: bound, Fails: t.fails(d)}}
			}
		}
	}
	return nil
}

// thread finds the next thicker screw that passes, in the same system and
// pitch series, in a hole with the same room.
func (t *remedy) thread() []Fix {
	_, e := t.change()
	now := e.Screws.Thread.Thread
	var better []fastener.Thread
	for _, other := range fastener.Threads() {
		if other.Metric == now.Metric && other.Coarse == now.Coarse && other.Diameter.Cmp(now.Diameter) > 0 {
			better = append(better, other)
		}
	}
	slices.SortStableFunc(better, func(a, b fastener.Thread) int { return a.Diameter.Cmp(b.Diameter) })
	for _, other := range better {
		d, e := t.change()
		e.Screws.Thread.Thread = other
		hole := &e.Screws.Hole
		hole.Dimension = hole.WithNominal(hole.Nominal().Add(other.Diameter).Sub(now.Diameter))
		if c := t.outcome(d); c != nil && c.Verdict == margin.Pass {
			return []Fix{{
				Key: "end.screws.thread", Text: strconv.Quote(other.Name),
				Also: "hole = " + strconv.Quote(hole.String()), Fails: t.fails(d),
			}}
		}
	}
	return nil
}

// compound finds the rubber of the lowest limit that bears the gland.
func (t *remedy) compound() []Fix {
	list := slices.Clone(seal.Compounds())
	slices.SortStableFunc(list, func(a, b seal.Compound) int { return int(math.Copysign(1, float64(a.Limit-b.Limit))) })
	for _, other := range list {
		d, e := t.change()
		e.Seal.Compound.Compound = other
		if c := t.outcome(d); c != nil && c.Verdict == margin.Pass {
			return []Fix{{Key: "end.seal.compound", Text: strconv.Quote(other.Name), Fails: t.fails(d)}}
		}
	}
	return nil
}

// washer finds the material of washers that softens at the lowest temperature
// above that of the screws.
func (t *remedy) washer() []Fix {
	list := slices.DeleteFunc(materials.Washers(), func(w *materials.Washer) bool { return w.Softens == 0 })
	slices.SortStableFunc(list, func(a, b *materials.Washer) int { return cmp.Compare(a.Softens, b.Softens) })
	for _, other := range list {
		d, e := t.change()
		e.Screws.Washer.Washer = other
		if c := t.outcome(d); c != nil && c.Verdict == margin.Pass {
			return []Fix{{Key: "end.screws.washer", Text: strconv.Quote(other.Name), Fails: t.fails(d)}}
		}
	}
	return nil
}

// size finds the nominal size nearest to the present one at which the check
// passes, rounded to what a drawing would say; the tolerance stays.
func (t *remedy) size(key string) []Fix {
	field := t.dimension(t.report.Design, key)
	if field == nil || !field.IsSet() {
		return nil
	}
	now := field.Dimension
	step := drawingStep(now)
	passes := func(nominal decimal.Decimal) bool {
		d, _ := t.change()
		f := t.dimension(d, key)
		f.Dimension = now.WithNominal(nominal)
		c := t.outcome(d)
		return f.Least().Sign() > 0 && c != nil && c.Verdict == margin.Pass
	}
	// Step by step at first, for what passes may be a narrow window; then in
	// growing strides, until one side passes; then halving.
	for last, reach := int64(0), int64(1); reach <= 1<<13; last, reach = reach, max(reach+1, reach*21/20) {
		for _, side := range []int64{1, -1} {
			at := func(n int64) decimal.Decimal {
				return onStep(now.Nominal(), step, side).Add(step.Mul(decimal.NewFromInt(side * n)))
			}
			if !passes(at(reach)) {
				continue
			}
			low, high := last, reach
			for high-low > 1 {
				if middle := (low + high) / 2; passes(at(middle)) {
					high = middle
				} else {
					low = middle
				}
			}
			if low == 0 && passes(at(0)) && at(0).Cmp(now.Nominal()) != 0 {
				high = 0
			}
			d, _ := t.change()
			f := t.dimension(d, key)
			f.Dimension = now.WithNominal(at(high))
			bound := "or more"
			if side < 0 {
				bound = "or less"
			}
			return []Fix{{Key: key, Text: strconv.Quote(f.String()), Bound: bound, Fails: t.fails(d)}}
		}
	}
	return nil
}

// drawingStep is the step in which a drawing would give a size: as fine as it
// is written, at least 0.1 mm or 0.001 in, in metres.
func drawingStep(d quantity.Dimension) decimal.Decimal {
	unit := quantity.NewAmount(decimal.NewFromInt(1), d.Unit()).ExactSI()
	places := int32(1)
	if d.Unit().Symbol() == "in" {
		places = 3
	}
	for _, x := range []decimal.Decimal{d.Nominal(), d.Upper(), d.Lower()} {
		for places < 4 && !x.Mod(unit.Shift(-places)).IsZero() {
			places++
		}
	}
	return unit.Shift(-places)
}

// onStep is the size moved to a whole number of steps, away from the side
// that is being searched, so that the search begins at or before it.
func onStep(x, step decimal.Decimal, side int64) decimal.Decimal {
	rest := x.Mod(step)
	if rest.IsZero() {
		return x
	}
	if side > 0 {
		return x.Sub(rest)
	}
	return x.Sub(rest).Add(step)
}
