package casewright

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/shopspring/decimal"
	"pgregory.net/rapid"

	"casewright/casing"
	"casewright/closure"
	"casewright/fastener"
	"casewright/margin"
	"casewright/quantity"
	"casewright/seal"
	"casewright/testdata/sheet"
)

// The tests of this file draw motors at random, write each as a design file,
// read it, and hold what must be true of every motor. No expected value comes
// from the project's own numbers: each property compares two motors, or a
// motor with the definition of the margin.

// read reads a sheet, which must be a sound design.
func read(t rapid.TB, s *sheet.Sheet) *Design {
	t.Helper()
	d, err := Read("motor.toml", []byte(s.String()))
	if err != nil {
		t.Fatalf("%v\n%s", err, s)
	}
	return d
}

// alike tells whether two numbers are equal but for rounding.
func alike(a, b, tolerance float64) bool {
	return a == b || math.IsNaN(a) && math.IsNaN(b) || math.Abs(a-b) <= tolerance*max(1, math.Abs(a), math.Abs(b))
}

// lower tells whether a margin is lower than another by more than rounding. At
// -1 nothing is left of a strength; that it is not below is held elsewhere.
func lower(m *margin.Method, a, b float64) bool {
	rounding := 1e-12
	if m == &casing.EndBending {
		rounding = 1e-5 // its factor is the greatest of a search along the wall, found as near as that
	}
	return a < b && b > -1 && !alike(a, b, rounding)
}

func copied(d *Design) *Design {
	c := *d
	c.Ends = slices.Clone(d.Ends)
	return &c
}

// loose returns the design with each O-ring as its two sizes, so that these
// can be changed.
func loose(d *Design) *Design {
	c := copied(d)
	for i := range c.Ends {
		s := &c.Ends[i].Seal
		s.Section.Dimension, s.Inside.Dimension, s.Ring = s.section(), s.inside(), Ring{}
	}
	return c
}

// dimensions lists the lengths that a design gives, by their key.
func dimensions(d *Design) (list []*Dimension, names []string) {
	add := func(field any, name string) {
		if f, ok := field.(*Dimension); ok && f.IsSet() {
			list, names = append(list, f), append(names, name)
		}
	}
	for _, k := range keys {
		if !strings.HasPrefix(k.Path, "end.") {
			add(k.field(d, nil), k.Path)
			continue
		}
		for i := range d.Ends {
			add(k.field(d, &d.Ends[i]), fmt.Sprintf("%s of end %d", k.Path, i+1))
		}
	}
	return list, names
}

func evaluate(d *Design) []margin.Check { return NewMotor(d).Evaluate(nil) }

func pascals(p float64) Amount {
	return Amount{quantity.NewAmount(decimal.NewFromFloat(p), quantity.MustUnit("Pa")), Place{Key: "motor.pressure"}}
}

func checkID(c *margin.Check) string { return fmt.Sprintf("part %d %s", c.Part, c.Method.ID) }

// better finds a check that stands better in b than in a: its margin is
// higher, or it is no longer refused. A check that is only noted may be out of
// its range in a and not in b: its verdict is the same.
func better(a, b []margin.Check) string {
	for i := range a {
		x, y := a[i], b[i]
		if x.Method == &seal.Gap && !(y.Value > 0) {
			continue // an end that is wider than the bore has no gap, however much the limit falls
		}
		allowed := x.Verdict == margin.Refused && !math.IsNaN(y.Margin)
		if lower(x.Method, x.Margin, y.Margin) || allowed {
			return fmt.Sprintf("%s: margin %v (%s), then %v (%s)", checkID(&x), x.Margin, x.Reason.ID(), y.Margin, y.Reason.ID())
		}
	}
	return ""
}

// often holds a property for three times as many motors as is usual.
func often(t *testing.T, property func(*rapid.T)) {
	for range 3 {
		rapid.Check(t, property)
	}
}

