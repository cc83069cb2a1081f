package heat_test

import (
	"math"
	"testing"

	"casewright/casing/heat"
	"casewright/quantity"
)

var (
	aluminium = heat.Solid{Conductivity: 167, Density: 2700, SpecificHeat: 896}
	paper     = heat.Solid{Conductivity: 0.15, Density: 1150, SpecificHeat: 1400}
	graphite  = heat.Solid{Conductivity: 110, Density: 1780, SpecificHeat: 720}
)

// lined is a 54 mm tube with a paper liner, without ends.
func lined() *heat.Motor {
	return &heat.Motor{
		Layers: []heat.Layer{{Name: "liner", Solid: paper, Thickness: 1.6e-3, Gap: 1e-4}},
		Tube:   aluminium, Bore: 50.8e-3, Wall: 1.6e-3, Length: 0.4,
		Gas:     [2]heat.Film{{Temperature: 2500, Coefficient: 800, Emissivity: 0.3}, {Temperature: 295}},
		Outside: heat.Film{Temperature: 295, Emissivity: 0.2, Correlation: heat.CrossWind(54e-3, 2)},
		Start:   295, Burn: 2.5, Until: 14400, Touch: 318,
	}
}

// whole is lined with two ends.
func whole() *heat.Motor {
	m := lined()
	nozzle := heat.End{
		Name: "nozzle", Body: aluminium, Mass: 0.12, Length: 0.034, Gland: 0.006, Bolts: 0.02,
		Hot: 8e-4, Entry: 0.02, Gas: [2]heat.Film{{Temperature: 2500, Coefficient: 2000}, {Temperature: 295}},
		Cover: &heat.Layer{Name: "insert", Solid: graphite, Thickness: 6e-3, Gap: 1e-3}, Joint: 5e-4, Outside: 1e-3,
	}
	bulkhead := nozzle
	bulkhead.Name, bulkhead.Entry, bulkhead.Cover, bulkhead.Gas[0].Coefficient = "bulkhead", 0, nil, 300
	m.Ends = []heat.End{bulkhead, nozzle}
	return m
}

func run(t *testing.T, m *heat.Motor, mesh heat.Mesh) *heat.History {
	t.Helper()
	h, err := m.Run(mesh)
	if err != nil {
		t.Fatal(err)
	}
	return h
}

// rises holds a temperature against another, within a share of the rise from a
// start.
func rises(t *testing.T, what string, got, want, start, share float64) {
	t.Helper()
	if !(math.Abs(got-want) <= share*math.Abs(want-start)) {
		t.Errorf("%s: %.4f K, want %.4f K: off by %.3f %% of the rise", what, got, want, 100*(got-want)/(want-start))
	}
}

// case1 is lined without a gap and without radiation, in still films.
func case1() *heat.Motor {
	m := lined()
	m.Layers[0].Gap, m.Gas[0].Emissivity, m.Outside = 0, 0, heat.Film{Temperature: 295, Coefficient: 10}
	m.Until, m.Touch = 400, 296
	return m
}

// Heat that enters an end behind its grooves reaches the far wall of the last
// one first (conduction goes down the slope: Fourier): the gland is told as hot
// as it is there, and the tube as hot as it is anywhere round the end.
func TestGlandIsHottestGroove(t *testing.T) {
	m := whole()
	m.Ends = m.Ends[1:]
	end := &m.Ends[0]
	end.Gland, end.GlandEnd = 0.004, 0.014
	both := run(t, m, heat.Usual)
	end.GlandEnd = 0
	first := run(t, m, heat.Usual)
	end.Gland = 0.014
	last := run(t, m, heat.Usual)
	at := func(h *heat.History) float64 { return float64(h.PeakBurning(h.Ends[0].Gland).Temperature) }
	if start := float64(m.Start); !(at(last)-start > 1.2*(at(first)-start)) {
		t.Fatalf("the far wall is at %g K, the near one at %g K", at(last), at(first))
	}
	rises(t, "gland of two grooves", at(both), at(last), float64(m.Start), 0.02)
	for i, e := 0, &both.Ends[0]; i < len(both.Time); i++ {
		if e.Tube[i] < e.Ring[i] || e.Metal[i] < e.Tube[i] || e.Gland[i] != max(e.Body[i], e.Ring[i]) {
			t.Fatalf("at %g s: tube %g K, over the grooves %g K, metal %g K", both.Time[i], e.Tube[i], e.Ring[i], e.Metal[i])
		}
	}
}

// The mean of the wall is of the wall alone, also where the liner touches it: a
// gap too small to matter does not move it.
func TestMeanOfWallAlone(t *testing.T) {
	m := lined()
	m.Tube.Conductivity, m.Layers[0].Gap = 1, 0
	touching := run(t, m, heat.Usual)
	m.Layers = []heat.Layer{m.Layers[0]}
	m.Layers[0].Gap = 2e-8
	apart := run(t, m, heat.Usual)
	for _, at := range []float64{1, 2.5, 10} {
		now := func(h *heat.History) float64 { return float64(h.At(h.WallMean, quantity.Time(at))) }
		rises(t, "mean of the wall", now(touching), now(apart), float64(m.Start), 1e-3)
	}
}
