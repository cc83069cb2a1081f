package bench

import (
	"fmt"
	"math"
	"strings"

	"github.com/shopspring/decimal"

	"casewright"
	"casewright/fastener"
	"casewright/margin"
	"casewright/quantity"
)

// A Step is one thing to do. A Caution tells what may hurt, or what must not
// be done.
type Step struct {
	Group, Text string
	Caution     bool
}

// The groups of steps, in their order.
const (
	GroupBegin    = "Before you begin"
	GroupInspect  = "Inspect and deburr"
	GroupSeals    = "Seals"
	GroupJoin     = "Ends and screws"
	GroupTest     = "Proof test"
	GroupBefore   = "Before each test"
	GroupAfter    = "After each test"
	GroupCautions = "Cautions"
)

// Assembly returns what to do with the parts of a design, in order: from the
// box of parts over the water proof test to the care after each test. Where
// the verdict is not a pass the first step says that nothing may be built, and
// no proof pressure is given. What the steps say beyond the design is common
// practice; SAFETY.md comes before all of it.
func Assembly(r *casewright.Report) []Step {
	s := &stepList{report: r, design: r.Design}
	s.begin()
	s.inspect()
	s.seals()
	s.join()
	s.proof()
	s.tests()
	return s.list
}

type stepList struct {
	report *casewright.Report
	design *casewright.Design
	list   []Step
	group  string
}

func (s *stepList) do(format string, args ...any) {
	s.list = append(s.list, Step{Group: s.group, Text: fmt.Sprintf(format, args...)})
}

func (s *stepList) caution(format string, args ...any) {
	s.list = append(s.list, Step{Group: s.group, Text: fmt.Sprintf(format, args...), Caution: true})
}

func (s *stepList) begin() {
	s.group = GroupBegin
	s.verdict()
	s.do("Have at hand: the design file, its check and this sheet, all of the same date; the certificates of the metal; a notebook for what you measure.")
	var ends []string
	for i := range s.design.Ends {
		ends = append(ends, s.design.Ends[i].Name.Value)
	}
	s.do("Lay out the parts: %s.", strings.Join(append([]string{"tube"}, ends...), ", "))
	if lines := s.counted(func(e *casewright.End) (int, string) { return e.Seal.Count.Value, ringName(&e.Seal) }); lines != "" {
		s.do("New O-rings: %s. Look at the bag: size, compound and date.", lines)
	}
	if lines := s.counted(func(e *casewright.End) (int, string) { return e.Screws.Count.Value, screwName(&e.Screws) }); lines != "" {
		s.do("Screws: %s. Their length is not of the file: the thread must fill its depth in the end and not touch the bottom.", lines)
	}
}

// verdict says first what stands against building at all.
func (s *stepList) verdict() {
	failed, refused, first := 0, 0, ""
	for i := range s.report.Results {
		result := &s.report.Results[i]
		switch result.Verdict {
		case margin.Fail:
			failed++
			if failed == 1 {
				first = result.ID()
			}
		case margin.Refused:
			refused++
			if refused == 1 && failed == 0 {
				first = result.ID()
			}
		}
	}
	switch {
	case s.report.Verdict == margin.Fail:
		s.caution("Do not build or test this design: it fails (%s, %s the first). Change the part, not the factor, and check again.", plural(failed, "check"), first)
	case s.report.Verdict != margin.Pass:
		s.caution("Do not build or test this design: %s refused (%s the first), so nobody knows whether it holds.", wasWere(refused, "check"), first)
	}
	if s.design.Open || s.report.Has("ends_missing") || s.report.Has("not_checked_insert") {
		s.caution("The design is not whole: something that holds pressure was not checked. Complete the file before you go on.")
	}
	if s.report.Has("cold") {
		s.caution("Temperatures are missing: full strength was assumed, and hot metal and hot rings are weaker. Complete the file before you go on.")
	}
	if s.report.Has("reduced_factors") || s.report.Has("own_limits") {
		s.caution("The file asks for less than usual, so a pass means less. Read the notes of the check.")
	}
}

func plural(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}

func wasWere(n int, what string) string {
	if n == 1 {
		return plural(n, what) + " was"
	}
	return plural(n, what) + " were"
}

