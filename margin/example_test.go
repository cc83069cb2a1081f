package margin_test

import (
	"fmt"
	"math"

	"casewright/margin"
	"casewright/quantity"
)

// A method of one's own: pull on a rod, evaluated without a design file. A
// load of 10 kN on 100 mm² of steel that yields at 300 MPa, with a factor of
// 1.5: the margin of safety is 300/(1.5 · 100) − 1 = 1.
func ExampleRow_Evaluate() {
	pull := margin.Method{
		ID: "rod.yield", Kind: margin.Strength, Mode: margin.Yields, Factor: margin.YieldFactor, Unit: quantity.KindPressure,
		Demand: "F/A", Capacity: "F_ty",
		Symbols: []margin.Symbol{
			margin.EndLoad.At(margin.Greatest), margin.ShearArea.At(margin.Only), margin.EndYield.At(margin.Only),
		},
		Eval: func(v *margin.Values) (float64, float64) { return v[0] / v[1], v[2] },
	}
	table := margin.Table{Yield: 1.5, Ultimate: 2, Fitting: 1.15}
	table.Set(margin.Pressure, margin.Exactly(5e6), margin.None, 0)
	table.Set(margin.EndLoad, margin.Span{9e3, 8e3, 10e3}, margin.None, 0)
	table.Set(margin.ShearArea, margin.Exactly(100e-6), margin.None, 0)
	table.Set(margin.EndYield, margin.Exactly(300e6), margin.None, margin.Of(margin.UserMaterial))

	row := margin.Row{Method: &pull, Min: math.NaN(), Max: math.NaN()}
	row.Bind(&table)
	var check margin.Check
	row.Evaluate(&check, &table, false)
	fmt.Printf("%s, margin %.2f, yields at %.1f MPa\n", check.Verdict, check.Margin, check.GivesWayAt/1e6)
	for _, n := range check.Notes.List() {
		fmt.Println(n.Text())
	}
	// Output:
	// pass, margin 1.00, yields at 15.0 MPa
	// rests on a material given in the design file
}

// The formula of a method prints the end of each tolerance that it takes.
func ExampleSymbol_Name() {
	fmt.Println(margin.Edge.At(margin.Least).Name(), margin.Bore.At(margin.Greatest).Name(), margin.Count.At(margin.Only).Name())
	// Output: e_min D_b,max N
}
