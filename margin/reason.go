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
	NotANumber
	numReasons
)

var reasons = [numReasons]struct{ id, text string }{
	None:             {"", ""},
	Form:             {"form", "castings, polymers and printed parts must not hold pressure: they break without warning and vary from part to part"},
	Temperature:      {"temperature", "the material's strength is not known at this temperature"},
	MissingProperty:  {"missing_property", "the material lacks a property that this check needs"},
	Brittle:          {"brittle", "a tube that stretches less than 5 % bursts into fragments"},
	ThinSheet:        {"thin_sheet", "thinner than 0.18 of the screw: the bearing strengths do not hold for such thin sheet (MMPDS)"},
	EdgeBelow1:       {"edge_below_1", "less than one diameter from the edge: no bearing strength is published"},
	PortTooLarge:     {"port", "the port is larger than a third of the bore: the plate formula does not hold"},
	HardnessOutside:  {"hardness", "the table of gaps is for 70 to 90 Shore A"},
	PressureOutside:  {"pressure", "the table of gaps ends at 3000 psi (20.7 MPa)"},
	ScrewTemperature: {"screw_temperature", "the screws are hotter than 300 °C, colder than −40 °C, or beyond their metal's curve"},
	DeepSink:         {"sink", "the countersink is deeper than 2/3 of the wall"},
	LeadInAtHole:     {"lead_in", "the lead-in chamfer reaches the holes: the wall that should hold there is cut away"},
	ThickRing:        {"thick_ring", "the groove is less than a third of the bore: such a thick ring thins as it stretches faster than its gland closes"},
	NotANumber:       {"number", "the numbers given lead to no finite result"},
}

// ID returns the reason's stable name in JSON.
func (r Reason) ID() string { return reasons[r].id }

// Text returns the reason as a sentence without a full stop.
func (r Reason) Text() string { return reasons[r].text }
