package verification_test

import (
	"fmt"
	"io"
	"math"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"pgregory.net/rapid"

	"casewright"
	tables "casewright/testdata/reference"
	"casewright/verification"
)

const head = "id,quantity,inputs,value,unit,tolerance_rel,source,where_in_source,status,note\n"

func table(rows ...string) io.Reader {
	return strings.NewReader(head + strings.Join(rows, "\n") + "\n")
}

// TestCases: every row of every table can be read, is computed, holds, and has
// a source.
func TestCases(t *testing.T) {
	list, err := verification.Run(tables.Files)
	if err != nil {
		t.Fatal(err)
	}
	for i := range list {
		c := &list[i]
		if !c.Pass {
			t.Errorf("%s, %s: %s is %g, want %g (off %.3g, tolerance %.2g); %s, %s", c.Table, c.ID, c.Quantity, c.Got, c.Value, c.Off, c.Tolerance, c.Source, c.Where)
		}
		if c.Source == "" || c.Where == "" || strings.Contains(strings.ToLower(c.Source), "casewright") {
			t.Errorf("%s, %s: source %q, %q", c.Table, c.ID, c.Source, c.Where)
		}
		if c.Status == "solver" && c.Tolerance > 0.1 {
			t.Errorf("%s, %s: a solved number within %g", c.Table, c.ID, c.Tolerance)
		}
	}
}

// TestCoverage: at least 250 rows; every check rests on three or more, one of
// which was seen or solved; and every row that is a check's is one of a check
// that there is.
func TestCoverage(t *testing.T) {
	list := verification.Cases()
	if e := verification.Sum(list); e.Rows < 250 || e.Rows != e.Seen+e.Solver+e.Memory {
		t.Errorf("%+v", e)
	}
	var ids []string
	for _, m := range casewright.Methods() {
		ids = append(ids, m.ID)
		if of := verification.For(m.ID); !of.Enough() {
			t.Errorf("%s: %+v", m.ID, of)
		}
	}
	names := map[string]bool{}
	for i := range list {
		for _, id := range list[i].Methods {
			if !slices.Contains(ids, id) {
				t.Errorf("%s: there is no check %s", list[i].Quantity, id)
			}
		}
		names[list[i].Quantity] = true
	}
	for _, name := range verification.Names() {
		_, id, sum := strings.Cut(name, " of ")
		switch {
		case names[name], sum && slices.Contains(ids, id):
		case slices.Contains([]string{"ratio", "specific heat", "thermal conductivity", "thermal expansion"}, name): // units
		default:
			t.Errorf("no row for %q", name)
		}
	}
}

// TestIDs: an id names one row of all.
func TestIDs(t *testing.T) {
	tables := map[string]string{}
	for _, c := range verification.Cases() {
		if other, twice := tables[c.ID]; twice {
			t.Errorf("%s stands in %s and in %s", c.ID, other, c.Table)
		}
		tables[c.ID] = c.Table
	}
}

// Lamé's hoop stress by hand: 5 (1.2² + 1)/(1.2² − 1) is 27.73 MPa.
func ExampleTable() {
	list, err := verification.Table(table("ME-1,demand of tube.hoop,p_MPa=5; k=1.2,27.73,MPa,0.001,by hand,Lamé,memory,"), "own.csv")
	if err != nil {
		fmt.Println(err)
		return
	}
	c := list[0]
	fmt.Printf("%s: %.2f %s, %v, %v\n", c.ID, c.Unit.FromSI(c.Got), c.Unit.Symbol(), c.Pass, c.Methods)
	// Output: ME-1: 27.73 MPa, true, [tube.hoop]
}

