package materials_test

import (
	"testing"

	"casewright/materials"
	"casewright/verification/held"
)

// TestPublished compares the tables with numbers from outside, each with its
// source.
func TestPublished(t *testing.T) { held.Table(t, "materials_published.csv", nil) }

// TestSheetScaled holds that the shear and bearing strengths of 6061-T6 stand
// to its tensile strengths no higher than in the handbook's sheet, and no more
// than 6 % lower. MIL-HDBK-5J Table 3.6.2.0(b1), seen in a secondary copy:
// 42 and 35 ksi in tension, 27 in shear, 67 and 88, 50 and 58 in bearing.
func TestSheetScaled(t *testing.T) {
	for _, name := range []string{"6061-T6 drawn tube", "6061-T6 extruded tube", "6061-T6 bar"} {
		m, _ := materials.Lookup(name)
		for _, c := range []struct {
			p, of       materials.Property
			sheet, base float64 // ksi
		}{
			{materials.Shear, materials.Ultimate, 27, 42},
			{materials.BearingUltimate15, materials.Ultimate, 67, 42},
			{materials.BearingUltimate2, materials.Ultimate, 88, 42},
			{materials.BearingYield15, materials.Yield, 50, 35},
			{materials.BearingYield2, materials.Yield, 58, 35},
		} {
			a, _ := m.Value(c.p)
			b, _ := m.Value(c.of)
			if got := a.SI / b.SI / (c.sheet / c.base); !(got <= 1 && got >= 0.94) {
				t.Errorf("%s %s: %.4f of the sheet's share of %s", name, c.p.Key(), got, c.of.Key())
			}
		}
	}
}