func TestPropertyNoMarginRisesWithPressure(t *testing.T) {
	often(t, func(t *rapid.T) {
		s := sheet.Draw(t, sheet.SameSign)
		d := read(t, s)
		more := copied(d)
		more.Pressure = pascals(d.Pressure.SI() * rapid.Float64Range(1.0001, 4).Draw(t, "rise"))
		if found := better(evaluate(d), evaluate(more)); found != "" {
			t.Fatalf("%s\n%s", found, s)
		}
	})
}

func TestPropertyThickerWallNeverLowersTube(t *testing.T) {
	often(t, func(t *rapid.T) {
		s := sheet.Draw(t, sheet.SameSign)
		d := read(t, s)
		thicker := copied(d)
		wall := decimal.New(int64(rapid.IntRange(1, 300).Draw(t, "by")), -5) // 0.01 mm and more
		tube := &thicker.Tube
		// The bore stays: with the outside diameter grows the wall.
		if tube.Outside.IsSet() {
			tube.Outside.Dimension = tube.Outside.WithNominal(tube.Outside.Nominal().Add(wall.Mul(two)))
		}
		if tube.Wall.IsSet() {
			tube.Wall.Dimension = tube.Wall.WithNominal(tube.Wall.Nominal().Add(wall))
		}
		before, after := evaluate(d), evaluate(thicker)
		for i, m := range casing.Methods() {
			if lower(after[i].Method, after[i].Margin, before[i].Margin) {
				t.Fatalf("%s: margin %v, with a thicker wall %v\n%s", m.ID, before[i].Margin, after[i].Margin, s)
			}
		}
	})
}

