package heat

import "math"

// The nodes of an end.
const (
	endParts    = 16
	coverParts  = 18
	coverGrowth = 1.16
	finParts    = 14
	finGrowth   = 1.3
)

// ending is an end, the tube round it and the tube beyond.
type ending struct {
	network
	gas, outside Film
	face         int // where the heat enters, of the cover where there is one
	body, ring   []int
	gland        [2]int // the first and the last place of the grooves among body and ring
	bolts        int
}

func newEnding(m *Motor, e *End, mesh Mesh) *ending {
	n := &ending{gas: e.Gas[0], outside: m.Outside}
	wall, outside := areaOf(m.Bore, m.Wall), math.Pi*(float64(m.Bore)+2*float64(m.Wall))
	heldBy := func(s Solid) float64 { return float64(s.Density) * float64(s.SpecificHeat) } // J/(m³ K)

	// The tube beyond, from its middle on.
	parts, growth := finParts*mesh.Nodes, math.Pow(finGrowth, 1/float64(mesh.Nodes))
	away := graded(max(float64(m.Length)/2-float64(e.Length), float64(e.Length)/4), parts, growth)
	k := float64(m.Tube.Conductivity) * wall
	for i := parts; i > 0; i-- {
		width := away[i] - away[i-1]
		node := n.add(heldBy(m.Tube) * wall * width)
		if i < parts {
			n.join(node-1, node, k/((away[i+1]-away[i-1])/2))
		}
		n.beyond = append(n.beyond, beyond{node, -1, 0, outside * width})
	}
	nearest1 := &n.beyond[len(n.beyond)-1]
	nearest1.g = k / (away[1] / 2)

	// The end and the tube round it, divided alike.
	along := through(float64(e.Length), endParts*mesh.Nodes, float64(e.Entry), float64(e.Gland), float64(e.GlandEnd), float64(e.Bolts))
	section := float64(e.Mass) / (float64(e.Body.Density) * float64(e.Length))
	for i, width := range shares(along) {
		ring := n.add(heldBy(m.Tube) * wall * width)
		body := n.add(heldBy(e.Body) * section * width)
		n.join(ring, body, math.Pi*float64(m.Bore)*width/float64(e.Joint))
		n.meet(ring, outside*width, &n.outside)
		if i > 0 {
			apart := along[i] - along[i-1]
			n.join(n.ring[i-1], ring, k/apart)
			n.join(n.body[i-1], body, float64(e.Body.Conductivity)*section/apart)
		}
		n.ring, n.body = append(n.ring, ring), append(n.body, body)
	}
	nearest1.from = n.ring[0]
	n.gland = [2]int{nearest(along, float64(e.Gland)), nearest(along, float64(max(e.Gland, e.GlandEnd)))}
	n.bolts = nearest(along, float64(e.Bolts))
	n.meet(n.body[len(n.body)-1], float64(e.Outside), &n.outside)

	entry := n.body[nearest(along, float64(e.Entry))]
	n.face = entry
	if e.Cover != nil && e.Hot > 0 {
		n.face = n.cover(e, entry, mesh)
	}
	n.meet(n.face, float64(e.Hot), &n.gas)
	n.ready(float64(m.Start))
	return n
}

// cover adds the layer on the hot face, a plane slab, and returns its face.
func (n *ending) cover(e *End, body int, mesh Mesh) int {
	c := e.Cover
	borders := graded(float64(c.Thickness), coverParts*mesh.Nodes, math.Pow(coverGrowth, 1/float64(mesh.Nodes)))
	widths, area := shares(borders), float64(e.Hot)
	face, node := -1, -1
	for i, width := range widths {
		capacity := float64(c.Density) * float64(c.SpecificHeat) * area * width
		next := body
		if i == len(widths)-1 && c.Gap < touching {
			n.capacity[body] += capacity
		} else {
			next = n.add(capacity)
		}
		if i == 0 {
			face = next
		} else {
			n.join(node, next, float64(c.Conductivity)*area/(borders[i]-borders[i-1]))
		}
		node = next
	}
	if c.Gap >= touching {
		n.join(node, body, area/float64(c.Gap))
	}
	return face
}

// hottest is the highest temperature of nodes, the first and the last of which
// are numbered.
func (n *network) hottest(nodes []int, from, to int) float64 {
	most := n.now[nodes[from]]
	for _, node := range nodes[from : to+1] {
		most = max(most, n.now[node])
	}
	return most
}
