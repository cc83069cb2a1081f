package bench

import (
	"fmt"
	"strings"

	"github.com/shopspring/decimal"

	"casewright"
	"casewright/fastener"
	"casewright/materials"
	"casewright/quantity"
	"casewright/sizing"
)

// A Part is the sheet of one part, to be made or bought.
type Part struct {
	Name     string
	Number   int    // of the design: 0 the tube, then the ends; of a bought part that of its end
	Bought   bool   // a standard part or one from elsewhere
	Material string // as the table of materials or the design file names it, temper included; of a bought part its class or rubber
	Form     string // product that it is cut from, and for which sizes its strengths hold; empty of a bought part
	Quantity int
	Rows     []Row
	Notes    []string
}

// A Row is one line of a part's sheet.
type Row struct {
	What   string
	Text   string // as on a drawing: "57.00 +0/-0.05 mm"
	Key    string // of the design file, as in "end.outside_diameter"; empty where it is not of the file
	Number int    // part of the design that the key belongs to: 0 the tube, then the ends
	Kind   Kind
	Source string // of what is not of the file; empty where all of the text is
}

// A Kind says what a row is about.
type Kind string

// The kinds of rows. Choice is a thing to be bought, told by its name.
const (
	SizeRow     Kind = "size"
	ThreadRow   Kind = "thread"
	FinishRow   Kind = "finish"
	EdgeRow     Kind = "edge"
	PositionRow Kind = "position"
	ChoiceRow   Kind = "choice"
)

const (
	commonPractice = "common practice, no source"
	isoGland       = "ISO 3601-2, from memory"
	sealMakers     = "seal makers' handbooks, from memory"
)

// A feature is a dimension of the design file as the bench sees it.
type feature struct {
	key, what  string
	kind       Kind
	instrument string // common practice
}

// features are all dimensions of a design file.
var features = []feature{
	{"tube.outside_diameter", "outside diameter", SizeRow, "outside micrometer, at both ends and the middle, two directions each"},
	{"tube.inside_diameter", "bore", SizeRow, "bore gauge or inside micrometer, two directions, wherever a ring passes or rests"},
	{"tube.wall", "wall", SizeRow, "tube micrometer with a ball anvil, eight places round each end"},
	{"tube.wall_variation", "thickest less thinnest wall round a section", SizeRow, "tube micrometer with a ball anvil, eight places round each end"},
	{"tube.length", "length", SizeRow, "caliper or tape, two places"},
	{"tube.lead_in", "lead-in chamfer in the bore at both ends, along the axis", EdgeRow, "depth gauge and loupe, or a protractor on a cast"},

	{"end.outside_diameter", "outside diameter where it fits the bore", SizeRow, "outside micrometer, each side of the grooves, two directions"},
	{"end.length", "length", SizeRow, "caliper"},
	{"end.plate", "plate, at its thinnest", SizeRow, "depth gauge or micrometer with a ball end"},
	{"end.port", "central port in the plate", SizeRow, "plug gauges or small-hole gauge"},
	{"end.port_depth", "depth of the port's hole, from the outer face to the point of the drill", SizeRow, "depth gauge with a thin rod"},
	{"end.insert_diameter", "nozzle insert, outside diameter", SizeRow, "outside micrometer, two directions"},
	{"end.lip_diameter", "lip that holds the insert, inside diameter", SizeRow, "bore gauge or plug gauges"},
	{"end.lip", "lip that holds the insert, thickness along the axis", SizeRow, "micrometer or depth gauge, four places round"},

	{"end.seal.section", "section, free", SizeRow, "comparator or caliper that hardly touches, four places round"},
	{"end.seal.inside_diameter", "inside diameter, free", SizeRow, "cone gauge or comparator, never stretched"},
	{"end.seal.groove_diameter", "groove bottom diameter", SizeRow, "blade micrometer, two directions in each groove"},
	{"end.seal.groove_width", "groove width", SizeRow, "gauge blocks or the inside jaws of a caliper, each groove"},
	{"end.seal.groove_from_face", "pressure face to the near wall of the first groove", PositionRow, "depth gauge or caliper from the pressure face"},
	{"end.seal.groove_spacing", "near wall to near wall of the grooves", PositionRow, "caliper, or both walls from the pressure face"},

	{"end.screws.hole", "radial clearance holes", SizeRow, "plug gauges, each hole, two directions"},
	{"end.screws.edge", "hole centre to the end of the tube", PositionRow, "caliper from the tube end to a pin in the hole, less half the pin; each hole"},
	{"end.screws.from_face", "centre of the threaded holes to the pressure face", PositionRow, "caliper from the pressure face to a screwed-in pin, less half the pin; each hole"},
	{"end.screws.engagement", "threaded holes", ThreadRow, "thread plug gauge, turns counted, each hole"},
	{"end.screws.drilled", "holes under the threads, to the point of the drill", PositionRow, "depth gauge with a thin rod"},
	{"end.screws.position", "position tolerance of the holes", PositionRow, "pins in all holes, rotary table and dial indicator; else the matching end, tried at every rotation"},
	{"end.screws.edge_break", "edge of each hole inside the bore, broken", EdgeRow, "loupe and a cotton swab drawn over the edge"},
	{"end.screws.head_depth", "countersink", SizeRow, "depth gauge, or a screw that lies flush"},
}

