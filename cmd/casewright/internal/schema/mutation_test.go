package schema_test

import (
	"bytes"
	"maps"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/BurntSushi/toml"
	"pgregory.net/rapid"

	"casewright"
	"casewright/materials"
	"casewright/quantity"
)

// A place is a key in a table of a design that was read from TOML.
type place struct {
	table map[string]any
	name  string
	path  string // as in "end.screws.edge"
}

// places lists the keys of a design, those in its tables too, in order.
func places(table map[string]any, path string) []place {
	var list []place
	for _, name := range slices.Sorted(maps.Keys(table)) {
		below := strings.TrimPrefix(path+"."+name, ".")
		list = append(list, place{table, name, below})
		switch v := table[name].(type) {
		case map[string]any:
			list = append(list, places(v, below)...)
		case []map[string]any:
			for _, one := range v {
				list = append(list, places(one, below)...)
			}
		}
	}
	return list
}

func decoded(t rapid.TB, text []byte) map[string]any {
	t.Helper()
	var values map[string]any
	if _, err := toml.Decode(string(text), &values); err != nil {
		t.Fatal(err)
	}
	return values
}

func encoded(t rapid.TB, values map[string]any) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := toml.NewEncoder(&b).Encode(values); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// A mutation changes one key of a design.
type mutation struct {
	name   string
	change func(p place)
	wrong  func(k *casewright.Key) bool // that both must refuse it; else they agree
}

func always(*casewright.Key) bool { return true }
func never(*casewright.Key) bool  { return false }

// isAmount tells whether a key takes a number with its unit.
func isAmount(k *casewright.Key) bool {
	switch k.Field(&casewright.Design{}, 0).(type) {
	case *casewright.Dimension, *casewright.Amount, *casewright.Film:
		return true
	}
	return false
}

func isText(k *casewright.Key) bool {
	_, ok := k.Field(&casewright.Design{}, 0).(*casewright.Text)
	return ok
}

// isOwn tells whether a key takes a name that a file may have made.
func isOwn(k *casewright.Key) bool {
	switch k.Field(&casewright.Design{}, 0).(type) {
	case *casewright.Material, *casewright.Insulation:
		return true
	}
	return false
}

func isCount(k *casewright.Key) bool { _, to := k.Whole(); return to > 0 }

func isFlag(k *casewright.Key) bool {
	_, ok := k.Field(&casewright.Design{}, 0).(*casewright.Flag)
	return ok
}

func becomes(name string, v any, wrong func(*casewright.Key) bool) mutation {
	return mutation{name, func(p place) { p.table[p.name] = v }, wrong}
}

var mutations = func() []mutation {
	renamed := func(p place, name string) {
		p.table[name] = p.table[p.name]
		delete(p.table, p.name)
	}
	return []mutation{
		{"removed", func(p place) { delete(p.table, p.name) }, func(k *casewright.Key) bool { return k.Required }},
		{"renamed", func(p place) { renamed(p, p.name+"x") }, always},
		{"miscased", func(p place) { renamed(p, strings.ToUpper(p.name[:1])+p.name[1:]) }, always},
		becomes("true", true, func(k *casewright.Key) bool { return !isFlag(k) }),
		becomes("a list", []any{"1 mm"}, always),
		becomes("a table", map[string]any{"a": int64(1)}, always),
		becomes("an empty table", map[string]any{}, always),
		becomes("an empty list", []any{}, always),
		becomes("a decimal", 7.5, func(k *casewright.Key) bool { return !isAmount(k) || k.Kind != 0 }),
		becomes("not finite", math.NaN(), always),
		becomes("below whole numbers", int64(-1), func(k *casewright.Key) bool { return isCount(k) || isText(k) }),
		becomes("above whole numbers", int64(1001), func(k *casewright.Key) bool { return isCount(k) || isText(k) }),
		becomes("above them, in quotes", " 1001 ", isCount),
		becomes("a whole number in quotes", "+01", never),
		becomes("a wrong unit", "5 K/Pa", func(k *casewright.Key) bool { return !isText(k) || k.Options() != nil || k.Path == "end.name" }),
		becomes("an unknown unit", "5 furlong", func(k *casewright.Key) bool { return isAmount(k) || isCount(k) }),
		becomes("no unit", "5", func(k *casewright.Key) bool { return isAmount(k) && (k.Kind != 0 || !isRatio(k)) }),
		becomes("two tolerances", "5 mm ±0.1 ±0.1 mm", isAmount),
		becomes("a decimal comma", "5,5 mm", isAmount),
		becomes("no decimal", "1/3 in", isAmount),
		becomes("garbage", "#!\u00a0", always),
		becomes("blank", " \t", always),
		becomes("empty", "", always),
		becomes("wanted", " ? ", func(k *casewright.Key) bool { return !k.MayBeWanted() }),
	}
}()

