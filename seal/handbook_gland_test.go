package seal_test

import (
	"math"
	"testing"

	"casewright/seal"
	"casewright/verification/held"
)

// TestHandbookGlands holds the squeeze against a seal maker's table of static
// glands, and our limits against the glands themselves: what a handbook sells
// must pass. The greatest squeeze allowed is 30 %, 32 % for a section up to
// 1.80 mm, as that table's smallest gland needs.
func TestHandbookGlands(t *testing.T) { held.Table(t, "glands_handbook.csv", nil) }

// TestOffsetIsAWiderGland: to push the end aside, to grow the bore and to heat
// the gap all take from the squeeze what a deeper gland takes, by definition.
func TestOffsetIsAWiderGland(t *testing.T) {
	const bore, groove, opening, section = 0.0571, 0.0531, 0.0002, 0.00262
	got, want := seal.SqueezeOffset(bore, groove, opening, section), seal.Squeeze(bore+2*opening, groove, section)
	if math.Abs(got-want) > 1e-12 || !(got < seal.Squeeze(bore, groove, section)) {
		t.Errorf("squeeze %.6f, want %.6f", got, want)
	}
}
