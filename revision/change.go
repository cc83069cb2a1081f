package revision

import (
	"cmp"
	"fmt"
	"math"
	"reflect"
	"slices"
	"strings"

	"casewright"
	"casewright/margin"
	"casewright/materials"
	"casewright/quantity"
)

// A Change is a value of the design that is another one now, or several that
// only change together.
type Change struct {
	Part  string   // as in "nozzle"; empty for the motor
	Keys  []string // as in "end.screws.edge"
	Was   []string // as written, one for each key; empty where it was not given
	Is    []string
	Line  int    // in the new file; 0 where it does not give the value, and of a material of its own
	Words string // as in "holes 3 mm further from the tube end"

	// Alone are the checks that this change alone moves on the old motor, those
	// that call for attention first. Together tells that there is no such motor:
	// it cannot be built with this change alone, or is not as built.
	Alone    []Move
	Together bool
}

// together are the keys of which a design gives one set or another; they change
// as one where the set is another.
var together = [][]string{
	{"tube.outside_diameter", "tube.inside_diameter", "tube.wall"},
	{"end.port", "end.port_thread", "end.port_depth"},
	{"end.one_piece", "end.insert_diameter", "end.lip_diameter", "end.lip"},
	{"end.seal.size", "end.seal.section", "end.seal.inside_diameter"},
	{"end.seal.count", "end.seal.groove_spacing"},
	{"end.screws.head", "end.screws.head_depth"},
	{"heat.film_coefficient", "heat.gas_flow", "heat.gas_viscosity", "heat.gas_conductivity", "heat.gas_specific_heat"},
	{"heat.outside_film", "heat.wind"},
}

// changes lists what has changed in the values, and what each alone does.
// Where only one of the two designs has its heat computed, that is one change.
func changes(before *casewright.Report, after *casewright.Design, ends []pair) []Change {
	d := before.Design
	var list []Change
	add := func(c Change, apply func(*casewright.Design)) {
		c.alone(before, apply)
		list = append(list, c)
	}
	heats := isHeated(d) != isHeated(after)
	parts := append([]pair{{0, 0}}, ends...)
	for _, p := range parts {
		name := "tube"
		switch {
		case p.new > 0:
			name = after.Ends[p.new-1].Name.Value
		case p.old > 0:
			name = d.Ends[p.old-1].Name.Value
		}
		if p.old == 0 && p.new > 0 {
			list = append(list, Change{Part: name, Keys: []string{"end"}, Was: []string{""}, Is: []string{name}, Line: after.Ends[p.new-1].Line, Words: "is new", Together: true})
			continue
		}
		if p.new == 0 && p.old > 0 {
			list = append(list, Change{Part: name, Keys: []string{"end"}, Was: []string{name}, Is: []string{""}, Words: "is gone", Together: true})
			continue
		}
		for _, group := range groups(d, after, p) {
			if heats && ofHeat(group[0]) {
				continue
			}
			c := Change{Part: name}
			if group[0].Table() == "motor" || group[0].Table() == "factors" || group[0].Table() == "heat" {
				c.Part = ""
			}
			for _, k := range group {
				c.Keys, c.Was, c.Is = append(c.Keys, k.Path), append(c.Was, k.Text(d, p.old)), append(c.Is, k.Text(after, p.new))
				if line := k.Place(after, p.new).Line; c.Line == 0 {
					c.Line = line
				}
			}
			c.Words = words(group, d, after, p)
			add(c, func(to *casewright.Design) {
				for _, k := range group {
					set(k.Field(to, p.old), k.Field(after, p.new))
				}
			})
		}
	}
	if heats {
		add(heatAsWhole(after), func(to *casewright.Design) { setHeat(to, after, ends) })
	}
	for _, c := range limits(d, after) {
		add(c, func(to *casewright.Design) { setLimit(to, after, c.Keys[0]) })
	}
	if c, ok := layers(d, after); ok && !heats {
		add(c, func(to *casewright.Design) { to.Heat.Layers = after.Heat.Layers })
	}
	for _, c := range ownMaterials(d, after) {
		add(c, func(to *casewright.Design) { setMaterial(to, after, strings.TrimPrefix(c.Keys[0], "material.")) })
	}
	return append(list, measured(d, after)...)
}

// isHeated tells whether a design has its heat computed.
func isHeated(d *casewright.Design) bool { return d.Heat.Line > 0 }

// ofHeat tells whether a key is one of heat.
func ofHeat(k *casewright.Key) bool {
	switch k.Table() {
	case "heat", "heat.layer", "end.heat":
		return true
	}
	return k.Path == "motor.burn_time" || k.Path == "motor.peak_time"
}

