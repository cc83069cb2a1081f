package sizing

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"github.com/shopspring/decimal"

	"casewright"
	"casewright/margin"
	"casewright/materials"
	"casewright/quantity"
	"casewright/seal"
)

// A Goal says which of the designs that pass is the best.
type Goal uint8

// The goals.
const (
	LeastMass   Goal = iota // of tube, screws and plate
	FewestHoles             // then mass
	MostMargin              // the greatest least margin of the strengths that the wanted values can move
)

// Fill finds the wanted values of an open design: those that pass and serve the
// goal best. Where there is a stock, tubes,
// screws and rings are taken from it. The error is a casewright.Errors.
func Fill(d *casewright.Design, unknowns []casewright.Unknown, stock *casewright.Stock, goal Goal) (*Answer, error) {
	if err := fillable(d, unknowns, stock); err != nil {
		return nil, err
	}
	f := &filler{unknowns, stock, goal}
	best := f.fill(d, 0)
	if goal == MostMargin && best.holds() {
		best = f.most(d, best)
	}
	return f.answer(best, d), nil
}

// most raises the least margin of the strengths that what is wanted can move,
// as far as every check still passes, in halving steps.
func (f *filler) most(d *casewright.Design, best *filled) *filled {
	base, low, high := strengths(best.solver.design), 0.0, 4.0
	for range 6 {
		need := (low + high) / 2
		more := f.fill(d, need)
		reached := more.holds()
		for id, margin := range strengths(more.solver.design) {
			fixed := math.Abs(margin-base[id]) <= 1e-9 // nothing wanted moves it
			reached = reached && (margin >= need-1e-9 || fixed)
		}
		if reached {
			best, low = more, need
		} else {
			high = need
		}
	}
	return best
}

// strengths are the margins of the checks that compare a strength with a load.
func strengths(d *casewright.Design) map[string]float64 {
	list := map[string]float64{}
	r := casewright.Check(d)
	for i := range r.Results {
		if one := &r.Results[i]; one.Method.Kind == margin.Strength {
			list[one.ID()] = one.Margin
		}
	}
	return list
}

// choices are the keys that are chosen from a list.
var choices = []string{"end.screws.thread", "end.screws.class", "end.screws.count", "end.screws.hole", "end.seal.size"}

// stockKeys are the keys that only a stock decides.
var stockKeys = []string{"tube.inside_diameter", "tube.material", "end.seal.compound", "end.seal.hardness"}

// fillable returns an error for every wanted value that no check decides.
func fillable(d *casewright.Design, unknowns []casewright.Unknown, stock *casewright.Stock) error {
	var list casewright.Errors
	for _, u := range unknowns {
		if u.Key == "tube.outside_diameter" && !d.Tube.Inside.IsSet() && stock == nil {
			list = append(list, &casewright.Error{
				File: d.File, Line: u.Line, Column: u.Column, Key: u.Key,
				Message: `tube.outside_diameter: "?" can be found beside inside_diameter only`, Write: "inside_diameter, the bore, in place of wall",
			})
			continue
		}
		if find(u.Key) != nil || slices.Contains(choices, u.Key) {
			continue
		}
		message, write := "no check decides this value", "a value; what can be found is "+strings.Join(Wanted(), ", ")
		if slices.Contains(stockKeys, u.Key) {
			if stock != nil && (strings.HasPrefix(u.Key, "tube.") && len(stock.Tubes) > 0 || strings.HasPrefix(u.Key, "end.seal.") && len(stock.Rings) > 0) {
				continue
			}
			message, write = "only a stock decides this value", "a value, or give a stock file that has such parts"
		}
		list = append(list, &casewright.Error{
			File: d.File, Line: u.Line, Column: u.Column, Key: u.Key,
			Message: fmt.Sprintf("%s of %s: %q: %s", u.Key, partName(d, u.Part), casewright.Wanted, message), Write: write,
		})
	}
	if list == nil {
		return nil
	}
	return list
}

