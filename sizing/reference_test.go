package sizing_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"casewright"
	"casewright/margin"
	"casewright/sizing"
	"casewright/verification"
	"casewright/verification/held"
)

// TestLeastWall holds the wall against worked examples. Lamé's are the check
// itself. The vessel code's formula follows Lamé to a part in a thousand at
// these pressures; that of thin tubes lies below it by about p/2S, and never
// above. Theories of greatest strain are others than ours, and near it.
func TestLeastWall(t *testing.T) {
	held.Table(t, "least_wall.csv", held.Also{
		"least wall, thin tube": func(t *testing.T, c *verification.Case) {
			share := c.Of("p") / c.Of("S") / c.Of("E")
			if low, high := c.Value*(1-c.Tolerance), c.Value*(1+c.Tolerance)*(1+share); !(c.Got >= low && c.Got <= high) {
				t.Errorf("%g m, thin-walled %g", c.Got, c.Value)
			}
		},
	})
}

// TestEdgeRules holds the answer to the published rules of edge distance: no
// row of holes stands nearer the end than any of them asks, and where our rule
// of two hole diameters governs it is that of the books.
func TestEdgeRules(t *testing.T) {
	d := sizing.Open(t, 1, "motor.pressure", "1 MPa", "tube.outside_diameter", "63.5 mm", "tube.wall", "3.2 mm", "tube.material", "6061-T6 drawn tube",
		"tube.temperature", "20 °C", "end.screws.thread", "M5", "end.screws.class", "8.8", "end.screws.count", "8", "end.screws.hole", "5.5 mm")
	a, err := sizing.Edge(d, 1, sizing.Options{})
	if err != nil || a.Values[0].Governs.ID() != "end/hole.edge" {
		t.Fatal(err, a.Values)
	}
	edge := a.Values[0].Exact.Nominal().InexactFloat64()
	across := map[string]float64{"hole": 0.0055, "screw": 0.005}
	greatest := 0.0
	held.Table(t, "edge_distance.csv", held.Also{
		"least edge distance": func(t *testing.T, c *verification.Case) {
			asks := c.Value * across[c.Text("of")]
			greatest = math.Max(greatest, asks)
			if !(edge >= asks*(1-1e-12)) {
				t.Errorf("%g m, the rule asks %g", edge, asks)
			}
		},
	})
	if edge != greatest {
		t.Errorf("the answer is %g m, the strictest rule %g", edge, greatest)
	}
}

// TestPrintedGlands holds groove against a seal maker's chart of static radial
// glands, in a bore as measured: of each section, without swell, the middle of the drawn
// depth, the drawn width and the clearance lie within what the chart prints.
func TestPrintedGlands(t *testing.T) {
	bores := map[string]string{"0.070": "2.250", "0.103": "2.250", "0.139": "3.000", "0.210": "4.000", "0.275": "6.000"}
	held.Table(t, "glands_radial.csv", held.Also{
		"static radial gland, greatest squeeze": func(t *testing.T, c *verification.Case) {
			section := fmt.Sprintf("%.3f", c.Of("section")/0.0254)
			d := sizing.Open(t, 1, "tube.inside_diameter", bores[section]+" in", "end.seal.section", section+" in")
			a, err := sizing.Groove(d, 1, sizing.Options{})
			if err != nil || !a.Found() {
				t.Fatal(err, a)
			}
			e, bore := &a.Design.Ends[0], a.Design.Tube.Inside
			within := func(what string, got float64, least, most string) {
				if low, high := c.Of(least), c.Of(most); !(got >= low-1e-9 && got <= high+1e-9) {
					t.Errorf("%s: %s is %.5f in, the chart has %.4f to %.4f", c.ID, what, got/0.0254, low/0.0254, high/0.0254)
				}
			}
			metres := func(d casewright.Dimension, least bool) float64 {
				if least {
					return d.Least().InexactFloat64()
				}
				return d.Greatest().InexactFloat64()
			}
			depth := (bore.Nominal().InexactFloat64() - e.Seal.GrooveDiameter.Nominal().InexactFloat64()) / 2
			within("the depth", depth, "least_depth", "most_depth")
			within("the least clearance", metres(bore, true)-metres(e.Outside, false), "least_clearance", "most_clearance")
			within("the greatest clearance", metres(bore, false)-metres(e.Outside, true), "least_clearance", "most_clearance")

			// With a compound there is a width, and it holds the swollen ring.
			for _, compound := range []string{"NBR", "FKM"} {
				d := sizing.Open(t, 1, "tube.inside_diameter", bores[section]+" in", "end.seal.section", section+" in", "end.seal.compound", compound)
				a, err := sizing.Groove(d, 1, sizing.Options{})
				if err != nil || !a.Found() {
					t.Fatal(err, a)
				}
				width := a.Design.Ends[0].Seal.GrooveWidth
				if section == "0.070" {
					// The chart's narrowest gland is 90 % full before it swells.
					if !(metres(width, true) >= c.Of("least_width")) {
						t.Errorf("%s: the width is %s", c.ID, width.String())
					}
					continue
				}
				within("the least width", metres(width, true), "least_width", "most_width")
				within("the greatest width", metres(width, false)-0.0000128, "least_width", "most_width")
			}
		},
	})
}

// TestAnswersNameSources holds that what governs an answer has a source.
func TestAnswersNameSources(t *testing.T) {
	for _, m := range casewright.Methods() {
		if strings.TrimSpace(m.Source) == "" || m.Kind == margin.Strength && m.Factor == margin.NoFactor {
			t.Errorf("%s has no source or no factor", m.ID)
		}
	}
}