// allowances are keys that are a tolerance themselves: what is found may lie
// anywhere from 0 to them.
var allowances = map[string]bool{"tube.wall_variation": true, "end.screws.position": true}

// Parts returns the sheets of all parts of a design: the tube, each end, then
// the screws and the O-rings of each end. Every dimension that the design
// gives stands in just one row, with its tolerance. A dimension without one has
// the general tolerance of ISO 2768-1, class m, beside it, which no margin
// counts with: see [sizing.General]. Keys that an open design lacks are left out.
func Parts(d *casewright.Design) []Part {
	list := []Part{tubeSheet(d)}
	for i := range d.Ends {
		list = append(list, endSheet(d, i+1))
	}
	for i := range d.Ends {
		list = append(list, screwSheet(d, i+1), ringSheet(d, i+1))
	}
	return list
}

// partSheet gathers the rows of a part.
type partSheet struct {
	Part
	design *casewright.Design
	exact  []string // sizes that the file gives without a tolerance
}

// dimension writes the row of a key of a part; around puts the size into its
// words, where it is not nil.
func (s *partSheet) dimension(number int, key string, around func(size string) string) {
	size := dimensionOf(s.design, number, key)
	if !size.IsSet() {
		return
	}
	for _, f := range features {
		if f.key != key {
			continue
		}
		text := asDrawn(size)
		if !size.HasTolerance() && !allowances[key] {
			text += " (" + s.general(size, f.kind, s.told(f.what, number)) + ")"
		}
		if around != nil {
			text = around(text)
		}
		s.Rows = append(s.Rows, Row{What: s.told(f.what, number), Text: text, Key: key, Number: number, Kind: f.kind})
	}
}

// told names a feature, with its end where it stands in the tube.
func (s *partSheet) told(what string, number int) string {
	if s.Number != number {
		return what + ", at the " + s.design.Ends[number-1].Name.Value
	}
	return what
}

// general is what holds for a size without a tolerance.
func (s *partSheet) general(size quantity.Dimension, kind Kind, what string) string {
	s.exact = append(s.exact, what)
	// Chamfers and broken edges have a table of their own, rubber a standard.
	t, ok := sizing.General(size.Nominal())
	if !ok || kind == EdgeRow || s.Bought {
		return "no tolerance given"
	}
	text := "general tolerance ISO 2768-m: ±" + t.Mul(millimetres).String() + " mm"
	if size.Unit() == inch {
		text += ", " + t.Div(metresPerInch).Truncate(3).String() + " in"
	}
	return text
}

