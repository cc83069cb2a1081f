package sizing

import (
	"math"
	"slices"

	"github.com/shopspring/decimal"

	"casewright"
	"casewright/casing"
	"casewright/materials"
	"casewright/quantity"
)

// Options are what one may wish of an answer.
type Options struct {
	// Tolerance is a dimension of which the deviations are those to draw with;
	// nil for the usual ones.
	Tolerance *quantity.Dimension
	// Margin is the least margin of every strength that the answer can move.
	Margin float64
}

func (o Options) solver(d *casewright.Design) *solver {
	return &solver{design: d.Clone(), unit: unitOf(d), need: o.Margin}
}

// Wall finds the least wall of the tube of a design, of which pressure,
// material and one diameter are given. What else the design gives is asked
// too. The error is a casewright.Errors.
func Wall(d *casewright.Design, o Options) (*Answer, error) {
	if err := needs(d, 0, "motor.pressure", "tube.material"); err != nil {
		return nil, err
	}
	if !d.Tube.Outside.IsSet() && !d.Tube.Inside.IsSet() {
		return nil, needs(d, 0, "tube.outside_diameter")
	}
	if v := d.Tube.Variation; v.IsSet() && !(d.Tube.Inside.IsSet() && d.Tube.Outside.IsSet()) {
		return nil, casewright.Errors{{
			File: d.File, Line: v.Line, Column: v.Column, Key: "tube.wall_variation",
			Message: "a wall has its own tolerance; wall_variation goes with two diameters", Write: "a tolerance to draw the wall with, and no wall_variation",
		}}
	}
	s, bored := o.solver(d), false
	if s.design.Tube.Inside.IsSet() && s.design.Tube.Outside.IsSet() {
		// The ends fit the bore: that stays.
		bored = true
		s.design.Clear("tube.outside_diameter", 0)
		s.design.Clear("tube.wall_variation", 0) // the wall is drawn with a tolerance
	}
	w := &wanted{find("tube.wall"), 0, o.Tolerance}
	s.sizes = []*wanted{w}
	s.settle()
	a := s.answer("wall")
	a.Own = o.Tolerance != nil
	if bored {
		a.Remarks = append(a.Remarks, "Of the two diameters that are given the bore stays, which the ends fit; the outside diameter is what the wall makes it, and wall_variation goes into its tolerance.")
	}
	if a.Found() {
		a.Mass = massPerMetre(s.design)
		a.Options = s.stockWalls(w)
	}
	return a, nil
}

// answer makes an answer of what has been settled.
func (s *solver) answer(question string) *Answer {
	a := &Answer{Question: question, Design: s.design, Report: casewright.Check(s.design)}
	for _, w := range s.sizes {
		a.Values = append(a.Values, s.value(w))
	}
	return a
}

// stockWalls are the walls of tube in stock at which all holds, the thinnest
// first.
func (s *solver) stockWalls(w *wanted) []Option {
	var list []Option
	base := casewright.Check(s.design)
	for _, stock := range casing.StockWalls() {
		if stock.Metric == (s.unit.Symbol() == "in") {
			continue
		}
		d := s.at(w, s.drawn(w, stock.Wall))
		if d.Faults() != nil {
			continue
		}
		if r := casewright.Check(d); noWorse(r, base) && tubeHolds(r) {
			list = append(list, Option{
				Sets: []Set{{w.key, d.Tube.Wall.String()}}, Mass: massPerMetre(d), Least: least(r), Report: r,
			})
		}
	}
	return list
}

// tubeHolds tells that every check of the tube passes.
func tubeHolds(r *casewright.Report) bool {
	return !slices.ContainsFunc(r.Results, func(one casewright.Result) bool { return one.Check.Part == 0 && !good(&one.Check, 0) })
}

// noWorse tells that nothing fails in a report that holds in another.
func noWorse(r, base *casewright.Report) bool {
	for i := range r.Results {
		if !good(&r.Results[i].Check, 0) && good(&base.Results[i].Check, 0) {
			return false
		}
	}
	return true
}

// massPerMetre is that of the tube at nominal sizes, in kg/m. Source:
// geometry.
func massPerMetre(d *casewright.Design) quantity.Mass {
	bore, wall, _ := d.Tube.Nominal()
	area := math.Pi * wall.Mul(bore.Add(wall)).InexactFloat64()
	return quantity.Mass(area * d.Tube.Material.At(materials.Density, roomTemperature).SI)
}

const roomTemperature = quantity.Temperature(293.15) // 20 °C

// Pressure finds the greatest pressure at which every check of a design holds
// that pressure can move, to a thousandth of a megapascal or a tenth of a psi,
// rounded down. A pressure that is given is what the checks are held against.
// The error is a casewright.Errors.
func Pressure(d *casewright.Design, o Options) (*Answer, error) {
	if err := needs(d, 0, "tube.material"); err != nil {
		return nil, err
	}
	s := o.solver(d)
	unit := quantity.MustUnit("MPa")
	step := decimal.New(1, -3)
	if s.unit.Symbol() == "in" {
		unit, step = quantity.MustUnit("psi"), decimal.New(1, -1)
	}
	at := func(n int64) trial {
		c := s.design.Clone()
		c.Pressure = pressure(step.Mul(decimal.NewFromInt(n)), unit)
		return try(c)
	}
	first := at(1)
	if first.faults != nil {
		return nil, first.faults
	}
	asked := s.asked([]trial{first})
	low, high := int64(1), int64(2)
	for t := at(high); s.holds(&t, asked); t = at(high) {
		if low, high = high, high*2; high > 1<<20 {
			break
		}
	}
	for high-low > 1 {
		middle := (low + high) / 2
		if t := at(middle); s.holds(&t, asked) {
			low = middle
		} else {
			high = middle
		}
	}
	greatest := pressure(step.Mul(decimal.NewFromInt(low)), unit)
	worse := at(low + 1)
	if !d.Pressure.IsSet() {
		s.design.Pressure = greatest
	}
	a := s.answer("pressure")
	if asked.possible(s.need).none() {
		return a, nil // refused at any pressure
	}
	a.Values = []Value{{
		Key: "motor.pressure", Part: "tube", Amount: greatest.Amount, Drawing: greatest.String(), AtMost: true,
		Governs: s.governor(&worse, asked),
	}}
	return a, nil
}

func pressure(value decimal.Decimal, unit quantity.Unit) casewright.Amount {
	return casewright.Amount{Amount: quantity.NewAmount(value, unit), Place: casewright.Place{Key: "motor.pressure"}}
}
