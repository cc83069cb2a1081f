package sizing

import (
	"fmt"
	"math"

	"github.com/shopspring/decimal"

	"casewright"
	"casewright/margin"
	"casewright/quantity"
)

// An Answer is what has been found, in a design that holds it.
type Answer struct {
	Question string
	Design   *casewright.Design // with the drawn sizes in it
	Report   *casewright.Report // of that design
	Nearest  bool               // nothing passes: the design is what came nearest
	Values   []Value
	Options  []Option // other answers that pass, the best first
	Budget   []Cost   // of a groove
}

// Found tells that there is an answer.
func (a *Answer) Found() bool { return len(a.Values) > 0 }

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
	Text   string // of what cannot be built
}

// ID names the check in its motor; empty where it is none.
func (g Governor) ID() string {
	if g.Method == nil {
		return ""
	}
	return g.Part + "/" + g.Method.ID
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

// value tells what was settled, and what governs it.
func (s *solver) value(w *wanted) Value {
	where := &site{s.design, w.part}
	v := Value{Key: w.key, Part: partName(s.design, w.part), Drawing: w.dimension(where).String(), AtMost: w.goal == largest}
	if w.goal == middle {
		return v
	}
	drawn := w.dimension(where).Nominal()
	at := func(x decimal.Decimal) trial { return try(s.at(w, w.exactly(x, s.unit))) }
	list := s.candidates(w)
	trials := make([]trial, len(list))
	for i, x := range list {
		trials[i] = at(x)
	}
	asked := s.asked(trials)
	if asked == nil {
		return v
	}
	first, ok := s.first(list, trials, func(t *trial) bool { return s.holds(t, asked) }, at)
	if !ok {
		first = drawn
	}
	v.Exact = w.exactly(first, s.unit).Dimension
	worse := at(first.Sub(w.better(smallestStep)))
	v.Governs = s.governor(&worse, asked)
	for j, margin := range asked {
		if !(margin >= s.need) {
			continue
		}
		own := func(t *trial) bool { return t.faults == nil && good(&t.checks[j], s.need) }
		if own(&trials[0]) {
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
		v.Each = append(v.Each, Limit{Governor{partName(s.design, int(c.Part)), c.Method, ""}, w.exactly(x, s.unit).Dimension})
	}
	sortLimits(v.Each, w.goal)
	return v
}

// better is a step towards heavier, safer sizes.
func (v *variable) better(step decimal.Decimal) decimal.Decimal {
	if v.goal == largest {
		return step.Neg()
	}
	return step
}

func sortLimits(list []Limit, g goal) {
	for i := range list {
		for j := i; j > 0; j-- {
			c := list[j].Size.Nominal().Cmp(list[j-1].Size.Nominal())
			if g == largest {
				c = -c
			}
			if c <= 0 {
				break
			}
			list[j], list[j-1] = list[j-1], list[j]
		}
	}
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
}

// note takes a trial that does not hold.
func (n *nearest) note(d *casewright.Design, t *trial, part int) {
	if t.faults != nil {
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
		a.Design, a.Nearest = n.design, true
	}
	a.Report = casewright.Check(a.Design)
}
