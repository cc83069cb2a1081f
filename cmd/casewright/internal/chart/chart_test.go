package chart_test

import (
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"casewright/cmd/casewright/internal/chart"
)

// of is a chart of one line between two points, with marks.
func of(t0, v0, t1, v1 float64, marks ...float64) *chart.Chart {
	c := &chart.Chart{Unit: "°C", Series: []chart.Series{{Name: "line", Time: []float64{t0, t1}, Value: []float64{v0, v1}}}}
	for _, m := range marks {
		c.Marks = append(c.Marks, chart.Mark{Time: m, Name: "mark"})
	}
	return c
}

func labels(a chart.Axis) string {
	var list []string
	for _, t := range a.Ticks {
		list = append(list, t.Label)
	}
	return strings.Join(list, "|")
}

// TestLogarithmic: a burn of 2.5 s and a soak to 1000 s, worked by hand: the
// knee is the round time at or below a tenth of the mark; from there on equal
// ratios take equal room, and up to there equal times do, at the same slope.
func TestLogarithmic(t *testing.T) {
	a := of(0, 20, 1000, 100, 2.5).Times(8)
	if a.Knee != 0.2 || a.From != 0 || a.To != 1000 {
		t.Fatalf("from %g to %g with the knee at %g", a.From, a.To, a.Knee)
	}
	if got, want := labels(a), "0|0.2 s|0.5 s|1 s|2 s|5 s|10 s|20 s|1 min|2 min|5 min|10 min"; got != want {
		t.Errorf("ticks %s, want %s", got, want)
	}
	whole := 1 + math.Log(1000/0.2) // in lengths of the linear part
	for _, c := range []struct{ time, want float64 }{
		{0, 0},
		{0.1, 0.5 / whole},
		{0.2, 1 / whole},
		{2, (1 + math.Ln10) / whole},
		{20, (1 + 2*math.Ln10) / whole},
		{1000, 1},
	} {
		if got := a.At(c.time); math.Abs(got-c.want) > 1e-12 {
			t.Errorf("%g s stands at %g, want %g", c.time, got, c.want)
		}
	}
	const h = 1e-6
	before, after := (a.At(0.2)-a.At(0.2-h))/h, (a.At(0.2+h)-a.At(0.2))/h
	if math.Abs(before/after-1) > 1e-4 {
		t.Errorf("the axis bends at its knee: slopes %g and %g", before, after)
	}
}

// TestTicks holds round steps in the unit that fits.
func TestTicks(t *testing.T) {
	linear := func(from, to float64) chart.Axis {
		c := of(from, 0, to, 1)
		c.Linear = true
		return c.Times(8)
	}
	for _, c := range []struct {
		axis       chart.Axis
		unit, want string
	}{
		{linear(0, 3), "s", "0.0|0.5|1.0|1.5|2.0|2.5|3.0"},
		{linear(0, 299), "s", "0|50|100|150|200|250"},
		{linear(0, 1000), "min", "0|5|10|15"},
		{linear(0, 18000), "h", "0|1|2|3|4|5"},
		{linear(-1, 1), "s", "-1.0|-0.5|0.0|0.5|1.0"},
		{of(0, 20, 1, 921).Values(8), "°C", "0|200|400|600|800|1000"},
		{of(0, -40, 1, 20).Values(8), "°C", "-40|-30|-20|-10|0|10|20"},
		{of(0, 20, 1, 20).Values(8), "°C", "19.0|19.5|20.0|20.5|21.0"},
		{of(0, 20, 1, 20+1e-9).Values(8), "°C", "19.0|19.5|20.0|20.5|21.0|21.5"}, // nothing is made of noise
		{of(0, 0, 1, 0).Values(8), "°C", "0.0|0.2|0.4|0.6|0.8|1.0"},
		{of(0, 0, 1, 2e9).Values(4), "°C", "0|1e+09|2e+09"},
		{new(chart.Chart).Times(8), "s", "0.0|0.2|0.4|0.6|0.8|1.0"},
	} {
		if got := labels(c.axis); got != c.want || c.axis.Unit != c.unit {
			t.Errorf("from %g to %g: %s in %q, want %s in %q", c.axis.From, c.axis.To, got, c.axis.Unit, c.want, c.unit)
		}
	}
}

// number is any, often one that is none.
func number(t *rapid.T, name string) float64 {
	return rapid.OneOf(
		rapid.Float64(), rapid.Float64Range(-100, 1000), rapid.Float64Range(0, 1e-3),
		rapid.SampledFrom([]float64{0, math.NaN(), math.Inf(1), math.Inf(-1), 1e30, -1e30, math.MaxFloat64, math.SmallestNonzeroFloat64, 2.5, 1000}),
	).Draw(t, name)
}

