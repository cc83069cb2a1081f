package heat

import (
	"cmp"
	"errors"
	"math"
	"slices"

	"gonum.org/v1/gonum/interp"

	"casewright/quantity"
)

// A reading is one measured number: the highest temperature of a place where
// at is NaN, else that at a time.
type reading struct {
	place       int
	at          float64 // s
	least, most float64 // K
	sigma       float64 // K
}

// off is how far a computed temperature lies outside a reading, in K.
func (r *reading) off(x float64) float64 {
	switch {
	case x < r.least:
		return x - r.least
	case x > r.most:
		return x - r.most
	}
	return 0
}

// mostRows is how many readings of a course enter a fit as they are; of more,
// means of neighbours enter.
const mostRows = 2000

// readings are those of a course from ignition on. Where they are too many each
// mean takes at most a thousandth of the rows and of the time: so a gap is not
// bridged.
func (c *Course) readings(place int) []reading {
	first, _ := slices.BinarySearch(c.Time, 0)
	times, values := c.Time[first:], c.Temperature[first:]
	rows, span := 1, 0.0
	if len(times) > mostRows {
		rows, span = (len(times)+mostRows/2-1)/(mostRows/2), (times[len(times)-1]-times[0])/(mostRows/2)
	}
	var list []reading
	for from := 0; from < len(times); {
		to, t, x := from, 0.0, 0.0
		for to < len(times) && (to == from || to-from < rows && times[to]-times[from] <= span) {
			t, x = t+times[to]-times[from], x+values[to]
			to++
		}
		n := float64(to - from)
		list = append(list, reading{place, times[from] + t/n, x / n, x / n, c.Sigma / math.Sqrt(n)})
		from = to
	}
	return list
}

func (m *Maximum) reading(place int) reading {
	return reading{place, math.NaN(), float64(m.Least), float64(m.Most), m.Sigma}
}

// gather lists all readings by place and time, so that the order in which they
// were given does not matter.
func (w *search) gather() {
	number := func(p Place) int {
		i := slices.Index(w.places, p)
		if i < 0 {
			i = len(w.places)
			w.places = append(w.places, p)
			if p.End >= 0 && !slices.Contains(w.ends, p.End) {
				w.ends = append(w.ends, p.End)
			}
		}
		return i
	}
	for i := range w.fitting.Maxima {
		m := &w.fitting.Maxima[i]
		w.readings = append(w.readings, m.reading(number(m.Place)))
	}
	for i := range w.fitting.Courses {
		c := &w.fitting.Courses[i]
		w.readings = append(w.readings, c.readings(number(c.Place))...)
	}
	slices.SortFunc(w.readings, func(a, b reading) int {
		p, q := w.places[a.place], w.places[b.place]
		return cmp.Or(cmp.Compare(p.End, q.End), cmp.Compare(p.Trace, q.Trace), cmp.Compare(a.at, b.at),
			cmp.Compare(a.least, b.least), cmp.Compare(a.most, b.most), cmp.Compare(a.sigma, b.sigma))
	})
}

// until is the time of the last reading of a course, in s; alone tells that
// there are no maxima.
func (f *Fitting) until() (last quantity.Time, alone bool) {
	for i := range f.Courses {
		c := &f.Courses[i]
		last = max(last, quantity.Time(c.Time[len(c.Time)-1]))
	}
	return last, len(f.Maxima) == 0
}

// A follower tells a trace at many times, as [History.At] does at one.
type follower struct {
	burnout, last float64
	parts         [2]interp.FritschButland // until burnout, and from then on
}

func (h *History) follow(t Trace) (*follower, error) {
	b, end := h.burnout(), len(h.Time)
	f := &follower{burnout: h.Burnout, last: h.Time[end-1]}
	return f, errors.Join(f.parts[0].Fit(h.Time[:b+1], t[:b+1]), f.parts[1].Fit(h.Time[b:end], t[b:end]))
}

func (f *follower) at(x float64) float64 {
	x = min(max(x, 0), f.last)
	if x < f.burnout {
		return f.parts[0].Predict(x)
	}
	return f.parts[1].Predict(x)
}

// residuals are what a history leaves of all that was measured.
func (f *Fitting) residuals(h *History) ([]Residual, error) {
	var list []Residual
	for i := range f.Maxima {
		m := &f.Maxima[i]
		t, _ := h.Trace(m.Place)
		top := h.Peak(t)
		r := m.reading(0)
		off := r.off(float64(top.Temperature))
		list = append(list, Residual{m.Place, -1, [2]float64{r.least, r.most}, float64(top.Temperature), float64(top.Time), off, math.Abs(off), off, math.Abs(off) <= explained*m.Sigma})
	}
	for i := range f.Courses {
		c := &f.Courses[i]
		t, _ := h.Trace(c.Place)
		follow, err := h.follow(t)
		if err != nil {
			return nil, err
		}
		one := Residual{Place: c.Place, Course: i}
		first, _ := slices.BinarySearch(c.Time, 0)
		for row := first; row < len(c.Time); row++ {
			x, y := follow.at(c.Time[row]), c.Temperature[row]
			if off := x - y; row == first || math.Abs(off) > math.Abs(one.Difference) {
				one.Measured, one.Computed, one.Time, one.Difference = [2]float64{y, y}, x, c.Time[row], off
			}
			one.RMS, one.Mean = one.RMS+(x-y)*(x-y), one.Mean+x-y
		}
		rows := float64(len(c.Time) - first)
		one.RMS, one.Mean = math.Sqrt(one.RMS/rows), one.Mean/rows
		one.Explained = one.RMS <= explained*c.Sigma
		list = append(list, one)
	}
	return list, nil
}
