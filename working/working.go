// Package working writes out a check as an engineer would on paper: what is
// checked and why, the formula, each symbol with its value and where it comes
// from, the sums, what other readings give, and what would change the margin.
// It computes no check anew: the numbers are those that the check has kept.
package working

import (
	"cmp"
	"math"
	"slices"

	"casewright"
	"casewright/margin"
	"casewright/margin/formula"
	"casewright/quantity"
	"casewright/sizing"
)

// A Calculation is one check worked out.
type Calculation struct {
	Result  *casewright.Result
	Sums    []Sum     // demand and capacity, or value and limit
	Symbols []Symbol  // of the sums, then those that they follow from
	Others  []Reading // other readings of the same numbers; none where the check is refused
	Effects []sizing.Effect
	// Changes are single changes of a size that make a failing check pass, the
	// smallest first; Advice what else may be written.
	Changes []sizing.Fix
	Advice  []sizing.Fix
}

// A Sum is a formula and what it gives.
type Sum struct {
	Part    margin.Part
	Formula *formula.Node // nil for a limit that is a constant
	Kind    quantity.Kind
	Value   float64 // SI; NaN where the check is refused
	Limit   bool    // what the value is held against
	Most    bool    // a limit that may not be passed
	Own     bool    // a limit of the design file's own
}

// A Symbol is one quantity of a formula.
type Symbol struct {
	Name, Meaning string
	Kind          quantity.Kind
	Value         float64 // SI
	End           margin.End
	From          *formula.Node // how it follows from other symbols; nil if it does not
	Told          string        // the same in words, where no formula tells it
	Inputs        []Input
	Entries       []Entry
}

// An Input is a value of the design file.
type Input struct {
	Key, Text string
	Line      int
}

// A Reading is another formula for a part of the check.
type Reading struct {
	margin.Reading
	Formula *formula.Node
	Value   float64 // SI
	// Over is the reading over what the check took, less 1; NaN where there is
	// none.
	Over float64
}

// Of works out some checks of a report, by their place among its results.
func Of(r *casewright.Report, which []int) []Calculation {
	motor := casewright.NewMotor(r.Design)
	effects := sizing.Effects(r)
	list := make([]Calculation, 0, len(which))
	for _, i := range which {
		result := &r.Results[i]
		c := Calculation{Result: result, Effects: effects[i]}
		c.sums()
		s := symbols{design: r.Design, motor: motor, result: result}
		c.Symbols = s.all()
		c.others()
		if result.Verdict == margin.Fail {
			c.changes(r)
		}
		list = append(list, c)
	}
	return list
}

// changes finds what makes a failing check pass.
func (c *Calculation) changes(r *casewright.Report) {
	var keys []string
	for _, e := range c.Effects {
		if e.Key != "motor.pressure" {
			keys = append(keys, e.Key)
		}
	}
	c.Changes = sizing.Smallest(r, c.Result, keys)
	for _, f := range sizing.Advise(r, c.Result).Fixes {
		if !slices.ContainsFunc(c.Changes, func(o sizing.Fix) bool { return o.Key == f.Key }) {
			c.Advice = append(c.Advice, f)
		}
	}
}

// node parses a formula of a method; a test holds that all can be read.
func node(text string) *formula.Node {
	if text == "" {
		return nil
	}
	n, err := formula.Parse(text)
	if err != nil {
		return nil
	}
	return n
}

func (c *Calculation) sums() {
	r := c.Result
	m := r.Method
	if m.Kind == margin.Strength {
		c.Sums = []Sum{
			{Part: margin.OfDemand, Formula: node(m.Demand), Kind: m.Unit, Value: r.Demand},
			{Part: margin.OfCapacity, Formula: node(m.Capacity), Kind: m.Unit, Value: r.Capacity},
		}
		return
	}
	c.Sums = []Sum{{Part: margin.OfValue, Formula: node(m.Value), Kind: m.Unit, Value: r.Value}}
	own := r.Notes.Has(margin.LimitChanged)
	limit := func(x float64, most bool) {
		if math.IsNaN(x) {
			return
		}
		sum := Sum{Kind: m.Unit, Value: x, Limit: true, Most: most, Own: own}
		if !own {
			sum.Formula = node(m.Limit)
		}
		c.Sums = append(c.Sums, sum)
	}
	limit(r.Min, false)
	limit(r.Max, true)
}

// others computes the other readings with the numbers that the check used.
// Where those are refused no formula holds for them.
func (c *Calculation) others() {
	r := c.Result
	if r.Reason != margin.None {
		return
	}
	names := r.Method.Names()
	value := func(name string) float64 {
		if i := slices.Index(names, name); i >= 0 {
			return r.In[i]
		}
		return math.NaN()
	}
	took := map[margin.Part]float64{margin.OfDemand: r.Demand, margin.OfCapacity: r.Capacity, margin.OfValue: r.Value}
	for _, o := range r.Method.Readings {
		n := node(o.Formula)
		if n == nil {
			continue
		}
		one := Reading{Reading: o, Formula: n, Value: n.Eval(value)}
		one.Over = one.Value/took[o.Of] - 1
		c.Others = append(c.Others, one)
	}
}

// Find returns the places of the results of a report that a word names: a
// part, the id of a method, or "part/id"; all where it is empty.
func Find(r *casewright.Report, word string) []int {
	var list []int
	for i := range r.Results {
		if one := &r.Results[i]; word == "" || one.ID() == word || one.Method.ID == word || one.Part == word {
			list = append(list, i)
		}
	}
	return list
}

// Worst orders places of results: what fails or is refused first, then by
// rising margin, what is only told last.
func Worst(r *casewright.Report, which []int) {
	rank := func(i int) float64 {
		switch one := &r.Results[i]; {
		case one.Verdict == margin.Refused:
			return math.Inf(-1)
		case one.Verdict == margin.Noted:
			return math.Inf(1)
		default:
			return one.Margin
		}
	}
	slices.SortStableFunc(which, func(a, b int) int { return cmp.Compare(rank(a), rank(b)) })
}
