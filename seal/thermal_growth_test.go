package seal_test

import (
	"testing"

	"casewright/quantity"
	"casewright/seal"
	"casewright/verification"
	"casewright/verification/held"
)

// TestThermalGrowth holds the growth of the gap by heat against worked
// examples of linear expansion: the tube alone grows, a gap on the radius.
func TestThermalGrowth(t *testing.T) {
	held.Table(t, "thermal_growth.csv", held.Also{
		"growth of a length by heat": func(t *testing.T, c *verification.Case) {
			strain, l := c.Of("alpha")*c.Of("dT"), quantity.Length(c.Of("L"))
			// As hot an end as large grows as much, and a hotter one closes
			// the gap, which is never counted as a gain.
			if got := seal.HeatOpening(strain, strain, l, l); got != 0 {
				t.Errorf("tube and end alike: %g m", got)
			}
			if got := seal.HeatOpening(0, strain, l, l); got != 0 {
				t.Errorf("the end hotter: %g m", got)
			}
		},
	})
}
