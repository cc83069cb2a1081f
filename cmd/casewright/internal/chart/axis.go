package chart

import (
	"math"
	"slices"
	"strconv"
)

// An Axis maps numbers to places between 0 and 1.
type Axis struct {
	From, To float64
	// Knee is where the axis turns from linear to logarithmic, without a bend:
	// the lines on either side rise alike there. 0 on one that is linear.
	Knee  float64
	Unit  string // of the ticks; empty where each has its own, or none
	Ticks []Tick
}

// A Tick is a round number on an axis: 1, 2 or 5 of a power of ten.
type Tick struct {
	Value float64
	Label string
	minor bool // gives way to others where there is little room
}

// At is the place of a number: 0 at From, 1 at To.
func (a *Axis) At(x float64) float64 {
	from := a.length(a.From)
	return (a.length(x) - from) / (a.length(a.To) - from)
}

// length is in units of the linear part.
func (a *Axis) length(x float64) float64 {
	switch {
	case a.Knee == 0:
		return x
	case x <= a.Knee:
		return x / a.Knee
	}
	return 1 + math.Log(x/a.Knee)
}

// Value is the number at a place between 0 and 1, the inverse of At.
func (a *Axis) Value(place float64) float64 {
	from := a.length(a.From)
	x := from + place*(a.length(a.To)-from)
	switch {
	case a.Knee == 0:
		return x
	case x <= 1:
		return x * a.Knee
	}
	return a.Knee * math.Exp(x-1)
}

// Thin drops ticks until no label meets another; width is that of a label and
// of the blank beside it, as a part of the axis.
func (a *Axis) Thin(width func(label string) float64) {
	var kept []Tick
	for _, minor := range []bool{false, true} {
		for _, t := range a.Ticks {
			if t.minor == minor && !slices.ContainsFunc(kept, func(k Tick) bool {
				return math.Abs(a.At(k.Value)-a.At(t.Value)) < (width(k.Label)+width(t.Label))/2
			}) {
				kept = append(kept, t)
			}
		}
	}
	slices.SortFunc(kept, func(x, y Tick) int {
		if x.Value < y.Value {
			return -1
		}
		return 1
	})
	a.Ticks = kept
}

// Values is the axis of the values, from tick to tick, with at most so many
// steps between.
func (c *Chart) Values(steps int) Axis {
	var r span
	for i := range c.Series {
		for _, piece := range c.Series[i].Pieces() {
			for _, p := range piece {
				r.take(p.Value)
			}
		}
	}
	levels, _ := c.Drawn()
	for _, l := range levels {
		r.take(l.Value)
	}
	from, to := r.ends()
	step := roundUp((to - from) / float64(max(1, steps-1)))
	const hair = 1e-9
	first, last := math.Floor(from/step+hair), math.Ceil(to/step-hair)
	return Axis{From: first * step, To: last * step, Unit: c.Unit, Ticks: ticks(first, last, step)}
}

// Times is the axis of time, with at most so many steps where it is linear.
func (c *Chart) Times(steps int) Axis {
	var r span
	for i := range c.Series {
		for _, piece := range c.Series[i].Pieces() {
			for _, p := range piece {
				r.take(p.Time)
			}
		}
	}
	_, marks := c.Drawn()
	first := math.Inf(1)
	for _, m := range marks {
		r.take(m.Time)
		if m.Time > 0 {
			first = min(first, m.Time)
		}
	}
	from, to := r.ends()
	if !c.Linear && r.any && from >= 0 {
		return logarithmic(to, first)
	}
	unit := unitOf(to-from, 5)
	step := roundUp((to - from) / unit.seconds / float64(max(1, steps)))
	const hair = 1e-9
	list := ticks(math.Ceil(from/unit.seconds/step-hair), math.Floor(to/unit.seconds/step+hair), step)
	for i := range list {
		list[i].Value *= unit.seconds
	}
	return Axis{From: from, To: to, Unit: unit.symbol, Ticks: list}
}

// logarithmic is the axis from 0 to a time beyond its knee: at a tenth of the
// first mark, or at a thousandth of all.
func logarithmic(to, mark float64) Axis {
	wanted := to / 1000
	if mark < to {
		wanted = max(mark/10, to/1e6)
	}
	a := Axis{To: to, Ticks: []Tick{{Label: "0"}}}
	for _, t := range roundTimes(wanted, to) {
		if t.Value <= wanted*(1+1e-9) {
			t.minor = false
			a.Knee, a.Ticks = t.Value, a.Ticks[:1]
		}
		a.Ticks = append(a.Ticks, t)
	}
	return a
}