// heatAsWhole is the change of a design of which the heat is computed now, or
// no longer.
func heatAsWhole(after *casewright.Design) Change {
	c := Change{Keys: []string{"heat"}, Was: []string{""}, Is: []string{""}}
	if isHeated(after) {
		c.Is[0], c.Line, c.Words = "[heat]", after.Heat.Line, "heat is computed, as it was not"
	} else {
		c.Was[0], c.Words = "[heat]", "heat is no longer computed"
	}
	return c
}

func setHeat(to, from *casewright.Design, ends []pair) {
	to.Heat, to.BurnTime, to.PeakTime = from.Heat, from.BurnTime, from.PeakTime
	for _, p := range ends {
		if p.old > 0 && p.new > 0 {
			to.Ends[p.old-1].Heat = from.Ends[p.new-1].Heat
		}
	}
}

// set copies a value into a design, where both are of a kind.
func set(to, from any) { reflect.ValueOf(to).Elem().Set(reflect.ValueOf(from).Elem()) }

// groups are the keys of one part of which the values have changed; those that
// can only change together as one.
func groups(before, after *casewright.Design, p pair) [][]*casewright.Key {
	var list [][]*casewright.Key
	done := map[string]bool{}
	for _, k := range casewright.Keys() {
		if (p.new > 0) != strings.HasPrefix(k.Path, "end.") || strings.HasPrefix(k.Path, "heat.layer.") || done[k.Path] || same(k, before, after, p) {
			continue
		}
		group := []*casewright.Key{k}
		for _, set := range together {
			if slices.Contains(set, k.Path) && !sameSet(set, before, after, p) {
				group = nil
				for _, path := range set {
					if other := casewright.FindKey(path); !same(other, before, after, p) {
						group = append(group, other)
						done[path] = true
					}
				}
			}
		}
		list = append(list, group)
	}
	return list
}

// same tells whether a value is the same in both designs, however it is
// written.
func same(k *casewright.Key, before, after *casewright.Design, p pair) bool {
	a, b := k.Field(before, p.old), k.Field(after, p.new)
	switch x := a.(type) {
	case *casewright.Dimension:
		y := b.(*casewright.Dimension)
		return x.IsSet() == y.IsSet() && (!x.IsSet() || x.Equal(y.Dimension))
	case *casewright.Amount:
		y := b.(*casewright.Amount)
		return x.IsSet() == y.IsSet() && (!x.IsSet() || x.Equal(y.Amount))
	}
	return k.Text(before, p.old) == k.Text(after, p.new)
}

// sameSet tells whether both designs give the same keys of a set.
func sameSet(set []string, before, after *casewright.Design, p pair) bool {
	return !slices.ContainsFunc(set, func(path string) bool {
		k := casewright.FindKey(path)
		return (k.Text(before, p.old) == "") != (k.Text(after, p.new) == "")
	})
}

// alone finds what the change alone does to the old motor.
func (c *Change) alone(before *casewright.Report, apply func(*casewright.Design)) {
	d := before.Design.Clone()
	apply(d)
	if d.Faults() != nil {
		c.Together = true
		return
	}
	ends := make([]pair, len(d.Ends))
	for i := range ends {
		ends[i] = pair{i + 1, i + 1}
	}
	c.Alone = moves(before, casewright.Check(d), ends)
	slices.SortStableFunc(c.Alone, func(a, b Move) int { return cmp.Compare(a.weight(), b.weight()) })
}

// weight orders what a change does: another verdict first, then what the least
// margin is of, in hundredths, what gives no verdict last.
func (m Move) weight() int {
	if m.Old == nil || m.New == nil || m.Old.Verdict != m.New.Verdict {
		return math.MinInt
	}
	low := min(m.Old.Margin, m.New.Margin)
	if math.IsNaN(low) || m.New.Verdict == margin.Noted {
		return math.MaxInt
	}
	return int(math.Floor(100 * min(low, 1e6)))
}

// limits are the limits that have been set otherwise.
func limits(before, after *casewright.Design) []Change {
	var list []Change
	text := func(d *casewright.Design, id string) (string, int) {
		for _, l := range d.Limits {
			if l.ID == id {
				return l.String(), l.Line
			}
		}
		return "", 0
	}
	for _, m := range casewright.Methods() {
		was, _ := text(before, m.ID)
		is, line := text(after, m.ID)
		if was != is {
			list = append(list, Change{Keys: []string{"limits." + m.ID}, Was: []string{was}, Is: []string{is}, Line: line, Words: "limit of " + m.ID + " " + instead(is, was)})
		}
	}
	return list
}

func setLimit(to, from *casewright.Design, key string) {
	id := strings.TrimPrefix(key, "limits.")
	other := func(l casewright.Limit) bool { return l.ID == id }
	to.Limits = slices.DeleteFunc(to.Limits, other)
	if i := slices.IndexFunc(from.Limits, other); i >= 0 {
		to.Limits = append(to.Limits, from.Limits[i])
	}
}

