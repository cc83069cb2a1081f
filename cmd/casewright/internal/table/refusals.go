package table

import (
	"fmt"
	"slices"
	"strings"

	"casewright"
	"casewright/margin"
	"casewright/materials"
	"casewright/quantity"
)

// refusal is what several checks are refused for, and where one would mend it.
type refusal struct {
	reason margin.Reason
	key    string
	detail string     // what is to be said of the key first
	lines  []string   // of the key, at one or both ends
	parts  []string   // that have the checks
	ids    [][]string // of the refused checks, by part
}

// refusals writes why checks are refused and what to write instead, once for
// each reason and key.
func (p *page) refusals() {
	var list []*refusal
	for i := range p.report.Results {
		r := &p.report.Results[i]
		if r.Verdict != margin.Refused {
			continue
		}
		at, detail := p.cause(r)
		n := slices.IndexFunc(list, func(o *refusal) bool { return o.reason == r.Reason && o.key == at.Key && o.detail == detail })
		if n < 0 {
			n = len(list)
			list = append(list, &refusal{reason: r.Reason, key: at.Key, detail: detail})
		}
		one := list[n]
		if at.Line > 0 {
			one.lines = union(one.lines, []string{fmt.Sprintf("line %d", at.Line)})
		}
		last := len(one.parts) - 1
		if last < 0 || one.parts[last] != r.Part {
			one.parts, one.ids, last = append(one.parts, r.Part), append(one.ids, nil), last+1
		}
		one.ids[last] = append(one.ids[last], r.Method.ID)
	}
	for _, one := range list {
		p.line("")
		p.wrapped("", 2, fmt.Sprintf("%s: refused, %s.", one.checks(), one.reason.Text()))
		lines := ""
		if one.lines != nil {
			lines = " (" + strings.Join(one.lines, " and ") + ")"
		}
		p.wrapped("  ", 4, fmt.Sprintf("%s%s: %s%s.", place(one.key, one.parts), lines, one.detail, one.reason.Write()))
	}
}

// checks names the refused checks; parts with the same ones together.
func (f *refusal) checks() string {
	var texts []string
	for i := 0; i < len(f.parts); {
		j := i + 1
		for j < len(f.parts) && slices.Equal(f.ids[j], f.ids[i]) {
			j++
		}
		texts = append(texts, strings.Join(f.parts[i:j], " and ")+", "+strings.Join(f.ids[i], ", "))
		i = j
	}
	return strings.Join(texts, "; ")
}

// body is a tube or an end as a material at a temperature.
type body struct {
	material    casewright.Material
	temperature casewright.Amount
	needs       []materials.Property // of its material, by some check
}

func (b *body) at() quantity.Temperature {
	if !b.temperature.IsSet() {
		return quantity.Temperature(quantity.MustUnit("°C").ToSI(20))
	}
	return quantity.Temperature(b.temperature.SI())
}

// lacks are the properties that the material refuses for a reason.
func (b *body) lacks(reason margin.Reason) []string {
	var keys []string
	if b.material.Material == nil {
		return nil // of an open design
	}
	for _, property := range b.needs {
		if b.material.At(property, b.at()).Reason == reason {
			keys = append(keys, property.Key())
		}
	}
	return keys
}

// cause finds where in the file the cause of a refusal stands, and what is to
// be said of it first: of a material or a temperature, that of the tube or of
// the end, else the key of the check.
func (p *page) cause(r *casewright.Result) (at casewright.Place, detail string) {
	d := p.report.Design
	e := &casewright.End{}
	tube := body{d.Tube.Material, d.Temperature(0), []materials.Property{
		materials.Yield, materials.Ultimate, materials.Shear, materials.Modulus, materials.Poisson, materials.Expansion, materials.Elongation,
	}}
	both := []body{tube}
	if r.Check.Part > 0 {
		e = &d.Ends[r.Check.Part-1]
		both = append(both, body{e.Material, d.Temperature(int(r.Check.Part)), []materials.Property{
			materials.Yield, materials.Ultimate, materials.Shear, materials.Poisson, materials.Expansion,
		}})
		if strings.HasPrefix(r.Method.ID, "end.") {
			slices.Reverse(both)
		}
	}
	switch r.Reason {
	case margin.Form, margin.MissingProperty, margin.Temperature:
		for _, one := range both {
			keys := one.lacks(r.Reason)
			switch {
			case keys == nil:
				continue
			case r.Reason == margin.Temperature && one.temperature.IsSet():
				return one.temperature.Place, fmt.Sprintf("%q is not known there; ", one.material.Name)
			case r.Reason == margin.MissingProperty:
				return one.material.Place, fmt.Sprintf("%q has no %s; ", one.material.Name, strings.Join(keys, ", "))
			}
			return one.material.Place, ""
		}
	case margin.Brittle:
		return tube.material.Place, ""
	case margin.ScrewTemperature:
		return e.Screws.Class.Place, ""
	case margin.PortTooLarge:
		return e.Port.Place, ""
	case margin.HardnessOutside:
		return e.Seal.Hardness.Place, ""
	case margin.PressureOutside:
		return d.Pressure.Place, ""
	case margin.DeepSink:
		return e.Screws.HeadDepth.Place, ""
	case margin.LeadInAtHole:
		return d.Tube.LeadIn.Place, ""
	}
	return casewright.Place{Key: r.Key, Line: r.Line, Column: r.Column}, ""
}
