package schema

import (
	"encoding/json"
	"fmt"
	"regexp"
	"slices"
	"strings"

	"casewright"
	"casewright/materials"
	"casewright/quantity"
)

// value is the schema of the value of a key.
func (g *generator) value(k *casewright.Key) object {
	about := sentence(k.Meaning)
	var v object
	switch k.Field(&casewright.Design{}, 0).(type) {
	case *casewright.Dimension:
		v = described(about+" A length with its tolerance, in "+unitsOf(quantity.KindLength)+".", g.length())
	case *casewright.Amount:
		least, most := k.Bounds()
		v = g.amount(k.Kind, about, least, most)
	case *casewright.Film:
		least, most := k.Bounds()
		v = described(about+" "+amountText(k.Kind, least, most), object{{"enum", k.Options()}}, g.kind(k.Kind), pattern(trimmed(exactly(k.Options()))))
	case *casewright.Count:
		from, to := k.Whole()
		v = described(fmt.Sprintf("%s A whole number from %d to %d.", about, from, to),
			object{{"type", "integer"}, {"minimum", from}, {"maximum", to}}, pattern(trimmed("[+]?0*"+wholes(from, to))))
	case *casewright.Flag:
		v = object{{"description", about + " true or false."}, {"type", "boolean"}}
	case *casewright.Text:
		v = g.text(k, about)
	case *casewright.Material, *casewright.Insulation:
		v = described(about+" casewright materials lists them; [[material]] describes your own.",
			object{{"enum", k.Names(&casewright.Design{})}}, object{{"type", "string"}, {"minLength", 1}})
	case *casewright.Thread:
		v = g.chosen(k, about, "thread", threadPattern)
	case *casewright.Class:
		v = g.chosen(k, about, "screw_class", classPattern)
	case *casewright.Ring:
		v = g.chosen(k, about, "ring", ringPattern)
	case *casewright.Compound:
		v = g.chosen(k, about, "compound", compoundPattern)
	case *casewright.PipeThread:
		v = g.chosen(k, about, "pipe_thread", pipeThreadPattern)
	case *casewright.Washer:
		v = g.chosen(k, about, "washer", washerPattern)
	}
	if k.MayBeWanted() {
		v = g.orWanted(v)
	}
	v = append(object{{"title", strings.ReplaceAll(k.Name(), "_", " ")}}, v...)
	if k.Default != "" {
		v = append(v, member{"default", json.RawMessage(k.Default)})
	}
	return append(v, member{"examples", []json.RawMessage{json.RawMessage(k.Sample)}})
}

// sentence is a meaning as a sentence.
func sentence(meaning string) string { return strings.ToUpper(meaning[:1]) + meaning[1:] + "." }

// described is one of several values, with what it is about.
func described(about string, list ...object) object {
	if len(list) == 1 {
		return append(object{{"description", about}}, list[0]...)
	}
	return object{{"description", about}, {"anyOf", list}}
}

// wanted is what stands for a value that is to be found.
func (g *generator) wanted() object {
	return g.define("wanted", func() object {
		return append(object{{"description", "To be found by casewright size."}}, pattern(trimmed(exact(casewright.Wanted)))...)
	})
}

// orWanted is a value, or what stands for one that is to be found.
func (g *generator) orWanted(v object) object {
	last := &v[len(v)-1]
	if list, ok := last.value.([]object); ok && last.name == "anyOf" {
		last.value = append(slices.Clone(list), g.wanted())
		return v
	}
	return object{v[0], {"anyOf", []object{v[1:], g.wanted()}}}
}

func pattern(p string) object { return object{{"type", "string"}, {"pattern", p}} }

func exact(text string) string { return regexp.QuoteMeta(text) }

func exactly(texts []string) string {
	var list []string
	for _, text := range texts {
		list = append(list, exact(text))
	}
	return either(list)
}

// except is a list without what stands in another.
func except(list, other []string) []string {
	return slices.DeleteFunc(slices.Clone(list), func(s string) bool { return slices.Contains(other, s) })
}

// chosen is a value that is chosen by its name from a table.
func (g *generator) chosen(k *casewright.Key, about, name string, spellings func() string) object {
	ref := g.define(name, func() object {
		return object{{"anyOf", []object{{{"enum", k.Names(&casewright.Design{})}}, pattern(spellings())}}}
	})
	return described(about, ref)
}

// unitsOf lists the units of a kind: "mm, in or m".
func unitsOf(k quantity.Kind) string {
	var list []string
	for _, u := range quantity.Units(k) {
		list = append(list, u.Symbol())
	}
	last := len(list) - 1
	if last == 0 {
		return list[0]
	}
	return strings.Join(list[:last], ", ") + " or " + list[last]
}

// amountText says what an amount is, in words.
func amountText(k quantity.Kind, least, most string) string {
	text := "In " + unitsOf(k)
	if k == quantity.KindRatio {
		text = "A plain number, or one in %"
	}
	if least != "" {
		text += fmt.Sprintf("; from %s to %s", least, most)
	}
	return text + "."
}

