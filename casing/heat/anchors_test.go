package heat_test

import (
	"math"
	"testing"

	"casewright/casing/heat"
)

var (
	aluminium = heat.Solid{Conductivity: 167, Density: 2700, SpecificHeat: 896}
	paper     = heat.Solid{Conductivity: 0.15, Density: 1150, SpecificHeat: 1400}
)

// case1 is a 54 mm tube with a liner of 1.6 mm.
func case1() *heat.Motor {
	return &heat.Motor{
		Layers: []heat.Layer{{Name: "liner", Solid: paper, Thickness: 1.6e-3}},
		Tube:   aluminium, Bore: 50.8e-3, Wall: 1.6e-3, Length: 0.4,
		Gas:     [2]heat.Film{{Temperature: 2500, Coefficient: 800}, {Temperature: 295}},
		Outside: heat.Film{Temperature: 295, Coefficient: 10},
		Start:   295, Burn: 2.5, Until: 400, Touch: 296,
	}
}

func TestCase1(t *testing.T) {
	h, err := case1().Run(heat.Usual)
	if err != nil {
		t.Fatal(err)
	}
	t.Log(len(h.Time), h.Balance, h.Peak(h.HotFace), h.Peak(h.Bond), h.Peak(h.WallMean), h.AtBurnout(h.Bond), h.AtBurnout(h.WallMean))
	t.Log(h.At(h.WallMean, 10), h.At(h.WallMean, 30), h.At(h.WallMean, 60), h.At(h.WallMean, 400), "want 2041.7 487.05@37.05 487.04@37.07 298.836 298.754 409.894 485.568 482.171 402.628")
	for _, mesh := range []heat.Mesh{{2, 1}, {1, 2}, {2, 2}, {4, 4}, {8, 8}} {
		h, err := case1().Run(mesh)
		if err != nil {
			t.Fatal(err)
		}
		t.Log(mesh, len(h.Time), h.Balance, h.Peak(h.HotFace), h.Peak(h.Bond), h.Peak(h.WallMean), h.AtBurnout(h.Bond), h.AtBurnout(h.WallMean), h.At(h.WallMean, 10))
	}
	_ = math.Pi
}

func BenchmarkRun(b *testing.B) {
	for b.Loop() {
		if _, err := case1().Run(heat.Usual); err != nil {
			b.Fatal(err)
		}
	}
}
