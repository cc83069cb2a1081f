package heat

import (
	"math"

	"casewright/quantity"
)

// The nodes of the column: the first layer is divided towards the gas, where
// its heat stands steep.
const (
	firstParts  = 48
	firstGrowth = 1.05
	layerParts  = 24
	wallParts   = 8
	bareParts   = 16 // of a wall without a liner
)

// touching is the resistance below which a gap is none, m² K/W: a thousandth of
// what metal pressed on metal has, and too little for the digits of a float64.
const touching = 1e-8

// column is liner, gaps and tube half-way along the motor, a metre of it.
type column struct {
	network
	gas, outside Film
	bond         int     // the outer face of the last layer, or the wall's inner
	wall         int     // the first node of the wall
	last         int     // the last one
	liner        float64 // what the first node of the wall holds of the last layer, where they touch, J/K
}

func newColumn(m *Motor, mesh Mesh) *column {
	c := &column{gas: m.Gas[0], outside: m.Outside}
	radius := float64(m.Bore) / 2
	for _, l := range m.Layers {
		radius -= float64(l.Thickness)
	}
	hot, previous, gap := radius, -1, 0.0
	for i, l := range m.Layers {
		parts, growth := layerParts, 1.0
		if i == 0 {
			parts, growth = firstParts, math.Pow(firstGrowth, 1/float64(mesh.Nodes))
		}
		previous = c.shell(l.Solid, radius, graded(float64(l.Thickness), parts*mesh.Nodes, growth), previous, gap)
		radius, gap = radius+float64(l.Thickness), float64(l.Gap)
	}
	c.bond = previous
	parts := wallParts
	if len(m.Layers) == 0 {
		parts = bareParts
	}
	c.wall = len(c.capacity)
	if gap < touching && previous >= 0 {
		c.wall, c.liner = previous, c.capacity[previous]
	}
	c.last = c.shell(m.Tube, radius, graded(float64(m.Wall), parts*mesh.Nodes, 1), previous, gap)
	if c.bond < 0 {
		c.bond = c.wall
	}
	c.meet(0, 2*math.Pi*hot, &c.gas)
	c.meet(c.last, 2*math.Pi*(radius+float64(m.Wall)), &c.outside)
	c.ready(float64(m.Start))
	return c
}

// shell adds a hollow cylinder from a radius on, divided at borders, to a node
// across a gap, or to none; it returns the outermost node.
func (c *column) shell(s Solid, radius float64, borders []float64, previous int, gap float64) int {
	half := make([]float64, len(borders)+1) // the radii between the nodes
	half[0], half[len(borders)] = radius, radius+borders[len(borders)-1]
	for i := 1; i < len(borders); i++ {
		half[i] = radius + (borders[i-1]+borders[i])/2
	}
	node := -1
	for i, place := range borders {
		capacity := float64(s.Density) * float64(s.SpecificHeat) * math.Pi * (half[i+1]*half[i+1] - half[i]*half[i])
		if i == 0 && previous >= 0 && gap < touching {
			c.capacity[previous] += capacity
			node = previous
			continue
		}
		next := c.add(capacity)
		switch {
		case i > 0:
			c.join(node, next, 2*math.Pi*float64(s.Conductivity)/math.Log((radius+place)/(radius+borders[i-1])))
		case previous >= 0:
			c.join(previous, next, 2*math.Pi*radius/gap)
		}
		node = next
	}
	return node
}

// mean is the mean temperature of the wall, by the heat it holds.
func (c *column) mean() float64 {
	sum, capacity := -c.liner*c.now[c.wall], -c.liner
	for i := c.wall; i <= c.last; i++ {
		sum += c.capacity[i] * c.now[i]
		capacity += c.capacity[i]
	}
	return sum / capacity
}

// drive is what the ends need to know of the column.
func (c *column) drive() drive { return drive{c.mean(), c.outside.loses(c.now[c.last])} }

// areaOf is the area of a ring between two diameters.
func areaOf(inside, wall quantity.Length) float64 {
	return math.Pi * float64(wall) * (float64(inside) + float64(wall))
}
