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
		of := verification.Sum(verification.Of(list, m.ID))
		if of.Rows < 3 || of.Seen+of.Solver < 1 {
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

// TestNoPanic: whatever stands among the inputs, a row is refused or computed.
func TestNoPanic(t *testing.T) {
	list := verification.Cases()
	numbers := []string{"0", "-1", "1e-300", "1e300", "1e18", "0.5", "7", "word", "-0", "M5", "6061-T6 bar"}
	rapid.Check(t, func(t *rapid.T) {
		c := list[rapid.IntRange(0, len(list)-1).Draw(t, "row")]
		var inputs []string
		for _, name := range c.Inputs() {
			switch rapid.IntRange(0, 3).Draw(t, name) {
			case 0: // left out
			default:
				inputs = append(inputs, name+"="+rapid.SampledFrom(numbers).Draw(t, name+"="))
			}
		}
		row := fmt.Sprintf("A,%q,%q,1,1,0,a,b,seen,", c.Quantity, strings.Join(inputs, "; "))
		got, err := verification.Table(table(row), "own.csv")
		if err == nil && (len(got) != 1 || math.IsNaN(got[0].Got) && got[0].Pass && !got[0].MustRefuse()) {
			t.Fatalf("%s: %+v", row, got)
		}
	})
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
	if of := verification.Of(list, "tube.hoop"); len(of) != 3 {
		t.Errorf("%d rows of tube.hoop", len(of))
	}
	if of := verification.Of(list, "tube.hop"); of != nil {
		t.Errorf("%d rows of nothing", len(of))
	}
}
