package jsonout

import (
	"casewright/materials"
	"casewright/quantity"
)

// layer is a material of liners and covers.
type layer struct {
	Name       string          `json:"name"`
	Least      *Quantity       `json:"least_conductivity"`
	Most       *Quantity       `json:"most_conductivity"`
	Properties []layerProperty `json:"properties"`
}

type layerProperty struct {
	Key   string    `json:"key"`
	Value *Quantity `json:"value"`
	provenance
}

type provenance struct {
	Source string `json:"source"`
	Where  string `json:"where"`
	Status string `json:"status"`
	Note   string `json:"note,omitempty"`
}

// washer has no temperature where there is none to soften.
type washer struct {
	Name           string      `json:"name"`
	Others         []string    `json:"others"`
	Softens        *Quantity   `json:"softens,omitempty"`
	SoftensFrom    *provenance `json:"softens_from,omitempty"`
	Consumable     bool        `json:"consumable"`
	ConsumableFrom provenance  `json:"consumable_from"`
}

// exposure is what heat takes for good from a temper; energies are in J/mol.
type exposure struct {
	Name           string       `json:"name"`
	Unharmed       *Quantity    `json:"unharmed"`
	UnharmedFrom   provenance   `json:"unharmed_from"`
	Hottest        *Quantity    `json:"hottest"`
	HottestFrom    *provenance  `json:"hottest_from,omitempty"`
	Activation     []float64    `json:"activation"`
	ActivationFrom []provenance `json:"activation_from"`
	Losses         []loss       `json:"losses"`
}

type loss struct {
	Property    string    `json:"property"`
	Temperature *Quantity `json:"temperature"`
	Time        *Quantity `json:"time"`
	Share       float64   `json:"share"`
	provenance
}

func layerOf(l *materials.Layer) layer {
	conductivity := func(k quantity.Conductivity) *Quantity { return number(float64(k), quantity.KindConductivity) }
	return layer{l.Name, conductivity(l.Least), conductivity(l.Most), []layerProperty{
		{materials.Conductivity.Key(), conductivity(l.Conductivity), provenance(l.ConductivityFrom)},
		{materials.Density.Key(), number(float64(l.Density), quantity.KindDensity), provenance(l.DensityFrom)},
		{materials.SpecificHeat.Key(), number(float64(l.SpecificHeat), quantity.KindSpecificHeat), provenance(l.SpecificHeatFrom)},
	}}
}

func washerOf(w *materials.Washer) washer {
	out := washer{Name: w.Name, Others: append([]string{}, w.Others...), Consumable: w.Consumable, ConsumableFrom: provenance(w.ConsumableFrom)}
	if w.Softens > 0 {
		from := provenance(w.SoftensFrom)
		out.Softens, out.SoftensFrom = number(float64(w.Softens), quantity.KindTemperature), &from
	}
	return out
}

func exposureOf(x *materials.Exposure) exposure {
	out := exposure{
		Name: x.Name, Unharmed: number(float64(x.Unharmed), quantity.KindTemperature), UnharmedFrom: provenance(x.UnharmedFrom),
		Hottest: number(float64(x.Hottest), quantity.KindTemperature), Activation: []float64{}, ActivationFrom: []provenance{}, Losses: []loss{},
	}
	for _, p := range []materials.Property{materials.Yield, materials.Ultimate} {
		for _, l := range x.Losses(p) {
			out.Losses = append(out.Losses, loss{
				p.Key(), number(float64(l.Temperature), quantity.KindTemperature), number(float64(l.Time), quantity.KindTime), l.Share, provenance(l.Provenance),
			})
		}
	}
	if len(out.Losses) > 0 {
		from := provenance(x.HottestFrom)
		out.HottestFrom = &from
		for i, q := range x.Activation {
			out.Activation = append(out.Activation, q)
			out.ActivationFrom = append(out.ActivationFrom, provenance(x.ActivationFrom[i]))
		}
	}
	return out
}
