package seal_test

import (
	"testing"

	"casewright/margin/reference"
	"casewright/quantity"
	"casewright/seal"
)

// TestThermalGrowth holds the growth of the gap by heat against worked
// examples of linear expansion: the tube alone grows, a gap on the radius.
func TestThermalGrowth(t *testing.T) {
	reference.Run(t, "../testdata/reference/thermal_growth.csv", map[string]func(*testing.T, reference.Row){
		"growth of a length by heat": func(t *testing.T, row reference.Row) {
			strain, l := row.Input(t, "alpha")*row.Input(t, "dT"), quantity.Length(row.Input(t, "L"))
			row.Close(t, 2*float64(seal.HeatOpening(strain, 0, l, 0)))
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
