package casewright

import (
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/shopspring/decimal"
	"pgregory.net/rapid"

	"casewright/fastener"
	"casewright/margin"
	"casewright/quantity"
	"casewright/seal"
)

// apply writes a fix into a copy of the design, as a person would.
func apply(t rapid.TB, d *Design, r *Result, f Fix) *Design {
	d = copied(d)
	e := &End{}
	if r.Check.Part > 0 {
		e = &d.Ends[r.Check.Part-1]
	}
	text := strings.Trim(f.Text, `"`)
	for _, k := range keys {
		if k.Path != f.Key {
			continue
		}
		switch field := k.field(d, e).(type) {
		case *Dimension:
			size, err := quantity.ParseDimension(text)
			if err != nil {
				t.Fatalf("%s: %v", f.Text, err)
			}
			field.Dimension = size
		case *Count:
			n, err := strconv.Atoi(text)
			if err != nil {
				t.Fatal(err)
			}
			field.Value = n
		case *Thread:
			field.Thread, _ = fastener.LookupThread(text)
		case *Compound:
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
		e.Screws.Hole.Dimension = size
	}
	return d
}

// again is the same check in a changed design; nil where it cannot be built.
func again(d *Design, r *Result) *margin.Check {
	sound := true
	d.complete(func(Place, string, string) { sound = false })
	if !sound {
		return nil
	}
	all := evaluate(d)
	i := slices.IndexFunc(all, func(c margin.Check) bool { return c.Method == r.Method && c.Part == r.Check.Part })
	return &all[i]
}

// TestPropertyAdviceHelps follows every advice to the letter: the check then
// passes, and with one step of the drawing less it does not.
func TestPropertyAdviceHelps(t *testing.T) {
	fixes := 0
	often(t, func(t *rapid.T) {
		d := drawSheet(t).read(t)
		report := Check(d)
		var failing []*Result
		for i := range report.Results {
			if report.Results[i].Verdict == margin.Fail {
				failing = append(failing, &report.Results[i])
			}
		}
		if len(failing) > 0 {
			r := rapid.SampledFrom(failing).Draw(t, "failing")
			for _, f := range report.Advise(r).Fixes {
				fixes++
				changed := apply(t, d, r, f)
				if c := again(changed, r); c == nil || c.Verdict != margin.Pass {
					t.Fatalf("%s: %s = %s %s: %+v", r.ID(), f.Key, f.Text, f.Also, c)
				}
				e, was := &End{}, &End{}
				if r.Check.Part > 0 {
					e, was = &changed.Ends[r.Check.Part-1], &d.Ends[r.Check.Part-1]
				}
				size := dimension(changed, e, f.Key)
				if size == nil {
					continue
				}
				before := dimension(d, was, f.Key).Dimension
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
	if fixes < 30 {
		t.Errorf("only %d fixes were tried", fixes)
	}
}

// TestAdviceOnTolerance holds that what a tolerance costs is what the exact
// size would gain, and that the better size gives the value that is told.
func TestAdviceOnTolerance(t *testing.T) {
	d, err := ReadFile("testdata/designs/basalt64-bought-tube.toml")
	if err != nil {
		t.Fatal(err)
	}
	report, told := Check(d), 0
	for i := range report.Results {
		r := &report.Results[i]
		if !r.ByTolerance() {
			continue
		}
		costs := report.Advise(r).Costs
		if len(costs) != 2 || costs[0].Cost < costs[1].Cost {
			t.Fatalf("%s: costs %+v", r.ID(), costs)
		}
		for _, c := range costs {
			told++
			exact := copied(d)
			f := dimension(exact, &exact.Ends[r.Check.Part-1], c.Key)
			f.Dimension = f.Exact()
			if gain := good(again(exact, r)) - good(&r.Check); !alike(gain, c.Cost, 1e-9) {
				t.Errorf("%s: %s costs %g, an exact size gains %g", r.ID(), c.Key, c.Cost, gain)
			}
		}
		best := costs[0].Better
		if best.Key != "tube.inside_diameter" || !costs[0].Passes {
			t.Errorf("%s: better is %+v", r.ID(), best)
		}
		measured := copied(d)
		size, err := quantity.ParseDimension(strings.Trim(best.Text, `"`))
		if err != nil {
			t.Fatal(err)
		}
		measured.Tube.Inside.Dimension, measured.Tube.Outside = size, Dimension{}
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
