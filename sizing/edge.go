package sizing

import (
	"casewright"
)

// holeKeys are what a row of holes is asked with.
var holeKeys = []string{"motor.pressure", "tube.material", "end.screws.thread", "end.screws.class", "end.screws.count"}

// Edge finds the least distance of the holes of one end, numbered part, from
// the end of the tube. Pressure, two sizes of the tube, its material, and
// thread, class and count of the screws are given; the hole is the usual
// clearance hole unless given. The error is a casewright.Errors.
func Edge(d *casewright.Design, part int, o Options) (*Answer, error) {
	if err := needs(d, part, holeKeys...); err != nil {
		return nil, join(needTube(d), err)
	}
	if err := needTube(d); err != nil {
		return nil, err
	}
	s := o.solver(d)
	if err := s.clearanceHole(part); err != nil {
		return nil, err
	}
	s.sizes = []*wanted{{find("end.screws.edge"), part, o.Tolerance}}
	s.settle()
	a := s.answer("edge")
	a.Part, a.Own = partName(s.design, part), o.Tolerance != nil
	a.Remarks = s.remarks()
	return a, nil
}

// remarks says what a row of holes was not asked with.
func (s *solver) remarks() []string {
	if s.design.Tube.LeadIn.IsSet() {
		return nil
	}
	return []string{"No lead_in is given: a chamfer at the tube end, which every ring needs, takes from hole.tear_out."}
}

// needTube returns an error unless two sizes of the tube are given.
func needTube(d *casewright.Design) error {
	n := 0
	for _, size := range []casewright.Dimension{d.Tube.Outside, d.Tube.Inside, d.Tube.Wall} {
		if size.IsSet() {
			n++
		}
	}
	if n >= 2 {
		return nil
	}
	return casewright.Errors{{
		File: d.File, Key: "tube.wall", Message: "the tube has two of outside_diameter, inside_diameter and wall", Write: `wall = "3.20 ±0.15 mm" beside outside_diameter or inside_diameter`,
	}}
}

// join puts the errors of two tests together.
func join(list ...error) error {
	var all casewright.Errors
	for _, err := range list {
		if one, ok := err.(casewright.Errors); ok {
			all = append(all, one...)
		}
	}
	if all == nil {
		return nil
	}
	return all
}

// clearanceHole gives the screws of an end their usual hole where none is
// given.
func (s *solver) clearanceHole(part int) error {
	w := &s.design.Ends[part-1].Screws
	if w.Hole.IsSet() {
		return nil
	}
	hole, ok := w.Thread.ClearanceHole()
	if !ok {
		return casewright.Errors{{File: s.design.File, Key: "end.screws.hole", Message: "there is no standard clearance hole for " + w.Thread.Name, Write: `hole = "…"`}}
	}
	w.Hole = casewright.Dimension{Dimension: hole, Place: casewright.Place{Key: "end.screws.hole"}}
	return nil
}