// Wanted returns the keys whose values can be found without a stock, those that
// are settled first before the others.
func Wanted() []string {
	var list []string
	for _, v := range variables {
		list = append(list, v.key)
	}
	return append(list, choices...)
}

type filler struct {
	unknowns []casewright.Unknown
	stock    *casewright.Stock
	goal     Goal
}

// filled is a design in which everything wanted has been settled.
type filled struct {
	solver  *solver
	problem string // which screw, ring or tube was not found; empty if all were
	mass    float64
}

// holds tells whether every check holds.
func (f *filled) holds() bool {
	if f.problem != "" {
		return false
	}
	t := try(f.solver.design)
	return t.faults == nil && !slices.ContainsFunc(t.checks, func(c margin.Check) bool { return c.Verdict != margin.Pass && c.Verdict != margin.Noted })
}

func (f *filler) wants(key string, part int) bool {
	return slices.ContainsFunc(f.unknowns, func(u casewright.Unknown) bool { return u.Key == key && u.Part == part })
}

// fill settles everything for each tube that may be had, and keeps the best.
func (f *filler) fill(d *casewright.Design, need float64) *filled {
	var best *filled
	for _, tube := range f.tubes(d) {
		for _, wall := range f.walls(tube, need) {
			if wall.Sign() > 0 && best != nil && f.settled(tube, wall, best) {
				break
			}
			one := f.settle(tube, wall, need)
			if best == nil || one.better(best, f.goal) {
				best = one
			}
		}
	}
	if best == nil {
		best = &filled{solver: &solver{design: d.Clone(), unit: unitOf(d)}, problem: "no tube of the stock agrees with what the design gives of its tube: the same two sizes, their tolerances included, wall_variation and material"}
	}
	return best
}

// settled tells that no thicker wall can do better than what has been found:
// its tube alone is heavier, or the screws are as few as they may be.
func (f *filler) settled(d *casewright.Design, wall decimal.Decimal, best *filled) bool {
	if !best.holds() || f.goal == MostMargin {
		return false
	}
	if f.goal == FewestHoles {
		return best.holes() <= aRing*len(d.Ends)
	}
	s := &solver{design: d.Clone(), unit: unitOf(d)}
	s.design.Tube.Wall = s.drawn(&wanted{find("tube.wall"), 0, nil}, wall)
	return float64(massPerMetre(s.design))*d.Tube.Length.Nominal().InexactFloat64() >= best.mass
}

// better tells whether a design holds where the other does not, has fewer holes
// or lacks less margin where that is the goal, or is lighter.
func (f *filled) better(other *filled, goal Goal) bool {
	if a, b := f.holds(), other.holds(); a != b {
		return a
	}
	if a, b := f.holes(), other.holes(); goal == FewestHoles && a != b {
		return a < b
	}
	if a, b := f.short(), other.short(); goal == MostMargin && math.Abs(a-b) > 1e-9 {
		return a < b
	}
	return f.mass < other.mass
}

// short is how much the strengths lack together of the margin that is needed.
func (f *filled) short() float64 {
	sum := 0.0
	for _, m := range strengths(f.solver.design) {
		if !(m >= f.solver.need) {
			sum += f.solver.need - math.Max(-1, m)
		}
	}
	return sum
}

// holes counts the screws of both ends.
func (f *filled) holes() int {
	n := 0
	for i := range f.solver.design.Ends {
		n += f.solver.design.Ends[i].Screws.Count.Value
	}
	return n
}

