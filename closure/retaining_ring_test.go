package closure_test

import (
	"testing"

	"casewright/verification/held"
)

// TestRetainingRings holds shear on a cylinder against makers' data sheets,
// P = C_f π B t S/K, and the load on a ring-shaped face against a cylinder
// with a rod.
func TestRetainingRings(t *testing.T) { held.Table(t, "retaining_rings.csv", nil) }
