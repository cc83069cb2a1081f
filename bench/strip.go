package bench

import (
	"math"

	"casewright/quantity"
)

// A Strip is a strip of paper that is wrapped round the tube, one long edge
// flush with the end of the tube, and drilled through. X runs round the tube, to
// the right as one looks at it, from the line along the tube; Y runs away from
// the end of the tube.
type Strip struct {
	HoleRow
	Paper  quantity.Length // its thickness
	Length quantity.Length // from the line along the tube to the lap line
	Height quantity.Length
	Marks  []Mark
}

// A Mark is the centre of a hole on a strip, m.
type Mark struct {
	Number int
	X, Y   quantity.Length
}

// The paper beyond the holes, m, with room for what is written there; ours.
const beyondHoles = 0.018

// StripOf returns the strip for a row of holes.
//
//	L = π (D + t_p)
//
// paper: t_p, its thickness, m, at least 0: the middle of the paper lies half of
// it off the tube. Source: geometry.
func StripOf(r HoleRow, paper quantity.Length) Strip {
	s := Strip{HoleRow: r, Paper: paper, Length: quantity.Length(math.Pi) * (r.Across + paper)}
	edge := quantity.LengthOf(r.Edge.Nominal())
	s.Height = edge + quantity.LengthOf(r.Size.Nominal())/2 + beyondHoles
	for _, h := range r.Holes {
		s.Marks = append(s.Marks, Mark{h.Number, s.Length * quantity.Length(h.Angle/360), edge})
	}
	return s
}
