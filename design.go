package casewright

import (
	"fmt"
	"math"
	"reflect"
	"slices"
	"strconv"
	"strings"

	"github.com/shopspring/decimal"

	"casewright/casing"
	"casewright/closure"
	"casewright/fastener"
	"casewright/materials"
	"casewright/quantity"
	"casewright/seal"
)

// A Design is a motor as its design file describes it: exact dimensions, each
// with its key and its line.
type Design struct {
	File   string
	SHA256 [32]byte

	Name     Text
	Pressure Amount // maximum expected operating pressure, gauge
	BurnTime Amount
	PeakTime Amount // of the pressure, after ignition

	Yield, Ultimate, Fitting Amount // factors of safety, at least 1

	Limits    []Limit
	Tube      Tube
	Ends      []End
	Materials []*materials.Material // of the design file's own
	Measured  []Measurement
	Heat      Heat

	// Drawn is the design before its measurements took the place of its
	// dimensions; nil where they have not.
	Drawn *Design

	// Open says that keys may be missing. The checks that need them are left
	// out of its motor; those that stand are as in the whole design. A key that
	// a whole design may leave out counts as left out.
	Open bool
}

// A Limit is another limit for a check, by the check's id.
type Limit struct {
	ID string
	Amount
}

// A Measurement is a dimension as it was measured on the part. Its tolerance is
// the uncertainty of the gauge and the range found round and along the part
// together; its place is that of the entry in [measured].
type Measurement struct {
	Part int    // 0 the tube, then the ends
	Key  string // as in "end.screws.edge"
	Dimension
}

// Tube is the tube; two of its three sizes are set.
type Tube struct {
	Outside, Inside, Wall, Variation Dimension
	Length, LeadIn                   Dimension
	LeadInAngle                      Amount
	Material                         Material
	Temperature                      Amount
	Place
}

// End is a bulkhead or a nozzle with its seal and its screws.
type End struct {
	Name, Kind      Text // kind: bulkhead or nozzle
	Material        Material
	Outside, Length Dimension
	Plate, Port     Dimension // of a bulkhead
	PortThread      PipeThread
	PortDepth       Dimension // of the thread's hole, where it does not go through
	Insert          Dimension // outside diameter of a nozzle's insert
	LipDiameter     Dimension
	Lip             Dimension
	OnePiece        Flag
	Temperature     Amount
	Seal            Seal
	Screws          Screws
	Heat            EndHeat
	Place
}

// Seal is the O-ring and its groove; Count of them, all equal.
type Seal struct {
	Ring            Ring // of a standard; else Section and Inside are given
	Section, Inside Dimension
	Compound        Compound
	Hardness, Count Count
	GrooveDiameter  Dimension
	GrooveWidth     Dimension
	GrooveFromFace  Dimension
	GrooveSpacing   Dimension
	Place
}

// Screws is the row of radial screws that holds an end.
type Screws struct {
	Thread     Thread
	Class      Class
	Count      Count
	Hole, Edge Dimension
	FromFace   Dimension
	Engagement Dimension
	Drilled    Dimension // the holes under the threads, to the point of the drill
	InShear    Flag      // threads cross the shear plane
	Share      Amount
	Position   Dimension // of the holes in tube and end alike, as a diameter
	Angle      Amount    // of the first hole from the line along the tube
	Torque     Amount
	Friction   Amount // least, in thread and under head
	EdgeBreak  Dimension
	Head       Text
	HeadDepth  Dimension
	Washer     Washer // under the heads
	Place
}

// Place is where a value stands in the design file. Line and Column count
// from 1, the column in runes; both are 0 where the file does not give it.
type Place struct {
	Key          string // as in "end.screws.edge"
	Line, Column int
}

// The values of a design, each with its place.
type (
	// Dimension is a length with its tolerance.
	Dimension struct {
		quantity.Dimension
		Place
	}
	// Amount is a number with its unit.
	Amount struct {
		quantity.Amount
		Place
	}
	// Text is a name or a choice.
	Text struct {
		Value string
		Place
	}
	// Count is a whole number.
	Count struct {
		Value int
		Place
	}
	// Flag is true or false.
	Flag struct {
		Value bool
		Place
	}
	// Material is a material of the table or of the file's own.
	Material struct {
		*materials.Material
		Place
	}
	// Thread is a screw thread.
	Thread struct {
		fastener.Thread
		Place
	}
	// Class is the strength class of a screw.
	Class struct {
		fastener.Class
		Place
	}
	// Ring is an O-ring size.
	Ring struct {
		seal.Ring
		Place
	}
	// PipeThread is a taper pipe thread.
	PipeThread struct {
		closure.PipeThread
		Place
	}
	// Washer is what the washers under screw heads are made of.
	Washer struct {
		*materials.Washer
		Place
	}
	// Compound is the rubber of an O-ring.
	Compound struct {
		seal.Compound
		Place
	}
)

// A Key is one key of a design file.
type Key struct {
	Path     string // as in "end.screws.edge"
	Meaning  string // in a few words
	Sample   string // a value as one would write it
	Default  string // what counts where the key is not given, as one would write it; empty where nothing does, or what follows from others
	Required bool
	Kind     quantity.Kind // of an amount

	options     []string // of a choice
	zero        bool     // a dimension that may be 0
	least, most string   // bounds of an amount, inclusive, as written; empty for none
	from, to    int      // bounds of a whole number
	field       func(*Design, *End) any
}

// Name returns the last part of the path, as it is written in its table.
func (k *Key) Name() string { return k.Path[strings.LastIndexByte(k.Path, '.')+1:] }

// Table returns the path without the name, as in "end.screws".
func (k *Key) Table() string { return k.Path[:strings.LastIndexByte(k.Path, '.')] }

// Options returns the words that the key takes, as they are written, be it in
// place of an amount; nil where it takes none.
func (k *Key) Options() []string { return slices.Clone(k.options) }

// Bounds returns the least and the greatest amount that the key takes, both
// included, as written; empty where it takes no amount.
func (k *Key) Bounds() (least, most string) { return k.least, k.most }

