package fastener_test

import (
	"testing"

	"casewright/verification/held"
)

// TestAISC holds bearing, tear-out and shear against worked examples after
// AISC 360 J3. Its tear-out 1.2 L_c t F_u is ours, 2 t (e − h/2) F_su, with
// F_su = 0.6 F_u.
func TestAISC(t *testing.T) { held.Table(t, "aisc_joints.csv", nil) }
