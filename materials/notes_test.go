package materials

import (
	"testing"

	"casewright/margin"
	"casewright/quantity"
)

// TestNotesOfAllThatWasUsed holds that a result has the notes of every number
// in it, whichever of them it is that is typical or from memory.
func TestNotesOfAllThatWasUsed(t *testing.T) {
	room, remembered, typical := quantity.Celsius(20), margin.RememberedStrength, margin.TypicalStrength
	seen := func(si float64) Value { return Value{SI: si, Basis: BasisS, Status: Seen} }
	memory := func(si float64) Value { return Value{SI: si, Basis: BasisS, Status: Memory} }
	bar := func(values map[Property]Value) *Material {
		m := &Material{Form: Bar, UpTo: warmest}
		for p, v := range values {
			m.set(p, v)
		}
		return m
	}

	for _, m := range []*Material{
		bar(map[Property]Value{BearingUltimate15: seen(1), BearingUltimate2: memory(2), BearingYield15: seen(1), BearingYield2: memory(2)}),
		bar(map[Property]Value{BearingUltimate15: memory(1), BearingUltimate2: seen(2), BearingYield15: memory(1), BearingYield2: seen(2)}),
	} {
		for _, eOverD := range []float64{1.2, 1.7} {
			u, y := m.Bearing(eOverD, room)
			if !u.Notes.Has(remembered) || !y.Notes.Has(remembered) {
				t.Errorf("e/D %g: notes %v and %v", eOverD, u.Notes.List(), y.Notes.List())
			}
		}
	}

	m := bar(map[Property]Value{Yield: {SI: 300, Basis: BasisTypical, Status: Seen}, Ultimate: memory(200)})
	if r := m.At(Yield, room); r.SI != 200 || r.Notes != margin.Of(typical, remembered) {
		t.Errorf("yield held down by ultimate: %g, notes %v", r.SI, r.Notes.List())
	}

	hot, hotter := quantity.Celsius(100), quantity.Celsius(200)
	for _, statuses := range [][2]string{{Seen, Memory}, {Memory, Seen}} {
		r := &Retention{}
		r.points[Yield] = []Point{{T: room, Ratio: 1, Status: Seen}, {T: hot, Ratio: 0.9, Status: statuses[0]}, {T: hotter, Ratio: 0.8, Status: statuses[1]}}
		if got := r.At(Yield, quantity.Celsius(150)); !got.Notes.Has(remembered) {
			t.Errorf("between points %v: notes %v", statuses, got.Notes.List())
		}
		if got := r.At(Yield, quantity.Celsius(200)).Notes.Has(remembered); !got {
			t.Errorf("at the end of points %v: no note", statuses)
		}
	}
}
