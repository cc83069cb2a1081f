package revision

import (
	"fmt"
	"math"

	"casewright"
	"casewright/margin"
	"casewright/quantity"
)

// A Kept is what is kept of a check, to hold later revisions against. What it
// had not is NaN; a share or a ratio has unit 1, a limit is in SI.
type Kept struct {
	Part     string
	Item     int
	ID       string // of the check
	Margin   float64
	Factor   float64
	Min, Max float64
	Own      bool // the limit was the design file's own
}

// Motor is the part of what is kept of the whole motor: its [Pressure] as Min,
// and [Temperature] where it was given or computed for every part.
const (
	Motor       = "motor" // no end can be called so
	Pressure    = "pressure"
	Temperature = "temperature"
)

// OfMotor is what is kept of the whole motor. Pressure is in Pa; cold tells
// that some part had no temperature.
func OfMotor(pressure float64, cold bool) []Kept {
	none := math.NaN()
	list := []Kept{{Part: Motor, ID: Pressure, Margin: none, Min: pressure, Max: none}}
	if !cold {
		list = append(list, Kept{Part: Motor, ID: Temperature, Margin: none, Min: none, Max: none})
	}
	return list
}

// Name names the check in its motor, as in "nozzle/hole.edge".
func (k *Kept) Name() string { return k.Part + "/" + k.ID }

// A Loss is what a design has lost against what is kept of it.
type Loss struct {
	Kept *Kept
	Now  *casewright.Result // nil where there is no such check any more
	At   casewright.Place   // of what one would change; without a line where the file does not give it
	Text string             // what is lost, one sentence without its full stop
	// Whole tells that nothing is left of the part; Kept is the first of its
	// checks.
	Whole bool
}

// Losses tells what a report has lost against what is kept: a margin that is
// lower by more than most, a check that is not there or has no margin, and what
// makes margins larger than they are: a factor of safety, a limit, a pressure or
// a temperature of the file that asks less. Most is a difference of margins, unit
// 1, 0 or more.
func Losses(r *casewright.Report, kept []Kept, most float64) []Loss {
	var list []Loss
	whole := map[string]bool{}
	for i := range kept {
		k := &kept[i]
		if k.Part == Motor {
			if l, lost := k.ofMotor(r); lost {
				list = append(list, l)
			}
			continue
		}
		now := find(r, k)
		if now == nil {
			if whole[k.Part] {
				continue // told already
			}
			l := Loss{Kept: k, Text: "is no longer checked"}
			if !hasPart(r, k.Part) {
				l.Whole, l.Text, whole[k.Part] = true, "is no longer there: none of its checks is done", true
			}
			list = append(list, l)
			continue
		}
		if text := k.lost(now, most); text != "" {
			list = append(list, Loss{Kept: k, Now: now, At: casewright.Place{Key: now.Key, Line: now.Line, Column: now.Column}, Text: text})
		}
	}
	return list
}

// ofMotor tells what of the whole motor asks less than was kept.
func (k *Kept) ofMotor(r *casewright.Report) (Loss, bool) {
	d := r.Design
	switch {
	case k.ID == Pressure && d.Pressure.SI() < k.Min*(1-grain):
		return Loss{Kept: k, At: d.Pressure.Place, Text: fmt.Sprintf("asks less than was kept: %.4g MPa, was %.4g MPa", d.Pressure.SI()/1e6, k.Min/1e6)}, true
	case k.ID == Temperature && r.Has("cold"):
		return Loss{Kept: k, At: casewright.Place{Key: "tube.temperature"}, Text: "asks less than was kept: a temperature is no longer given, and 20 °C is taken"}, true
	}
	return Loss{}, false
}

func find(r *casewright.Report, k *Kept) *casewright.Result {
	for i := range r.Results {
		if one := &r.Results[i]; one.Part == k.Part && one.Method.ID == k.ID && int(one.Item) == k.Item {
			return one
		}
	}
	return nil
}

func hasPart(r *casewright.Report, part string) bool {
	for i := range r.Results {
		if r.Results[i].Part == part {
			return true
		}
	}
	return false
}

// grain is what numbers may differ by from one machine to another.
const grain = 1e-9

// lost tells what a check has lost; nothing where it has lost nothing.
func (k *Kept) lost(now *casewright.Result, most float64) string {
	switch {
	case math.IsNaN(k.Margin):
	case math.IsNaN(now.Margin):
		return fmt.Sprintf("has no margin any more: %s", map[margin.Verdict]string{margin.Refused: "it is refused", margin.Noted: "it is only told"}[now.Verdict])
	case !(now.Margin >= k.Margin-most-grain):
		return fmt.Sprintf("margin %s, was %s", shown(now.Margin), shown(k.Margin))
	}
	m := now.Method
	asks := func(what string, is, was float64, unit quantity.Kind) string {
		return fmt.Sprintf("asks less than was kept: %s %s, was %s", what, asked(is, unit), asked(was, unit))
	}
	switch {
	case m.Kind == margin.Strength && now.Factor < k.Factor*(1-grain):
		return asks("factor", now.Factor, k.Factor, quantity.KindRatio)
	case !m.Settable || m.Limit != "" && !now.Looser && !k.Own:
		// What a limit is computed from may change with the design.
	case now.Min < k.Min*(1-grain) || !math.IsNaN(k.Min) && math.IsNaN(now.Min):
		return asks("least", now.Min, k.Min, m.Unit)
	case now.Max > k.Max*(1+grain) || !math.IsNaN(k.Max) && math.IsNaN(now.Max):
		return asks("most", now.Max, k.Max, m.Unit)
	}
	return ""
}

// asked is a factor or a limit, a length in mm.
func asked(x float64, unit quantity.Kind) string {
	switch {
	case math.IsNaN(x):
		return "none"
	case unit == quantity.KindLength:
		return fmt.Sprintf("%.4g mm", x*1000)
	}
	return fmt.Sprintf("%.4g", x)
}

// shown is a margin rounded down to a thousandth: finer than a table, so that
// a small loss shows.
func shown(x float64) string { return fmt.Sprintf("%.3f", math.Floor(x*1000+grain)/1000) }
