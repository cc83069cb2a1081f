package margin

import (
	"strings"

	"casewright/quantity"
)

// A Term is one quantity of the motor that a formula may use. What it means,
// its unit and the key of the design file that sets it stand in one list, so
// that every formula, table and message tells the same.
type Term uint8

// The terms, by the part that they describe. Those of an end are that end's.
const (
	Pressure Term = iota
	Wall
	Bore
	DiameterRatio
	EndLoad
	Growth
	TubeYield
	TubeUltimate
	SvenssonFactor
	TubePoisson
	EdgeFactor
	HeatStress
	TubeKept

	Share
	ShareBreaks
	Count
	ScrewDiameter
	ShearArea
	ShearFactor
	ScrewStrength
	Hole
	Edge
	Sink
	BearingThickness
	ChamferArea
	HoleBearingUltimate
	HoleBearingYield
	HoleBearingGreatest
	TubeShear
	HoleFromFace
	GrooveEnd
	Packing
	CoreDiameter
	ScrewYield
	Position
	FirstLoad
	PeakFactor
	Preload
	Friction
	ThreadPitch
	PitchDiameter
	StressDiameter
	StressArea
	ThreadShear

	Plate
	PortFactor
	Port
	EndYield
	EndUltimate
	EndShear
	EndPoisson
	EndBearingUltimate
	EndBearingYield
	ToGroove
	Engagement
	EngagedLength
	LandWidth
	EndDiameter
	HeatClosing
	InsertDiameter
	LipDiameter
	Lip
	Drilled
	PipeThreadLength
	PortWall
	PortWallLimit
	PortLength
	PortFloor

	GrooveDiameter
	GrooveWidth
	Section
	StretchedSection
	RingInside
	Offset
	HeatOpening
	Swell
	RubberExpansion
	Heating
	Hardness
	GapShare
	GapLimit
	SqueezeLimit
	GlandTemperature
	SoakGland
	EndKept
	HotScrews
	WasherLimit
	CompoundLimit
	ColdGland
	ColdLimit
	LeadIn
	LeadInAngle

	NumTerms
)

// TermInfo says what a term is.
type TermInfo struct {
	Symbol  string        // as handbooks write it
	Meaning string        // in a few words
	Kind    quantity.Kind // of its value, in SI
	Key     string        // of the design file; empty where it follows from several
	Derived bool          // computed from other terms; its worst end is implied by the symbol

	// From is the formula by which the term follows from others, at the end of
	// its tolerance that methods take; empty where no formula tells it.
	From string
	// Uses are the terms that From names. Other names are explained in Told,
	// as "E: modulus of the tube".
	Uses []Symbol
	// Told says in words how the term comes about, beside From or in its place.
	Told string
}

// listed is what the list below says of a term.
type listed struct {
	Symbol  string
	Meaning string
	Kind    quantity.Kind
	Key     string
	Derived bool
}