// TestAxes: whatever is drawn lies on its axes; ticks rise, are 1, 2 or 5 of a
// power of ten apart where the axis is linear, and are not many.
func TestAxes(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := of(number(t, "t0"), number(t, "v0"), number(t, "t1"), number(t, "v1"), number(t, "m1"), number(t, "m2"))
		c.Levels = []chart.Level{{Value: number(t, "l")}}
		c.Linear = rapid.Bool().Draw(t, "linear")
		times, values := c.Times(8), c.Values(8)
		inside := func(a chart.Axis, x float64) {
			if at := a.At(x); !(at >= -1e-9 && at <= 1+1e-9) {
				t.Fatalf("%g stands at %g of an axis from %g to %g", x, at, a.From, a.To)
			}
		}
		for _, piece := range c.Series[0].Pieces() {
			for _, p := range piece {
				inside(times, p.Time)
				inside(values, p.Value)
			}
		}
		levels, marks := c.Drawn()
		for _, l := range levels {
			inside(values, l.Value)
		}
		for _, m := range marks {
			inside(times, m.Time)
		}
		for _, a := range []chart.Axis{times, values} {
			if a.Knee == 0 && (len(a.Ticks) == 0 || len(a.Ticks) > 11) {
				t.Fatalf("%d ticks from %g to %g", len(a.Ticks), a.From, a.To)
			}
			for i, tick := range a.Ticks {
				inside(a, tick.Value)
				if i > 0 && !(tick.Value > a.Ticks[i-1].Value) {
					t.Fatalf("tick %g after %g", tick.Value, a.Ticks[i-1].Value)
				}
			}
			place := rapid.Float64Range(0, 1).Draw(t, "place")
			if got := a.At(a.Value(place)); math.Abs(got-place) > 1e-6 {
				t.Fatalf("what stands at %g stands at %g", place, got)
			}
		}
		for i := 1; i < len(values.Ticks); i++ {
			step := (values.Ticks[i].Value - values.Ticks[i-1].Value)
			if digit := strconv.FormatFloat(step, 'e', 2, 64)[:4]; !slices.Contains([]string{"1.00", "2.00", "5.00"}, digit) {
				t.Fatalf("steps of %g", step)
			}
		}
	})
}

// TestThin: the labels that stay do not meet, and of two that meet the rounder
// stays.
func TestThin(t *testing.T) {
	a := of(0, 20, 1000, 100, 2.5).Times(8)
	width := func(label string) float64 { return float64(len(label)+2) / 60 }
	a.Thin(width)
	for i := 1; i < len(a.Ticks); i++ {
		x, y := a.Ticks[i-1], a.Ticks[i]
		if a.At(y.Value)-a.At(x.Value) < (width(x.Label)+width(y.Label))/2 {
			t.Errorf("%s meets %s", x.Label, y.Label)
		}
	}
	if got, want := labels(a), "0|0.2 s|1 s|10 s|1 min|10 min"; got != want {
		t.Errorf("%s stay, want %s", got, want)
	}
}

// TestGaps: what is no number parts a line, and what one of time and value lacks
// is left out.
func TestGaps(t *testing.T) {
	nan := math.NaN()
	s := chart.Series{Time: []float64{0, 1, nan, 3, 4, 5, 6, 7}, Value: []float64{1, 2, 3, 4, math.Inf(1), 9, 5}}
	want := [][]chart.Point{{{Time: 0, Value: 1}, {Time: 1, Value: 2}}, {{Time: 3, Value: 4}}, {{Time: 5, Value: 9}, {Time: 6, Value: 5}}}
	if diff := cmp.Diff(want, s.Pieces()); diff != "" {
		t.Error(diff)
	}
	sum, ok := s.Summary()
	if want := (chart.Summary{First: want[0][0], Highest: want[2][0], Last: want[2][1]}); !ok || sum != want {
		t.Errorf("%v, want %v", sum, want)
	}
	if _, ok := (&chart.Series{Value: []float64{1}}).Summary(); ok {
		t.Error("a line without a point has a first one")
	}
}

// TestSpread holds places worked out by hand: the mean of those that meet stays.
func TestSpread(t *testing.T) {
	for _, c := range []struct{ wanted, want []float64 }{
		{nil, []float64{}},
		{[]float64{5, 2}, []float64{5, 2}},
		{[]float64{5, 5, 5}, []float64{4, 5, 6}},
		{[]float64{5, 4.9, 9}, []float64{5.45, 4.45, 9}},
		{[]float64{0, 0, 0}, []float64{0, 1, 2}},
		{[]float64{10, 10, 3}, []float64{9, 10, 3}},
	} {
		got := chart.Spread(c.wanted, 1, 0, 10)
		for i := range got {
			got[i] = math.Round(1e9*got[i]) / 1e9
		}
		if diff := cmp.Diff(c.want, got); diff != "" {
			t.Errorf("%v (-want +got):\n%s", c.wanted, diff)
		}
	}
}

// TestSpreadApart: as long as there is room all stand apart and inside, in the
// order that was wanted, and none could be moved nearer to its place alone.
func TestSpreadApart(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		wanted := rapid.SliceOfN(rapid.Float64Range(-5, 25), 1, 20).Draw(t, "wanted")
		got := chart.Spread(wanted, 1, 0, 20)
		for i, y := range got {
			if y < -1e-9 || y > 20+1e-9 {
				t.Fatalf("%g is not inside", y)
			}
			alone := true
			for j, z := range got {
				if i != j && math.Abs(y-z) < 1-1e-9 || wanted[i] < wanted[j] && y > z {
					t.Fatalf("%v", got)
				}
				alone = alone && (i == j || math.Abs(y-z) > 1+1e-6)
			}
			if alone && math.Abs(y-max(0, min(20, wanted[i]))) > 1e-9 {
				t.Fatalf("%g stands at %g without need", wanted[i], y)
			}
		}
	})
}

// TestTold holds times and values as a person reads them.
func TestTold(t *testing.T) {
	for got, want := range map[string]string{
		chart.Time(0): "0 s", chart.Time(2.5): "2.5 s", chart.Time(59): "59 s", chart.Time(840): "14 min", chart.Time(1000): "16.7 min", chart.Time(9000): "2.5 h",
		chart.Number(0): "0", chart.Number(39.84): "39.8", chart.Number(921.4): "921", chart.Number(-0.01234): "-0.0123", chart.Number(1234.5): "1234", chart.Number(3e9): "3e+09",
	} {
		if got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}
