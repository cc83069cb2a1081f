package sizing

import (
	"fmt"
	"math"
	"slices"

	"github.com/shopspring/decimal"

	"casewright"
	"casewright/margin"
	"casewright/quantity"
)

// An Answer is what has been found, in a design that holds it.
type Answer struct {
	Question string
	Own      bool               // the tolerance to draw with was given
	Part     string             // the name of the end that is asked about; empty of a tube or a motor
	Design   *casewright.Design // with the drawn sizes in it
	Report   *casewright.Report // of that design
	Nearest  bool               // nothing passes: the design is what came nearest
	Problem  string             // why nothing could even be tried; empty if it could
	Lacks    []Lack             // checks of a groove that were not asked
	Remarks  []string           // what to keep in mind
	Values   []Value
	Options  []Option      // other answers that pass, the best first
	Budget   []Cost        // of a groove
	Mass     quantity.Mass // of tube, screws and plate of a motor, kg; of a tube alone, kg/m; else 0
}

// Drawn says after what the sizes of the answer are drawn, where their
// tolerance was not given.
func (a *Answer) Drawn() []string {
	var list []string
	for _, v := range a.Values {
		source := drawnAfter(v.Key)
		if a.Own && find(v.Key) != nil {
			continue
		}
		if v.Drawing != "" && source != "" && !slices.Contains(list, source) {
			list = append(list, source)
		}
	}
	return list
}

// Found tells that there is an answer.
func (a *Answer) Found() bool {
	return slices.ContainsFunc(a.Values, func(v Value) bool { return v.Drawing != "" })
}

// Holds tells that there is an answer with which every check that was asked
// passes.
func (a *Answer) Holds() bool {
	return a.Found() && !a.Nearest && len(a.Report.Results) > 0 && a.Report.Verdict == margin.Pass
}

// A Value is one key that has been found.
type Value struct {
	Key  string
	Part string // its name
	// Exact is the least (or greatest) size at which all holds, without a
	// tolerance, to a micrometre; unset for what is chosen from a list.
	Exact quantity.Dimension
	// Amount is the answer where it is a pressure; else unset.
	Amount quantity.Amount
	AtMost bool // the answer is the greatest, not the least
	// Drawing is what to write, as in a design file: "14.2 ±0.2 mm".
	Drawing string
	// Governs is the check that fails at one step less; its Method is nil where
	// the size cannot be built.
	Governs Governor
	Each    []Limit // what each check asks for itself, the strictest first
}

// A Governor is what keeps a size from being better still.
type Governor struct {
	Part   string
	Method *margin.Method
	Text   string // of what cannot be built, or why the check is refused
}

// ID names the check in its motor; empty where it is none.
func (g Governor) ID() string {
	if g.Method == nil {
		return ""
	}
	return g.Part + "/" + g.Method.ID
}

// A Lack is a check that was not asked, for what is not given.
type Lack struct {
	Method *margin.Method
	Keys   []string
}

// A Limit is the size that one check asks for, without a tolerance.
type Limit struct {
	Governor
	Size quantity.Dimension
}

// An Option is an answer that passes.
type Option struct {
	Sets    []Set
	Mass    quantity.Mass // of what the option adds, kg, or kg/m of a tube
	Least   *casewright.Result
	Count   int // of screws
	Most    int // screws of that size which fit round the tube
	Report  *casewright.Report
	Remarks []string
}

// A Set is a key and what it is set to.
type Set struct{ Key, Text string }

// value tells what was settled, and what governs it. Where no check can be
// made to hold by the size there is nothing to tell.
func (s *solver) value(w *wanted) Value {
	where := &site{s.design, w.part}
	v := Value{Key: w.key, Part: partName(s.design, w.part), Drawing: w.dimension(where).String(), AtMost: w.goal == largest}
	if w.goal == middle {
		return v
	}
	at := func(x decimal.Decimal) trial { return try(s.at(w, w.exactly(x, s.unit))) }
	list, trials := s.grid(w, at)
	drawn := w.dimension(where).Nominal()
	// The drawn size may lie in a narrow window between those that were tried.
	asked := s.asked(append(trials[:len(trials):len(trials)], at(drawn))).possible(s.need)
	if asked.none() {
		v.Drawing = ""
		return v
	}
	holds := func(t *trial) bool { return s.holds(t, asked) }
	exact, ok := s.below(w, drawn, holds, at)
	if !ok {
		exact, ok = s.first(list, trials, holds, at)
	}
	if !ok {
		// Not all can hold at once: what holds as drawn is told.
		if t := at(drawn); t.faults == nil {
			for j := range asked {
				if !asked.met(j, &t.checks[j]) {
					asked[j] = math.NaN()
				}
			}
		}
		if exact, ok = s.below(w, drawn, holds, at); !ok || asked.none() {
			return v
		}
	}
	worse := at(exact.Sub(w.better(smallestStep)))
	if holds(&worse) {
		v.Governs.Text = "no check: it is the least that is looked at"
		return v
	}
	v.Exact = w.exactly(exact, s.unit).Dimension
	v.Governs = s.governor(&worse, asked)
	v.Each = s.each(w, list, trials, asked, at)
	return v
}