// roundTimes are the round times, each in its unit, up to a last one and from
// at least one at or below a first one on.
func roundTimes(first, last float64) (list []Tick) {
	size := math.Pow10(int(math.Floor(math.Log10(min(first, 1)))))
	for i, unit := range timeUnits {
		end := last
		if i+1 < len(timeUnits) {
			end = min(last, 0.8*timeUnits[i+1].seconds) // 50 s stands too near 1 min
		}
		for ; size*unit.seconds <= end; size *= 10 {
			for _, k := range []float64{1, 2, 5} {
				if x := k * size * unit.seconds; x <= end {
					list = append(list, Tick{x, strconv.FormatFloat(k*size, 'g', 4, 64) + " " + unit.symbol, k != 1})
				}
			}
		}
		size = 1
	}
	return list
}

// A span is the range of numbers.
type span struct {
	least, most float64
	any         bool
}

func (s *span) take(x float64) {
	if !s.any {
		*s = span{x, x, true}
	}
	s.least, s.most = min(s.least, x), max(s.most, x)
}

// ends are those of a range that has a width: where all numbers are about the
// same it is widened, so that nothing is made of what is not there.
func (s *span) ends() (from, to float64) {
	if !s.any {
		return 0, 1
	}
	size := max(math.Abs(s.least), math.Abs(s.most))
	if size < 1e-30 {
		return 0, 1
	}
	if s.most-s.least < 1e-6*size {
		return s.least - 0.05*size, s.most + 0.05*size
	}
	return s.least, s.most
}

// ticks are the multiples of a step.
func ticks(first, last, step float64) (list []Tick) {
	decimals := max(0, -int(math.Floor(math.Log10(step)+1e-9)))
	for i := first; i <= last; i++ {
		x := i*step + 0 // no "-0"
		list = append(list, Tick{Value: x, Label: number(x, decimals)})
	}
	return list
}

// number is a number with so many decimals, or in powers of ten where that
// would be long.
func number(x float64, decimals int) string {
	if size := math.Abs(x); size >= 1e7 || decimals > 6 {
		return strconv.FormatFloat(x, 'g', 8, 64)
	}
	text := strconv.FormatFloat(x, 'f', decimals, 64)
	if x < 0 && -x < math.Pow10(-decimals)/2 {
		return text[1:] // no "-0"
	}
	return text
}

// roundUp is the next 1, 2 or 5 of a power of ten at or above a positive
// number.
func roundUp(x float64) float64 {
	power := math.Pow10(int(math.Floor(math.Log10(x) + 1e-9)))
	for _, k := range []float64{1, 2, 5} {
		if k*power >= x*(1-1e-9) {
			return k * power
		}
	}
	return 10 * power
}

// A timeUnit is one in which times are told.
type timeUnit struct {
	symbol  string
	seconds float64
}

var timeUnits = []timeUnit{{"s", 1}, {"min", 60}, {"h", 3600}}

// unitOf is the largest unit of which a time has so many.
func unitOf(seconds, least float64) timeUnit {
	for i := len(timeUnits) - 1; i > 0; i-- {
		if seconds >= least*timeUnits[i].seconds {
			return timeUnits[i]
		}
	}
	return timeUnits[0]
}

// Time is a time as a person reads it, to three figures.
func Time(seconds float64) string {
	unit := unitOf(math.Abs(seconds), 1)
	return figures(seconds/unit.seconds) + " " + unit.symbol
}

// Number is a value as a person reads it: to three figures, and to the unit
// from 100 on.
func Number(x float64) string {
	if size := math.Abs(x); size >= 100 && size < 1e7 {
		return number(x, 0)
	}
	return figures(x)
}

func figures(x float64) string {
	if x == 0 {
		return "0"
	}
	return strconv.FormatFloat(x, 'g', 3, 64)
}

// Title says what an axis of time shows, and how.
func (a *Axis) Title() string {
	switch {
	case a.Knee > 0:
		return "time, linear to " + Time(a.Knee) + ", logarithmic beyond"
	case a.Unit != "":
		return "time, " + a.Unit
	}
	return "time"
}
