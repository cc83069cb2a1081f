package casewright

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"sync"

	"github.com/shopspring/decimal"

	"casewright/casing/heat"
	"casewright/margin"
	"casewright/materials"
	"casewright/quantity"
)

// Heat is what heats the motor, what lies between the gas and the tube, and
// what the motor loses its heat to.
type Heat struct {
	Gas                                         Amount // temperature while it burns
	Film                                        Film   // while it burns
	Flow, Viscosity, Conductivity, SpecificHeat Amount // of the gas, where Film is named
	Emissivity                                  Amount // of gas and hot face together
	Soak                                        Amount // film inside after burnout
	Outside                                     Film
	Wind                                        Amount
	OutsideEmissivity                           Amount
	Ambient, Initial, Touch                     Amount
	Bare                                        Flag // there is no liner
	Layers                                      []Layer
	Maxima                                      []Maximum
	Course                                      Text // file with what thermocouples told
	Place
}

// A Layer lies between the gas and the tube.
type Layer struct {
	Name                                Text
	Material                            Insulation // else the next three
	Conductivity, Density, SpecificHeat Amount
	Thickness                           Dimension
	Gap                                 Amount // resistance to the next one outwards
	Place
}

// EndHeat is what couples an end to the gas and to the tube.
type EndHeat struct {
	Hot            Amount // area through which heat enters
	Film           Amount
	Entry          Dimension // pressure face to where heat enters
	Cover          Insulation
	CoverThickness Dimension
	CoverGap       Amount
	Mass           Amount
	Joint          Amount
	Place
}

// A Maximum is the highest temperature that was measured at a place in a test,
// between two bounds, in K: 0 or infinity where it has one only.
type Maximum struct {
	Where       string // as in "wall_outside", or "nozzle.gland"
	Least, Most float64
	Text        string // as written
	Place
}

// The values of heat, each with its place.
type (
	// Film is a heat transfer coefficient, or the name of a correlation.
	Film struct {
		quantity.Amount
		Named string
		Place
	}
	// Insulation is a material of liners and covers, or a metal.
	Insulation struct {
		Name  string
		Solid heat.Solid // of a layer's material: conducts the most that it is met with
		// Conductivity that such material is met with, W/(m K); 0 where it is not
		// told.
		Least, Usual, Most float64
		Place
	}
)

func (i *Insulation) choose(name string, d *Design, at Place) bool {
	if l, ok := materials.LookupLayer(name); ok {
		*i = Insulation{l.Name, heat.Solid{Conductivity: l.Greatest(), Density: l.Density, SpecificHeat: l.SpecificHeat}, float64(l.Least), float64(l.Conductivity), float64(l.Most), at}
		return true
	}
	var m Material
	if !m.choose(name, d, at) {
		return false
	}
	solid, err := solidOf(m.Material)
	*i = Insulation{Name: m.Name, Solid: solid, Place: at}
	return err == nil
}

func (*Insulation) names(d *Design) []string {
	var list []string
	for _, l := range materials.Layers() {
		list = append(list, l.Name)
	}
	return append(list, (*Material)(nil).names(d)...)
}

func (*Insulation) alike(_, _ string) bool { return true }

func (*Insulation) orElse() string { return ", or give conductivity, density and specific_heat" }

// solidOf is a material as heat meets it.
func solidOf(m *materials.Material) (heat.Solid, error) {
	if m == nil {
		return heat.Solid{}, errors.New("no material is given")
	}
	var x [3]float64
	for i, p := range []materials.Property{materials.Conductivity, materials.Density, materials.SpecificHeat} {
		v, ok := m.Value(p)
		if !ok {
			return heat.Solid{}, fmt.Errorf("%s has no %s", m.Name, p.Key())
		}
		x[i] = v.SI
	}
	return heat.Solid{Conductivity: quantity.Conductivity(x[0]), Density: quantity.Density(x[1]), SpecificHeat: quantity.SpecificHeat(x[2])}, nil
}

// The names of the correlations.
const (
	pipeFlow = "pipe flow"
	stillAir = "still air"
)

// layer is the layer that is being read.
func (h *Heat) layer() *Layer {
	if len(h.Layers) == 0 {
		return &Layer{}
	}
	return &h.Layers[len(h.Layers)-1]
}

