package heat_test

import (
	"errors"
	"math"
	"testing"

	"casewright/casing/heat"
	"casewright/quantity"
)

// FuzzRun: any values are refused with faults that name a field, or give
// temperatures that are numbers. Nothing panics.
func FuzzRun(f *testing.F) {
	f.Add(0.3, 1350., 1500., 0.0016, 1e-4, 0.05, 0.002, 0.4, 800., 2600., 0.3, 2.5, 300., 318., 0.12, 0.025, 2e-4)
	f.Add(167., 2700., 896., 1e-5, 0., 10., 1e-5, 100., 1e5, 4500., 1., 0.01, 86400., 2000., 1e3, 10., 0.)
	f.Add(0.005, 25e3, 2e4, 1., 1., 10., 1., 100., 0., 200., 0., 600., 600., 200., 1e6, 1e-4, 1.)
	f.Add(math.NaN(), -1., math.Inf(1), 0., -0., 1e308, 5e-324, 0., math.NaN(), 0., 2., -1., math.Inf(-1), 0., 0., 0., -1.)
	f.Fuzz(func(t *testing.T, k, rho, c, thick, gap, bore, wall, length, h, gas, emissivity, burn, until, touch, mass, end, joint float64) {
		s := heat.Solid{Conductivity: quantity.Conductivity(k), Density: quantity.Density(rho), SpecificHeat: quantity.SpecificHeat(c)}
		film := heat.Film{Coefficient: quantity.HeatTransfer(h), Temperature: quantity.Temperature(gas), Emissivity: emissivity}
		layer := heat.Layer{Solid: s, Thickness: quantity.Length(thick), Gap: quantity.ThermalResistance(gap)}
		area := quantity.Area(bore * bore)
		m := &heat.Motor{
			Layers: []heat.Layer{layer}, Tube: s, Bore: quantity.Length(bore), Wall: quantity.Length(wall), Length: quantity.Length(length),
			Gas: [2]heat.Film{film, {}}, Outside: heat.Film{Temperature: 295, Emissivity: 0.5, Correlation: heat.StillAir(quantity.Length(bore))}, Start: 300,
			Burn: quantity.Time(burn), Until: quantity.Time(until), Touch: quantity.Temperature(touch), Marks: []quantity.Time{quantity.Time(burn * gap)},
			Ends: []heat.End{
				{Body: s, Mass: quantity.Mass(mass), Length: quantity.Length(end), Hot: area, Cover: &layer, Gas: [2]heat.Film{film, {}}, Joint: quantity.ThermalResistance(joint), Outside: area},
				{Body: aluminium, Mass: quantity.Mass(mass), Length: quantity.Length(end), Entry: quantity.Length(end), Gland: quantity.Length(end * gap), Hot: area, Gas: [2]heat.Film{film, film}, Joint: quantity.ThermalResistance(joint)},
			},
		}
		history, err := m.Run(heat.Usual)
		if err != nil {
			var faults heat.Faults
			if history != nil || !errors.As(err, &faults) && !errors.Is(err, heat.ErrUnsettled) {
				t.Fatalf("%v, %#v", history != nil, err)
			}
			return
		}
		for _, trace := range traces(history) {
			for i, v := range trace {
				if math.IsNaN(v) || math.IsInf(v, 0) || v < 0 || v > 5000 {
					t.Fatalf("%g K at %g s", v, history.Time[i])
				}
			}
		}
		if !(history.Balance < 1e-6) {
			t.Fatalf("%g of the heat is missing", history.Balance)
		}
	})
}
