package closure_test

import (
	"testing"

	"casewright/verification/held"
)

// TestLipAnnularPlate holds the lip, a cantilever strip, against the annular
// plate that it is. The strip is on the safe side where the insert bears
// evenly: 0.4 % above the plate when narrow, 17 % when it is half of the
// radius. An insert that bears on the lip's inner edge alone would bend it
// twice as much: its face must be flat.
func TestLipAnnularPlate(t *testing.T) {
	held.Table(t, "lip_annular_plate.csv", held.Also{
		"lip clamped outside, load spread evenly":     between(1.003, 1.17),
		"lip clamped outside, load at its inner edge": between(0.485, 0.525),
	})
}
