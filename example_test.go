package casewright_test

import (
	"errors"
	"fmt"

	"casewright"
	"casewright/margin"
	"casewright/sizing"
)

// A whole motor without the command line.
func Example() {
	design, err := casewright.Read("basalt64.toml", []byte(casewright.Example))
	if err != nil {
		fmt.Println(err)
		return
	}
	report := casewright.Check(design)
	fmt.Println(design.Name.Value, report.Verdict)
	for _, mode := range []margin.Mode{margin.Leaks, margin.Breaks, margin.Yields} {
		if e := report.First(mode); e != nil {
			fmt.Printf("%s first: %s at %.1f MPa\n", mode, e.Result.ID(), e.At/1e6)
		}
	}
	// Output:
	// Basalt 64 pass
	// leaks first: bulkhead/seal.gap at 6.9 MPa
	// breaks first: bulkhead/hole.bearing at 18.5 MPa
	// yields first: bulkhead/screw.bending at 14.0 MPa
}

// What is wrong with a design file is told all at once.
func ExampleRead() {
	_, err := casewright.Read("my.toml", []byte("format = 1\n[motor]\nname = \"Flint\"\npresure = \"2 MPa\"\n[tube]\nwall = \"3\"\n"))
	var found casewright.Errors
	if errors.As(err, &found) {
		for _, e := range found[:2] {
			fmt.Println(e)
		}
	}
	// Output:
	// my.toml:4: [motor]: "presure" is not a key; write "pressure" (maximum expected operating pressure, gauge)
	// my.toml:5: [tube]: "length" is missing (length of the tube); write length = "420 ±0.5 mm"
}

// What to write instead, for a check that fails.
func Example_advise() {
	design, err := casewright.ReadFile("testdata/designs/basalt64-short-edge.toml")
	if err != nil {
		fmt.Println(err)
		return
	}
	report := casewright.Check(design)
	for i := range report.Results {
		r := &report.Results[i]
		if r.Verdict != margin.Fail {
			continue
		}
		for _, fix := range sizing.Advise(report, r).Fixes {
			fmt.Printf("%s: write %s = %s %s\n", r.ID(), fix.Key, fix.Text, fix.Bound)
		}
	}
	// Output:
	// nozzle/hole.tear_out: write end.screws.edge = "7.1 ±0.2 mm" or more
	// nozzle/hole.edge: write end.screws.edge = "11.4 ±0.2 mm" or more
}

func ExampleFindMethod() {
	fmt.Println(casewright.FindMethod("hole.edge").Title)
	fmt.Println(casewright.FindMethod("hole.egde") == nil)
	// Output:
	// hole centre to tube end, in holes
	// true
}
