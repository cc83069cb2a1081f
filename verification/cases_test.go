package verification_test

import (
	"testing"

	tables "casewright/testdata/reference"
	"casewright/verification"
)

func TestTmp(t *testing.T) {
	list, err := verification.Run(tables.Files)
	t.Log(err)
	n := 0
	for _, c := range list {
		if !c.Pass {
			n++
			if n < 40 {
				t.Logf("%s %s %s want %g got %g off %g tol %g", c.Table, c.ID, c.Quantity, c.Value, c.Got, c.Off, c.Tolerance)
			}
		}
	}
	t.Logf("%+v", verification.Sum(list))
}