// TestRowsFail: the comparison can fail, on either side, and to be refused is
// no pass unless the row asks for it.
func TestRowsFail(t *testing.T) {
	for row, pass := range map[string]bool{
		"A,demand of tube.hoop,p_MPa=5; k=1.2,27.75,MPa,0.001,a,b,seen,":                                            true,
		"A,demand of tube.hoop,p_MPa=5; k=1.2,27.77,MPa,0.001,a,b,seen,":                                            false,
		"A,demand of tube.hoop,p_MPa=5; k=1.2,27.69,MPa,0.001,a,b,seen,":                                            false,
		"A,demand of tube.hoop,p_MPa=5; k=1.2; low=1; high=1.2,27,MPa,0,a,b,seen,":                                  true,
		"A,demand of tube.hoop,p_MPa=5; k=1.2; low=1; high=1.2,28,MPa,0,a,b,seen,":                                  false,
		"A,demand of tube.hoop,p_MPa=5; k=1.2; low=1; high=1.2,23,MPa,0,a,b,seen,":                                  false,
		"A,value of hole.clearance,h_min_mm=5.5; d_mm=5.5,0,mm,0,a,b,seen,":                                         true,
		"A,value of hole.clearance,h_min_mm=5.5; d_mm=5.4,0,mm,0,a,b,seen,":                                         false,
		"A,limit of hole.edge,,2,1,0,a,b,seen,":                                                                     true,
		"A,limit of hole.edge,,2.1,1,0,a,b,seen,":                                                                   false,
		"A,tensile stress area,thread=M5,14.2,mm²,0.004,a,b,seen,":                                                  true,
		"A,tensile stress area,thread=M5½,14.2,mm²,0.004,a,b,seen,":                                                 false,
		"A,moment at a plugged port over p a²,nu=0.3; b_over_a=0.7,0.45539,1,0.0003,a,b,seen,":                      false,
		"A,moment at a plugged port over p a²,nu=0.3; b_over_a=0.7; table=refused,0.45539,1,0,a,b,seen,":            true,
		"A,moment at a plugged port over p a²,nu=0.3; b_over_a=0.5; table=refused,0.43433,1,0.0003,a,b,seen,":       false,
		"A,yield strength of tube,material=6061-T6 drawn tube; property=yield,240,MPa,0,a,b,seen,":                  true,
		"A,yield strength of tube,material=6061-T6 drawn tube; property=yield; table=at most,241,MPa,0,a,b,seen,":   true,
		"A,yield strength of tube,material=6061-T6 drawn tube; property=yield; table=at most,239,MPa,0,a,b,seen,":   false,
		"A,yield strength of tube,material=6061-T6 drawn tube; property=yield; table=at least,239,MPa,0,a,b,seen,":  true,
		"A,yield strength of tube,material=6061-T6 drawn tube; property=yield; table=at least,241,MPa,0,a,b,seen,":  false,
		"A,yield strength of tube,material=6061-T6 drawn tube; property=yield; table=near,250,MPa,0.05,a,b,seen,":   true,
		"A,yield strength of tube,material=6061-T6 drawn tube; property=yield; table=near,255,MPa,0.05,a,b,seen,":   false,
		"A,yield strength of tube,material=6061-T6 drawn tube; property=yield; table=refused,240,MPa,0,a,b,seen,":   false,
		"A,yield strength of tube,material=no such metal; property=yield,240,MPa,0.99,a,b,seen,":                    false,
		"A,yield strength of tube,material=6061-T6 drawn tube; property=yield; T=900 °C,240,MPa,0.99,a,b,seen,":     false,
		"A,yield of one,material=6061-T6 drawn tube; property=yield; T=900 °C; table=refused,240,MPa,0,a,b,memory,": true,
	} {
		list, err := verification.Table(table(row), "own.csv")
		if err != nil || len(list) != 1 || list[0].Pass != pass {
			t.Errorf("%s: want %v, have %+v, error %v", row, pass, list, err)
		}
	}
}

// TestFaults: what is wrong is told by line, with what to write.
func TestFaults(t *testing.T) {
	_, err := verification.Table(table(
		"A,demand of tube.hoop,p_MPa=5; k=1.2,27.73,MPa,0.001,a,b,seen,",
		"B,demand of tube.hop,p_MPa=5; k=1.2,27.73,MPa,0.001,a,b,seen,",
		"C,value of tube.hoop,p_MPa=5; k=1.2,27.73,MPa,0.001,a,b,seen,",
		"D,demand of tube.burts,p_MPa=5,5,MPa,0.001,a,b,seen,",
		"E,demand of tube.hoop,p_Mpa=5,27.73,MPa,0.001,a,b,seen,",
		"F,demand of tube.hoop,p_MPa=5; k=1.2,27.73,Mpa,0.001,a,b,seen,",
		"G,weather,,1,1,0,a,b,seen,",
		"H,demand of tube.hoop,p_MPa=5; k=1.2,27.73,mm,0.001,a,b,seen,",
		"I,the yield,material=6061-T6 drawn tube; property=yeild,240,MPa,0,a,b,seen,",
	), "own.csv")
	want := []string{
		`line 3, row "B": "demand of tube.hop" is no number that casewright computes; write "demand of tube.hoop"`,
		`line 4, row "C": "value of tube.hoop" is no number that casewright computes; write "demand of tube.hoop" or "capacity of tube.hoop"`,
		`line 5, row "D": "demand of tube.burts" is no number that casewright computes; write "demand of tube.burst"`,
		`line 6, row "E": "demand of tube.hoop" needs the inputs k, p; "p_Mpa" ends in no unit`,
		`line 7, row "F": unknown unit "Mpa"; write "MPa"`,
		`line 8, row "G": "weather" is no number that casewright computes; README tells what may stand there`,
		`line 9, row "H": "demand of tube.hoop" is measured in Pa, not in mm`,
		`line 10, row "I": "yeild" is no property of a material; write "yield"`,
	}
	if err == nil || err.Error() != strings.Join(want, "\n") {
		t.Errorf("have\n%v\nwant\n%s", err, strings.Join(want, "\n"))
	}
	if _, err := verification.Run(fstest.MapFS{"a.csv": {Data: []byte("x")}, "b.csv": {Data: []byte(head)}}); err == nil || err.Error() != "a.csv: line 1: the columns must be "+strings.TrimSpace(head)+"\nb.csv: line 2: there are no rows" {
		t.Errorf("two bad tables: %v", err)
	}
}