// Lengths times a power of two and forces times its square are exact in
// binary, so the stresses must be the very same. A screw's stress area cannot
// scale, for its thread does not; its shear load is held by the area.
func TestPropertyScaleLeavesStresses(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := math.Ldexp(1, rapid.IntRange(-6, 6).Draw(t, "scale"))
		one := func(label string, least, most float64) float64 { return rapid.Float64Range(least, most).Draw(t, label) }
		mm := func(label string, least, most float64) quantity.Length {
			return quantity.Length(one(label, least, most)) * quantity.Millimetre
		}
		p := quantity.Pressure(one("p", 0.1, 20)) * quantity.Megapascal
		strength := quantity.Pressure(one("strength", 50, 1500)) * quantity.Megapascal
		bore, wall, hole := mm("bore", 10, 200), mm("wall", 0.5, 10), mm("hole", 2, 12)
		d, length, edge := mm("d", 2, 12), mm("length", 1, 30), mm("edge", 8, 40)
		sink, broken := mm("sink", 0, 2), mm("edge break", 0, 1)
		section, groove, inside := mm("section", 1, 7), mm("groove", 10, 190), mm("inside", 10, 190)
		n, nu := float64(rapid.IntRange(1, 12).Draw(t, "n")), one("nu", 0, 0.5)
		f := casing.EndLoad(p, bore)
		load := fastener.ScrewLoad(f, 1.25, n)
		at := func(x quantity.Length) quantity.Length { return x * quantity.Length(s) }
		k := func(s float64) float64 {
			b, w := float64(bore)*s, float64(wall)*s
			return casing.Ratio(margin.Exactly(b), margin.Exactly(w))[margin.Only]
		}
		force := quantity.Force(s * s)
		angle := quantity.Angle(one("angle", 0.1, 1))
		for _, pair := range []struct {
			name      string
			one, many float64 // many: scaled, and put back where it is a length or a force
		}{
			{"ratio", k(1), k(s)},
			{"hoop", float64(casing.BoreHoop(p, k(1))), float64(casing.BoreHoop(p, k(s)))},
			{"von Mises", float64(casing.BoreVonMises(p, k(1))), float64(casing.BoreVonMises(p, k(s)))},
			{"growth", float64(casing.Growth(p, bore, k(1), 70e9, nu)), float64(casing.Growth(p, at(bore), k(s), 70e9, nu)) / s},
			{"end load", float64(f), float64(casing.EndLoad(p, at(bore)) / force)},
			{"net stress", float64(casing.NetStress(p, bore, wall, n, hole, sink)), float64(casing.NetStress(p, at(bore), at(wall), n, at(hole), at(sink)))},
			{"bearing stress", float64(fastener.BearingStress(load, d, length)), float64(fastener.BearingStress(load*force, at(d), at(length)))},
			{"tear-out", float64(fastener.TearOut(wall, edge, hole, strength)), float64(fastener.TearOut(at(wall), at(edge), at(hole), strength) / force)},
			{"bearing thickness", float64(fastener.BearingThickness(wall, broken, sink)), float64(fastener.BearingThickness(at(wall), at(broken), at(sink))) / s},
			{"chamfer", float64(fastener.Chamfer(length, angle)), float64(fastener.Chamfer(at(length), angle)) / s / s},
			{"arc", float64(fastener.Arc(bore, wall, n)), float64(fastener.Arc(at(bore), at(wall), n)) / s},
			{"shear", float64(fastener.Shear(0.6, strength, 1e-5)), float64(fastener.Shear(0.6, strength, quantity.Area(1e-5*s*s)) / force)},
			{
				"redistribution", fastener.Redistribution(load, strength, strength, d, wall, edge, hole),
				fastener.Redistribution(load*force, strength, strength, at(d), at(wall), at(edge), at(hole)),
			},
			{"plate", float64(closure.PlateStress(p, bore, hole, length, nu, 2)), float64(closure.PlateStress(p, at(bore), at(hole), at(length), nu, 2))},
			{"lip bending", float64(closure.LipBending(p, bore, bore, groove, length)), float64(closure.LipBending(p, at(bore), at(bore), at(groove), at(length)))},
			{"lip shear", float64(closure.LipShear(bore, length, strength)), float64(closure.LipShear(at(bore), at(length), strength) / force)},
			{"land", float64(closure.LandLoad(p, bore, groove)), float64(closure.LandLoad(p, at(bore), at(groove)) / force)},
			{"land bending", float64(closure.LandBendingStress(p, bore, groove, length)), float64(closure.LandBendingStress(p, at(bore), at(groove), at(length)))},
			{"squeeze", seal.Squeeze(bore, groove, section), seal.Squeeze(at(bore), at(groove), at(section))},
			{"squeeze aside", seal.SqueezeOffset(bore, groove, sink, section), seal.SqueezeOffset(at(bore), at(groove), at(sink), at(section))},
			{"stretched", float64(seal.Stretched(section, groove, inside)), float64(seal.Stretched(at(section), at(groove), at(inside))) / s},
			{"stretch", seal.Stretch(groove, inside), seal.Stretch(at(groove), at(inside))},
			{"fill", seal.Fill(section, 0.05, 0.01, length, bore, groove), seal.Fill(at(section), 0.05, 0.01, at(length), at(bore), at(groove))},
			{"heat", float64(seal.HeatOpening(0.002, 0.001, bore, groove)), float64(seal.HeatOpening(0.002, 0.001, at(bore), at(groove))) / s},
			{"mouth", float64(seal.Mouth(bore, length, angle)), float64(seal.Mouth(at(bore), at(length), angle)) / s},
		} {
			if pair.one != pair.many {
				t.Fatalf("%s: %v, at scale %v %v", pair.name, pair.one, s, pair.many)
			}
		}
	})
}

// twin is the same motor with every length in millimetres, exactly: the inch
// is 25.4 mm (agreement of 1959).
func twin(s *sheet.Sheet) *sheet.Sheet {
	c := &sheet.Sheet{Cells: slices.Clone(s.Cells)}
	inch := decimal.RequireFromString("25.4")
	for i := range c.Cells {
		if z := c.Cells[i].Size; z != nil {
			twin := sheet.Size{Nominal: z.Nominal.Mul(inch), Lower: z.Lower.Mul(inch), Upper: z.Upper.Mul(inch), Unit: "mm"}
			c.Cells[i].Size, c.Cells[i].Text = &twin, `"`+twin.String()+`"`
		}
	}
	return c
}

