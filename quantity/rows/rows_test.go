package rows_test

import (
	"errors"
	"fmt"
	"testing"

	"casewright/quantity/rows"
)

func ExampleOf() {
	fmt.Println(rows.Of("# sizes\nname,size\nsmall,1\nlarge,2\n", 2))
	// Output: [[small 1] [large 2]]
}

func ExampleFold() {
	fmt.Println(rows.Fold("AS568 – 137"))
	// Output: as568-137
}

func TestFlawsPanic(t *testing.T) {
	for name, f := range map[string]func(){
		"a column too many": func() { rows.Of("a,b\n1,2,3\n", 2) },
		"an error":          func() { rows.Must(0, errors.New("flaw")) },
	} {
		func() {
			defer func() {
				if recover() == nil {
					t.Errorf("%s: no panic", name)
				}
			}()
			f()
		}()
	}
}
