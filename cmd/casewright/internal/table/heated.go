package table

import (
	"fmt"
	"io"
	"strings"

	"casewright/materials"
	"casewright/quantity"
)

// Layer writes one material of liners and covers with every value and its
// source.
func Layer(w io.Writer, l *materials.Layer, o Options) error {
	p := newListing(o)
	p.layer(l)
	return p.write(w)
}

// Washer writes one material of soft washers with every value and its source.
func Washer(w io.Writer, s *materials.Washer, o Options) error {
	p := newListing(o)
	p.washer(s)
	return p.write(w)
}

func (p *listing) conductivity(k quantity.Conductivity) string {
	return ratio(float64(k)) + " W/(m K)"
}

func (p *listing) layers() {
	p.line("")
	number := func(si float64, k materials.Property) string {
		text, _, _ := strings.Cut(p.value(si, k), " ")
		return text
	}
	density := "kg/m³"
	if p.imperial {
		density = "lb/in³"
	}
	rows := []row{
		{cells: []string{"Liners and covers", "conductivity", "met with", "density", "heat", "seen"}},
		{cells: []string{"", "W/(m K)", "W/(m K)", density, "J/(kg K)"}},
	}
	for _, l := range materials.Layers() {
		rows = append(rows, row{cells: []string{
			l.Name, ratio(float64(l.Conductivity)), ratio(float64(l.Least)) + " to " + ratio(float64(l.Most)),
			number(float64(l.Density), materials.Density), number(float64(l.SpecificHeat), materials.SpecificHeat),
			seen([]string{l.ConductivityFrom.Status, l.DensityFrom.Status, l.SpecificHeatFrom.Status}),
		}})
	}
	p.grid(rows, left, right, right, right, right, left)
	p.say("  ", 2, "Met with: between these lies the conductivity of such material. Heat: specific heat. Seen: of the three.")
}

func (p *listing) washers() {
	p.line("")
	rows := []row{{cells: []string{"Soft washers", "soften at", "consumable", "seen"}}}
	for _, w := range materials.Washers() {
		name := strings.Join(append([]string{w.Name}, w.Others...), ", ")
		rows = append(rows, row{cells: []string{name, p.softens(w), yesNo(w.Consumable), seen([]string{w.SoftensFrom.Status})}})
	}
	p.grid(rows, left, right, left, left)
	p.say("  ", 2, "Soften at: hotter, a washer under load gives way; seen: of that. Consumable: a new one at each assembly.")
}

func (p *listing) softens(w *materials.Washer) string {
	if w.Softens == 0 {
		return "-"
	}
	return p.temperature(w.Softens, down)
}

func yesNo(b bool) string {
	if b {
		return "yes"
	}
	return "no"
}

// from adds below a row where its value comes from.
func (p *listing) from(rows []row, from materials.Provenance) []row {
	rows = p.free(rows, sentence(from.Source, from.Where))
	if from.Note != "" {
		rows = p.free(rows, "note: "+from.Note)
	}
	return rows
}

func (p *listing) layer(l *materials.Layer) {
	p.title(l.Name, "liner or cover")
	p.line("")
	var rows []row
	add := func(what, value string, from materials.Provenance) {
		rows = p.from(append(rows, row{cells: []string{what, value, from.Status}}), from)
	}
	add("thermal conductivity", p.conductivity(l.Conductivity), l.ConductivityFrom)
	rows = p.free(rows, fmt.Sprintf("met with: %s to %s", ratio(float64(l.Least)), p.conductivity(l.Most)))
	add("density", p.value(float64(l.Density), materials.Density), l.DensityFrom)
	add("specific heat", p.value(float64(l.SpecificHeat), materials.SpecificHeat), l.SpecificHeatFrom)
	p.grid(rows, left, right, left)
}

func (p *listing) washer(w *materials.Washer) {
	p.title(strings.Join(append([]string{w.Name}, w.Others...), ", "), "soft washer")
	p.line("")
	var rows []row
	if w.Softens > 0 {
		rows = p.from(append(rows, row{cells: []string{"softens at", p.softens(w), w.SoftensFrom.Status}}), w.SoftensFrom)
	}
	rows = p.from(append(rows, row{cells: []string{"a new one at each assembly", yesNo(w.Consumable), w.ConsumableFrom.Status}}), w.ConsumableFrom)
	p.grid(rows, left, right, left)
}

// exposure writes what heat takes for good from a temper.
func (p *listing) exposure(x *materials.Exposure) {
	p.line("")
	p.line("After heat, cooled again: share kept of the value at 20 °C")
	rows := []row{{cells: []string{"  all, however long, up to", p.temperature(x.Unharmed, down), "", "", x.UnharmedFrom.Status}}}
	rows = p.from(rows, x.UnharmedFrom)
	for _, k := range []materials.Property{materials.Yield, materials.Ultimate} {
		losses := x.Losses(k)
		if len(losses) > 0 {
			rows = append(rows, row{free: "  " + follow(k)})
		}
		for i, l := range losses {
			rows = append(rows, row{cells: []string{"", p.temperature(l.Temperature, down), p.time(l.Time), ratio(l.Share), l.Status}})
			if i == len(losses)-1 || l.Provenance != losses[i+1].Provenance {
				rows = p.from(rows, l.Provenance)
			}
		}
	}
	if x.Activation[0] > 0 {
		rows = append(rows, row{cells: []string{"  not known hotter than", p.temperature(x.Hottest, down), "", "", x.HottestFrom.Status}})
		rows = p.from(rows, x.HottestFrom)
		for i, what := range []string{"  least activation energy", "  most activation energy"} {
			rows = append(rows, row{cells: []string{what, fmt.Sprintf("%.0f kJ/mol", x.Activation[i]/1000), "", "", x.ActivationFrom[i].Status}})
			rows = p.from(rows, x.ActivationFrom[i])
		}
	}
	p.grid(rows, left, right, right, right, left)
}

// time is a time as it is read at a furnace.
func (p *listing) time(t quantity.Time) string {
	if t >= 60*quantity.Minute {
		return ratio(float64(t/quantity.Minute/60)) + " h"
	}
	return ratio(float64(t/quantity.Minute)) + " min"
}
