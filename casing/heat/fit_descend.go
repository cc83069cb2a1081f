package heat

import (
	"math"
	"slices"
)

// The descent: how it differentiates, trusts and ends.
const (
	difference = 1e-3 // of a logarithm
	firstTrust = 0.7  // of a logarithm: a factor of two
	mostSteps  = 40
	leastTrust = 1e-9
	rounding   = 1e-12 // of the misfit: less than that is rounding
)

// slopes are the derivatives of what the model says, by the logarithms of the
// numbers that are free.
type slopes [2][]float64

func (w *search) slopes(p *point, free [2]bool) (s slopes, err error) {
	for axis := range free {
		if !free[axis] {
			continue
		}
		x, h := p.x, min(difference, (w.high[axis]-w.low[axis])/4)
		if x[axis]+h > w.high[axis] {
			h = -h
		}
		x[axis] += h
		q, err := w.at(x)
		if err != nil {
			return s, err
		}
		s[axis] = make([]float64, len(p.says))
		for i := range s[axis] {
			s[axis][i] = (q.says[i] - p.says[i]) / h
		}
	}
	return s, nil
}

// descend follows the least squares down from a point, by steps in each of which
// the model is taken as linear within a trusted distance (Gauss–Newton with a
// trust region; Nocedal and Wright, Numerical Optimization, chapters 4 and 10,
// from memory). It ends where a step promises less than enough of the misfit.
func (w *search) descend(p *point, free [2]bool, enough float64) (*point, error) {
	trust := firstTrust
	for range mostSteps {
		s, err := w.slopes(p, free)
		if err != nil {
			return nil, err
		}
		for {
			line := w.linear(p, s, free, trust)
			to, promised := line.descend()
			gain := p.total - promised
			if gain <= enough+rounding*p.total || trust < leastTrust {
				return p, nil
			}
			q, err := w.at(to)
			if err != nil {
				return nil, err
			}
			if p.total-q.total < gain/2 {
				// Where the way follows a bound that curves, the model is right but for
				// that (second-order correction, same book, section 15.6).
				line.meet(q)
				to, _ = line.descend()
				other, err := w.at(to)
				if err != nil {
					return nil, err
				}
				if other.total < q.total {
					q = other
				}
			}
			kept := (p.total - q.total) / gain
			if kept > 0.75 {
				trust *= 3
			}
			if kept > 0.1 {
				p = q
				break
			}
			trust = max(math.Abs(q.x[0]-p.x[0]), math.Abs(q.x[1]-p.x[1])) / 4
		}
	}
	return p, nil
}

// A linear is the model taken as linear about a point. The sum of squares is
// then convex, and quadratic in pieces: a bound counts only on its one side.
type linear struct {
	w         *search
	p         *point
	s         slopes
	says      []float64 // at the point
	free      [2]bool
	low, high [2]float64
}

func (w *search) linear(p *point, s slopes, free [2]bool, trust float64) *linear {
	l := &linear{w: w, p: p, s: s, says: p.says, free: free}
	for axis := range free {
		l.low[axis], l.high[axis] = max(w.low[axis], p.x[axis]-trust), min(w.high[axis], p.x[axis]+trust)
	}
	return l
}

// meet shifts the model, which then says at another point what that one does.
func (l *linear) meet(q *point) {
	l.says = slices.Clone(q.says)
	for axis := range q.x {
		for i, slope := range l.s[axis] {
			l.says[i] -= slope * (q.x[axis] - l.p.x[axis])
		}
	}
}

// hill is the sum at a place, with its gradient and its curvature.
type hill struct {
	total     float64
	gradient  [2]float64
	curvature [2][2]float64
}

func (l *linear) at(x [2]float64) hill {
	z := hill{total: l.w.pulls(x)}
	add := func(off float64, by [2]float64) {
		for a := range by {
			z.gradient[a] += 2 * off * by[a]
			for b := range by {
				z.curvature[a][b] += 2 * by[a] * by[b]
			}
		}
	}
	for axis := range x {
		if l.free[axis] {
			var by [2]float64
			by[axis] = pull / (l.w.high[axis] - l.w.low[axis])
			add(by[axis]*(x[axis]-l.w.usual[axis]), by)
		}
	}
	for i := range l.says {
		says, by := l.says[i], [2]float64{}
		r := &l.w.readings[i]
		for axis := range x {
			if l.free[axis] {
				says += l.s[axis][i] * (x[axis] - l.p.x[axis])
				by[axis] = l.s[axis][i] / r.sigma
			}
		}
		if off := r.off(says) / r.sigma; off != 0 {
			z.total += off * off
			add(off, by)
		}
	}
	return z
}

// descend returns the lowest place of the linear model, and the sum there, by
// Newton's method with the edges that hold taken out.
func (l *linear) descend() ([2]float64, float64) {
	x := l.p.x
	z := l.at(x)
	for range mostSteps {
		d := l.newton(x, &z)
		share := 1.0
		for axis := range d {
			if to := x[axis] + d[axis]; to > l.high[axis] {
				share = min(share, (l.high[axis]-x[axis])/d[axis])
			} else if to < l.low[axis] {
				share = min(share, (l.low[axis]-x[axis])/d[axis])
			}
		}
		lower := false
		for range mostSteps {
			y := x
			for axis := range y {
				if l.free[axis] {
					y[axis] = min(max(x[axis]+share*d[axis], l.low[axis]), l.high[axis])
				}
			}
			if next := l.at(y); next.total < z.total*(1-1e-13) {
				x, z, lower = y, next, true
				break
			}
			share /= 2
		}
		if !lower {
			break
		}
	}
	return x, z.total
}

// newton is the step to where the gradient vanishes, along the axes that are
// free and not held by an edge.
func (l *linear) newton(x [2]float64, z *hill) (d [2]float64) {
	var open [2]bool
	for axis := range x {
		g := z.gradient[axis]
		open[axis] = l.free[axis] && !(g > 0 && x[axis] <= l.low[axis]) && !(g < 0 && x[axis] >= l.high[axis])
	}
	if open[0] && open[1] {
		a, b, c := z.curvature[0][0], z.curvature[0][1], z.curvature[1][1]
		if det := a*c - b*b; det > 1e-14*a*c {
			d = [2]float64{(b*z.gradient[1] - c*z.gradient[0]) / det, (b*z.gradient[0] - a*z.gradient[1]) / det}
			inward := true
			for axis := range d {
				inward = inward && !(d[axis] < 0 && x[axis] <= l.low[axis]) && !(d[axis] > 0 && x[axis] >= l.high[axis])
			}
			if inward {
				return d
			}
		}
		// Along the steeper axis alone.
		i := 0
		if z.gradient[1]*z.gradient[1]/c > z.gradient[0]*z.gradient[0]/a {
			i = 1
		}
		open[1-i] = false
		d = [2]float64{}
	}
	for axis := range d {
		if open[axis] {
			d[axis] = -z.gradient[axis] / z.curvature[axis][axis]
		}
	}
	return d
}
