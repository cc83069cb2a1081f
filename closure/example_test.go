package closure_test

import (
	"fmt"

	"casewright/closure"
	"casewright/quantity"
)

// A round plate on its rim, ten times as wide in radius as thick, under 1 MPa:
// 1.238 p r²/t² at Poisson's ratio 0.3 (Mechanical Engineer's Data Handbook,
// p. 53, seen).
func ExamplePlateStress() {
	stress := closure.PlateStress(1*quantity.Megapascal, 20*quantity.Millimetre, 0, 1*quantity.Millimetre, 0.3, 1)
	fmt.Printf("%.0f MPa\n", stress/quantity.Megapascal)
	// Output: 124 MPa
}

// The pull of a 6 in cylinder with a 3 in rod at 2500 psi: 52 975 lbf with
// π = 3.14 (a maker's example, seen).
func ExampleLandLoad() {
	f := closure.LandLoad(2500*quantity.PSI, 6*quantity.Inch, 3*quantity.Inch)
	fmt.Printf("%.1f kip\n", f/(1000*quantity.PoundForce))
	// Output: 53.0 kip
}
