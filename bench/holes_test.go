package bench_test

import (
	"math"
	"testing"

	"github.com/shopspring/decimal"
	"pgregory.net/rapid"

	"casewright"
	"casewright/bench"
	"casewright/quantity"
)

// TestChords: the chord between neighbours over the diameter of the hole
// circle is sin(180°/N), as tables of hole circles print it to five places
// (machinists' handbooks, from memory).
func TestChords(t *testing.T) {
	for n, want := range map[int]float64{3: 0.86603, 4: 0.70711, 5: 0.58779, 6: 0.5, 7: 0.43388, 8: 0.38268, 9: 0.34202, 10: 0.30902, 12: 0.25882, 16: 0.19509, 20: 0.15643, 24: 0.13053} {
		if got := float64(bench.Circle(1, n, 0)[1].Chord); math.Abs(got-want) > 0.5e-5 {
			t.Errorf("%d holes: %.5f, want %.5f", n, got, want)
		}
	}
}

// TestCircleCloses: every hole lies on the circle at its angle, arcs and chords
// are those between the points, and from the last hole to the first it is as
// far as between any other two.
func TestCircleCloses(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := rapid.Float64Range(0.01, 0.3).Draw(t, "D")
		n := rapid.IntRange(1, 60).Draw(t, "N")
		start := rapid.Float64Range(0, 359.99).Draw(t, "start")
		holes := bench.Circle(quantity.Length(d), n, start)
		at := func(h bench.Hole) (x, y float64) {
			a := float64(h.Arc) / (d / 2)
			return d / 2 * math.Cos(a), d / 2 * math.Sin(a)
		}
		apart := func(a, b bench.Hole) float64 {
			x, y := at(a)
			u, v := at(b)
			return math.Hypot(x-u, y-v)
		}
		for k, h := range holes {
			if h.Number != k+1 || h.Angle < 0 || h.Angle >= 360 || float64(h.Arc) >= math.Pi*d {
				t.Fatalf("hole %d: %+v", k, h)
			}
			if got := apart(holes[0], h); math.Abs(got-float64(h.Chord)) > 1e-12 {
				t.Fatalf("hole %d: chord %g, points are %g apart", k, h.Chord, got)
			}
			if next := holes[(k+1)%n]; n > 1 && math.Abs(apart(h, next)-d*math.Sin(math.Pi/float64(n))) > 1e-12 {
				t.Fatalf("from hole %d on: %g", k, apart(h, next))
			}
		}
	})
}

// TestStripCloses: wrapped round the tube, the lap line meets the zero line to
// 0.05 mm, and each mark lies at its hole's angle.
func TestStripCloses(t *testing.T) {
	design, err := casewright.Read("basalt64.toml", []byte(casewright.Example))
	if err != nil {
		t.Fatal(err)
	}
	row, err := bench.HoleRows(design)
	if err != nil || len(row) != 2 || !row[0].First || row[1].First {
		t.Fatalf("%+v, %v", row, err)
	}
	rapid.Check(t, func(t *rapid.T) {
		r := row[0]
		r.Across = quantity.Length(rapid.Float64Range(0.01, 0.5).Draw(t, "D"))
		r.Holes = bench.Circle(r.Across, rapid.IntRange(1, 60).Draw(t, "N"), rapid.Float64Range(0, 359.99).Draw(t, "start"))
		paper := quantity.Length(rapid.Float64Range(0, 0.0005).Draw(t, "paper"))
		s := bench.StripOf(r, paper)
		radius := float64(r.Across+paper) / 2 // of the middle of the paper
		if once := float64(s.Length) / radius; math.Abs(once-2*math.Pi)*radius > 0.05e-3 {
			t.Fatalf("the strip goes round %g times", once/2/math.Pi)
		}
		for i, m := range s.Marks {
			if off := float64(m.X)/radius - r.Holes[i].Angle*math.Pi/180; math.Abs(off)*radius > 1e-8 {
				t.Fatalf("mark %d is %g m off", m.Number, off*radius)
			}
			if m.Y != 0.014 || m.Y+0.005 > s.Height {
				t.Fatalf("mark %d at %g of %g m", m.Number, m.Y, s.Height)
			}
		}
	})
}

// TestRing by hand, for a tube of 57.10 ±0.03 mm with a wall of 3.20 ±0.15 mm:
// it is at most 57.13 + 6.70 mm wide; the bush for 5.5 mm is 10 mm wide.
func TestRing(t *testing.T) {
	design, err := casewright.Read("basalt64.toml", []byte(casewright.Example))
	if err != nil {
		t.Fatal(err)
	}
	rows, err := bench.HoleRows(design)
	if err != nil {
		t.Fatal(err)
	}
	ring, err := bench.RingOf(design, rows[1])
	if err != nil {
		t.Fatal(err)
	}
	for name, size := range map[string][2]float64{
		"bore": {float64(ring.Bore), 0.06393}, "opening": {float64(ring.Opening), 0.0571}, "outside": {float64(ring.Outside), 0.086},
		"stop to holes": {float64(ring.FromStop), 0.014}, "guide": {float64(ring.Guide), 0.010}, "length": {float64(ring.Length), 0.030},
	} {
		if math.Abs(size[0]-size[1]) > 1e-9 {
			t.Errorf("%s: %g m, want %g m", name, size[0], size[1])
		}
	}
	crowded := rows[1]
	crowded.Holes = bench.Circle(crowded.Across, 22, 0) // 9.1 mm apart: no room for bushes
	if ring, err := bench.RingOf(design, crowded); err != nil || ring.Bush || math.Abs(float64(ring.Guide)-0.0055) > 1e-9 {
		t.Errorf("22 holes: %+v, %v", ring, err)
	}
	crowded.Holes = bench.Circle(crowded.Across, 40, 0)
	if _, err := bench.RingOf(design, crowded); err == nil {
		t.Error("40 holes of 5.5 mm are drilled through a ring with no metal between")
	}
	near := rows[1]
	near.Edge.Dimension = near.Edge.WithNominal(decimal.New(1, -3))
	if _, err := bench.RingOf(design, near); err == nil {
		t.Error("holes 1 mm from the end leave no stop")
	}
}
