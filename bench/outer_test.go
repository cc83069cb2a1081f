package bench_test

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"casewright"
	"casewright/bench"
	"casewright/quantity"
)

// read reads the example with changes and with measurements.
func read(t *testing.T, measured string, changes ...string) *casewright.Design {
	t.Helper()
	text := strings.NewReplacer(changes...).Replace(casewright.Example)
	if measured != "" {
		text += "\n[measured]\n" + measured
	}
	d, err := casewright.Read("m.toml", []byte(text))
	if err != nil {
		t.Fatal(err)
	}
	if measured != "" {
		if d, err = d.AsBuilt(); err != nil {
			t.Fatal(err)
		}
	}
	return d
}

// TestOuter: by hand, where the outside diameter is from and how large it is:
// 57.10 ±0.03 mm and two walls of 3.20 ±0.15 mm, or what was measured of them.
func TestOuter(t *testing.T) {
	const bore, wall = "\"tube.inside_diameter\" = \"57.12 ±0.01 mm\"\n", "\"tube.wall\" = \"3.25 ±0.02 mm\"\n"
	outside := []string{`inside_diameter = "57.10 ±0.03 mm"`, `outside_diameter = "63.5 ±0.2 mm"`}
	for _, c := range []struct {
		name           string
		design         *casewright.Design
		from           bench.Origin
		across, widest float64 // mm
		allowed        [2]float64
	}{
		{"drawn", read(t, ""), bench.Drawn, 63.5, 63.83, [2]float64{63.17, 63.83}},
		{"bore and wall", read(t, bore+wall), bench.Measured, 63.62, 63.67, [2]float64{63.17, 63.83}},
		{"bore", read(t, bore), bench.PartMeasured, 63.52, 63.83, [2]float64{63.17, 63.83}},
		{"an end", read(t, "\"nozzle.screws.edge\" = \"13.5 ±0.1 mm\"\n"), bench.Drawn, 63.5, 63.83, [2]float64{63.17, 63.83}},
		{"outside", read(t, "\"tube.outside_diameter\" = \"63.58 ±0.01 mm\"\n", outside...), bench.Measured, 63.58, 63.59, [2]float64{63.3, 63.7}},
		{"wall beside a drawn outside", read(t, wall, outside...), bench.Drawn, 63.5, 63.7, [2]float64{63.3, 63.7}},
	} {
		o, err := bench.OuterOf(c.design)
		if err != nil {
			t.Fatal(err)
		}
		for what, size := range map[string][2]float64{
			"across": {float64(o.Across), c.across}, "widest": {float64(o.Widest), c.widest}, "drawn": {float64(o.Drawn), 63.5},
			"least": {float64(o.Allowed[0]), c.allowed[0]}, "most": {float64(o.Allowed[1]), c.allowed[1]},
		} {
			if math.Abs(1e3*size[0]-size[1]) > 1e-9 {
				t.Errorf("%s: %s is %.4f mm, want %.4f mm", c.name, what, 1e3*size[0], size[1])
			}
		}
		if o.From != c.from {
			t.Errorf("%s: from %q, want %q", c.name, o.From, c.from)
		}
		rows, err := bench.HoleRows(c.design)
		if err != nil || rows[1].Across != o.Across {
			t.Errorf("%s: the holes lie on %v, %v", c.name, rows[1].Across, err)
		}
		// The holes stay where they are drawn.
		if got := rows[1].Edge.String(); got != "14 ±0.2 mm" {
			t.Errorf("%s: holes %s from the end", c.name, got)
		}
	}
}

// TestMeasuring: a strip for a measured tube closes round that tube to 0.05 mm,
// the ring slides on it with its room, and another tube is refused.
func TestMeasuring(t *testing.T) {
	design := read(t, "")
	rows, err := bench.HoleRows(design)
	if err != nil {
		t.Fatal(err)
	}
	rapid.Check(t, func(t *rapid.T) {
		across := quantity.Length(0.0635 * rapid.Float64Range(0.95, 1.05).Draw(t, "measured/drawn"))
		outer, err := rows[0].Measuring(across)
		if err != nil {
			t.Fatal(err)
		}
		row := rows[0].On(outer)
		strip := bench.StripOf(row, 0.0001)
		radius := float64(across)/2 + 0.00005
		if gap := float64(strip.Length) - 2*math.Pi*radius; math.Abs(gap) > 0.05e-3 {
			t.Fatalf("it does not close by %g m", gap)
		}
		if arc := float64(row.Holes[1].Arc); math.Abs(arc-math.Pi*float64(across)/8) > 1e-9 || row.From != bench.Measured {
			t.Fatalf("the first arc is %g m, from %s", arc, row.From)
		}
		ring, err := bench.RingOf(design, row)
		if err != nil || math.Abs(float64(ring.Bore-across)-0.0001) > 1e-9 {
			t.Fatalf("bore %g m, %v", ring.Bore, err)
		}
	})
	for _, off := range []float64{0.0603, 0.0667, 0, -0.0635, math.Inf(1), math.NaN()} {
		if _, err := rows[0].Measuring(quantity.Length(off)); err == nil || !strings.Contains(err.Error(), "5 % from the drawn 63.50 mm") {
			t.Errorf("%g m: %v", off, err)
		}
	}
}

// TestSink by hand: a metric hole of 5.5 mm sunk 1.5 mm at 90° is 8.5 mm wide;
// an inch hole of 0.201 in sunk 0.05 in at 82° is 0.201 + 0.1 tan 41° = 0.28793
// in wide.
func TestSink(t *testing.T) {
	rows, err := bench.HoleRows(read(t, "", "  count = 8", "  head = \"countersunk\"\n  head_depth = \"1.5 mm\"\n  count = 8"))
	if err != nil {
		t.Fatal(err)
	}
	if s := rows[0].Sink; s == nil || s.Angle != 90 || math.Abs(float64(s.Across)-0.0085) > 1e-9 {
		t.Errorf("metric: %+v", s)
	}
	rows, err = bench.HoleRows(read(t, "", `"M5x0.8"`, `"10-32 UNF"`, `"12.9"`, `"ASTM A574"`, `"5.5 ±0.1 mm"`, `"0.201 in"`, "  count = 8", "  head = \"countersunk\"\n  head_depth = \"0.05 in\"\n  count = 8"))
	if err != nil {
		t.Fatal(err)
	}
	if s := rows[0].Sink; s == nil || s.Angle != 82 || math.Abs(float64(s.Across)/0.0254-0.28793) > 1e-5 {
		t.Errorf("inch: %+v", s)
	}
	if rows, err := bench.HoleRows(read(t, "")); err != nil || rows[0].Sink != nil {
		t.Errorf("holes of cap screws are countersunk: %v, %v", rows[0].Sink, err)
	}
}