// heatKeys are the keys of heat, in the order in which a file is best written.
var heatKeys = []*Key{
	{Path: "heat.gas_temperature", Meaning: "of the gas at the hot face while it burns", Sample: `"2500 K"`, Required: true, Kind: quantity.KindTemperature, least: "0 °C", most: "4500 K", field: func(d *Design, _ *End) any { return &d.Heat.Gas }},
	{Path: "heat.film_coefficient", Meaning: `heat transfer from the gas while it burns, or "pipe flow"`, Sample: `"800 W/(m² K)"`, Required: true, Kind: quantity.KindHeatTransfer, options: []string{pipeFlow}, least: "0 W/(m² K)", most: "1000000 W/(m² K)", field: func(d *Design, _ *End) any { return &d.Heat.Film }},
	{Path: "heat.gas_flow", Meaning: "gas through the bore, for pipe flow", Sample: `"0.25 kg/s"`, Kind: quantity.KindMassFlow, least: "0.000001 kg/s", most: "1000 kg/s", field: func(d *Design, _ *End) any { return &d.Heat.Flow }},
	{Path: "heat.gas_viscosity", Meaning: "of the gas, for pipe flow", Sample: `"85 µPa s"`, Kind: quantity.KindViscosity, least: "0.000001 Pa s", most: "1 Pa s", field: func(d *Design, _ *End) any { return &d.Heat.Viscosity }},
	{Path: "heat.gas_conductivity", Meaning: "of the gas, for pipe flow", Sample: `"0.25 W/(m K)"`, Kind: quantity.KindConductivity, least: "0.001 W/(m K)", most: "100 W/(m K)", field: func(d *Design, _ *End) any { return &d.Heat.Conductivity }},
	{Path: "heat.gas_specific_heat", Meaning: "of the gas, for pipe flow", Sample: `"1900 J/(kg K)"`, Kind: quantity.KindSpecificHeat, least: "100 J/(kg K)", most: "100000 J/(kg K)", field: func(d *Design, _ *End) any { return &d.Heat.SpecificHeat }},
	{Path: "heat.gas_emissivity", Meaning: "of gas and hot face together, for radiation; 0 unless given", Sample: `"0.4"`, Default: `"0"`, least: "0", most: "1", field: func(d *Design, _ *End) any { return &d.Heat.Emissivity }},
	{Path: "heat.soak_film", Meaning: "heat transfer inside after burnout, to air as warm as outside; 0 unless given", Sample: `"0 W/(m² K)"`, Default: `"0 W/(m² K)"`, Kind: quantity.KindHeatTransfer, least: "0 W/(m² K)", most: "10000 W/(m² K)", field: func(d *Design, _ *End) any { return &d.Heat.Soak }},
	{Path: "heat.outside_film", Meaning: `heat transfer outside, or "still air", as unless given`, Sample: `"10 W/(m² K)"`, Default: `"still air"`, Kind: quantity.KindHeatTransfer, options: []string{stillAir}, least: "0 W/(m² K)", most: "100000 W/(m² K)", field: func(d *Design, _ *End) any { return &d.Heat.Outside }},
	{Path: "heat.wind", Meaning: "across the motor, in place of outside_film", Sample: `"2 m/s"`, Kind: quantity.KindSpeed, least: "0 m/s", most: "60 m/s", field: func(d *Design, _ *End) any { return &d.Heat.Wind }},
	{Path: "heat.outside_emissivity", Meaning: "of the outside, for radiation; 0 unless given", Sample: `"0.1"`, Default: `"0"`, least: "0", most: "1", field: func(d *Design, _ *End) any { return &d.Heat.OutsideEmissivity }},
	{Path: "heat.ambient", Meaning: "air outside; 20 °C unless given", Sample: `"22 °C"`, Default: `"20 °C"`, Kind: quantity.KindTemperature, least: "-60 °C", most: "80 °C", field: func(d *Design, _ *End) any { return &d.Heat.Ambient }},
	{Path: "heat.initial", Meaning: "of the whole motor at ignition; ambient unless given", Sample: `"22 °C"`, Kind: quantity.KindTemperature, least: "-60 °C", most: "200 °C", field: func(d *Design, _ *End) any { return &d.Heat.Initial }},
	{Path: "heat.touch", Meaning: "below which metal may be touched; 48 °C unless given", Sample: `"48 °C"`, Default: `"48 °C"`, Kind: quantity.KindTemperature, least: "25 °C", most: "65 °C", field: func(d *Design, _ *End) any { return &d.Heat.Touch }},
	{Path: "heat.bare", Meaning: "the tube has no liner", Sample: `true`, Default: `false`, field: func(d *Design, _ *End) any { return &d.Heat.Bare }},

	{Path: "heat.layer.name", Meaning: "what you call the layer", Sample: `"liner"`, Required: true, field: func(d *Design, _ *End) any { return &d.Heat.layer().Name }},
	{Path: "heat.layer.material", Meaning: "of the layer; else the next three", Sample: `"paper tube"`, field: func(d *Design, _ *End) any { return &d.Heat.layer().Material }},
	{Path: "heat.layer.conductivity", Meaning: "thermal conductivity of the layer", Sample: `"0.15 W/(m K)"`, Kind: quantity.KindConductivity, least: "0.005 W/(m K)", most: "1000 W/(m K)", field: func(d *Design, _ *End) any { return &d.Heat.layer().Conductivity }},
	{Path: "heat.layer.density", Meaning: "density of the layer", Sample: `"1150 kg/m³"`, Kind: quantity.KindDensity, least: "1 kg/m³", most: "25000 kg/m³", field: func(d *Design, _ *End) any { return &d.Heat.layer().Density }},
	{Path: "heat.layer.specific_heat", Meaning: "specific heat of the layer", Sample: `"1400 J/(kg K)"`, Kind: quantity.KindSpecificHeat, least: "50 J/(kg K)", most: "10000 J/(kg K)", field: func(d *Design, _ *End) any { return &d.Heat.layer().SpecificHeat }},
	{Path: "heat.layer.thickness", Meaning: "thickness of the layer; the least counts", Sample: `"1.6 mm"`, Required: true, field: func(d *Design, _ *End) any { return &d.Heat.layer().Thickness }},
	{Path: "heat.layer.gap_resistance", Meaning: "between this layer and the next, or the tube; 0 unless given", Sample: `"0.0005 m² K/W"`, Default: `"0 m² K/W"`, Kind: quantity.KindThermalResistance, least: "0 m² K/W", most: "10 m² K/W", field: func(d *Design, _ *End) any { return &d.Heat.layer().Gap }},

	{Path: "end.heat.hot_area", Meaning: "area through which the gas heats the end; the whole bore unless given", Sample: `"900 mm²"`, Kind: quantity.KindArea, least: "0 mm²", most: "1 m²", field: func(_ *Design, e *End) any { return &e.Heat.Hot }},
	{Path: "end.heat.film_coefficient", Meaning: "heat transfer to the end while it burns; that of [heat] unless given", Sample: `"1200 W/(m² K)"`, Kind: quantity.KindHeatTransfer, least: "0 W/(m² K)", most: "1000000 W/(m² K)", field: func(_ *Design, e *End) any { return &e.Heat.Film }},
	{Path: "end.heat.enters", Meaning: "pressure face to where heat enters the end; 0 mm unless given", Sample: `"20 mm"`, Default: `"0 mm"`, zero: true, field: func(_ *Design, e *End) any { return &e.Heat.Entry }},
	{Path: "end.heat.cover", Meaning: "material of what lies on the hot area", Sample: `"phenolic paper tube"`, field: func(_ *Design, e *End) any { return &e.Heat.Cover }},
	{Path: "end.heat.cover_thickness", Meaning: "its thickness; the least counts", Sample: `"5 mm"`, field: func(_ *Design, e *End) any { return &e.Heat.CoverThickness }},
	{Path: "end.heat.cover_resistance", Meaning: "between cover and end; 0 unless given", Sample: `"0.0005 m² K/W"`, Default: `"0 m² K/W"`, Kind: quantity.KindThermalResistance, least: "0 m² K/W", most: "10 m² K/W", field: func(_ *Design, e *End) any { return &e.Heat.CoverGap }},
	{Path: "end.heat.mass", Meaning: "of the end without cover and insert; from its sizes unless given", Sample: `"0.14 kg"`, Kind: quantity.KindMass, least: "0.00001 kg", most: "10000 kg", field: func(_ *Design, e *End) any { return &e.Heat.Mass }},
	{Path: "end.heat.joint_resistance", Meaning: "between end and tube, over the length of the end; 0.0005 m² K/W unless given", Sample: `"0.0003 m² K/W"`, Default: `"0.0005 m² K/W"`, Kind: quantity.KindThermalResistance, least: "0.0000001 m² K/W", most: "10 m² K/W", field: func(_ *Design, e *End) any { return &e.Heat.Joint }},
}

