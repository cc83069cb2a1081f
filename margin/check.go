package margin

import "math"

// Verdict is the outcome of a check.
type Verdict uint8

// The verdicts. The zero value is Refused, so that nothing passes by accident.
const (
	Refused Verdict = iota
	Fail
	Pass
	Noted
)

// String returns the verdict as JSON has it.
func (v Verdict) String() string { return [...]string{"refused", "fail", "pass", "note"}[v] }

// Table holds the spans of all terms for one part of the motor, in SI, with
// the notes and the reasons for refusal that each term brings along.
type Table struct {
	Spans    [NumTerms]Span
	Notes    [NumTerms]Notes
	Reasons  [NumTerms]Reason
	Yield    float64 // factor of safety on yield, at least 1
	Ultimate float64 // factor of safety on ultimate, at least 1
	Fitting  float64 // factor on loads that pass through a joint, at least 1
}

// Set gives a term its span and what comes with it.
func (t *Table) Set(term Term, span Span, reason Reason, notes Notes) {
	t.Spans[term], t.Reasons[term], t.Notes[term] = span, reason, notes
}

// Sign is the exact answer of a limit between dimensions.
type Sign int8

// The signs. Undecided leaves the decision to the computed margin.
const (
	Undecided Sign = iota
	Below
	Equal
	Above
)

// A Row is one method at one part of a motor.
type Row struct {
	Method *Method
	Part   uint8 // 0 is the tube, then the ends in their order
	Item   uint8 // among several rows or seals of one end; 0 where there is one

	Min, Max float64 // constant limits in SI; NaN where there is none
	OwnLimit bool    // the limit is the design file's own
	Sign     Sign    // exact answer at the worst sizes
	Nominal  Sign    // exact answer at nominal sizes
	Notes    Notes   // that the row always carries
	Reason   Reason  // why it is refused, whatever the numbers
	// NoVerdict says that the row has no margin, only its notes.
	NoVerdict bool
}

// Bind gives the row the notes and the reasons that its terms bring along.
// The table must be complete.
func (r *Row) Bind(t *Table) {
	for _, s := range r.Method.Symbols {
		r.Notes |= t.Notes[s.Term]
		if r.Reason == None {
			r.Reason = t.Reasons[s.Term]
		}
	}
	if r.OwnLimit {
		r.Notes |= 1 << LimitChanged
	}
}

// Check is the outcome of a method at one part, with the numbers it used.
type Check struct {
	Method  *Method
	Part    uint8
	Item    uint8
	Verdict Verdict
	Reason  Reason
	Notes   Notes
	In      Values

	Factor           float64 // by which the demand was multiplied; 1 for a limit
	Demand, Capacity float64 // SI; NaN for a limit
	Value, Min, Max  float64 // SI; NaN where there is none
	Margin           float64 // NaN where there is none
	GivesWayAt       float64 // Pa; NaN where pressure does not drive the check
}

// Evaluate computes the row at the ends of the tolerances that hurt, or at
// nominal sizes, and writes the outcome to c. This is the one place where an
// end of a tolerance is picked. It allocates nothing.
func (r *Row) Evaluate(c *Check, t *Table, nominal bool) {
	m := r.Method
	c.Method, c.Part, c.Item = m, r.Part, r.Item
	c.Notes, c.Reason = r.Notes, r.Reason
	c.Factor = t.factor(m)
	c.Demand, c.Capacity, c.Value = nan, nan, nan
	c.Min, c.Max, c.Margin, c.GivesWayAt = nan, nan, nan, nan

	// Nominal sizes stand first in a span, the two ends at their own index.
	mask, either := ^End(0), -1
	if nominal {
		mask = 0
	}
	for i, s := range m.Symbols {
		end := s.End & mask
		if end == Either {
			either, end = i, Greatest
		}
		c.In[i] = t.Spans[s.Term][end]
	}
	if r.NoVerdict {
		c.Reason, c.Verdict = None, Noted
		return
	}
	if c.Reason == None && m.Valid != nil {
		c.Reason = m.Valid(&c.In)
	}
	if c.Reason != None {
		r.refuse(c)
		return
	}
	x, y := m.Eval(&c.In)
	if either >= 0 {
		greatest := c.In[either]
		c.In[either] = t.Spans[m.Symbols[either].Term][Least]
		x2, y2 := m.Eval(&c.In)
		// What is no number at either end stays none.
		if bears := share(x, y); !math.IsNaN(bears) && !(share(x2, y2) >= bears) {
			x, y = x2, y2
		} else {
			c.In[either] = greatest
		}
	}
	if m.Kind == Strength {
		r.strength(c, t, x, y)
	} else {
		r.limit(c, x, y, nominal)
	}
	if m.Remark != nil {
		c.Notes |= m.Remark(&c.In, x)
	}
	switch {
	case math.IsNaN(c.Margin) || math.IsInf(c.Margin, 0):
		c.Reason = NotANumber
		r.refuse(c)
	case m.NoteOnly:
		c.Verdict = Noted
	case c.Margin >= 0:
		c.Verdict = Pass
	default:
		c.Verdict = Fail
	}
}