var (
	millimetres   = decimal.NewFromInt(1000)
	metresPerInch = decimal.RequireFromString("0.0254")
)

func (s *partSheet) say(kind Kind, what, text, source string) {
	s.Rows = append(s.Rows, Row{What: what, Text: text, Number: s.Number, Kind: kind, Source: source})
}

// key writes a row of a key that is no dimension.
func (s *partSheet) key(kind Kind, what, text, key string) {
	s.Rows = append(s.Rows, Row{What: what, Text: text, Key: key, Number: s.Number, Kind: kind})
}

func (s *partSheet) note(format string, args ...any) {
	s.Notes = append(s.Notes, fmt.Sprintf(format, args...))
}

// done closes the sheet.
func (s *partSheet) done() Part {
	if s.exact != nil && !s.Bought {
		s.note("Without a tolerance of its own, and computed as exactly what it says: %s. The general tolerance is not in the margins.", strings.Join(s.exact, "; "))
	}
	return s.Part
}

// material names what a part is cut from, and where its strength is from.
func (s *partSheet) material(m *materials.Material) {
	if m == nil {
		return
	}
	s.Material, s.Form = m.Name, string(m.Form)
	if m.SizeRange != "" {
		s.Form += "; strengths hold for " + m.SizeRange
	}
	v, ok := m.Value(materials.Yield)
	if !ok {
		return
	}
	from := v.Source
	if v.Where != "" {
		from += ", " + v.Where
	}
	if m.User {
		from += "; of the design file's own"
	}
	strength := ""
	if v.Text != "" {
		strength = " " + v.Text
	}
	s.note("Ask for a certificate of alloy, temper and strength. Computed with a yield strength%s at 20 °C (%s).", strength, come(from, v.Status))
}

// come says how a source was come by.
func come(source, status string) string {
	switch {
	case status == materials.Memory:
		return source + ", from memory"
	case status == "" || strings.Contains(source, status):
		return source
	}
	return source + ", " + status
}

func tubeSheet(d *casewright.Design) Part {
	s := &partSheet{Part: Part{Name: "tube", Quantity: 1}, design: d}
	t := &d.Tube
	s.material(t.Material.Material)
	for _, key := range []string{"tube.outside_diameter", "tube.inside_diameter", "tube.wall", "tube.wall_variation", "tube.length"} {
		s.dimension(0, key, nil)
	}
	if t.Outside.IsSet() && t.Inside.IsSet() && !t.Variation.IsSet() {
		share := "20 %"
		if m := t.Material.Material; m != nil && m.Form == materials.DrawnTube {
			share = "10 %"
		}
		s.note("The wall is taken to vary by %s of its size round the section (common practice, no source): measure it.", share)
	}
	angle := "15°"
	if t.LeadInAngle.IsSet() {
		angle = t.LeadInAngle.String()
	}
	s.dimension(0, "tube.lead_in", func(size string) string { return size + " × " + angle + " to the axis" })
	if !t.LeadIn.IsSet() {
		s.note("No lead-in is given: an O-ring that meets a square tube end is cut.")
	}
	for i := range d.Ends {
		s.holes(i + 1)
	}
	s.say(FinishRow, "bore, wherever a ring passes or rests", "Ra 1.6 µm (Rz 6.3 µm) or smoother; static seal, pressure not pulsating; no scratch along the axis", isoGland)
	s.say(FinishRow, "lead-in chamfer", "Ra 3.2 µm (Rz 12.5 µm) or smoother, no tool step where it meets the bore", isoGland)
	s.say(FinishRow, "bore, where it seals gas", "makers ask gas seals for smoother: about Ra 0.8 µm (32 µin)", sealMakers)
	s.say(EdgeRow, "tube ends, outside", "break 0.1 to 0.3 mm (0.004 to 0.012 in)", commonPractice)
	s.say(EdgeRow, "inside edge of each hole: an O-ring passes it", "no burr, no raised rim, smooth to a swab", commonPractice)
	return s.done()
}