// TestOutside: a row whose symbols lie outside the method's range is refused;
// what was not given refuses nothing.
func TestOutside(t *testing.T) {
	for row, refused := range map[string]bool{
		"demand of hole.bearing,F_N=100; share=1; N=8; d_mm=5; t_b_mm=0.8; table=?,1,MPa":                                          true,
		"demand of hole.bearing,F_N=100; share=1; N=8; d_mm=5; t_b_mm=1; table=?,1,MPa":                                            false,
		"capacity of hole.bearing,F_bru_MPa=500; d_mm=5; t_b_mm=0.8; table=?,1,MPa":                                                true,
		"capacity of hole.bearing,F_bru_MPa=500; d_mm=5; table=?,1,MPa":                                                            false,
		"capacity of hole.bearing,F_bru_MPa=500; t_b_mm=0.8; table=?,1,MPa":                                                        false,
		"capacity of hole.bearing,F_bru_MPa=500; table=?,1,MPa":                                                                    false,
		"value of hole.peak,c_h=5; F_N=100; share=1; N=8; h_min_mm=5; h_max_mm=5; t_b_mm=2; F_ty_MPa=240; e_min_mm=7; table=?,1,1": true,
		"value of hole.peak,c_h=5; F_N=100; share=1; N=8; h_min_mm=5; h_max_mm=5; t_b_mm=2; F_ty_MPa=240; e_min_mm=8; table=?,1,1": false,
		"value of hole.peak,c_h=5; F_N=100; share=1; N=8; h_min_mm=5; h_max_mm=5; t_b_mm=2; F_ty_MPa=240; table=?,1,1":             false,
		"value of seal.squeeze_least,\"D_b,max_mm=57; D_g,min_mm=18; CS_e_mm=2.5; table=?\",1,1":                                   true,
		"value of seal.squeeze_least,\"D_b,max_mm=57; D_g,min_mm=53; CS_e_mm=2.5; table=?\",1,1":                                   false,
		"steel strength ratio,temperature=900 °C; table=?,1,1":                                                                     true,
		"largest diametral clearance,from_psi=100; to_psi=200; shore=20; table=?,1,mm":                                             true,
	} {
		list, err := verification.Table(table("A,"+row+",0,a,b,seen,"), "own.csv")
		if err != nil || list[0].Refused() != refused || math.IsNaN(list[0].Got) != refused || list[0].Pass {
			t.Errorf("%s: want refused %v, have %+v, error %v", row, refused, list, err)
		}
		if !refused {
			continue
		}
		// To be refused passes where the row asks for it.
		asking := strings.Replace(row, "table=?", "table=refused", 1)
		list, err = verification.Table(table("A,"+asking+",0,a,b,seen,"), "own.csv")
		if err != nil || !list[0].Pass {
			t.Errorf("%s: refused as it should be, but %+v, error %v", row, list, err)
		}
	}
}

