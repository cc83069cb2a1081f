package fastener_test

import (
	"testing"

	"casewright/verification/held"
)

// TestScrewLimits holds shear across packing, pins in bending and the limits of
// screw threads against printed tables and examples; the source of each number
// stands in its row.
func TestScrewLimits(t *testing.T) { held.Table(t, "screw_limits.csv", nil) }