// holes are the holes that an end needs in the tube.
func (s *partSheet) holes(number int) {
	w := &s.design.Ends[number-1].Screws
	s.dimension(number, "end.screws.hole", func(size string) string { return "⌀" + size + " through one wall" + equallySpaced(w.Count.Value) })
	s.dimension(number, "end.screws.edge", nil)
	s.dimension(number, "end.screws.head_depth", func(size string) string { return sinkCallOut(w, size) })
	s.dimension(number, "end.screws.edge_break", nil)
	s.dimension(number, "end.screws.position", func(size string) string { return "⌀" + size + ", in tube and end alike" })
	if w.Angle.IsSet() {
		s.Rows = append(s.Rows, Row{
			What: "first hole, at the " + s.design.Ends[number-1].Name.Value, Text: w.Angle.String() + " from the line along the tube, to the right as one looks at its outside with the first end up",
			Key: "end.screws.angle", Number: number, Kind: PositionRow,
		})
	}
	if !w.Position.IsSet() {
		s.note("No position tolerance for the holes at the %s: mark the holes of the end through those of the tube, and mark how the two go together.", s.design.Ends[number-1].Name.Value)
	}
}

// equallySpaced tells how a row of holes stands, as after the hole's own size.
func equallySpaced(count int) string {
	if count < 2 {
		return ""
	}
	full, n := decimal.NewFromInt(360), decimal.NewFromInt(int64(count))
	angle := full.DivRound(n, 3)
	text := angle.String() + "°"
	if !angle.Mul(n).Equal(full) {
		text = "360°/" + n.String() + " (" + text + ")"
	}
	return fmt.Sprintf(", %d × equally spaced %s", count, text)
}

func endSheet(d *casewright.Design, number int) Part {
	e := &d.Ends[number-1]
	s := &partSheet{Part: Part{Name: e.Name.Value, Number: number, Quantity: 1}, design: d}
	s.material(e.Material.Material)
	for _, key := range []string{"end.outside_diameter", "end.length"} {
		s.dimension(number, key, nil)
	}
	s.body(e)
	s.grooves(e)
	w := &e.Screws
	s.dimension(number, "end.screws.engagement", func(size string) string {
		return callOut(w.Thread.Thread) + size + " full thread" + tapDrill(w.Thread.Thread) + equallySpaced(w.Count.Value)
	})
	if w.Engagement.IsSet() && w.Thread.Name != "" {
		s.Rows[len(s.Rows)-1].Source = "class and tap drill (d − P): " + commonPractice
	}
	s.drilled(w)
	s.dimension(number, "end.screws.from_face", nil)
	if w.Position.IsSet() {
		s.say(PositionRow, "threaded holes", "position as those of the tube, ⌀"+asDrawn(w.Position.Dimension)+", also where they cross the wall (projected zone)", "ASME Y14.5, from memory")
	}
	s.say(EdgeRow, "mouth of the threads", "countersunk to the thread's diameter, no raised rim", commonPractice)
	s.note("Let no threaded hole break through into a groove, an insert or the pressure face.")
	return s.done()
}

// drilled tells how deep the holes under the threads may go.
func (s *partSheet) drilled(w *casewright.Screws) {
	if w.Drilled.IsSet() {
		s.dimension(s.Number, "end.screws.drilled", nil)
		return
	}
	deepest := w.DrilledTo(quantity.Dimension.Greatest)
	if deepest.Sign() <= 0 {
		return
	}
	text := deepest.Mul(millimetres).RoundFloor(2).String() + " mm"
	if w.Engagement.Unit() == inch {
		text = deepest.Div(metresPerInch).RoundFloor(3).String() + " in"
	}
	s.say(PositionRow, "holes under the threads, to the point of the drill", "at most "+text, "engagement and 0.7 d, as computed; common practice, no source")
}

