package heat_test

import (
	"math"
	"testing"

	"casewright/casing/heat"
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