// below finds the last size that passes on the way from a drawn size to
// lighter ones; false where the drawn size, without its tolerance, does not.
func (s *solver) below(w *wanted, drawn decimal.Decimal, passes func(*trial) bool, at func(decimal.Decimal) trial) (decimal.Decimal, bool) {
	if t := at(drawn); !passes(&t) {
		return decimal.Zero, false
	}
	where := &site{s.design, w.part}
	end := w.from(where)
	if w.goal == largest {
		end = w.to(where)
	}
	for step, x := w.step(s.unit), drawn; ; step = step.Add(step) {
		lighter := drawn.Sub(w.better(step))
		last := w.better(lighter.Sub(end)).Sign() <= 0
		if last {
			lighter = end
		}
		t := at(lighter)
		if last && passes(&t) {
			return end, true
		}
		if !passes(&t) {
			return s.edge(lighter, x, smallestStep, func(x decimal.Decimal) bool {
				t := at(x)
				return passes(&t)
			}), true
		}
		x = lighter
	}
}

// each is what each check asks of a size for itself, the strictest first.
func (s *solver) each(w *wanted, list []decimal.Decimal, trials []trial, asked asks, at func(decimal.Decimal) trial) []Limit {
	var limits []Limit
	for j := range asked {
		own := func(t *trial) bool { return t.faults == nil && asked.met(j, &t.checks[j]) }
		if math.IsNaN(asked[j]) || own(&trials[0]) {
			continue // it asks for nothing
		}
		x, ok := s.first(list, trials, own, at)
		if !ok {
			continue
		}
		worse := at(x.Sub(w.better(smallestStep)))
		if worse.faults != nil {
			continue
		}
		c := &worse.checks[j]
		g := Governor{Part: partName(s.design, int(c.Part)), Method: c.Method}
		if c.Verdict == margin.Refused {
			g.Text = c.Reason.Text()
		}
		limits = append(limits, Limit{g, w.exactly(x, s.unit).Dimension})
	}
	sortLimits(limits, w.goal)
	return limits
}

// better is a step towards heavier, safer sizes.
func (v *variable) better(step decimal.Decimal) decimal.Decimal {
	if v.goal == largest {
		return step.Neg()
	}
	return step
}

// sortLimits puts the strictest first.
func sortLimits(list []Limit, g goal) {
	slices.SortStableFunc(list, func(a, b Limit) int {
		c := b.Size.Nominal().Cmp(a.Size.Nominal())
		if g == largest {
			return -c
		}
		return c
	})
}

// first finds the first size that passes, to the smallest step.
func (s *solver) first(list []decimal.Decimal, trials []trial, passes func(*trial) bool, at func(decimal.Decimal) trial) (decimal.Decimal, bool) {
	for i := range trials {
		if !passes(&trials[i]) {
			continue
		}
		if i == 0 {
			return list[0], true
		}
		return s.edge(list[i-1], list[i], smallestStep, func(x decimal.Decimal) bool {
			t := at(x)
			return passes(&t)
		}), true
	}
	return decimal.Zero, false
}

// governor is what fails in a trial.
func (s *solver) governor(t *trial, asked asks) Governor {
	if t.faults != nil {
		return Governor{Text: firstFault(t.faults)}
	}
	least := math.Inf(1)
	var g Governor
	for i := range t.checks {
		c := &t.checks[i]
		if asked.met(i, c) {
			continue
		}
		m := c.Margin
		if math.IsNaN(m) {
			m = -1 // refused
		}
		if g.Method == nil || m < least {
			least, g = m, Governor{Part: partName(s.design, int(c.Part)), Method: c.Method}
		}
	}
	return g
}

func firstFault(err error) string {
	if list, ok := err.(casewright.Errors); ok && len(list) > 0 {
		return list[0].Message
	}
	return err.Error()
}

func partName(d *casewright.Design, part int) string {
	if part == 0 {
		return "tube"
	}
	return d.Ends[part-1].Name.Value
}

// least is the check of the least margin; nil where there is none.
func least(r *casewright.Report) *casewright.Result {
	var worst *casewright.Result
	for i := range r.Results {
		c := &r.Results[i]
		switch {
		case c.Verdict == margin.Noted:
		case worst == nil, c.Verdict == margin.Refused && worst.Verdict != margin.Refused, c.Margin < worst.Margin:
			worst = c
		}
	}
	return worst
}

