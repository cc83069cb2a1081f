package closure_test

import (
	"testing"

	"casewright/closure"
	"casewright/margin"
)

// TestClosureRemarks: threads of less than 1.5 screws deep are remarked, and
// plates thicker than 0.3 of the bore, for which thin plates are no guide
// (both ours); those at the bound are not.
func TestClosureRemarks(t *testing.T) {
	thick := func(bore, plate float64) *margin.Values { return &margin.Values{3: bore, 5: plate} }
	for _, c := range []struct {
		m     *margin.Method
		v     *margin.Values
		value float64
		want  margin.Notes
	}{
		{&closure.Engagement, nil, 1.49, margin.Of(margin.EngagementBelow15)},
		{&closure.Engagement, nil, 1.5, 0},
		{&closure.Engagement, nil, 1.51, 0},
		{&closure.Plate, thick(1, 0.29), 0, 0},
		{&closure.Plate, thick(1, 0.3), 0, 0},
		{&closure.Plate, thick(1, 0.31), 0, margin.Of(margin.ThickPlate)},
		{&closure.PlateUltimate, thick(2, 0.61), 0, margin.Of(margin.ThickPlate)},
	} {
		if got := c.m.Remark(c.v, c.value); got != c.want {
			t.Errorf("%s of %v, value %g: notes %b, want %b", c.m.ID, c.v, c.value, got, c.want)
		}
	}
}
