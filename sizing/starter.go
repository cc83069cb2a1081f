package sizing

import (
	"fmt"
	"maps"
	"strconv"
	"strings"

	"github.com/shopspring/decimal"

	"casewright"
	"casewright/quantity"
)

// New returns the text of a commented design file of a whole motor that
// passes: of the settings that are given, of what can be found, and of
// customary values for the rest, which its comments tell as such. Settings of
// an end are those of both ends. Pressure, length and a diameter of the tube
// are needed. Where no such motor passes there is no text, and the answer says
// what came nearest. The error is a casewright.Errors.
func New(file, name string, settings []casewright.Setting) ([]byte, *Answer, error) {
	d, err := casewright.Assemble(nil, 1, settings)
	if err == nil {
		err = needs(d, 0, "motor.pressure", "tube.length")
	}
	if err != nil {
		return nil, nil, err
	}
	if !d.Tube.Outside.IsSet() && !d.Tube.Inside.IsSet() {
		return nil, nil, needs(d, 0, "tube.inside_diameter")
	}
	var text []byte
	var a *Answer
	for _, hardness := range customaryHardness {
		s := newStarter(d, settings)
		s.hardness = hardness
		if d.Tube.Outside.IsSet() && !d.Tube.Inside.IsSet() && !d.Tube.Wall.IsSet() {
			text, a, err = s.ofStock(file, name)
		} else {
			text, a, err = s.fill(file, name)
		}
		if err != nil || !a.Nearest || d.Ends[0].Seal.Hardness.Value > 0 {
			break
		}
	}
	return text, a, err
}

// ofStock fills the starter of a tube of which the outside diameter is all that
// is known: with the thinnest wall in stock that passes, and the bore that this
// leaves, to be measured. A bore that is left open by the tolerances of bought
// tube seals nothing.
func (s *starter) ofStock(file, name string) ([]byte, *Answer, error) {
	tube := s.design.Clone()
	tube.Ends = nil
	var customary []casewright.Setting
	if tube.Tube.Material.Material == nil {
		customary = append(customary, casewright.Setting{Key: "tube.material", Text: customaryTube})
	}
	if !tube.Tube.Temperature.IsSet() {
		customary = append(customary, casewright.Setting{Key: "tube.temperature", Text: customaryTemperature})
	}
	tube, err := casewright.Assemble(tube, 0, customary)
	if err != nil {
		return nil, nil, err
	}
	a, err := Wall(tube, Options{})
	if err != nil {
		return nil, nil, err
	}
	a.Nearest = true // no wall in stock will do
	outside := s.design.Tube.Outside
	var text []byte
	for _, option := range a.Options[:min(len(a.Options), 8)] {
		wall := option.Report.Design.Tube.Wall
		bore := outside.Nominal().Sub(wall.Nominal()).Sub(wall.Nominal())
		c := &starter{design: s.design, given: maps.Clone(s.given), hardness: s.hardness}
		delete(c.given, "tube.outside_diameter")
		c.given["tube.inside_diameter"] = measuredBore(bore, outside.Unit())
		c.given["tube.wall"] = wall.String()
		c.remarks = map[string]string{
			"tube.inside_diameter": fmt.Sprintf("%s less two walls: measure yours and write it", outside.String()),
			"tube.wall":            "the thinnest in stock that will do",
		}
		if text, a, err = c.fill(file, name); err != nil || !a.Nearest {
			break
		}
	}
	return text, a, err
}

// measuredBore is a bore as one measures it, to 0.03 mm or a thousandth of an
// inch either way. Source: common practice, no source.
func measuredBore(bore decimal.Decimal, unit quantity.Unit) string {
	within := mm("0.03")
	if unit.Symbol() == "in" {
		within = halfThousandth.Add(halfThousandth)
	}
	zero := decimal.Zero
	return quantity.NewDimension(zero, zero, zero, unit).WithNominal(tidy(bore)).WithDeviations(within.Neg(), within).String()
}

// What is taken where nothing is given. Source: common practice, no source.
const (
	customaryTube        = "6061-T6 drawn tube"
	customaryEnd         = "6061-T6 bar"
	customaryTemperature = "90 °C"
)

var customaryHardness = []string{"75", "90"}

type starter struct {
	design  *casewright.Design
	given   map[string]string
	remarks map[string]string
	out     strings.Builder

	hardness string
}

func newStarter(d *casewright.Design, settings []casewright.Setting) *starter {
	s := &starter{design: d, given: map[string]string{}}
	for _, one := range settings {
		s.given[one.Key] = one.Text
	}
	return s
}

// fill finds what the starter wants, with the fewest holes.
func (s *starter) fill(file, name string) ([]byte, *Answer, error) {
	return FillText(file, []byte(s.text(name)), nil, FewestHoles)
}

func (s *starter) text(name string) string {
	s.line("# %s: sizes found by casewright. Write your own over them, and check again.", name)
	s.line("# What is marked \"customary\" was not given and not computed: make it yours.")
	s.line("format = 1")
	s.line("")
	s.line("[motor]")
	s.key("", "motor.name", strconv.Quote(name), "")
	s.key("", "motor.pressure", "", "")
	if d := s.design; d.Yield.IsSet() || d.Ultimate.IsSet() || d.Fitting.IsSet() {
		s.line("")
		s.line("[factors]")
		s.all("", "factors")
	}
	s.line("")
	s.line("[tube]")
	s.tube()
	for _, kind := range []string{"bulkhead", "nozzle"} {
		s.end(kind)
	}
	return s.out.String()
}

