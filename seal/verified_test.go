package seal_test

import (
	"testing"

	"casewright/seal"
	"casewright/verification/held"
)

// TestVerified holds every check of this package against the rows of the
// reference tables, a source with each.
func TestVerified(t *testing.T) {
	held.Methods(t, append(seal.Methods(), &seal.Soak))
}
