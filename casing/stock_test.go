package casing_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/shopspring/decimal"
	"pgregory.net/rapid"

	"casewright/casing"
	"casewright/quantity"
	"casewright/verification"
	"casewright/verification/held"
)

func ExampleWallTolerance() {
	size := func(text string) decimal.Decimal {
		d, err := quantity.ParseDimension(text)
		if err != nil {
			panic(err)
		}
		return d.Nominal()
	}
	t, ok := casing.WallTolerance(size("0.125 in"), size("2 in"), false)
	fmt.Printf("extruded ±%.2f mm, %v\n", quantity.LengthOf(t)/quantity.Millimetre, ok)
	t, ok = casing.WallTolerance(size("0.125 in"), size("2 in"), true)
	fmt.Printf("drawn ±%.2f mm, %v\n", quantity.LengthOf(t)/quantity.Millimetre, ok)
	// Output:
	// extruded ±0.57 mm, true
	// drawn ±0.32 mm, true
}

// TestStockWalls holds the walls against slips, and against stockists' lists.
func TestStockWalls(t *testing.T) {
	list := casing.StockWalls()
	if len(list) < 20 {
		t.Fatalf("%d walls", len(list))
	}
	series := map[string]bool{}
	for i, w := range list {
		if !w.Wall.IsPositive() || w.Source == "" || w.Status != "seen" && w.Status != "memory" {
			t.Errorf("%+v", w)
		}
		if w.Metric != (w.Series == "metric") {
			t.Errorf("%v m: metric %v in the series %s", w.Wall, w.Metric, w.Series)
		}
		if i == 0 || list[i-1].Series != w.Series {
			if series[w.Series] {
				t.Errorf("the series %s stands twice", w.Series)
			}
			series[w.Series] = true
		} else if list[i-1].Wall.Cmp(w.Wall) >= 0 {
			t.Errorf("%v m after %v m", w.Wall, list[i-1].Wall)
		}
	}
	list[0].Source = "changed"
	if casing.StockWalls()[0].Source == "changed" {
		t.Error("a caller can change the table")
	}
}

// TestTubeStockPublished holds walls and their tolerances against lists of
// stockists and the copies of a standard that the table names.
func TestTubeStockPublished(t *testing.T) { held.Table(t, "tube_stock.csv", nil) }

// inches returns a size in m of so many inches to 0.0001, exact.
func inches(n float64) decimal.Decimal {
	return decimal.NewFromFloat(n).Round(4).Mul(decimal.New(254, -4))
}

// TestWallToleranceLeavesAWall: the tolerance is positive, and less than half
// of a wall of at least 0.04 in; a thicker wall in the same tube never has a
// lesser one.
func TestWallToleranceLeavesAWall(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		draw := func(name string, most int64) decimal.Decimal {
			return decimal.New(rapid.Int64Range(1, most).Draw(t, name), -5)
		}
		wall, outside, drawn := draw("wall", 2200), draw("outside", 50000), rapid.Bool().Draw(t, "drawn")
		got, ok := casing.WallTolerance(wall, outside, drawn)
		if !ok {
			if !got.IsZero() {
				t.Fatalf("no tolerance, and yet %v m", got)
			}
			return
		}
		if !got.IsPositive() || wall.Cmp(inches(0.04)) >= 0 && got.Mul(decimal.New(2, 0)).Cmp(wall) >= 0 {
			t.Fatalf("wall %v m, outside %v m: ±%v m", wall, outside, got)
		}
		if more, ok := casing.WallTolerance(wall.Add(decimal.New(1, -4)), outside, drawn); ok && more.Cmp(got) < 0 {
			t.Fatalf("outside %v m: ±%v m at a wall of %v m, ±%v m at 0.1 mm more", outside, got, wall, more)
		}
	})
}

