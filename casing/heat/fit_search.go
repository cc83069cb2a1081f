package heat

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"casewright/quantity"
)

// The two numbers, which are looked for by their logarithms.
const (
	film = iota
	conductivity
)

// pull is the weight of Usual: a number that lies its whole range away from it
// counts as a difference of this many Sigma.
const pull = 0.01

// A search is a fit under way.
type search struct {
	fitting  *Fitting
	places   []Place
	ends     []int // those of which something was measured
	readings []reading

	low, high, usual [2]float64 // logarithms
	free             [2]bool
	runs             int
}

// A point is a pair of numbers, by their logarithms, and what the model says of
// every reading, in K.
type point struct {
	x             [2]float64
	says          []float64
	misfit, total float64 // without and with the pull
}

func newSearch(f *Fitting) *search {
	w := &search{fitting: f}
	w.gather()
	for axis, r := range []Range{f.Film, f.Conductivity} {
		if r == (Range{}) {
			held := []float64{f.film(), f.conductivity()}[axis]
			r = Range{held, held, held}
		}
		w.low[axis], w.usual[axis], w.high[axis] = math.Log(r.Least), math.Log(r.Usual), math.Log(r.Most)
		w.free[axis] = r.Most > r.Least
	}
	return w
}

// numbers are those of a point; one that is not looked for is as it was.
func (w *search) numbers(x [2]float64) [2]float64 {
	n := [2]float64{w.fitting.film(), w.fitting.conductivity()}
	for axis, r := range []Range{w.fitting.Film, w.fitting.Conductivity} {
		switch {
		case r == Range{}:
		case x[axis] <= w.low[axis]:
			n[axis] = r.Least
		case x[axis] >= w.high[axis]:
			n[axis] = r.Most
		default:
			n[axis] = math.Exp(x[axis])
		}
	}
	return n
}

// run computes the history that a point has: only the ends of which something
// was measured, and as long as anything was.
func (w *search) run(x [2]float64) (*History, error) {
	n := w.numbers(x)
	m := w.fitting.with(n)
	ends := m.Ends
	m.Ends = nil
	for _, i := range w.ends {
		m.Ends = append(m.Ends, ends[i])
	}
	last, alone := w.fitting.until()
	if m.Marks = []quantity.Time{last}; alone {
		m.Until = m.Burn * 1.01
	}
	m.Until = max(m.Until, last)
	w.runs++
	h, err := m.Run(Usual)
	if err != nil {
		return nil, fmt.Errorf("%w, with a film of %.4g W/(m² K) and a conductivity of %.4g W/(m K)", err, n[film], n[conductivity])
	}
	return h, nil
}

// trace is that of a place in such a history.
func (w *search) trace(h *History, p Place) Trace {
	if p.End >= 0 {
		p.End = slices.Index(w.ends, p.End)
	}
	t, _ := h.Trace(p)
	return t
}

// at computes a point.
func (w *search) at(x [2]float64) (*point, error) {
	h, err := w.run(x)
	if err != nil {
		return nil, err
	}
	p := &point{x: x, says: make([]float64, len(w.readings))}
	followers := make([]*follower, len(w.places))
	for i := range w.readings {
		r := &w.readings[i]
		t := w.trace(h, w.places[r.place])
		if math.IsNaN(r.at) {
			p.says[i] = float64(h.Peak(t).Temperature)
			continue
		}
		if followers[r.place] == nil {
			if followers[r.place], err = h.follow(t); err != nil {
				return nil, err
			}
		}
		p.says[i] = followers[r.place].at(r.at)
	}
	p.misfit = w.misfit(p.says)
	p.total = p.misfit + w.pulls(x)
	return p, nil
}

func (w *search) misfit(says []float64) float64 {
	sum := 0.0
	for i := range w.readings {
		off := w.readings[i].off(says[i]) / w.readings[i].sigma
		sum += off * off
	}
	return sum
}

// pulls is what the pull adds to the misfit.
func (w *search) pulls(x [2]float64) float64 {
	sum := 0.0
	for axis := range x {
		if w.free[axis] {
			off := pull * (x[axis] - w.usual[axis]) / (w.high[axis] - w.low[axis])
			sum += off * off
		}
	}
	return sum
}

// The grid that is looked over first: of two numbers, and of one alone.
const (
	gridOfTwo = 7
	gridOfOne = 13
	mostDips  = 2 // points of it that are followed

	settledBest = 1e-9 // of the misfit: a step that promises less is the last
)

// best looks over a grid, and follows its deepest dips and the usual numbers.
func (w *search) best() (*point, error) {
	usual, err := w.at(w.usual)
	if err != nil || usual.total == 0 { // nothing agrees better
		return usual, err
	}
	starts, err := w.dips()
	if err != nil {
		return nil, err
	}
	var best *point
	for _, start := range append([]*point{usual}, starts...) {
		found, err := w.descend(start, w.free, settledBest)
		if err != nil {
			return nil, err
		}
		if best == nil || found.total < best.total*(1-1e-9) {
			best = found
		}
	}
	return best, nil
}

// dips are the points of a grid that lie below all their neighbours, the
// deepest first.
func (w *search) dips() ([]*point, error) {
	var sizes [2]int
	for axis, free := range w.free {
		switch {
		case !free:
			sizes[axis] = 1
		case w.free[1-axis]:
			sizes[axis] = gridOfTwo
		default:
			sizes[axis] = gridOfOne
		}
	}
	grid := map[[2]int]*point{}
	for i := range sizes[0] {
		for j := range sizes[1] {
			x := w.low
			for axis, k := range []int{i, j} {
				if sizes[axis] > 1 {
					x[axis] += (w.high[axis] - w.low[axis]) * float64(k) / float64(sizes[axis]-1)
				}
			}
			p, err := w.at(x)
			if err != nil {
				return nil, err
			}
			grid[[2]int{i, j}] = p
		}
	}
	var list []*point
	for i := range sizes[0] {
		for j := range sizes[1] {
			p, lowest := grid[[2]int{i, j}], true
			for a := -1; a <= 1; a++ {
				for b := -1; b <= 1; b++ {
					q := grid[[2]int{i + a, j + b}]
					lowest = lowest && (q == nil || q.total >= p.total)
				}
			}
			if lowest {
				list = append(list, p)
			}
		}
	}
	slices.SortStableFunc(list, func(a, b *point) int { return cmp.Compare(a.total, b.total) })
	return list[:min(len(list), mostDips)], nil
}
