package schema

import (
	"io"
	"strings"

	"casewright"
	"casewright/casing/heat"
)

// Write writes the schema.
func Write(w io.Writer) error {
	g := &generator{}
	root := object{
		{"$schema", "https://json-schema.org/draft/2020-12/schema"},
		{"$id", "urn:casewright:design-file:1"},
		{"title", "casewright design file"},
		{"description", "A small reusable motor for casewright " + casewright.Version + ", format 1: a whole design, or an open one, in which values that casewright size is to find are \"" + casewright.Wanted + "\". " +
			"Geometry, amounts out of range and names of the file's own are left to casewright check."},
		{"type", "object"},
		{"properties", object{
			{"format", object{{"description", "Version of the file's language."}, {"type", "integer"}, {"const", 1}}},
			{"motor", g.table("motor", "The motor as a whole.")},
			{"factors", g.table("factors", "Factors of safety.")},
			{"limits", g.limits()},
			{"tube", g.table("tube", "The tube, by two of its three sizes.")},
			{"end", object{{"description", "The ends: a bulkhead, a nozzle."}, {"type", "array"}, {"maxItems", 2}, {"items", g.end()}}},
			{"material", object{{"description", "Materials of your own."}, {"type", "array"}, {"items", g.material()}}},
			{"heat", g.table("heat", "What heats the motor, and what it loses its heat to.",
				member{"layer", object{
					{"description", "The layers between the gas and the tube, from the inside."},
					{"type", "array"},
					{"maxItems", heat.MostLayers},
					{"items", g.table("heat.layer", "A layer.")},
				}},
				member{"measured", g.maxima()},
			)},
			{"measured", g.measured()},
		}},
		{"required", []string{"format", "motor", "tube"}},
		{"additionalProperties", false},
	}
	root = append(root, rules[""]...)
	root = append(root, member{"allOf", []object{{{"if", object{{"not", required("material")}}}, {"then", object{{"allOf", g.materials()}}}}}})
	return write(w, append(root, member{"$defs", g.defs}))
}

// materials says that all names of materials are those of the tables, as where
// a file has none of its own.
func (g *generator) materials() []object {
	var list []object
	for _, k := range casewright.Keys() {
		var ref object
		names := k.Names(&casewright.Design{})
		switch k.Field(&casewright.Design{}, 0).(type) {
		case *casewright.Material:
			ref = g.define("material_of_the_table", func() object { return pattern(words(names)) })
		case *casewright.Insulation:
			ref = g.define("insulation_of_the_tables", func() object { return pattern(words(names)) })
		default:
			continue
		}
		list = append(list, at(strings.Split(k.Path, "."), object{{"anyOf", []object{ref, g.wanted()}}}))
	}
	return list
}

// A generator collects the definitions that others refer to.
type generator struct{ defs object }

// define returns a reference to a definition, which it adds where it is new.
func (g *generator) define(name string, value func() object) object {
	for _, d := range g.defs {
		if d.name == name {
			return object{{"$ref", "#/$defs/" + name}}
		}
	}
	g.defs = append(g.defs, member{name, value()})
	return object{{"$ref", "#/$defs/" + name}}
}

// table is the schema of a table of keys, with what else may stand in it.
func (g *generator) table(path, about string, more ...member) object {
	var properties object
	required := []string{}
	for _, k := range casewright.Keys() {
		if k.Table() != path {
			continue
		}
		properties = append(properties, member{k.Name(), g.value(k)})
		if k.Required {
			required = append(required, k.Name())
		}
	}
	for _, m := range more {
		properties = append(properties, m)
		if path == "end" && m.name != "heat" {
			required = append(required, m.name)
		}
	}
	table := object{{"description", about}, {"type", "object"}, {"properties", properties}}
	if len(required) > 0 {
		table = append(table, member{"required", required})
	}
	return append(append(table, member{"additionalProperties", false}), rules[path]...)
}

// end is the schema of an end with the tables in it, each of which may be
// written as a list of one. What is said of tables and what is said of lists
// stands side by side, since of alternatives an editor marks the whole table
// where one key is wrong.
func (g *generator) end() object {
	inner := func(name, about string) member {
		ref := g.define(name, func() object {
			table := g.table("end."+name, about)
			for i := range table {
				if table[i].name == "type" {
					table[i].value = []string{"object", "array"}
				}
			}
			return append(table, member{"minItems", 1}, member{"maxItems", 1}, member{"items", object{{"type", "object"}, {"$ref", "#/$defs/" + name}}})
		})
		return member{name, ref}
	}
	return g.table("end", "An end.",
		inner("seal", "The O-ring and its groove, or equal ones."), inner("screws", "The row of radial screws that holds the end."),
		inner("heat", "What couples the end to the gas and to the tube."))
}

// limits is the schema of [limits].
func (g *generator) limits() object {
	var properties object
	for _, m := range casewright.Methods() {
		if !m.Settable {
			continue
		}
		value := g.amount(m.Unit, sentence(m.Title)+" "+m.Why, "", "")
		if isOf(m.Unit, m.Default) {
			value = append(value, member{"default", m.Default})
		}
		properties = append(properties, member{m.ID, value})
	}
	return object{{"description", "Your own limits of checks, each by its id in quotes."}, {"type", "object"}, {"properties", properties}, {"additionalProperties", false}}
}

// measured is the schema of [measured]: a part, a point, and the key of a
// length.
func (g *generator) measured() object {
	var ofTube, ofEnd []string
	for _, k := range casewright.Keys() {
		if _, ok := k.Field(&casewright.Design{}, 0).(*casewright.Dimension); !ok {
			continue
		}
		if name, ok := strings.CutPrefix(k.Path, "tube."); ok {
			ofTube = append(ofTube, exact(name))
		} else if name, ok := strings.CutPrefix(k.Path, "end."); ok {
			ofEnd = append(ofEnd, exact(name))
		}
	}
	tube, other := "^"+word("tube")+"[.]", "^[^.]+[.]"
	length := g.length()
	return object{
		{"description", `What was measured, in place of what is drawn: a part, a point and the key of one of its lengths, in quotes, as "tube.inside_diameter".`},
		{"type", "object"},
		{"patternProperties", object{{tube + either(ofTube) + "$", length}, {other + either(ofEnd) + "$", length}}},
		{"propertyNames", object{{"not", object{{"pattern", tube + either(except(ofEnd, ofTube)) + "$"}}}}},
		{"additionalProperties", false},
	}
}

// maxima is the schema of [heat.measured].
func (g *generator) maxima() object {
	const end = "end"
	d := &casewright.Design{Ends: []casewright.End{{Name: casewright.Text{Value: end}, Heat: casewright.EndHeat{Place: casewright.Place{Key: "end.heat"}}}}}
	var properties object
	var ofEnd []string
	for _, place := range d.HeatPlaces() {
		if name, ok := strings.CutPrefix(place, end+"."); ok {
			ofEnd = append(ofEnd, exact(name))
		} else {
			properties = append(properties, member{place, g.maximum()})
		}
	}
	return object{
		{"description", `The highest temperatures of a test: where, and between what bounds. A place at an end stands in quotes, as "nozzle.gland".`},
		{"type", "object"},
		{"properties", append(properties, member{"csv", g.printable("File with what thermocouples told.")})},
		{"patternProperties", object{{"^[^.]+[.]" + either(ofEnd) + "$", g.maximum()}}},
		{"additionalProperties", false},
	}
}
