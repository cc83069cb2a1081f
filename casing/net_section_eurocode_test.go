package casing_test

import (
	"math"
	"testing"

	"casewright/casing"
	"casewright/margin"
	"casewright/margin/reference"
	"casewright/quantity"
)

// TestNetSectionEurocode holds the net section against a worked example: a
// tube of the same gross area and wall stands for the angle of the example.
func TestNetSectionEurocode(t *testing.T) {
	reference.Run(t, "../testdata/reference/net_section_eurocode.csv", map[string]func(*testing.T, reference.Row){
		"net area": func(t *testing.T, row reference.Row) {
			wall := row.Input(t, "t")
			bore := quantity.Length(row.Input(t, "A")/(math.Pi*wall) - wall)
			stress := casing.NetStress(1, bore, quantity.Length(wall), row.Input(t, "n"), quantity.Length(row.Input(t, "d0")), 0)
			row.Close(t, float64(casing.EndLoad(1, bore))/float64(stress))
		},
		"share of the ultimate strength on the net section": func(t *testing.T, row reference.Row) {
			const ultimate = 310e6
			var v margin.Values
			for i, s := range casing.NetSection.Symbols {
				v[i] = 1
				if s.Term == margin.TubeUltimate {
					v[i] = ultimate
				}
			}
			_, capacity := casing.NetSection.Eval(&v)
			row.Close(t, capacity/ultimate)
		},
	})
}

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