// isRatio tells whether an amount has no unit; a dimension has one.
func isRatio(k *casewright.Key) bool {
	_, ok := k.Field(&casewright.Design{}, 0).(*casewright.Amount)
	return ok && k.Kind == quantity.KindRatio
}

// told are places that others of the same file refer to, or rely on: what
// becomes of those only the reader knows.
var told = []string{"end", "end.name", "end.heat", "material", "material.name", "material.conductivity", "material.density", "material.specific_heat", "heat.measured.bulkhead.gland"}

// mayDiffer tells whether the reader alone may refuse a change: of what others
// refer to, of a name that the file may have made, of a ratio that is out of
// range, and of a size that heat or a measurement needs.
func mayDiffer(p place, m mutation, values map[string]any) bool {
	k := casewright.FindKey(p.path)
	text, isString := p.table[p.name].(string)
	_, noNumber := quantity.Parse(quantity.KindRatio, text)
	_, isNumber := p.table[p.name].(int64)
	_, isDecimal := p.table[p.name].(float64)
	switch {
	case slices.Contains(told, p.path) && values["measured"] != nil:
		return true
	case k == nil:
		return isNumber || isDecimal || isString && noNumber == nil
	case isOwn(k):
		return values["material"] != nil
	case m.name == "wanted":
		return values["heat"] != nil
	}
	return isRatio(k) && isString && noNumber == nil
}

// Every key, table and entry, in every way in which it may be wrong: what the
// reader accepts, the schema accepts; both refuse what is wrong, and agree on
// the rest.
func TestEveryKey(t *testing.T) {
	met := map[string]bool{}
	for file, text := range bases(t) {
		for number, p := range places(decoded(t, text), "") {
			met[p.path] = true
			for _, m := range mutations {
				values := decoded(t, text)
				p := places(values, "")[number]
				m.change(p)
				reader, validator, _ := read(encoded(t, values))
				k := casewright.FindKey(p.path)
				switch {
				case reader == nil && validator != nil:
					t.Errorf("%s: %s %s: the schema alone refuses it: %v", file, p.path, m.name, validator)
				case reader == nil && k != nil && m.wrong(k):
					t.Errorf("%s: %s %s: the reader accepts it", file, p.path, m.name)
				case reader != nil && validator == nil && !mayDiffer(p, m, values):
					t.Errorf("%s: %s %s: the reader alone refuses it: %v", file, p.path, m.name, reader)
				}
			}
		}
	}
	all := []string{"format", "motor", "factors", "limits", "limits.hole.edge", "tube", "end", "end.seal", "end.screws", "end.heat", "material", "material.name", "material.source", "material.form", "material.at", "heat", "heat.layer", "heat.measured", "measured"}
	for _, k := range casewright.Keys() {
		all = append(all, k.Path)
	}
	for p := range materials.NumProperties {
		all = append(all, "material."+p.Key())
	}
	for _, path := range all {
		if !met[path] {
			t.Errorf("%s stands in no design of testdata", path)
		}
	}
}

