package table

import (
	"math"
	"strconv"
	"strings"

	"casewright"
	"casewright/margin"
	"casewright/quantity"
)

// units says in which units a person reads lengths, forces, pressures and
// temperatures.
type units struct{ inches, psi bool }

// unitsFor follows the wish, else the way in which the file is written.
func unitsFor(wish string, d *casewright.Design) units {
	switch wish {
	case "metric":
		return units{}
	case "imperial":
		return units{true, true}
	}
	u := units{}
	for _, size := range []casewright.Dimension{d.Tube.Outside, d.Tube.Inside, d.Tube.Wall} {
		if size.IsSet() {
			u.inches = size.Unit().Symbol() == "in"
			break
		}
	}
	symbol := d.Pressure.Unit().Symbol()
	u.psi = symbol == "psi" || symbol == "ksi"
	return u
}

// Rounding says which way a printed number may err.
type rounding int

const (
	nearest rounding = iota
	down
	up
)

// text is a number of SI with its unit, as a person reads it.
func (u units) text(si float64, k quantity.Kind, r rounding) string {
	if math.IsNaN(si) {
		return ""
	}
	if math.IsInf(si, 0) {
		return "infinite"
	}
	unit, least := u.unit(si, k)
	if unit == "" {
		return digits(si, least, r)
	}
	known, _ := k.Unit(unit)
	return digits(known.FromSI(si), least, r) + " " + unit
}

// unit chooses the unit of a number, and the least number of its decimals.
func (u units) unit(si float64, k quantity.Kind) (unit string, decimals int) {
	size := math.Abs(si)
	switch k {
	case quantity.KindLength:
		if u.inches {
			return "in", 4
		}
		return "mm", 2
	case quantity.KindForce:
		switch {
		case u.inches:
			return "lbf", 0
		case size < 1000:
			return "N", 0
		}
		if size >= 100e3 {
			return "kN", 1
		}
		return "kN", 2
	case quantity.KindPressure:
		switch {
		case u.psi && size >= float64(10*quantity.KSI):
			return "ksi", 1
		case u.psi:
			return "psi", 0
		}
		return "MPa", 1
	case quantity.KindTemperatureDifference:
		if u.inches {
			return "°F", 0
		}
		return "K", 0
	}
	return "", 2
}

// digits rounds to so many decimals, one more for numbers below 1. It errs on
// the named side, but for what a float64 itself rounds.
func digits(x float64, decimals int, r rounding) string {
	if size := math.Abs(x); size < 1 && decimals > 0 && decimals < 4 {
		decimals++
	} else if size >= 100 && decimals == 1 {
		decimals = 0
	}
	scale := math.Pow10(decimals)
	slack := 1e-9 * math.Max(1, math.Abs(x*scale))
	switch r {
	case down:
		x = math.Floor(x*scale+slack) / scale
	case up:
		x = math.Ceil(x*scale-slack) / scale
	case nearest:
	}
	if math.Abs(x*scale) < 0.5 {
		x = 0 // no "-0.00"
	}
	return strconv.FormatFloat(x, 'f', decimals, 64)
}

// percent is a ratio in percent.
func percent(x float64, r rounding) string {
	if math.IsNaN(x) {
		return ""
	}
	return digits(x*100, 1, r) + " %"
}

// Margin is a margin rounded down, so that no failure prints as 0.00.
func Margin(x float64) string {
	if math.IsNaN(x) {
		return ""
	}
	if x >= 100 {
		return "> 99"
	}
	down := math.Floor(x*100) / 100
	// A margin that is exact in hundredths may come out a hair below. What is
	// below 0 by a hair stays below: it fails.
	if next := down + 0.01; (x >= 0 || x < -0.005) && next-x < 1e-12 {
		down = next
	}
	return strconv.FormatFloat(down+0, 'f', 2, 64)
}

// value is the value of a limit check as a person reads it: seals in percent.
func (u units) value(m *margin.Method, x float64, r rounding) string {
	if m.Unit == quantity.KindRatio && strings.HasPrefix(m.ID, "seal.") && m.Kind != margin.Between {
		return percent(x, r)
	}
	if m.Kind == margin.Between {
		return digits(x, 0, r)
	}
	return u.text(x, m.Unit, r)
}

// need is what a check is held against.
type need struct {
	text string
	most bool // what there is may be at most that
}

// cell is the need as a column has it.
func (n need) cell() string {
	if n.most {
		return "≤ " + n.text
	}
	return n.text
}

// sentence is the need as the end of a sentence.
func (n need) sentence() string {
	if n.most {
		return "may be at most " + n.text
	}
	return "needs " + n.text
}

// hasNeeds are the two numbers that a person compares: what there is, rounded
// to the bad side, and what is needed. Both are a dash where a check is only
// told and has no number.
func (u units) hasNeeds(r *casewright.Result) (has string, needs need) {
	m := r.Method
	switch {
	case r.Verdict == margin.Refused:
		return "", need{}
	case r.Verdict == margin.Noted && math.IsNaN(r.Margin):
		return "-", need{text: "-"}
	}
	if m.Kind == margin.Strength {
		return u.text(r.Capacity, m.Unit, down), need{text: u.text(r.Factor*r.Demand, m.Unit, up)}
	}
	side, limit, most := down, r.Min, false
	switch {
	case m.Kind == margin.AtMost:
		side, limit, most = up, r.Max, true
	case m.Kind == margin.Between && 1-r.Value/r.Max < r.Value/r.Min-1:
		limit, most = r.Max, true
	}
	return u.value(m, r.Value, side), need{u.value(m, limit, nearest), most}
}
