package margin

import "slices"

// moreKeys are the keys of the design file, beside its own, that a term comes
// from where no formula tells it.
var moreKeys = map[Term][]string{
	Wall: tubeSizes, Bore: tubeSizes,
	ChamferArea:         {"tube.lead_in_angle"},
	BearingThickness:    {"end.screws.edge_break", "end.screws.head_depth"},
	HoleBearingUltimate: bearingKeys, HoleBearingYield: bearingKeys, HoleBearingGreatest: bearingKeys,
	EndBearingUltimate: endBearingKeys, EndBearingYield: endBearingKeys,
	ShearArea: {"end.screws.threads_in_shear"}, ShearFactor: {"end.screws.threads_in_shear"},
	ScrewStrength: screwTemperatures, ScrewYield: screwTemperatures,
	ShareBreaks: {"end.screws.thread", "end.screws.class", "end.screws.edge", "end.screws.hole", "tube.wall", "tube.material"},
	GrooveEnd:   grooveKeys,
	ToGroove:    grooveKeys,
	LandWidth:   append([]string{"end.length", "end.screws.thread"}, grooveKeys...),
	TubeYield:   {"tube.temperature"}, TubeUltimate: {"tube.temperature"}, TubeShear: {"tube.temperature"},
	EndYield: {"end.temperature"}, EndUltimate: {"end.temperature"}, EndShear: {"end.temperature"},
	HeatOpening: heatKeys, HeatClosing: heatKeys,
	Heating: temperatures, GlandTemperature: temperatures, ColdGland: temperatures,
	GapLimit:     {"motor.pressure", "end.seal.compound"},
	Section:      {"end.seal.section"},
	RingInside:   {"end.seal.inside_diameter"},
	SqueezeLimit: {"end.seal.section"},
	PortFactor:   {"end.port_thread"}, Port: {"end.port_thread"},
	Drilled:    {"end.screws.engagement", "end.screws.thread"},
	PortWall:   {"end.port_thread", "end.outside_diameter", "end.screws.engagement"},
	PortLength: {"end.port_depth"},
	PortFloor:  {"end.plate"},
	HeatStress: heatedKeys, SoakGland: heatedKeys, TubeKept: heatedKeys, EndKept: heatedKeys, HotScrews: heatedKeys,
	EdgeFactor: append([]string{"end.screws.edge"}, grooveKeys...),
	FirstLoad:  {"end.screws.hole", "end.screws.thread", "end.screws.engagement", "tube.wall", "tube.material", "end.material"},
	Preload:    {"end.screws.friction", "end.screws.thread"},
}

var (
	tubeSizes         = []string{"tube.outside_diameter", "tube.inside_diameter", "tube.wall", "tube.wall_variation"}
	bearingKeys       = []string{"end.screws.edge", "end.screws.hole", "tube.temperature"}
	endBearingKeys    = append([]string{"end.screws.from_face", "end.screws.thread", "end.temperature"}, grooveKeys...)
	screwTemperatures = []string{"tube.temperature", "end.temperature"}
	grooveKeys        = []string{"end.screws.from_face", "end.seal.groove_from_face", "end.seal.groove_width", "end.seal.groove_spacing", "end.seal.count"}
	temperatures      = []string{"tube.temperature", "end.temperature"}
	heatedKeys        = []string{"motor.burn_time", "heat.gas_temperature", "heat.film_coefficient", "heat.layer.material"}
	heatKeys          = []string{"tube.temperature", "end.temperature", "tube.material", "end.material"}
)

// Keys returns the keys of the design file that the term comes from, its own
// first; none for one that follows from other terms alone.
func (t Term) Keys() []string {
	var list []string
	if key := terms[t].Key; key != "" {
		list = append(list, key)
	}
	for _, key := range moreKeys[t] {
		if !slices.Contains(list, key) {
			list = append(list, key)
		}
	}
	return list
}