// Whole returns the least and the greatest whole number that the key takes; 0
// where it takes none.
func (k *Key) Whole() (from, to int) { return k.from, k.to }

// Names returns the names that the value is chosen from, as they are written,
// those of a design's own materials among them; nil where it is not chosen by
// its name.
func (k *Key) Names(d *Design) []string {
	if field, ok := k.Field(d, 0).(chooser); ok {
		return field.names(d)
	}
	return nil
}

// MayBeWanted tells whether the value may be [Wanted] in an open design.
func (k *Key) MayBeWanted() bool {
	switch k.Field(&Design{}, 0).(type) {
	case *Flag, *Amount, *Text:
		return false
	}
	return true
}

// Keys returns all keys of a design file but those of [[material]] and
// [limits], in the order in which a file is best written.
func Keys() []*Key { return keys }

const (
	coldest = "-100 °C"
	hottest = "1000 °C"
)

var keys = append(sizeKeys, heatKeys...)

var sizeKeys = []*Key{
	{Path: "motor.name", Meaning: "what you call it", Sample: `"Basalt 64"`, Required: true, field: func(d *Design, _ *End) any { return &d.Name }},
	{Path: "motor.pressure", Meaning: "maximum expected operating pressure, gauge", Sample: `"4.5 MPa"`, Required: true, Kind: quantity.KindPressure, least: "1 Pa", most: "1 GPa", field: func(d *Design, _ *End) any { return &d.Pressure }},
	{Path: "motor.burn_time", Meaning: "how long it burns, for [heat]", Sample: `"2.5 s"`, Kind: quantity.KindTime, least: "0.01 s", most: "600 s", field: func(d *Design, _ *End) any { return &d.BurnTime }},
	{Path: "motor.peak_time", Meaning: "when the pressure is highest, after ignition; burnout unless given", Sample: `"0.4 s"`, Kind: quantity.KindTime, least: "0 s", most: "600 s", field: func(d *Design, _ *End) any { return &d.PeakTime }},

	{Path: "factors.yield", Meaning: "factor of safety on yield", Sample: `"1.5"`, Default: `"1.5"`, least: "1", most: "100", field: func(d *Design, _ *End) any { return &d.Yield }},
	{Path: "factors.ultimate", Meaning: "factor of safety on ultimate strength", Sample: `"2.0"`, Default: `"2.0"`, least: "1", most: "100", field: func(d *Design, _ *End) any { return &d.Ultimate }},
	{Path: "factors.fitting", Meaning: "factor on loads through a joint", Sample: `"1.15"`, Default: `"1.15"`, least: "1", most: "100", field: func(d *Design, _ *End) any { return &d.Fitting }},

	{Path: "tube.outside_diameter", Meaning: "outside diameter of the tube", Sample: `"63.5 mm"`, field: func(d *Design, _ *End) any { return &d.Tube.Outside }},
	{Path: "tube.inside_diameter", Meaning: "bore of the tube", Sample: `"57.10 ±0.03 mm"`, field: func(d *Design, _ *End) any { return &d.Tube.Inside }},
	{Path: "tube.wall", Meaning: "wall of the tube", Sample: `"3.20 ±0.15 mm"`, field: func(d *Design, _ *End) any { return &d.Tube.Wall }},
	{Path: "tube.wall_variation", Meaning: "thickest less thinnest wall round the section", Sample: `"0.2 mm"`, zero: true, field: func(d *Design, _ *End) any { return &d.Tube.Variation }},
	{Path: "tube.length", Meaning: "length of the tube", Sample: `"420 ±0.5 mm"`, Required: true, field: func(d *Design, _ *End) any { return &d.Tube.Length }},
	{Path: "tube.material", Meaning: "material and form of the tube", Sample: `"6061-T6 drawn tube"`, Required: true, field: func(d *Design, _ *End) any { return &d.Tube.Material }},
	{Path: "tube.temperature", Meaning: "of the wall at peak pressure", Sample: `"90 °C"`, Kind: quantity.KindTemperature, least: coldest, most: hottest, field: func(d *Design, _ *End) any { return &d.Tube.Temperature }},
	{Path: "tube.lead_in", Meaning: "chamfer at the tube ends, along the axis", Sample: `"3 mm"`, field: func(d *Design, _ *End) any { return &d.Tube.LeadIn }},
	{Path: "tube.lead_in_angle", Meaning: "of the chamfer to the axis", Sample: `"15°"`, Default: `"15°"`, Kind: quantity.KindAngle, least: "1°", most: "60°", field: func(d *Design, _ *End) any { return &d.Tube.LeadInAngle }},

	{Path: "end.name", Meaning: "what you call the end", Sample: `"bulkhead"`, Required: true, field: func(_ *Design, e *End) any { return &e.Name }},
	{Path: "end.kind", Meaning: "bulkhead or nozzle", Sample: `"bulkhead"`, Required: true, options: []string{"bulkhead", "nozzle"}, field: func(_ *Design, e *End) any { return &e.Kind }},
	{Path: "end.material", Meaning: "material and form of the end", Sample: `"6061-T6 bar"`, Required: true, field: func(_ *Design, e *End) any { return &e.Material }},
	{Path: "end.outside_diameter", Meaning: "where the end fits the bore", Sample: `"57.00 +0/-0.05 mm"`, Required: true, field: func(_ *Design, e *End) any { return &e.Outside }},
	{Path: "end.length", Meaning: "length of the end", Sample: `"34 mm"`, Required: true, field: func(_ *Design, e *End) any { return &e.Length }},
	{Path: "end.plate", Meaning: "thinnest section under pressure", Sample: `"12 mm"`, field: func(_ *Design, e *End) any { return &e.Plate }},
	{Path: "end.port", Meaning: "central hole in the plate; 0 mm for a solid one", Sample: `"10 mm"`, zero: true, field: func(_ *Design, e *End) any { return &e.Port }},
	{Path: "end.port_thread", Meaning: "taper pipe thread of the port, from outside", Sample: `"1/8-27 NPT"`, field: func(_ *Design, e *End) any { return &e.PortThread }},
	{Path: "end.port_depth", Meaning: "depth of that thread's hole from the outer face of the plate to the point of the drill, where it does not go through", Sample: `"14 mm"`, field: func(_ *Design, e *End) any { return &e.PortDepth }},
	{Path: "end.insert_diameter", Meaning: "outside diameter of the nozzle insert", Sample: `"38 mm"`, field: func(_ *Design, e *End) any { return &e.Insert }},
	{Path: "end.lip_diameter", Meaning: "inside diameter of the lip that holds the insert", Sample: `"32 mm"`, field: func(_ *Design, e *End) any { return &e.LipDiameter }},
	{Path: "end.lip", Meaning: "thickness of that lip, along the axis", Sample: `"6 mm"`, field: func(_ *Design, e *End) any { return &e.Lip }},
	{Path: "end.one_piece", Meaning: "the nozzle has no separate insert", Sample: `true`, Default: `false`, field: func(_ *Design, e *End) any { return &e.OnePiece }},
	{Path: "end.temperature", Meaning: "of the end at peak pressure", Sample: `"60 °C"`, Kind: quantity.KindTemperature, least: coldest, most: hottest, field: func(_ *Design, e *End) any { return &e.Temperature }},

	{Path: "end.seal.size", Meaning: "O-ring size", Sample: `"AS568-137"`, field: func(_ *Design, e *End) any { return &e.Seal.Ring }},
	{Path: "end.seal.section", Meaning: "section of the O-ring, where no size is given", Sample: `"2.62 ±0.08 mm"`, field: func(_ *Design, e *End) any { return &e.Seal.Section }},
	{Path: "end.seal.inside_diameter", Meaning: "inside diameter of the O-ring, where no size is given", Sample: `"52.07 ±0.43 mm"`, field: func(_ *Design, e *End) any { return &e.Seal.Inside }},
	{Path: "end.seal.compound", Meaning: "rubber of the O-ring", Sample: `"FKM"`, Required: true, field: func(_ *Design, e *End) any { return &e.Seal.Compound }},
	{Path: "end.seal.hardness", Meaning: "Shore A", Sample: `75`, Required: true, from: 1, to: 100, field: func(_ *Design, e *End) any { return &e.Seal.Hardness }},
	{Path: "end.seal.count", Meaning: "equal grooves", Sample: `2`, Default: `1`, from: 1, to: 8, field: func(_ *Design, e *End) any { return &e.Seal.Count }},
	{Path: "end.seal.groove_diameter", Meaning: "diameter at the bottom of the groove", Sample: `"53.10 ±0.03 mm"`, Required: true, field: func(_ *Design, e *End) any { return &e.Seal.GrooveDiameter }},
	{Path: "end.seal.groove_width", Meaning: "width of the groove", Sample: `"3.60 +0.15/-0 mm"`, Required: true, field: func(_ *Design, e *End) any { return &e.Seal.GrooveWidth }},
	{Path: "end.seal.groove_from_face", Meaning: "pressure face to the near wall of the first groove", Sample: `"4 mm"`, Required: true, field: func(_ *Design, e *End) any { return &e.Seal.GrooveFromFace }},
	{Path: "end.seal.groove_spacing", Meaning: "near wall to near wall", Sample: `"6 mm"`, field: func(_ *Design, e *End) any { return &e.Seal.GrooveSpacing }},

	{Path: "end.screws.thread", Meaning: "thread of the screws", Sample: `"M5x0.8"`, Required: true, field: func(_ *Design, e *End) any { return &e.Screws.Thread }},
	{Path: "end.screws.class", Meaning: "strength class of the screws", Sample: `"12.9"`, Required: true, field: func(_ *Design, e *End) any { return &e.Screws.Class }},
	{Path: "end.screws.count", Meaning: "screws in the row", Sample: `8`, Required: true, from: 1, to: 200, field: func(_ *Design, e *End) any { return &e.Screws.Count }},
	{Path: "end.screws.hole", Meaning: "clearance hole in the tube", Sample: `"5.5 ±0.1 mm"`, Required: true, field: func(_ *Design, e *End) any { return &e.Screws.Hole }},
	{Path: "end.screws.edge", Meaning: "hole centre to the end of the tube", Sample: `"14 ±0.2 mm"`, Required: true, field: func(_ *Design, e *End) any { return &e.Screws.Edge }},
	{Path: "end.screws.from_face", Meaning: "hole centre to the pressure face of the end", Sample: `"20 mm"`, Required: true, field: func(_ *Design, e *End) any { return &e.Screws.FromFace }},
	{Path: "end.screws.engagement", Meaning: "thread depth in the end", Sample: `"9 mm"`, Required: true, field: func(_ *Design, e *End) any { return &e.Screws.Engagement }},
	{Path: "end.screws.drilled", Meaning: "depth of the holes under the threads, to the point of the drill; 0.7 screw diameters more than engagement unless given", Sample: `"12 mm"`, field: func(_ *Design, e *End) any { return &e.Screws.Drilled }},
	{Path: "end.screws.threads_in_shear", Meaning: "threads cross the shear plane", Sample: `true`, Default: `true`, field: func(_ *Design, e *End) any { return &e.Screws.InShear }},
	{Path: "end.screws.share", Meaning: "load of the hardest-loaded screw over the mean", Sample: `"1.0"`, Default: `"1"`, least: "1", most: "100", field: func(_ *Design, e *End) any { return &e.Screws.Share }},
	{Path: "end.screws.position", Meaning: "position tolerance of the holes, as a diameter, in tube and end alike", Sample: `"0.2 mm"`, field: func(_ *Design, e *End) any { return &e.Screws.Position }},
	{Path: "end.screws.angle", Meaning: "first hole from the line drawn along the tube, to the right with the first end up", Sample: `"22.5°"`, Kind: quantity.KindAngle, least: "0°", most: "360°", field: func(_ *Design, e *End) any { return &e.Screws.Angle }},
	{Path: "end.screws.torque", Meaning: "with which the screws are tightened", Sample: `"4 N m"`, Kind: quantity.KindTorque, least: "0.001 N m", most: "1000 N m", field: func(_ *Design, e *End) any { return &e.Screws.Torque }},
	{Path: "end.screws.friction", Meaning: "least friction in thread and under head; 0.08 unless given", Sample: `"0.10"`, Default: `"0.08"`, least: "0.03", most: "0.5", field: func(_ *Design, e *End) any { return &e.Screws.Friction }},
	{Path: "end.screws.edge_break", Meaning: "inside edges of the holes broken", Sample: `"0.3 mm"`, field: func(_ *Design, e *End) any { return &e.Screws.EdgeBreak }},
	{Path: "end.screws.head", Meaning: "head of the screws", Sample: `"cap"`, options: []string{"cap", "button", "countersunk"}, field: func(_ *Design, e *End) any { return &e.Screws.Head }},
	{Path: "end.screws.head_depth", Meaning: "depth of the countersink", Sample: `"1.5 mm"`, field: func(_ *Design, e *End) any { return &e.Screws.HeadDepth }},
	{Path: "end.screws.washer", Meaning: "what washers under the heads are made of", Sample: `"PA 66"`, field: func(_ *Design, e *End) any { return &e.Screws.Washer }},
}

