package sizing

import (
	"strings"
	"testing"

	"github.com/shopspring/decimal"
	"pgregory.net/rapid"

	"casewright"
	"casewright/margin"
	"casewright/quantity"
)

// stepped are the keys that an effect was found for.
func stepped(effects []Effect) []string {
	var keys []string
	for _, e := range effects {
		keys = append(keys, e.Key)
	}
	return keys
}

// TestPropertySmallest writes each smallest change into the design: the check
// passes, and half of the change does not do.
func TestPropertySmallest(t *testing.T) {
	tried := 0
	rapid.Check(t, func(t *rapid.T) {
		d := drawn(t)
		report := casewright.Check(d)
		effects := Effects(report)
		var failing []int
		for i := range report.Results {
			if report.Results[i].Verdict == margin.Fail {
				failing = append(failing, i)
			}
		}
		if failing == nil {
			return
		}
		i := rapid.SampledFrom(failing).Draw(t, "failing")
		r := &report.Results[i]
		last := decimal.Zero
		for _, f := range Smallest(report, r, stepped(effects[i])) {
			tried++
			changed := apply(t, d, r, f)
			if c := again(changed, r); c == nil || c.Verdict != margin.Pass {
				t.Fatalf("%s: %s = %s: %+v", r.ID(), f.Key, f.Text, c)
			}
			one := &remedy{report, r}
			before, size := one.dimension(d, f.Key).Dimension, one.dimension(changed, f.Key)
			change := size.Nominal().Sub(before.Nominal())
			if relative := change.Abs().DivRound(before.Nominal(), 12); relative.Cmp(last) < 0 {
				t.Fatalf("%s: %s = %s comes after a greater change", r.ID(), f.Key, f.Text)
			} else {
				last = relative
			}
			if up := change.Sign() > 0; up != (f.Bound == "or more") {
				t.Fatalf("%s: %s = %s %s", r.ID(), f.Key, f.Text, f.Bound)
			}
			size.Dimension = before.WithNominal(before.Nominal().Add(change.Mul(decimal.New(5, -1))))
			if c := again(changed, r); c != nil && c.Verdict == margin.Pass {
				t.Fatalf("%s: %s = %s is not the smallest: half the change, %s, passes too", r.ID(), f.Key, f.Text, size.String())
			}
		}
	})
	if tried < 20 {
		t.Errorf("only %d changes were tried", tried)
	}
}

// TestSmallestOfShortEdge: the screw holes that stand near the end want more
// edge, by two holes of 5.6 mm (MMPDS 1.4.7, e/D 2.0).
func TestSmallestOfShortEdge(t *testing.T) {
	report, i := told(t, "../testdata/designs/basalt64-short-edge.toml", "nozzle/hole.edge")
	fixes := Smallest(report, &report.Results[i], stepped(Effects(report)[i]))
	if len(fixes) != 1 || fixes[0].Key != "end.screws.edge" || fixes[0].Text != `"11.5 ±0.2 mm"` {
		t.Errorf("%+v", fixes)
	}
}

func told(t *testing.T, file, id string) (*casewright.Report, int) {
	t.Helper()
	d, err := casewright.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	report := casewright.Check(d)
	for i := range report.Results {
		if report.Results[i].ID() == id {
			return report, i
		}
	}
	t.Fatalf("no %s", id)
	return nil, 0
}

// TestEffects steps what the effects say by hand, and finds the same margins.
func TestEffects(t *testing.T) {
	report, i := told(t, "../testdata/designs/basalt64-short-edge.toml", "nozzle/hole.tear_out")
	effects := Effects(report)[i]
	var keys []string
	for _, e := range effects {
		keys = append(keys, e.Key+" "+e.Step)
	}
	want := "end.screws.count +1, tube.wall +0.1 mm, end.screws.edge +0.1 mm, end.screws.edge_break +0.1 mm, " +
		"end.screws.hole +0.1 mm, motor.pressure +1 %, tube.lead_in +0.1 mm, tube.temperature +10 °C, tube.inside_diameter +0.1 mm"
	if got := strings.Join(keys, ", "); got != want {
		t.Errorf("effects of\n%s, want\n%s", got, want)
	}
	d := report.Design.Clone()
	edge := &d.Ends[1].Screws.Edge
	size, err := quantity.ParseDimension("6.6 ±0.2 mm") // 6.5 in the file
	if err != nil {
		t.Fatal(err)
	}
	edge.Dimension = size
	if by := again(d, &report.Results[i]).Margin - report.Results[i].Margin; by != effects[2].By || by <= 0 {
		t.Errorf("0.1 mm of edge gives %g, told %g", by, effects[2].By)
	}
	for _, others := range Effects(report) {
		for j, e := range others {
			if j > 0 && max(e.By, -e.By) > max(others[j-1].By, -others[j-1].By) {
				t.Errorf("%s changes more than %s before it", e.Key, others[j-1].Key)
			}
		}
	}
}