// What stands where a design does not say: the touch of metal for ten minutes
// (ISO 13732-1 table 1: 48 °C, from memory); a joint of some 13 µm of air,
// 0.0005 m² K/W (common practice, no source); the longest time looked at.
const (
	touch48      = 48 + 273.15
	jointUsual   = 5e-4
	longestSoak  = 8 * 3600
	roundedUpTo  = 1 // decimal places of a computed temperature
	mostMemories = 2048
)

// heated tells whether the design has heat to compute. An open one has too: what
// is sized must be sized hot.
func (d *Design) heated() bool { return d.Heat.given() }

// IsHeated tells whether an end is part of the heat computation: the design has
// [heat], and the end [end.heat].
func (d *Design) IsHeated(end int) bool { return d.heated() && d.Ends[end].Heat.given() }

// completeHeat tells what is missing of heat, and what cannot be computed.
func (d *Design) completeHeat(fail failing) {
	h := &d.Heat
	if !h.given() {
		for i := range d.Ends {
			if e := &d.Ends[i]; e.Heat.given() {
				fail(e.Heat.Place, fmt.Sprintf("[end.heat] of %q: there is no [heat] to heat it", e.Name.Value), "[heat] with gas_temperature and film_coefficient")
			}
		}
		if d.PeakTime.given() {
			fail(d.PeakTime.Place, "[motor]: peak_time goes with burn_time and [heat]", "[heat], or leave peak_time out")
		}
		return
	}
	before := 0
	wrong := func(at Place, message, write string) { before++; fail(at, message, write) }
	needs := func(list ...Place) (sound bool) {
		return !slices.ContainsFunc(list, func(p Place) bool { return !p.given() })
	}
	if !d.BurnTime.given() {
		wrong(Place{Key: "motor.burn_time", Line: h.Line, Column: h.Column}, "[heat]: it is not told how long the motor burns", `burn_time = "2.5 s" in [motor]`)
	}
	if d.PeakTime.IsSet() && d.BurnTime.IsSet() && d.PeakTime.Cmp(d.BurnTime.Amount) > 0 {
		wrong(d.PeakTime.Place, "[motor]: the peak of pressure comes after burnout", "a peak_time of at most burn_time")
	}
	gas := []Place{h.Flow.Place, h.Viscosity.Place, h.Conductivity.Place, h.SpecificHeat.Place}
	switch {
	case h.Film.Named == pipeFlow && !needs(gas...):
		wrong(h.Film.Place, "[heat]: pipe flow needs gas_flow, gas_viscosity, gas_conductivity and gas_specific_heat", "all four, or a film_coefficient as \"800 W/(m² K)\"")
	case h.Film.given() && h.Film.Named == "" && slices.ContainsFunc(gas, Place.given):
		at := gas[slices.IndexFunc(gas, Place.given)]
		wrong(at, "[heat]: the gas's flow and properties go with pipe flow", `film_coefficient = "pipe flow", or leave them out`)
	}
	if h.Wind.given() && h.Outside.given() {
		wrong(h.Wind.Place, "[heat]: wind stands in place of outside_film", "one of the two")
	}
	switch {
	case len(h.Layers) == 0 && !h.Bare.Value:
		wrong(h.Place, "[heat]: there is no layer between the gas and the tube", "[[heat.layer]] with name, material and thickness, or bare = true for a tube without a liner")
	case len(h.Layers) > 0 && h.Bare.Value:
		wrong(h.Bare.Place, "[heat]: a bare tube has no layer", "bare = true alone, or the layers alone")
	case len(h.Layers) > heat.MostLayers:
		wrong(h.Layers[heat.MostLayers].Place, fmt.Sprintf("[heat]: at most %d layers can be computed", heat.MostLayers), "like layers as one")
	}
	for i := range h.Layers {
		h.Layers[i].complete(i, wrong)
	}
	for i := range d.Ends {
		d.Ends[i].completeHeat(wrong)
	}
	if m := d.Tube.Material; m.Material != nil {
		if _, err := solidOf(m.Material); err != nil {
			wrong(m.Place, "[tube]: "+err.Error()+", which [heat] needs", "a material with conductivity, density and specific_heat")
		}
	}
	if before > 0 || d.Open {
		return
	}
	d.ill(wrong)
}