var terms = [NumTerms]listed{
	Pressure:       {"p", "design pressure (MEOP), gauge", quantity.KindPressure, "motor.pressure", true},
	Wall:           {"t", "wall", quantity.KindLength, "tube.wall", false},
	Bore:           {"D_b", "bore of the tube", quantity.KindLength, "tube.inside_diameter", false},
	DiameterRatio:  {"k", "outside over inside radius, at the thinnest wall and the largest bore", quantity.KindRatio, "tube.wall", true},
	EndLoad:        {"F", "end load, pressure on the full bore", quantity.KindForce, "", true},
	Growth:         {"u", "growth of the bore radius under pressure", quantity.KindLength, "", true},
	TubeYield:      {"F_ty", "yield strength of the tube at its temperature", quantity.KindPressure, "tube.material", true},
	TubeUltimate:   {"F_tu", "ultimate strength of the tube at its temperature", quantity.KindPressure, "tube.material", true},
	SvenssonFactor: {"c_S", "strain-hardening factor on F_tu ln k; 1 where uniform elongation is unknown", quantity.KindRatio, "tube.material", true},

	TubePoisson: {"ν", "Poisson's ratio of the tube", quantity.KindRatio, "tube.material", true},
	EdgeFactor:  {"c_e", "von Mises stress where the pressure stops and the tube is held, over p D_m/(2 t)", quantity.KindRatio, "end.screws.from_face", true},
	HeatStress:  {"σ_T", "greatest stress by heat through the wall", quantity.KindPressure, "heat.layer.thickness", true},
	TubeKept:    {"κ_t", "share of its yield strength that the tube keeps after a firing", quantity.KindRatio, "heat.layer.thickness", true},

	Share:               {"share", "load of the hardest-loaded screw over the mean", quantity.KindRatio, "end.screws.share", true},
	ShareBreaks:         {"share", "load of the hardest-loaded screw over the mean, when something breaks", quantity.KindRatio, "end.screws.share", true},
	Count:               {"N", "number of screws in the row", quantity.KindRatio, "end.screws.count", true},
	ScrewDiameter:       {"d", "nominal screw diameter", quantity.KindLength, "end.screws.thread", true},
	ShearArea:           {"A", "screw area in the shear plane", quantity.KindArea, "end.screws.thread", true},
	ShearFactor:         {"α_v", "shear strength over tensile strength of the screw", quantity.KindRatio, "end.screws.class", true},
	ScrewStrength:       {"R_m", "minimum tensile strength of the screw at its temperature", quantity.KindPressure, "end.screws.class", true},
	Hole:                {"h", "hole in the tube", quantity.KindLength, "end.screws.hole", false},
	Edge:                {"e", "hole centre to the end of the tube", quantity.KindLength, "end.screws.edge", false},
	Sink:                {"s", "depth of the countersink", quantity.KindLength, "end.screws.head_depth", false},
	BearingThickness:    {"t_b", "wall that bears on the screw", quantity.KindLength, "tube.wall", true},
	ChamferArea:         {"A_c", "area that the lead-in takes from each shear plane", quantity.KindArea, "tube.lead_in", true},
	HoleBearingUltimate: {"F_bru", "ultimate bearing strength of the tube at e_min/h_max", quantity.KindPressure, "tube.material", true},
	HoleBearingYield:    {"F_bry", "bearing yield strength of the tube at e_min/h_max", quantity.KindPressure, "tube.material", true},
	HoleBearingGreatest: {"F_bru", "ultimate bearing strength of the tube at e_max/h_min", quantity.KindPressure, "tube.material", true},
	TubeShear:           {"F_su", "shear strength of the tube at its temperature", quantity.KindPressure, "tube.material", true},
	HoleFromFace:        {"f", "hole centre to the pressure face of the end", quantity.KindLength, "end.screws.from_face", false},
	GrooveEnd:           {"g", "pressure face to the far wall of the last groove", quantity.KindLength, "end.seal.groove_from_face", false},

	Packing:        {"t_p", "gap between tube and end that a screw crosses, the end lying on the other side", quantity.KindLength, "end.outside_diameter", true},
	CoreDiameter:   {"d_3", "core diameter of the screw", quantity.KindLength, "end.screws.thread", true},
	ScrewYield:     {"R_p", "minimum yield strength of the screw at its temperature", quantity.KindPressure, "end.screws.class", true},
	Position:       {"T", "position tolerance of a hole, as a diameter, in tube and end alike", quantity.KindLength, "end.screws.position", true},
	FirstLoad:      {"F_1", "load that the first screw to touch takes before the last one touches", quantity.KindForce, "end.screws.position", true},
	PeakFactor:     {"c_h", "peak stress beside a hole over the mean pressure of a screw on the least hole", quantity.KindRatio, "end.screws.count", true},
	Preload:        {"F_M", "greatest preload of a screw at its tightening torque", quantity.KindForce, "end.screws.torque", true},
	Friction:       {"μ", "least friction in the thread and under the head", quantity.KindRatio, "end.screws.friction", true},
	ThreadPitch:    {"P", "pitch of the screw", quantity.KindLength, "end.screws.thread", true},
	PitchDiameter:  {"d_2", "pitch diameter of the screw", quantity.KindLength, "end.screws.thread", true},
	StressDiameter: {"d_0", "mean of pitch and core diameter of the screw", quantity.KindLength, "end.screws.thread", true},
	StressArea:     {"A_s", "tensile stress area of the screw", quantity.KindArea, "end.screws.thread", true},
	ThreadShear:    {"a_n", "shear area of the thread in the end, for each length of it", quantity.KindLength, "end.screws.thread", true},

	Plate:              {"h", "thinnest section of the plate under pressure", quantity.KindLength, "end.plate", false},
	PortFactor:         {"c_p", "2 with a central port, 1 without", quantity.KindRatio, "end.port", true},
	Port:               {"d_p", "central port", quantity.KindLength, "end.port", false},
	EndYield:           {"F_ty", "yield strength of the end at its temperature", quantity.KindPressure, "end.material", true},
	EndUltimate:        {"F_tu", "ultimate strength of the end at its temperature", quantity.KindPressure, "end.material", true},
	EndShear:           {"F_su", "shear strength of the end at its temperature", quantity.KindPressure, "end.material", true},
	EndPoisson:         {"ν", "Poisson's ratio of the end", quantity.KindRatio, "end.material", true},
	EndBearingUltimate: {"F_bru", "ultimate bearing strength of the end at c_min/d", quantity.KindPressure, "end.material", true},
	EndBearingYield:    {"F_bry", "bearing yield strength of the end at c_min/d", quantity.KindPressure, "end.material", true},
	ToGroove:           {"c", "screw centre to the far wall of the last groove", quantity.KindLength, "end.screws.from_face", false},
	Engagement:         {"l_e", "thread depth in the end", quantity.KindLength, "end.screws.engagement", false},
	EngagedLength:      {"L", "thread depth that bears, at most 1.5 d", quantity.KindLength, "end.screws.engagement", true},
	LandWidth:          {"w", "narrowest land behind a groove", quantity.KindLength, "end.screws.from_face", false},
	EndDiameter:        {"D_p", "outside diameter of the end", quantity.KindLength, "end.outside_diameter", false},
	HeatClosing:        {"g_T", "diameter by which heat closes the clearance", quantity.KindLength, "", true},
	InsertDiameter:     {"D_i", "outside diameter of the nozzle insert", quantity.KindLength, "end.insert_diameter", false},
	LipDiameter:        {"D_l", "inside diameter of the lip that holds the insert", quantity.KindLength, "end.lip_diameter", false},
	Lip:                {"l", "thickness of the lip, along the axis", quantity.KindLength, "end.lip", false},
	Drilled:            {"z_d", "depth of the screws' holes in the end, to the point of the drill", quantity.KindLength, "end.screws.drilled", false},

	PipeThreadLength: {"L_2", "effective length of the pipe thread", quantity.KindLength, "end.port_thread", true},
	PortWall:         {"w_p", "metal left round the pipe thread, to the groove or to the screws", quantity.KindLength, "end.seal.groove_diameter", false},
	PortWallLimit:    {"w_c", "wall of a forged coupling of that thread", quantity.KindLength, "end.port_thread", true},
	PortLength:       {"z_p", "length of the port, in which the pipe thread lies", quantity.KindLength, "end.plate", false},
	PortFloor:        {"f_p", "metal left under the pipe thread, to the pressure face", quantity.KindLength, "end.port_depth", false},

	GrooveDiameter:   {"D_g", "diameter at the bottom of the groove", quantity.KindLength, "end.seal.groove_diameter", false},
	GrooveWidth:      {"w", "width of the groove", quantity.KindLength, "end.seal.groove_width", false},
	Section:          {"CS", "section of the O-ring", quantity.KindLength, "end.seal.size", false},
	StretchedSection: {"CS_e", "least section of the O-ring, thinned by stretch", quantity.KindLength, "end.seal.size", true},
	RingInside:       {"ID", "inside diameter of the O-ring", quantity.KindLength, "end.seal.size", false},
	Offset:           {"δ", "radial room of the end in the bore", quantity.KindLength, "end.outside_diameter", true},
	HeatOpening:      {"u_T", "growth of the radial gap by heat", quantity.KindLength, "", true},
	Swell:            {"ψ", "swell of the rubber, by volume", quantity.KindRatio, "end.seal.compound", true},
	RubberExpansion:  {"α_r", "linear expansion of the rubber", quantity.KindExpansion, "end.seal.compound", true},
	Heating:          {"ΔT", "gland above 20 °C", quantity.KindTemperatureDifference, "tube.temperature", true},
	Hardness:         {"H", "hardness of the O-ring, Shore A", quantity.KindRatio, "end.seal.hardness", true},
	GapShare:         {"c_g", "share of the tabulated gap: a half for silicone, else 1", quantity.KindRatio, "end.seal.compound", true},
	GapLimit:         {"g_lim", "largest diametral clearance at this hardness and pressure", quantity.KindLength, "end.seal.hardness", true},
	SqueezeLimit:     {"S_lim", "largest squeeze for this section", quantity.KindRatio, "end.seal.size", true},
	GlandTemperature: {"T_g", "gland above 20 °C, negative when colder", quantity.KindTemperatureDifference, "tube.temperature", true},
	SoakGland:        {"T_s", "gland at its hottest after burnout, above 20 °C", quantity.KindTemperatureDifference, "end.heat.cover_thickness", true},
	EndKept:          {"κ_e", "share of its yield strength that the end keeps after a firing", quantity.KindRatio, "end.heat.cover_thickness", true},
	HotScrews:        {"T_b", "metal at the screws at its hottest, above 20 °C", quantity.KindTemperatureDifference, "end.heat.cover_thickness", true},
	WasherLimit:      {"T_w", "temperature at which the washers soften, above 20 °C", quantity.KindTemperatureDifference, "end.screws.washer", true},
	CompoundLimit:    {"T_c", "continuous limit of the compound, above 20 °C", quantity.KindTemperatureDifference, "end.seal.compound", true},
	ColdGland:        {"T_k", "gland at its coldest, at most 20 °C, less 20 °C", quantity.KindTemperatureDifference, "tube.temperature", true},
	ColdLimit:        {"T_l", "least temperature of the compound, above 20 °C", quantity.KindTemperatureDifference, "end.seal.compound", true},
	LeadIn:           {"l_i", "chamfer at the tube end, along the axis", quantity.KindLength, "tube.lead_in", false},
	LeadInAngle:      {"θ", "angle of the chamfer to the axis", quantity.KindAngle, "tube.lead_in_angle", true},
}