func TestPropertyInchesAndMillimetresAgree(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := sheet.Draw(t, sheet.SameSign, sheet.InUnit("in"))
		a, b := Check(read(t, s)), Check(read(t, twin(s)))
		if a.Verdict != b.Verdict || len(a.Results) != len(b.Results) || len(a.Order) != len(b.Order) {
			t.Fatalf("verdict %v in inches, %v in millimetres\n%s", a.Verdict, b.Verdict, s)
		}
		for i := range a.Results {
			x, y := a.Results[i], b.Results[i]
			if x.Verdict != y.Verdict || x.Reason != y.Reason || x.Notes != y.Notes || x.ID() != y.ID() || x.Line != y.Line {
				t.Fatalf("%s: %v in inches, %v in millimetres\n%s", x.ID(), x.Verdict, y.Verdict, s)
			}
			for _, pair := range [][2]float64{
				{x.Demand, y.Demand},
				{x.Capacity, y.Capacity},
				{x.Value, y.Value},
				{x.Min, y.Min},
				{x.Max, y.Max},
				{x.Margin, y.Margin},
				{x.Nominal, y.Nominal},
				{x.GivesWayAt, y.GivesWayAt},
				{x.Factor, y.Factor},
			} {
				if !alike(pair[0], pair[1], 1e-9) {
					t.Fatalf("%s: %v in inches, %v in millimetres\n%s", x.ID(), pair[0], pair[1], s)
				}
			}
		}
		for i := range a.Order {
			if a.Order[i].Result.ID() != b.Order[i].Result.ID() {
				t.Fatalf("order %d: %s in inches, %s in millimetres\n%s", i, a.Order[i].Result.ID(), b.Order[i].Result.ID(), s)
			}
		}
	})
}

func TestPropertyWiderToleranceNeverHelps(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := sheet.Draw(t)
		d := loose(read(t, s))
		before := evaluate(d)
		_, names := dimensions(d)
		for i, name := range names {
			if rapid.IntRange(0, 3).Draw(t, "this one") != 0 {
				continue
			}
			by := decimal.New(int64(rapid.IntRange(1, 30).Draw(t, "by")), -5) // of 0.01 mm
			for _, up := range []bool{false, true} {
				wider := copied(d)
				list, _ := dimensions(wider)
				f := list[i]
				if up {
					f.Dimension = f.WithDeviations(f.Lower(), f.Upper().Add(by))
				} else {
					f.Dimension = f.WithDeviations(f.Lower().Sub(by), f.Upper())
				}
				if f.Least().Sign() <= 0 {
					continue
				}
				if found := better(before, evaluate(wider)); found != "" {
					t.Fatalf("%s widened to %s: %s\n%s", name, f.String(), found, s)
				}
			}
		}
	})
}

// A part is at one corner of the tolerance box where each size lies at its
// least or its greatest, without a tolerance. Two rules go by the number before
// the tolerance: the variation of the wall that is assumed between two
// diameters, and the squeeze that a section of up to 1.80 mm may have. There
// the number stays, and two equal deviations say where the size lies.
func TestPropertyNoCornerIsWorse(t *testing.T) {
	often(t, func(t *rapid.T) {
		s := sheet.Draw(t, sheet.SameSign)
		d := loose(read(t, s))
		worst := evaluate(d)
		assumed := !d.Tube.Wall.IsSet() && !d.Tube.Variation.IsSet()
		sizes, names := dimensions(d)
		for range 10 {
			corner := copied(d)
			list, _ := dimensions(corner)
			for i, f := range list {
				at := sizes[i].Lower()
				if rapid.Bool().Draw(t, "greatest") {
					at = sizes[i].Upper()
				}
				if assumed && strings.HasPrefix(names[i], "tube.") || strings.HasPrefix(names[i], "end.seal.section") {
					f.Dimension = f.WithDeviations(at, at)
				} else {
					f.Dimension = f.WithNominal(f.Nominal().Add(at)).Exact()
				}
			}
			if found := better(evaluate(corner), worst); found != "" {
				t.Fatalf("a corner, then the worst: %s\n%s", found, s)
			}
		}
	})
}

