package heat

import (
	"errors"
	"math"

	"gonum.org/v1/gonum/blas"
	"gonum.org/v1/gonum/blas/blas64"
	"gonum.org/v1/gonum/lapack/lapack64"

	"casewright/quantity"
)

// stefan is the Stefan–Boltzmann constant, W/(m² K⁴), of the SI of 2019
// (from memory).
const stefan = 5.670374419e-8

// A network is a set of nodes that hold heat, joined by conductances.
type network struct {
	capacity []float64 // J/K
	links    []link
	surfaces []surface
	beyond   []beyond

	order []int // of each node in the matrix
	band  int

	now   []float64 // temperatures, K
	rate  []float64 // heat into each node at now, W
	known []float64 // what a stage starts from, J

	matrix blas64.SymmetricBand
	right  blas64.General

	start, saved     []float64  // of the step under way: heat held and rate at its start
	brought          [2]float64 // what comes from outside, now and at the first stage, W
	inflow, turnover float64    // that since ignition, and its absolute sum, J
}

type link struct {
	a, b int
	g    float64 // W/K
}

// surface is where a node meets a fluid.
type surface struct {
	node int
	area float64
	film *Film
}

// beyond is a node whose temperature is told as the difference from that of
// the column: from is the node that it is joined to, which is told in full, or
// -1; area meets the outside.
type beyond struct {
	node, from int
	g, area    float64
}

// drive is what the column tells the networks of the ends at a moment.
type drive struct {
	wall    float64 // mean temperature of the tube's wall, K
	outside float64 // coefficient of its film with radiation, W/(m² K)
}

func (n *network) add(capacity float64) int {
	n.capacity = append(n.capacity, capacity)
	return len(n.capacity) - 1
}

func (n *network) join(a, b int, g float64) { n.links = append(n.links, link{a, b, g}) }

func (n *network) meet(node int, area float64, film *Film) {
	if area > 0 {
		n.surfaces = append(n.surfaces, surface{node, area, film})
	}
}

// ready numbers the nodes by their distance from the first, so that the matrix
// has a narrow band (Cuthill and McKee, from memory), and sets them to a
// temperature; those beyond differ by nothing.
func (n *network) ready(start float64) {
	count := len(n.capacity)
	near := make([][]int, count)
	for _, l := range n.links {
		near[l.a], near[l.b] = append(near[l.a], l.b), append(near[l.b], l.a)
	}
	for _, b := range n.beyond {
		if b.from >= 0 {
			near[b.node], near[b.from] = append(near[b.node], b.from), append(near[b.from], b.node)
		}
	}
	n.order = make([]int, count)
	seen, queue := make([]bool, count), []int{0}
	seen[0] = true
	for number := 0; number < len(queue); number++ {
		n.order[queue[number]] = number
		for _, other := range near[queue[number]] {
			if !seen[other] {
				seen[other] = true
				queue = append(queue, other)
			}
		}
	}
	for node := range near {
		for _, other := range near[node] {
			n.band = max(n.band, n.order[node]-n.order[other])
		}
	}
	for _, list := range []*[]float64{&n.now, &n.rate, &n.known, &n.start, &n.saved} {
		*list = make([]float64, count)
	}
	for i := range n.now {
		n.now[i] = start
	}
	for _, b := range n.beyond {
		n.now[b.node] = 0
	}
	n.matrix = blas64.SymmetricBand{Uplo: blas.Upper, N: count, K: n.band, Stride: n.band + 1, Data: make([]float64, count*(n.band+1))}
	n.right = blas64.General{Rows: count, Cols: 1, Stride: 1, Data: make([]float64, count)}
}

// coefficient is what a film passes on by convection at a surface, W/(m² K).
func (f *Film) coefficient(surface float64) float64 {
	if f.Correlation == nil {
		return float64(f.Coefficient)
	}
	return float64(f.Correlation(quantity.Temperature(surface), f.Temperature))
}

// straight tells whether the heat of a film is linear in the temperature.
func (f *Film) straight() bool { return f.Correlation == nil && f.Emissivity == 0 }

// brings is the heat that a film brings to a surface, W/m².
func (f *Film) brings(surface float64) float64 {
	t := float64(f.Temperature)
	q := f.coefficient(surface) * (t - surface)
	if f.Emissivity > 0 {
		q += f.Emissivity * stefan * (t*t*t*t - surface*surface*surface*surface)
	}
	return q
}