// amount is the schema of an amount of a kind; a ratio may be a bare number.
func (g *generator) amount(k quantity.Kind, about, least, most string) object {
	about += " " + amountText(k, least, most)
	if k != quantity.KindRatio {
		return described(about, g.kind(k))
	}
	number := object{{"type", "number"}}
	if least != "" {
		number = append(number, member{"minimum", json.RawMessage(least)}, member{"maximum", json.RawMessage(most)})
	}
	return described(about, g.kind(k), number)
}

// kind is the schema of the text of an amount.
func (g *generator) kind(k quantity.Kind) object {
	return g.define(strings.ReplaceAll(k.String(), " ", "_"), func() object { return g.form(quantity.PatternOf(k)) })
}

// length is the schema of the text of a length with its tolerance.
func (g *generator) length() object {
	return g.define("length_with_tolerance", func() object { return g.form(quantity.DimensionPattern()) })
}

// form is the schema of a text that a pattern describes.
func (g *generator) form(p quantity.Pattern) object {
	improper := g.define("improper_fraction", func() object {
		return object{{"description", "A fraction after a whole number is below 1."}, {"pattern", quantity.Improper()}}
	})
	not := improper
	if p.But != "" {
		not = object{{"anyOf", []object{improper, {{"pattern", p.But}}}}}
	}
	return append(pattern(p.Form), member{"maxLength", quantity.MaxText}, member{"not", not})
}

// isOf tells whether a text is an amount of a kind.
func isOf(k quantity.Kind, text string) bool {
	_, err := quantity.Parse(k, text)
	return err == nil
}

// unseen are characters that no name holds: controls, and blanks but for the
// plain one.
const unseen = "\x00-\x1f\x7f-\u00a0\u00ad\u1680\u2000-\u200f\u2028-\u202f\u205f-\u206f\u3000\ufeff"

// From : on what is no letter, and what is none and no _, up to the first letter
// of other scripts.
const (
	noLetter = ":-@\\[-`{-\u00a9"
	noWord   = ":-@\\[-\\^`{-\u00a9"
)

// printable is the schema of a text that is not blank, as the name of a file.
func (g *generator) printable(about string) object {
	return described(about, g.define("printable", func() object { return pattern(whole("[^" + unseen + "]*[^ " + unseen + "][^" + unseen + "]*")) }))
}

// name is the schema of a name.
func (g *generator) name(about string) object {
	g.printable("")
	return described(about, g.define("name", func() object { return object{{"$ref", "#/$defs/printable"}, {"maxLength", 60}} }))
}

// text is the schema of a name, or of a choice of words.
func (g *generator) text(k *casewright.Key, about string) object {
	switch {
	case k.Options() != nil:
		return object{{"description", about}, {"enum", k.Options()}}
	case k.Path != "end.name":
		return append(g.name(about), member{"not", g.wanted()})
	}
	return append(g.name(about+" Letters, digits, space, - and _, but not tube or motor."),
		member{"pattern", whole("[^\x00-/" + noLetter + "](" + "[^\x00-\x1f!-,./" + noWord + "]*[^\x00-,./" + noWord + "])?")},
		member{"not", object{{"pattern", whole(either([]string{word("tube"), word("motor")}))}}})
}

// maximum is the schema of a temperature, or of bounds of one.
func (g *generator) maximum() object {
	return g.define("measured_maximum", func() object {
		spaced := func(p string) string {
			return strings.ReplaceAll(strings.Trim(p, "^$"), "["+quantity.Blanks+"]", space)
		}
		temperature, number := spaced(quantity.PatternOf(quantity.KindTemperature).Form), spaced(quantity.NumberPattern())
		at := "at" + space + "+(least|most)" + space + "+"
		return object{
			{"description", "A temperature, or its bounds: 88 °C, 88 to 93 °C, at least 120 °C, at most 60 °C. In " + unitsOf(quantity.KindTemperature) + "."},
			{"type", "string"},
			{"pattern", trimmed("(" + at + "|" + either([]string{temperature, number}) + space + "+to" + space + "+)?" + temperature)},
			{"not", object{{"$ref", "#/$defs/improper_fraction"}}},
			{"examples", []string{"88 to 93 °C", "at least 120 °C"}},
		}
	})
}

// material is the schema of a material of one's own.
func (g *generator) material() object {
	forms := materials.Forms()
	var names []string
	for _, f := range forms {
		names = append(names, string(f))
	}
	properties := object{
		{"name", append(g.name("What you call the material, not as one of casewright's own."), member{"examples", []string{"7075-T6 bar, bought"}})},
		{"source", described("Where its values are from.", pattern("[^"+spaces+"]"))},
		{"form", described("What the part is cut from.", object{{"enum", forms}}, object{{"type", "string"}, {"pattern", words(names)}, {"maxLength", 60}})},
		{"at", g.amount(quantity.KindTemperature, "Up to which temperature the values hold.", "", "")},
	}
	for p := range materials.NumProperties {
		properties = append(properties, member{p.Key(), g.amount(p.Kind(), sentence(p.Meaning()), "", "")})
	}
	return append(object{
		{"description", "A material of your own."},
		{"type", "object"},
		{"properties", properties},
		{"required", []string{"name", "source", "form", materials.Yield.Key(), materials.Ultimate.Key()}},
		{"additionalProperties", false},
	}, rules["material"]...)
}
