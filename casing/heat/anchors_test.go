package heat_test

import (
	"fmt"
	"math"
	"testing"

	"casewright/casing/heat"
	"casewright/quantity"
)

// still keeps in all heat.
var still = heat.Film{Temperature: 295}

// A wall so thin that it has one temperature: lumped capacity,
// T = T_g + (T_i − T_g) exp(−h A t/C). Textbook, e.g. Incropera and DeWitt,
// chapter 5.
func TestLumped(t *testing.T) {
	m := &heat.Motor{
		Tube: heat.Solid{Conductivity: 400, Density: 8900, SpecificHeat: 385}, Bore: 0.05, Wall: 1e-3, Length: 0.3,
		Gas: [2]heat.Film{{Temperature: 1500, Coefficient: 100}, {Temperature: 295, Coefficient: 40}}, Outside: still,
		Start: 295, Burn: 4, Until: 60, Touch: 100, Marks: []quantity.Time{1, 2, 30},
	}
	h := run(t, m, heat.Usual)
	capacity := 8900 * 385 * math.Pi * (0.026*0.026 - 0.025*0.025)
	rate := 100 * math.Pi * 0.05 / capacity
	for _, at := range []float64{1, 2, 4} {
		rises(t, fmt.Sprintf("%g s", at), float64(h.At(h.WallMean, quantity.Time(at))), 1500+(295-1500)*math.Exp(-rate*at), 295, 0.005)
	}
	hot := 1500 + (295-1500)*math.Exp(-rate*4)
	rises(t, "30 s", float64(h.At(h.WallMean, 30)), 295+(hot-295)*math.Exp(-0.4*rate*26), 295, 0.005)
}

// Half an infinite solid behind a film: Carslaw and Jaeger, Conduction of Heat
// in Solids, 2.7 (1). The bore is so wide that the layer is flat.
func TestHalfInfinite(t *testing.T) {
	m := &heat.Motor{
		Layers: []heat.Layer{{Solid: paper, Thickness: 12e-3}}, Tube: paper, Bore: 2, Wall: 5e-3, Length: 3,
		Gas: [2]heat.Film{{Temperature: 2500, Coefficient: 1000}, still}, Outside: still,
		Start: 295, Burn: 3, Until: 4, Touch: 100, Marks: []quantity.Time{0.3, 1},
	}
	h := run(t, m, heat.Usual)
	alpha := 0.15 / (1150 * 1400)
	for _, at := range []float64{0.3, 1, 3} {
		x := 1000 / 0.15 * math.Sqrt(alpha*at)
		rises(t, fmt.Sprintf("%g s", at), float64(h.At(h.HotFace, quantity.Time(at))), 2500+(295-2500)*math.Exp(x*x)*math.Erfc(x), 295, 0.005)
	}
}

// A slab with an insulated back: the series behind Heisler's charts, Carslaw
// and Jaeger 3.11, with the roots of β tan β = Bi.
func TestSlab(t *testing.T) {
	const thickness, film = 3e-3, 1500.0
	m := &heat.Motor{
		Tube: aluminium, Bore: 2, Wall: thickness, Length: 3,
		Gas: [2]heat.Film{{Temperature: 2200, Coefficient: film}, still}, Outside: still,
		Start: 295, Burn: 1.5, Until: 2, Touch: 100, Marks: []quantity.Time{0.05, 0.5},
	}
	h := run(t, m, heat.Usual)
	bi := film * thickness / 167
	alpha := 167 / (2700 * 896.0)
	for _, at := range []float64{0.05, 0.5, 1.5} {
		fo, hot, back := alpha*at/(thickness*thickness), 0.0, 0.0
		for n := range 40 {
			low, high := float64(n)*math.Pi, float64(n)*math.Pi+math.Pi/2
			for range 200 {
				if mid := (low + high) / 2; mid*math.Sin(mid) < bi*math.Cos(mid) == (math.Cos(low+1e-9) > 0) {
					low = mid
				} else {
					high = mid
				}
			}
			b := (low + high) / 2
			c := 4 * math.Sin(b) / (2*b + math.Sin(2*b)) * math.Exp(-b*b*fo)
			back += c
			hot += c * math.Cos(b)
		}
		rises(t, fmt.Sprintf("hot face at %g s", at), float64(h.At(h.HotFace, quantity.Time(at))), 2200-(2200-295)*hot, 295, 0.005)
		rises(t, fmt.Sprintf("back at %g s", at), float64(h.At(h.WallOutside, quantity.Time(at))), 2200-(2200-295)*back, 295, 0.005)
	}
}