func (s *starter) line(format string, args ...any) { fmt.Fprintf(&s.out, format+"\n", args...) }

// key writes a key with the value that was given, else with another; a value
// that is neither given nor wanted is told to be customary.
func (s *starter) key(indent, path, otherwise, remark string) {
	k := casewright.FindKey(path)
	value := otherwise
	if text, ok := s.given[path]; ok {
		value = literal(k, s.design, text)
	} else if otherwise != "" && otherwise != wantedValue && remark == "" && path != "motor.name" && path != "end.name" && path != "end.kind" {
		remark = "customary"
	}
	if value == "" {
		return
	}
	comment := k.Meaning
	if own := s.remarks[path]; own != "" {
		remark = own
	}
	if remark != "" {
		comment += "; " + remark
	}
	s.line("%-40s # %s", indent+k.Name()+" = "+value, comment)
}

// all writes the keys of a table that were given.
func (s *starter) all(indent, table string) {
	for _, k := range casewright.Keys() {
		if k.Table() == table {
			s.key(indent, k.Path, "", "")
		}
	}
}

var wantedValue = strconv.Quote(casewright.Wanted)

// literal is a value as a design file has it: numbers and true or false
// without quotes.
func literal(k *casewright.Key, d *casewright.Design, text string) string {
	switch k.Field(d, min(1, strings.Count(k.Table(), "end"))).(type) {
	case *casewright.Count, *casewright.Flag:
		return k.Text(d, 1)
	}
	return strconv.Quote(text)
}

func (s *starter) tube() {
	s.key("", "tube.outside_diameter", "", "")
	s.key("", "tube.inside_diameter", "", "")
	if t := &s.design.Tube; t.Inside.IsSet() && t.Outside.IsSet() {
		s.key("", "tube.wall_variation", "", "")
	} else {
		s.key("", "tube.wall", wantedValue, "")
	}
	s.key("", "tube.length", "", "")
	s.key("", "tube.material", strconv.Quote(customaryTube), "")
	s.key("", "tube.temperature", strconv.Quote(customaryTemperature), "")
	s.key("", "tube.lead_in", wantedValue, "at both ends")
	s.key("", "tube.lead_in_angle", "", "")
}

func (s *starter) end(kind string) {
	s.line("")
	s.line("[[end]]")
	s.line("name = %q", kind)
	s.line("kind = %q", kind)
	s.key("", "end.material", strconv.Quote(customaryEnd), "")
	s.key("", "end.outside_diameter", wantedValue, "")
	s.key("", "end.length", wantedValue, "")
	if kind == "bulkhead" {
		s.key("", "end.plate", wantedValue, "")
		s.key("", "end.port", `"0 mm"`, "solid")
	} else if e := &s.design.Ends[0]; e.Insert.IsSet() {
		s.key("", "end.insert_diameter", "", "")
		s.key("", "end.lip_diameter", wantedValue, "")
		s.key("", "end.lip", wantedValue, "")
	} else {
		s.key("", "end.one_piece", "true", "else write insert_diameter, lip_diameter and lip")
	}
	s.key("", "end.temperature", strconv.Quote(customaryTemperature), "")
	s.line("")
	s.line("  [end.seal]")
	s.seal()
	s.line("")
	s.line("  [end.screws]")
	s.screws()
}

func (s *starter) seal() {
	const in = "  "
	if seal := &s.design.Ends[0].Seal; seal.Inside.IsSet() || seal.Section.IsSet() {
		s.key(in, "end.seal.section", "", "")
		s.key(in, "end.seal.inside_diameter", "", "")
	} else {
		s.key(in, "end.seal.size", wantedValue, "")
	}
	s.key(in, "end.seal.compound", `"FKM"`, "")
	s.key(in, "end.seal.hardness", s.hardness, "")
	s.key(in, "end.seal.count", "2", "")
	s.key(in, "end.seal.groove_diameter", wantedValue, "")
	s.key(in, "end.seal.groove_width", wantedValue, "")
	s.key(in, "end.seal.groove_from_face", strconv.Quote(s.land()), "")
	if s.given["end.seal.count"] != "1" {
		s.key(in, "end.seal.groove_spacing", wantedValue, "")
	}
}

// land is the room before the first groove: no check decides it.
func (s *starter) land() string {
	if unitOf(s.design).Symbol() == "in" {
		return "0.16 in"
	}
	part := &site{s.design, 1}
	return upTo(times(part.bore(), "0.06"), mm("0.5")).Shift(3).String() + " mm"
}

func (s *starter) screws() {
	const in = "  "
	for _, key := range []string{"thread", "class", "count", "hole", "edge", "from_face", "engagement"} {
		s.key(in, "end.screws."+key, wantedValue, "")
	}
	s.key(in, "end.screws.threads_in_shear", "", "")
	s.key(in, "end.screws.share", "", "")
	edge := `"0.3 mm"`
	if unitOf(s.design).Symbol() == "in" {
		edge = `"0.01 in"`
	}
	s.key(in, "end.screws.edge_break", edge, "")
	s.key(in, "end.screws.head", "", "")
	s.key(in, "end.screws.head_depth", "", "")
}