const room = 293.15 // K, 20 °C

// kelvin is a temperature of the design, 20 °C where it is not given.
func (a Amount) kelvin() quantity.Temperature {
	if !a.IsSet() {
		return room
	}
	return quantity.Temperature(a.SI())
}

// metres is a size at nominal, least and greatest, as a float64.
func (d Dimension) metres() [3]float64 {
	if !d.IsSet() {
		return [3]float64{math.NaN(), math.NaN(), math.NaN()}
	}
	return [3]float64{d.Nominal().InexactFloat64(), d.Least().InexactFloat64(), d.Greatest().InexactFloat64()}
}

// A chooser is a value that is chosen from a table by its name.
type chooser interface {
	// choose takes the entry of that name; names tells those that there are.
	choose(name string, d *Design, at Place) bool
	names(d *Design) []string
	// alike tells whether a name may be meant by one that is spelt nearly so.
	alike(name, spelt string) bool
	// orElse says what else may be done; it follows the name to write.
	orElse() string
}

func (m *Material) choose(name string, d *Design, at Place) bool {
	for _, own := range d.Materials {
		if strings.EqualFold(oneSpaced(own.Name), oneSpaced(name)) {
			*m = Material{own, at}
			return true
		}
	}
	found, ok := materials.Lookup(name)
	*m = Material{found, at}
	return ok
}