func (l *Layer) complete(number int, wrong failing) {
	title := fmt.Sprintf("[[heat.layer]] %d", number+1)
	if l.Name.Value != "" {
		title = fmt.Sprintf("[[heat.layer]] %q", l.Name.Value)
	}
	given := 0
	for _, p := range []Place{l.Conductivity.Place, l.Density.Place, l.SpecificHeat.Place} {
		if p.given() {
			given++
		}
	}
	switch {
	case l.Material.given() && given > 0:
		wrong(l.Material.Place, title+": a layer has a material, or conductivity, density and specific_heat, not both", "one of the two")
	case !l.Material.given() && given < 3:
		wrong(l.Place, title+": what it is made of is not told", `material = "paper tube", or conductivity, density and specific_heat`)
	}
}

func (e *End) completeHeat(wrong failing) {
	h := &e.Heat
	if !h.given() {
		return
	}
	title := fmt.Sprintf("[end.heat] of %q: ", e.Name.Value)
	switch {
	case h.Cover.given() && !h.CoverThickness.given():
		wrong(h.Cover.Place, title+"the cover has no thickness", `cover_thickness = "5 mm"`)
	case h.CoverThickness.given() && !h.Cover.given():
		wrong(h.CoverThickness.Place, title+"it is not told what the cover is made of", `cover = "phenolic paper tube"`)
	case h.CoverGap.given() && !h.Cover.given():
		wrong(h.CoverGap.Place, title+"there is no cover", `cover and cover_thickness, or leave cover_resistance out`)
	}
	if h.Entry.IsSet() && e.Length.IsSet() && h.Entry.Greatest().Cmp(e.Length.Nominal()) > 0 {
		wrong(h.Entry.Place, title+"heat enters beyond the end", "enters of at most the end's length")
	}
	if m := e.Material; m.Material != nil {
		if _, err := solidOf(m.Material); err != nil {
			wrong(m.Place, title+err.Error(), "a material with conductivity, density and specific_heat")
		}
	}
	if !h.Mass.given() && e.Kind.Value == "nozzle" && !e.Insert.given() {
		wrong(h.Place, title+"without insert_diameter its mass does not follow from its sizes", `mass = "0.14 kg", weighed or from CAD, without the insert`)
	}
}

// ill tells what the computation itself refuses.
func (d *Design) ill(wrong failing) {
	m, err := d.HeatMotor()
	if err != nil {
		if m != nil || d.Heat.Film.Named != "" {
			wrong(d.Heat.Film.Place, "[heat]: "+err.Error(), `a film_coefficient as "800 W/(m² K)"`)
		}
		return // the tube or an end is faulty, and told as such
	}
	var faults heat.Faults
	if !errors.As(m.Check(heat.Usual), &faults) {
		return
	}
	for _, f := range faults {
		at, what := d.Heat.Place, "[heat]: "
		switch {
		case f.Layer >= 0:
			at, what = d.Heat.Layers[f.Layer].Place, fmt.Sprintf("[[heat.layer]] %q: ", d.Heat.Layers[f.Layer].Name.Value)
		case f.End >= 0:
			e := &d.Ends[d.HeatedEnds()[f.End]]
			at, what = e.Heat.Place, fmt.Sprintf("[end.heat] of %q: ", e.Name.Value)
			if f.Field == "Mass" && e.Heat.Mass.given() {
				at = e.Heat.Mass.Place
			}
		}
		wrong(at, what+heatWords(f), "")
	}
}

// heatWords says what a fault of the computation is in the words of the file.
func heatWords(f *heat.Fault) string {
	if f.Field == "Layers" {
		return "the layers together " + strings.Replace(f.Why, "leave no room", "leave no room in the bore", 1)
	}
	field := strings.NewReplacer("SpecificHeat", "specific heat", ".", " ").Replace(f.Field)
	return strings.ToLower(field) + " " + f.Why
}

