package table

import (
	"fmt"
	"slices"
	"strings"

	"casewright"
	"casewright/margin"
)

// counsel is what one check, at one or both ends, is told.
type counsel struct {
	parts  []string // with the line of the key that one would change first
	id     string
	about  string   // what it has and needs, or what its tolerances cost
	writes []string // what to write, a line each
}

// advice writes, for every check that fails, why and what to write instead.
// What is the same at both ends is told together; and where one remedy, such
// as a measured bore, serves several checks, it is told once below them.
func (p *page) advice() {
	var list []*counsel
	for i := range p.report.Results {
		r := &p.report.Results[i]
		if r.Verdict != margin.Fail {
			continue
		}
		c := p.counsel(r)
		same := slices.IndexFunc(list, func(o *counsel) bool {
			return o.id == c.id && o.about == c.about && slices.Equal(o.writes, c.writes)
		})
		if same >= 0 {
			list[same].parts = append(list[same].parts, c.parts...)
			continue
		}
		list = append(list, c)
	}
	for len(list) > 0 {
		p.line("")
		writes := list[0].writes
		var rest []*counsel
		for _, c := range list {
			if !slices.Equal(c.writes, writes) {
				rest = append(rest, c)
				continue
			}
			p.wrapped("", 2, fmt.Sprintf("%s, %s: %s", strings.Join(c.parts, " and "), c.id, c.about))
		}
		for _, line := range writes {
			p.wrapped("  ", 4, line)
		}
		list = rest
	}
}

func (p *page) counsel(r *casewright.Result) *counsel {
	a := p.report.Advise(r)
	c := &counsel{parts: []string{r.Part}, id: r.Method.ID}
	if r.Line > 0 {
		c.parts[0] += fmt.Sprintf(" (line %d)", r.Line)
	}
	if !r.ByTolerance() {
		has, needs := p.units.hasNeeds(r)
		c.about = fmt.Sprintf("%s: %s, needs %s.", r.Method.Title, has, needs)
	}
	var costs []string
	helped := false
	for _, cost := range a.Costs {
		costs = append(costs, fmt.Sprintf("%s %q costs %s", short(cost.Key), cost.Text, p.measure(r.Method, cost.Cost)))
		helped = helped || cost.Passes
	}
	c.about += strings.Join(costs, ", ")
	for _, cost := range a.Costs {
		if !cost.Passes || cost.Better.Key == "" {
			continue
		}
		verb := "Hold it tighter, as"
		if strings.HasPrefix(cost.Better.Key, "tube.") {
			verb = "Measure the tube and write it, for example"
		}
		line := fmt.Sprintf("%s %s = %s", verb, short(cost.Better.Key), cost.Better.Text)
		if cost.Better.Also != "" {
			line += " " + cost.Better.Also
		}
		c.about += fmt.Sprintf("; with %s it has %s", cost.Better.Text, p.measure(r.Method, cost.Value))
		c.writes = append(c.writes, line+after(cost.Better.Fails)+".")
	}
	if costs != nil {
		c.about += "."
	}
	for _, f := range a.Fixes {
		if helped && len(f.Fails) > 0 {
			continue
		}
		line := fmt.Sprintf("Write %s = %s", short(f.Key), f.Text)
		if helped && strings.HasPrefix(a.Costs[0].Better.Key, "tube.") {
			break // measuring first is the better counsel
		}
		if f.Bound != "" {
			line += " " + f.Bound
		}
		if f.Also != "" {
			line += " with " + f.Also
		}
		c.writes = append(c.writes, line+after(f.Fails)+".")
	}
	if len(c.writes) == 0 {
		c.writes = append(c.writes, fmt.Sprintf("No %s alone makes it pass.", short(r.Key)))
	}
	return c
}

// short is a key without its table.
func short(key string) string { return key[strings.LastIndexByte(key, '.')+1:] }

// measure is a value of a limit check, or a margin.
func (p *page) measure(m *margin.Method, x float64) string {
	if m.Kind == margin.Strength {
		return "a margin of " + marginText(x)
	}
	return p.units.value(m, x, nearest)
}

// after warns of the checks that a change makes fail in turn.
func after(fails []string) string {
	switch len(fails) {
	case 0:
		return ""
	case 1:
		return "; but then " + fails[0] + " fails"
	}
	return "; but then " + strings.Join(fails, ", ") + " fail"
}