// counted sums up what is needed at the ends, like with like.
func (s *stepList) counted(of func(*casewright.End) (int, string)) string {
	var names []string
	total := map[string]int{}
	for i := range s.design.Ends {
		n, name := of(&s.design.Ends[i])
		if name == "" {
			continue
		}
		if total[name] == 0 {
			names = append(names, name)
		}
		total[name] += max(1, n)
	}
	for i, name := range names {
		names[i] = fmt.Sprintf("%d × %s", total[name], name)
	}
	return strings.Join(names, "; ")
}

// ringName tells an O-ring in words; empty where it is not known.
func ringName(o *casewright.Seal) string {
	name := o.Ring.Name
	if name == "" && o.Section.IsSet() && o.Inside.IsSet() {
		name = asDrawn(o.Inside.Dimension) + " inside × " + asDrawn(o.Section.Dimension)
	}
	if name == "" {
		return ""
	}
	if o.Compound.Name != "" {
		name += " " + o.Compound.Name
	}
	if o.Hardness.Value > 0 {
		name += fmt.Sprintf(" %d Shore A", o.Hardness.Value)
	}
	return name
}

// screwName tells a screw in words; empty where its thread is not known.
func screwName(w *casewright.Screws) string {
	if w.Thread.Name == "" {
		return ""
	}
	name := w.Thread.Name
	if w.Class.Name != "" {
		name += " class " + w.Class.Name
	}
	if w.Head.Value != "" {
		name += ", " + w.Head.Value + " head"
	}
	return name
}

func (s *stepList) inspect() {
	s.group = GroupInspect
	s.do("Break the inside edge of every hole in the tube and the lead-in at both ends, until a cotton swab drawn over them catches on nothing: each O-ring passes there. Remove no more than the drawing allows.")
	s.do("Round the edges of the grooves and look for burrs, chatter and scratches across the bottom. Look for scratches along the bore.")
	s.do("Wash and dry everything; a chip in a groove is a leak.")
	for _, item := range Inspection(s.report) {
		if item.First {
			s.do("Measure first, at %s: %s, %s to %s %s (%s). Its tolerance costs %s the most.", item.Part, item.What, item.Least, item.Greatest, item.Unit, item.Instrument, item.Check)
		}
	}
	s.do("Then measure all the rest, write it down, put the measured sizes into a copy of the file and check again.")
	s.caution("A part out of its limits is not used because it nearly fits: check again with the measured size, or make it anew.")
}

func (s *stepList) seals() {
	s.group = GroupSeals
	told := map[string]bool{}
	for i := range s.design.Ends {
		e := &s.design.Ends[i]
		if name := ringName(&e.Seal); name != "" {
			s.do("%s: %d × %s, one in each groove. Slide it on without rolling and see that it is not twisted.", e.Name.Value, max(1, e.Seal.Count.Value), name)
		}
		if compound := e.Seal.Compound.Name; compound != "" && !told[compound] {
			told[compound] = true
			s.do("Grease for %s: a thin film on ring, groove and bore. %s Common practice; the ring maker's word goes first.", compound, greaseFor(compound))
		}
	}
	s.do("Look at each ring before it goes in: no cut, flat, crack or dust. A doubtful one is cut through and thrown away.")
	s.caution("O-rings are used once: new ones for the motor after the proof test, and after every test.")
}

// greaseFor is what suits a compound; common practice.
func greaseFor(compound string) string {
	switch compound {
	case "VMQ":
		return "No silicone grease: it swells silicone rubber. Take one that the maker names for it, as a fluorinated grease."
	case "EPDM":
		return "Silicone grease. No mineral oil, petroleum grease or jelly: they swell and soften it."
	case "NBR", "FKM":
		return "Silicone grease or one that the maker names for it."
	}
	return "Only what the maker names for it."
}