// tubes are the designs with each tube of the stock that agrees with what is
// given; the design itself where no tube is wanted from a stock.
func (f *filler) tubes(d *casewright.Design) []*casewright.Design {
	wants := f.wants("tube.outside_diameter", 0) || f.wants("tube.inside_diameter", 0) || f.wants("tube.wall", 0) || f.wants("tube.material", 0)
	if !wants || f.stock == nil || len(f.stock.Tubes) == 0 {
		return []*casewright.Design{d}
	}
	var list []*casewright.Design
	for _, tube := range f.stock.Tubes {
		c := d.Clone()
		agrees := true
		for _, one := range []struct {
			own, has *casewright.Dimension
			key      string
		}{
			{&c.Tube.Outside, &tube.Outside, "tube.outside_diameter"},
			{&c.Tube.Inside, &tube.Inside, "tube.inside_diameter"},
			{&c.Tube.Wall, &tube.Wall, "tube.wall"},
		} {
			switch {
			case f.wants(one.key, 0):
				agrees = agrees && one.has.IsSet()
				*one.own = *one.has
			case one.own.IsSet():
				agrees = agrees && one.has.Equal(one.own.Dimension)
			}
		}
		agrees = agrees && c.Tube.Variation.Equal(tube.Variation.Dimension)
		if f.wants("tube.material", 0) {
			c.Tube.Material = tube.Material
		} else {
			agrees = agrees && c.Tube.Material.Material == tube.Material.Material
		}
		if agrees {
			list = append(list, c)
		}
	}
	return list
}

// walls are the walls with which screws are chosen, thin to thick; the zero
// size where the wall is known or no screw is to be chosen. A thicker wall may
// save more in screws than it weighs.
func (f *filler) walls(d *casewright.Design, need float64) []decimal.Decimal {
	if d.Tube.Wall.IsSet() || !f.wants("tube.wall", 0) || !f.choosesScrews(d) {
		return []decimal.Decimal{decimal.Zero}
	}
	alone := d.Clone()
	alone.Ends = nil
	a, err := Wall(alone, Options{Margin: need})
	if err != nil || !a.Found() {
		return []decimal.Decimal{decimal.Zero}
	}
	var list []decimal.Decimal
	least := upTo(a.Design.Tube.Wall.Nominal(), mm("0.1"))
	for _, times := range []string{"1", "1.2", "1.5", "1.9", "2.4", "3"} {
		list = append(list, upTo(least.Mul(decimal.RequireFromString(times)), mm("0.1")))
	}
	for _, wall := range []string{"1", "1.5", "2.5"} { // where pressure alone asks for next to nothing
		if mm(wall).Cmp(list[len(list)-1]) > 0 {
			list = append(list, mm(wall))
		}
	}
	return list
}

func (f *filler) choosesScrews(d *casewright.Design) bool {
	for i := range d.Ends {
		for _, key := range choices[:3] {
			if f.wants(key, i+1) {
				return true
			}
		}
	}
	return false
}

// settle chooses rings and screws, and settles all sizes.
func (f *filler) settle(d *casewright.Design, wall decimal.Decimal, need float64) *filled {
	s := &solver{design: d.Clone(), unit: unitOf(d), need: need}
	// In the order of the variables: the heaviest first.
	for _, v := range variables {
		for _, u := range f.unknowns {
			if u.Key == v.key && !v.dimension(&site{s.design, u.Part}).IsSet() {
				s.sizes = append(s.sizes, &wanted{v, u.Part, nil})
			}
		}
	}
	for _, w := range s.sizes {
		if where := (&site{s.design, w.part}); w.part == 0 {
			*w.dimension(where) = s.drawn(w, s.seed(w, where))
			if w.key == "tube.wall" && wall.Sign() > 0 {
				*w.dimension(where) = s.drawn(w, wall)
			}
		}
	}
	one := &filled{solver: s}
	for part := 1; part <= len(s.design.Ends); part++ {
		one.problem = cmp.Or(one.problem, f.ring(s, part), f.screws(s, part))
	}
	if wall.Sign() > 0 {
		// The screws have been chosen for this wall: it stays for now.
		all := s.sizes
		s.sizes = slices.DeleteFunc(slices.Clone(all), func(w *wanted) bool { return w.key == "tube.wall" })
		s.settle()
		s.sizes = all
		s.resettle()
	} else {
		s.settle()
	}
	one.mass = mass(s.design)
	return one
}

