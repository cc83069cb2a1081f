package seal_test

import (
	"math"
	"testing"

	"github.com/shopspring/decimal"

	"casewright/margin"
	"casewright/quantity"
	"casewright/seal"
	"casewright/verification"
	"casewright/verification/held"
)

func psi(x float64) quantity.Amount {
	return quantity.NewAmount(decimal.NewFromFloat(x), quantity.MustUnit("psi"))
}

// TestGapTable holds every step of the table of gaps, at both hardnesses:
// inside the step, at its foot, and just below its top. On a boundary the
// tighter step holds; only the last includes its top.
func TestGapTable(t *testing.T) {
	const last = 3000
	toPSI := func(x float64) float64 { return math.Round(x / float64(quantity.PSI)) }
	held.Table(t, "gaps_seal_maker.csv", held.Also{
		"largest diametral clearance": func(t *testing.T, c *verification.Case) {
			from, to, shore := toPSI(c.Of("from")), toPSI(c.Of("to")), c.Of("shore")
			at := func(p, share float64) float64 {
				gap, reason := seal.GapLimit(psi(p), shore, share)
				if reason != margin.None {
					t.Errorf("%g psi: refused, %s", p, reason.ID())
				}
				return float64(gap)
			}
			for _, p := range []float64{from, from + 1e-9, (from + to) / 2, to - 1e-9} {
				if whole, half := at(p, 1), at(p, 0.5); !c.Holds(whole) || !c.Holds(2*half) {
					t.Errorf("%g psi: %g m and %g m, want %g m and half of it", p, whole, half, c.Value)
				}
			}
			switch top, reason := seal.GapLimit(psi(to), shore, 1); {
			case to == last && (reason != margin.None || math.Abs(float64(top)-c.Value) > 1e-12):
				t.Errorf("%g psi: %g m, %s; the last step includes its top", to, top, reason.ID())
			case to != last && !(float64(top) < c.Value):
				t.Errorf("%g psi: %g m, want the tighter step", to, top)
			}
		},
	})
	for _, name := range seal.CompoundNames() {
		if c, _ := seal.LookupCompound(name); name != "VMQ" && c.GapShare != 1 {
			t.Errorf("%s: share %g, want 1", name, c.GapShare)
		}
	}
}

// TestGapOutsideTheTable: above 3000 psi and outside 70 to 90 Shore A nothing
// is known, and the limit is NaN with the reason.
func TestGapOutsideTheTable(t *testing.T) {
	for _, c := range []struct {
		p, shore float64
		want     margin.Reason
	}{
		{3000, 70, margin.None},
		{3000.000001, 70, margin.PressureOutside},
		{1e9, 90, margin.PressureOutside},
		{100, 69.9, margin.HardnessOutside},
		{100, 90.1, margin.HardnessOutside},
		{100, math.NaN(), margin.HardnessOutside},
		{1e9, 50, margin.HardnessOutside},
	} {
		gap, reason := seal.GapLimit(psi(c.p), c.shore, 1)
		if reason != c.want || (reason != margin.None) != math.IsNaN(float64(gap)) {
			t.Errorf("%g psi, %g Shore A: %g m, %q; want %q", c.p, c.shore, gap, reason.ID(), c.want.ID())
		}
	}
}

// TestBandOutsideItsHardness: a step by itself knows no other hardness either.
func TestBandOutsideItsHardness(t *testing.T) {
	for _, b := range seal.Bands() {
		for _, shore := range []float64{69.9, 90.1, 0, -1, math.NaN(), math.Inf(1)} {
			if gap := b.Limit(shore, 1); !math.IsNaN(float64(gap)) {
				t.Errorf("from %s psi, %g Shore A: %g m", b.From, shore, gap)
			}
		}
	}
}

// TestGapBetweenHardnesses: from 70 to 90 Shore A the limit is on the straight
// line between the two columns, ours, since the table has nothing between.
func TestGapBetweenHardnesses(t *testing.T) {
	for _, b := range seal.Bands() {
		p := psi(b.From.InexactFloat64() + 1)
		for _, part := range []float64{0, 0.25, 0.5, 0.9, 1} {
			gap, reason := seal.GapLimit(p, 70+20*part, 1)
			want := b.At[0]*quantity.Length(1-part) + b.At[1]*quantity.Length(part)
			if reason != margin.None || math.Abs(float64(gap-want)) > 1e-12 {
				t.Errorf("from %s psi, %g Shore A: %g m, want %g", b.From, 70+20*part, gap, want)
			}
		}
	}
}

// TestGapUnitsDoNotMatter: 1000 psi is the boundary however it is written.
func TestGapUnitsDoNotMatter(t *testing.T) {
	for text, want := range map[string]float64{
		"1 ksi":                0.006,
		"1000 psi":             0.006,
		"6.894757 MPa":         0.010, // rounded below the boundary, 6.894757293 MPa
		"6.894757294 MPa":      0.006,
		"0.999999999 ksi":      0.010,
		"6894.75729316836 kPa": 0.010, // the last digit rounded down
	} {
		p, err := quantity.Parse(quantity.KindPressure, text)
		if err != nil {
			t.Fatal(err)
		}
		gap, _ := seal.GapLimit(p, 70, 1)
		if math.Abs(float64(gap/quantity.Inch)-want) > 1e-12 {
			t.Errorf("%s: %g in, want %g", text, gap/quantity.Inch, want)
		}
	}
}

// TestGapGivesWay: the pressure at which a clearance that grows passes the
// limit of its step, worked by hand from the table at 70 Shore A.
func TestGapGivesWay(t *testing.T) {
	const in, perPSI = float64(quantity.Inch), float64(quantity.Inch) / float64(quantity.PSI)
	for _, c := range []struct {
		name          string
		still, growth float64 // in, and in for each psi
		want          float64 // psi
	}{
		{"too wide from the start", 0.017, 0, 0},
		{"as wide as the first step", 0.016, 0, 500},
		{"between two steps", 0.008, 0, 1000},
		{"tight to the top", 0.001, 0, 3000},
		{"grows past the first step", 0.015, 0.00001, 100},
		{"grows past the third", 0.005, 0.0000008, 1250},
		{"grows, caught by a step", 0.004, 0.000001, 1500},
		{"grows past the last", 0.0001, 0.0000007, 2714.285714},
	} {
		got := float64(seal.GapGivesWay(quantity.Length(c.still*in), c.growth*perPSI, 70, 1)) / float64(quantity.PSI)
		if math.Abs(got-c.want) > 1e-6*max(c.want, 1) {
			t.Errorf("%s: gives way at %.6f psi, want %g", c.name, got, c.want)
		}
	}
}