// oneSpaced is a name with single blanks inside and none around.
func oneSpaced(name string) string { return strings.Join(strings.Fields(name), " ") }

func (*Material) names(d *Design) []string {
	list := materials.Names()
	for _, own := range d.Materials {
		list = append(list, own.Name)
	}
	return list
}

func (*Material) alike(_, _ string) bool { return true }

func (*Material) orElse() string {
	return "; casewright materials lists them, and [[material]] describes your own"
}

func (t *Thread) choose(name string, _ *Design, at Place) bool {
	found, ok := fastener.LookupThread(name)
	*t = Thread{found, at}
	return ok
}

func (*Thread) names(*Design) []string { return fastener.ThreadNames() }

// alike holds where the diameter is the same: another is another screw.
func (*Thread) alike(name, spelt string) bool {
	diameter := func(s string) string {
		s = strings.TrimPrefix(strings.ToLower(strings.TrimSpace(s)), "#")
		return strings.TrimSpace(s[:len(s)-len(strings.TrimLeft(s, "m0123456789/. "))])
	}
	return diameter(name) == diameter(spelt)
}

func (*Thread) orElse() string { return "; casewright materials tells how threads are written" }

func (c *Class) choose(name string, _ *Design, at Place) bool {
	found, ok := fastener.LookupClass(name)
	*c = Class{found, at}
	return ok
}

func (*Class) names(*Design) []string { return fastener.ClassNames() }

func (*Class) alike(_, _ string) bool { return true }

func (*Class) orElse() string { return "" }

func (r *Ring) choose(name string, _ *Design, at Place) bool {
	found, ok := seal.LookupRing(name)
	*r = Ring{found, at}
	return ok
}

func (*Ring) names(*Design) []string { return seal.RingNames() }

// alike holds for the same dash number only: another number is another ring.
func (*Ring) alike(name, spelt string) bool {
	number := func(s string) string { return s[len(strings.TrimRight(s, "0123456789")):] }
	return number(name) == number(spelt)
}

func (*Ring) orElse() string { return ", or give section and inside_diameter" }

func (t *PipeThread) choose(name string, _ *Design, at Place) bool {
	found, ok := closure.LookupPipeThread(name)
	*t = PipeThread{found, at}
	return ok
}

func (*PipeThread) names(*Design) []string { return closure.PipeThreadNames() }

// alike holds for the same size only: another is another fitting.
func (*PipeThread) alike(name, spelt string) bool {
	size := func(s string) string {
		s = strings.TrimSpace(strings.TrimPrefix(strings.ToLower(strings.TrimSpace(s)), "npt"))
		return s[:len(s)-len(strings.TrimLeft(s, "0123456789/"))]
	}
	return size(name) == size(spelt)
}

func (*PipeThread) orElse() string { return "" }

func (w *Washer) choose(name string, _ *Design, at Place) bool {
	found, ok := materials.LookupWasher(name)
	*w = Washer{found, at}
	return ok
}

func (*Washer) names(*Design) []string { return materials.WasherNames() }

func (*Washer) alike(_, _ string) bool { return true }

func (*Washer) orElse() string { return "" }

func (c *Compound) choose(name string, _ *Design, at Place) bool {
	found, ok := seal.LookupCompound(name)
	*c = Compound{found, at}
	return ok
}

func (*Compound) names(*Design) []string { return seal.CompoundNames() }

func (*Compound) alike(_, _ string) bool { return true }

func (*Compound) orElse() string { return "" }

// given tells whether the file gives the value, be it right or wrong.
func (p Place) given() bool { return p.Key != "" }

