package margin

// A derivation says how a term follows from others.
type derivation struct {
	from string   // a formula in the symbols of uses; other names are explained in told
	uses []Symbol // each at the end of its tolerance that goes with the worst of the term
	told string
}

const (
	ofTube    = "table of the material, at the temperature of the tube"
	ofEnd     = "table of the material, at the temperature of the end"
	ofThread  = "table of threads"
	asWritten = "as the design file gives it"

	// How a strength in bearing is read; see materials.Material.Bearing.
	bearingRead = "table of the material at 1.5 and 2.0 diameters to the edge: linear between, in proportion to the edge down to 1.0, constant above; " +
		"where the table has none, estimated from tensile and yield strength; at the temperature of the "
	thermalStrain = "ε_t, ε_e: thermal strains of tube and end, expansion times temperature less 20 °C"
)

// derivations are how terms follow from others. A test evaluates each formula
// and compares it with the value in use.
var derivations = [NumTerms]derivation{
	Pressure:      {told: asWritten + ": the largest that is expected"},
	Wall:          {told: "as the design file gives it, or half the difference of two diameters, less half the variation of the wall at its least and more at its greatest"},
	Bore:          {told: "as the design file gives it, or the outside diameter less two walls"},
	DiameterRatio: {from: "1 + 2 t_min/D_b,max", uses: []Symbol{Wall.At(Least), Bore.At(Greatest)}},
	EndLoad:       {from: "p π/4 D_b,max²", uses: []Symbol{Pressure.At(Only), Bore.At(Greatest)}},
	Growth: {
		from: "p D_b,max/2/(E (k² − 1)) (1 − 2 ν + (1 + ν) k²)",
		uses: []Symbol{Pressure.At(Only), Bore.At(Greatest), DiameterRatio.At(Least), TubePoisson.At(Only)},
		told: "Lamé, closed ends; E: modulus of the tube at its temperature",
	},
	TubeYield:    {told: ofTube},
	TubeUltimate: {told: ofTube},
	SvenssonFactor: {
		told: "Svensson: 0.25/(n + 0.227) (e/n)^n with n the natural logarithm of 1 + uniform elongation, of the table of the material; 1 where that is unknown",
	},
	TubePoisson: {told: ofTube},
	EdgeFactor:  {told: "wall as a beam on an elastic foundation, the worst of three ways in which the end may hold it and of all corners of the tolerances"},
	HeatStress:  {told: "E α ΔT/(2 (1 − ν)) (2 k²/(k² − 1) − 1/ln k), ΔT the greatest difference of temperature through the wall that casewright heat computes, E and α of the table of the material"},
	TubeKept:    {told: "table of losses of the material, put in order by the time that counts as much at one temperature; the course of the wall's mean temperature as casewright heat computes it"},

	Share:               {told: asWritten + "; 1 where it gives none"},
	ShareBreaks:         {told: "as for yielding; at least 1.25 where joint.redistributes is below 1.2 or cannot be computed"},
	Count:               {told: asWritten},
	ScrewDiameter:       {told: ofThread},
	ShearArea:           {told: "A_s where the threads cross the shear plane, else π/4 d²"},
	ShearFactor:         {told: "EN 1993-1-8 table 3.4: 0.6 where the shank crosses the shear plane, else by the class"},
	ScrewStrength:       {told: "table of the class, times the share of its strength that is left at the hotter of tube and end"},
	BearingThickness:    {from: "t_min − b/2 − s_max/2", uses: []Symbol{Wall.At(Least), Sink.At(Greatest)}, told: "b: edge_break at its greatest, 0 where none is given"},
	Sink:                {told: asWritten + "; 0 for heads without a countersink"},
	ChamferArea:         {from: "l_i,max² tan(θ)/2", uses: []Symbol{LeadIn.At(Greatest), LeadInAngle.At(Only)}, told: "0 without a lead-in"},
	HoleBearingUltimate: {told: bearingRead + "tube"},
	HoleBearingYield:    {told: bearingRead + "tube"},
	HoleBearingGreatest: {told: bearingRead + "tube"},
	TubeShear:           {told: ofTube},
	GrooveEnd:           {told: "groove_from_face, the groove spacings and the width of a groove together"},

	Packing:      {from: "D_b,max − D_p,min + 2 u_T", uses: []Symbol{Bore.At(Greatest), EndDiameter.At(Least), HeatOpening.At(Greatest)}},
	CoreDiameter: {from: "d − 1.22687 P", uses: []Symbol{ScrewDiameter.At(Only), ThreadPitch.At(Only)}},
	ScrewYield:   {told: "table of the class, times the share of its strength that is left at the hotter of tube and end"},
	Position:     {told: asWritten},
	FirstLoad: {
		told: "slack 2 T + (h_max − h_min)/2 over the compliance of one screw, ((t + L)/(2 d))^(2/3) 3 (1/(t E_t) + 1/(L E_e) + 1/(2 t E_s) + 1/(2 L E_s)) " +
			"(Huth 1986, from memory; E_t, E_e: moduli of tube and end at their temperatures; E_s: 205 GPa), at the wall and engagement that make it stiffest",
	},
	PeakFactor: {
		told: "Peterson's chart 4.67, from memory: (12.882 − 52.714 x + 89.762 x² − 51.667 x³) x/(1 − x) with x the hole over the least arc between holes, at least 0.15; the worse of least and greatest hole",
	},
	Preload: {
		from: "M/(P/(2 π) + d_2 μ/√3 + 0.65 d μ)",
		uses: []Symbol{ThreadPitch.At(Only), PitchDiameter.At(Only), Friction.At(Only), ScrewDiameter.At(Only)},
		told: "VDI 2230, from memory; M: tightening torque",
	},
	Friction:       {told: asWritten + "; 0.08 where it gives none, of oil or plain grease"},
	ThreadPitch:    {told: ofThread},
	PitchDiameter:  {from: "d − 3 √3/8 P", uses: []Symbol{ScrewDiameter.At(Only), ThreadPitch.At(Only)}},
	StressDiameter: {from: "(d_2 + d_3)/2", uses: []Symbol{PitchDiameter.At(Only), CoreDiameter.At(Only)}},
	StressArea:     {told: "π/4 (d − 0.9382 P)²; of a unified thread 0.7854 (d − 0.9743 P)²"},
	ThreadShear:    {told: "FED-STD-H28: π/P D_s (P/2 + (D_s − E_n)/√3) with D_s the least major diameter of the screw and E_n the greatest pitch diameter of the tapped hole"},

	PortFactor:         {told: "2 with a central port, 1 without"},
	EndYield:           {told: ofEnd},
	EndUltimate:        {told: ofEnd},
	EndShear:           {told: ofEnd},
	EndPoisson:         {told: ofEnd},
	EndBearingUltimate: {told: bearingRead + "end"},
	EndBearingYield:    {told: bearingRead + "end"},
	ToGroove:           {from: "f_min − g_max", uses: []Symbol{HoleFromFace.At(Least), GrooveEnd.At(Greatest)}},
	EngagedLength:      {from: "min(l_e,min, 1.5 d)", uses: []Symbol{Engagement.At(Least), ScrewDiameter.At(Only)}},
	LandWidth:          {told: "the least of: what is between two grooves, from the last groove to the screws' edge, and from the last groove to the end of the part"},
	HeatClosing: {
		from: "max(0, ε_e D_p,max − ε_b D_b,min)", uses: []Symbol{EndDiameter.At(Greatest), Bore.At(Least)},
		told: "ε_b, ε_e: thermal strains of the tube beside the end and of the end, expansion times temperature less 20 °C",
	},
	Port:             {told: "as the design file gives it, or the outside diameter of the pipe of its thread; 0 where the plate is solid"},
	PipeThreadLength: {told: "ASME B1.20.1: (0.80 D + 6.8 in)/n with D the outside diameter of the pipe, 1/n = P"},
	PortWall: {
		from: "min(D_g,min/2, D_p,min/2 − z_d,max) − d_p/2",
		uses: []Symbol{GrooveDiameter.At(Least), EndDiameter.At(Least), Drilled.At(Greatest), Port.At(Only)},
		told: "to the groove or to the holes of the screws, whichever is nearer",
	},
	Drilled: {told: "as the design file gives it, else l_e + 0.7 d: beyond its thread a hole goes on by two pitches and the point of the drill, common practice, no source"},
	PortLength: {
		told: "the plate, or port_depth where that is less",
	},
	PortWallLimit: {told: "table of forged couplings: outside diameter less that of the pipe, halved; 1/16 takes that of 1/8"},
	PortFloor:     {told: "the plate less port_depth"},

	Section:          {told: "table of ring sizes, or as the design file gives it"},
	StretchedSection: {from: "CS_min/√(1 + max(0, (D_g,min − ID_min)/ID_min))", uses: []Symbol{Section.At(Least), GrooveDiameter.At(Least), RingInside.At(Least)}},
	RingInside:       {told: "table of ring sizes, or as the design file gives it"},
	Offset:           {from: "(D_b,max − D_p,min)/2", uses: []Symbol{Bore.At(Greatest), EndDiameter.At(Least)}},
	HeatOpening: {
		from: "max(0, (ε_t D_b,max − ε_e D_p,min)/2)", uses: []Symbol{Bore.At(Greatest), EndDiameter.At(Least)}, told: thermalStrain,
	},
	Swell:            {told: "table of compounds"},
	RubberExpansion:  {told: "table of compounds"},
	Heating:          {from: "max(0, T_g)", uses: []Symbol{GlandTemperature.At(Only)}},
	Hardness:         {told: asWritten},
	GapShare:         {told: "table of compounds: a half for silicone, else 1"},
	GapLimit:         {told: "table of the seal maker by pressure and hardness, linear between hardnesses, times c_g"},
	SqueezeLimit:     {told: "0.32 for a section of up to 1.80 mm, else 0.30"},
	GlandTemperature: {told: "the hotter of tube and end, less 20 °C"},
	CompoundLimit:    {told: "table of compounds, less 20 °C"},
	SoakGland:        {told: "as casewright heat computes it, the hotter of end and tube beside the first groove, less 20 °C"},
	EndKept:          {told: "table of losses of the material, put in order by the time that counts as much at one temperature; the course of the end's hottest metal as casewright heat computes it"},
	HotScrews:        {told: "as casewright heat computes it, the hotter of end and tube at the screws, less 20 °C"},
	WasherLimit:      {told: "table of washers, less 20 °C"},
	ColdGland:        {told: "the colder of tube and end and 20 °C, less 20 °C"},
	ColdLimit:        {told: "table of compounds, less 20 °C"},
	LeadInAngle:      {told: asWritten + "; 15° where it gives none"},
}