// ring chooses the ring of an end where it is wanted, the one that comes nearest
// where none holds. It tells why none could be tried; empty if one could.
func (f *filler) ring(s *solver, part int) (problem string) {
	if !f.wants("end.seal.size", part) && !f.wants("end.seal.compound", part) && !f.wants("end.seal.hardness", part) {
		return ""
	}
	c := &solver{design: s.design.Clone(), unit: s.unit, need: s.need}
	for _, w := range s.sizes {
		if slices.Contains(grooveSizes, w.key) && w.part == part || w.key == "tube.lead_in" {
			c.design.Clear(w.key, w.part)
		}
	}
	var best *Option
	var missed nearest
	for _, one := range f.rings(c, part) {
		own := &c.design.Ends[part-1].Seal
		if f.wants("end.seal.compound", part) {
			own.Compound = one.Compound
		}
		if f.wants("end.seal.hardness", part) {
			own.Hardness = one.Hardness
		}
		option, ok := c.gland(part, one.Ring.Ring, Options{}, &missed)
		if ok && (best == nil || squeezeOf(option.Report) > squeezeOf(best.Report)) {
			best = &option
		}
	}
	chosen := missed.design
	if best != nil {
		chosen = best.Report.Design
	}
	if chosen == nil {
		return cmp.Or(missed.fault, "no ring that may be used fits the bore at "+partName(s.design, part))
	}
	s.design.Ends[part-1].Seal = chosen.Ends[part-1].Seal
	return ""
}

// rings are the rings to choose from: those of the stock, or all that fit.
func (f *filler) rings(s *solver, part int) []casewright.Seal {
	var list []casewright.Seal
	fitting := s.rings(part)
	if f.stock == nil || len(f.stock.Rings) == 0 {
		for _, ring := range fitting {
			list = append(list, casewright.Seal{Ring: casewright.Ring{Ring: ring}})
		}
		return list
	}
	own := &s.design.Ends[part-1].Seal
	for _, one := range f.stock.Rings {
		agrees := one.Ring.Name != "" && slices.ContainsFunc(fitting, func(r seal.Ring) bool { return r.Name == one.Ring.Name })
		if own.Compound.Name != "" {
			agrees = agrees && (one.Compound.Name == "" || one.Compound.Name == own.Compound.Name)
		} else {
			agrees = agrees && one.Compound.Name != ""
		}
		if own.Hardness.Value > 0 {
			agrees = agrees && (one.Hardness.Value == 0 || one.Hardness.Value == own.Hardness.Value)
		} else {
			agrees = agrees && one.Hardness.Value > 0
		}
		if agrees {
			list = append(list, one)
		}
	}
	return list
}

// screws chooses the screws of an end where they are wanted, the lightest or
// the fewest, those that come nearest where none hold. It tells why none could
// be tried; empty if some could.
func (f *filler) screws(s *solver, part int) (problem string) {
	w := &s.design.Ends[part-1].Screws
	chooses := false
	for _, key := range choices[:3] {
		chooses = chooses || f.wants(key, part)
	}
	if !chooses {
		if err := s.clearanceHole(part); err != nil {
			return firstFault(err)
		}
		return ""
	}
	c := &solver{design: s.design.Clone(), unit: s.unit, need: s.need, sizes: s.sizes}
	if f.wants("end.screws.edge", part) {
		c.design.Clear("end.screws.edge", part)
	}
	var missed nearest
	list := c.rows(part, f.kinds(c, part), Options{}, &missed)
	if sortRows(list); f.goal != FewestHoles {
		slices.SortStableFunc(list, func(a, b Option) int {
			return cmp.Or(few(a.Count)-few(b.Count), cmp.Compare(weighed(a.Mass), weighed(b.Mass)))
		})
	}
	chosen := missed.design
	if len(list) > 0 {
		chosen = list[0].Report.Design
	}
	if chosen == nil {
		return cmp.Or(missed.fault, "no row of the screws that may be used holds "+partName(s.design, part))
	}
	*w = chosen.Ends[part-1].Screws
	return ""
}

