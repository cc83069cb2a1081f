package schema

import "casewright/materials"

// rules are what the values of a table, by its path, have to do with each
// other; "" is the whole file. Keys that must not stand there are false.
var rules = map[string]object{
	"": {
		{"if", required("heat")},
		{"then", in("motor", required("burn_time"))},
		{"else", object{{"properties", object{
			{"motor", without("peak_time")},
			{"end", object{{"items", without("heat")}}},
		}}}},
	},
	"tube": {
		{"anyOf", []object{required("outside_diameter", "inside_diameter"), required("outside_diameter", "wall"), required("inside_diameter", "wall")}},
		{"not", required("outside_diameter", "inside_diameter", "wall")},
		{"dependentRequired", object{
			{"lead_in_angle", []string{"lead_in"}},
			{"wall_variation", []string{"outside_diameter", "inside_diameter"}},
		}},
	},
	"end": {
		{"dependentRequired", object{
			{"port_depth", []string{"port_thread"}},
			{"insert_diameter", []string{"lip_diameter", "lip"}},
			{"lip_diameter", []string{"insert_diameter", "lip"}},
			{"lip", []string{"insert_diameter", "lip_diameter"}},
		}},
		{"allOf", []object{
			{
				{"if", is("kind", "bulkhead")},
				{"then", append(required("plate"), without("insert_diameter", "lip_diameter", "lip", "one_piece")...)},
			},
			{
				{"if", is("kind", "nozzle")},
				{"then", append(without("plate", "port", "port_thread", "port_depth"),
					// What an end without an insert weighs does not follow from its sizes.
					member{"anyOf", []object{required("insert_diameter"), in("heat", append(required("mass"), member{"items", required("mass")}))}})},
			},
			{
				{"if", is("one_piece", true)},
				{"then", without("insert_diameter", "lip_diameter", "lip")},
			},
		}},
	},
	"end.seal": {
		{"anyOf", []object{
			append(required("size"), without("section", "inside_diameter")...),
			append(required("section", "inside_diameter"), without("size")...),
		}},
		{"allOf", []object{
			{{"if", several("count")}, {"then", required("groove_spacing")}},
			{{"if", object{{"anyOf", []object{{{"not", required("count")}}, single("count")}}}}, {"then", without("groove_spacing")}},
		}},
	},
	"end.screws": {
		{"dependentRequired", object{{"friction", []string{"torque"}}}},
		{"if", is("head", "countersunk")},
		{"then", required("head_depth")},
		{"else", without("head_depth")},
	},
	"end.heat": {
		{"dependentRequired", object{
			{"cover", []string{"cover_thickness"}},
			{"cover_thickness", []string{"cover"}},
			{"cover_resistance", []string{"cover"}},
		}},
	},
	"heat": {
		{"not", required("wind", "outside_film")},
		{"allOf", []object{
			{
				{"if", where("film_coefficient", pattern(trimmed("pipe flow")))},
				{"then", required(gas...)},
				{"else", without(gas...)},
			},
			{
				{"if", is("bare", true)},
				{"then", in("layer", object{{"maxItems", 0}})},
				{"else", append(required("layer"), in("layer", object{{"minItems", 1}})...)},
			},
		}},
	},
	"heat.layer": {
		{"anyOf", []object{
			append(required("material"), without(solid...)...),
			append(required(solid...), without("material")...),
		}},
	},
	"material": {
		{"dependentRequired", object{
			together(materials.BearingUltimate15, materials.BearingUltimate2), together(materials.BearingUltimate2, materials.BearingUltimate15),
			together(materials.BearingYield15, materials.BearingYield2), together(materials.BearingYield2, materials.BearingYield15),
		}},
	},
}

var (
	gas   = []string{"gas_flow", "gas_viscosity", "gas_conductivity", "gas_specific_heat"}
	solid = []string{"conductivity", "density", "specific_heat"}
)

// together says that one property needs the other.
func together(one, other materials.Property) member { return member{one.Key(), []string{other.Key()}} }

func required(names ...string) object { return object{{"required", names}} }

// without forbids keys.
func without(names ...string) object {
	var list object
	for _, name := range names {
		list = append(list, member{name, false})
	}
	return object{{"properties", list}}
}

// in is what holds of a value, if it is there.
func in(name string, value object) object { return object{{"properties", object{{name, value}}}} }

// at is what holds of a value by the path of its key, in every entry of a list.
func at(path []string, value object) object {
	for i := len(path) - 1; i >= 0; i-- {
		value = in(path[i], value)
		if i > 0 {
			value = append(value, member{"items", value})
		}
	}
	return value
}

// where holds where a value is there, and such.
func where(name string, value object) object { return append(required(name), in(name, value)...) }

// is holds where a key has a value.
func is(name string, value any) object { return where(name, object{{"const", value}}) }

// several holds where a whole number, be it in quotes, is above 1; single where
// it is 1.
func several(name string) object {
	return where(name, object{{"anyOf", []object{{{"type", "integer"}, {"minimum", 2}}, pattern(trimmed("[+]?0*([2-9]|[1-9][0-9]+)"))}}})
}

func single(name string) object {
	return where(name, object{{"anyOf", []object{{{"const", 1}}, pattern(trimmed("[+]?0*1"))}}})
}