// loses is the coefficient of a film with radiation, as a small difference
// about a temperature meets it, W/(m² K).
func (f *Film) loses(surface float64) float64 {
	return f.coefficient(surface) + 4*f.Emissivity*stefan*surface*surface*surface
}

// flow sets the rate of every node at its present temperature, and returns the
// heat that comes from outside, W.
func (n *network) flow(d drive) float64 {
	clear(n.rate)
	for _, l := range n.links {
		q := l.g * (n.now[l.b] - n.now[l.a])
		n.rate[l.a] += q
		n.rate[l.b] -= q
	}
	in := 0.0
	for _, s := range n.surfaces {
		q := s.area * s.film.brings(n.now[s.node])
		n.rate[s.node] += q
		in += q
	}
	for _, b := range n.beyond {
		if b.from >= 0 {
			q := b.g * (n.now[b.from] - d.wall - n.now[b.node])
			n.rate[b.node] += q
			n.rate[b.from] -= q
		}
		q := -b.area * d.outside * n.now[b.node]
		n.rate[b.node] += q
		in += q
	}
	return in
}

// ErrUnsettled is met where radiation and films do not settle within a step.
var ErrUnsettled = errors.New("heat: a step does not settle")

// stage solves C T − a f(T) = known for the temperatures now, by Newton's way,
// and returns the heat that comes from outside, W; rate is left as f(T).
func (n *network) stage(a float64, d drive) (float64, error) {
	straight := true
	for _, s := range n.surfaces {
		straight = straight && s.film.straight()
	}
	in := n.flow(d)
	var triangle blas64.TriangularBand
	for try := range mostTries {
		// Tangents serve for several corrections: they hardly move.
		if try%tangents == 0 {
			n.assemble(a, d)
			var ok bool
			if triangle, ok = lapack64.Pbtrf(n.matrix); !ok {
				return 0, ErrUnsettled
			}
		}
		for i, o := range n.order {
			n.right.Data[o] = n.known[i] - n.capacity[i]*n.now[i] + a*n.rate[i]
		}
		lapack64.Pbtrs(triangle, n.right)
		moved := 0.0
		for i, o := range n.order {
			n.now[i] += n.right.Data[o]
			moved = max(moved, math.Abs(n.right.Data[o])/(math.Abs(n.now[i])+1))
		}
		in = n.flow(d)
		if straight || moved < settled {
			return in, nil
		}
		if math.IsNaN(moved) || math.IsInf(moved, 0) {
			break
		}
	}
	return in, ErrUnsettled
}

const (
	mostTries = 60
	tangents  = 6
	settled   = 1e-8
)

// assemble sets the matrix of a stage, with the films as tangents at the
// temperatures now. It gives corrections and not temperatures: with long steps
// through metal these would lose digits.
func (n *network) assemble(a float64, d drive) {
	clear(n.matrix.Data)
	stride, data := n.matrix.Stride, n.matrix.Data
	for i, o := range n.order {
		data[o*stride] = n.capacity[i]
	}
	join := func(i, j int, g float64) {
		p, q := n.order[i], n.order[j]
		data[p*stride] += a * g
		data[q*stride] += a * g
		if p > q {
			p, q = q, p
		}
		data[p*stride+q-p] -= a * g
	}
	for _, l := range n.links {
		join(l.a, l.b, l.g)
	}
	for _, s := range n.surfaces {
		data[n.order[s.node]*stride] += a * s.area * s.film.loses(n.now[s.node])
	}
	for _, b := range n.beyond {
		data[n.order[b.node]*stride] += a * b.area * d.outside
		if b.from >= 0 {
			join(b.node, b.from, b.g)
		}
	}
}

// quickest is how long the node that changes the most quickly takes, at its
// rate now, for a share of its temperature, s; those beyond are differences and
// take no part.
func (n *network) quickest(share float64) float64 {
	least := math.Inf(1)
	for i := len(n.beyond); i < len(n.now); i++ {
		if r := math.Abs(n.rate[i]); r > 0 {
			least = min(least, share*n.capacity[i]*n.now[i]/r)
		}
	}
	return least
}

// heat is what the nodes hold, J.
func (n *network) heat() float64 {
	sum := 0.0
	for i, c := range n.capacity {
		sum += c * n.now[i]
	}
	return sum
}
