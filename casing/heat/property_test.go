package heat_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"casewright/casing/heat"
	"casewright/quantity"
)

func uniform(t *rapid.T, name string, low, high float64) float64 {
	return rapid.Float64Range(low, high).Draw(t, name)
}

// logarithmic draws what may differ by orders of magnitude.
func logarithmic(t *rapid.T, name string, low, high float64) float64 {
	return math.Exp(uniform(t, name, math.Log(low), math.Log(high)))
}

func solid(t *rapid.T, name string) heat.Solid {
	return heat.Solid{
		Conductivity: quantity.Conductivity(logarithmic(t, name+" k", 0.1, 300)),
		Density:      quantity.Density(uniform(t, name+" rho", 800, 8000)),
		SpecificHeat: quantity.SpecificHeat(uniform(t, name+" c", 400, 2000)),
	}
}

// motor draws one with ends or without.
func motor(t *rapid.T, ends int) *heat.Motor {
	m := &heat.Motor{
		Tube: solid(t, "tube"), Bore: quantity.Length(uniform(t, "bore", 0.03, 0.15)), Wall: quantity.Length(uniform(t, "wall", 0.001, 0.006)),
		Length: 0.5, Start: quantity.Temperature(uniform(t, "start", 260, 320)), Burn: quantity.Time(logarithmic(t, "burn", 0.5, 10)), Until: 300, Touch: 200,
	}
	for range rapid.IntRange(0, 2).Draw(t, "layers") {
		m.Layers = append(m.Layers, heat.Layer{Solid: solid(t, "layer"), Thickness: quantity.Length(uniform(t, "thickness", 0.0005, 0.004)), Gap: quantity.ThermalResistance(uniform(t, "gap", 0, 1e-3))})
	}
	gas := heat.Film{Coefficient: quantity.HeatTransfer(logarithmic(t, "h", 50, 3000)), Temperature: quantity.Temperature(uniform(t, "gas", 1200, 3200)), Emissivity: uniform(t, "emissivity", 0, 1)}
	m.Gas[0] = gas
	m.Outside = heat.Film{Coefficient: quantity.HeatTransfer(uniform(t, "outside", 1, 50)), Temperature: quantity.Temperature(uniform(t, "air", 260, 320)), Emissivity: uniform(t, "paint", 0, 1)}
	m.Marks = []quantity.Time{m.Burn / 2, 3 * m.Burn}
	for range ends {
		body := solid(t, "body")
		length := uniform(t, "end", 0.01, 0.06)
		e := heat.End{
			Body: body, Length: quantity.Length(length), Gland: quantity.Length(length * uniform(t, "gland", 0, 1)), GlandEnd: quantity.Length(length * uniform(t, "grooves", 0, 1)), Entry: quantity.Length(length * uniform(t, "entry", 0, 1)),
			Mass: quantity.Mass(float64(body.Density) * length * uniform(t, "share", 0.1, 1) * math.Pi / 4 * float64(m.Bore*m.Bore)),
			Hot:  quantity.Area(math.Pi / 4 * float64(m.Bore*m.Bore)), Gas: [2]heat.Film{gas, {}}, Joint: quantity.ThermalResistance(logarithmic(t, "joint", 1e-5, 1e-2)), Outside: 0.001,
		}
		if rapid.Bool().Draw(t, "covered") {
			e.Cover = &heat.Layer{Solid: solid(t, "cover"), Thickness: 0.002, Gap: 1e-4}
		}
		m.Ends = append(m.Ends, e)
	}
	return m
}

func must(t *rapid.T, m *heat.Motor) *heat.History {
	h, err := m.Run(heat.Usual)
	if err != nil {
		t.Fatal(err)
	}
	return h
}

func traces(h *heat.History) []heat.Trace {
	all := []heat.Trace{h.HotFace, h.Bond, h.WallInside, h.WallMean, h.WallOutside}
	for _, e := range h.Ends {
		all = append(all, e.Face, e.Body, e.Ring, e.Gland, e.Bolts, e.Rear, e.Metal, e.Tube)
	}
	return all
}