func (s *stepList) join() {
	s.group = GroupJoin
	s.do("Mark each end and the tube with a line, so that they go together the same way every time, and number the holes.")
	for i := range s.design.Ends {
		e := &s.design.Ends[i]
		name := e.Name.Value
		if e.Kind.Value == "nozzle" && e.Insert.IsSet() {
			s.do("%s: seat the insert against its lip, clean and without rocking, before the end goes in.", name)
		}
		s.do("%s: push it in straight, by hand, without turning back and forth over the holes. If it sticks, take it out and look at the rings: one that was nibbled is replaced.", name)
		s.fit(i+1, name)
		s.do("%s: start every screw by hand, then tighten crosswise in two rounds. %s", name, tightness(&e.Screws))
	}
	s.caution("A screw that does not go in by hand is not forced: it cuts its thread. Take the end out and find out why.")
}

// tightness says how tight.
func tightness(w *casewright.Screws) string {
	if !w.Torque.IsSet() {
		return "No torque is given: neither preload nor thread was checked for one. Give it in the file and check before you use a wrench with a long arm."
	}
	text := "Torque " + w.Torque.String() + ", with a torque wrench"
	if w.Friction.IsSet() {
		return text + "; computed for a friction of at least " + w.Friction.String() + " in thread and under the head: a better grease raises the preload."
	}
	return text + "; grease on the thread raises the preload, see the check screw.preload."
}

// fit says whether the screws of an end go in at each rotation.
func (s *stepList) fit(number int, name string) {
	for i := range s.report.Results {
		r := &s.report.Results[i]
		if r.Method != &fastener.HoleFit || int(r.Check.Part) != number {
			continue
		}
		switch r.Verdict {
		case margin.Pass:
			s.do("%s: the holes are computed to fit at every rotation, if tube and end keep their position tolerance.", name)
		case margin.Fail:
			s.caution("%s: the holes need not fit at every rotation. Find the one where all screws go in by hand, mark it, and never open a hole with a drill to make it fit.", name)
		default:
			s.do("%s: no position tolerance is given, so count on the holes only in the rotation in which those of the end were marked through the tube. Line up the marks.", name)
		}
	}
}

// A Proof is the pressure of a proof test with water, or why there is none.
type Proof struct {
	Pressure quantity.Amount // gauge, in the unit of the design's pressure; unset where none is given
	Yields   quantity.Amount // at which something yields or breaks first, rounded down, in the same unit; unset where not known
	First    string          // the check that does, as in "nozzle/hole.bearing_yield"
	Leaks    quantity.Amount // at which a seal gives way first, rounded down; unset where none does
	Leak     string          // the check that does
	Refused  string          // why no pressure is given; empty where one is
}

// proofFactor is the proof pressure over the maximum expected operating
// pressure. Source: common practice, see SAFETY.md.
var proofFactor = decimal.RequireFromString("1.5")

// ProofPressure returns 1.5 times the maximum expected operating pressure, a
// gauge pressure. None is given where the design does not pass or is not whole,
// and where it would not lie below the pressure at which something yields or
// breaks first: a proof test that yields metal damages what it tests. Source:
// common practice, see SAFETY.md.
func ProofPressure(r *casewright.Report) Proof {
	p := Proof{}
	expected := r.Design.Pressure
	if !expected.IsSet() {
		p.Refused = "the design gives no pressure"
		return p
	}
	unit := expected.Unit()
	for i := range r.Order {
		event := &r.Order[i]
		at := floored(unit, event.At)
		switch mode := event.Result.Method.Mode; {
		case (mode == margin.Yields || mode == margin.Breaks) && p.First == "":
			p.Yields, p.First = at, event.Result.ID()
		case mode == margin.Leaks && p.Leak == "":
			p.Leaks, p.Leak = at, event.Result.ID()
		}
	}
	pressure := quantity.NewAmount(decimal.RequireFromString(expected.Value().Mul(proofFactor).String()), unit)
	switch {
	case r.Verdict != margin.Pass:
		p.Refused = "the design does not pass"
	case r.Design.Open || r.Has("ends_missing") || r.Has("not_checked_insert") || p.First == "":
		p.Refused = "not all that holds pressure was checked, so what yields first is not known"
	case pressure.Cmp(p.Yields) >= 0:
		p.Refused = fmt.Sprintf("%s, 1.5 × the maximum expected operating pressure, is not below %s, where something yields or breaks first (%s): make that part stronger", pressure, p.Yields, p.First)
	default:
		p.Pressure = pressure
	}
	return p
}

