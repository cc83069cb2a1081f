package sizing

import (
	"fmt"
	"strconv"
	"strings"

	"casewright"
)

// Starter returns the text of a commented design file of a whole motor, of the
// settings that are given, with "?" for what can be found and with customary
// values for the rest; those are told as such in its comments. Settings of an
// end are those of both ends. Pressure, length and a diameter of the tube are
// needed. The error is a casewright.Errors.
func Starter(name string, settings []casewright.Setting) (string, error) {
	d, err := casewright.Assemble(nil, 1, settings)
	if err == nil {
		err = needs(d, 0, "motor.pressure", "tube.length")
	}
	if err != nil {
		return "", err
	}
	if !d.Tube.Outside.IsSet() && !d.Tube.Inside.IsSet() {
		return "", needs(d, 0, "tube.inside_diameter")
	}
	s := &starter{design: d, given: map[string]string{}}
	for _, one := range settings {
		s.given[one.Key] = one.Text
	}
	return s.text(name), nil
}

type starter struct {
	design *casewright.Design
	given  map[string]string
	out    strings.Builder
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
		return strings.TrimSpace(text)
	}
	return strconv.Quote(text)
}

func (s *starter) tube() {
	t := &s.design.Tube
	s.key("", "tube.outside_diameter", "", "")
	s.key("", "tube.inside_diameter", "", "")
	switch {
	case t.Wall.IsSet():
		s.key("", "tube.wall", "", "")
	case t.Inside.IsSet() && t.Outside.IsSet():
		s.key("", "tube.wall_variation", "", "")
	default:
		s.key("", "tube.wall", wantedValue, "")
	}
	s.key("", "tube.length", "", "")
	s.key("", "tube.material", `"6061-T6 drawn tube"`, "")
	s.key("", "tube.temperature", `"90 °C"`, "")
	s.key("", "tube.lead_in", wantedValue, "at both ends")
	s.key("", "tube.lead_in_angle", "", "")
}

func (s *starter) end(kind string) {
	s.line("")
	s.line("[[end]]")
	s.line("name = %q", kind)
	s.line("kind = %q", kind)
	s.key("", "end.material", `"6061-T6 bar"`, "")
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
	s.key("", "end.temperature", `"90 °C"`, "")
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
	s.key(in, "end.seal.hardness", "75", "")
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
