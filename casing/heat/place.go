package heat

import "slices"

// A Place is where a temperature is told: Trace is the name of the column's
// own, "hot_face", "bond", "wall_inside", "wall_mean", "wall_outside", with an
// End of -1; or "gland", "face", "body", "ring", "bolts", "rear" of an end, which
// End numbers from 0.
type Place struct {
	Trace string
	End   int
}

// The traces that have a name.
var (
	columnTraces = []struct {
		name string
		of   func(*History) Trace
	}{
		{"hot_face", func(h *History) Trace { return h.HotFace }},
		{"bond", func(h *History) Trace { return h.Bond }},
		{"wall_inside", func(h *History) Trace { return h.WallInside }},
		{"wall_mean", func(h *History) Trace { return h.WallMean }},
		{"wall_outside", func(h *History) Trace { return h.WallOutside }},
	}
	endTraces = []struct {
		name string
		of   func(*EndHistory) Trace
	}{
		{"gland", func(e *EndHistory) Trace { return e.Gland }},
		{"face", func(e *EndHistory) Trace { return e.Face }},
		{"body", func(e *EndHistory) Trace { return e.Body }},
		{"ring", func(e *EndHistory) Trace { return e.Ring }},
		{"bolts", func(e *EndHistory) Trace { return e.Bolts }},
		{"rear", func(e *EndHistory) Trace { return e.Rear }},
	}
)

// Trace returns the temperatures at a place, in K, and whether there is such a
// place.
func (h *History) Trace(p Place) (Trace, bool) {
	if p.End < 0 {
		for _, t := range columnTraces {
			if p.End == -1 && t.name == p.Trace {
				return t.of(h), true
			}
		}
		return nil, false
	}
	for _, t := range endTraces {
		if p.End < len(h.Ends) && t.name == p.Trace {
			return t.of(&h.Ends[p.End]), true
		}
	}
	return nil, false
}

// placeNames are the names of all places of a motor with such ends, in the
// order of their traces, and the places themselves.
func placeNames(ends []string) (names []string, places []Place) {
	for _, t := range columnTraces {
		names, places = append(names, t.name), append(places, Place{t.name, -1})
	}
	for i, end := range ends {
		for _, t := range endTraces {
			names, places = append(names, end+"/"+t.name), append(places, Place{t.name, i})
		}
	}
	return names, places
}

// has tells whether a motor has a place.
func (m *Motor) has(p Place) bool {
	_, places := placeNames(make([]string, len(m.Ends)))
	return slices.Contains(places, p)
}
