package heat_test

import (
	"math"
	"testing"

	"casewright/casing/heat"
	"casewright/quantity"
)

func within(t *testing.T, what string, got, want, share float64) {
	t.Helper()
	if !(math.Abs(got/want-1) <= share) {
		t.Errorf("%s: got %.5g, want %.5g within %.2g of it", what, got, want, share)
	}
}

// TestCrossWind holds two worked examples. Source: solutions to Çengel's Heat
// Transfer, chapter 7 (seen at coursehero.com 6719813 and 6719861): 7-53, a pipe of
// 100 mm at 75 °C in wind of 10 km/h at 5 °C, Nu = 71.19 at k = 0.02662 W/(m K);
// 7-100, a pipe of 116 mm in 4 m/s, air at 10 °C, Nu = 107.0 at k = 0.02439 W/(m K).
func TestCrossWind(t *testing.T) {
	within(t, "7-53", float64(heat.CrossWind(0.1, 10/3.6)(quantity.Celsius(75), quantity.Celsius(5))), 71.19*0.02662/0.1, 0.02)
	within(t, "7-100", float64(heat.CrossWind(0.116, 4)(quantity.Celsius(10), quantity.Celsius(10))), 107.0*0.02439/0.116, 0.02)
}

// TestStillAir holds a cylinder of 60 mm at 70 °C in air of 30 °C: the formula with
// the air of the problem's table at 50 °C, k = 0.02735 W/(m K), ν = 1.798e-5 m²/s,
// Pr = 0.7228, gives Ra = 5.867e5 and 5.724 W/(m² K), worked by hand (formula and
// table seen at numerade.com 20563). And McAdams' older fit, 0.53 Ra^(1/4), known to lie
// a tenth higher, gives 8.07 W/(m² K) for a pipe of 100 mm at 170 °C in air of 30 °C (seen at msubbu.in,
// heat loss by convection to air).
func TestStillAir(t *testing.T) {
	within(t, "cylinder", float64(heat.StillAir(0.06)(quantity.Celsius(70), quantity.Celsius(30))), 5.724, 0.02)
	within(t, "McAdams", float64(heat.StillAir(0.1)(quantity.Celsius(170), quantity.Celsius(30))), 8.07, 0.12)
	if a, b := heat.StillAir(0.06)(300, 340), heat.StillAir(0.06)(340, 300); a != b {
		t.Errorf("colder air gives %g, warmer %g W/(m² K)", b, a)
	}
}

// TestPipeFlow holds Nu = 57.03 at Re = 20 000 and Pr = 0.7, gas cooled, worked by
// hand; constants seen at myengineeringtools.com, forced convection in pipes.
func TestPipeFlow(t *testing.T) {
	const d, mu, k = 0.02, 5e-5, 0.1
	cp := quantity.SpecificHeat(0.7 * k / mu)
	flow := quantity.MassFlow(20_000 * math.Pi * d * mu / 4)
	h, err := heat.PipeFlow(d, flow, mu, k, cp)
	if err != nil {
		t.Fatal(err)
	}
	within(t, "Nu", float64(h)*d/k, 57.03, 1e-4)
	for _, bad := range []struct {
		flow quantity.MassFlow
		mu   quantity.Viscosity
		cp   quantity.SpecificHeat
	}{{flow / 2.01, mu, cp}, {flow, mu, cp / 2}, {flow, mu, cp * 300}, {0, mu, cp}, {quantity.MassFlow(math.NaN()), mu, cp}, {flow, 0, cp}, {flow, mu, -1}} {
		if h, err := heat.PipeFlow(d, bad.flow, bad.mu, k, bad.cp); h != 0 || err == nil {
			t.Errorf("%+v: %g, %v", bad, h, err)
		}
	}
}
