package sizing

import (
	"cmp"
	"slices"
	"strconv"

	"github.com/shopspring/decimal"

	"casewright"
	"casewright/margin"
	"casewright/quantity"
)

// Smallest finds single changes of a size that make a failing check pass: for
// each of the keys the least change of its nominal size, up or down, its
// tolerance kept, rounded no further than that half of it would still fail.
// They come in the order of their relative size, the smallest first. Keys that
// are no size of the check's part, or do not help alone, are passed over.
func Smallest(r *casewright.Report, result *casewright.Result, keys []string) []Fix {
	t := remedy{report: r, result: result}
	type change struct {
		fix      Fix
		relative decimal.Decimal
	}
	var list []change
	for _, key := range keys {
		if fix, relative, ok := t.least(key); ok {
			list = append(list, change{fix, relative})
		}
	}
	slices.SortStableFunc(list, func(a, b change) int { return a.relative.Cmp(b.relative) })
	fixes := make([]Fix, len(list))
	for i, c := range list {
		fixes[i] = c.fix
	}
	return fixes
}

var (
	firstReach = decimal.New(1, -6)   // m, the first change that is tried
	lastReach  = decimal.New(5, -2)   // m
	growth     = decimal.New(105, -2) // from one change to the next
	fineness   = decimal.New(1, -4)   // of the least change, to which it is found
	nothing    = decimal.New(1, -13)  // m, too small a change to be told
)

// least finds the least change of one size.
func (t *remedy) least(key string) (fix Fix, relative decimal.Decimal, ok bool) {
	field := t.dimension(t.report.Design, key)
	if field == nil || !field.IsSet() || field.Nominal().Sign() <= 0 {
		return fix, relative, false
	}
	now := field.Dimension
	at := func(delta decimal.Decimal) *casewright.Design {
		d, _ := t.change()
		t.dimension(d, key).Dimension = now.WithNominal(now.Nominal().Add(delta))
		return d
	}
	passes := func(delta decimal.Decimal) bool {
		d := at(delta)
		c := t.outcome(d)
		return t.dimension(d, key).Least().Sign() > 0 && c != nil && c.Verdict == margin.Pass
	}
	// Both sides in growing strides, until one passes; then halving.
	var found, fails decimal.Decimal
	for last, reach := decimal.Zero, firstReach; reach.Cmp(lastReach) <= 0; last, reach = reach, reach.Mul(growth).Round(9) {
		for _, side := range []int64{1, -1} {
			sign := decimal.NewFromInt(side)
			if !passes(reach.Mul(sign)) {
				continue
			}
			low, high := last, reach
			for high.Cmp(nothing) > 0 && high.Sub(low).Cmp(high.Mul(fineness)) > 0 {
				if middle := low.Add(high).Mul(decimal.New(5, -1)); passes(middle.Mul(sign)) {
					high = middle
				} else {
					low = middle
				}
			}
			found, fails = high.Mul(sign), low.Mul(sign)
			break
		}
		if !found.IsZero() {
			break
		}
	}
	if found.IsZero() {
		return fix, relative, false
	}
	if found, ok = rounded(now.Nominal(), found, fails, drawingStep(now), passes); !ok {
		return fix, relative, false
	}
	d := at(found)
	fix = Fix{Key: key, Text: strconv.Quote(t.dimension(d, key).String()), Bound: "or more", Fails: t.fails(d)}
	if found.Sign() < 0 {
		fix.Bound = "or less"
	}
	return fix, found.Abs().DivRound(now.Nominal(), 12), true
}

// rounded makes a change end on a round size, as coarse as may be: on a step of
// the drawing, or a tenth, a hundredth of it, and so on; but no more than twice
// a change that fails, so that half of it does not do.
func rounded(nominal, change, fails, step decimal.Decimal, passes func(decimal.Decimal) bool) (decimal.Decimal, bool) {
	for range 8 {
		target := nominal.Add(change)
		steps := target.Div(step)
		if change.Sign() > 0 {
			steps = steps.Ceil()
		} else {
			steps = steps.Floor()
		}
		coarse := steps.Mul(step).Sub(nominal)
		if coarse.Abs().Cmp(fails.Add(fails).Abs()) <= 0 && passes(coarse) {
			return coarse, true
		}
		step = step.Shift(-1)
	}
	return change, false
}

// An Effect is what a small step of one value of the design does to a check.
type Effect struct {
	Part int    // of the value: 0 the tube and the motor, then the ends
	Key  string // as in "tube.wall"
	Text string // the value as written
	Step string // "+0.1 mm", "+1 %", "+10 K", "+1"
	By   float64
}

// Effects steps every number of the design in turn, and tells for each result
// of the report by how much its margin changes, the greatest change first. A
// step that cannot be built is taken the other way. Values that change nothing
// are left out.
func Effects(r *casewright.Report) [][]Effect {
	list := make([][]Effect, len(r.Results))
	for part := range 1 + len(r.Design.Ends) {
		for _, k := range casewright.Keys() {
			if (part > 0) != (len(k.Path) > 4 && k.Path[:4] == "end.") {
				continue
			}
			for _, sign := range []int64{1, -1} {
				d := r.Design.Clone()
				step := stepOf(k, d, part, sign)
				if step == "" || d.Faults() != nil {
					continue
				}
				all := casewright.NewMotor(d).Evaluate(nil)
				for i := range all {
					if i >= len(list) || all[i].Method != r.Results[i].Method {
						break // a step never adds a check
					}
					if by := all[i].Margin - r.Results[i].Margin; by > 1e-12 || by < -1e-12 {
						list[i] = append(list[i], Effect{part, k.Path, k.Text(r.Design, part), step, by})
					}
				}
				break
			}
		}
	}
	for _, effects := range list {
		slices.SortStableFunc(effects, func(a, b Effect) int { return cmp.Compare(max(b.By, -b.By), max(a.By, -a.By)) })
	}
	return list
}

var (
	stepMM   = decimal.New(1, -4)                           // m: 0.1 mm
	stepInch = decimal.New(254, -4).Mul(decimal.New(5, -3)) // m: 0.005 in
)

// stepOf changes a value by a small step and says by what; empty where the
// value is no number, is not set, or follows no small steps.
func stepOf(k *casewright.Key, d *casewright.Design, part int, sign int64) string {
	signed := map[int64]string{1: "+", -1: "−"}[sign]
	by := decimal.NewFromInt(sign)
	switch f := k.Field(d, part).(type) {
	case *casewright.Dimension:
		if !f.IsSet() {
			return ""
		}
		step, text := stepMM, "0.1 mm"
		if f.Unit().Symbol() == "in" {
			step, text = stepInch, "0.005 in"
		}
		f.Dimension = f.WithNominal(f.Nominal().Add(step.Mul(by)))
		return signed + text
	case *casewright.Amount:
		if !f.IsSet() {
			return ""
		}
		return stepAmount(f, signed, by)
	case *casewright.Count:
		if f.Value == 0 || f.Value+int(sign) < 1 {
			return "" // not given, or none left
		}
		f.Value += int(sign)
		return signed + "1"
	}
	return ""
}

// stepAmount steps a temperature by ten degrees, another amount by 1 %.
func stepAmount(f *casewright.Amount, signed string, by decimal.Decimal) string {
	if f.Kind() == quantity.KindTemperature {
		f.Amount = quantity.NewAmount(f.Value().Add(by.Shift(1)), f.Unit())
		return signed + "10 " + f.Unit().Symbol()
	}
	f.Amount = quantity.NewAmount(f.Value().Add(f.Value().Mul(by).Shift(-2)), f.Unit())
	return signed + "1 %"
}
