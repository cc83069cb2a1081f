package heat

import (
	"math"

	"gonum.org/v1/gonum/interp"

	"casewright/quantity"
)

// A Trace is a temperature, in K, at each of the times of its history.
type Trace []float64

// A History is how hot everything got, from ignition until all was below the
// temperature of touch, or until the end of what was asked.
type History struct {
	Time []float64 // s after ignition, from 0

	HotFace     Trace // of the first layer, or of the wall where there is none
	Bond        Trace // the outer face of the last layer; the wall's inner where there is none
	WallInside  Trace
	WallMean    Trace // over the section
	WallOutside Trace
	Hottest     Trace // of all there is
	Ends        []EndHistory

	Burnout float64 // s
	Cooled  bool    // all fell below the temperature of touch
	Safe    float64 // s: from then on all stays below it; NaN where Cooled is false
	Balance float64 // heat lost or made by the computation, over the heat that came in and went out
}

// An EndHistory is how hot an end got.
type EndHistory struct {
	Name  string
	Face  Trace // where its heat enters, or the cover over it
	Body  Trace // of the end at its grooves, where it is hottest
	Ring  Trace // of the tube over them, likewise
	Gland Trace // the hotter of the two
	Bolts Trace // the hotter of end and tube at the screws
	Rear  Trace // its outer face
	Metal Trace // the hottest of end and tube
	Tube  Trace // the hottest of the tube round the end
}

// A Reading is a temperature, in K, and its time, in s after ignition.
type Reading struct {
	Temperature quantity.Temperature
	Time        quantity.Time
}

// burnout is the number of the time at which the motor burns out.
func (h *History) burnout() int {
	for i, t := range h.Time {
		if t >= h.Burnout {
			return i
		}
	}
	return len(h.Time) - 1
}

// Peak returns the highest temperature of a trace, in K, and its time, in s.
func (h *History) Peak(t Trace) Reading { return h.peak(t, 0, len(t)-1) }

// PeakBurning returns the highest temperature until burnout, in K, s.
func (h *History) PeakBurning(t Trace) Reading { return h.peak(t, 0, h.burnout()) }

// PeakAfter returns the highest temperature from burnout on, in K, s.
func (h *History) PeakAfter(t Trace) Reading { return h.peak(t, h.burnout(), len(t)-1) }

// peak looks between two times, both within, by the parabola through the
// highest node and its neighbours; a border is met exactly.
func (h *History) peak(t Trace, from, to int) Reading {
	best := from
	for i := from; i <= to; i++ {
		if t[i] > t[best] {
			best = i
		}
	}
	at := Reading{quantity.Temperature(t[best]), quantity.Time(h.Time[best])}
	if best == from || best == to || h.Time[best] == h.Burnout {
		return at
	}
	a, b := h.Time[best]-h.Time[best-1], h.Time[best+1]-h.Time[best]
	left, right := (t[best]-t[best-1])/a, (t[best+1]-t[best])/b
	curve := (right - left) / (a + b)
	slope := (left*b + right*a) / (a + b) // at the node
	if curve < 0 {
		at.Time -= quantity.Time(slope / (2 * curve))
		at.Temperature -= quantity.Temperature(slope * slope / (4 * curve))
	}
	return at
}

// AtBurnout returns a trace at burnout, in K.
func (h *History) AtBurnout(t Trace) quantity.Temperature {
	return quantity.Temperature(t[h.burnout()])
}

// At returns a trace at a time, in K; before the first time and after the last
// one it is what it was then. Between two times it is a cubic without overshoot
// (Fritsch and Butland 1984).
func (h *History) At(t Trace, at quantity.Time) quantity.Temperature {
	x := math.Min(math.Max(float64(at), h.Time[0]), h.Time[len(h.Time)-1])
	i := 0
	for i < len(h.Time)-2 && h.Time[i+1] <= x {
		i++
	}
	// Films change at burnout: what lies on its two sides does not mix.
	from, to, b := max(0, i-2), min(len(t), i+4), h.burnout()
	switch {
	case i >= b:
		from = max(from, b)
	default:
		to = min(to, b+1)
	}
	if to-from < 3 {
		share := (x - h.Time[i]) / (h.Time[i+1] - h.Time[i])
		return quantity.Temperature(t[i] + share*(t[i+1]-t[i]))
	}
	var f interp.FritschButland
	if err := f.Fit(h.Time[from:to], t[from:to]); err != nil {
		return quantity.Temperature(t[i])
	}
	return quantity.Temperature(f.Predict(x))
}

// Above returns how long a trace lies above a temperature in all, in s.
func (h *History) Above(t Trace, limit quantity.Temperature) quantity.Time {
	sum, x := 0.0, float64(limit)
	for i := 1; i < len(t); i++ {
		low, high, span := math.Min(t[i-1], t[i]), math.Max(t[i-1], t[i]), h.Time[i]-h.Time[i-1]
		switch {
		case low > x:
			sum += span
		case high > x:
			sum += span * (high - x) / (high - low)
		}
	}
	return quantity.Time(sum)
}
