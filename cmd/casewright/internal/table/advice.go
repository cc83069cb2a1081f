package table

import (
	"fmt"
	"slices"
	"strings"

	"casewright"
	"casewright/margin"
	"casewright/sizing"
)

// remedy is what to write in the file.
type remedy struct{ verb, key, value string }

// dear is a dimension as written, whose tolerance costs much.
type dear struct{ key, text string }

// told is a check that fails, at one or both ends.
type told struct {
	places []string           // the ends, with the line of the key that one would change first
	worst  *casewright.Result // of the ends
	text   string             // what the worst has and needs, or what tolerances cost it
}

// counsel is what is told of all the checks that have the same remedies.
type counsel struct {
	parts    []string
	checks   []told
	dear     []dear // where only tolerances fail
	remedies []remedy
	fails    [][]string // what each remedy makes fail in turn
}

// advice writes, for every check that fails, why and what to write instead.
// Where one remedy, such as a measured bore, serves several checks or both
// ends, they are told together.
func (p *page) advice() {
	var list []*counsel
	for i := range p.report.Results {
		r := &p.report.Results[i]
		if r.Verdict != margin.Fail {
			continue
		}
		c := p.counsel(r)
		same := slices.IndexFunc(list, func(o *counsel) bool {
			return slices.Equal(o.dear, c.dear) && slices.Equal(o.remedies, c.remedies)
		})
		if same < 0 {
			list = append(list, c)
			continue
		}
		list[same].add(c)
	}
	for _, c := range list {
		p.line("")
		if c.dear != nil {
			p.wrapped("", 2, fmt.Sprintf("%s, by tolerance only. Most is lost to %s:", strings.Join(c.parts, " and "), c.costs()))
		}
		for _, t := range c.checks {
			if c.dear != nil {
				p.wrapped("  ", 4, t.worst.Method.ID+": "+t.text)
			} else {
				p.wrapped("", 2, fmt.Sprintf("%s, %s: %s", strings.Join(t.places, " and "), t.worst.Method.ID, t.text))
			}
		}
		for i, w := range c.remedies {
			p.wrapped("  ", 4, fmt.Sprintf("%s %s = %s%s.", w.verb, place(w.key, c.parts), w.value, after(c.fails[i])))
		}
		if c.remedies == nil {
			p.wrapped("  ", 4, fmt.Sprintf("No %s alone makes it pass.", short(c.checks[0].worst.Key)))
		}
	}
}

// add takes in what is told of one more check.
func (c *counsel) add(o *counsel) {
	c.parts = union(c.parts, o.parts)
	for i := range c.fails {
		c.fails[i] = union(c.fails[i], o.fails[i])
	}
	one := o.checks[0]
	same := slices.IndexFunc(c.checks, func(t told) bool { return t.worst.Method == one.worst.Method })
	if same < 0 {
		c.checks = append(c.checks, one)
		return
	}
	t := &c.checks[same]
	t.places = union(t.places, one.places)
	if worse(one.worst, t.worst) < 0 {
		t.worst, t.text = one.worst, one.text
	}
}

// union is the first list and what only the second has.
func union(a, b []string) []string {
	for _, x := range b {
		if !slices.Contains(a, x) {
			a = append(a, x)
		}
	}
	return a
}

// costs names the dimensions whose tolerances cost most.
func (c *counsel) costs() string {
	var texts []string
	for _, d := range c.dear {
		texts = append(texts, fmt.Sprintf("%s %q", place(d.key, c.parts), d.text))
	}
	return strings.Join(texts, ", then to ")
}

// counsel is what is told of one check.
func (p *page) counsel(r *casewright.Result) *counsel {
	a := sizing.Advise(p.report, r)
	t := told{places: []string{r.Part}, worst: r}
	if r.Line > 0 {
		t.places[0] += fmt.Sprintf(" (line %d)", r.Line)
	}
	c := &counsel{parts: []string{r.Part}}
	var costs, gains []string
	for _, cost := range a.Costs {
		c.dear = append(c.dear, dear{cost.Key, cost.Text})
		costs = append(costs, p.measure(r.Method, cost.Cost))
		if !cost.Passes || cost.Better.Key == "" {
			continue
		}
		verb, value := "Hold it tighter, as", cost.Better.Text
		switch {
		case p.isMade(r, cost.Better.Key):
			verb = "Measure it more finely, for example"
		case isTube(cost.Better.Key):
			verb = "Measure the tube and write it, for example"
		}
		if cost.Better.Also != "" {
			value += " " + cost.Better.Also
		}
		c.suggest(remedy{verb, cost.Better.Key, value}, cost.Better.Fails)
		gains = append(gains, p.measure(r.Method, cost.Value))
	}
	switch {
	case costs == nil:
		has, needs := p.units.hasNeeds(r)
		t.text = fmt.Sprintf("%s: %s, %s.", r.Method.Title, has, needs.sentence())
	case gains == nil:
		t.text = strings.Join(costs, " and ") + "."
	default:
		t.text = fmt.Sprintf("%s; mended, it has %s.", strings.Join(costs, " and "), strings.Join(gains, " or "))
	}
	c.checks = []told{t}
	if gains != nil && isTube(a.Costs[0].Better.Key) {
		return c // measuring first is the better counsel
	}
	for _, f := range a.Fixes {
		if gains != nil && len(f.Fails) > 0 {
			continue
		}
		value := f.Text
		if f.Bound != "" {
			value += " " + f.Bound
		}
		if f.Also != "" {
			value += " with " + f.Also
		}
		verb := "Write"
		if p.isMade(r, f.Key) {
			verb = "It is made; a new one must have"
		}
		c.suggest(remedy{verb, f.Key, value}, f.Fails)
	}
	return c
}

func (c *counsel) suggest(w remedy, fails []string) {
	c.remedies, c.fails = append(c.remedies, w), append(c.fails, fails)
}

// isMade tells whether a key of a check is a size that was measured.
func (p *page) isMade(r *casewright.Result, key string) bool {
	part := int(r.Check.Part)
	if isTube(key) {
		part = 0
	}
	return p.report.Design.IsMade(part, key)
}

func isTube(key string) bool { return strings.HasPrefix(key, "tube.") }

// short is a key without its table.
func short(key string) string { return key[strings.LastIndexByte(key, '.')+1:] }

// place names a key with its table, and the ends that the table is of, as the
// reader's errors do: [end.seal] of "nozzle": groove_diameter.
func place(key string, parts []string) string {
	table := strings.TrimSuffix(key, "."+short(key))
	ends := `"` + strings.Join(parts, `" and "`) + `"`
	switch {
	case table == "end":
		return fmt.Sprintf("[[end]] %s: %s", ends, short(key))
	case strings.HasPrefix(table, "end."):
		return fmt.Sprintf("[%s] of %s: %s", table, ends, short(key))
	}
	return fmt.Sprintf("[%s] %s", table, short(key))
}

// measure is a value of a limit check, or a margin.
func (p *page) measure(m *margin.Method, x float64) string {
	if m.Kind == margin.Strength {
		return "a margin of " + Margin(x)
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