// TestWallToleranceEnds holds the ends of the table: there is none outside.
func TestWallToleranceEnds(t *testing.T) {
	for _, c := range []struct {
		wall, outside float64 // in
		drawn, ok     bool
	}{
		{0.035, 2, false, false}, // the table has no thin wall in a wide tube
		{0.047, 1.25, false, true},
		{0.0469, 1.25, false, false},
		{0.0469, 1.2499, false, true},
		{0.02, 0.5, false, true},
		{0.0199, 0.5, false, false},
		{0.02, 0.4999, false, false},
		{0.375, 1.2, false, false}, // nor a thick one in a narrow tube
		{0.7499, 17.9999, false, true},
		{0.75, 17, false, false},
		{0.125, 18, false, false},
		{0.035, 2, true, true},
		{0.001, 2, true, false},
		{0.6, 2, true, false},
		{0.035, 0.1, true, false},
		{0, 2, true, false},
		{-0.125, 2, false, false},
	} {
		if got, ok := casing.WallTolerance(inches(c.wall), inches(c.outside), c.drawn); ok != c.ok {
			t.Errorf("wall %v in, outside %v in, drawn %v: %v m, %v", c.wall, c.outside, c.drawn, got, ok)
		}
	}
}

// TestLeastWallPublished holds the bore hoop against walls that books and
// codes found thick enough: the stress at the printed wall is the one allowed.
func TestLeastWallPublished(t *testing.T) {
	// at returns the bore hoop at the printed wall and at the ends of its
	// rounding, and the stress allowed.
	at := func(c *verification.Case) (p, thick, mid, thin, allowed float64) {
		p, ri := c.Of("p"), c.Of("R")
		hoop := func(wall float64) float64 { return float64(casing.BoreHoop(quantity.Pressure(p), 1+wall/ri)) }
		return p, hoop(c.Value * (1 + c.Tolerance)), hoop(c.Value), hoop(c.Value * (1 - c.Tolerance)), c.Of("S") * c.Of("E")
	}
	held.Table(t, "least_wall.csv", held.Also{
		"least wall, greatest hoop stress": func(t *testing.T, c *verification.Case) {
			if _, thick, mid, thin, allowed := at(c); !(thick <= allowed && allowed <= thin) {
				t.Errorf("hoop %.4g Pa, from %.4g to %.4g; allowed %.4g", mid, thick, thin, allowed)
			}
		},
		// The code's 0.6 P stands for the exact 1/2 P and more: within 0.3 % for
		// these walls.
		"least wall, vessel code": func(t *testing.T, c *verification.Case) {
			if _, thick, mid, thin, allowed := at(c); !(thick <= allowed && 0.997*allowed <= thin) {
				t.Errorf("hoop %.4g Pa, from %.4g to %.4g; allowed %.4g", mid, thick, thin, allowed)
			}
		},
		// p R/t reads low by more than p/2 and less than p.
		"least wall, thin tube": func(t *testing.T, c *verification.Case) {
			if p, thick, mid, thin, allowed := at(c); !(thick <= allowed+p && allowed+p/2 <= thin) {
				t.Errorf("hoop %.4g Pa, from %.4g to %.4g; allowed %.4g, pressure %.4g", mid, thick, thin, allowed, p)
			}
		},
		// Rules of greatest strain want more wall than Lamé's hoop alone, since
		// the pressure on the bore adds to the strain; less where closed ends
		// pull along the tube. Either way the hoop stays within p of the stress.
		"least wall, greatest strain, closed ends": func(t *testing.T, c *verification.Case) {
			if p, _, mid, _, allowed := at(c); math.Abs(mid-allowed) > p {
				t.Errorf("hoop %.4g Pa; allowed %.4g", mid, allowed)
			}
		},
		"least wall, greatest strain, open ends": func(t *testing.T, c *verification.Case) {
			if p, _, mid, _, allowed := at(c); !(mid <= allowed && mid >= allowed-p) {
				t.Errorf("hoop %.4g Pa; allowed %.4g", mid, allowed)
			}
		},
	})
}
