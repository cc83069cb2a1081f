package heat

import "math"

const (
	settledOpen  = 3e-3 // of the rise: a step that promises less is the last
	openTo       = 0.02 // how well the end of a range is met, of its distance from the fit
	mostBrackets = 20
)

// rise is how far the misfit may rise above that of the fit; see [Fitted].
func (w *search) rise(best *point) float64 {
	told, square, neighbours := 0, 0.0, 0.0
	before, place := 0.0, -1
	for i := range w.readings {
		r := &w.readings[i]
		off := r.off(best.says[i]) / r.sigma
		if r.least == r.most || off != 0 {
			told++
		}
		if math.IsNaN(r.at) {
			continue
		}
		if r.place == place {
			neighbours += off * before
		}
		before, place, square = off, r.place, square+off*off
	}
	freedom := told
	for _, free := range w.free {
		if free {
			freedom--
		}
	}
	if freedom < 1 {
		return 1
	}
	correlation := 0.0
	if square > 0 {
		correlation = min(max(neighbours/square, 0), 0.99)
	}
	return max(1, best.misfit/float64(freedom)*(1+correlation)/(1-correlation))
}

// An opening is what the data leave open about the fit.
type opening struct {
	*search
	best *point
	s    slopes
	rise float64
}

func (w *search) opening(best *point) (*opening, error) {
	s, err := w.slopes(best, w.free)
	return &opening{w, best, s, w.rise(best)}, err
}

// over is how far the misfit of a point has risen: −1 at the fit, 0 where it has
// risen as far as it may.
func (o *opening) over(p *point) float64 { return math.Sqrt(max(0, p.misfit-o.best.misfit)/o.rise) - 1 }

// span is the range that is open to one number, the other being the best each
// time.
func (o *opening) span(axis int) (of [2]float64, err error) {
	for side, sign := range []float64{-1, 1} {
		to, err := o.edge(axis, sign)
		if err != nil {
			return of, err
		}
		x := o.best.x
		x[axis] = to
		of[side] = o.numbers(x)[axis]
	}
	return of, nil
}

// edge is how far one number may go, down or up, as its logarithm.
func (o *opening) edge(axis int, sign float64) (float64, error) {
	other, from := 1-axis, o.best
	var alone [2]bool
	alone[other] = o.free[other]
	whole := o.high[axis] - from.x[axis]
	if sign < 0 {
		whole = from.x[axis] - o.low[axis]
	}
	step, slant := o.linear(from, o.s, o.free, 0).reach(o.rise, axis)
	far, err := cross(whole, step, func(d float64) (float64, error) {
		x := o.best.x
		x[axis] = min(max(x[axis]+sign*d, o.low[axis]), o.high[axis])
		// Go on from the last point, the way that the linear model goes.
		x[other] = min(max(from.x[other]+slant*(x[axis]-from.x[axis]), o.low[other]), o.high[other])
		p, err := o.at(x)
		if err == nil && alone[other] {
			p, err = o.descend(p, alone, settledOpen*o.rise)
		}
		if err != nil {
			return 0, err
		}
		from = p
		return o.over(p), nil
	})
	return o.best.x[axis] + sign*far, err
}

// reach is how far one number may go by the linear model, and by how much the
// other one then follows it.
func (l *linear) reach(rise float64, axis int) (far, slant float64) {
	z := l.at(l.p.x).curvature
	a, b, c := z[axis][axis], z[axis][1-axis], z[1-axis][1-axis]
	if l.free[1-axis] && c > 0 {
		a, slant = a-b*b/c, -b/c
	}
	if a <= 0 {
		return math.Inf(1), slant
	}
	return math.Sqrt(2 * rise / a), slant
}

// cross looks for the distance at which f, which is -1 at 0, passes through 0,
// from a step on that is doubled until it does, up to the whole, and then by
// the rule of false position (Illinois). It is the whole where f does not.
func cross(whole, step float64, f func(float64) (float64, error)) (float64, error) {
	low, high, below, above := 0.0, min(whole, max(step, 1e-6)), -1.0, 0.0
	if whole <= 0 {
		return 0, nil
	}
	for {
		y, err := f(high)
		if err != nil {
			return 0, err
		}
		if y > 0 {
			above = y
			break
		}
		if high == whole {
			return whole, nil
		}
		low, below = high, y
		high = min(whole, 2*high)
	}
	side := 0
	for range mostBrackets {
		if high-low <= openTo*high {
			break
		}
		d := low + (high-low)*min(max(-below/(above-below), 0.05), 0.95)
		y, err := f(d)
		if err != nil {
			return 0, err
		}
		if math.Abs(y) < openTo {
			return d, nil
		}
		// An end that stays twice counts half.
		if y > 0 {
			if high, above = d, y; side > 0 {
				below /= 2
			}
			side = 1
		} else {
			if low, below = d, y; side < 0 {
				above /= 2
			}
			side = -1
		}
	}
	return high, nil
}

// told is the combination that the data tell best: the direction in which what
// the model says changes most, over Sigma and the half of what lies between two
// bounds.
func (o *opening) told() (c Combination, err error) {
	var a, b, d float64 // of the symmetric matrix
	for i := range o.readings {
		r := &o.readings[i]
		weight := r.sigma
		if r.least > 0 && !math.IsInf(r.most, 1) {
			weight += (r.most - r.least) / 2
		}
		var by [2]float64
		for axis := range by {
			if o.free[axis] {
				by[axis] = o.s[axis][i] / weight
			}
		}
		a, b, d = a+by[0]*by[0], b+by[0]*by[1], d+by[1]*by[1]
	}
	if a+d <= 1e-12 {
		return c, nil
	}
	sin, cos := math.Sincos(math.Atan2(2*b, a-d) / 2) // its greater principal axis
	direction := [2]float64{cos, sin}
	greatest := cos
	if math.Abs(sin) > math.Abs(cos) {
		greatest = sin
	}
	c.Film, c.Conductivity = cos/greatest, sin/greatest
	// The product goes by exp(d / greatest) as its numbers go d along the direction.
	for side, sign := range []float64{-1, 1} {
		if greatest < 0 {
			sign = -sign
		}
		whole := math.Inf(1)
		for axis, along := range direction {
			switch v := sign * along; {
			case !o.free[axis]:
			case v > 0:
				whole = min(whole, (o.high[axis]-o.best.x[axis])/v)
			case v < 0:
				whole = min(whole, (o.low[axis]-o.best.x[axis])/v)
			}
		}
		far, err := cross(whole, math.Sqrt(o.rise/(a*cos*cos+2*b*sin*cos+d*sin*sin)), func(d float64) (float64, error) {
			x := o.best.x
			for axis := range x {
				x[axis] += sign * d * direction[axis]
			}
			p, err := o.at(x)
			if err != nil {
				return 0, err
			}
			return o.over(p), nil
		})
		if err != nil {
			return c, err
		}
		c.Range[side] = math.Exp(sign * far / greatest)
	}
	return c, nil
}
