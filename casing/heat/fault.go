package heat

import (
	"fmt"
	"math"
	"strings"
)

// A Fault is one reason why a motor cannot be computed.
type Fault struct {
	Layer, End int    // of which it is, from 0; -1 where it is of none
	Field      string // as in "Thickness"; of a film or a solid with its own, as in "Outside.Emissivity"
	Why        string // what it must be
}

// Error names the field and says why it does not do.
func (f *Fault) Error() string {
	name := f.Field
	switch {
	case f.Layer >= 0:
		name = fmt.Sprintf("Layers[%d].%s", f.Layer, name)
	case f.End >= 0:
		name = fmt.Sprintf("Ends[%d].%s", f.End, name)
	}
	return "heat: " + name + " " + f.Why
}

// Faults are all reasons why a motor cannot be computed.
type Faults []*Fault

// Error gives one fault a line.
func (f Faults) Error() string {
	lines := make([]string, len(f))
	for i, one := range f {
		lines[i] = one.Error()
	}
	return strings.Join(lines, "\n")
}

// MostLayers is the greatest number of layers.
const MostLayers = 10

// checking collects faults.
type checking struct {
	layer, end int
	faults     Faults
}

func (c *checking) fail(field, why string) {
	c.faults = append(c.faults, &Fault{c.layer, c.end, field, why})
}

// within holds a number against its bounds; NaN is out of all.
func (c *checking) within(field string, x, least, most float64, unit string) bool {
	if x >= least && x <= most {
		return true
	}
	c.fail(field, strings.TrimRight(fmt.Sprintf("is %.4g; it must lie from %g to %g %s", x, least, most, unit), " "))
	return false
}

func (c *checking) solid(field string, s Solid) {
	c.within(field+"Conductivity", float64(s.Conductivity), 0.005, 1000, "W/(m K)")
	c.within(field+"Density", float64(s.Density), 1, 25e3, "kg/m³")
	c.within(field+"SpecificHeat", float64(s.SpecificHeat), 50, 10e3, "J/(kg K)")
}

// film holds a film; one that passes nothing on may have any temperature.
func (c *checking) film(field string, f Film) {
	if f.Coefficient == 0 && f.Emissivity == 0 && f.Correlation == nil {
		return
	}
	c.within(field+".Temperature", float64(f.Temperature), 100, 5000, "K")
	c.within(field+".Emissivity", f.Emissivity, 0, 1, "")
	if f.Correlation == nil {
		c.within(field+".Coefficient", float64(f.Coefficient), 0, 1e6, "W/(m² K)")
	}
}

func (c *checking) slab(l *Layer) {
	c.solid("", l.Solid)
	c.within("Thickness", float64(l.Thickness), 1e-6, 0.5, "m")
	c.within("Gap", float64(l.Gap), 0, 10, "m² K/W")
}

// Check tells what is wrong with a motor; the error is a [Faults], nil where
// nothing is.
func (m *Motor) Check(mesh Mesh) error {
	c := &checking{layer: -1, end: -1}
	if mesh.Nodes < 1 || mesh.Nodes > 64 || mesh.Steps < 1 || mesh.Steps > 64 {
		c.fail("Mesh", "must lie from 1 to 64")
	}
	c.solid("Tube.", m.Tube)
	bored := c.within("Bore", float64(m.Bore), 1e-3, 2, "m")
	c.within("Wall", float64(m.Wall), 1e-5, 0.2, "m")
	c.within("Length", float64(m.Length), 1e-3, 20, "m")
	c.film("Gas[0]", m.Gas[0])
	c.film("Gas[1]", m.Gas[1])
	c.film("Outside", m.Outside)
	c.within("Start", float64(m.Start), 100, 2000, "K")
	if c.within("Burn", float64(m.Burn), 0.01, 600, "s") && !(float64(m.Until) > float64(m.Burn) && float64(m.Until) <= 1e6) {
		c.fail("Until", "must lie after the burning time, and at most at 1e6 s")
	}
	c.within("Touch", float64(m.Touch), 100, 2000, "K")
	for _, mark := range m.Marks {
		c.within("Marks", float64(mark), 0, 1e6, "s")
	}
	if len(m.Layers) > MostLayers {
		c.fail("Layers", fmt.Sprintf("are %d; at most %d can be computed", len(m.Layers), MostLayers))
	}
	radius := float64(m.Bore) / 2
	for i := range m.Layers {
		c.layer = i
		c.slab(&m.Layers[i])
		radius -= float64(m.Layers[i].Thickness)
	}
	c.layer = -1
	if bored && !(radius > float64(m.Bore)*leastOpen/2) {
		c.fail("Layers", "leave no room for the gas")
	}
	for i := range m.Ends {
		c.end = i
		c.ending(m, &m.Ends[i])
	}
	if c.faults == nil {
		return nil
	}
	return c.faults
}

// leastOpen is the bore that the layers must leave, over the bore of the tube.
const leastOpen = 0.02

func (c *checking) ending(m *Motor, e *End) {
	c.solid("Body.", e.Body)
	c.within("Mass", float64(e.Mass), 1e-5, 1e4, "kg")
	if c.within("Length", float64(e.Length), 1e-3, 2, "m") {
		for field, place := range map[string]float64{"Gland": float64(e.Gland), "GlandEnd": float64(e.GlandEnd), "Bolts": float64(e.Bolts), "Entry": float64(e.Entry)} {
			if !(place >= 0 && place <= float64(e.Length)) {
				c.fail(field, "must lie within the end")
			}
		}
		if section := math.Pi / 4 * float64(m.Bore) * float64(m.Bore) * float64(e.Length) * float64(e.Body.Density); float64(e.Mass) > section*(1+1e-9) {
			c.fail("Mass", fmt.Sprintf("is more than fits into the bore, %.3g kg", section))
		}
	}
	c.within("Hot", float64(e.Hot), 0, 1, "m²")
	c.within("Outside", float64(e.Outside), 0, 1, "m²")
	c.within("Joint", float64(e.Joint), 1e-7, 10, "m² K/W")
	c.film("Gas[0]", e.Gas[0])
	c.film("Gas[1]", e.Gas[1])
	if e.Cover != nil {
		cover := &checking{layer: -1, end: c.end}
		cover.slab(e.Cover)
		for _, f := range cover.faults {
			f.Field = "Cover." + f.Field
		}
		c.faults = append(c.faults, cover.faults...)
	}
}