// mark notes that the file gives a value that cannot be used, so that it is
// not told as missing too.
func mark(field any, at Place) {
	switch f := field.(type) {
	case *Dimension:
		f.Place = at
	case *Amount:
		f.Place = at
	case *Text:
		f.Place = at
	case *Count:
		f.Place = at
	case *Flag:
		f.Place = at
	case *Material:
		f.Place = at
	case *Thread:
		f.Place = at
	case *Class:
		f.Place = at
	case *Ring:
		f.Place = at
	case *Compound:
		f.Place = at
	case *PipeThread:
		f.Place = at
	case *Film:
		f.Place = at
	case *Insulation:
		f.Place = at
	case *Washer:
		f.Place = at
	}
}

// Faults returns what is missing in a design whose values have been set or
// changed, what does not go together, and what cannot be built at nominal
// sizes; nil if nothing is. The error is an [Errors].
func (d *Design) Faults() error {
	var list Errors
	d.complete(func(at Place, message, write string) {
		list = append(list, &Error{File: d.File, Line: at.Line, Column: at.Column, Key: at.Key, Message: message, Write: write})
	})
	if list == nil {
		return nil
	}
	return list
}

// Clone returns a copy of which the values may be changed.
func (d *Design) Clone() *Design {
	c := *d
	c.Ends, c.Limits, c.Measured = slices.Clone(d.Ends), slices.Clone(d.Limits), slices.Clone(d.Measured)
	c.Heat.Layers, c.Heat.Maxima = slices.Clone(d.Heat.Layers), slices.Clone(d.Heat.Maxima)
	return &c
}

// AsBuilt returns a copy in which what was measured stands in place of the
// drawing's dimensions and tolerances, each at the line of its measurement.
// The error is an [Errors], as from [Design.Faults] where the motor cannot be
// built of these sizes; it is one too where nothing is measured.
func (d *Design) AsBuilt() (*Design, error) {
	if len(d.Measured) == 0 {
		return nil, Errors{{File: d.File, Key: "measured", Message: "nothing is measured: there is no motor as built", Write: "what you have measured below [measured], as in " + sampleMeasurement}}
	}
	c := d.Clone()
	if c.Drawn == nil {
		c.Drawn = d
	}
	for _, m := range d.Measured {
		field := FindKey(m.Key).Field(c, m.Part).(*Dimension)
		*field = Dimension{m.Dimension.Dimension, Place{Key: m.Key, Line: m.Line, Column: m.Column}}
	}
	if err := c.Faults(); err != nil {
		return nil, err
	}
	return c, nil
}

// IsMade tells whether the design is of a motor as built in which a key of a
// part, 0 the tube and then the ends, was measured.
func (d *Design) IsMade(part int, key string) bool {
	return d.Drawn != nil && slices.ContainsFunc(d.Measured, func(m Measurement) bool { return m.Part == part && m.Key == key })
}

// measuredName is the name that a key of a part has in [measured].
func (d *Design) measuredName(part int, path string) string {
	_, key, _ := strings.Cut(path, ".")
	return d.partName(part) + "." + key
}

// Field returns the value of the key in a part of a design, 0 the tube and
// then the ends: a pointer to a [Dimension], [Amount], [Text], [Count], [Flag],
// [Material], [Thread], [Class], [Ring], [Compound], [PipeThread], [Film],
// [Insulation] or [Washer]. Keys of a layer have the last one.
func (k *Key) Field(d *Design, part int) any {
	switch {
	case part > 0:
		return k.field(d, &d.Ends[part-1])
	case strings.HasPrefix(k.Path, "end."):
		return k.field(d, &End{})
	}
	return k.field(d, nil)
}

// Text returns the value of the key in a part of a design as a design file has
// it, but without quotes; empty where it is not set.
func (k *Key) Text(d *Design, part int) string {
	switch f := k.Field(d, part).(type) {
	case *Dimension:
		return f.String()
	case *Amount:
		return f.String()
	case *Text:
		return f.Value
	case *Count:
		if f.Value > 0 {
			return strconv.Itoa(f.Value)
		}
	case *Flag:
		if f.given() {
			return strconv.FormatBool(f.Value)
		}
	case *Material:
		if f.Material != nil {
			return f.Name
		}
	case *Thread:
		return f.Name
	case *Class:
		return f.Name
	case *Ring:
		return f.Name
	case *Compound:
		return f.Name
	case *PipeThread:
		return f.Name
	case *Insulation:
		return f.Name
	case *Washer:
		if f.Washer != nil {
			return f.Name
		}
	case *Film:
		if f.Named != "" {
			return f.Named
		}
		return f.String()
	}
	return ""
}

// Clear takes the value of a key out of a part of a design, as if the file did
// not give it.
func (d *Design) Clear(path string, part int) {
	field := reflect.ValueOf(FindKey(path).Field(d, part)).Elem()
	field.SetZero()
}

// Choices returns the values that the key may have in a design where they can
// be told one by one: names of a table, the design's own materials among them,
// a few words, or true and false; nil for a size, an amount, a number or a free
// text. The design may be nil.
func (k *Key) Choices(d *Design) []string {
	if d == nil {
		d = new(Design)
	}
	switch f := k.field(d, new(End)).(type) {
	case chooser:
		return f.names(d)
	case *Flag:
		return []string{"true", "false"}
	}
	return slices.Clone(k.options)
}

// FindKey returns the key of a path, as in "end.screws.edge"; nil if there is
// none.
func FindKey(path string) *Key {
	for _, k := range keys {
		if k.Path == path {
			return k
		}
	}
	return nil
}

// A failing tells of a fault of the design, as (*reader).fail does.
type failing func(at Place, message, write string)

