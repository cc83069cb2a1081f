package casing_test

import (
	"testing"

	"casewright/casing"
	"casewright/verification/held"
)

// TestVerified holds every check of this package against the rows of the
// reference tables, a source with each.
func TestVerified(t *testing.T) {
	held.Methods(t, append(append(casing.Methods(), &casing.NetSection, &casing.EndBending), casing.Heated()...))
}