// sinkCallOut is how a drawing calls out a countersink whose depth is written as
// size: with its angle and, to set the tool by, its diameter.
func sinkCallOut(w *casewright.Screws, size string) string {
	sink := sinkOf(w)
	if sink == nil {
		return size + " deep"
	}
	across := fmt.Sprintf("%.1f mm", float64(sink.Across)*1e3)
	if w.Hole.Unit() == inch {
		across = fmt.Sprintf("%.3f in", float64(sink.Across/quantity.Inch))
	}
	return fmt.Sprintf("%s deep, %.0f°, about ⌀%s along the tube", size, sink.Angle, across)
}

// callOut is how a drawing calls out a thread, up to its depth.
func callOut(t fastener.Thread) string {
	switch {
	case t.Name == "":
		return ""
	case t.Metric:
		return t.Name + " - 6H, "
	}
	return t.Name + " - 2B, "
}

// tapDrill is the tap drill: nominal diameter less pitch, of inches up to the next
// millimetresth.
func tapDrill(t fastener.Thread) string {
	switch {
	case t.Name == "":
		return ""
	case t.Metric:
		return ", drill " + t.Diameter.Sub(t.Pitch).Mul(millimetres).String() + " mm"
	}
	size := t.Diameter.Div(metresPerInch).Sub(decimal.NewFromInt(1).DivRound(decimal.NewFromInt(int64(t.ThreadsPerInch)), 8))
	return ", drill " + size.RoundCeil(3).String() + " in"
}

// body writes what a bulkhead or a nozzle has of its own.
func (s *partSheet) body(e *casewright.End) {
	s.dimension(s.Number, "end.plate", nil)
	if e.Port.IsSet() && e.Port.Nominal().IsZero() {
		s.key(SizeRow, "central port in the plate", "none: the plate is solid", "end.port")
	} else {
		s.dimension(s.Number, "end.port", func(size string) string { return "⌀" + size })
	}
	if t := e.PortThread; t.Name != "" {
		text := t.Name + ", from outside"
		if !t.TapDrill.IsZero() {
			text += ", drill " + t.TapDrill.Div(metresPerInch).String() + " in"
		}
		s.key(ThreadRow, "thread of the port", text, "end.port_thread")
		s.Rows[len(s.Rows)-1].Source = "tap drill: " + come(t.DrillSource, t.DrillStatus)
	}
	s.dimension(s.Number, "end.port_depth", nil)
	s.dimension(s.Number, "end.insert_diameter", func(size string) string { return "⌀" + size })
	if e.Insert.IsSet() {
		s.note("The file gives the insert, not the fit of its seat: bore the seat to the measured insert.")
	}
	s.dimension(s.Number, "end.lip_diameter", func(size string) string { return "⌀" + size })
	s.dimension(s.Number, "end.lip", nil)
	if e.Lip.IsSet() {
		s.say(EdgeRow, "corner under the lip", "R 0.3 to 0.5 mm (0.012 to 0.020 in), and the insert's edge broken to clear it", commonPractice)
	}
}

// grooves writes the grooves of an end.
func (s *partSheet) grooves(e *casewright.End) {
	n := max(1, e.Seal.Count.Value)
	s.dimension(s.Number, "end.seal.groove_diameter", func(size string) string {
		if n > 1 {
			return fmt.Sprintf("⌀%s, %d grooves alike", size, n)
		}
		return "⌀" + size
	})
	for _, key := range []string{"end.seal.groove_width", "end.seal.groove_from_face", "end.seal.groove_spacing"} {
		s.dimension(s.Number, key, nil)
	}
	if !e.Seal.GrooveDiameter.IsSet() {
		return
	}
	s.say(FinishRow, "groove bottom and flanks", "Ra 3.2 µm (Rz 12.5 µm) or smoother; static seal, pressure not pulsating", isoGland)
	s.say(EdgeRow, "groove edges", "R 0.1 to 0.3 mm (0.004 to 0.012 in), no burr", commonPractice)
	if section := sectionOf(&e.Seal); section.IsSet() {
		s.say(EdgeRow, "groove corners", cornerRadius(section.Nominal()), sealMakers)
	}
}