// floored is a pressure in Pa in a unit, rounded down to four digits: what
// something bears is never told too high.
func floored(u quantity.Unit, pascals float64) quantity.Amount {
	x := u.FromSI(pascals)
	if !(x > 0) {
		return quantity.NewAmount(decimal.Zero, u)
	}
	places := 3 - int32(math.Floor(math.Log10(x)))
	return quantity.NewAmount(decimal.RequireFromString(decimal.NewFromFloat(x).RoundFloor(places).String()), u)
}

func (s *stepList) proof() {
	s.group = GroupTest
	p := ProofPressure(s.report)
	if p.Refused != "" {
		s.caution("No proof pressure is given: %s. Without a proof test the motor is not fired.", p.Refused)
		return
	}
	s.caution("Water, never gas, not even to look for leaks: compressed gas throws the pieces. A local code goes before this sheet.")
	s.do("Hold the ends by their own screws and seals, never by tie rods, and secure the plug in the nozzle.")
	s.do("Measure the outside diameter along the tube and at the holes, every hole in both directions, and the plate of the bulkhead; write it down.")
	s.do("Fill with water, the vent at the highest point, until no air is left.")
	s.do("Pump slowly to %s, 1.5 × the maximum expected operating pressure (common practice). Computed to yield or break first: %s, at %s. Gauge and pump together must err by less than the difference.", p.Pressure, p.First, p.Yields)
	if p.Leak != "" {
		if p.Leaks.Cmp(p.Pressure) <= 0 {
			s.caution("A seal is computed to leak at %s, not above the proof pressure (%s): improve the seal first, or expect the test to end there, as failed.", p.Leaks, p.Leak)
		} else {
			s.do("Computed to leak first: %s, at %s.", p.Leak, p.Leaks)
		}
	}
	s.caution("Pump from behind a barrier, clear of both ends. Never feel for a leak: a fine jet goes through skin, and that is an emergency.")
	s.caution("Cold metal is stronger: this test at 1.5 proves less than 1.5 when the motor is hot.")
	s.do("Let the pressure down to zero and measure all again. A stretched hole, a bulge, a dished plate, a bent screw, a crack or a nibbled O-ring is a failed test: find the cause before anything else.")
	s.do("Take it apart, dry everything and throw the rings away.")
}

func (s *stepList) tests() {
	s.group = GroupBefore
	s.do("New O-rings and new soft washers, of the sizes above. Screws that were bent or overheated are replaced.")
	s.do("Look at holes, lead-in and grooves as if they were new; the log must show no growth since the proof test.")
	s.do("Stick temperature labels to the tube, at the holes and in the middle, and note their readings.")
	s.do("Assemble as above: marks in line, all screws in, torque checked by a second person.")
	s.do("Fit the igniter last, at the stand, its leads shorted until everyone else has left.")

	s.group = GroupAfter
	s.caution("Keep the distance and wait as after a misfire. The case is hottest after burnout, and a silent motor may still hold pressure. Do not touch or open it until it is cold.")
	s.do("Read the labels and compare them with the temperatures of the file: what was hotter is checked again with the true one, and proof-tested again.")
	s.do("Throw away every O-ring and soft washer, good ones too. Look at them first: a nibble, a flat or soot beyond a ring tells of a gap or a leak.")
	s.caution("Charred fluorocarbon rubber can leave acid (from memory): gloves, and no bare skin.")
	s.do("Measure every hole in both directions, the outside diameter and the plate, and write it into the log. Scrap on growth or a crack; never re-round a hole.")
	s.do("Look at the lead-in and the inside edges of the holes for new burrs, and at the screws for bends.")

	s.group = GroupCautions
	s.caution("A pass is not permission to fire. Read SAFETY.md: law, permits, people in charge of the site. Where a local code or site rule differs, it wins.")
	s.caution("Fire by remote electrical ignition only, from the distance that the local code asks, behind a barricade, with nobody in line with either end.")
	s.caution("After a misfire remove the key and wait as the local rule says, a minute at the very least; one person goes, from the side, and shunts first.")
	s.caution("After any change, overheating or overpressure: check again and proof-test again.")
}
