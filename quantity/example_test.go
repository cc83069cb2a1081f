package quantity_test

import (
	"fmt"
	"strings"

	"casewright/quantity"

	"github.com/shopspring/decimal"
)

func ExampleParseDimension() {
	d, err := quantity.ParseDimension("57.0 +0/-0.05 mm")
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(d.Nominal(), d.Least(), d.Greatest())
	fmt.Println(d)
	// Output:
	// 0.057 0.05695 0.057
	// 57.0 +0/-0.05 mm
}

func ExampleParseDimension_inches() {
	d, err := quantity.ParseDimension("2 1/2 ±1/64 in")
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(d)
	fmt.Println(d.Nominal(), d.Upper())
	// Output:
	// 2.5 ±0.015625 in
	// 0.0635 0.000396875
}

func ExampleParse() {
	for _, text := range []string{"4.5 MPa", "650 psi", "4.5", "4,5 MPa", "4.5 mm", "4.5 ±0.1 MPa"} {
		a, err := quantity.Parse(quantity.KindPressure, text)
		if err != nil {
			fmt.Println(err)
			continue
		}
		fmt.Printf("%s is %.6g Pa\n", a, a.SI())
	}
	// Output:
	// 4.5 MPa is 4.5e+06 Pa
	// 650 psi is 4.48159e+06 Pa
	// "4.5" has no unit; write "4.5 MPa"
	// "4,5 MPa" has a decimal comma; write "4.5 MPa"
	// "4.5 mm" is a length; a pressure needs MPa, bar or psi
	// "4.5 ±0.1 MPa" has a tolerance, which only a length takes: write the one value that hurts
}

func ExampleAmount_Cmp() {
	a, _ := quantity.Parse(quantity.KindTemperature, "212 °F")
	b, _ := quantity.Parse(quantity.KindTemperature, "100 °C")
	fmt.Println(a.Cmp(b), a.SI() == b.SI())
	// Output: 0 true
}

func ExampleDimension_WithNominal() {
	d, _ := quantity.ParseDimension("7 ±0.2 mm")
	fmt.Println(d.WithNominal(decimal.RequireFromString("0.0114")))
	// Output: 11.4 ±0.2 mm
}

func ExampleUnit_FromSI() {
	fmt.Printf("%.2f\n", quantity.MustUnit("ksi").FromSI(276e6))
	fmt.Printf("%.1f\n", quantity.MustUnit("°F").FromSI(float64(quantity.Celsius(120))))
	// Output:
	// 40.03
	// 248.0
}

// Every unit that is read, by kind. The first of each is the one that an error proposes.
func ExampleUnits() {
	for k := quantity.KindRatio; k.SI() != ""; k++ {
		var symbols []string
		for _, u := range quantity.Units(k) {
			symbols = append(symbols, u.Symbol())
		}
		fmt.Printf("%s: %s\n", k, strings.Join(symbols, ", "))
	}
	// Output:
	// ratio: 1, %
	// length: mm, in, cm, m, µm
	// area: mm², in², m²
	// pressure: MPa, bar, psi, ksi, GPa, kPa, Pa
	// force: N, kN, lbf
	// temperature: °C, °F, K
	// temperature difference: K, °C, °F
	// time: s, ms, min
	// torque: N m, lbf in, lbf ft
	// mass: kg, g, lb
	// density: kg/m³, g/cm³, lb/in³
	// thermal expansion: /K, µm/(m K), /°F
	// thermal conductivity: W/(m K), Btu/(h ft °F)
	// specific heat: J/(kg K), kJ/(kg K), Btu/(lb °F)
	// angle: °, rad
	// heat transfer coefficient: W/(m² K), Btu/(h ft² °F)
	// thermal resistance: m² K/W, h ft² °F/Btu
	// speed: m/s, km/h, ft/s, mph
	// mass flow: kg/s, g/s, lb/s
	// viscosity: Pa s, mPa s, µPa s, lb/(ft s)
}
