package revision

import (
	"fmt"
	"strings"

	"casewright"
	"casewright/quantity"
)

// says is how a change of a size or a number is put in words: of what, and how
// it is more or less.
type says struct{ of, more, less string }

// sayings are those of the keys; [wordsOf] takes the meaning of the key for
// others.
var sayings = map[string]says{
	"motor.pressure":  {"pressure", "higher", "lower"},
	"motor.burn_time": {"burn", "longer", "shorter"},
	"motor.peak_time": {"peak of pressure", "later", "earlier"},

	"tube.outside_diameter": {"tube", "wider outside", "narrower outside"},
	"tube.inside_diameter":  {"bore", "wider", "narrower"},
	"tube.wall":             {"wall", "thicker", "thinner"},
	"tube.wall_variation":   {"wall", "more uneven", "less uneven"},
	"tube.length":           {"tube", "longer", "shorter"},
	"tube.temperature":      {"tube", "hotter", "cooler"},
	"tube.lead_in":          {"lead-ins", "longer", "shorter"},
	"tube.lead_in_angle":    {"lead-ins", "steeper", "shallower"},

	"end.outside_diameter": {"end", "wider", "narrower"},
	"end.length":           {"end", "longer", "shorter"},
	"end.plate":            {"plate", "thicker", "thinner"},
	"end.port":             {"port", "wider", "narrower"},
	"end.port_depth":       {"port's thread", "deeper", "shallower"},
	"end.insert_diameter":  {"insert", "wider", "narrower"},
	"end.lip_diameter":     {"lip's bore", "wider", "narrower"},
	"end.lip":              {"lip", "thicker", "thinner"},
	"end.temperature":      {"end", "hotter", "cooler"},

	"end.seal.section":          {"ring", "thicker", "thinner"},
	"end.seal.inside_diameter":  {"ring", "wider", "narrower"},
	"end.seal.hardness":         {"ring", "harder", "softer"},
	"end.seal.count":            {"grooves", "more", "fewer"},
	"end.seal.groove_diameter":  {"bottom of the groove", "wider", "narrower"},
	"end.seal.groove_width":     {"groove", "wider", "narrower"},
	"end.seal.groove_from_face": {"groove", "further from the pressure face", "nearer to the pressure face"},
	"end.seal.groove_spacing":   {"grooves", "further apart", "nearer together"},

	"end.screws.count":      {"screws", "more", "fewer"},
	"end.screws.hole":       {"holes", "wider", "narrower"},
	"end.screws.edge":       {"holes", "further from the tube end", "nearer to the tube end"},
	"end.screws.from_face":  {"holes", "further from the pressure face", "nearer to the pressure face"},
	"end.screws.engagement": {"threads", "deeper in the end", "less deep in the end"},
	"end.screws.drilled":    {"holes under the threads", "deeper", "shallower"},
	"end.screws.position":   {"holes' position tolerance", "wider", "tighter"},
	"end.screws.angle":      {"first hole", "further round", "less far round"},
	"end.screws.torque":     {"tightening torque", "more", "less"},
	"end.screws.edge_break": {"edge break", "larger", "smaller"},
	"end.screws.head_depth": {"countersink", "deeper", "shallower"},

	"heat.gas_temperature":     {"gas", "hotter", "cooler"},
	"heat.ambient":             {"air outside", "hotter", "cooler"},
	"heat.initial":             {"motor at ignition", "hotter", "cooler"},
	"heat.touch":               {"temperature for touching", "higher", "lower"},
	"end.heat.enters":          {"heat enters", "further from the pressure face", "nearer to the pressure face"},
	"end.heat.cover_thickness": {"cover", "thicker", "thinner"},
	"end.heat.mass":            {"end", "heavier", "lighter"},
}

// saying is how to speak of a key.
func saying(k *casewright.Key) says {
	if s, ok := sayings[k.Path]; ok {
		return s
	}
	return says{k.Meaning, "more", "less"}
}

