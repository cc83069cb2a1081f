package materials_test

import (
	"fmt"

	"casewright/materials"
	"casewright/quantity"
)

func ExampleLookup() {
	m, ok := materials.Lookup("6061-T6 Drawn Tube")
	fmt.Println(ok, m.Name)
	for _, p := range []materials.Property{materials.Yield, materials.Ultimate, materials.Elongation} {
		v, _ := m.Value(p)
		fmt.Printf("%-10s %-8s %s, %s, %s\n", p.Key(), v.Text, v.Basis, v.Source, v.Status)
	}
	// Output:
	// true 6061-T6 drawn tube
	// yield      240 MPa  characteristic, EN 1999-1-1:2007, seen
	// ultimate   260 MPa  characteristic, EN 1999-1-1:2007, seen
	// elongation 8 %      specified minimum, EN 1999-1-1:2007, seen
}

// The proof ratio of 6061-T6 at 100 °C is 0.95 (EN 1999-1-2 Table 1, from
// memory).
func ExampleMaterial_At() {
	m, _ := materials.Lookup("6061-T6 drawn tube")
	for _, celsius := range []float64{20, 100, 400} {
		r := m.At(materials.Yield, quantity.Celsius(celsius))
		if r.Reason != 0 {
			fmt.Printf("%.0f °C: %s\n", celsius, r.Reason.Text())
			continue
		}
		fmt.Printf("%.0f °C: %.0f MPa\n", celsius, r.SI/1e6)
	}
	// Output:
	// 20 °C: 240 MPa
	// 100 °C: 228 MPa
	// 400 °C: the material's strength is not known at this temperature
}

// Bearing strengths of 7075-T6 rolled bar at e/D 1.5 and 2.0: 100 and 123 ksi
// (MIL-HDBK-5J Table 3.7.6.0, from memory).
func ExampleMaterial_Bearing() {
	m, _ := materials.Lookup("7075-T6 bar")
	for _, eOverD := range []float64{0.9, 1.2, 1.75, 3} {
		ultimate, _ := m.Bearing(eOverD, quantity.Celsius(20))
		if ultimate.Reason != 0 {
			fmt.Printf("%.2f: %s\n", eOverD, ultimate.Reason.ID())
			continue
		}
		fmt.Printf("%.2f: %.1f ksi\n", eOverD, ultimate.SI/float64(quantity.KSI))
	}
	// Output:
	// 0.90: edge_below_1
	// 1.20: 80.0 ksi
	// 1.75: 111.5 ksi
	// 3.00: 123.0 ksi
}

func ExampleNew() {
	m := materials.New("my bar", "certificate 4711", materials.Bar, quantity.Celsius(80), map[materials.Property]float64{
		materials.Yield:    310e6,
		materials.Ultimate: 350e6,
	})
	r := m.At(materials.Yield, quantity.Celsius(80))
	fmt.Printf("%.0f MPa, %s\n", r.SI/1e6, r.Notes.List()[0].ID())
	fmt.Println(m.At(materials.Yield, quantity.Celsius(81)).Reason.ID())
	fmt.Println(m.At(materials.Shear, quantity.Celsius(20)).Reason.ID())
	// Output:
	// 310 MPa, user_material
	// temperature
	// missing_property
}

// The ultimate strength of type 316, 1.4401: k_u of EN 1993-1-2 Annex C, from
// memory.
func ExampleCurve() {
	r, _ := materials.Curve("316")
	for _, q := range r.Points(materials.Ultimate) {
		fmt.Printf("%3.0f °C %.2f %s, %s\n", q.T.Celsius(), q.Ratio, q.Source, q.Status)
	}
	ratio := r.At(materials.Ultimate, quantity.Celsius(150))
	fmt.Printf("150 °C %.2f\n", ratio.SI)
	// Output:
	//  20 °C 1.00 EN 1993-1-2:2005, memory
	// 100 °C 0.93 EN 1993-1-2:2005, memory
	// 200 °C 0.87 EN 1993-1-2:2005, memory
	// 300 °C 0.84 EN 1993-1-2:2005, memory
	// 150 °C 0.90
}