// HeatedEnds are the numbers, from 0, of the ends that have [end.heat]: those of
// the heat computation, in its order.
func (d *Design) HeatedEnds() []int {
	var list []int
	for i := range d.Ends {
		if d.Ends[i].Heat.given() {
			list = append(list, i)
		}
	}
	return list
}

func kelvinOr(a Amount, x float64) quantity.Temperature {
	if a.IsSet() {
		return quantity.Temperature(a.SI())
	}
	return quantity.Temperature(x)
}

// HeatMotor returns what the heat computation needs of a design: the tube at
// its thinnest wall, the layers at their least thickness, the ends that have
// [end.heat]. It is an error where the design has no [heat], or not all that
// this needs.
func (d *Design) HeatMotor() (*heat.Motor, error) {
	h := &d.Heat
	if !h.given() {
		return nil, errors.New("the design has no [heat]")
	}
	geometry, err := d.Tube.sizes().Geometry(d.Tube.drawn())
	if err != nil {
		return nil, err
	}
	tube, err := solidOf(d.Tube.Material.Material)
	switch {
	case err != nil:
		return nil, err
	case !d.Tube.Length.IsSet() || !d.BurnTime.IsSet() || !h.Gas.IsSet():
		return nil, errors.New("the design is not whole")
	}
	bore, wall := quantity.LengthOf(geometry.Bore[0]), quantity.LengthOf(geometry.Wall[1])
	film, err := h.film(bore)
	if err != nil {
		return nil, err
	}
	ambient := kelvinOr(h.Ambient, room)
	m := &heat.Motor{
		Tube: tube, Bore: bore, Wall: wall, Length: quantity.LengthOf(d.Tube.Length.Nominal()),
		Gas:     [2]heat.Film{film, {Temperature: ambient, Coefficient: quantity.HeatTransfer(orDefault(h.Soak, 0))}},
		Outside: h.outside(ambient, bore+2*wall),
		Start:   kelvinOr(h.Initial, float64(ambient)), Burn: quantity.Time(d.BurnTime.SI()),
		Touch: kelvinOr(h.Touch, touch48),
	}
	m.Until = max(longestSoak, 10*m.Burn)
	if d.PeakTime.IsSet() {
		m.Marks = append(m.Marks, quantity.Time(d.PeakTime.SI()))
	}
	for i := range h.Layers {
		slab := h.Layers[i].slab()
		if slab.Conductivity == 0 || slab.Density == 0 || slab.SpecificHeat == 0 || slab.Thickness == 0 {
			return nil, errors.New("the design is not whole")
		}
		m.Layers = append(m.Layers, slab)
	}
	for _, i := range d.HeatedEnds() {
		e, err := d.Ends[i].heatEnd(m)
		if err != nil {
			return nil, err
		}
		m.Ends = append(m.Ends, e)
	}
	return m, nil
}

// film is what the gas brings while it burns. The bore of pipe flow is that of
// the tube less the layers.
func (h *Heat) film(bore quantity.Length) (heat.Film, error) {
	f := heat.Film{Temperature: quantity.Temperature(h.Gas.SI()), Emissivity: orDefault(h.Emissivity, 0)}
	switch {
	case h.Film.Named == pipeFlow:
		for i := range h.Layers {
			bore -= 2 * quantity.LengthOf(h.Layers[i].Thickness.Nominal())
		}
		coefficient, err := heat.PipeFlow(bore, quantity.MassFlow(h.Flow.SI()), quantity.Viscosity(h.Viscosity.SI()), quantity.Conductivity(h.Conductivity.SI()), quantity.SpecificHeat(h.SpecificHeat.SI()))
		f.Coefficient = coefficient
		return f, err
	case !h.Film.IsSet():
		return f, errors.New("the design is not whole")
	}
	f.Coefficient = quantity.HeatTransfer(h.Film.SI())
	return f, nil
}

func (h *Heat) outside(ambient quantity.Temperature, diameter quantity.Length) heat.Film {
	f := heat.Film{Temperature: ambient, Emissivity: orDefault(h.OutsideEmissivity, 0)}
	switch {
	case h.Wind.IsSet():
		f.Correlation = heat.CrossWind(diameter, quantity.Speed(h.Wind.SI()))
	case h.Outside.Named == "" && h.Outside.IsSet():
		f.Coefficient = quantity.HeatTransfer(h.Outside.SI())
	default:
		f.Correlation = heat.StillAir(diameter)
	}
	return f
}

func (l *Layer) slab() heat.Layer {
	s := l.Material.Solid
	if !l.Material.given() {
		s = heat.Solid{Conductivity: quantity.Conductivity(l.Conductivity.SI()), Density: quantity.Density(l.Density.SI()), SpecificHeat: quantity.SpecificHeat(l.SpecificHeat.SI())}
	}
	return heat.Layer{Name: l.Name.Value, Solid: s, Thickness: quantity.LengthOf(l.Thickness.Least()), Gap: quantity.ThermalResistance(orDefault(l.Gap, 0))}
}