// complete tells of what is missing, of what does not go together, and of what
// cannot be built at nominal sizes. What is faulty already is passed over.
func (d *Design) complete(fail failing) {
	sound := d.completeTube(fail)
	for i := range d.Ends {
		d.Ends[i].complete(d, sound, fail)
	}
	d.completeHeat(fail)
	if len(d.Ends) != 2 || !d.Tube.Length.IsSet() {
		return
	}
	both := decimal.Zero
	for _, e := range d.Ends {
		if !e.Screws.Edge.IsSet() || !e.Screws.FromFace.IsSet() {
			return
		}
		both = both.Add(e.Screws.Edge.Nominal()).Add(e.Screws.FromFace.Nominal())
	}
	if both.Cmp(d.Tube.Length.Nominal()) >= 0 {
		fail(d.Tube.Length.Place, "[tube]: the two ends meet inside the tube: edge and from_face of both are not below its length", "a longer tube")
	}
}

var (
	half = decimal.RequireFromString("0.5")
	two  = decimal.NewFromInt(2)
)

// completeTube tells whether wall and bore can be relied on.
func (d *Design) completeTube(fail failing) bool {
	t := &d.Tube
	var given []string
	sound := true
	for i, size := range []Dimension{t.Outside, t.Inside, t.Wall} {
		if size.given() || size.IsSet() {
			given = append(given, []string{"outside_diameter", "inside_diameter", "wall"}[i])
			sound = sound && size.IsSet()
		}
	}
	if len(given) != 2 {
		have := "none is given"
		if len(given) > 0 {
			have = "given: " + strings.Join(given, ", ")
		}
		if (t.given() || len(given) > 0) && (!d.Open || len(given) > 2) {
			fail(Place{Key: "tube.wall", Line: t.Line, Column: t.Column}, "[tube]: a tube has two of outside_diameter, inside_diameter and wall; "+have, "exactly two of them")
		}
		return false
	}
	if t.LeadInAngle.given() && !t.LeadIn.given() && !d.Open {
		fail(t.LeadInAngle.Place, "[tube]: lead_in_angle goes with lead_in", `lead_in = "3 mm"`)
	}
	if t.Variation.given() && t.Wall.given() {
		fail(t.Variation.Place, "[tube]: wall_variation goes with the two diameters; a wall has its own tolerance", "the least wall into the tolerance of wall")
		return false
	}
	if !sound {
		return false
	}
	geometry, err := t.sizes().Geometry(t.drawn())
	if err != nil {
		fail(t.Place, "[tube]: "+err.Error(), "")
		return false
	}
	wall, bore := geometry.Wall[0], geometry.Bore[0]
	switch {
	case wall.Sign() <= 0:
		fail(t.Inside.Place, "[tube]: the bore is not below the outside diameter", "a smaller inside_diameter")
	case bore.Sign() <= 0:
		fail(t.Wall.Place, "[tube]: the walls leave no bore", "a thinner wall")
	case t.Variation.IsSet() && t.Variation.Nominal().Cmp(wall.Mul(two)) >= 0:
		fail(t.Variation.Place, "[tube]: wall_variation leaves no wall", "what the thickest wall round the section has more than the thinnest")
	case t.LeadIn.IsSet() && t.LeadIn.Nominal().InexactFloat64()*math.Tan(t.leadInAngle()) >= wall.InexactFloat64():
		most := wall.InexactFloat64() / math.Tan(t.leadInAngle()) * 1e3
		fail(t.LeadIn.Place, "[tube]: the lead-in is deeper than the wall", fmt.Sprintf("a lead_in below %.1f mm", math.Floor(most*10)/10))
	case t.LeadIn.IsSet() && t.Length.IsSet() && t.LeadIn.Nominal().Cmp(t.Length.Nominal().Mul(half)) >= 0:
		fail(t.LeadIn.Place, "[tube]: the lead-ins meet", "a shorter lead_in")
	default:
		return true
	}
	return false
}

func (t *Tube) sizes() casing.Sizes {
	return casing.Sizes{Outside: t.Outside.Dimension, Inside: t.Inside.Dimension, Wall: t.Wall.Dimension, Variation: t.Variation.Dimension}
}

// Nominal returns bore and wall at nominal sizes, in m; false where the tube
// has not two of its three sizes, or they leave no wall or bore.
func (t *Tube) Nominal() (bore, wall decimal.Decimal, ok bool) {
	g, err := t.sizes().Geometry(t.drawn())
	if err != nil || g.Bore[0].Sign() <= 0 || g.Wall[0].Sign() <= 0 {
		return decimal.Zero, decimal.Zero, false
	}
	return g.Bore[0], g.Wall[0], true
}

func (t *Tube) drawn() bool {
	return t.Material.Material != nil && t.Material.Form == materials.DrawnTube
}

// leadInAngle is in radians, 15° unless given.
func (t *Tube) leadInAngle() float64 {
	if !t.LeadInAngle.IsSet() {
		return float64(15 * quantity.Degree)
	}
	return t.LeadInAngle.SI()
}

// grooveEnd is the distance from the pressure face to the far wall of the
// last groove, in metres, at one end of its tolerances.
func (s *Seal) grooveEnd(size func(quantity.Dimension) decimal.Decimal) decimal.Decimal {
	end := size(s.GrooveFromFace.Dimension).Add(size(s.GrooveWidth.Dimension))
	if s.rings() > 1 {
		end = end.Add(size(s.GrooveSpacing.Dimension).Mul(decimal.NewFromInt(int64(s.rings() - 1))))
	}
	return end
}

// rings counts the rings, 1 unless given.
func (s *Seal) rings() int { return max(1, s.Count.Value) }

// section and inside are the ring's own sizes, of the standard or as given;
// unset where neither is.
func (s *Seal) section() quantity.Dimension {
	if s.Ring.Name != "" {
		return s.Ring.SectionDimension()
	}
	return s.Section.Dimension
}

func (s *Seal) inside() quantity.Dimension {
	if s.Ring.Name != "" {
		return s.Ring.InsideDimension()
	}
	return s.Inside.Dimension
}

