package casing_test

import (
	"math"
	"testing"

	"casewright/casing"
	"casewright/quantity"
	"casewright/verification/held"
)

// TestNetSectionEurocode holds the net section against a worked example: a
// tube of the same gross area and wall stands for the angle of the example.
func TestNetSectionEurocode(t *testing.T) { held.Table(t, "net_section_eurocode.csv", nil) }

// TestSinkTakesItsTriangles: a countersink of 90° and depth s takes a triangle
// of s²/2 at each side of the hole, from geometry.
func TestSinkTakesItsTriangles(t *testing.T) {
	const bore, wall, hole, sink, n = 0.0571, 0.0032, 0.0055, 0.002, 8
	area := func(s quantity.Length) float64 {
		return float64(casing.EndLoad(1, bore)) / float64(casing.NetStress(1, bore, wall, n, hole, s))
	}
	if got, want := area(0)-area(sink), n*2*(0.5*sink*sink); math.Abs(got-want) > 1e-9*want {
		t.Errorf("sinks take %g m², want %g", got, want)
	}
}
