package heat_test

import (
	"testing"

	"casewright/casing/heat"
)

func TestEndsRun(t *testing.T) {
	m := case1()
	m.Touch = 318
	m.Until = 14400
	m.Outside = heat.Film{Temperature: 295, Emissivity: 0.2, Correlation: heat.CrossWind(54e-3, 2)}
	end := heat.End{
		Name: "nozzle", Body: aluminium, Mass: 0.12, Length: 0.034, Gland: 0.006, Bolts: 0.02,
		Hot: 8e-4, Entry: 0.02, Gas: [2]heat.Film{{Temperature: 2500, Coefficient: 2000}, {Temperature: 295}},
		Cover: &heat.Layer{Name: "insert", Solid: heat.Solid{Conductivity: 100, Density: 1800, SpecificHeat: 1200}, Thickness: 6e-3, Gap: 1e-3}, Joint: 5e-4, Outside: 1e-3,
	}
	bulk := end
	bulk.Name, bulk.Entry, bulk.Cover, bulk.Gas[0].Coefficient = "bulkhead", 0, nil, 300
	m.Ends = []heat.End{end, bulk}
	for _, mesh := range []heat.Mesh{{1, 1}, {2, 1}, {1, 2}, {4, 4}} {
		h, err := m.Run(mesh)
		if err != nil {
			t.Fatal(err)
		}
		t.Log(mesh, len(h.Time), h.Balance, h.Cooled, h.Safe, h.Peak(h.WallMean))
		for _, e := range h.Ends {
			t.Log(e.Name, h.Peak(e.Face), h.Peak(e.Gland), h.AtBurnout(e.Gland), h.Peak(e.Bolts), h.Peak(e.Rear))
		}
	}
}

func BenchmarkEnds(b *testing.B) {
	m := case1()
	m.Touch = 318
	m.Until = 14400
	m.Outside = heat.Film{Temperature: 295, Emissivity: 0.2, Correlation: heat.CrossWind(54e-3, 2)}
	end := heat.End{
		Name: "nozzle", Body: aluminium, Mass: 0.12, Length: 0.034, Gland: 0.006, Bolts: 0.02,
		Hot: 8e-4, Entry: 0.02, Gas: [2]heat.Film{{Temperature: 2500, Coefficient: 2000}, {Temperature: 295}},
		Cover: &heat.Layer{Name: "insert", Solid: heat.Solid{Conductivity: 100, Density: 1800, SpecificHeat: 1200}, Thickness: 6e-3, Gap: 1e-3}, Joint: 5e-4, Outside: 1e-3,
	}
	m.Ends = []heat.End{end, end}
	for b.Loop() {
		if _, err := m.Run(heat.Usual); err != nil {
			b.Fatal(err)
		}
	}
}
