package fastener_test

import (
	"fmt"
	"testing"

	"github.com/shopspring/decimal"

	"casewright/fastener"
	"casewright/quantity"
	"casewright/verification/held"
)

func ExampleThread_ClearanceHole() {
	for _, name := range []string{"M5", "M4x0.5", "10-32", "1/4-20"} {
		t, _ := fastener.LookupThread(name)
		hole, _ := t.ClearanceHole()
		fmt.Printf("%s: %v\n", t.Name, hole)
	}
	// Output:
	// M5x0.8: 5.5 +0.18/-0 mm
	// M4x0.5: 4.5 +0.18/-0 mm
	// 10-32 UNF: 0.221 +0.008/-0 in
	// 1/4-20 UNC: 0.28125 +0.009/-0 in
}

// TestClearanceHolesPublished holds the holes against tables of others, whose
// names stand in each row.
func TestClearanceHolesPublished(t *testing.T) { held.Table(t, "clearance_holes.csv", nil) }

// TestClearanceHoles: every hole passes its screw at its least, is less than
// half as wide again at its greatest, has a tolerance to one side, and rises
// with the diameter; threads of one diameter share it. Only #12 has none.
func TestClearanceHoles(t *testing.T) {
	var last fastener.Thread
	var lastHole quantity.Dimension
	for _, th := range fastener.Threads() {
		hole, ok := th.ClearanceHole()
		if twelve := th.Name == "12-24 UNC" || th.Name == "12-28 UNF"; ok == twelve {
			t.Errorf("%s: %v, %v", th.Name, hole, ok)
		}
		if !ok {
			if hole.IsSet() {
				t.Errorf("%s: no hole, and yet %v", th.Name, hole)
			}
			continue
		}
		most := th.Diameter.Mul(decimal.New(15, -1))
		if hole.Least().Cmp(th.Diameter) <= 0 || hole.Greatest().Cmp(most) >= 0 {
			t.Errorf("%s: hole %v", th.Name, hole)
		}
		if !hole.Lower().IsZero() || !hole.Upper().IsPositive() {
			t.Errorf("%s: deviations %v, %v", th.Name, hole.Lower(), hole.Upper())
		}
		if metric := hole.Unit().Symbol() == "mm"; metric != th.Metric {
			t.Errorf("%s: hole in %s", th.Name, hole.Unit().Symbol())
		}
		if last.Name != "" && last.Metric == th.Metric {
			if same := last.Diameter.Equal(th.Diameter); same != lastHole.Equal(hole) || !same && hole.Nominal().Cmp(lastHole.Nominal()) < 0 {
				t.Errorf("%s: %v after %s: %v", th.Name, hole, last.Name, lastHole)
			}
		}
		last, lastHole = th, hole
	}
	if hole, ok := (fastener.Thread{}).ClearanceHole(); ok {
		t.Errorf("no thread: hole %v", hole)
	}
}

// TestSizesNameSources reads the tables of holes and heads as they stand.
func TestSizesNameSources(t *testing.T) {
	for _, file := range []string{"holes.csv", "heads.csv"} {
		for _, row := range csvRows(t, file) {
			if row["source"] == "" || row["status"] != "seen" && row["status"] != "memory" {
				t.Errorf("%s: %v", file, row)
			}
		}
	}
}
