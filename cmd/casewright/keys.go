package main

import (
	"fmt"
	"reflect"
	"slices"
	"strings"

	"github.com/alecthomas/kong"

	"casewright"
)

// A keyFlag is a flag that sets a key of a design file. Its name, help and
// sample are those of the key, so that a file and a command line are one
// language.
type keyFlag struct {
	*casewright.Key
	name string // as in "seal-count"
}

// tableOrder says which table a flag belongs to where several have a key of
// its name; in the others the name of the table goes before.
var tableOrder = []string{"motor", "factors", "tube", "end.screws", "end.seal", "end"}

// flagName is the name of the flag for a key, without the dashes.
func flagName(k *casewright.Key) string {
	name := strings.ReplaceAll(k.Name(), "_", "-")
	for _, table := range tableOrder[:slices.Index(tableOrder, k.Table())] {
		if casewright.FindKey(table+"."+k.Name()) != nil {
			return k.Table()[strings.LastIndexByte(k.Table(), '.')+1:] + "-" + name
		}
	}
	return name
}

// flagsOf are the flags for the keys of some tables, or for single keys.
func flagsOf(paths ...string) []keyFlag {
	var list []keyFlag
	for _, k := range casewright.Keys() {
		if slices.Contains(paths, k.Path) || slices.Contains(paths, k.Table()) {
			list = append(list, keyFlag{k, flagName(k)})
		}
	}
	return list
}

// keyFlags is a set of flags, and what was given for each.
type keyFlags struct {
	flags  []keyFlag
	values reflect.Value // of a struct with a *string for each flag
}

// newKeyFlags makes the struct that the parser fills, with a field for each
// flag.
func newKeyFlags(paths ...string) (*keyFlags, kong.Plugins) {
	flags := flagsOf(paths...)
	fields := make([]reflect.StructField, len(flags))
	for i, f := range flags {
		fields[i] = reflect.StructField{
			Name: fmt.Sprintf("Flag%d", i), Type: reflect.TypeFor[*string](),
			Tag: reflect.StructTag(fmt.Sprintf("name:%q help:%q placeholder:%q group:%q",
				f.name, f.Meaning+".", f.Sample, "["+f.Table()+"]")),
		}
	}
	values := reflect.New(reflect.StructOf(fields))
	return &keyFlags{flags, values.Elem()}, kong.Plugins{values.Interface()}
}

// settings are the keys that were given.
func (k *keyFlags) settings() []casewright.Setting {
	var list []casewright.Setting
	for i, f := range k.flags {
		if text, _ := k.values.Field(i).Interface().(*string); text != nil {
			list = append(list, casewright.Setting{Key: f.Path, Text: *text, Name: "--" + f.name})
		}
	}
	return list
}

// inFlags words errors on keys for one who writes flags: a missing key is a
// missing flag.
func inFlags(list casewright.Errors) casewright.Errors {
	var told casewright.Errors
	for _, e := range list {
		one := *e
		if k := casewright.FindKey(e.Key); k != nil && e.Line == 0 {
			flag := "--" + flagName(k)
			if strings.HasPrefix(e.Message, fmt.Sprintf("%q is missing", k.Name())) {
				one.Message = fmt.Sprintf("%s is missing (%s)", flag, k.Meaning)
				one.Write = fmt.Sprintf("%s %q", flag, strings.Trim(k.Sample, `"`))
			}
		}
		told = append(told, &one)
	}
	return told
}
