package table

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"casewright"
	"casewright/margin"
	"casewright/quantity"
)

// TestMarginText holds that a margin is rounded down, so that no failure reads
// as 0.00 and no exact hundredth loses one.
func TestMarginText(t *testing.T) {
	for _, c := range []struct {
		x    float64
		want string
	}{
		{0, "0.00"},
		{-0.001, "-0.01"},
		{-1e-15, "-0.01"},
		{-0.4, "-0.40"},
		{-1, "-1.00"},
		{0.299999, "0.29"},
		{0.3, "0.30"},
		{0.29, "0.29"}, // 0.29 × 100 is 28.999…
		{0.57, "0.57"},
		{1.1, "1.10"},
		{0.1 + 0.2, "0.30"},
		{0.0099, "0.00"},
		{12.345, "12.34"},
		{99.999, "99.99"},
		{100, "> 99"},
		{math.Inf(1), "> 99"},
		{math.NaN(), ""},
	} {
		if got := Margin(c.x); got != c.want {
			t.Errorf("margin %v is written %q, not %q", c.x, got, c.want)
		}
	}
}

// TestMarginNeverFlatters holds the same of any margin.
func TestMarginNeverFlatters(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x := rapid.Float64Range(-50, 99.9).Draw(t, "margin")
		text := Margin(x)
		shown, err := strconv.ParseFloat(text, 64)
		if err != nil {
			t.Fatalf("%v is written %q", x, text)
		}
		if shown > x+1e-12 || shown < x-0.0101 {
			t.Fatalf("%v is written %q", x, text)
		}
		if negative := strings.HasPrefix(text, "-"); negative != (x < 0) {
			t.Fatalf("%v is written %q: its sign is the verdict", x, text)
		}
	})
}

// TestDigits holds how numbers are rounded, and to which side.
func TestDigits(t *testing.T) {
	for _, c := range []struct {
		x        float64
		decimals int
		side     rounding
		want     string
	}{
		{9.99, 1, down, "9.9"},
		{9.91, 1, up, "10.0"},
		{9.94, 1, nearest, "9.9"},
		{9.96, 1, nearest, "10.0"},
		{-0.58, 1, down, "-0.58"},
		{-0.581, 1, down, "-0.59"},
		{-0.581, 1, up, "-0.58"},
		{3.4, 1, down, "3.4"}, // exact stays exact
		{3.4, 1, up, "3.4"},
		{0.3, 2, down, "0.300"}, // one more below 1
		{0.3424, 2, up, "0.343"},
		{123.9, 1, down, "123"}, // none from 100 on
		{123.1, 1, up, "124"},
		{0.0135, 4, nearest, "0.0135"}, // inches keep their four
		{649.9, 0, down, "649"},
		{0, 2, down, "0.000"},
	} {
		if got := digits(c.x, c.decimals, c.side); got != c.want {
			t.Errorf("%v to %d decimals, side %d, is %q, not %q", c.x, c.decimals, c.side, got, c.want)
		}
	}
}

// TestDigitsSide holds that a number rounded down is never above itself, and
// one rounded up never below, but for what a float64 itself rounds.
func TestDigitsSide(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x := rapid.Float64Range(-1e4, 1e4).Draw(t, "x")
		decimals := rapid.IntRange(0, 4).Draw(t, "decimals")
		parse := func(r rounding) float64 {
			shown, err := strconv.ParseFloat(digits(x, decimals, r), 64)
			if err != nil {
				t.Fatal(err)
			}
			return shown
		}
		slack := 2e-9 * math.Max(1, math.Abs(x))
		if low, high := parse(down), parse(up); low > x+slack || high < x-slack || high-low > 1.01 {
			t.Fatalf("%v lies from %v to %v", x, low, high)
		}
		if middle := parse(nearest); math.Abs(middle-x) > 0.5+slack {
			t.Fatalf("%v is nearly %v", x, middle)
		}
	})
}

// TestText holds the units that a person reads, and that nothing is written
// where there is no number.
func TestText(t *testing.T) {
	metric, imperial := units{}, units{inches: true, psi: true}
	for _, c := range []struct {
		units units
		si    float64
		kind  quantity.Kind
		side  rounding
		want  string
	}{
		{metric, math.NaN(), quantity.KindPressure, down, ""},
		{metric, math.Inf(1), quantity.KindPressure, down, "infinite"},
		{metric, 11.96e6, quantity.KindPressure, down, "11.9 MPa"},
		{metric, 0.0002561, quantity.KindLength, up, "0.257 mm"},
		{metric, 999.4, quantity.KindForce, down, "999 N"},
		{metric, 3169.9, quantity.KindForce, down, "3.16 kN"},
		{metric, 180, quantity.KindTemperatureDifference, nearest, "180 K"},
		// 1 in = 25.4 mm, 1 psi = 6894.757 Pa, 1 lbf = 4.448222 N: NIST SP 811.
		{imperial, 0.0254, quantity.KindLength, down, "1.0000 in"},
		{imperial, 1500 * 6894.757, quantity.KindPressure, nearest, "1500 psi"},
		{imperial, 42e3 * 6894.757, quantity.KindPressure, nearest, "42.0 ksi"},
		{imperial, 1000 * 4.448222, quantity.KindForce, nearest, "1000 lbf"},
		{imperial, 35, quantity.KindTemperatureDifference, down, "63 °F"}, // 1 K = 1.8 °F: NIST SP 811
		{metric, 1.1250, quantity.KindRatio, down, "1.12"},
	} {
		if got := c.units.text(c.si, c.kind, c.side); got != c.want {
			t.Errorf("%v %s is %q, not %q", c.si, c.kind.SI(), got, c.want)
		}
	}
	if got := percent(math.NaN(), down); got != "" {
		t.Errorf("no number is %q %%", got)
	}
	if got := percent(0.0599, down); got != "5.9 %" {
		t.Errorf("0.0599 is %q", got)
	}
}

