package margin

// A Reason says why a check is refused. The zero Reason is none.
type Reason uint8

// The reasons.
const (
	None Reason = iota
	Form
	Temperature
	MissingProperty
	Brittle
	ThinSheet
	EdgeBelow1
	PortTooLarge
	HardnessOutside
	PressureOutside
	ScrewTemperature
	DeepSink
	LeadInAtHole
	ThickRing
	PinHole
	Exposure
	NotANumber
	numReasons
)

var reasons = [numReasons]struct{ id, text, write string }{
	None: {"", "", ""},
	Form: {
		"form", "castings, polymers and printed parts must not hold pressure: they break without warning and vary from part to part",
		"name a material that is a drawn or extruded tube, bar, plate, sheet or forging",
	},
	Temperature: {
		"temperature", "the material's strength is not known at this temperature",
		"give a temperature at which the material is known, or name another material: casewright materials NAME tells how hot each may be, and at of [[material]] how hot one of your own",
	},
	MissingProperty: {
		"missing_property", "the material lacks a property that this check needs",
		"give the property in [[material]], or name a material that has it: casewright materials NAME lists what is known of each",
	},
	Brittle: {
		"brittle", "a tube that stretches less than 5 % bursts into fragments",
		"name a material of at least 5 % elongation",
	},
	ThinSheet: {
		"thin_sheet", "thinner than 0.18 of the screw: the bearing strengths do not hold for such thin sheet (MMPDS)",
		"write a thicker wall, a thinner thread, or less edge_break or head_depth: the wall that they leave must be at least 0.18 of the screw",
	},
	EdgeBelow1: {
		"edge_below_1", "less than one diameter from the edge: no bearing strength is published",
		"move the screws: at the worst sizes edge must be at least one hole, and from_face at least one screw diameter past the last groove",
	},
	PortTooLarge: {
		"port", "the port is larger than 0.6 of the bore: the plate formula does not hold",
		"write a port of at most 0.6 of the least bore",
	},
	HardnessOutside: {
		"hardness", "the table of gaps is for 70 to 90 Shore A",
		"write a hardness from 70 to 90, or a limit of your own for \"seal.gap\" under [limits]",
	},
	PressureOutside: {
		"pressure", "the table of gaps ends at 3000 psi (20.7 MPa)",
		"write a pressure of at most 3000 psi (20.7 MPa), or a limit of your own for \"seal.gap\" under [limits]",
	},
	ScrewTemperature: {
		"screw_temperature", "the screws are hotter than 300 °C (572 °F), colder than −40 °C (−40 °F), or beyond their metal's curve",
		"keep tube and end within what is known of the screws, or choose another class: casewright materials CLASS gives its temperatures",
	},
	DeepSink: {
		"sink", "the countersink is deeper than 2/3 of the wall",
		"write a head_depth of at most 2/3 of the least wall, or choose a head without a countersink",
	},
	LeadInAtHole: {
		"lead_in", "the lead-in chamfer reaches the holes: the wall that should hold there is cut away",
		"write a shorter lead_in or a greater edge: the least edge − hole/2 must be at least the greatest lead_in",
	},
	ThickRing: {
		"thick_ring", "the groove is less than a third of the bore: such a thick ring thins as it stretches faster than its gland closes",
		"write a groove_diameter of at least a third of the bore, with a ring of thinner section",
	},
	PinHole: {
		"pin_hole", "the peak stress is known for holes of at most 0.75 of the distance between them, at least 1.5 holes from the tube end",
		"write fewer or smaller holes, or a greater edge: at the worst sizes edge must be at least 1.5 holes",
	},
	Exposure: {
		"exposure", "hotter than it is known how much strength the material keeps for good after cooling",
		"keep the metal cooler, or name a material that keeps its temper: casewright materials NAME tells how hot each may have been",
	},
	NotANumber: {
		"number", "the numbers given lead to no finite result",
		"look for a size that is 0 or out of all proportion",
	},
}

// ID returns the reason's stable name in JSON.
func (r Reason) ID() string { return reasons[r].id }

// Text returns the reason as a sentence without a full stop.
func (r Reason) Text() string { return reasons[r].text }

// Write returns what to do about it in the design file, as a sentence without
// a capital and a full stop.
func (r Reason) Write() string { return reasons[r].write }
