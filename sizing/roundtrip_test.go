package sizing

import (
	"testing"

	"github.com/shopspring/decimal"
	"pgregory.net/rapid"

	"casewright"
	"casewright/margin"
)

// The tests of this file put answers back: what is told must pass the checks
// of casewright.Check, and one smallest step worse must not. Nothing here
// computes a size.

// many runs a property over more designs than one run of rapid draws.
func many(t *testing.T, times int, property func(*rapid.T)) {
	for range times {
		rapid.Check(t, property)
	}
}

// failing lists the checks that do not pass.
func failing(d *casewright.Design) map[string]bool {
	list := map[string]bool{}
	r := casewright.Check(d)
	for i := range r.Results {
		if v := r.Results[i].Verdict; v != margin.Pass && v != margin.Noted {
			list[r.Results[i].ID()] = true
		}
	}
	return list
}

// only keeps the tube of a random motor, and of one end the keys given.
func only(d *casewright.Design, part int, keys ...string) *casewright.Design {
	c := d.Clone()
	c.Open = true
	for _, k := range casewright.Keys() {
		if k.Table() == "tube" || k.Table() == "motor" || k.Table() == "factors" || contains(keys, k.Path) {
			continue
		}
		for i := range c.Ends {
			c.Clear(k.Path, i+1)
		}
	}
	if part == 0 {
		c.Ends = nil
	} else {
		c.Ends = c.Ends[part-1 : part]
		c.Ends[0].Screws.InShear = d.Ends[part-1].Screws.InShear
	}
	return c
}

func contains(list []string, key string) bool {
	for _, k := range list {
		if k == key {
			return true
		}
	}
	return false
}

// holdValue holds that the exact size passes all that the drawn one passes,
// that one smallest step worse fails what governs, and that the drawn size
// fails no more than the exact one.
func holdValue(t rapid.TB, a *Answer, v *Value, part int) {
	field := func(d *casewright.Design) *casewright.Dimension {
		return casewright.FindKey(v.Key).Field(d, part).(*casewright.Dimension)
	}
	with := func(size decimal.Decimal) *casewright.Design {
		c := a.Design.Clone()
		f := field(c)
		f.Dimension = f.Exact().WithNominal(size)
		return c
	}
	if !v.Exact.IsSet() {
		return
	}
	exact := with(v.Exact.Nominal())
	if err := exact.Faults(); err != nil {
		t.Fatalf("%s = %s cannot be built: %v", v.Key, v.Exact.String(), err)
	}
	drawn, bare := failing(a.Design), failing(exact)
	for id := range bare {
		if !drawn[id] {
			t.Fatalf("%s = %s: %s fails, and passes as drawn, %s", v.Key, v.Exact.String(), id, v.Drawing)
		}
	}
	for id := range drawn {
		if bare[id] {
			continue
		}
		// Its tolerance leaves no place for it: then no other drawn size passes.
		s := &solver{design: a.Design.Clone(), unit: unitOf(a.Design)}
		w := &wanted{find(v.Key), part, nil}
		for n := range int64(120) {
			size := s.drawn(w, upTo(v.Exact.Nominal(), w.step(s.unit)).Add(w.better(w.step(s.unit).Mul(decimal.NewFromInt(n)))))
			if size.Nominal().Cmp(w.to(&site{s.design, part})) > 0 {
				break // farther than is looked
			}
			if c := s.at(w, size); c.Faults() == nil && subset(failing(c), bare) {
				t.Fatalf("%s = %s as drawn: %s fails, and passes with %s", v.Key, v.Drawing, id, size.String())
			}
		}
		break
	}
	step := smallestStep
	if v.AtMost {
		step = step.Neg()
	}
	worse := with(v.Exact.Nominal().Sub(step))
	if v.Governs.Method == nil {
		if v.Governs.Text != "" && worse.Faults() == nil {
			t.Fatalf("%s: one step worse can be built, told: %s", v.Key, v.Governs.Text)
		}
		return
	}
	if worse.Faults() == nil && !failing(worse)[v.Governs.ID()] {
		t.Fatalf("%s: one step worse than %s, %s passes", v.Key, v.Exact.String(), v.Governs.ID())
	}
}

// subset tells that a set holds nothing that another does not.
func subset(a, b map[string]bool) bool {
	for id := range a {
		if !b[id] {
			return false
		}
	}
	return true
}

func TestPropertyWallPasses(t *testing.T) {
	found := 0
	many(t, 10, func(t *rapid.T) {
		d := only(drawn(t), 0)
		a, err := Wall(d, Options{})
		if err != nil {
			t.Fatal(err)
		}
		found++
		holdValue(t, a, &a.Values[0], 0)
		for i := range a.Options {
			if o := failing(a.Options[i].Report.Design); len(o) > len(failing(a.Design)) {
				t.Fatalf("a wall in stock fails %v", o)
			}
		}
	})
	if found < 1000 {
		t.Errorf("only %d walls were asked for", found)
	}
}