// TestNoNumber: what there is not in a table, and what is infinite, is no
// number: neither 0 nor a refusal.
func TestNoNumber(t *testing.T) {
	for _, row := range []string{
		"outside diameter of a pipe thread,thread=1/7-27 NPT,0,mm",
		"effective length of a pipe thread,thread=1/7-27 NPT,0,mm",
		"tap drill of a pipe thread,thread=1/7-27 NPT,0,mm",
		"pitch diameter at the end of a pipe thread,thread=1/7-27 NPT,0,mm",
		"pitch diameter at the mouth of a pipe thread,thread=1/7-27 NPT,0,mm",
		"outside diameter of a forged coupling,thread=1/16-27 NPT,0,mm",
		"demand of tube.hoop,p_MPa=5; k=1,27,MPa",
		"demand of tube.hoop,p_MPa=-5; k=1; table=refused,27,MPa",
		"proof load,thread=M5½; class=8.8,0,N",
		"proof load,thread=M5; class=8.81,0,N",
		"minimum ultimate tensile load,thread=M5½; class=8.8,0,N",
		"least tensile load,thread=M5½; class=8.8,0,N",
		"mass of a cap screw,thread=M5½; length_mm=20,0,g",
		"head diameter,thread=M3.5,0,mm",
		"least clearance hole,thread=12-24 UNC,0,in",
		"greatest clearance hole,thread=12-24 UNC,0,in",
	} {
		list, err := verification.Table(table("A,"+row+",0,a,b,seen,"), "own.csv")
		if err != nil || !math.IsNaN(list[0].Got) || list[0].Pass || list[0].Refused() || math.IsInf(list[0].Off, 0) {
			t.Errorf("%s: %+v, error %v", row, list, err)
		}
	}
	list, err := verification.Table(table("A,demand of tube.hoop,p_Pa=1e300; k=1.2,1e-300,Pa,0,a,b,seen,"), "own.csv")
	if e := verification.Sum(list); err != nil || math.IsInf(e.Worst, 0) || e.Failed != 1 || math.IsInf(list[0].Off, 0) {
		t.Errorf("beyond all proportion: %+v, %+v, error %v", list, e, err)
	}
}

// TestNoPanic: whatever stands among the inputs, a row is refused or computed,
// and what is computed is finite.
func TestNoPanic(t *testing.T) {
	list := verification.Cases()
	numbers := []string{"0", "-1", "1e-300", "1e300", "1e18", "0.5", "7", "word", "-0", "M5", "1"}
	words := []string{"word", "M5", "6061-T6 bar", "yield", "1/16-27 NPT", "FKM", "900 °C", "1e300 K"}
	computed := 0
	rapid.Check(t, func(t *rapid.T) {
		c := list[rapid.IntRange(0, len(list)-1).Draw(t, "row")]
		var inputs []string
		for _, name := range c.Inputs() {
			among, own := numbers, fmt.Sprint(c.Of(name))
			if c.HasText(name) {
				among, own = words, c.Text(name)
			}
			switch rapid.IntRange(0, 9).Draw(t, name) {
			case 0: // left out
			case 1, 2, 3:
				inputs = append(inputs, name+"="+rapid.SampledFrom(among).Draw(t, name+"="))
			default:
				inputs = append(inputs, name+"="+own)
			}
		}
		row := fmt.Sprintf("A,%q,%q,1,%s,0,a,b,seen,", c.Quantity, strings.Join(inputs, "; "), c.Unit.Symbol())
		got, err := verification.Table(table(row), "own.csv")
		if err != nil {
			return
		}
		if math.IsInf(got[0].Got, 0) || math.IsInf(got[0].Off, 0) {
			t.Fatalf("%s: %+v", row, got)
		}
		if !math.IsNaN(got[0].Got) {
			computed++
		}
	})
	if computed < 10 { // of a hundred, some 35
		t.Errorf("%d rows were computed", computed)
	}
}

// TestSum: what is counted.
func TestSum(t *testing.T) {
	list, err := verification.Table(table(
		"A,demand of tube.hoop,p_MPa=5; k=1.2,27.75,MPa,0.001,a,b,seen,",
		"B,demand of tube.hoop,p_MPa=5; k=1.2,27,MPa,0.001,a,b,memory,",
		"C,capacity of tube.hoop,F_tu_MPa=250; low=1; high=2,200,MPa,0.001,a,b,solver,",
		"D,demand of tube.yield,p_MPa=5; k=1.2,28.34,MPa,0.001,a,b,solver,",
	), "own.csv")
	if err != nil {
		t.Fatal(err)
	}
	e := verification.Sum(list)
	if e.Rows != 4 || e.Seen != 1 || e.Memory != 1 || e.Solver != 2 || e.Failed != 1 || math.Abs(e.Worst-0.02694) > 1e-5 {
		t.Errorf("%+v", e)
	}
	for _, c := range []struct {
		e      verification.Evidence
		enough bool
	}{
		{verification.Evidence{}, false},
		{verification.Evidence{Rows: 3, Memory: 3}, false},
		{verification.Evidence{Rows: 2, Seen: 2}, false},
		{verification.Evidence{Rows: 3, Seen: 1, Memory: 2}, true},
		{verification.Evidence{Rows: 3, Solver: 1, Memory: 2}, true},
	} {
		if c.e.Enough() != c.enough {
			t.Errorf("%+v: enough is %v", c.e, !c.enough)
		}
	}
	if of := verification.Of(list, "tube.hoop"); len(of) != 3 {
		t.Errorf("%d rows of tube.hoop", len(of))
	}
	if of := verification.Of(list, "tube.hop"); of != nil {
		t.Errorf("%d rows of nothing", len(of))
	}
}