// A hollow cylinder in steady flow: resistances in series, ln(r2/r1)/(2 π k).
func TestSteadyCylinder(t *testing.T) {
	m := &heat.Motor{
		Layers: []heat.Layer{{Solid: heat.Solid{Conductivity: 2, Density: 500, SpecificHeat: 300}, Thickness: 4e-3, Gap: 1e-3}},
		Tube:   heat.Solid{Conductivity: 20, Density: 500, SpecificHeat: 300}, Bore: 0.04, Wall: 6e-3, Length: 0.3,
		Gas: [2]heat.Film{{Temperature: 900, Coefficient: 500}, still}, Outside: heat.Film{Temperature: 300, Coefficient: 200},
		Start: 300, Burn: 600, Until: 601, Touch: 100,
	}
	h := run(t, m, heat.Usual)
	r := []float64{
		1 / (500 * 2 * math.Pi * 0.016), math.Log(20.0/16) / (2 * math.Pi * 2), 1e-3 / (2 * math.Pi * 0.02),
		math.Log(26.0/20) / (2 * math.Pi * 20), 1 / (200 * 2 * math.Pi * 0.026),
	}
	flow := 600 / (r[0] + r[1] + r[2] + r[3] + r[4])
	at := 900.0
	for i, trace := range []heat.Trace{h.HotFace, h.Bond, h.WallInside, h.WallOutside} {
		at -= flow * r[i]
		rises(t, fmt.Sprint(i), float64(h.AtBurnout(trace)), at, 300, 0.0005)
	}
}

// Two bodies of one temperature each, joined by a gap: the two exponentials of
// a pair of linear equations, in closed form. The layer conducts so well that it
// is one body.
func TestTwoLumps(t *testing.T) {
	copper := heat.Solid{Conductivity: 1000, Density: 8900, SpecificHeat: 385}
	m := &heat.Motor{
		Layers: []heat.Layer{{Solid: copper, Thickness: 1e-3, Gap: 5e-3}}, Tube: copper, Bore: 0.06, Wall: 1e-3, Length: 0.3,
		Gas: [2]heat.Film{{Temperature: 1000, Coefficient: 300}, still}, Outside: heat.Film{Temperature: 295, Coefficient: 30},
		Start: 295, Burn: 20, Until: 21, Touch: 100, Marks: []quantity.Time{5},
	}
	h := run(t, m, heat.Usual)
	held := func(in, out float64) float64 { return 8900 * 385 * math.Pi * (out*out - in*in) }
	c1, c2 := held(0.029, 0.030), held(0.030, 0.031)
	g0, g1, g2 := 300*2*math.Pi*0.029, 2*math.Pi*0.030/5e-3, 30*2*math.Pi*0.031
	// d/dt (T1, T2) = A (T1, T2) + b; steady T*, then A's two eigenvalues.
	a11, a12, a21, a22 := -(g0+g1)/c1, g1/c1, g1/c2, -(g1+g2)/c2
	b1, b2 := g0*1000/c1, g2*295/c2
	det := a11*a22 - a12*a21
	s1, s2 := (-b1*a22+b2*a12)/det, (-b2*a11+b1*a21)/det
	half, root := (a11+a22)/2, math.Sqrt((a11-a22)*(a11-a22)/4+a12*a21)
	for _, at := range []float64{5, 20} {
		e1, e2 := math.Exp((half+root)*at), math.Exp((half-root)*at)
		p, q := (e1*root-e1*half+e2*half+e2*root)/(2*root), (e1-e2)/(2*root) // exp(A t) = p I + q A
		d1, d2 := 295-s1, 295-s2
		rises(t, fmt.Sprintf("layer at %g s", at), float64(h.At(h.Bond, quantity.Time(at))), s1+p*d1+q*(a11*d1+a12*d2), 295, 0.005)
		rises(t, fmt.Sprintf("tube at %g s", at), float64(h.At(h.WallMean, quantity.Time(at))), s2+p*d2+q*(a21*d1+a22*d2), 295, 0.005)
	}
}

// An end that conducts well, hardly joined to its tube: lumped capacity again.
func TestLumpedEnd(t *testing.T) {
	m := &heat.Motor{
		Tube: aluminium, Bore: 0.05, Wall: 2e-3, Length: 0.3, Gas: [2]heat.Film{still, still}, Outside: heat.Film{Temperature: 295, Coefficient: 25},
		Start: 295, Burn: 30, Until: 400, Touch: 100, Marks: []quantity.Time{300},
		Ends: []heat.End{{
			Body: heat.Solid{Conductivity: 1000, Density: 2700, SpecificHeat: 900}, Mass: 0.1, Length: 0.02, Gland: 5e-3, Bolts: 0.01,
			Hot: 1e-3, Gas: [2]heat.Film{{Temperature: 1800, Coefficient: 20}, still}, Joint: 10, Outside: 2e-3,
		}},
	}
	h := run(t, m, heat.Usual)
	in, out := 20*1e-3, 25*2e-3
	steady, rate := (in*1800+out*295)/(in+out), (in+out)/(0.1*900)
	hot := steady + (295-steady)*math.Exp(-rate*30)
	rises(t, "burnout", float64(h.AtBurnout(h.Ends[0].Body)), hot, 295, 0.005)
	rises(t, "300 s", float64(h.At(h.Ends[0].Body, 300)), 295+(hot-295)*math.Exp(-out/(0.1*900)*270), 295, 0.005)
}

// What the films bring is what the nodes hold.
func TestBalance(t *testing.T) {
	for _, m := range []*heat.Motor{lined(), whole()} {
		if h := run(t, m, heat.Usual); !(h.Balance < 1e-6) || !h.Cooled {
			t.Errorf("balance %g, cooled %v", h.Balance, h.Cooled)
		}
	}
}
