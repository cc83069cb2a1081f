package heat

import (
	"fmt"
	"math"
)

// check tells what is wrong with a fitting.
func (f *Fitting) check() error {
	c := &checking{layer: -1, end: -1}
	if f.Motor == nil {
		c.fail("Motor", "is missing")
		return c.faults
	}
	c.ranges(f)
	if len(f.Maxima) == 0 && len(f.Courses) == 0 {
		c.fail("Maxima", "and Courses are empty: nothing was measured")
	}
	for i := range f.Maxima {
		c.maximum(fmt.Sprintf("Maxima[%d].", i), f.Motor, &f.Maxima[i])
	}
	for i := range f.Courses {
		c.course(fmt.Sprintf("Courses[%d].", i), f.Motor, &f.Courses[i])
	}
	if c.faults != nil {
		return c.faults
	}
	// At its most every number is as large as it gets.
	n := [2]float64{or(f.Film.Most, f.film()), or(f.Conductivity.Most, f.conductivity())}
	return f.with(n).Check(Usual)
}

// or is a number, or another where it is 0.
func or(x, other float64) float64 {
	if x != 0 {
		return x
	}
	return other
}

func (f *Fitting) film() float64 { return float64(f.Motor.Gas[0].Coefficient) }

func (f *Fitting) conductivity() float64 {
	if len(f.Motor.Layers) == 0 {
		return 0
	}
	return float64(f.Motor.Layers[0].Conductivity)
}

func (c *checking) ranges(f *Fitting) {
	zero := Range{}
	if f.Film == zero && f.Conductivity == zero {
		c.fail("Film", "and Conductivity have no range: there is nothing to fit")
	}
	if f.Film != zero {
		c.span("Film", f.Film, 0, 1e6, "W/(m² K)")
		if f.Motor.Gas[0].Correlation != nil {
			c.fail("Film", "cannot be fitted: Gas[0] has a correlation")
		}
	}
	if f.Conductivity != zero {
		c.span("Conductivity", f.Conductivity, 0.005, 1000, "W/(m K)")
		if len(f.Motor.Layers) == 0 {
			c.fail("Conductivity", "cannot be fitted: there is no layer")
		}
	}
	if f.ScaleEnds && !(f.film() > 0) {
		c.fail("ScaleEnds", "needs a coefficient of Gas[0] above 0, to which those of the ends are in proportion")
	}
}

// span holds a range against bounds.
func (c *checking) span(field string, r Range, least, most float64, unit string) {
	if !(r.Least > 0 && r.Least >= least && r.Least <= r.Usual && r.Usual <= r.Most && r.Most <= most) {
		c.fail(field, fmt.Sprintf("goes from %.4g by way of %.4g to %.4g; it must rise, above 0 and from %g to %g %s", r.Least, r.Usual, r.Most, least, most, unit))
	}
}

func (c *checking) place(field string, m *Motor, p Place) {
	if !m.has(p) {
		c.fail(field+"Place", fmt.Sprintf("is %.40q of end %d; there is no such place", p.Trace, p.End))
	}
}

func (c *checking) sigma(field string, sigma float64) {
	c.within(field+"Sigma", sigma, 1e-6, 1e4, "K")
}

func (c *checking) maximum(field string, m *Motor, x *Maximum) {
	c.place(field, m, x.Place)
	c.sigma(field, x.Sigma)
	least, most := float64(x.Least), float64(x.Most)
	switch {
	case !(least >= 0 && least <= most && !math.IsInf(least, 1)):
		c.fail(field+"Least", fmt.Sprintf("is %.4g and Most %.4g K; they must be 0 or more, and not fall", least, most))
	case least == 0 && math.IsInf(most, 1):
		c.fail(field+"Least", "is 0 and Most has no end: this tells nothing")
	}
}

func (c *checking) course(field string, m *Motor, x *Course) {
	c.place(field, m, x.Place)
	c.sigma(field, x.Sigma)
	if len(x.Time) != len(x.Temperature) {
		c.fail(field+"Temperature", fmt.Sprintf("has %d numbers for %d times", len(x.Temperature), len(x.Time)))
		return
	}
	last := math.Inf(-1)
	for i, t := range x.Time {
		if !(t >= last) || math.IsInf(t, 0) {
			c.fail(fmt.Sprintf("%sTime[%d]", field, i), fmt.Sprintf("is %g s after %g s; times must be numbers that do not decrease", t, last))
			return
		}
		last = t
		if !c.within(fmt.Sprintf("%sTemperature[%d]", field, i), x.Temperature[i], 0, 1e4, "K") {
			return
		}
	}
	if !(last >= 0) {
		c.fail(field+"Time", "has none from ignition on")
		return
	}
	c.within(field+"Time", last, 0, 1e6, "s")
}