func TestPropertyPressurePasses(t *testing.T) {
	many(t, 10, func(t *rapid.T) {
		d := only(drawn(t), 0)
		d.Clear("motor.pressure", 0)
		a, err := Pressure(d, Options{})
		if err != nil {
			t.Fatal(err)
		}
		if !a.Found() {
			return // refused at any pressure
		}
		v := &a.Values[0]
		if failing(a.Design)[v.Governs.ID()] {
			t.Fatalf("%s fails %s", v.Drawing, v.Governs.ID())
		}
		worse := a.Design.Clone()
		step := decimal.New(1, -3)
		if v.Amount.Unit().Symbol() == "psi" {
			step = decimal.New(1, -1)
		}
		worse.Pressure = pressure(v.Amount.Value().Add(step), v.Amount.Unit())
		if !failing(worse)[v.Governs.ID()] {
			t.Fatalf("%s: a step more passes %s", v.Drawing, v.Governs.ID())
		}
	})
}

var rowKeys = []string{
	"end.name", "end.kind", "end.temperature", "end.screws.thread", "end.screws.class", "end.screws.count", "end.screws.hole",
	"end.screws.share", "end.screws.edge_break", "end.screws.head", "end.screws.head_depth", "end.screws.threads_in_shear",
}

func TestPropertyEdgePasses(t *testing.T) {
	many(t, 5, func(t *rapid.T) {
		a, err := Edge(only(drawn(t), 1, rowKeys...), 1, Options{})
		if err != nil {
			t.Fatal(err)
		}
		holdValue(t, a, &a.Values[0], 1)
	})
}

func TestPropertyScrewsPass(t *testing.T) {
	many(t, 1, func(t *rapid.T) {
		keys := []string{"end.name", "end.kind", "end.temperature"}
		if rapid.IntRange(0, 4).Draw(t, "all threads") > 0 {
			keys = append(keys, "end.screws.thread")
		}
		d := only(drawn(t), 1, keys...)
		a, err := Screws(d, 1, Options{})
		if err != nil {
			t.Fatal(err)
		}
		for i := range a.Options {
			o := &a.Options[i]
			for id := range failing(o.Report.Design) {
				if id != "tube/"+id[len("tube/"):] {
					t.Fatalf("%v fails %s", o.Sets, id)
				}
			}
			if o.Count > o.Most {
				t.Fatalf("%v: %d screws, and %d fit", o.Sets, o.Count, o.Most)
			}
			if i > 0 && few(a.Options[i-1].Count) == few(o.Count) && a.Options[i-1].Count > o.Count {
				t.Fatalf("%v stands behind more screws", o.Sets)
			}
		}
	})
}

func TestPropertyGroovePasses(t *testing.T) {
	found := 0
	many(t, 1, func(t *rapid.T) {
		keys := []string{"end.name", "end.kind", "end.material", "end.temperature", "end.seal.compound", "end.seal.hardness"}
		if rapid.IntRange(0, 4).Draw(t, "all rings") > 0 {
			keys = append(keys, "end.seal.size", "end.seal.section", "end.seal.inside_diameter")
		}
		d := only(drawn(t), 1, keys...)
		a, err := Groove(d, 1, Options{})
		if err != nil {
			t.Fatal(err)
		}
		for i := range a.Options {
			found++
			if i > 0 && squeezeOf(a.Options[i-1].Report) < squeezeOf(a.Options[i].Report) {
				t.Fatalf("%v stands before a ring with more room", a.Options[i-1].Sets)
			}
			r := a.Options[i].Report
			for j := range r.Results {
				one := &r.Results[j]
				if contains([]string{"end.seal.compound", "end.seal.hardness"}, one.Method.Key) || one.Part == "tube" {
					continue // no ring or groove mends them; the verdict tells
				}
				if one.Verdict != margin.Pass && one.Verdict != margin.Noted {
					t.Fatalf("%v fails %s", a.Options[i].Sets, one.ID())
				}
			}
		}
	})
	if found < 5 {
		t.Errorf("only %d grooves were found", found)
	}
}

// TestPropertyOpenIsAsWhole takes keys out of random motors: every check that
// is left has the outcome it had, and those that are gone needed a key.
func TestPropertyOpenIsAsWhole(t *testing.T) {
	many(t, 5, func(t *rapid.T) {
		whole := drawn(t)
		before := map[string]casewright.Result{}
		for _, r := range casewright.Check(whole).Results {
			before[r.ID()] = r
		}
		c := whole.Clone()
		c.Open = true
		for _, k := range casewright.Keys() {
			if !k.Required || k.Path == "end.name" || k.Path == "end.kind" || rapid.IntRange(0, 5).Draw(t, k.Path) > 0 {
				continue
			}
			for part := range len(c.Ends) + 1 {
				if (part == 0) == (k.Table() == "tube" || k.Table() == "motor") {
					c.Clear(k.Path, part)
				}
			}
		}
		if c.Faults() != nil {
			return // what is left does not go together any more
		}
		for _, r := range casewright.Check(c).Results {
			was, ok := before[r.ID()]
			if !ok {
				t.Fatalf("%s is new", r.ID())
			}
			if r.Notes.Has(margin.WallVariation) && c.Tube.Material.Material == nil {
				continue // its form is not known, and the wall taken as thinner
			}
			if r.Verdict != was.Verdict || r.Notes != was.Notes || r.Reason != was.Reason ||
				!(r.Margin == was.Margin || r.Margin != r.Margin && was.Margin != was.Margin) ||
				!(r.Nominal == was.Nominal || r.Nominal != r.Nominal && was.Nominal != was.Nominal) {
				t.Fatalf("%s: %v %g %v, as whole %v %g %v", r.ID(), r.Verdict, r.Margin, r.Notes.List(), was.Verdict, was.Margin, was.Notes.List())
			}
		}
	})
}
