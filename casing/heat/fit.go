package heat

import (
	"slices"

	"casewright/quantity"
)

// A Maximum is the highest temperature of a test at a place. Least and Most, in
// K, are the bounds between which the reading lies, equal where it is a number.
// Least is 0 or Most is +Inf where it is a bound alone: an indicating label that
// turned at its last mark gives a lower bound, one that did not turn an upper
// one. Sigma, in K, above 0, is the standard uncertainty of bounds and number.
type Maximum struct {
	Place
	Least, Most quantity.Temperature
	Sigma       float64
}

// A Course is what a thermocouple told: temperatures in K at times in s after
// ignition that do not decrease, up to 1e6. Those before ignition are left out.
// Sigma, in K, above 0, is the standard uncertainty of each, apart from the others.
type Course struct {
	Place
	Time, Temperature []float64
	Sigma             float64
}

// A Range is where a number is looked for, and what it is thought to be. All
// three are above 0; with Least and Most equal it is held there. The zero Range
// leaves it as the motor has it.
type Range struct{ Least, Usual, Most float64 }

// A Fitting is a motor and what was measured on it. Fitted are the film
// coefficient of Gas[0], in W/(m² K), up to 1e6, with that of the ends in the
// same proportion where ScaleEnds says so, and the conductivity of Layers[0],
// in W/(m K), 0.005 to 1000.
type Fitting struct {
	Motor        *Motor
	Film         Range
	ScaleEnds    bool
	Conductivity Range
	Maxima       []Maximum
	Courses      []Course
}

// A Bound tells whether a fitted number ended at an edge of its range: the
// data ask for more than the range holds.
type Bound int8

// The edges of a range.
const (
	Inside Bound = iota
	AtLeast
	AtMost
)

// Fitted is what a fit found.
//
// A range is what the data leave open: of all values of the other number the
// best, and then a misfit that is greater than the fit's by Rise. Rise is 1, one
// standard deviation of a single number; where the residuals are greater than
// their Sigma, or follow each other along a course, it is greater in the same
// measure (s² (1 + r)/(1 − r) with s² the misfit over the degrees of freedom and
// r the correlation of neighbours).
//
// Determined is false where a range goes on to an edge of what was given, which
// then holds it in place of the data: only Told is known, and the fit is the
// point that agrees with the data as well as any and lies nearest to Usual.
type Fitted struct {
	Film, Conductivity           float64 // W/(m² K), W/(m K); 0 where there is no layer
	FilmBound, ConductivityBound Bound
	FilmRange, ConductivityRange [2]float64
	Determined                   bool
	Told                         Combination
	Residuals                    []Residual // of the maxima, then of the courses, as given
	Misfit                       float64    // sum of the squares of difference over Sigma
	Rise                         float64
	Runs                         int    // of the model
	Motor                        *Motor // with the fitted values
}

// A Combination is the product film^Film · conductivity^Conductivity that the
// data tell best; the greater of the two exponents is 1, both are 0 where the
// data tell nothing. Range is what they leave open of it, over its value at the
// fit, along the way that changes nothing else.
type Combination struct {
	Film, Conductivity float64
	Range              [2]float64
}

// A Residual is what the fit leaves of a maximum, or of a course. Of a course
// Measured, Computed and Difference are those of the time where they differ
// most, RMS and Mean those of all its rows.
type Residual struct {
	Place
	Course     int        // which, from 0; -1 of a maximum
	Measured   [2]float64 // K: the bounds, equal for a number
	Computed   float64    // K
	Time       float64    // s, of what is computed
	Difference float64    // K: computed less the nearer bound; 0 between the two
	RMS        float64    // K: root mean square of all differences, the magnitude of that of a maximum
	Mean       float64    // K: mean of all differences
	Explained  bool       // RMS is at most twice Sigma
}

// explained is how many times Sigma may remain: 95 % of a normal distribution
// lie within about two.
const explained = 2

// Fit looks for the numbers with which the motor agrees best with what was
// measured: the least sum of the squares of differences over their Sigma. To
// break ties, and for nothing else, a small pull goes to Usual: across half a
// range it weighs as 1/200 of a Sigma. The error is a [Faults] where the fitting
// is none.
func (f *Fitting) Fit() (*Fitted, error) {
	if err := f.check(); err != nil {
		return nil, err
	}
	w := newSearch(f)
	best, err := w.best()
	if err != nil {
		return nil, err
	}
	return w.tell(best)
}

// tell says what was found.
func (w *search) tell(best *point) (*Fitted, error) {
	o, err := w.opening(best)
	if err != nil {
		return nil, err
	}
	n := w.numbers(best.x)
	t := &Fitted{Film: n[film], Conductivity: n[conductivity], Misfit: best.misfit, Determined: true, Rise: o.rise, Motor: w.fitting.with(n)}
	ranges, bounds := [2]*[2]float64{&t.FilmRange, &t.ConductivityRange}, [2]*Bound{&t.FilmBound, &t.ConductivityBound}
	for axis, given := range []Range{w.fitting.Film, w.fitting.Conductivity} {
		*ranges[axis] = [2]float64{n[axis], n[axis]}
		if !w.free[axis] {
			continue
		}
		if *ranges[axis], err = o.span(axis); err != nil {
			return nil, err
		}
		*bounds[axis] = given.edge(n[axis])
		for _, end := range ranges[axis] {
			t.Determined = t.Determined && given.edge(end) == Inside
		}
	}
	if t.Told, err = o.told(); err != nil {
		return nil, err
	}
	h, err := t.Motor.Run(Usual)
	if err != nil {
		return nil, err
	}
	t.Runs = w.runs + 1
	t.Residuals, err = w.fitting.residuals(h)
	return t, err
}

// edge tells at which edge of a range a number is.
func (r Range) edge(x float64) Bound {
	switch {
	case x <= r.Least*(1+atEdge):
		return AtLeast
	case x >= r.Most*(1-atEdge):
		return AtMost
	}
	return Inside
}

// atEdge is how near to an edge of its range a number counts as being there.
const atEdge = 1e-6

// with is the motor with other numbers.
func (f *Fitting) with(n [2]float64) *Motor {
	m := *f.Motor
	m.Layers, m.Ends = slices.Clone(m.Layers), slices.Clone(m.Ends)
	if len(m.Layers) > 0 {
		m.Layers[0].Conductivity = quantity.Conductivity(n[conductivity])
	}
	factor := n[film] / float64(m.Gas[0].Coefficient)
	m.Gas[0].Coefficient = quantity.HeatTransfer(n[film])
	if !f.ScaleEnds {
		return &m
	}
	for i := range m.Ends {
		gas := &m.Ends[i].Gas[0]
		gas.Coefficient *= quantity.HeatTransfer(factor)
		if direct := gas.Correlation; direct != nil {
			gas.Correlation = func(surface, fluid quantity.Temperature) quantity.HeatTransfer {
				return direct(surface, fluid) * quantity.HeatTransfer(factor)
			}
		}
	}
	return &m
}
