package fastener_test

import (
	"fmt"

	"casewright/fastener"
	"casewright/quantity"
)

// A bolt in a 15/16 in hole, 1.5 in from the edge of a plate 0.245 in thick of
// 65 ksi steel, factor 0.75: 14.7 kip are printed, cut short of 14.78
// (Brockenbrough, Structural Steel Designer's Handbook, fig. 3.27, seen).
func ExampleTearOut() {
	f := fastener.TearOut(0.245*quantity.Inch, 1.5*quantity.Inch, 0.9375*quantity.Inch, 0.6*65*quantity.KSI)
	fmt.Printf("%.2f kip\n", 0.75*f/(1000*quantity.PoundForce))
	// Output: 14.78 kip
}

// An M6 screw of class 8.8 shears at 0.6 of its least tensile load, 16 100 N
// (ISO 898-1 as tabulated, seen).
func ExampleShear() {
	class, _ := fastener.LookupClass("8.8")
	thread, _ := fastener.LookupThread("M6")
	f := fastener.Shear(class.ShearThreads, class.Ultimate, thread.StressArea())
	fmt.Printf("%.2f kN\n", f/quantity.Kilonewton)
	// Output: 9.66 kN
}