func TestPropertyGivesWayAtThatPressure(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := sheet.Draw(t, sheet.SameSign)
		d := read(t, s)
		part := rapid.Float64Range(0.01, 0.99).Draw(t, "below")
		for i, c := range evaluate(d) {
			// A fraction of a pascal is what rounding leaves of a gap at its limit.
			if !(c.GivesWayAt > 1) || math.IsInf(c.GivesWayAt, 0) {
				continue
			}
			at := func(p float64) margin.Check {
				changed := copied(d)
				changed.Pressure = pascals(p)
				return evaluate(changed)[i]
			}
			there := at(c.GivesWayAt)
			switch {
			case c.Method.Kind == margin.Strength:
				if !alike(there.Demand/there.Capacity, 1, 1e-9) {
					t.Fatalf("%s at %v Pa: demand %v, capacity %v\n%s", checkID(&c), c.GivesWayAt, there.Demand, there.Capacity, s)
				}
			case c.Method == &seal.SqueezeLeastOffset:
				if math.Abs(there.Value-there.Min) > 1e-9 {
					t.Fatalf("%s at %v Pa: value %v, limit %v\n%s", checkID(&c), c.GivesWayAt, there.Value, there.Min, s)
				}
			case c.Method == &casing.EndBending:
				if !alike(there.Value/there.Max, 1, 1e-9) {
					t.Fatalf("%s at %v Pa: value %v, limit %v\n%s", checkID(&c), c.GivesWayAt, there.Value, there.Max, s)
				}
			case c.Method == &seal.Gap:
				for _, p := range []float64{c.GivesWayAt * part, c.GivesWayAt * (1 - 1e-9)} {
					if below := at(p); !(below.Margin >= 0) {
						t.Fatalf("%s gives way at %v Pa, but at %v Pa: %v\n%s", checkID(&c), c.GivesWayAt, p, below.Margin, s)
					}
				}
				if above := at(c.GivesWayAt * (1 + 1e-9)); above.Margin >= 0 {
					t.Fatalf("%s gives way at %v Pa, but above: %v\n%s", checkID(&c), c.GivesWayAt, above.Margin, s)
				}
			default:
				t.Fatalf("%s gives way at %v Pa: not expected", checkID(&c), c.GivesWayAt)
			}
		}
	})
}

// The thin-wall formulas come to Lamé's as the wall goes to nothing: by the
// inside or outside diameter with the first power of t/R, by the mean one with
// the second. Source: series of the formulas.
func TestPropertyThinWallComesToLame(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := quantity.Pressure(rapid.Float64Range(1e5, 2e7).Draw(t, "p"))
		r := rapid.Float64Range(0.005, 0.2).Draw(t, "R_i")
		thin := math.Pow(10, rapid.Float64Range(-6, -2).Draw(t, "log t/R"))
		wall := thin * r
		lame := float64(casing.BoreHoop(p, casing.Ratio(margin.Exactly(2*r), margin.Exactly(wall))[margin.Only]))
		vonMises := float64(casing.BoreVonMises(p, casing.Ratio(margin.Exactly(2*r), margin.Exactly(wall))[margin.Only]))
		for _, way := range []struct {
			name     string
			stress   float64
			want     float64
			constant float64 // bounds the relative error over thin
		}{
			{"inside", float64(p) * 2 * r / 2 / wall, lame, 0.51 * thin},
			{"outside", float64(p) * 2 * (r + wall) / 2 / wall, lame, 0.51 * thin},
			{"mean", float64(p) * 2 * (r + wall/2) / 2 / wall, lame, 0.26*thin*thin + 1e-9},
			{"von Mises", math.Sqrt(3) / 2 * float64(p) * r / wall, vonMises, 1.51 * thin},
		} {
			if e := math.Abs(way.stress/way.want - 1); !(e <= way.constant) {
				t.Fatalf("%s diameter, t/R %v: error %v", way.name, thin, e)
			}
		}
	})
}

