package heat_test

import (
	"math"
	"testing"

	"casewright/casing/heat"
)

// smooth is a motor whose films do not jump against its start, so that the
// order shows: it warms from a cool start by weak films.
func smooth() *heat.Motor {
	m := whole()
	m.Outside = heat.Film{Temperature: 295, Coefficient: 10}
	for i := range m.Ends {
		m.Ends[i].Gas[0].Emissivity = 0
	}
	return m
}

// orderOf is the order of convergence that three answers show, each finer by
// half than the one before.
func orderOf(coarse, middle, fine float64) float64 {
	return math.Log2(math.Abs((coarse - middle) / (middle - fine)))
}

// Temperatures converge by the square of the step and of the width of a cell.
func TestOrder(t *testing.T) {
	answers := func(mesh heat.Mesh) []float64 {
		h := run(t, smooth(), mesh)
		return []float64{
			float64(h.AtBurnout(h.HotFace)), float64(h.At(h.WallMean, 60)), float64(h.At(h.Ends[0].Body, 100)), float64(h.At(h.Ends[1].Body, 100)),
		}
	}
	names := []string{"hot face at burnout", "wall at 60 s", "bulkhead at 100 s", "nozzle at 100 s"}
	for what, meshes := range map[string][3]heat.Mesh{
		"time": {{Nodes: 1, Steps: 2}, {Nodes: 1, Steps: 4}, {Nodes: 1, Steps: 8}}, "space": {{Nodes: 2, Steps: 4}, {Nodes: 4, Steps: 4}, {Nodes: 8, Steps: 4}},
	} {
		a, b, c := answers(meshes[0]), answers(meshes[1]), answers(meshes[2])
		for i := range a {
			t.Logf("%s, %s: order %.2f, %.6f K apart", names[i], what, orderOf(a[i], b[i], c[i]), b[i]-c[i])
			if order := orderOf(a[i], b[i], c[i]); order < 1.7 && math.Abs(b[i]-c[i]) > 1e-4 {
				t.Errorf("%s in %s: order %.2f", names[i], what, order)
			}
		}
	}
}

// The usual mesh is within 0.5 % of the rise of one eight times finer.
func TestUsual(t *testing.T) {
	usual, fine := run(t, whole(), heat.Usual), run(t, whole(), heat.Mesh{Nodes: 6, Steps: 6})
	peak := func(name string, a, b heat.Trace) {
		x, y := usual.Peak(a), fine.Peak(b)
		rises(t, name, float64(x.Temperature), float64(y.Temperature), 295, 0.005)
		if math.Abs(float64(x.Time-y.Time)) > 0.05*float64(y.Time) {
			t.Errorf("%s: peaks at %g s and %g s", name, x.Time, y.Time)
		}
	}
	peak("hot face", usual.HotFace, fine.HotFace)
	peak("wall", usual.WallMean, fine.WallMean)
	for i := range usual.Ends {
		peak("gland of "+usual.Ends[i].Name, usual.Ends[i].Gland, fine.Ends[i].Gland)
		peak("rear of "+usual.Ends[i].Name, usual.Ends[i].Rear, fine.Ends[i].Rear)
	}
	if math.Abs(usual.Safe-fine.Safe) > 0.01*fine.Safe {
		t.Errorf("safe at %g s and %g s", usual.Safe, fine.Safe)
	}
}
