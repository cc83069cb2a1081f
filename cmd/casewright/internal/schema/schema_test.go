package schema_test

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/BurntSushi/toml"
	"github.com/santhosh-tekuri/jsonschema/v6"
	"pgregory.net/rapid"

	"casewright"
	"casewright/cmd/casewright/internal/schema"
	"casewright/testdata/sheet"
)

// The validator brings the meta-schema of draft 2020-12 and holds the schema
// against it.
var compiled = func() *jsonschema.Schema {
	var b bytes.Buffer
	if err := schema.Write(&b); err != nil {
		panic(err)
	}
	text, err := jsonschema.UnmarshalJSON(&b)
	if err != nil {
		panic(err)
	}
	c := jsonschema.NewCompiler()
	c.DefaultDraft(jsonschema.Draft2020)
	if err := c.AddResource("casewright.schema.json", text); err != nil {
		panic(err)
	}
	return c.MustCompile("casewright.schema.json")
}()

// inJSON is a value of TOML as an editor hands it to a validator: JSON has one
// sort of number, and neither dates nor numbers that are not finite.
func inJSON(v any) any {
	switch v := v.(type) {
	case map[string]any:
		m := map[string]any{}
		for name, value := range v {
			m[name] = inJSON(value)
		}
		return m
	case []map[string]any:
		list := []any{}
		for _, one := range v {
			list = append(list, inJSON(one))
		}
		return list
	case []any:
		list := []any{}
		for _, one := range v {
			list = append(list, inJSON(one))
		}
		return list
	case float64:
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return nil
		}
		return json.Number(fmt.Sprint(v))
	case string, bool:
		return v
	}
	return json.Number(fmt.Sprint(v)) // int64
}

// read says what the reader makes of a design, whole or open, and what the
// schema does.
func read(text []byte) (reader, validator error, isTOML bool) {
	var values map[string]any
	if _, err := toml.Decode(string(text), &values); err != nil {
		return err, nil, false
	}
	_, _, reader = casewright.ReadOpen("design.toml", text)
	return reader, compiled.Validate(inJSON(values)), true
}

func holdAccepted(t rapid.TB, text []byte) {
	t.Helper()
	reader, validator, _ := read(text)
	if reader != nil || validator != nil {
		t.Fatalf("reader: %v\nschema: %v\n%s", reader, validator, text)
	}
}

func files(t *testing.T, pattern string, least int) map[string][]byte {
	t.Helper()
	paths, err := filepath.Glob(pattern)
	if err != nil || len(paths) < least {
		t.Fatal(pattern, paths, err)
	}
	all := map[string][]byte{}
	for _, path := range paths {
		text, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		all[filepath.Base(path)] = text
	}
	return all
}

const root = "../../../../testdata/"

// bases are sound designs that together have every key.
func bases(t *testing.T) map[string][]byte { return files(t, "testdata/*.toml", 3) }

func TestDesigns(t *testing.T) {
	for _, list := range []map[string][]byte{files(t, root+"designs/*.toml", 5), bases(t)} {
		for name, text := range list {
			t.Run(name, func(t *testing.T) { holdAccepted(t, text) })
		}
	}
}

func TestPropertyDesigns(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) { holdAccepted(t, []byte(sheet.Draw(t, sheet.SameSign).String())) })
}

// beyond are the files of testdata/invalid that the schema accepts, by what only
// the reader knows.
var beyond = map[string][]string{
	"sizes that cannot be built together": {
		"end-insert-reaches-groove", "end-insert-wider-than-end", "end-lip-longer-than-end", "end-lip-wider-than-insert", "end-many-faults",
		"geometry-bore-above-outside", "geometry-edge-break-takes-wall", "geometry-end-wider-than-bore", "geometry-ends-meet",
		"geometry-groove-not-below-surface", "geometry-groove-past-end", "geometry-grooves-overlap", "geometry-hole-past-tube-end",
		"geometry-hole-smaller-than-screw", "geometry-lead-in-too-deep", "geometry-lead-ins-meet", "geometry-plate-thicker-than-end",
		"geometry-port-wider-than-end", "geometry-ring-larger-than-groove", "geometry-ring-size-larger-than-groove", "geometry-screws-before-face",
		"geometry-screws-past-end", "geometry-section-wider-than-groove", "geometry-sink-takes-wall", "geometry-threads-past-middle",
		"geometry-wall-variation-too-large", "geometry-walls-leave-no-bore", "heat-end-too-heavy", "heat-layers-fill-bore", "screws-deeper-than-drilled",
		"screws-run-into-insert", "screws-tips-meet",
	},
	"amounts out of range, alone or beside others": {
		"heat-hour-long-burn", "heat-ill-posed", "heat-peak-after-burnout", "heat-pipe-flow-slow", "heat-zero-thickness", "limits-zero",
		"material-at-zero", "material-bearing-pair-swapped", "material-yield-above-ultimate", "value-below-absolute-zero", "value-tolerance-below-zero",
		"value-too-hot",
	},
	"names against other names of the file or the table": {
		"material-name-taken", "material-name-twice", "name-twice",
	},
	"JSON has one sort of number: 1.0 is 1": {"format-decimal"},
}

func TestInvalid(t *testing.T) {
	reasons := map[string]string{}
	for why, names := range beyond {
		for _, name := range names {
			reasons[name+".toml"] = why
		}
	}
	all := files(t, root+"invalid/*.toml", 60)
	for name := range reasons {
		if all[name] == nil {
			t.Errorf("there is no %s", name)
		}
	}
	for name, text := range all {
		t.Run(name, func(t *testing.T) {
			reader, validator, isTOML := read(bytes.ReplaceAll(text, []byte("¶"), nil))
			why, isBeyond := reasons[name]
			switch {
			case !isTOML:
			case reader == nil && !strings.Contains(string(text), `"?"`):
				t.Error("the reader accepts it")
			case reader == nil && validator != nil:
				t.Errorf("open, and refused: %v", validator)
			case reader != nil && (validator == nil) != isBeyond:
				t.Errorf("schema: %v, beyond it: %q; reader:\n%v", validator, why, reader)
			}
		})
	}
}

// Whatever the schema refuses, the reader refuses too.
func FuzzSchema(f *testing.F) {
	for _, pattern := range []string{root + "designs/*.toml", root + "invalid/*.toml", "testdata/*.toml"} {
		paths, err := filepath.Glob(pattern)
		if err != nil || len(paths) == 0 {
			f.Fatal(pattern, paths, err)
		}
		for _, path := range paths {
			text, err := os.ReadFile(path)
			if err != nil {
				f.Fatal(err)
			}
			f.Add(bytes.ReplaceAll(text, []byte("¶"), nil))
		}
	}
	f.Fuzz(func(t *testing.T, text []byte) {
		if reader, validator, isTOML := read(text); isTOML && reader == nil && validator != nil {
			t.Fatal(validator)
		}
	})
}
