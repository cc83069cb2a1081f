package fastener_test

import (
	"testing"

	"casewright/fastener"
	"casewright/verification/held"
)

// TestVerified holds every check of this package against the rows of the
// reference tables, a source with each.
func TestVerified(t *testing.T) {
	held.Methods(t, append(append(fastener.Methods(), fastener.Tightening()...), &fastener.WasherSoftens))
}
