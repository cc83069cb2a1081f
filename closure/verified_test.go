package closure_test

import (
	"testing"

	"casewright/closure"
	"casewright/verification/held"
)

// TestVerified holds every check of this package against the rows of the
// reference tables, a source with each.
func TestVerified(t *testing.T) {
	held.Methods(t, append(closure.Methods(closure.Features{Plate: true, Insert: true, PipeThread: true, PipeFloor: true}), &closure.Temper))
}
