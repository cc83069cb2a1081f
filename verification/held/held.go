// Package held runs the rows of the reference tables as tests. It serves tests
// only.
package held

import (
	"testing"

	"casewright/margin"
	"casewright/verification"
)

// Table runs each row of a table as a subtest, and returns the cases.
func Table(t *testing.T, name string) []verification.Case {
	t.Helper()
	var of []verification.Case
	for _, c := range verification.Cases() {
		if c.Table == name {
			of = append(of, c)
		}
	}
	if of == nil {
		t.Fatalf("there is no table %s", name)
	}
	run(t, of)
	return of
}

// Methods runs the rows that checks rest on; each must have at least three.
func Methods(t *testing.T, methods []*margin.Method) {
	t.Helper()
	for _, m := range methods {
		t.Run(m.ID, func(t *testing.T) {
			of := verification.Of(verification.Cases(), m.ID)
			if len(of) < 3 {
				t.Errorf("%d rows, want three or more", len(of))
			}
			run(t, of)
		})
	}
}

func run(t *testing.T, list []verification.Case) {
	t.Helper()
	for i := range list {
		c := &list[i]
		t.Run(c.ID, func(t *testing.T) {
			if c.Pass {
				return
			}
			low, high, banded := c.Band()
			t.Errorf("%s: got %.7g %s, want %.7g (off %.3g, tolerance %.2g, band %v %g to %g); %s, %s; %s", c.Quantity,
				c.Unit.FromSI(c.Got), c.Unit.Symbol(), c.Unit.FromSI(c.Value), c.Off, c.Tolerance, banded, low, high, c.Source, c.Where, c.Status)
		})
	}
}