// weighed puts what has no known mass last.
func weighed(m quantity.Mass) quantity.Mass {
	if m <= 0 {
		return quantity.Mass(math.Inf(1))
	}
	return m
}

// kinds are the screws to choose from: those of the stock that agree with what
// is given, or all.
func (f *filler) kinds(s *solver, part int) []kind {
	if f.stock == nil || len(f.stock.Screws) == 0 {
		return s.kinds(part)
	}
	own := &s.design.Ends[part-1].Screws
	var list []kind
	for _, one := range f.stock.Screws {
		if own.Thread.Name != "" && own.Thread.Name != one.Thread.Name || own.Class.Name != "" && own.Class.Name != one.Class.Name {
			continue
		}
		k := kind{one.Thread.Thread, one.Class.Class, mostScrews}
		if n := one.Count.Value; n > 0 {
			k.most = n - used(s.design, part, one)
		}
		list = append(list, k)
	}
	return list
}

// used counts the screws of a kind in the ends before one.
func used(d *casewright.Design, part int, kind casewright.Screws) int {
	n := 0
	for i := range d.Ends[:part-1] {
		if w := &d.Ends[i].Screws; w.Thread.Name == kind.Thread.Name && w.Class.Name == kind.Class.Name {
			n += w.Count.Value
		}
	}
	return n
}

// mass is that of tube, screws and plates at nominal sizes, in kg: what the
// wanted values change most. Source: geometry.
func mass(d *casewright.Design) float64 {
	bore, wall, ok := d.Tube.Nominal()
	if !ok || d.Tube.Material.Material == nil {
		return math.Inf(1)
	}
	total := float64(massPerMetre(d)) * d.Tube.Length.Nominal().InexactFloat64()
	for i := range d.Ends {
		e := &d.Ends[i]
		if one, ok := e.Screws.Thread.CapScrewMass(quantity.LengthOf(wall.Add(e.Screws.Engagement.Nominal()))); ok {
			total += float64(one) * float64(e.Screws.Count.Value)
		}
		if e.Plate.IsSet() && e.Material.Material != nil {
			radius := bore.InexactFloat64() / 2
			total += math.Pi * radius * radius * e.Plate.Nominal().InexactFloat64() * e.Material.At(materials.Density, roomTemperature).SI
		}
	}
	return total
}

// answer tells what was found for each wanted value, in the order of the file.
func (f *filler) answer(one *filled, d *casewright.Design) *Answer {
	s := one.solver
	s.need = 0 // what a size must be to pass, whatever the goal
	a := &Answer{Question: "size", Design: s.design, Nearest: !one.holds(), Problem: one.problem, Mass: quantity.Mass(one.mass)}
	s.design.Open = s.design.Faults() != nil || one.problem != ""
	a.Report = casewright.Check(s.design)
	for _, u := range f.unknowns {
		v := Value{Key: u.Key, Part: partName(d, u.Part), Drawing: casewright.FindKey(u.Key).Text(s.design, u.Part)}
		for _, w := range s.sizes {
			if w.key == u.Key && w.part == u.Part {
				v = s.value(w)
			}
		}
		if u.Key == "end.screws.count" && one.problem == "" {
			v.Governs = s.governsCount(u.Part)
		}
		a.Values = append(a.Values, v)
	}
	return a
}

// governsCount is what fails with one screw less.
func (s *solver) governsCount(part int) Governor {
	c := s.design.Clone()
	now := try(c)
	if c.Ends[part-1].Screws.Count.Value--; c.Ends[part-1].Screws.Count.Value < 1 || now.faults != nil {
		return Governor{}
	}
	t := try(c)
	return s.governor(&t, s.asked([]trial{now}))
}