// TestMaximum: no place is hotter than the gas or colder than the coldest (the
// maximum principle of the heat equation), and no energy is lost.
func TestMaximum(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := motor(t, rapid.IntRange(0, 2).Draw(t, "ends"))
		h := must(t, m)
		least, most := float64(min(m.Start, m.Outside.Temperature)), float64(m.Gas[0].Temperature)
		slack := 1e-3 * (most - least)
		for i, trace := range traces(h) {
			for j, v := range trace {
				if !(v >= least-slack && v <= most+slack) {
					t.Fatalf("trace %d is %g K at %g s, outside %g to %g K", i, v, h.Time[j], least, most)
				}
			}
		}
		if !(h.Balance <= 1e-6) {
			t.Fatalf("%g of the heat is missing", h.Balance)
		}
		if h.Cooled || !math.IsNaN(h.Safe) || h.Time[len(h.Time)-1] != 300 {
			t.Fatalf("nothing gets below 200 K: %v, %g s", h.Cooled, h.Safe)
		}
	})
}

// walls are the mean of the wall at half the burn, at burnout and after it.
func walls(h *heat.History, burn quantity.Time) [3]float64 {
	return [3]float64{float64(h.At(h.WallMean, burn/2)), float64(h.At(h.WallMean, burn)), float64(h.At(h.WallMean, 3*burn))}
}

// TestMonotone: more of what heats makes the wall hotter at each time; more of what
// holds heat back makes it cooler while it burns (afterwards it holds back what is
// stored in the liner, too).
func TestMonotone(t *testing.T) {
	for name, change := range map[string]struct {
		hotter bool
		change func(*heat.Motor)
	}{
		"hotter gas":     {true, func(m *heat.Motor) { m.Gas[0].Temperature *= 1.2 }},
		"larger film":    {true, func(m *heat.Motor) { m.Gas[0].Coefficient *= 1.5 }},
		"blacker gas":    {true, func(m *heat.Motor) { m.Gas[0].Emissivity = min(1, m.Gas[0].Emissivity+0.2) }},
		"warmer start":   {true, func(m *heat.Motor) { m.Start += 20 }},
		"warmer air":     {true, func(m *heat.Motor) { m.Outside.Temperature += 20 }},
		"less air":       {true, func(m *heat.Motor) { m.Outside.Coefficient /= 2 }},
		"soak":           {true, func(m *heat.Motor) { m.Gas[1] = m.Gas[0] }},
		"larger gap":     {false, func(m *heat.Motor) { m.Layers[len(m.Layers)-1].Gap += 1e-3 }},
		"thicker liner":  {false, func(m *heat.Motor) { m.Layers[0].Thickness *= 1.3 }},
		"one more liner": {false, func(m *heat.Motor) { m.Layers = append(m.Layers[:len(m.Layers):len(m.Layers)], m.Layers[0]) }},
		"heavier tube":   {false, func(m *heat.Motor) { m.Tube.SpecificHeat *= 1.3 }},
	} {
		t.Run(name, func(t *testing.T) {
			moved := 0
			rapid.Check(t, func(t *rapid.T) {
				m := motor(t, 0)
				if len(m.Layers) == 0 {
					m.Layers = []heat.Layer{{Solid: paper, Thickness: 0.001}}
				}
				for i := range m.Layers { // of liners that hold heat back
					m.Layers[i].Conductivity = min(m.Layers[i].Conductivity, 0.5)
				}
				m.Outside.Temperature = m.Start // else air heats or cools, whatever the gas does
				before := must(t, m)
				more := *m
				more.Layers = append([]heat.Layer(nil), m.Layers...)
				change.change(&more)
				after := must(t, &more)
				a, b := walls(before, m.Burn), walls(after, m.Burn)
				slack := 2e-3*(a[2]-float64(m.Start)) + 0.02
				for i := range a {
					if !change.hotter && i == 2 {
						break
					}
					if rise := b[i] - a[i]; change.hotter && rise < -slack || !change.hotter && rise > slack {
						t.Fatalf("the wall goes from %v K to %v K", a, b)
					}
				}
				if math.Abs(b[2]-a[2]) > slack {
					moved++
				}
			})
			if moved == 0 {
				t.Error("no wall changed")
			}
		})
	}
}

// TestLongerBurn: a longer burn gives a higher peak.
func TestLongerBurn(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := motor(t, 1)
		before := must(t, m)
		more := *m
		more.Burn *= 1.5
		after := must(t, &more)
		for i, trace := range traces(before) {
			a, b := before.Peak(trace).Temperature, after.Peak(traces(after)[i]).Temperature
			if b < a-quantity.Temperature(2e-3*max(0, float64(a)-float64(m.Start))+1e-6) {
				t.Fatalf("trace %d peaks at %g K, after a longer burn at %g K", i, a, b)
			}
		}
	})
}