// Info says what the term is: symbol, meaning, kind of unit, key, and how it
// follows from others.
func (t Term) Info() TermInfo {
	l, d := &terms[t], &derivations[t]
	return TermInfo{l.Symbol, l.Meaning, l.Kind, l.Key, l.Derived, d.from, d.uses, d.told}
}

// An End says which end of a tolerance a formula takes of a term. Its value
// is also the index of that number in a [Span].
type End uint8

// The ends. Only is for what has no tolerance, and for nominal sizes; Either
// tries both and keeps the worse.
const (
	Only End = iota
	Least
	Greatest
	Either
)

// Span is the range of one term in SI: its nominal, least and greatest value,
// in the order of [Only], [Least] and [Greatest].
type Span [3]float64

// Exactly returns the span of a value without tolerance, in SI.
func Exactly(x float64) Span { return Span{x, x, x} }

// A Symbol is a term as a formula uses it: at one end of its tolerance.
type Symbol struct {
	Term Term
	End  End
}

// At returns the term as a formula takes it at one end of its tolerance.
func (t Term) At(e End) Symbol { return Symbol{Term: t, End: e} }

// Name returns the symbol as the formula prints it: "t_min", "D_b,max", "N".
func (s Symbol) Name() string {
	info := terms[s.Term]
	suffix := ""
	switch s.End {
	case Least:
		suffix = "min"
	case Greatest:
		suffix = "max"
	case Only, Either:
	}
	switch {
	case suffix == "" || info.Derived:
		return info.Symbol
	case strings.Contains(info.Symbol, "_"):
		return info.Symbol + "," + suffix
	default:
		return info.Symbol + "_" + suffix
	}
}