// Keys that go together: without any two keys of a table, the reader and the
// schema agree.
func TestEveryPair(t *testing.T) {
	for file, text := range bases(t) {
		list := places(decoded(t, text), "")
		for i := range list {
			for j := range i {
				a, b := casewright.FindKey(list[i].path), casewright.FindKey(list[j].path)
				if a == nil || b == nil || a.Required || b.Required || a.Table() != b.Table() || slices.Contains(told, a.Path) || slices.Contains(told, b.Path) {
					continue
				}
				values := decoded(t, text)
				changed := places(values, "")
				delete(changed[i].table, changed[i].name)
				delete(changed[j].table, changed[j].name)
				if reader, validator, _ := read(encoded(t, values)); (reader == nil) != (validator == nil) {
					t.Errorf("%s without %s and %s: reader: %v, schema: %v", file, a.Path, b.Path, reader, validator)
				}
			}
		}
	}
}

// The same with a key more. A wanted value has no size that could be wrong, so
// that where the reader refuses it the key itself is out of place.
func TestEveryAddition(t *testing.T) {
	designs := bases(t)
	maps.Copy(designs, files(t, root+"designs/*.toml", 5))
	for file, text := range designs {
		for number, p := range places(decoded(t, text), "") {
			if slices.Min(slices.Collect(maps.Keys(p.table))) != p.name {
				continue // once a table
			}
			for _, k := range casewright.Keys() {
				if table, name := strings.LastIndexByte(p.path, '.'), p.path; table < 0 || name[:table] != k.Table() || p.table[k.Name()] != nil {
					continue
				}
				values := decoded(t, text)
				p := places(values, "")[number]
				if p.table[k.Name()] = casewright.Wanted; !k.MayBeWanted() || values["heat"] != nil {
					p.table[k.Name()] = decoded(t, []byte("v = "+k.Sample))["v"]
				}
				if reader, validator, _ := read(encoded(t, values)); (reader == nil) != (validator == nil) {
					t.Errorf("%s with %s: reader: %v, schema: %v", file, k.Path, reader, validator)
				}
			}
		}
	}
}

// However a design is changed: what the reader accepts, the schema accepts.
func TestPropertyMutations(t *testing.T) {
	designs := bases(t)
	for name, text := range files(t, root+"designs/*.toml", 5) {
		designs[name] = text
	}
	names := slices.Sorted(maps.Keys(designs))
	accepted := 0
	rapid.Check(t, func(t *rapid.T) {
		values := decoded(t, designs[rapid.SampledFrom(names).Draw(t, "design")])
		for range rapid.IntRange(1, 4).Draw(t, "changes") {
			list := places(values, "")
			p := list[rapid.IntRange(0, len(list)-1).Draw(t, "key")]
			switch rapid.IntRange(0, 3).Draw(t, "change") {
			case 0:
				rapid.SampledFrom(mutations).Draw(t, "mutation").change(p)
			case 1: // the value of another key of the same name, or the sample
				if k := casewright.FindKey(p.path); k != nil {
					p.table[p.name] = decoded(t, []byte("v = "+k.Sample))["v"]
				}
			case 2: // a key more
				k := rapid.SampledFrom(casewright.Keys()).Draw(t, "new key")
				if table, ok := p.table[p.name].(map[string]any); ok {
					table[k.Name()] = decoded(t, []byte("v = "+k.Sample))["v"]
				} else {
					p.table[k.Name()] = decoded(t, []byte("v = "+k.Sample))["v"]
				}
			case 3:
				delete(p.table, p.name)
			}
		}
		text := encoded(t, values)
		reader, validator, _ := read(text)
		if reader == nil && validator != nil {
			t.Fatalf("%v\n%s", validator, text)
		}
		if reader == nil {
			accepted++
		}
	})
	if accepted == 0 {
		t.Error("no design that was changed was accepted: nothing was tried")
	}
}
