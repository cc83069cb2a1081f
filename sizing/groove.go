package sizing

import (
	"cmp"
	"math"
	"slices"

	"github.com/shopspring/decimal"

	"casewright"
	"casewright/margin"
	"casewright/quantity"
	"casewright/seal"
)

// A Cost is what the tolerance of one dimension takes from the squeeze, in
// parts of the section: of the least, and how much it adds to the greatest.
type Cost struct {
	Key         string
	Text        string // the dimension, with its tolerance
	Least, Most float64
}

// sealed are the keys of the checks that ring and groove must hold.
var sealed = []string{"end.seal.groove_", "end.outside_diameter", "tube.lead_in"}

// grooveSizes are the sizes of a seal that are found, the end first.
var grooveSizes = []string{"end.outside_diameter", "end.seal.groove_width", "end.seal.groove_diameter"}

// Groove finds ring and groove for a bore: of one section or ring where the
// design gives it, else of all rings, ranked by the room that their squeeze
// leaves. The bore is given; what else is given, such as pressure, hardness,
// compound and the tube's wall and material, is asked too. The error is a
// casewright.Errors.
func Groove(d *casewright.Design, part int, o Options) (*Answer, error) {
	if !(&site{d, part}).hasBore() {
		return nil, needs(d, part, "tube.inside_diameter")
	}
	if own := &d.Ends[part-1].Seal; own.Inside.IsSet() && !own.Section.IsSet() {
		return nil, needs(d, part, "end.seal.section")
	}
	s := o.solver(d)
	a := &Answer{Question: "groove", Part: partName(s.design, part), Design: s.design}
	var missed nearest
	for _, ring := range s.rings(part) {
		if option, ok := s.gland(part, ring, o, &missed); ok {
			a.Options = append(a.Options, option)
		}
	}
	slices.SortStableFunc(a.Options, func(a, b Option) int { return -cmp.Compare(squeezeOf(a.Report), squeezeOf(b.Report)) })
	if len(a.Options) == 0 {
		a.Problem = "no ring fits this bore: its stretch would lie outside 0 to 5 %"
		a.miss(&missed)
		return a, nil
	}
	best := &a.Options[0]
	a.Design, a.Report = best.Report.Design, best.Report
	for _, set := range best.Sets {
		a.Values = append(a.Values, Value{Key: set.Key, Part: partName(a.Design, part), Drawing: set.Text})
	}
	a.Budget = budget(a.Design, part)
	a.Lacks = lacks(a.Report, part, seal.Methods())
	return a, nil
}

func (s *site) hasBore() bool {
	_, _, ok := s.design.Tube.Nominal()
	return ok || s.design.Tube.Inside.IsSet()
}

func squeezeOf(r *casewright.Report) float64 {
	checks := make([]margin.Check, len(r.Results))
	for i := range r.Results {
		checks[i] = r.Results[i].Check
	}
	return squeezeRoom(checks)
}

// rings are the rings to try: the given one, or those of the standard, of the
// given section if there is one, whose stretch can lie within its limits.
func (s *solver) rings(part int) []seal.Ring {
	own := &s.design.Ends[part-1].Seal
	if own.Ring.Name != "" || own.Inside.IsSet() {
		return []seal.Ring{own.Ring.Ring}
	}
	bore := (&site{s.design, part}).bore()
	section := own.Section.Nominal()
	return slices.DeleteFunc(seal.Rings(), func(r seal.Ring) bool {
		if section.Sign() > 0 && section.Sub(r.Section).Abs().Cmp(mm("0.06")) > 0 {
			return true
		}
		shallow := quantity.LengthOf(bore.Sub(times(r.Section, "1.35")))
		deep := quantity.LengthOf(bore.Sub(times(r.Section, "1.85")))
		inside := quantity.LengthOf(r.Inside)
		return seal.Stretch(shallow, inside) < 0 || seal.Stretch(deep, inside) > 0.05
	})
}

