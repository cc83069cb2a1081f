package verification

import (
	"fmt"
	"math"

	"casewright/casing/heat"
	"casewright/margin/reference"
	"casewright/quantity"
)

// soaked are the checks that rest on computed temperatures alone.
var soaked = []string{"seal.soak"}

var heatNumbers = map[string]Number{
	"rise of the hot face of a lined tube":           lined(func(h *heat.History) heat.Trace { return h.HotFace }),
	"rise of the bond of a lined tube":               lined(func(h *heat.History) heat.Trace { return h.Bond }),
	"rise of the wall of a lined tube":               lined(func(h *heat.History) heat.Trace { return h.WallMean }),
	"rise of the body at the gland of a heated end":  ended("g", func(e *heat.EndHistory) heat.Trace { return e.Body }),
	"rise of the tube at the gland of a heated end":  ended("g", func(e *heat.EndHistory) heat.Trace { return e.Ring }),
	"rise of the body at the screws of a heated end": ended("s", func(e *heat.EndHistory) heat.Trace { return e.Body }),
}

func solidOf(r *reference.Row, of string) heat.Solid {
	return heat.Solid{Conductivity: quantity.Conductivity(r.Of("k" + of)), Density: quantity.Density(r.Of("rho" + of)), SpecificHeat: quantity.SpecificHeat(r.Of("c" + of))}
}

func numberOr(r *reference.Row, name string, x float64) float64 {
	if r.Has(name) {
		return r.Of(name)
	}
	return x
}

// heatOf is the motor of a row: a tube of an outside diameter, or of a bore,
// with its layers.
func heatOf(r *reference.Row) *heat.Motor {
	air := quantity.Temperature(r.Of("T0"))
	m := &heat.Motor{
		Tube: solidOf(r, ""), Wall: length(r, "t"), Length: quantity.Length(numberOr(r, "L", 0.4)),
		Gas: [2]heat.Film{
			{Temperature: quantity.Temperature(r.Of("Tg")), Coefficient: quantity.HeatTransfer(r.Of("h")), Emissivity: numberOr(r, "eps", 0)},
			{Temperature: air, Coefficient: quantity.HeatTransfer(numberOr(r, "hs", 0))},
		},
		Outside: heat.Film{Temperature: air, Coefficient: quantity.HeatTransfer(r.Of("ho")), Emissivity: numberOr(r, "epso", 0)},
		Start:   air, Burn: quantity.Time(r.Of("burn")), Until: 1500, Touch: 100,
	}
	if r.Has("OD") {
		m.Bore = length(r, "OD") - 2*m.Wall
	} else {
		m.Bore = length(r, "Db")
	}
	for i := 1; r.Has(fmt.Sprintf("t%d", i)); i++ {
		n := fmt.Sprint(i)
		m.Layers = append(m.Layers, heat.Layer{Solid: solidOf(r, n), Thickness: length(r, "t"+n), Gap: quantity.ThermalResistance(r.Of("gap" + n))})
	}
	for _, moment := range []float64{10, 60, 300} {
		m.Marks = append(m.Marks, quantity.Time(moment))
	}
	return m
}

// moment reads a trace at the moment of a row, as a rise.
func moment(r *reference.Row, h *heat.History, t heat.Trace) float64 {
	rise := func(x quantity.Temperature) float64 { return float64(x) - r.Of("T0") }
	switch {
	case r.Has("after"):
		return rise(h.At(t, quantity.Time(r.Of("after"))))
	case r.Text("at") == "peak":
		return rise(h.Peak(t).Temperature)
	case r.Text("at") == "burnout":
		return rise(h.AtBurnout(t))
	}
	return math.NaN()
}

func lined(of func(*heat.History) heat.Trace) Number {
	return Number{soaked, func(r *reference.Row) float64 {
		h, err := heatOf(r).Run(heat.Usual)
		if err != nil {
			return math.NaN()
		}
		return moment(r, h, of(h))
	}}
}

// ended reads an end of a tube that no gas heats, at a place from its pressure
// face.
func ended(place string, of func(*heat.EndHistory) heat.Trace) Number {
	return Number{soaked, func(r *reference.Row) float64 {
		m := heatOf(r)
		e := heat.End{
			Body: m.Tube, Mass: quantity.Mass(r.Of("m")), Length: length(r, "l"), Gland: length(r, place), Bolts: length(r, "s"),
			Hot: quantity.Area(r.Of("A")), Entry: length(r, "x"), Gas: m.Gas, Joint: quantity.ThermalResistance(r.Of("R")), Outside: quantity.Area(r.Of("Ao")),
		}
		if r.Has("tc") {
			e.Cover = &heat.Layer{Solid: solidOf(r, "c"), Thickness: length(r, "tc"), Gap: quantity.ThermalResistance(r.Of("gapc"))}
		}
		m.Ends, m.Gas = []heat.End{e}, [2]heat.Film{{Temperature: m.Start}, {Temperature: m.Start}}
		h, err := m.Run(heat.Usual)
		if err != nil {
			return math.NaN()
		}
		return moment(r, h, of(&h.Ends[0]))
	}}
}