func TestPropertyVerdict(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := sheet.Draw(t, sheet.SameSign)
		holdReport(t, Check(read(t, s)), s.String())
	})
}

// holdReport holds what must be true of every report.
func holdReport(t rapid.TB, r *Report, text string) {
	t.Helper()
	want := margin.Pass
	for i := range r.Results {
		c := &r.Results[i]
		switch c.Verdict {
		case margin.Pass:
			if !(c.Margin >= 0) || math.IsInf(c.Margin, 0) || c.Reason != margin.None {
				t.Fatalf("%s passes with margin %v\n%s", c.ID(), c.Margin, text)
			}
		case margin.Fail:
			if !(c.Margin < 0) || math.IsInf(c.Margin, 0) || c.Reason != margin.None {
				t.Fatalf("%s fails with margin %v\n%s", c.ID(), c.Margin, text)
			}
			want = margin.Fail
		case margin.Refused:
			if !math.IsNaN(c.Margin) || !math.IsNaN(c.GivesWayAt) || c.Reason == margin.None {
				t.Fatalf("%s is refused with margin %v\n%s", c.ID(), c.Margin, text)
			}
			if want == margin.Pass {
				want = margin.Refused
			}
		case margin.Noted:
		}
		// A person can check the margin by hand from what is printed.
		switch has := c.Capacity / (c.Factor * c.Demand); {
		case c.Method.Kind != margin.Strength || math.IsNaN(c.Margin):
		case !alike(c.Margin, has-1, 1e-12):
			t.Fatalf("%s: margin %v, capacity over factor times demand %v\n%s", c.ID(), c.Margin, has, text)
		}
	}
	if r.Verdict != want {
		t.Fatalf("verdict %v, want %v\n%s", r.Verdict, want, text)
	}
	for i, e := range r.Order {
		if !(e.At >= 0) || i > 0 && e.At < r.Order[i-1].At {
			t.Fatalf("order: %s at %v\n%s", e.Result.ID(), e.At, text)
		}
	}
}

func TestPropertyNominalIsNotWorse(t *testing.T) {
	often(t, func(t *rapid.T) {
		s := sheet.Draw(t)
		m := NewMotor(read(t, s))
		if found := better(m.EvaluateNominal(nil), m.Evaluate(nil)); found != "" {
			t.Fatalf("nominal, then worst: %s\n%s", found, s)
		}
	})
}

func TestReadingIsDeterministic(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		lines := strings.Split(sheet.Draw(t).String(), "\n")
		for range rapid.IntRange(1, 12).Draw(t, "faults") {
			i := rapid.IntRange(1, len(lines)-1).Draw(t, "line")
			switch rapid.IntRange(0, 3).Draw(t, "fault") {
			case 0:
				lines[i] = strings.Replace(lines[i], "e", "ee", 1)
			case 1:
				lines[i] = strings.Replace(lines[i], " = \"", " = \"x", 1)
			case 2:
				lines = slices.Delete(lines, i, i+1)
			case 3:
				lines[i] = strings.ToUpper(lines[i])
			}
		}
		text := []byte(strings.Join(lines, "\n"))
		_, first := Read("motor.toml", text)
		for range 10 {
			if _, err := Read("motor.toml", text); fmt.Sprint(err) != fmt.Sprint(first) {
				t.Fatalf("%v\nthen\n%v", first, err)
			}
		}
		var all Errors
		if first != nil && !errors.As(first, &all) {
			t.Fatalf("%T", first)
		}
	})
}

