package casing_test

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"casewright/casing"
	"casewright/margin"
	"casewright/margin/formula"
	"casewright/quantity"
	"casewright/verification"
	"casewright/verification/held"
)

// The tube of the solver's first study: 54 mm outside, 1.6 mm wall; bending
// dies out over 5.06 mm.
func ExampleDecay() {
	beta := casing.Decay(50.8*quantity.Millimetre, 1.6*quantity.Millimetre, 0.33)
	fmt.Printf("1/β = %.2f mm\n", 1/beta/float64(quantity.Millimetre))
	// Output: 1/β = 5.06 mm
}

// Held nowhere near the groove, a wall hardly notices that the pressure stops.
// Screws close to the groove bend it.
func ExampleEndBendingFactor() {
	beta := casing.Decay(57.1*quantity.Millimetre, 3.2*quantity.Millimetre, 0.33)
	for _, toGroove := range []float64{0.008, 0.002} {
		fmt.Printf("%.2f\n", casing.EndBendingFactor(beta*0.014, beta*toGroove, 0.33))
	}
	fmt.Printf("built in %.2f\n", casing.BuiltInFactor(0.33))
	// Output:
	// 0.94
	// 1.11
	// built in 1.79
}

func ExampleBuiltInFactor() {
	fmt.Printf("%.3f\n", casing.BuiltInFactor(0.3))
	// Output: 1.816
}

func ExampleEndBendingStress() {
	stress := casing.EndBendingStress(4.5*quantity.Megapascal, 57.1*quantity.Millimetre, 3.2*quantity.Millimetre, 0.93)
	fmt.Printf("%.1f MPa\n", stress/quantity.Megapascal)
	// Output: 39.4 MPa
}

func ExampleEndBendingFactors() {
	c := casing.EndBendingFactors(
		margin.Span{0.0571, 0.05707, 0.05713}, margin.Span{0.0032, 0.00305, 0.00335},
		margin.Span{0.014, 0.0138, 0.0142}, margin.Span{0.003, 0.0025, 0.0035}, 0.33)
	fmt.Printf("nominal %.3f, from %.3f to %.3f\n", c[margin.Only], c[margin.Least], c[margin.Greatest])
	// Output: nominal 1.056, from 1.020 to 1.086
}

// TestEndBendingBeam holds the closed form against solve_bvp on the equation
// of the beam in three stretches, which knows nothing of it.
func TestEndBendingBeam(t *testing.T) { held.Table(t, "tube_end_beam.csv", nil) }

// TestEndBendingFEM holds it against finite elements: never below, and the
// nearer the thinner the wall.
func TestEndBendingFEM(t *testing.T) { held.Table(t, "tube_end_fem.csv", nil) }

// TestBuiltInEdge holds the wall built in against finite elements and against
// the theory of the same study.
func TestBuiltInEdge(t *testing.T) {
	held.Table(t, "tube_end_builtin.csv", held.Also{
		"axial stress at a built-in edge": func(t *testing.T, c *verification.Case) {
			if !(c.Got > c.Value) {
				t.Errorf("%g Pa is below %g Pa", c.Got, c.Value)
			}
		},
	})
}

// stepAlone returns the factor and the largest moment, over p/β², in an
// endless tube whose pressure begins somewhere: Hetényi, Beams on Elastic
// Foundation, infinite beam under a load on one half of it.
func stepAlone(nu float64) (factor, moment float64) {
	for x := -8.0; x <= 8; x += 1e-4 {
		v := math.Abs(x)
		growth := math.Exp(-v) * math.Cos(v) / 2
		m := math.Exp(-v) * math.Sin(v) / 4
		if x > 0 {
			growth, m = 1-growth, -m
		}
		moment = max(moment, math.Abs(m))
		// 6 M/t² over p R/t with 1/β² = R t/√(3 (1 − ν²)).
		bending := 6 * m / math.Sqrt(3*(1-nu*nu))
		for _, b := range []float64{bending, -bending} {
			axial := 0.5 + b
			hoop := growth + nu*b // the end load's own ν/2 cancels
			factor = max(factor, math.Sqrt(axial*axial-axial*hoop+hoop*hoop))
		}
	}
	return factor, moment
}

// TestFarFromEverything: where end, screws and groove are far apart only the
// step of the pressure bends the wall, by 0.0806 p/β² (e^(−π/4)/(4 √2)); the
// factor is half a per cent above, its least.
func TestFarFromEverything(t *testing.T) {
	for _, nu := range []float64{0, 0.25, 0.33, 0.5} {
		want, moment := stepAlone(nu)
		if math.Abs(moment-0.0806) > 5e-5 {
			t.Errorf("moment %g p/β²", moment)
		}
		for _, far := range []float64{9, 20, 300} {
			if got := casing.EndBendingFactor(far, far, nu); math.Abs(got/want-1.005) > 2e-4 {
				t.Errorf("ν = %g, %g apart: %.6f, want %.6f", nu, far, got, want)
			}
		}
	}
}

