package sizing

import (
	"cmp"
	"slices"
	"strconv"
	"strings"

	"casewright"
	"casewright/fastener"
	"casewright/margin"
	"casewright/quantity"
)

// The fewest screws that are tried: two are a hinge. On fewer than a ring an
// end rests on points: such rows come last. Source: common practice, no
// source. More than the most do not fit any tube that the rings fit.
const (
	fewestScrews = 3
	aRing        = 6
	mostScrews   = 60
)

// Screws finds the rows of screws that hold one end, numbered part: for every
// thread and class, or the one given, the fewest that pass, with the least
// edge distance, ranked by their number and then by mass. Pressure, two sizes
// of the tube and its material are given. What else the design gives is asked
// too. The error is a casewright.Errors.
func Screws(d *casewright.Design, part int, o Options) (*Answer, error) {
	if err := join(needs(d, part, "motor.pressure", "tube.material"), needTube(d)); err != nil {
		return nil, err
	}
	s := o.solver(d)
	a := &Answer{Question: "screws", Part: partName(s.design, part), Own: o.Tolerance != nil, Design: s.design}
	var missed nearest
	a.Options = withoutIdle(s.rows(part, s.kinds(part), o, &missed))
	sortRows(a.Options)
	if len(a.Options) == 0 {
		a.Problem = "no screw that may be used fits round this tube"
		a.miss(&missed)
		return a, nil
	}
	a.Remarks = s.remarks()
	best := &a.Options[0]
	a.Design, a.Report = best.Report.Design, best.Report
	for _, set := range best.Sets {
		a.Values = append(a.Values, Value{Key: set.Key, Part: partName(a.Design, part), Drawing: set.Text})
	}
	return a, nil
}

// A kind is a screw that may be used, and how many of it at most.
type kind struct {
	thread fastener.Thread
	class  fastener.Class
	most   int
}

// kinds are the screws to try: what is given, or every coarse thread of the
// tube's system and the classes that shops sell.
func (s *solver) kinds(part int) []kind {
	var list []kind
	for _, thread := range s.threads(part) {
		for _, class := range s.classes(part) {
			list = append(list, kind{thread, class, mostScrews})
		}
	}
	return list
}

// threads are those to try: the given one, or those of the tube's system, the
// coarse ones.
func (s *solver) threads(part int) []fastener.Thread {
	if own := s.design.Ends[part-1].Screws.Thread.Thread; own.Name != "" {
		return []fastener.Thread{own}
	}
	metric := s.unit.Symbol() != "in"
	return slices.DeleteFunc(fastener.Threads(), func(t fastener.Thread) bool {
		_, _, sold := t.CapHead() // of M3.5 there are no cap screws
		return t.Metric != metric || !t.Coarse || !sold
	})
}

// classes are those to try: the given one, or those that shops sell.
func (s *solver) classes(part int) []fastener.Class {
	if own := s.design.Ends[part-1].Screws.Class.Class; own.Name != "" {
		return []fastener.Class{own}
	}
	sold := []string{"8.8", "10.9", "12.9", "A2-70"}
	if s.unit.Symbol() == "in" {
		sold = []string{"SAE 5", "SAE 8", "ASTM A574", "A2-70"}
	}
	var list []fastener.Class
	for _, name := range sold {
		if class, ok := fastener.LookupClass(name); ok {
			list = append(list, class)
		}
	}
	return list
}

// rows are the rows of screws that pass, of each kind the fewest that make a
// ring, and the fewest of all.
func (s *solver) rows(part int, kinds []kind, o Options, missed *nearest) []Option {
	var list []Option
	for _, k := range kinds {
		from, to := aRing, k.most
		given := s.design.Ends[part-1].Screws.Count.Value
		if given > 0 {
			from, to = given, min(given, k.most)
		}
		if option, ok := s.row(part, k, from, to, o, missed); ok {
			list = append(list, option)
		}
		if given > 0 {
			continue
		}
		if option, ok := s.row(part, k, fewestScrews, min(from-1, k.most), o, missed); ok {
			list = append(list, option)
		}
	}
	return list
}

// sortRows ranks rows by their number of holes and then by mass; what is no
// ring comes last.
func sortRows(list []Option) {
	slices.SortStableFunc(list, func(a, b Option) int {
		return cmp.Or(few(a.Count)-few(b.Count), cmp.Compare(a.Count, b.Count), cmp.Compare(a.Mass, b.Mass))
	})
}

// few is 1 for a row that is no ring.
func few(count int) int {
	if count < aRing {
		return 1
	}
	return 0
}

// withoutIdle drops the rows whose class saves no screw against one that was
// tried before it, the more common one.
func withoutIdle(list []Option) []Option {
	type row struct{ thread, count string }
	seen := map[row]bool{}
	return slices.DeleteFunc(list, func(o Option) bool {
		r := row{o.Sets[0].Text, o.Sets[2].Text}
		if seen[r] {
			return true
		}
		seen[r] = true
		return false
	})
}