// heatEnd is an end as heat meets it. A mass that is not given is that of the
// plate of a bulkhead alone, or of a nozzle's ring about its insert: less than
// the end has, so that it gets hotter.
func (e *End) heatEnd(m *heat.Motor) (heat.End, error) {
	h, s := &e.Heat, &e.Seal
	body, err := solidOf(e.Material.Material)
	if err != nil {
		return heat.End{}, err
	}
	for _, size := range []Dimension{e.Outside, e.Length, s.GrooveFromFace, e.Screws.FromFace} {
		if !size.IsSet() {
			return heat.End{}, errors.New("the design is not whole")
		}
	}
	round := func(d Dimension) float64 { x := d.Nominal().InexactFloat64(); return math.Pi / 4 * x * x }
	length, bore := quantity.LengthOf(e.Length.Nominal()), float64(m.Bore)
	mass := quantity.Mass(orDefault(h.Mass, 0))
	outside := round(e.Outside)
	switch {
	case mass > 0:
	case e.Kind.Value == "nozzle":
		mass = quantity.Mass(float64(body.Density) * (round(e.Outside) - round(e.Insert)) * float64(length))
	default:
		mass = quantity.Mass(float64(body.Density) * round(e.Outside) * e.Plate.Least().InexactFloat64())
	}
	if e.Kind.Value == "nozzle" {
		outside -= round(e.LipDiameter)
	}
	burning := m.Gas[0]
	if h.Film.IsSet() {
		burning.Coefficient = quantity.HeatTransfer(h.Film.SI())
	}
	end := heat.End{
		Name: e.Name.Value, Body: body, Mass: mass, Length: length,
		Gland: quantity.LengthOf(s.GrooveFromFace.Least()), Bolts: quantity.LengthOf(e.Screws.FromFace.Nominal()),
		GlandEnd: min(length, quantity.LengthOf(s.grooveEnd(quantity.Dimension.Greatest))),
		Hot:      quantity.Area(orDefault(h.Hot, math.Pi/4*bore*bore)), Entry: quantity.LengthOf(h.Entry.Nominal()),
		Gas: [2]heat.Film{burning, m.Gas[1]}, Joint: quantity.ThermalResistance(orDefault(h.Joint, jointUsual)), Outside: quantity.Area(outside),
	}
	if h.Cover.given() && h.CoverThickness.IsSet() {
		end.Cover = &heat.Layer{Name: h.Cover.Name, Solid: h.Cover.Solid, Thickness: quantity.LengthOf(h.CoverThickness.Least()), Gap: quantity.ThermalResistance(orDefault(h.CoverGap, 0))}
	}
	return end, nil
}

// Heated computes how hot the motor of a design gets. The answer is kept: a
// design that is asked again, or another one with the same heat, is not
// computed again. Do not change it.
func (d *Design) Heated() (*heat.History, error) {
	m, err := d.HeatMotor()
	if err != nil {
		return nil, err
	}
	return remembered(m, d.heatKey(m))
}

// heatKey tells one heat computation from another.
func (d *Design) heatKey(m *heat.Motor) string {
	// What the correlations were made of stands in for them.
	plain := *m
	plain.Outside.Correlation, plain.Layers, plain.Ends = nil, nil, nil
	var b strings.Builder
	fmt.Fprint(&b, plain, orDefault(d.Heat.Wind, math.NaN()), m.Outside.Correlation == nil, m.Layers)
	for _, e := range m.Ends {
		cover := heat.Layer{}
		if e.Cover != nil {
			cover = *e.Cover
		}
		e.Cover = nil
		fmt.Fprint(&b, e, cover)
	}
	return b.String()
}

var memory struct {
	sync.Mutex
	of map[string]*heat.History
}

func remembered(m *heat.Motor, key string) (*heat.History, error) {
	memory.Lock()
	h, ok := memory.of[key]
	memory.Unlock()
	if ok {
		return h, nil
	}
	h, err := m.Run(heat.Usual)
	if err != nil {
		return nil, err
	}
	memory.Lock()
	defer memory.Unlock()
	if memory.of == nil || len(memory.of) >= mostMemories {
		memory.of = map[string]*heat.History{}
	}
	memory.of[key] = h
	return h, nil
}

// hot are the temperatures of a motor that its checks take.
type hot struct {
	tube    Amount   // the hottest until burnout: its bore side half-way, or the tube round an end
	beside  []Amount // the tube round each end until burnout; unset where that is not computed
	end     []Amount // hottest metal of each end until burnout
	gland   []Amount // until burnout; unset where the end is not heated
	soak    []Amount // of the gland, afterwards
	bolts   []Amount // metal at the screws at its hottest
	history *heat.History
	across  float64 // greatest difference through the wall, K
	initial Amount
	failed  bool
}

