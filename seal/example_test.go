package seal_test

import (
	"fmt"

	"github.com/shopspring/decimal"

	"casewright/quantity"
	"casewright/seal"
)

// A ring of 0.103 ±0.003 in in a static gland 0.080 to 0.086 in deep: 14 to
// 25 % squeeze (Apple Rubber's table, seen).
func ExampleSqueeze() {
	least := seal.Squeeze(2*0.086*quantity.Inch, 0, 0.100*quantity.Inch)
	most := seal.Squeeze(2*0.080*quantity.Inch, 0, 0.106*quantity.Inch)
	fmt.Printf("%.0f to %.0f %%\n", 100*least, 100*most)
	// Output: 14 to 25 %
}

// A ring of 70 Shore A at 650 psi (4.5 MPa): 0.010 in on the diameter, half of
// it for silicone (Seal & Design's table, seen; Parker's handbook, seen).
func ExampleGapLimit() {
	p := quantity.NewAmount(decimal.NewFromInt(650), quantity.MustUnit("psi"))
	for _, name := range []string{"NBR", "VMQ"} {
		compound, _ := seal.LookupCompound(name)
		gap, _ := seal.GapLimit(p, 70, compound.GapShare)
		fmt.Printf("%s %.3f in\n", name, gap/quantity.Inch)
	}
	// Output:
	// NBR 0.010 in
	// VMQ 0.005 in
}

func ExampleBandAt() {
	p, _ := quantity.Parse(quantity.KindPressure, "4.5 MPa")
	b, ok := seal.BandAt(p)
	fmt.Println(b.From, b.To, ok)
	// Output: 500 1000 true
}
