package casing_test

import (
	"math"
	"testing"

	"casewright/casing"
	"casewright/verification"
	"casewright/verification/held"
)

// TestTextbookCylinders holds the tube's formulas against worked examples,
// verification manuals and codes, whose names stand in the table.
func TestTextbookCylinders(t *testing.T) {
	held.Table(t, "cylinders_textbook.csv", held.Also{
		"von Mises at the bore": func(t *testing.T, r *verification.Case) {
			// The row is that of the three stresses beside it.
			a, b, c := r.Of("hoop"), r.Of("axial"), r.Of("radial")
			if got := math.Sqrt(((a-b)*(a-b) + (b-c)*(b-c) + (c-a)*(c-a)) / 2); !r.Holds(got) {
				t.Errorf("of the three stresses %g Pa, in the row %g Pa", got, r.Value)
			}
		},
	})
}

// TestGasCylinderRuleIsBelow: the wall stress of 49 CFR 178.46 (seen, see the
// table) is the maximum-strain theory; the distortion energy that the yield
// check takes is above it in every wall, so the check is the stricter.
func TestGasCylinderRuleIsBelow(t *testing.T) {
	for k := 1.001; k < 3; k += 0.001 {
		rule := (1.3*k*k + 0.4) / (k*k - 1)
		if v := float64(casing.BoreVonMises(1, k)); !(v > rule) {
			t.Fatalf("k %g: von Mises %g, rule %g", k, v, rule)
		}
	}
}

// TestVesselCodeIsAbove: the code's S = P (R + 0.6 t)/t of ASME VIII-1 UG-27
// (seen at scribd.com 268384932) lies above Lamé in its range, t up to R/2, by
// 1 % at most; the two meet at its end.
func TestVesselCodeIsAbove(t *testing.T) {
	for k := 1.001; k <= 1.5; k += 0.001 {
		code := 1/(k-1) + 0.6
		if ratio := code / float64(casing.BoreHoop(1, k)); !(ratio > 1-1e-12 && ratio < 1.01) {
			t.Errorf("k %.3f: the code gives %.4f of Lamé", k, ratio)
		}
	}
}

// TestNoWall: without a wall the stress is infinite, never small or negative.
func TestNoWall(t *testing.T) {
	for _, k := range []float64{1, 0.9, 0, -2, math.Inf(-1)} {
		for name, got := range map[string]float64{
			"hoop":      float64(casing.BoreHoop(1, k)),
			"von Mises": float64(casing.BoreVonMises(1, k)),
			"growth":    float64(casing.Growth(1, 1, k, 1, 0.3)),
		} {
			if !math.IsInf(got, 1) {
				t.Errorf("k %g: %s %g", k, name, got)
			}
		}
		if got := casing.Burst(1, 1, k, 1); got != 0 {
			t.Errorf("k %g: burst %g", k, got)
		}
	}
	if got := casing.NetStress(1, 1, 0.01, 10, 1, 0); !math.IsInf(float64(got), 1) {
		t.Errorf("holes all round: %g", got)
	}
}