// row finds the fewest screws of one kind, within bounds, that hold the end.
func (s *solver) row(part int, k kind, from, to int, o Options, missed *nearest) (Option, bool) {
	c := &solver{design: s.design.Clone(), unit: s.unit, need: s.need}
	w := &c.design.Ends[part-1].Screws
	w.Thread = casewright.Thread{Thread: k.thread, Place: casewright.Place{Key: "end.screws.thread"}}
	w.Class = casewright.Class{Class: k.class, Place: casewright.Place{Key: "end.screws.class"}}
	if c.clearanceHole(part) != nil {
		return Option{}, false
	}
	for _, size := range s.sizes {
		if where := (&site{c.design, part}); size.part == part && size.key != "end.screws.edge" {
			*size.dimension(where) = c.drawn(size, c.seed(size, where))
		}
	}
	if w.Count.Value == 0 {
		w.Count = casewright.Count{Value: from, Place: casewright.Place{Key: "end.screws.count"}}
	}
	c.settleSeeds(s.sizes, part)
	edge := &wanted{find("end.screws.edge"), part, o.Tolerance}
	own := w.Edge.IsSet()
	for n := from; n <= to; n++ {
		w.Count = casewright.Count{Value: n, Place: casewright.Place{Key: "end.screws.count"}}
		if !own {
			w.Edge = c.drawn(edge, upTo(edge.generous(&site{c.design, part}), edge.step(c.unit)))
		}
		t := try(c.design)
		if t.faults != nil || c.crowded(&t, part) {
			missed.note(c.design, &t, part)
			return Option{}, false
		}
		if !c.holdsKeys(&t, part, "end.screws.") {
			missed.note(c.design, &t, part)
			continue
		}
		if !own {
			if d, ok := c.size(edge); ok {
				w.Edge = d
			}
			if t = try(c.design); !c.holdsKeys(&t, part, "end.screws.") {
				continue
			}
		}
		return c.option(part), true
	}
	return Option{}, false
}

// settleSeeds finds sizes that can be built where generous ones cannot, and the
// spacing of the grooves, of which more leaves the screws less.
func (s *solver) settleSeeds(sizes []*wanted, part int) {
	for _, w := range sizes {
		if w.part != part || w.key == "end.screws.edge" {
			continue
		}
		if t := try(s.design); t.faults == nil && w.key != "end.seal.groove_spacing" {
			continue
		}
		if d, ok := s.size(w); ok {
			*w.dimension(&site{s.design, part}) = d
		}
	}
}

// crowded tells that no more holes fit round the tube. Heads of cap screws,
// below two diameters wide, fit where the holes do.
func (s *solver) crowded(t *trial, part int) bool {
	return slices.ContainsFunc(t.checks, func(c margin.Check) bool {
		return int(c.Part) == part && c.Method == &fastener.Pitch && !good(&c, s.need)
	})
}

// holdsKeys tells whether all checks of one end hold of which the key to change
// begins in one of these ways.
func (s *solver) holdsKeys(t *trial, part int, keys ...string) bool {
	return t.faults == nil && !slices.ContainsFunc(t.checks, func(c margin.Check) bool {
		mine := slices.ContainsFunc(keys, func(key string) bool { return strings.HasPrefix(c.Method.Key, key) })
		return int(c.Part) == part && mine && !good(&c, s.need)
	})
}

// option tells of the row of screws that the design holds.
func (s *solver) option(part int) Option {
	w := &s.design.Ends[part-1].Screws
	set := func(key, text string) Set { return Set{"end.screws." + key, text} }
	r := casewright.Check(s.design)
	o := Option{Report: r, Least: leastStrength(r, part), Count: w.Count.Value, Sets: []Set{
		set("thread", w.Thread.Name), set("class", w.Class.Name), set("count", strconv.Itoa(w.Count.Value)), set("hole", w.Hole.String()), set("edge", w.Edge.String()),
	}}
	_, wall, _ := s.design.Tube.Nominal()
	engaged := quantity.LengthOf(w.Engagement.Nominal())
	if !w.Engagement.IsSet() {
		engaged = 1.5 * quantity.LengthOf(w.Thread.Diameter)
	}
	if one, ok := w.Thread.CapScrewMass(quantity.LengthOf(wall) + engaged); ok {
		o.Mass = one * quantity.Mass(w.Count.Value)
	}
	o.Most = s.mostRound(part)
	return o
}

// mostRound counts the screws of the row that fit round the tube.
func (s *solver) mostRound(part int) int {
	c := &solver{design: s.design.Clone(), unit: s.unit, need: s.need}
	low, high := 1, mostScrews+1
	for high-low > 1 {
		middle := (low + high) / 2
		c.design.Ends[part-1].Screws.Count.Value = middle
		if t := try(c.design); t.faults == nil && !c.crowded(&t, part) {
			low = middle
		} else {
			high = middle
		}
	}
	return low
}
