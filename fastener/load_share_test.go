package fastener_test

import (
	"testing"

	"casewright/fastener"
	"casewright/margin/reference"
	"casewright/quantity"
)

// TestLoadShare holds the load of the hardest-loaded screw against solved rows
// of screws with unequal clearance. While elastic the overload may pass 2;
// yielding of the holes levels it, and a share of 1.25 stands between.
func TestLoadShare(t *testing.T) {
	load := func(t *testing.T, row reference.Row, share float64) float64 {
		return float64(fastener.ScrewLoad(quantity.Force(row.Input(t, "F")), share, row.Input(t, "N")))
	}
	reference.Run(t, "../testdata/reference/load_share.csv", map[string]func(*testing.T, reference.Row){
		"load of the hardest-loaded screw": func(t *testing.T, row reference.Row) {
			row.Close(t, load(t, row, row.Input(t, "share")))
		},
		"load of each screw when all holes have yielded": func(t *testing.T, row reference.Row) {
			row.Close(t, load(t, row, 1))
		},
		"overload while elastic": func(t *testing.T, row reference.Row) {
			hardest := float64(fastener.ScrewLoad(1, row.Value, row.Input(t, "N"))) * row.Input(t, "N")
			row.Close(t, hardest)
			if !(hardest >= 1.19 && hardest <= 2.3) {
				t.Errorf("overload %.3f, want 1.2 to 2.3", hardest)
			}
		},
	})
}
