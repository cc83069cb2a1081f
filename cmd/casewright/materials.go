package main

import (
	"fmt"
	"strings"

	"casewright/cmd/casewright/internal/jsonout"
	"casewright/cmd/casewright/internal/table"
	"casewright/fastener"
	"casewright/materials"
	"casewright/quantity/near"
	"casewright/seal"
)

type materialsCmd struct {
	Name   []string `arg:"" optional:"" help:"One metal, O-ring compound, screw class, liner or soft washer, whole; quotes are not needed."`
	Format string   `help:"table or json." enum:"table,json" default:"table"`
	screen
}

// Help follows the flags in materials --help.
func (materialsCmd) Help() string {
	return `Examples:
  casewright materials
  casewright materials 6061-T6 drawn tube
  casewright materials --units imperial FKM
  casewright materials --format json 12.9

Without a name: all names that a design file may use. With one: each of its
values, with the basis and the source. Units are metric unless imperial is asked
for; what a source says is shown as written there.`
}

// Run shows the tables, or one entry of them.
func (m *materialsCmd) Run(io *streams) error {
	options := table.Options{Units: m.Units, Colour: m.coloured(io), ASCII: m.ASCII, Width: io.width}
	if len(m.Name) == 0 {
		if m.Format == "json" {
			return jsonout.Materials(io.out, jsonout.Entries{
				Metals: materials.All(), Compounds: seal.Compounds(), Classes: fastener.Classes(), Layers: materials.Layers(), Washers: materials.Washers(),
			})
		}
		return table.Materials(io.out, options)
	}
	name := strings.Join(m.Name, " ")
	if metal, ok := materials.Lookup(name); ok {
		if m.Format == "json" {
			return jsonout.Materials(io.out, jsonout.Entries{Metals: []*materials.Material{metal}})
		}
		return table.Metal(io.out, metal, options)
	}
	if compound, ok := seal.LookupCompound(name); ok {
		if m.Format == "json" {
			return jsonout.Materials(io.out, jsonout.Entries{Compounds: []seal.Compound{compound}})
		}
		return table.Compound(io.out, compound, options)
	}
	if class, ok := fastener.LookupClass(name); ok {
		if m.Format == "json" {
			return jsonout.Materials(io.out, jsonout.Entries{Classes: []fastener.Class{class}})
		}
		return table.Class(io.out, class, options)
	}
	if layer, ok := materials.LookupLayer(name); ok {
		if m.Format == "json" {
			return jsonout.Materials(io.out, jsonout.Entries{Layers: []*materials.Layer{layer}})
		}
		return table.Layer(io.out, layer, options)
	}
	if washer, ok := materials.LookupWasher(name); ok {
		if m.Format == "json" {
			return jsonout.Materials(io.out, jsonout.Entries{Washers: []*materials.Washer{washer}})
		}
		return table.Washer(io.out, washer, options)
	}
	return status{exitInput, unknown(name)}
}

// unknown says that there is no such name, and which was likely meant.
func unknown(name string) string {
	said := fmt.Sprintf("%.60q", name)
	if _, ok := fastener.LookupThread(name); ok {
		return said + " is a thread; write the name of a metal, an O-ring compound, a screw class, a liner or a washer"
	}
	if _, ok := seal.LookupRing(name); ok {
		return said + " is the size of an O-ring; write the name of a metal, an O-ring compound, a screw class, a liner or a washer"
	}
	var known []string
	for _, e := range entries() {
		known = append(known, e.Text)
	}
	if match, ok := near.Match(name, known); ok {
		return fmt.Sprintf("%s is not known; write %q", said, match)
	}
	var begun []string // names of which the first part was given
	for _, k := range known {
		if part := strings.TrimSpace(name); part != "" && len(part) < len(k) && strings.EqualFold(k[:len(part)], part) {
			begun = append(begun, fmt.Sprintf("%q", k))
		}
	}
	if n := len(begun); n > 0 && n <= 8 {
		write := begun[n-1]
		if n > 1 {
			write = strings.Join(begun[:n-1], ", ") + " or " + write
		}
		return fmt.Sprintf("%s is not a whole name; write %s", said, write)
	}
	return said + " is not known; casewright materials lists all names"
}
