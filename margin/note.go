package margin

// A Note is a remark that stands beside a verdict without changing it.
type Note uint8

// The notes that checks carry. Notes of the whole motor are made where the
// motor is put together.
const (
	WallVariation Note = iota
	LowElongation
	Seamless
	TypicalStrength
	RememberedStrength
	UserMaterial
	LimitChanged
	DryPins
	EdgeBelow15
	BearingEstimated
	ByAnalogy
	ClassSize
	LowScrewDuctility
	ShareRaised
	PitchBelow3
	EngagementBelow15
	TakenAsSolid
	ThickPlate
	FewScrews
	GapHot
	FillAbove85
	LooseRing
	NoLeadIn
	NoEdgeBreak
	BendingApart
	Transferred
	FrictionAssumed
	LocalYield
	NumNotes // how many there are
)

var notes = [NumNotes]struct{ id, text string }{
	WallVariation:      {"wall_variation", "no wall is given: the thinnest place is taken 5 % (drawn tube) or 10 % (other forms) of the nominal wall below what the diameters say; measure it and write tube.wall or tube.wall_variation"},
	LowElongation:      {"low_elongation", "the tube stretches less than 8 % before it breaks: it will not bulge first, and fragments fly"},
	Seamless:           {"seamless", "structural extrusion is often made over a bridge die with weld seams: ask the seller for seamless tube"},
	TypicalStrength:    {"typical_strength", "rests on a typical strength, not a minimum: half of all material is weaker; ask for a certificate"},
	RememberedStrength: {"remembered_strength", "rests on a material value from memory, not looked up in its source; compare it with a certificate"},
	UserMaterial:       {"user_material", "rests on a material given in the design file"},
	LimitChanged:       {"limit_changed", "its limit is the design file's own"},
	DryPins:            {"dry_pins", "bearing strengths are for dry pins; grease lowers them"},
	EdgeBelow15:        {"edge_below_1_5", "less than 1.5 diameters from the edge: bearing strength is taken in proportion; the handbook asks for tests"},
	BearingEstimated:   {"bearing_estimated", "no bearing strength is published for this material: it is estimated from tension after EN 1999-1-1 8.5.5"},
	ByAnalogy:          {"by_analogy", "the shear factor of this screw class is taken by analogy with EN 1993-1-8 table 3.4"},
	ClassSize:          {"class_size", "the standard of this screw class does not cover this size: its strength is taken all the same"},
	LowScrewDuctility:  {"low_screw_ductility", "a 12.9 or A574 screw has little ductility: it will not wait for the others to take their share"},
	ShareRaised:        {"share_raised", "the holes may not yield before a screw breaks: the hardest-loaded screw is taken at least 1.25 times the mean"},
	PitchBelow3:        {"pitch_below_3", "holes closer than 3 diameters: the bearing strengths are for wider rows"},
	EngagementBelow15:  {"engagement_below_1_5", "less than 1.5 diameters of thread in the end: the screw rocks on a short thread"},
	TakenAsSolid:       {"taken_as_solid", "no port is given: the plate is taken as solid"},
	ThickPlate:         {"thick_plate", "thicker than 0.3 of its span: plate theory reads over 3 % low"},
	FewScrews:          {"few_screws", "fewer than six screws: the end rests on points, not on a ring"},
	GapHot:             {"gap_hot", "gland above 71 °C (160 °F): the table of gaps is for cooler rubber"},
	FillAbove85:        {"fill_above_85", "the groove is over 85 % full when hot and swollen"},
	LooseRing:          {"loose_ring", "less than 1 % stretch: a loose ring is cut on insertion"},
	NoLeadIn:           {"no_lead_in", "no tube.lead_in is given: a square tube end cuts the ring as it goes in"},
	NoEdgeBreak:        {"no_edge_break", "the ring passes the screw holes and no edge_break is given: a burr or sharp edge there cuts rings"},
	BendingApart:       {"bending_apart", "published shear strengths, of single-lap joints, already hold part of this bending: shear and bending are two readings of one load"},
	Transferred:        {"transferred", "no position tolerance is given: holes that are drilled through each other fit in that one rotation; mark it on tube and end"},
	FrictionAssumed:    {"friction_assumed", "no friction is given: 0.08 is taken, that of oil or plain grease; paste with molybdenum sulphide or wax goes down to 0.04 and gives 1.6 times the preload"},
	LocalYield:         {"local_yield", "the wall yields a little beside the end at the first pressure and then settles"},
}

// ID returns the note's stable name in JSON.
func (n Note) ID() string { return notes[n].id }

// Text returns the note as a sentence without a full stop.
func (n Note) Text() string { return notes[n].text }

// Notes is a set of notes, small enough to be copied with every check.
type Notes uint64

// Of returns the set of the notes given.
func Of(list ...Note) Notes {
	var set Notes
	for _, n := range list {
		set |= 1 << n
	}
	return set
}

// Has tells whether the note is in the set.
func (s Notes) Has(n Note) bool { return s&(1<<n) != 0 }

// List returns the notes of the set in their fixed order.
func (s Notes) List() []Note {
	var list []Note
	for n := range NumNotes {
		if s.Has(n) {
			list = append(list, n)
		}
	}
	return list
}
