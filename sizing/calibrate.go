package sizing

import (
	"errors"

	"casewright"
	"casewright/casing/heat"
	"casewright/quantity"
)

// The uncertainty of what is measured, in K: common practice, no source.
// Indicating labels turn within a kelvin of their mark; thermocouples glued to
// metal read within two.
const (
	sigmaLabel  = 1
	sigmaCourse = 2
)

// Where a design does not tell how far its numbers may be off: the film by a
// factor of five either way, the liner's conductivity by two. Ours.
const (
	filmSpread  = 5
	layerSpread = 2
)

// Measured tells whether a design holds measured temperatures.
func Measured(d *casewright.Design) bool {
	return len(d.Heat.Maxima) > 0 || d.Heat.Course.Value != ""
}

// Calibrate fits the film coefficient of the gas and the conductivity of the
// first layer to the maxima that a design holds, and to the courses of its file.
// The layer's conductivity is looked for between the bounds of its material in
// the table, else within a factor of two; the film within a factor of five. The
// error tells what the design lacks.
func Calibrate(d *casewright.Design, courses []heat.Course) (*heat.Fitted, error) {
	m, err := d.HeatMotor()
	if err != nil {
		return nil, err
	}
	film := float64(m.Gas[0].Coefficient)
	if film == 0 {
		return nil, errors.New("film_coefficient is 0, and what is fitted is a multiple of it: write in [heat] what you expect, above 0")
	}
	f := heat.Fitting{Motor: m, ScaleEnds: true, Film: heat.Range{Least: film / filmSpread, Usual: film, Most: film * filmSpread}}
	if len(m.Layers) > 0 {
		k := float64(m.Layers[0].Conductivity)
		f.Conductivity = heat.Range{Least: k / layerSpread, Usual: k, Most: k * layerSpread}
		if of := d.Heat.Layers[0].Material; of.Least > 0 {
			f.Conductivity = heat.Range{Least: of.Least, Usual: of.Usual, Most: of.Most}
		}
	}
	for _, one := range d.Heat.Maxima {
		f.Maxima = append(f.Maxima, heat.Maximum{
			Place: d.HeatPlace(one.Where), Least: quantity.Temperature(one.Least), Most: quantity.Temperature(one.Most), Sigma: sigmaLabel,
		})
	}
	for _, c := range courses {
		c.Sigma = sigmaCourse
		f.Courses = append(f.Courses, c)
	}
	return f.Fit()
}

// PlaceName is a place as [heat.measured] names it.
func PlaceName(d *casewright.Design, p heat.Place) string {
	if p.End < 0 {
		return p.Trace
	}
	return d.Ends[d.HeatedEnds()[p.End]].Name.Value + "." + p.Trace
}

// HeatedNames are the names of the ends that are part of the heat computation,
// as a file of courses may name them.
func HeatedNames(d *casewright.Design) []string {
	var list []string
	for _, i := range d.HeatedEnds() {
		list = append(list, d.Ends[i].Name.Value)
	}
	return list
}
