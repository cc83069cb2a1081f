package bench_test

import (
	"math"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/shopspring/decimal"
	"pgregory.net/rapid"

	"casewright"
	"casewright/bench"
	"casewright/margin"
	"casewright/quantity"
)

// limits holds that every dimension is measured once, within the very limits
// of the design, and that what costs most comes first.
func limits(t rapid.TB, d *casewright.Design) {
	t.Helper()
	r := casewright.Check(d)
	list, left := bench.Inspection(r), given(d)
	decides := map[string]bool{"": true}
	for i := range r.Results {
		if c := &r.Results[i]; c.Verdict != margin.Noted && c.Margin < 1 {
			decides[c.ID()] = true
		}
	}
	for i, item := range list {
		at := place{item.Key, item.Number}
		size, ok := left[at]
		if !ok {
			t.Fatalf("%v is measured twice, or is not given", at)
		}
		delete(left, at)
		least := size.Least()
		if item.Key == "tube.wall_variation" || item.Key == "end.screws.position" {
			least = decimal.Zero
		}
		for _, limit := range []struct {
			text string
			want decimal.Decimal
		}{{item.Least, least}, {item.Greatest, size.Greatest()}} {
			got, err := quantity.ParseDimension(limit.text + " " + item.Unit)
			if err != nil || !got.Nominal().Equal(limit.want) {
				t.Fatalf("%v: %s %s is not %s m (%v)", at, limit.text, item.Unit, limit.want, err)
			}
		}
		if !(item.Loss >= 0) || math.IsInf(item.Loss, 0) || (item.Loss == 0) != (item.Check == "") {
			t.Fatalf("%v: loss %v, of %q", at, item.Loss, item.Check)
		}
		if i > 0 && item.Loss > list[i-1].Loss {
			t.Fatalf("%v costs more than the one before it", at)
		}
		if item.First != (i < 3 && item.Loss > 0) {
			t.Fatalf("%v: place %d, loss %v, first %v", at, i, item.Loss, item.First)
		}
		if !decides[item.Check] {
			t.Fatalf("%v costs %s, which decides nothing or has a margin of 1 and more", at, item.Check)
		}
		if item.Exact && item.Loss > 0 || item.Instrument == "" || item.What == "" || item.Part == "" {
			t.Fatalf("%+v", item)
		}
	}
	for at, size := range left {
		if !size.Greatest().IsZero() {
			t.Fatalf("%v is not measured", at)
		}
	}
}

func TestInspection(t *testing.T) {
	for name, d := range examples(t) {
		t.Run(name, func(t *testing.T) { limits(t, d) })
	}
	rapid.Check(t, func(t *rapid.T) { limits(t, random(t)) })
}

// By hand: 14/5.6 and 13.8/5.6 holes of edge against 2.0; room in the hole of
// 5.5 − 5 and of 5.4 − 5 mm.
func TestLossByHand(t *testing.T) {
	type cost struct {
		Loss  float64
		Check string
	}
	got := map[place]cost{}
	for _, i := range bench.Inspection(casewright.Check(examples(t)["basalt64.toml"])) {
		if i.Key == "end.screws.edge" || i.Key == "end.screws.hole" {
			got[place{i.Key, i.Number}] = cost{math.Round(i.Loss*1e9) / 1e9, i.Check}
		}
	}
	edge := math.Round(0.2/5.6/2*1e9) / 1e9
	want := map[place]cost{
		{"end.screws.edge", 1}: {edge, "bulkhead/hole.edge"},
		{"end.screws.edge", 2}: {edge, "nozzle/hole.edge"},
		{"end.screws.hole", 1}: {0.1, "bulkhead/hole.clearance"},
		{"end.screws.hole", 2}: {0.1, "nozzle/hole.clearance"},
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
}

// A nominal size may lie outside its tolerance: of 13.6 to 13.8 mm the nearest
// to 14 is 13.8. By hand, (13.8 − 13.6)/5.6 holes of edge against 2.0.
func TestLossOutsideNominal(t *testing.T) {
	d, found := changed(t, `edge = "14 ±0.2 mm"`, `edge = "14 -0.2/-0.4 mm"`), false
	for _, i := range bench.Inspection(casewright.Check(d)) {
		if i.Key != "end.screws.edge" {
			continue
		}
		found = true
		if want := 0.2 / 5.6 / 2; math.Abs(i.Loss-want) > 1e-9 || i.Least != "13.6" || i.Greatest != "13.8" {
			t.Errorf("%+v, not a loss of %v", i, want)
		}
	}
	if !found {
		t.Error("the edge is not measured")
	}
}

// The loss is what a file written without the tolerance gains.
func TestLossAsInTheFile(t *testing.T) {
	compared := 0
	for _, c := range []struct{ key, with, without string }{
		{"tube.inside_diameter", `"57.10 ±0.03 mm"`, `"57.10 mm"`},
		{"tube.wall", `"3.20 ±0.15 mm"`, `"3.20 mm"`},
		{"end.lip", `"6 ±0.1 mm"`, `"6 mm"`},
	} {
		before := casewright.Check(changed(t))
		after := casewright.Check(changed(t, c.with, c.without))
		most, name := 0.0, ""
		for i := range before.Results {
			b, a := &before.Results[i], &after.Results[i]
			if b.Margin < 1 && b.Verdict.String() != "note" && a.Margin-b.Margin > most+1e-5 {
				most, name = a.Margin-b.Margin, b.ID()
			}
		}
		for _, item := range bench.Inspection(before) {
			if item.Key != c.key {
				continue
			}
			compared++
			if most == 0 && c.key != "end.lip" {
				t.Errorf("%s costs nothing", c.key)
			}
			if item.Loss != most || item.Check != name {
				t.Errorf("%s costs %s %v, not %s %v", c.key, item.Check, item.Loss, name, most)
			}
		}
	}
	if compared != 3 {
		t.Errorf("%d were compared, not 3", compared)
	}
}

// A part's place says where the hands measure: holes of an end in the tube.
func TestInspectionParts(t *testing.T) {
	for _, item := range bench.Inspection(casewright.Check(examples(t)["slate2in.toml"])) {
		inTube := strings.HasPrefix(item.Key, "tube.") || strings.HasSuffix(item.Key, ".hole") ||
			strings.HasSuffix(item.Key, ".edge") || strings.HasSuffix(item.Key, ".edge_break")
		if inTube != (item.Part == "tube") {
			t.Errorf("%s is measured at %s", item.Key, item.Part)
		}
	}
}