// words puts a change of some keys in words.
func words(group []*casewright.Key, before, after *casewright.Design, p pair) string {
	if len(group) > 1 {
		var was, is []string
		for _, k := range group {
			if text := k.Text(before, p.old); text != "" {
				was = append(was, k.Name()+" "+text)
			}
			if text := k.Text(after, p.new); text != "" {
				is = append(is, k.Name()+" "+text)
			}
		}
		return instead(strings.Join(is, ", "), strings.Join(was, ", "))
	}
	k := group[0]
	s := saying(k)
	wasText, isText := k.Text(before, p.old), k.Text(after, p.new)
	if wasText == "" || isText == "" {
		return plainName(k) + " " + instead(isText, wasText)
	}
	switch was := k.Field(before, p.old).(type) {
	case *casewright.Dimension:
		is := k.Field(after, p.new).(*casewright.Dimension)
		by := is.Nominal().Sub(was.Nominal())
		if by.IsZero() {
			spread := func(d *casewright.Dimension) string { return strings.TrimSpace(tolerance(d.String())) }
			return fmt.Sprintf("%s held %s: %s in place of %s", s.of, held(was, is), spread(is), spread(was))
		}
		// What an inch has not, written in millimetres, is no change that can be told.
		if size := is.Exact().WithNominal(by.Abs()).String(); !strings.HasPrefix(size, "0 ") {
			return more(s, size, by.Sign() > 0)
		}
	case *casewright.Count:
		is := k.Field(after, p.new).(*casewright.Count)
		by := is.Value - was.Value
		if k.Path == "end.screws.count" || k.Path == "end.seal.count" {
			how := s.more
			if by < 0 {
				how = s.less
			}
			noun := s.of
			if by == 1 || by == -1 {
				noun = strings.TrimSuffix(noun, "s")
			}
			return fmt.Sprintf("%d %s %s", max(by, -by), how, noun)
		}
		return more(s, fmt.Sprint(max(by, -by)), by > 0)
	case *casewright.Amount:
		is := k.Field(after, p.new).(*casewright.Amount)
		if text, ok := difference(was, is); ok {
			return more(s, text, is.Cmp(was.Amount) > 0)
		}
	}
	return plainName(k) + " " + instead(isText, wasText)
}

// held tells how a size is held that is nominally the same: tighter or wider
// only where one tolerance lies within the other.
func held(was, is *casewright.Dimension) string {
	low, high := is.Least().Cmp(was.Least()), is.Greatest().Cmp(was.Greatest())
	switch {
	case low >= 0 && high <= 0:
		return "tighter"
	case low <= 0 && high >= 0:
		return "wider"
	}
	return "otherwise"
}

// plainName is the name of a key as one says it.
func plainName(k *casewright.Key) string { return strings.ReplaceAll(k.Name(), "_", " ") }

// more tells by how much a thing is more or less.
func more(s says, by string, up bool) string {
	how := s.less
	if up {
		how = s.more
	}
	return fmt.Sprintf("%s %s %s", s.of, by, how)
}

// difference is that of two amounts of the same unit, as one would write it.
func difference(was, is *casewright.Amount) (string, bool) {
	if was.Unit() != is.Unit() || is.Kind() == quantity.KindRatio {
		return "", false
	}
	by := is.Value().Sub(was.Value()).Abs()
	unit := is.Unit().Symbol()
	return by.String() + " " + unit, true
}

// tolerance is what a dimension says of it, "no tolerance" where nothing.
func tolerance(text string) string {
	i := strings.IndexAny(text, "±+")
	if i < 0 {
		// Both deviations may be below the size.
		if i = strings.Index(text, " -"); i < 0 {
			return "no tolerance"
		}
	}
	return text[i:]
}

// instead tells what stands in place of what.
func instead(is, was string) string {
	switch {
	case was == "":
		return is + ", which was not given"
	case is == "":
		return "no longer given, was " + was
	}
	return is + " in place of " + was
}