// hot computes them; a temperature that the design gives is taken from there.
func (d *Design) hot() *hot {
	t := &hot{tube: d.Tube.Temperature, beside: make([]Amount, len(d.Ends)), end: make([]Amount, len(d.Ends)), gland: make([]Amount, len(d.Ends)), soak: make([]Amount, len(d.Ends)), bolts: make([]Amount, len(d.Ends))}
	for i := range d.Ends {
		t.end[i] = d.Ends[i].Temperature
	}
	if !d.heated() {
		return t
	}
	h, err := d.Heated()
	if err != nil {
		t.failed = true
		return t
	}
	t.history, t.initial = h, d.Heat.Initial
	if !t.initial.IsSet() {
		t.initial = d.Heat.Ambient
	}
	if !t.tube.IsSet() {
		hottest := h.PeakBurning(h.WallInside).Temperature
		for n, i := range d.HeatedEnds() {
			round := h.PeakBurning(h.Ends[n].Tube).Temperature
			t.beside[i] = Kelvins(round)
			hottest = max(hottest, round)
		}
		t.tube = Kelvins(hottest)
		t.tube.Place = d.Heat.Film.Place
	}
	for i := range h.Time {
		t.across = max(t.across, math.Abs(h.WallInside[i]-h.WallOutside[i]))
	}
	for n, i := range d.HeatedEnds() {
		e := &h.Ends[n]
		if !t.end[i].IsSet() {
			t.end[i] = Kelvins(h.PeakBurning(e.Metal).Temperature)
			t.end[i].Place = d.Heat.Film.Place
			t.gland[i] = Kelvins(h.PeakBurning(e.Gland).Temperature)
		}
		t.soak[i] = Kelvins(h.PeakAfter(e.Gland).Temperature)
		t.bolts[i] = Kelvins(h.Peak(e.Bolts).Temperature)
	}
	return t
}

// tubeKept is the yield strength that the tube keeps where heat takes the most,
// half-way along it or round an end.
func (t *hot) tubeKept(m *materials.Material) materials.Reading {
	least := m.Kept(materials.Yield, t.exposure(t.history.WallMean))
	for i := range t.history.Ends {
		kept := m.Kept(materials.Yield, t.exposure(t.history.Ends[i].Tube))
		if least.Reason == margin.None && (kept.Reason != margin.None || kept.SI < least.SI) {
			least = kept
		}
	}
	return least
}

// exposure is a trace as steps of heat, each as hot as the hotter of its ends.
func (t *hot) exposure(trace heat.Trace) []materials.Heat {
	steps := make([]materials.Heat, 0, len(trace))
	for i := 1; i < len(trace); i++ {
		steps = append(steps, materials.Heat{
			Temperature: quantity.Temperature(max(trace[i-1], trace[i])), Time: quantity.Time(t.history.Time[i] - t.history.Time[i-1]),
		})
	}
	return steps
}

// ofEnd is the history of an end; nil where it is not heated.
func (t *hot) ofEnd(d *Design, number int) *heat.EndHistory {
	if n := slices.Index(d.HeatedEnds(), number); n >= 0 && t.history != nil {
		return &t.history.Ends[n]
	}
	return nil
}

// Temperature returns the temperature at which a part, 0 the tube and then the
// ends, is checked: as the design gives it, else as it is computed, then at the
// place of the film that it comes from; unset where neither is.
func (d *Design) Temperature(part int) Amount {
	t := d.hot()
	if part == 0 {
		return t.tube
	}
	return t.end[part-1]
}

// TemperatureBeside returns the temperature of the tube round an end, from 1: as
// it is computed where the design gives none, else that of the tube.
func (d *Design) TemperatureBeside(part int) Amount {
	t := d.hot()
	if own := t.beside[part-1]; own.IsSet() {
		return own
	}
	return t.tube
}

// at is the temperature that a part is taken at, 20 °C where nothing tells it;
// NaN where it was to be computed and could not be.
func (t *hot) at(a Amount, computed bool) quantity.Temperature {
	if t.failed && computed && !a.IsSet() {
		return quantity.Temperature(math.NaN())
	}
	return a.kelvin()
}

// Kelvins is a computed temperature as a design has it, rounded up to 0.1 K.
func Kelvins(t quantity.Temperature) Amount {
	unit, _ := quantity.KindTemperature.Unit("K")
	return Amount{quantity.NewAmount(decimal.NewFromFloat(float64(t)).RoundUp(roundedUpTo), unit), Place{}}
}

// HeatPlaces are the places whose temperature may be measured, as [heat.measured]
// names them: those of the tube, and those of each heated end after its name
// and a point.
func (d *Design) HeatPlaces() []string {
	list := []string{"hot_face", "bond", "wall_inside", "wall_mean", "wall_outside"}
	for _, i := range d.HeatedEnds() {
		for _, place := range []string{"gland", "bolts", "rear"} {
			list = append(list, d.Ends[i].Name.Value+"."+place)
		}
	}
	return list
}

// HeatPlace is the place of a name of [Design.HeatPlaces]; a name of another
// motor is a place that is not there.
func (d *Design) HeatPlace(name string) heat.Place {
	end, trace, ended := strings.Cut(name, ".")
	if !ended {
		return heat.Place{Trace: name, End: -1}
	}
	for n, i := range d.HeatedEnds() {
		if d.Ends[i].Name.Value == end {
			return heat.Place{Trace: trace, End: n}
		}
	}
	return heat.Place{Trace: trace, End: math.MaxInt}
}

// hotterInTest tells where a test was hotter than what is computed by more than
// labels and thermocouples err (3 K: common practice, no source).
func (d *Design) hotterInTest() []string {
	h, err := d.Heated()
	if err != nil {
		return nil
	}
	var list []string
	for _, m := range d.Heat.Maxima {
		if trace, ok := h.Trace(d.HeatPlace(m.Where)); ok {
			if peak := float64(h.Peak(trace).Temperature); m.Least > peak+3 {
				list = append(list, fmt.Sprintf("%s %s, computed %.0f °C", m.Where, m.Text, math.Floor(peak-273.15)))
			}
		}
	}
	return list
}