// cornerRadius is the radius at the bottom of a groove, for a section in m.
func cornerRadius(section decimal.Decimal) string {
	switch mm := section.Mul(millimetres).InexactFloat64(); {
	case mm < 3:
		return "R 0.1 to 0.4 mm (0.005 to 0.015 in)"
	case mm < 4.5:
		return "R 0.3 to 0.6 mm (0.010 to 0.025 in)"
	}
	return "R 0.5 to 0.9 mm (0.020 to 0.035 in)"
}

func screwSheet(d *casewright.Design, number int) Part {
	e := &d.Ends[number-1]
	w := &e.Screws
	s := &partSheet{Part: Part{
		Name: "screws of the " + e.Name.Value, Number: number, Bought: true, Material: w.Class.Name, Quantity: w.Count.Value,
	}, design: d}
	s.key(ThreadRow, "thread", w.Thread.Name, "end.screws.thread")
	s.key(ChoiceRow, "strength class", w.Class.Name, "end.screws.class")
	if head := w.Head.Value; head != "" {
		s.key(ChoiceRow, "head", head, "end.screws.head")
	}
	if w.InShear.Value {
		s.say(ChoiceRow, "shank", "threaded through the shear plane, as computed", "design file, or its default")
	} else {
		s.say(ChoiceRow, "shank", "plain through the shear plane, as computed: no thread where wall and end meet", "design file")
	}
	s.note("The length is not of the file: measure head, wall and gap, and let the thread reach its whole depth in the end without touching the bottom.")
	return s.done()
}

func ringSheet(d *casewright.Design, number int) Part {
	e := &d.Ends[number-1]
	o := &e.Seal
	s := &partSheet{Part: Part{
		Name: "O-rings of the " + e.Name.Value, Number: number, Bought: true, Material: o.Compound.Name, Quantity: max(1, o.Count.Value),
	}, design: d}
	if o.Ring.Name != "" {
		s.key(ChoiceRow, "size", o.Ring.Name, "end.seal.size")
		s.say(SizeRow, "section, free", asDrawn(o.Ring.SectionDimension()), "SAE AS568, seen in copies")
		s.say(SizeRow, "inside diameter, free", asDrawn(o.Ring.InsideDimension()), come(o.Ring.Source, o.Ring.Status))
	}
	s.dimension(number, "end.seal.section", nil)
	s.dimension(number, "end.seal.inside_diameter", nil)
	s.key(ChoiceRow, "compound", strings.TrimSuffix(o.Compound.Name+", "+o.Compound.Common, ", "), "end.seal.compound")
	if o.Hardness.Value > 0 {
		s.key(ChoiceRow, "hardness", fmt.Sprintf("%d Shore A", o.Hardness.Value), "end.seal.hardness")
	}
	s.note("New rings for every test, and spare ones in the box.")
	return s.done()
}

// sectionOf is the section of a seal's ring, unset where none is known.
func sectionOf(s *casewright.Seal) quantity.Dimension {
	if s.Ring.Name != "" {
		return s.Ring.SectionDimension()
	}
	return s.Section.Dimension
}

// dimensionOf is the dimension of a key of a part; unset where the design does
// not give it.
func dimensionOf(d *casewright.Design, number int, key string) quantity.Dimension {
	if f, ok := casewright.FindKey(key).Field(d, number).(*casewright.Dimension); ok {
		return f.Dimension
	}
	return quantity.Dimension{}
}

// asDrawn is a size as on a drawing: in decimals of its unit, or as written
// where it is no decimal.
func asDrawn(d quantity.Dimension) string {
	text := d.String()
	if back, err := quantity.ParseDimension(text); (err != nil || !back.Equal(d)) && d.Text() != "" {
		return strings.TrimSpace(d.Text())
	}
	return text
}