// gland finds the groove of one ring.
func (s *solver) gland(part int, ring seal.Ring, o Options, missed *nearest) (Option, bool) {
	c := &solver{design: s.design.Clone(), unit: s.unit, need: s.need}
	own := &c.design.Ends[part-1].Seal
	if ring.Name != "" {
		own.Section, own.Inside = casewright.Dimension{}, casewright.Dimension{}
		own.Ring = casewright.Ring{Ring: ring, Place: casewright.Place{Key: "end.seal.size"}}
	}
	for _, key := range grooveSizes {
		w := &wanted{find(key), part, o.Tolerance}
		if key != "end.seal.groove_diameter" {
			w.tolerance = nil
		}
		if isSet(casewright.FindKey(key).Field(c.design, part)) || key == "end.seal.groove_width" && own.Compound.Name == "" {
			continue
		}
		c.sizes = append(c.sizes, w)
	}
	if !c.design.Tube.LeadIn.IsSet() {
		c.sizes = append(c.sizes, &wanted{find("tube.lead_in"), 0, nil})
	}
	c.settle()
	if t := try(c.design); !c.holdsKeys(&t, part, sealed...) {
		missed.note(c.design, &t, part)
		return Option{}, false
	}
	r := casewright.Check(c.design)
	option := Option{Report: r, Least: least(r)}
	if ring.Name != "" {
		option.Sets = append(option.Sets, Set{"end.seal.size", ring.Name})
	}
	for _, w := range c.sizes {
		option.Sets = append(option.Sets, Set{w.key, w.dimension(&site{c.design, w.part}).String()})
	}
	return option, true
}

// budget is what each tolerance costs in squeeze, the dearest first.
func budget(d *casewright.Design, part int) []Cost {
	squeeze := func(d *casewright.Design) (least, most float64) {
		least, most = math.NaN(), math.NaN()
		checks := casewright.NewMotor(d).Evaluate(nil)
		for i := range checks {
			switch c := &checks[i]; {
			case int(c.Part) != part:
			case c.Method == &seal.SqueezeLeastOffset, c.Method == &seal.SqueezeLeast && math.IsNaN(least):
				least = c.Value
			case c.Method == &seal.SqueezeMostOffset, c.Method == &seal.SqueezeMost && math.IsNaN(most):
				most = c.Value
			}
		}
		return least, most
	}
	baseLeast, baseMost := squeeze(d)
	var list []Cost
	add := func(key string, text quantity.Dimension, exact *casewright.Design) {
		least, most := squeeze(exact)
		if c := (Cost{key, text.String(), least - baseLeast, baseMost - most}); c.Least > 1e-9 || c.Most > 1e-9 {
			list = append(list, c)
		}
	}
	for _, k := range casewright.Keys() {
		c := d.Clone()
		field, ok := k.Field(c, part).(*casewright.Dimension)
		if !ok || !field.IsSet() || !field.HasTolerance() {
			continue
		}
		written := field.Dimension
		field.Dimension = written.Exact()
		add(k.Path, written, c)
	}
	if ring := d.Ends[part-1].Seal.Ring.Ring; ring.Name != "" {
		for _, one := range []struct {
			what string
			size quantity.Dimension
			zero func(*seal.Ring)
		}{
			{"section of the ring", ring.SectionDimension(), func(r *seal.Ring) { r.SectionTolerance = decimal.Zero }},
			{"inside diameter of the ring", ring.InsideDimension(), func(r *seal.Ring) { r.InsideTolerance = decimal.Zero }},
		} {
			c := d.Clone()
			one.zero(&c.Ends[part-1].Seal.Ring.Ring)
			add(one.what, one.size, c)
		}
	}
	slices.SortStableFunc(list, func(a, b Cost) int { return -cmp.Compare(a.Least+a.Most, b.Least+b.Most) })
	return list
}