// heat reads [heat], after the ends.
func (r *reader) heat() {
	v, ok := r.root["heat"]
	if !ok {
		return
	}
	values, ok := v.(map[string]any)
	if !ok {
		r.fail(r.tableAt("heat"), `"heat" must be a table that stands once`, "[heat]")
		return
	}
	h := &r.design.Heat
	h.Place = r.at("heat", "heat")
	r.table(&table{path: "heat", address: "heat", title: "[heat]", values: values, place: h.Place}, nil, []string{"layer", "measured"})
	if v, ok := values["layer"]; ok {
		if _, isTable := v.(map[string]any); isTable {
			r.fail(r.at("heat.layer", "heat.layer"), "[heat.layer] is one of several", "[[heat.layer]]")
			h.Bare.Value = true // so that layers are not told as missing
			return
		}
		for i, one := range r.list("heat.layer", "heat.layer", `"heat.layer"`, v, false) {
			address := "heat.layer#" + strconv.Itoa(i)
			at := r.at(address, "heat.layer")
			h.Layers = append(h.Layers, Layer{Place: at})
			title := fmt.Sprintf("[[heat.layer]] %d", i+1)
			if name, ok := one["name"].(string); ok && clean(name) != "" {
				title = fmt.Sprintf("[[heat.layer]] %q", clean(name))
			}
			r.table(&table{path: "heat.layer", address: address, title: title, values: one, place: at}, nil, nil)
		}
	}
	if v, ok := values["measured"]; ok {
		r.heatMeasured(v)
	}
}

const sampleMaximum = `wall_outside = "88 to 93 °C"`

// heatMeasured reads [heat.measured].
func (r *reader) heatMeasured(v any) {
	values, ok := v.(map[string]any)
	if !ok {
		r.fail(r.at("heat.measured", "heat.measured"), `"heat.measured" must be a table that stands once`, "[heat.measured]")
		return
	}
	places := r.design.HeatPlaces()
	for _, name := range r.names("heat.measured.", values) {
		address := "heat.measured." + name
		at := r.at(address, address)
		if inner, isTable := values[name].(map[string]any); isTable && len(inner) > 0 {
			for _, rest := range r.names(address+".", inner) {
				r.fail(r.at(address+"."+rest, address+"."+rest), "[heat.measured]: a place at an end stands in quotes", fmt.Sprintf("%q = …", clean(name+"."+rest)))
			}
			continue
		}
		text, isText := values[name].(string)
		switch {
		case !isText:
			r.fail(at, fmt.Sprintf("[heat.measured]: %s needs a text in quotes, not %s", clean(name), kindOf(values[name])), sampleMaximum)
		case name == "csv":
			if text != printable(text) || strings.TrimSpace(text) == "" {
				r.fail(at, "[heat.measured]: csv is not the name of a file", `csv = "test.csv"`)
				continue
			}
			r.design.Heat.Course = Text{text, at}
		case !slices.Contains(places, name):
			r.fail(at, fmt.Sprintf("[heat.measured]: %q is no place of this motor whose temperature is computed", clean(name)), "one of "+strings.Join(places, ", ")+", or csv")
		default:
			m, message, write := maximum(text)
			if message != "" {
				r.fail(at, fmt.Sprintf("[heat.measured]: %s: %s", clean(name), message), write)
				continue
			}
			m.Where, m.Place = name, at
			r.design.Heat.Maxima = append(r.design.Heat.Maxima, m)
		}
	}
}

// maximum reads a measured maximum: "88 °C", "88 to 93 °C", "at least 120 °C",
// "at most 60 °C".
func maximum(text string) (m Maximum, message, write string) {
	m = Maximum{Least: 0, Most: math.Inf(1), Text: text}
	parse := func(part string) (float64, bool) {
		a, err := quantity.Parse(quantity.KindTemperature, strings.TrimSpace(part))
		switch {
		case err != nil:
			if message, write = explain(err); write == "" {
				write = sampleMaximum
			}
		case !within(a, coldest, "2000 °C"):
			message, write = fmt.Sprintf("%q is out of range: it must lie from %s to 2000 °C", clean(part), coldest), sampleMaximum
		default:
			return a.SI(), true
		}
		return 0, false
	}
	words := strings.Join(strings.Fields(text), " ")
	if rest, ok := strings.CutPrefix(words, "at least "); ok {
		m.Least, _ = parse(rest)
		return m, message, write
	}
	if rest, ok := strings.CutPrefix(words, "at most "); ok {
		m.Most, _ = parse(rest)
		return m, message, write
	}
	from, to, ranges := strings.Cut(words, " to ")
	if !ranges {
		m.Least, _ = parse(words)
		m.Most = m.Least
		return m, message, write
	}
	high, ok := parse(to)
	if !ok {
		return m, message, write
	}
	if _, err := quantity.Parse(quantity.KindTemperature, from); err != nil { // "88 to 93 °C"
		from += " " + strings.TrimLeft(to, "+-0123456789.,e ")
	}
	low, ok := parse(from)
	if ok && low > high {
		unit := strings.TrimLeft(to, "+-0123456789.,e ")
		return m, fmt.Sprintf("%q goes down", clean(text)), strconv.Quote(strings.TrimSpace(strings.TrimSuffix(to, unit)) + " to " + from)
	}
	m.Least, m.Most = low, high
	return m, message, write
}