// TestEndBendingLimits: never below a tube far from its ends, never above a
// wall that is built in, and the latter where screws, end and groove meet.
func TestEndBendingLimits(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		edge, toGroove, nu := rapid.Float64Range(0.001, 12).Draw(t, "edge"), rapid.Float64Range(0, 12).Draw(t, "to groove"), rapid.Float64Range(0, 0.5).Draw(t, "ν")
		c, most := casing.EndBendingFactor(edge, toGroove, nu), casing.BuiltInFactor(nu)
		if !(c >= math.Sqrt(3)/2 && c <= most) {
			t.Fatalf("%g, of at most %g", c, most)
		}
		if got := casing.EndBendingFactor(0.001, 0, nu); !(got > 0.998*most) {
			t.Fatalf("all in one place %g, built in %g", got, most)
		}
		// No place where a hair more changes much.
		if next := casing.EndBendingFactor(edge+1e-6, toGroove+1e-6, nu); math.Abs(next-c) > 1e-4 {
			t.Fatalf("%g and, a millionth further, %g", c, next)
		}
	})
	for _, bad := range [][3]float64{
		{0.00099, 1, 0.3},
		{-1, 1, 0.3},
		{1, -1e-9, 0.3},
		{1, 1, -0.01},
		{1, 1, 0.51},
		{math.NaN(), 1, 0.3},
		{1, math.NaN(), 0.3},
		{1, 1, math.NaN()},
		{math.Inf(1), 1, 0.3},
		{1, math.Inf(1), 0.3},
	} {
		if c := casing.EndBendingFactor(bad[0], bad[1], bad[2]); !math.IsNaN(c) {
			t.Errorf("%v: %g", bad, c)
		}
	}
	for _, good := range [][3]float64{{0.001, 0, 0}, {1, 0, 0.5}, {math.MaxFloat64, math.MaxFloat64, 0.3}} {
		if c := casing.EndBendingFactor(good[0], good[1], good[2]); !(c > 0) {
			t.Errorf("%v: %g", good, c)
		}
	}
}

// TestEndBendingFactors: the span holds what any size within the tolerances
// gives, without reaching much beyond, and of exact sizes it is one number.
func TestEndBendingFactors(t *testing.T) {
	one := margin.Exactly
	rapid.Check(t, func(t *rapid.T) {
		span := func(name string, least, most float64) margin.Span {
			x := rapid.Float64Range(least, most).Draw(t, name)
			d := rapid.Float64Range(0, 0.05).Draw(t, name+" ±")
			return margin.Span{x, x * (1 - d), x * (1 + d)}
		}
		bore, wall, edge, groove := span("bore", 0.03, 0.1), span("wall", 0.001, 0.005), span("edge", 0.005, 0.02), span("to groove", 0.001, 0.02)
		at := func(d, w, e, c margin.End) float64 {
			// β from its definition, β⁴ R² t² = 3 (1 − ν²).
			beta := math.Pow(3*(1-0.33*0.33)/math.Pow((bore[d]+wall[w])/2*wall[w], 2), 0.25)
			return casing.EndBendingFactor(beta*edge[e], beta*groove[c], 0.33)
		}
		nominal := at(0, 0, 0, 0)
		all := []float64{nominal}
		for i := range margin.End(16) {
			all = append(all, at(1+i&1, 1+i>>1&1, 1+i>>2&1, 1+i>>3))
		}
		inside := func(s margin.Span, name string) float64 {
			return s[margin.Least] + (s[margin.Greatest]-s[margin.Least])*rapid.Float64Range(0, 1).Draw(t, name)
		}
		for range 20 {
			beta := casing.Decay(quantity.Length(inside(bore, "a bore")), quantity.Length(inside(wall, "a wall")), 0.33)
			all = append(all, casing.EndBendingFactor(beta*inside(edge, "an edge"), beta*inside(groove, "a groove"), 0.33))
		}
		got := casing.EndBendingFactors(bore, wall, edge, groove, 0.33)
		if got[margin.Only] != nominal && math.Abs(got[margin.Only]-nominal) > 1e-9 {
			t.Fatalf("nominal %v, want %v", got[margin.Only], nominal)
		}
		if least := slices.Min(all); got[margin.Least] > least+1e-9 {
			t.Fatalf("%v, and yet %v", got, least)
		}
		if most := slices.Max(all); got[margin.Greatest] < most-1e-9 || got[margin.Greatest] > most*1.12 {
			t.Fatalf("%v, the greatest found %v", got, most)
		}
		exact := casing.EndBendingFactors(one(bore[0]), one(wall[0]), one(edge[0]), one(groove[0]), 0.33)
		if exact != one(got[0]) {
			t.Fatalf("exact sizes give %v, want %v", exact, got[0])
		}
	})
	for _, bad := range []margin.Span{one(math.NaN()), one(0), {0.01, -0.01, 0.02}} {
		if c := casing.EndBendingFactors(one(0.05), one(0.002), bad, one(0.01), 0.33); !math.IsNaN(c[margin.Greatest]) {
			t.Errorf("edge %v: %v", bad, c)
		}
	}
}

