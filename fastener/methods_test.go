package fastener_test

import (
	"math"
	"testing"

	"casewright/fastener"
	"casewright/margin"
)

// TestThinSheet: bearing is for walls of at least 0.18 of the screw (MMPDS
// 1.4.7, from memory). What is no number lies outside.
func TestThinSheet(t *testing.T) {
	sheet := func(d, t float64) *margin.Values { return &margin.Values{3: d, 4: t} }
	for _, c := range []struct {
		v    *margin.Values
		want margin.Reason
	}{
		{sheet(1, 0.18), margin.None},
		{sheet(4, 0.73), margin.None},
		{sheet(4, 0.71), margin.ThinSheet},
		{sheet(1, math.NaN()), margin.ThinSheet},
	} {
		if got := fastener.HoleBearing.Valid(c.v); got != c.want {
			t.Errorf("%v: %q, want %q", *c.v, got.ID(), c.want.ID())
		}
	}
}

// TestPitchRemark: holes nearer than three diameters are remarked (ours), those
// at three are not.
func TestPitchRemark(t *testing.T) {
	for value, want := range map[float64]margin.Notes{2.99: margin.Of(margin.PitchBelow3), 3: 0, 3.01: 0} {
		if got := fastener.Pitch.Remark(nil, value); got != want {
			t.Errorf("%g holes: notes %b, want %b", value, got, want)
		}
	}
}

// TestFirstContactByHand: 8 screws under 10 kN, the first alone under 500 N: it
// bears 1 + 7/20 of the mean. Its hole, 5 mm by 2 mm at 400 MPa, yields at 4 kN,
// 3.2 times the mean of 1250 N.
func TestFirstContactByHand(t *testing.T) {
	share, limit := fastener.FirstContact.Eval(&margin.Values{8, 500, 10e3, 400e6, 0.005, 0.002})
	if math.Abs(share-1.35) > 1e-12 || math.Abs(limit-3.2) > 1e-12 {
		t.Errorf("share %g of at most %g, want 1.35 of 3.2", share, limit)
	}
}

// TestRedistributionOfNoHole: against a hole that bears nothing there is no
// ratio, and not an endless one.
func TestRedistributionOfNoHole(t *testing.T) {
	if got := fastener.Redistribution(1000, 400e6, 200e6, 0.004, 0.002, 0.002, 0.004); !math.IsNaN(got) {
		t.Errorf("a hole at the edge: %g, want NaN", got)
	}
	if got := fastener.Redistribution(1000, 400e6, 200e6, 0.004, 0, 0.008, 0.004); !math.IsNaN(got) {
		t.Errorf("no wall: %g, want NaN", got)
	}
}