func (e *End) complete(d *Design, tubeIsSound bool, fail failing) {
	title := fmt.Sprintf("[[end]] %q", e.Name.Value)
	missing := func(name string) {
		if d.Open {
			return
		}
		at, title := e.Place, title
		if strings.HasPrefix(name, "end.seal.") {
			if at = e.Seal.Place; !at.given() {
				return // the whole table is missing
			}
			title = fmt.Sprintf("[end.seal] of %q", e.Name.Value)
		}
		for _, k := range keys {
			if k.Path == name {
				fail(Place{Key: name, Line: at.Line, Column: at.Column}, fmt.Sprintf("%s: %q is missing (%s)", title, k.Name(), k.Meaning), k.Name()+" = "+k.Sample)
			}
		}
	}
	wrong := func(at Place, message, write string) { fail(at, title+": "+message, write) }
	e.completeKind(missing, wrong)
	e.Seal.complete(missing, wrong)
	if in := &e.Screws.InShear; !in.given() && !in.Value {
		in.Value = true
	}
	if e.Screws.Friction.given() && !e.Screws.Torque.given() && !d.Open {
		wrong(e.Screws.Friction.Place, "friction goes with torque", `torque = "4 N m", or leave friction out`)
	}
	switch head := &e.Screws.Head; {
	case head.given() && head.Value == "":
	case e.Screws.HeadDepth.given() && head.Value != "countersunk":
		wrong(e.Screws.HeadDepth.Place, "head_depth goes with a countersunk head", `head = "countersunk"`)
	case head.Value == "countersunk" && !e.Screws.HeadDepth.given():
		wrong(head.Place, "a countersunk head has a depth", `head_depth = "1.5 mm"`)
	}
	var bore, wall decimal.Decimal
	if tubeIsSound {
		// Sizes that are sound have a geometry.
		geometry, _ := d.Tube.sizes().Geometry(d.Tube.drawn())
		bore, wall = geometry.Bore[0], geometry.Wall[0]
	}
	e.fits(bore, wall, wrong)
}

func (e *End) completeKind(missing func(string), wrong failing) {
	insert := []Dimension{e.Insert, e.LipDiameter, e.Lip}
	switch e.Kind.Value {
	case "bulkhead":
		if !e.Plate.given() {
			missing("end.plate")
		}
		for _, d := range insert {
			if d.given() {
				wrong(d.Place, "a bulkhead has no nozzle insert", `kind = "nozzle", or leave `+d.Key[len("end."):]+" out")
			}
		}
		if e.OnePiece.given() {
			wrong(e.OnePiece.Place, "a bulkhead has no nozzle insert", `kind = "nozzle", or leave one_piece out`)
		}
		return
	case "nozzle":
	default:
		return
	}
	if e.PortThread.given() {
		wrong(e.PortThread.Place, "a nozzle has no plate", `kind = "bulkhead", or leave port_thread out`)
	}
	for _, d := range []Dimension{e.Plate, e.Port, e.PortDepth} {
		if d.given() {
			wrong(d.Place, "a nozzle has no plate", `kind = "bulkhead", or leave `+d.Key[len("end."):]+" out")
		}
	}
	given, sound := 0, true
	for _, d := range insert {
		if d.given() {
			given++
		}
		sound = sound && d.IsSet()
	}
	switch {
	case given > 0 && e.OnePiece.Value:
		wrong(e.OnePiece.Place, "a nozzle in one piece has no insert", "one_piece = true alone, or the three insert keys alone")
	case given == 1 || given == 2:
		for i, d := range insert {
			if !d.given() {
				missing([]string{"end.insert_diameter", "end.lip_diameter", "end.lip"}[i])
			}
		}
	case !sound:
	case e.LipDiameter.Nominal().Cmp(e.Insert.Nominal()) >= 0:
		wrong(e.LipDiameter.Place, "the lip does not reach over the insert", "a lip_diameter below insert_diameter")
	case e.Outside.IsSet() && e.Insert.Nominal().Cmp(e.Outside.Nominal()) >= 0:
		wrong(e.Insert.Place, "the insert is not narrower than the end", "a smaller insert_diameter")
	case e.Length.IsSet() && e.Lip.Nominal().Cmp(e.Length.Nominal()) >= 0:
		wrong(e.Lip.Place, "the lip is not shorter than the end", "a smaller lip")
	}
}

func (s *Seal) complete(missing func(string), wrong failing) {
	switch {
	case s.Ring.given() && (s.Section.given() || s.Inside.given()):
		wrong(s.Ring.Place, "an O-ring has a size, or section and inside_diameter, not both", "one of the two")
	case !s.Ring.given() && !s.Section.given() && !s.Inside.given():
		missing("end.seal.size")
	case !s.Ring.given() && !s.Section.given():
		missing("end.seal.section")
	case !s.Ring.given() && !s.Inside.given():
		missing("end.seal.inside_diameter")
	}
	switch {
	case s.Count.given() && s.Count.Value == 0:
	case s.rings() > 1 && !s.GrooveSpacing.given():
		missing("end.seal.groove_spacing")
	case s.rings() == 1 && s.GrooveSpacing.given():
		wrong(s.GrooveSpacing.Place, "one groove has no spacing", "count = 2, or leave groove_spacing out")
	}
}

// beyondThread is how far a screw's hole goes on beyond its thread, over the
// nominal diameter: two pitches and the point of the drill. Common practice, no
// source.
var beyondThread = decimal.New(7, -1)

// DrilledTo returns how deep the holes of the screws go into the end, to the
// point of the drill, in metres: as the design gives it, else the engagement
// and 0.7 screw diameters (common practice, no source). It is 0 where the
// design does not tell. size takes an end of a tolerance, as
// [quantity.Dimension.Greatest].
func (s *Screws) DrilledTo(size func(quantity.Dimension) decimal.Decimal) decimal.Decimal {
	switch {
	case s.Drilled.IsSet():
		return size(s.Drilled.Dimension)
	case s.Engagement.IsSet() && s.Thread.Name != "":
		return size(s.Engagement.Dimension).Add(s.Thread.Diameter.Mul(beyondThread))
	}
	return decimal.Zero
}