// TestFarGroove: beyond 4/β from the screws a groove is as good as at infinity,
// wherever the tube ends.
func TestFarGroove(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		edge, nu := rapid.Float64Range(0.001, 3).Draw(t, "edge"), rapid.Float64Range(0, 0.5).Draw(t, "ν")
		far := casing.EndBendingFactor(100, 100, nu)
		for _, c := range []float64{3.9, 4, 4.1, rapid.Float64Range(4, 50).Draw(t, "to groove")} {
			if got := casing.EndBendingFactor(edge, c, nu); got != far {
				t.Fatalf("%g at %g, %g far off", got, c, far)
			}
		}
	})
}

// TestMoreRoomNeverHurts: neither a longer edge nor a groove farther off bends
// the wall more, by however little it is moved.
func TestMoreRoomNeverHurts(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		draw := func(name string, least, most float64) float64 { return rapid.Float64Range(least, most).Draw(t, name) }
		edge, toGroove, nu := draw("edge", 0.02, 2), draw("to groove", 0, 2), draw("ν", 0, 0.5)
		more := draw("more", 0, 1) * draw("much more", 0, 1)
		c := casing.EndBendingFactor(edge, toGroove, nu)
		if got := casing.EndBendingFactor(edge+more, toGroove, nu); got > c*(1+1e-13) {
			t.Fatalf("edge: %g, then %g", c, got)
		}
		if got := casing.EndBendingFactor(edge, toGroove+more, nu); got > c*(1+1e-13) {
			t.Fatalf("to groove: %g, then %g", c, got)
		}
	})
}

// TestEndBendingTakesNoMemory: it is asked for every corner of every end.
func TestEndBendingTakesNoMemory(t *testing.T) {
	if n := testing.AllocsPerRun(100, func() { casing.EndBendingFactor(1.8, 0.9, 0.33) }); n != 0 {
		t.Errorf("%g allocations", n)
	}
}

// TestEndBendingMethod: the printed formulas are the functions, the note comes
// with yielding, and the pressure at which it gives way is where value and
// limit meet.
func TestEndBendingMethod(t *testing.T) {
	m := &casing.EndBending
	eval := func(text string, v *margin.Values) float64 {
		n, err := formula.Parse(text)
		if err != nil {
			t.Fatal(err)
		}
		return n.Eval(func(name string) float64 { return v[slices.Index(m.Names(), name)] })
	}
	rapid.Check(t, func(t *rapid.T) {
		draw := func(name string, least, most float64) float64 { return rapid.Float64Range(least, most).Draw(t, name) }
		v := margin.Values{draw("c_e", 0.8, 1.8), draw("p", 1e6, 5e7), draw("bore", 0.02, 0.1), draw("wall", 0.001, 0.01), draw("yield", 3e7, 5e8), draw("ν", 0, 0.5), draw("ultimate", 1e8, 9e8)}
		value, limit := m.Eval(&v)
		if want := eval(m.Limit, &v); math.Abs(limit/want-1) > 1e-12 {
			t.Fatalf("limit %g, the text says %g", limit, want)
		}
		if want := eval(m.Value, &v); math.Abs(value/want-1) > 1e-12 {
			t.Fatalf("%g, the text says %g", value, want)
		}
		if want := v[0] * v[1] * (v[2]/2 + v[3]/2) / v[3] / v[4]; math.Abs(value/want-1) > 1e-12 {
			t.Fatalf("%g, by hand %g", value, want)
		}
		if got, want := eval(m.Readings[0].Formula, &v), value/v[0]*casing.BuiltInFactor(v[5]); math.Abs(got/want-1) > 1e-12 {
			t.Fatalf("built in %g, want %g", got, want)
		}
		if has := m.Remark(&v, value).Has(margin.LocalYield); has != (value > 1 && value <= limit) {
			t.Fatalf("value %g: note %v", value, has)
		}
		at := v
		at[1] = m.GivesWay(&v, 2, false)
		if got, _ := m.Eval(&at); math.Abs(got-2) > 1e-12 {
			t.Fatalf("at %g Pa the value is %g", at[1], got)
		}
	})
	if m.Remark(&margin.Values{4: 1, 6: 2}, 1) != 0 {
		t.Error("exactly at yield nothing yields")
	}
	if !m.Remark(&margin.Values{4: 1, 6: 2}, 2).Has(margin.LocalYield) {
		t.Error("exactly at the limit it still settles")
	}
	if m.Kind != margin.AtMost || m.Mode != margin.Yields {
		t.Errorf("%d %s", m.Kind, m.Mode)
	}
	// 6061-T6 of 240 and 260 MPa yields nearly where it breaks: 1.25 F_tu counts.
	for _, c := range []struct{ yield, ultimate, want float64 }{{240e6, 260e6, 1.25 * 260 / 240}, {205e6, 515e6, 2}} {
		if _, limit := m.Eval(&margin.Values{1, 1e6, 0.05, 0.003, c.yield, 0.33, c.ultimate}); math.Abs(limit-c.want) > 1e-12 {
			t.Errorf("limit %g, want %g", limit, c.want)
		}
	}
	if m.Readings[0].Of != margin.OfValue {
		t.Error("a reading of the value")
	}
}
