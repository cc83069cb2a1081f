// Package verification holds what casewright computes against numbers from
// outside the project: published tables and worked examples, and what general
// solvers give. The numbers stand in tables, a row each with its source.
package verification

import (
	"fmt"

	"casewright/margin/reference"
)

// A Number is one that casewright computes, by the name that a row has under
// "quantity".
type Number struct {
	Methods []string // the ids of the checks that rest on it
	Compute func(r *reference.Row) float64
}

// numbers are all that rows may name, a file for each subject.
var numbers = join(
	tighteningNumbers,
	fitNumbers,
	edgeNumbers,
	portNumbers,
)

func join(all ...map[string]Number) map[string]Number {
	joined := map[string]Number{}
	for _, m := range all {
		for name, n := range m {
			if _, twice := joined[name]; twice {
				panic(fmt.Sprintf("verification: %q stands twice", name)) // a test meets it first
			}
			joined[name] = n
		}
	}
	return joined
}