// TestScale: with all lengths s times as long, times s², masses s³, areas s² and
// films 1/s the temperatures are the same: the heat equation knows Fourier and Biot
// numbers alone. Gaps are lengths over a conductivity and go with s.
func TestScale(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := motor(t, 1)
		m.Gas[0].Emissivity, m.Outside.Emissivity = 0, 0 // radiation has a coefficient of its own
		m.Ends[0].Gas[0].Emissivity = 0
		s := quantity.Length(uniform(t, "scale", 0.6, 1.7))
		u := float64(s)
		big := *m
		big.Bore, big.Wall, big.Length = m.Bore*s, m.Wall*s, m.Length*s
		big.Burn, big.Until = m.Burn*quantity.Time(u*u), m.Until*quantity.Time(u*u)
		big.Marks = nil
		for _, mark := range m.Marks {
			big.Marks = append(big.Marks, mark*quantity.Time(u*u))
		}
		big.Gas[0].Coefficient /= quantity.HeatTransfer(u)
		big.Outside.Coefficient /= quantity.HeatTransfer(u)
		big.Layers = append([]heat.Layer(nil), m.Layers...)
		for i := range big.Layers {
			big.Layers[i].Thickness *= s
			big.Layers[i].Gap *= quantity.ThermalResistance(u)
		}
		e := m.Ends[0]
		e.Length, e.Gland, e.GlandEnd, e.Bolts, e.Entry, e.Mass = e.Length*s, e.Gland*s, e.GlandEnd*s, e.Bolts*s, e.Entry*s, e.Mass*quantity.Mass(u*u*u)
		e.Hot, e.Outside, e.Joint = e.Hot*quantity.Area(u*u), e.Outside*quantity.Area(u*u), e.Joint*quantity.ThermalResistance(u)
		e.Gas[0].Coefficient /= quantity.HeatTransfer(u)
		if e.Cover != nil {
			cover := *e.Cover
			cover.Thickness, cover.Gap = cover.Thickness*s, cover.Gap*quantity.ThermalResistance(u)
			e.Cover = &cover
		}
		big.Ends = []heat.End{e}
		a, b := must(t, m), must(t, &big)
		for i, trace := range traces(a) {
			for _, time := range []float64{float64(m.Burn) / 2, float64(m.Burn), 3 * float64(m.Burn), 300} {
				x, y := float64(a.At(trace, quantity.Time(time))), float64(b.At(traces(b)[i], quantity.Time(time*u*u)))
				if math.Abs(x-y) > 1e-5*float64(m.Gas[0].Temperature) {
					t.Fatalf("trace %d at %g s: %g K, scaled %g K", i, time, x, y)
				}
			}
		}
	})
}

// TestAt: the curve of a trace passes through its times and never beyond its
// neighbours.
func TestAt(t *testing.T) {
	h := run(t, whole(), heat.Usual)
	for _, trace := range traces(h) {
		for i := 1; i < len(h.Time); i++ {
			if got := float64(h.At(trace, quantity.Time(h.Time[i]))); math.Abs(got-trace[i]) > 1e-9 {
				t.Fatalf("%g K at %g s, want %g K", got, h.Time[i], trace[i])
			}
			low, high := min(trace[i-1], trace[i]), max(trace[i-1], trace[i])
			for _, x := range []float64{0.1, 0.5, 0.9} {
				got := float64(h.At(trace, quantity.Time(h.Time[i-1]+x*(h.Time[i]-h.Time[i-1]))))
				if !(got >= low-1e-9 && got <= high+1e-9) {
					t.Fatalf("%g K between %g and %g K", got, low, high)
				}
			}
		}
	}
}

// TestAbove: the time above a temperature is that between its crossings.
func TestAbove(t *testing.T) {
	h := run(t, whole(), heat.Usual)
	peak := h.Peak(h.WallMean)
	limit := (float64(peak.Temperature) + 295) / 2
	cross := func(low, high float64, rises bool) float64 {
		for range 100 {
			if mid := (low + high) / 2; (float64(h.At(h.WallMean, quantity.Time(mid))) < limit) == rises {
				low = mid
			} else {
				high = mid
			}
		}
		return low
	}
	want := cross(float64(peak.Time), h.Time[len(h.Time)-1], false) - cross(0, float64(peak.Time), true)
	if got := float64(h.Above(h.WallMean, quantity.Temperature(limit))); math.Abs(got-want) > 0.005*want {
		t.Errorf("above %g K for %g s, want %g s", limit, got, want)
	}
	if over := h.Above(h.WallMean, peak.Temperature+1); over != 0 {
		t.Errorf("above its peak for %g s", over)
	}
}
