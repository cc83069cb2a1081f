// Package held runs the rows of the reference tables as tests. It serves tests
// only.
package held

import (
	"fmt"
	"testing"

	"casewright/margin"
	"casewright/verification"
)

// Also are what else must be so of the rows of a table, by their quantity.
type Also map[string]func(*testing.T, *verification.Case)

// Table runs each row of a table as a subtest named by its id. It fails where
// nothing is of a quantity of which something else must be so.
func Table(t *testing.T, name string, also Also) {
	t.Helper()
	var of []verification.Case
	rows := map[string]int{}
	for _, c := range verification.Cases() {
		if c.Table == name {
			of = append(of, c)
			rows[c.Quantity]++
		}
	}
	if of == nil {
		t.Fatalf("there is no table %s", name)
	}
	run(t, of, also)
	for quantity := range also {
		if rows[quantity] == 0 {
			t.Errorf("%s: no row for %q", name, quantity)
		}
	}
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
			run(t, of, nil)
		})
	}
}

func run(t *testing.T, list []verification.Case, also Also) {
	t.Helper()
	for i := range list {
		c := &list[i]
		t.Run(c.ID, func(t *testing.T) {
			if !c.Pass {
				allowed := fmt.Sprintf("within %.2g of it", c.Tolerance)
				if low, high, ok := c.Band(); ok {
					allowed = fmt.Sprintf("from %g to %g of it", low, high)
				}
				t.Errorf("%s: got %.7g, want %.7g, unit %s, %s; off by %.3g; %s, %s; %s", c.Quantity,
					c.Unit.FromSI(c.Got), c.Unit.FromSI(c.Value), c.Unit.Symbol(), allowed, c.Off, c.Source, c.Where, c.Status)
			}
			if check := also[c.Quantity]; check != nil {
				check(t, c)
			}
			if missing := c.Missing(); missing != nil {
				t.Errorf("no inputs %v", missing)
			}
		})
	}
}