// layers tells whether the layers between gas and tube are others.
func layers(before, after *casewright.Design) (Change, bool) {
	text := func(d *casewright.Design) string {
		var list []string
		for _, l := range d.Heat.Layers {
			one := []string{l.Name.Value}
			for _, part := range []string{l.Thickness.String(), l.Material.Name, l.Conductivity.String(), l.Density.String(), l.SpecificHeat.String(), l.Gap.String()} {
				if part != "" {
					one = append(one, part)
				}
			}
			list = append(list, strings.Join(one, " "))
		}
		return strings.Join(list, "; ")
	}
	was, is := text(before), text(after)
	c := Change{Keys: []string{"heat.layer"}, Was: []string{was}, Is: []string{is}, Words: "layers between gas and tube: " + instead(is, was)}
	if len(after.Heat.Layers) > 0 {
		c.Line = after.Heat.Layers[0].Line
	}
	return c, was != is
}

// ownMaterials are the file's own materials that are others under the same
// name. One that is new or gone shows where it is used.
func ownMaterials(before, after *casewright.Design) []Change {
	var list []Change
	for _, m := range after.Materials {
		i := slices.IndexFunc(before.Materials, func(old *materials.Material) bool { return strings.EqualFold(old.Name, m.Name) })
		if i < 0 {
			continue
		}
		c := Change{Keys: []string{"material." + m.Name}}
		var texts []string
		old := before.Materials[i]
		add := func(key, was, is string) {
			if was != is {
				c.Was, c.Is = append(c.Was, key+" "+was), append(c.Is, key+" "+is)
				texts = append(texts, key+" "+instead(is, was))
			}
		}
		add("source", source(old), source(m))
		add("form", string(old.Form), string(m.Form))
		for p := range materials.NumProperties {
			add(p.Key(), property(old, p), property(m, p))
		}
		add("at", warmest(old), warmest(m))
		if texts != nil {
			c.Was, c.Is = []string{strings.Join(c.Was, ", ")}, []string{strings.Join(c.Is, ", ")}
			c.Words = fmt.Sprintf("%s: %s", m.Name, strings.Join(texts, ", "))
			list = append(list, c)
		}
	}
	return list
}

// source is the certificate or document that the numbers are from.
func source(m *materials.Material) string {
	v, _ := m.Value(materials.Yield)
	return v.Source
}

// warmest is the temperature up to which the numbers hold.
func warmest(m *materials.Material) string {
	return fmt.Sprintf("%.6g °C", m.UpTo.Celsius())
}

func property(m *materials.Material, p materials.Property) string {
	v, ok := m.Value(p)
	if !ok {
		return ""
	}
	if p.Kind() == quantity.KindPressure {
		return fmt.Sprintf("%.6g MPa", float64(v.SI)/1e6)
	}
	return strings.TrimSuffix(fmt.Sprintf("%.6g %s", v.SI, p.Kind().SI()), " 1")
}

func setMaterial(to, from *casewright.Design, name string) {
	for _, m := range from.Materials {
		if !strings.EqualFold(m.Name, name) {
			continue
		}
		for _, at := range append([]*casewright.Material{&to.Tube.Material}, endMaterials(to)...) {
			if at.Material != nil && strings.EqualFold(at.Name, name) {
				at.Material = m
			}
		}
	}
}

func endMaterials(d *casewright.Design) []*casewright.Material {
	var list []*casewright.Material
	for i := range d.Ends {
		list = append(list, &d.Ends[i].Material)
	}
	return list
}

// measured are the sizes that have been measured otherwise. They move nothing
// but in a motor as built.
func measured(before, after *casewright.Design) []Change {
	name := func(d *casewright.Design, m *casewright.Measurement) string {
		part := "tube"
		if m.Part > 0 {
			part = d.Ends[m.Part-1].Name.Value
		}
		_, key, _ := strings.Cut(m.Key, ".")
		return part + "." + key
	}
	texts := func(d *casewright.Design) map[string]*casewright.Measurement {
		all := map[string]*casewright.Measurement{}
		for i := range d.Measured {
			all[name(d, &d.Measured[i])] = &d.Measured[i]
		}
		return all
	}
	was, is := texts(before), texts(after)
	var names []string
	for n, m := range is {
		if old := was[n]; old == nil || !old.Equal(m.Dimension.Dimension) {
			names = append(names, n)
		}
	}
	for n := range was {
		if is[n] == nil {
			names = append(names, n)
		}
	}
	slices.Sort(names)
	var list []Change
	for _, n := range names {
		c := Change{Keys: []string{"measured." + n}, Was: []string{""}, Is: []string{""}, Together: true}
		if m := was[n]; m != nil {
			c.Was[0] = m.Dimension.String()
		}
		if m := is[n]; m != nil {
			c.Is[0], c.Line = m.Dimension.String(), m.Line
		}
		c.Words = n + " measured: " + instead(c.Is[0], c.Was[0])
		list = append(list, c)
	}
	return list
}