// measuredText is a sheet with a table [measured] in which every length that
// the design gives stands, as the function writes it.
func measuredText(s *sheet.Sheet, d *Design, write func(*Dimension) string) string {
	var b strings.Builder
	b.WriteString(s.String() + "\n[measured]\n")
	for part := range len(d.Ends) + 1 {
		for _, k := range keys {
			if strings.HasPrefix(k.Path, "end.") != (part > 0) {
				continue
			}
			if f, ok := k.Field(d, part).(*Dimension); ok && f.IsSet() {
				if text := write(f); text != "" {
					fmt.Fprintf(&b, "%q = %q\n", strings.ToUpper(d.partName(part))+"."+k.Path[strings.Index(k.Path, ".")+1:], text)
				}
			}
		}
	}
	return b.String()
}

// asBuilt reads a text with measurements, and takes them.
func asBuilt(t rapid.TB, text string) *Design {
	t.Helper()
	d, err := Read("motor.toml", []byte(text))
	if err != nil {
		t.Fatalf("%v\n%s", err, text)
	}
	built, err := d.AsBuilt()
	if err != nil {
		t.Fatalf("%v\n%s", err, text)
	}
	return built
}

func TestPropertyMeasuredAsDrawnChangesNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := sheet.Draw(t)
		d := read(t, s)
		before := evaluate(d)
		text := measuredText(s, d, func(f *Dimension) string { return f.Text() })
		built := asBuilt(t, text)
		if len(built.Measured) == 0 {
			t.Fatalf("nothing is measured\n%s", text)
		}
		for i, c := range evaluate(built) {
			if c.Verdict != before[i].Verdict || !alike(c.Margin, before[i].Margin, 0) {
				t.Fatalf("%s: %v measured, %v drawn\n%s", checkID(&c), c.Margin, before[i].Margin, text)
			}
		}
	})
}

// A nominal size lies within its own tolerance, unless both deviations have the
// same sign.
func TestPropertyMeasuredAtNominalNeverHurts(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := sheet.Draw(t)
		d := read(t, s)
		taken := false
		text := measuredText(s, d, func(f *Dimension) string {
			if taken && rapid.Bool().Draw(t, "leave out") {
				return ""
			}
			taken = true
			return f.Exact().String()
		})
		built := asBuilt(t, text)
		if found := better(evaluate(built), evaluate(d)); found != "" {
			t.Fatalf("measured, then drawn: %s\n%s", found, text)
		}
		if r := Check(built); !r.Has("measured_exact") || r.Has("measured_unused") || r.Has("out_of_tolerance") {
			t.Fatalf("notes %v\n%s", r.Notes, text)
		}
	})
}

// The drawing stays as it is; what was measured stands at the line of its entry.
func TestAsBuilt(t *testing.T) {
	text := Example + "\n[measured]\n\"NOZZLE.screws.edge\" = \"13.5 ±0.1 mm\"\n"
	line := strings.Count(text, "\n")
	d := readExample(t, text)
	built, err := d.AsBuilt()
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		design *Design
		text   string
		atLine bool
	}{{d, "14 ±0.2 mm", false}, {built, "13.5 ±0.1 mm", true}, {built.Drawn, "14 ±0.2 mm", false}} {
		edge := c.design.Ends[1].Screws.Edge
		if edge.Text() != c.text || edge.Key != "end.screws.edge" || (edge.Line == line) != c.atLine {
			t.Errorf("%q, key %q, line %d; want %q, at line %d: %t", edge.Text(), edge.Key, edge.Line, c.text, line, c.atLine)
		}
	}
	if other := built.Ends[0].Screws.Edge.Text(); other != "14 ±0.2 mm" {
		t.Errorf("the other end has %q", other)
	}
	if built, err := readExample(t, Example).AsBuilt(); built != nil || err == nil {
		t.Errorf("nothing is measured: %v, %v", built != nil, err)
	}
}