// tipsFit tells of screws that go deeper than the end allows: to the middle,
// into the insert, or into each other.
func (e *End) tipsFit(wrong failing) {
	w := &e.Screws
	depth := w.Engagement.Nominal()
	if depth.Sign() <= 0 || !e.Outside.IsSet() {
		return
	}
	radius := e.Outside.Nominal().Mul(half)
	switch beside := radius.Sub(e.Insert.Nominal().Mul(half)); {
	case depth.Cmp(radius) > 0:
		wrong(w.Engagement.Place, "the threads run past the middle of the end", "a smaller engagement")
		return
	case depth.Cmp(beside) > 0 && beside.Sign() > 0:
		wrong(w.Engagement.Place, "the threads run into the insert", "an engagement of at most "+inUnitOf(w.Engagement, beside))
		return
	}
	if w.Count.Value < 2 || w.Thread.Name == "" {
		return
	}
	tips := 2 * radius.Sub(depth).InexactFloat64() * math.Sin(math.Pi/float64(w.Count.Value))
	if tips < w.Thread.Diameter.InexactFloat64() {
		wrong(w.Engagement.Place, fmt.Sprintf("the tips of the %d screws meet inside the end", w.Count.Value), "a smaller engagement, or fewer screws")
	}
}

// inUnitOf is a size in metres as one would write it beside another.
func inUnitOf(d Dimension, metres decimal.Decimal) string {
	unit := quantity.NewAmount(decimal.NewFromInt(1), d.Unit()).ExactSI()
	return metres.DivRound(unit, 4).String() + " " + d.Unit().Symbol()
}

// fits tells of what cannot be built at nominal sizes. bore and wall are in
// metres, 0 where the tube is not sound.
func (e *End) fits(bore, wall decimal.Decimal, wrong failing) {
	s, w := &e.Seal, &e.Screws
	nominal := quantity.Dimension.Nominal
	// above compares two sizes; what is not known, 0, is passed over.
	above := func(a, b decimal.Decimal) bool { return a.Sign() > 0 && b.Sign() > 0 && a.Cmp(b) > 0 }
	notBelow := func(a, b decimal.Decimal) bool { return a.Sign() > 0 && b.Sign() > 0 && a.Cmp(b) >= 0 }
	outside, length, groove := e.Outside.Nominal(), e.Length.Nominal(), s.GrooveDiameter.Nominal()
	if above(outside, bore) {
		wrong(e.Outside.Place, "the end is wider than the bore", "an outside_diameter below the bore")
	}
	if above(e.Plate.Nominal(), length) {
		wrong(e.Plate.Place, "the plate is thicker than the end is long", "a thinner plate")
	}
	thread := e.PortThread.Diameter
	switch {
	case e.PortDepth.given() && !e.PortThread.given():
		wrong(e.PortDepth.Place, "port_depth goes with port_thread", `port_thread = "1/8-27 NPT", or leave port_depth out`)
	case e.PortThread.Name == "":
	case above(e.Port.Nominal(), thread):
		wrong(e.Port.Place, "the port is wider than its pipe thread", "a port of at most "+inUnitOf(e.Port, thread)+", or a larger port_thread")
	case notBelow(thread, groove):
		wrong(e.PortThread.Place, "the pipe thread reaches the groove", "a smaller port_thread")
	case notBelow(e.PortDepth.Nominal(), e.Plate.Nominal()):
		wrong(e.PortDepth.Place, "the port goes through the plate", "a port_depth below plate, or leave port_depth out")
	}
	if notBelow(e.Port.Nominal(), outside) {
		wrong(e.Port.Place, "the port is not narrower than the end", "a smaller port")
	}
	if notBelow(groove, outside) {
		wrong(s.GrooveDiameter.Place, "the groove is not below the surface of the end", "a groove_diameter below outside_diameter")
	}
	grooves := s.GrooveFromFace.IsSet() && s.GrooveWidth.IsSet() && (s.rings() == 1 || s.GrooveSpacing.IsSet())
	if grooves && above(s.grooveEnd(nominal), length) {
		wrong(s.GrooveFromFace.Place, "the last groove runs past the end", "grooves within the length of the end")
	}
	if s.rings() > 1 && notBelow(s.GrooveWidth.Nominal(), s.GrooveSpacing.Nominal()) {
		wrong(s.GrooveSpacing.Place, "the grooves overlap", "a groove_spacing above groove_width")
	}
	if section := s.section(); above(section.Nominal(), s.GrooveWidth.Nominal()) {
		wrong(s.GrooveWidth.Place, "the O-ring is wider than its groove", "a groove_width above "+inUnitOf(s.GrooveWidth, section.Nominal()))
	}
	if inside := s.inside(); above(inside.Nominal(), groove) {
		wrong(s.GrooveDiameter.Place, "the O-ring is larger than its groove and hangs loose", "a smaller O-ring, or a groove_diameter above "+inUnitOf(s.GrooveDiameter, inside.Nominal()))
	}
	if above(w.Thread.Diameter, w.Hole.Nominal()) {
		wrong(w.Hole.Place, "the hole is smaller than its screw", "a larger hole")
	}
	if above(w.Hole.Nominal().Mul(half), w.Edge.Nominal()) {
		wrong(w.Edge.Place, "the hole runs past the end of the tube", "a larger edge")
	}
	radius, from := w.Thread.Diameter.Mul(half), w.FromFace.Nominal()
	if w.FromFace.IsSet() && (above(radius, from) || above(from.Add(radius), length)) {
		wrong(w.FromFace.Place, "the screws run past the end", "a from_face within the length of the end")
	}
	if notBelow(e.Insert.Nominal(), groove) && above(outside, e.Insert.Nominal()) {
		wrong(e.Insert.Place, "the insert reaches the groove", "an insert_diameter below groove_diameter, with enough metal between")
	}
	e.tipsFit(wrong)
	if above(w.Engagement.Nominal(), w.Drilled.Nominal()) {
		wrong(w.Drilled.Place, "the threads run deeper than their holes", "drilled above engagement, with room for the tap")
	}
	if notBelow(w.EdgeBreak.Nominal(), wall) {
		wrong(w.EdgeBreak.Place, "the edge break takes the whole wall", "a smaller edge_break")
	}
	if notBelow(w.HeadDepth.Nominal(), wall) {
		wrong(w.HeadDepth.Place, "the countersink takes the whole wall", "a smaller head_depth")
	}
}
