package casing_test

import (
	"fmt"

	"casewright/casing"
	"casewright/quantity"
)

// A tube of 10 mm bore radius and 20 mm outside radius at 100 MPa: 166.7 MPa
// at its bore (a verification page on Lamé's cylinder, seen).
func ExampleBoreHoop() {
	hoop := casing.BoreHoop(100*quantity.Megapascal, 20.0/10.0)
	fmt.Printf("%.1f MPa\n", hoop/quantity.Megapascal)
	// Output: 166.7 MPa
}

// The push of a 63 mm hydraulic cylinder at 160 bar: 49.9 kN (a maker's table,
// seen).
func ExampleEndLoad() {
	f := casing.EndLoad(160*quantity.Bar, 63*quantity.Millimetre)
	fmt.Printf("%.1f kN\n", f/quantity.Kilonewton)
	// Output: 49.9 kN
}

// 6061-T6 tube of 75 mm outside diameter and 6 mm wall with typical strengths.
// A finite-strain solution gives 60.0 MPa: Faupel alone reads above it.
func ExampleBurst() {
	const k = 75.0 / 63.0
	fty, ftu := 276*quantity.Megapascal, 310*quantity.Megapascal
	fmt.Printf("Faupel %.1f MPa\n", casing.FaupelBurst(fty, ftu, k)/quantity.Megapascal)
	fmt.Printf("least  %.1f MPa\n", casing.Burst(fty, ftu, k, casing.Hardening(0.075))/quantity.Megapascal)
	// Output:
	// Faupel 61.7 MPa
	// least  54.0 MPa
}
