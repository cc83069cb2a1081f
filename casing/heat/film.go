package heat

import (
	"fmt"
	"math"

	"casewright/quantity"
)

// air is what convection needs to know of air at sea level.
type air struct{ conductivity, viscosity, prandtl float64 } // W/(m K), kinematic m²/s, 1

// airAt is air at a temperature in K: viscosity and conductivity by
// Sutherland's law with the constants of White, Viscous Fluid Flow, tables 1-2
// and 1-3; density as an ideal gas of 287.05 J/(kg K) at 101 325 Pa (all from
// memory). Within 2 % from 200 to 1000 K.
func airAt(t float64) air {
	law := func(at0, s float64) float64 { return at0 * math.Pow(t/273.15, 1.5) * (273.15 + s) / (t + s) }
	mu, k := law(1.716e-5, 110.4), law(0.0241, 194)
	density := 101325 / (287.05 * t)
	return air{k, mu / density, mu * 1006 / k}
}

// StillAir is free convection about a horizontal cylinder of a diameter in m,
// in W/(m² K): Churchill and Chu 1975, Int. J. Heat Mass Transfer 18, 1049 (from
// memory), for a Rayleigh number up to 1e12.
func StillAir(diameter quantity.Length) Correlation {
	return func(surface, fluid quantity.Temperature) quantity.HeatTransfer {
		d, film := float64(diameter), (float64(surface)+float64(fluid))/2
		a := airAt(film)
		ra := 9.80665 / film * math.Abs(float64(surface-fluid)) * d * d * d / (a.viscosity * a.viscosity) * a.prandtl
		return quantity.HeatTransfer(freeNusselt(ra, a.prandtl) * a.conductivity / d)
	}
}

func freeNusselt(ra, pr float64) float64 {
	root := 0.60 + 0.387*math.Pow(ra, 1.0/6)/math.Pow(1+math.Pow(0.559/pr, 9.0/16), 8.0/27)
	return root * root
}

// CrossWind is air at a speed in m/s across a cylinder of a diameter in m, in
// W/(m² K): Churchill and Bernstein 1977, J. Heat Transfer 99, 300 (from
// memory), for Re·Pr above 0.2; still air where that brings more.
func CrossWind(diameter quantity.Length, speed quantity.Speed) Correlation {
	still := StillAir(diameter)
	return func(surface, fluid quantity.Temperature) quantity.HeatTransfer {
		a := airAt((float64(surface) + float64(fluid)) / 2)
		re := float64(speed) * float64(diameter) / a.viscosity
		forced := crossNusselt(re, a.prandtl) * a.conductivity / float64(diameter)
		return max(quantity.HeatTransfer(forced), still(surface, fluid))
	}
}

func crossNusselt(re, pr float64) float64 {
	return 0.3 + 0.62*math.Sqrt(re)*math.Cbrt(pr)/math.Pow(1+math.Pow(0.4/pr, 2.0/3), 0.25)*
		math.Pow(1+math.Pow(re/282000, 5.0/8), 0.8)
}

// PipeFlow is a gas that flows fully turbulent through a bore and is cooled by
// it, in W/(m² K): Nu = 0.023 Re^0.8 Pr^0.3, Dittus and Boelter 1930, in the
// form of McAdams (from memory). Diameter in m, flow in kg/s, viscosity in
// Pa s, conductivity in W/(m K), specific heat in J/(kg K). It is an error where
// Re is below 10 000 or Pr outside 0.6 to 160; a bore shorter than ten
// diameters, or gas that enters it in a jet, passes on more than it says.
func PipeFlow(bore quantity.Length, flow quantity.MassFlow, viscosity quantity.Viscosity, conductivity quantity.Conductivity, specificHeat quantity.SpecificHeat) (quantity.HeatTransfer, error) {
	re := 4 * float64(flow) / (math.Pi * float64(bore) * float64(viscosity))
	pr := float64(viscosity) * float64(specificHeat) / float64(conductivity)
	switch {
	case !(re >= 1e4):
		return 0, fmt.Errorf("the flow has a Reynolds number of %.3g; the correlation of pipe flow holds from 10 000 on", re)
	case !(pr >= 0.6 && pr <= 160):
		return 0, fmt.Errorf("the gas has a Prandtl number of %.3g; the correlation of pipe flow holds from 0.6 to 160", pr)
	}
	return quantity.HeatTransfer(0.023 * math.Pow(re, 0.8) * math.Pow(pr, 0.3) * float64(conductivity) / float64(bore)), nil
}