var nan = math.NaN()

func (r *Row) refuse(c *Check) {
	c.Verdict = Refused
	c.Margin, c.GivesWayAt = math.NaN(), math.NaN()
	if r.Method.NoteOnly {
		c.Verdict = Noted
	}
}

// factor is what a method multiplies its demand by.
func (t *Table) factor(m *Method) float64 {
	x := 1.0
	switch m.Factor {
	case YieldFactor:
		x = t.Yield
	case UltimateFactor:
		x = t.Ultimate
	case NoFactor:
	}
	if m.Joint {
		x *= t.Fitting
	}
	return x
}

// share is what a part bears of its demand, without a factor.
func share(demand, capacity float64) float64 { return max(capacity, 0) / demand }

func (r *Row) strength(c *Check, t *Table, demand, capacity float64) {
	m := r.Method
	// A part with nothing left to hold bears nothing, and not less than that.
	capacity = max(capacity, 0)
	c.Demand, c.Capacity = demand, capacity
	if demand > 0 {
		c.Margin = capacity/(c.Factor*demand) - 1
	}
	if m.Mode != Unordered && m.Mode != Rule {
		c.GivesWayAt = max(0, t.Spans[Pressure][Only]*capacity/demand)
	}
}

func (r *Row) limit(c *Check, value, limit float64, nominal bool) {
	m := r.Method
	c.Value, c.Min, c.Max = value, r.Min, r.Max
	if m.Limit != "" && !r.OwnLimit {
		if m.Kind == AtLeast {
			c.Min = limit
		} else {
			c.Max = limit
		}
	}
	scale := m.Scale
	if scale == 0 {
		scale = 1
	}
	least, most := math.Inf(1), math.Inf(1)
	if m.Kind != AtMost {
		least = over(value-c.Min, c.Min, scale)
	}
	if m.Kind != AtLeast {
		most = over(c.Max-value, c.Max, scale)
	}
	c.Margin = min(least, most)
	sign := r.Sign
	if nominal {
		sign = r.Nominal
	}
	c.Margin = decide(c.Margin, sign)
	switch {
	case m.GivesWay != nil:
		c.GivesWayAt = m.GivesWay(&c.In, firstNumber(c.Max, c.Min), r.OwnLimit)
	case m.Mode == Leaks && !(c.Margin >= 0):
		c.GivesWayAt = 0
	}
}

// over divides the room to a limit by the limit, or by scale where it is 0.
func over(room, limit, scale float64) float64 {
	switch {
	case limit == 0:
		return room / scale
	case limit < 0:
		return room / -limit
	}
	return room / limit
}

// decide corrects a computed margin by the exact answer, so that rounding
// never passes what is too small nor fails what fits exactly. What is no
// number stays none.
func decide(margin float64, sign Sign) float64 {
	if math.IsNaN(margin) || math.IsInf(margin, 0) {
		return margin
	}
	switch sign {
	case Equal:
		return 0
	case Above:
		return max(margin, 0)
	case Below:
		if !(margin < 0) {
			return -1e-15
		}
	case Undecided:
	}
	return margin
}

func firstNumber(a, b float64) float64 {
	if math.IsNaN(a) {
		return b
	}
	return a
}
