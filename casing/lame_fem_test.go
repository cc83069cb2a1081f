package casing_test

import (
	"testing"

	"casewright/casing"
	"casewright/margin/reference"
	"casewright/quantity"
)

// A tube of the reference tables, given by its outside diameter and wall.
type tube struct {
	p, e       quantity.Pressure
	bore, wall quantity.Length
	k, nu      float64
}

func tubeOf(t *testing.T, row reference.Row) tube {
	od, wall := row.Input(t, "OD"), row.Input(t, "t")
	return tube{
		p: quantity.Pressure(row.Input(t, "p")), e: quantity.Pressure(row.Input(t, "E")), nu: row.Input(t, "nu"),
		bore: quantity.Length(od - 2*wall), wall: quantity.Length(wall), k: od / (od - 2*wall),
	}
}

func (u tube) growth() float64 {
	return float64(casing.Growth(u.p, u.bore/2, u.k, u.e, u.nu))
}

// TestLameFEM holds the stresses and the growth of thin and thick tubes
// against finite elements. Open ends have a higher von Mises stress at the
// bore and grow more: the formulas are for a tube that carries the end load.
func TestLameFEM(t *testing.T) {
	reference.Run(t, "../testdata/reference/cylinders_fem.csv", map[string]func(*testing.T, reference.Row){
		"bore hoop": func(t *testing.T, row reference.Row) {
			u := tubeOf(t, row)
			row.Close(t, float64(casing.BoreHoop(u.p, u.k)))
		},
		"von Mises at the bore": func(t *testing.T, row reference.Row) {
			u := tubeOf(t, row)
			row.Close(t, float64(casing.BoreVonMises(u.p, u.k)))
		},
		"growth of the bore radius": func(t *testing.T, row reference.Row) {
			row.Close(t, tubeOf(t, row).growth())
		},
		"mean axial stress, no holes": func(t *testing.T, row reference.Row) {
			u := tubeOf(t, row)
			row.Close(t, float64(casing.NetStress(u.p, u.bore, u.wall, 0, 0, 0)))
		},
		"von Mises at the bore, open ends": func(t *testing.T, row reference.Row) {
			u := tubeOf(t, row)
			// Without the axial stress a = p/(k² − 1) the square of the von
			// Mises stress is greater by a².
			closed, axial := float64(casing.BoreVonMises(u.p, u.k)), float64(u.p)/(u.k*u.k-1)
			row.Close(t, hypot(closed, axial))
			if !(closed < row.Value) {
				t.Errorf("closed ends %g Pa, open ends %g Pa", closed, row.Value)
			}
		},
		"growth of the bore radius, open ends": func(t *testing.T, row reference.Row) {
			u := tubeOf(t, row)
			// The axial stress of closed ends draws the bore in by ν a R_i/E.
			axial := float64(u.p) / (u.k*u.k - 1)
			row.Close(t, u.growth()+u.nu*axial*float64(u.bore)/2/float64(u.e))
		},
	})
}
