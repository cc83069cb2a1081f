package sizing

import (
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/shopspring/decimal"
	"pgregory.net/rapid"

	"casewright"
	"casewright/fastener"
	"casewright/margin"
	"casewright/quantity"
	"casewright/seal"
	"casewright/testdata/sheet"
)

// apply writes a fix into a copy of the design, as a person would.
func apply(t rapid.TB, d *casewright.Design, r *casewright.Result, f Fix) *casewright.Design {
	d = d.Clone()
	where := &site{d, int(r.Check.Part)}
	text := strings.Trim(f.Text, `"`)
	for _, k := range casewright.Keys() {
		if k.Path != f.Key {
			continue
		}
		switch field := k.Field(d, where.part).(type) {
		case *casewright.Dimension:
			size, err := quantity.ParseDimension(text)
			if err != nil {
				t.Fatalf("%s: %v", f.Text, err)
			}
			field.Dimension = size
		case *casewright.Count:
			n, err := strconv.Atoi(text)
			if err != nil {
				t.Fatal(err)
			}
			field.Value = n
		case *casewright.Thread:
			field.Thread, _ = fastener.LookupThread(text)
		case *casewright.Compound:
			field.Compound, _ = seal.LookupCompound(text)
		default:
			t.Fatalf("a fix of %s", f.Key)
		}
	}
	if hole, ok := strings.CutPrefix(f.Also, "hole = "); ok {
		size, err := quantity.ParseDimension(strings.Trim(hole, `"`))
		if err != nil {
			t.Fatal(err)
		}
		where.end().Screws.Hole.Dimension = size
	}
	return d
}

// again is the same check in a changed design; nil where it cannot be built.
func again(d *casewright.Design, r *casewright.Result) *margin.Check {
	if d.Faults() != nil {
		return nil
	}
	all := casewright.NewMotor(d).Evaluate(nil)
	i := slices.IndexFunc(all, func(c margin.Check) bool { return c.Method == r.Method && c.Part == r.Check.Part })
	return &all[i]
}

// drawn is a motor drawn at random.
func drawn(t *rapid.T, options ...sheet.Option) *casewright.Design {
	text := sheet.Draw(t, options...).String()
	d, err := casewright.Read("motor.toml", []byte(text))
	if err != nil {
		t.Fatalf("%v\n%s", err, text)
	}
	return d
}

// TestPropertyAdviceHelps follows every advice to the letter: the check then
// passes, and with one step of the drawing less it does not.
func TestPropertyAdviceHelps(t *testing.T) {
	fixes := 0
	rapid.Check(t, func(t *rapid.T) {
		d := drawn(t)
		report := casewright.Check(d)
		var failing []*casewright.Result
		for i := range report.Results {
			if report.Results[i].Verdict == margin.Fail {
				failing = append(failing, &report.Results[i])
			}
		}
		if len(failing) > 0 {
			r := rapid.SampledFrom(failing).Draw(t, "failing")
			for _, f := range Advise(report, r).Fixes {
				fixes++
				changed := apply(t, d, r, f)
				if c := again(changed, r); c == nil || c.Verdict != margin.Pass {
					t.Fatalf("%s: %s = %s %s: %+v", r.ID(), f.Key, f.Text, f.Also, c)
				}
				one := &remedy{report, r}
				size := one.dimension(changed, f.Key)
				if size == nil {
					continue
				}
				before := one.dimension(d, f.Key).Dimension
				step := drawingStep(before)
				if size.Nominal().Cmp(before.Nominal()) > 0 {
					step = step.Neg()
				}
				less := size.Nominal().Add(step)
				if size.Nominal().Sub(before.Nominal()).Abs().Cmp(step.Abs()) <= 0 {
					continue // the size as it was, which fails
				}
				size.Dimension = size.WithNominal(less)
				if c := again(changed, r); c != nil && c.Verdict == margin.Pass {
					t.Fatalf("%s: %s = %s is not the least: %s passes too", r.ID(), f.Key, f.Text, size.String())
				}
			}
		}
	})
	if fixes < 20 {
		t.Errorf("only %d fixes were tried", fixes)
	}
}

// TestAdviceOnTolerance holds that what a tolerance costs is what the exact
// size would gain, and that the better size gives the value that is told.
func TestAdviceOnTolerance(t *testing.T) {
	d, err := casewright.ReadFile("../testdata/designs/basalt64-bought-tube.toml")
	if err != nil {
		t.Fatal(err)
	}
	report, told := casewright.Check(d), 0
	for i := range report.Results {
		r := &report.Results[i]
		if !r.ByTolerance() {
			continue
		}
		costs := Advise(report, r).Costs
		if len(costs) != 2 || costs[0].Cost < costs[1].Cost {
			t.Fatalf("%s: costs %+v", r.ID(), costs)
		}
		for _, c := range costs {
			told++
			exact := d.Clone()
			f := (&remedy{report, r}).dimension(exact, c.Key)
			f.Dimension = f.Exact()
			if gain := measure(again(exact, r)) - measure(&r.Check); !(math.Abs(gain-c.Cost) <= 1e-9) {
				t.Errorf("%s: %s costs %g, an exact size gains %g", r.ID(), c.Key, c.Cost, gain)
			}
		}
		best := costs[0].Better
		if best.Key != "tube.inside_diameter" || !costs[0].Passes {
			t.Errorf("%s: better is %+v", r.ID(), best)
		}
		measured := d.Clone()
		size, err := quantity.ParseDimension(strings.Trim(best.Text, `"`))
		if err != nil {
			t.Fatal(err)
		}
		measured.Tube.Inside.Dimension, measured.Tube.Outside = size, casewright.Dimension{}
		if c := again(measured, r); c.Value != costs[0].Value {
			t.Errorf("%s: measured it has %g, told %g", r.ID(), c.Value, costs[0].Value)
		}
	}
	if told == 0 {
		t.Error("nothing fails by tolerance")
	}
}

// TestDrawingStep holds that sizes are advised as finely as they are written.
func TestDrawingStep(t *testing.T) {
	for text, want := range map[string]string{
		"7 mm": "0.0001", "7 ±0.2 mm": "0.0001", "53.10 ±0.03 mm": "0.00001", "57.0 +0/-0.005 mm": "0.000001",
		"1/2 in": "0.0000254", "1.599 ±0.0005 in": "0.00000254",
	} {
		d, err := quantity.ParseDimension(text)
		if err != nil {
			t.Fatal(err)
		}
		if got := drawingStep(d); !got.Equal(decimal.RequireFromString(want)) {
			t.Errorf("%s: step %s m, want %s", text, got, want)
		}
	}
}
