package fastener_test

import (
	"math"
	"testing"

	"casewright/fastener"
	"casewright/quantity"
)

// TestChamferTriangle: a chamfer takes a triangle from a plane along the axis,
// from geometry: at 45° half of a square; at 26.565° (tan 1/2) a quarter of
// one; nothing where there is none.
func TestChamferTriangle(t *testing.T) {
	for _, c := range []struct {
		length quantity.Length
		angle  float64
		want   quantity.Area
	}{
		{3 * quantity.Millimetre, math.Pi / 4, 4.5 * quantity.SquareMillimetre},
		{4 * quantity.Millimetre, math.Atan(0.5), 4 * quantity.SquareMillimetre},
		{0, math.Pi / 4, 0},
		{3 * quantity.Millimetre, 0, 0},
	} {
		if got := fastener.Chamfer(c.length, quantity.Angle(c.angle)); math.Abs(float64(got-c.want)) > 1e-15 {
			t.Errorf("%g m at %g rad: %g m², want %g", c.length, c.angle, got, c.want)
		}
	}
}

// TestBearingThicknessByHand: a wall of 3.2 mm, its hole broken by 0.3 mm and
// sunk by 1 mm, bears on 3.2 − 0.15 − 0.5 mm.
func TestBearingThicknessByHand(t *testing.T) {
	if got := float64(fastener.BearingThickness(0.0032, 0.0003, 0.001)); math.Abs(got-0.00255) > 1e-15 {
		t.Errorf("%g m, want 0.00255", got)
	}
}