// leastStrength is the strength of the least margin at one end, by which rows
// of screws differ; nil where there is none.
func leastStrength(r *casewright.Report, part int) *casewright.Result {
	var worst *casewright.Result
	for i := range r.Results {
		c := &r.Results[i]
		if int(c.Check.Part) == part && c.Method.Kind == margin.Strength && (worst == nil || c.Margin < worst.Margin) {
			worst = c
		}
	}
	return worst
}

// lacks lists the checks of some methods that a report has not, with the keys
// that they need.
func lacks(r *casewright.Report, part int, methods []*margin.Method) []Lack {
	var list []Lack
	for _, m := range methods {
		if slices.ContainsFunc(r.Results, func(one casewright.Result) bool { return one.Method == m && int(one.Check.Part) == part }) {
			continue
		}
		l := Lack{Method: m}
		for _, symbol := range m.Symbols {
			for _, key := range keysOf(symbol.Term) {
				if !slices.Contains(l.Keys, key) && !given(r.Design, part, key) {
					l.Keys = append(l.Keys, key)
				}
			}
		}
		list = append(list, l)
	}
	return list
}

// keysOf are the keys that a term follows from.
func keysOf(t margin.Term) []string {
	switch t {
	case margin.Growth:
		return []string{"motor.pressure", "tube.wall", "tube.material"}
	case margin.HeatOpening, margin.HeatClosing:
		return []string{"tube.material", "end.material"}
	case margin.GapLimit:
		return []string{"motor.pressure", "end.seal.compound", "end.seal.hardness"}
	}
	if key := t.Info().Key; key != "" {
		return []string{key}
	}
	return nil
}

// given tells whether a design gives a key, or what it would tell otherwise.
func given(d *casewright.Design, part int, key string) bool {
	if _, _, sized := d.Tube.Nominal(); sized && (key == "tube.wall" || key == "tube.inside_diameter") {
		return true
	}
	if key == "tube.temperature" || key == "tube.lead_in" || key == "end.material" && part > 0 && !d.Ends[part-1].Temperature.IsSet() {
		return true // it goes without
	}
	return isSet(casewright.FindKey(key).Field(d, part))
}

// needs returns an error for every key of a list that an open design lacks.
func needs(d *casewright.Design, part int, keys ...string) error {
	var list casewright.Errors
	for _, path := range keys {
		k := casewright.FindKey(path)
		if !isSet(k.Field(d, part)) {
			list = append(list, &casewright.Error{
				File: d.File, Key: path, Message: fmt.Sprintf("%q is missing (%s)", k.Name(), k.Meaning), Write: k.Name() + " = " + k.Sample,
			})
		}
	}
	if list == nil {
		return nil
	}
	return list
}

// isSet tells whether a value of a design is there.
func isSet(field any) bool {
	switch f := field.(type) {
	case *casewright.Dimension:
		return f.IsSet()
	case *casewright.Amount:
		return f.IsSet()
	case *casewright.Text:
		return f.Value != ""
	case *casewright.Count:
		return f.Value > 0
	case *casewright.Material:
		return f.Material != nil
	case *casewright.Thread:
		return f.Name != ""
	case *casewright.Class:
		return f.Name != ""
	case *casewright.Ring:
		return f.Name != ""
	case *casewright.Compound:
		return f.Name != ""
	case *casewright.Flag:
		return f.Key != ""
	}
	return false
}

// nearest keeps what came nearest to holding, where nothing holds.
type nearest struct {
	design *casewright.Design
	margin float64 // of the worst check of the end
	fault  string  // why the first that could not be built could not
}

// note takes a trial that does not hold.
func (n *nearest) note(d *casewright.Design, t *trial, part int) {
	if t.faults != nil {
		if n.fault == "" {
			n.fault = firstFault(t.faults)
		}
		return
	}
	worst := math.Inf(1)
	for i := range t.checks {
		switch c := &t.checks[i]; {
		case int(c.Part) != part || c.Verdict == margin.Noted:
		case c.Verdict == margin.Refused:
			worst = math.Inf(-1)
		default:
			worst = math.Min(worst, c.Margin)
		}
	}
	if n.design == nil || worst > n.margin {
		n.design, n.margin = d.Clone(), worst
	}
}

// miss tells of what came nearest.
func (a *Answer) miss(n *nearest) {
	if n.design != nil {
		a.Design, a.Nearest, a.Problem = n.design, true, ""
	}
	a.Report = casewright.Check(a.Design)
}