// TestHasNeeds holds that what there is errs to the bad side: less of what
// should be large, more of what should be small.
func TestHasNeeds(t *testing.T) {
	nan := math.NaN()
	for _, c := range []struct {
		what       string
		method     margin.Method
		check      margin.Check
		has, needs string
	}{
		{
			"a strength: capacity down, factor × demand up",
			margin.Method{ID: "x.y", Kind: margin.Strength, Unit: quantity.KindPressure},
			margin.Check{Verdict: margin.Pass, Capacity: 20.29e6, Demand: 10.01e6, Factor: 2},
			"20.2 MPa", "20.1 MPa",
		},
		{
			"at least: down",
			margin.Method{ID: "x.y", Kind: margin.AtLeast, Unit: quantity.KindRatio},
			margin.Check{Verdict: margin.Fail, Value: 1.9999, Min: 2, Max: nan},
			"1.99", "2.00",
		},
		{
			"at most: up",
			margin.Method{ID: "x.y", Kind: margin.AtMost, Unit: quantity.KindLength},
			margin.Check{Verdict: margin.Fail, Value: 0.34201e-3, Min: nan, Max: 0.342e-3},
			"0.343 mm", "≤ 0.342 mm",
		},
		{
			"of a seal in percent, up",
			margin.Method{ID: "seal.squeeze_most", Kind: margin.AtMost, Unit: quantity.KindRatio},
			margin.Check{Verdict: margin.Fail, Value: 0.30001, Min: nan, Max: 0.30},
			"30.1 %", "≤ 30.0 %",
		},
		{
			"below zero: further below",
			margin.Method{ID: "x.y", Kind: margin.AtLeast, Unit: quantity.KindLength},
			margin.Check{Verdict: margin.Fail, Value: -0.0001e-3, Min: 0, Max: nan},
			"-0.001 mm", "0.000 mm",
		},
		{
			"between: against the nearer limit",
			margin.Method{ID: "seal.hardness", Kind: margin.Between, Unit: quantity.KindRatio},
			margin.Check{Verdict: margin.Fail, Value: 95, Min: 70, Max: 90},
			"95", "≤ 90",
		},
		{
			"told only, without a number: dashes",
			margin.Method{ID: "x.y", Kind: margin.AtLeast, Unit: quantity.KindLength},
			margin.Check{Verdict: margin.Noted, Margin: nan, Value: nan, Min: math.Inf(1), Max: nan},
			"-", "-",
		},
		{
			"refused: nothing",
			margin.Method{ID: "x.y", Kind: margin.Strength, Unit: quantity.KindPressure},
			margin.Check{Verdict: margin.Refused, Capacity: 1, Demand: 1, Factor: 1},
			"", "",
		},
	} {
		c.check.Method = &c.method
		has, needs := (units{}).hasNeeds(&casewright.Result{Check: c.check})
		if has != c.has || needs.cell() != c.needs {
			t.Errorf("%s: %q, needs %q; want %q, needs %q", c.what, has, needs.cell(), c.has, c.needs)
		}
	}
}

// TestUnitsFor holds that auto follows the file: pressure its own unit, lengths
// that of the tube.
func TestUnitsFor(t *testing.T) {
	design := func(size, pressure string) *casewright.Design {
		d := &casewright.Design{}
		length, err := quantity.ParseDimension(size)
		if err != nil {
			t.Fatal(err)
		}
		p, err := quantity.Parse(quantity.KindPressure, pressure)
		if err != nil {
			t.Fatal(err)
		}
		d.Tube.Inside.Dimension, d.Pressure.Amount = length, p
		return d
	}
	for _, c := range []struct {
		wish, size, pressure string
		want                 units
	}{
		{"auto", "57.1 mm", "4.5 MPa", units{}},
		{"auto", "57.1 mm", "45 bar", units{}},
		{"auto", "2 1/4 in", "650 psi", units{true, true}},
		{"auto", "2 1/4 in", "4.5 MPa", units{true, false}},
		{"auto", "57.1 mm", "1 ksi", units{false, true}},
		{"metric", "2 1/4 in", "650 psi", units{}},
		{"imperial", "57.1 mm", "4.5 MPa", units{true, true}},
	} {
		if got := unitsFor(c.wish, design(c.size, c.pressure)); got != c.want {
			t.Errorf("%s of %s and %s is %+v, not %+v", c.wish, c.size, c.pressure, got, c.want)
		}
	}
}
