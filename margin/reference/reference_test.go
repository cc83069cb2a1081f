package reference

import (
	"errors"
	"io/fs"
	"math"
	"slices"
	"strings"
	"testing"
	"testing/fstest"
	"testing/iotest"
)

const head = "id,quantity,inputs,value,unit,tolerance_rel,source,where_in_source,status,note\n"

func TestRead(t *testing.T) {
	rows, err := Read(strings.NewReader(head + "# a comment\nA-1,stress,p_MPa=4.5; k=1.2; ends=closed; R_m_psi=1000,25,ksi,0.01,a book,p. 3,memory,\n"))
	if err != nil {
		t.Fatal(err)
	}
	r := rows[0]
	const psi = 0.45359237 * 9.80665 / (0.0254 * 0.0254) // pound and inch of 1959, standard gravity; from memory
	for _, c := range []struct{ got, want float64 }{
		{r.Of("p"), 4.5e6},
		{r.Of("k"), 1.2},
		{r.Of("R_m"), 1000 * psi},
		{r.Value, 25000 * psi},
		{r.Tolerance, 0.01},
	} {
		if math.Abs(c.got-c.want) > 1e-12*c.want {
			t.Errorf("got %v, want %v", c.got, c.want)
		}
	}
	if w := r.Text("ends"); w != "closed" {
		t.Errorf("ends %q", w)
	}
}

func TestReadRefuses(t *testing.T) {
	good := "A-1,stress,p_MPa=4.5,25,ksi,0.01,a book,p. 3,seen,\n"
	if _, err := Read(strings.NewReader(head + good)); err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct{ text, want string }{
		{"", "columns"},
		{"id,value\nA,1\n", "columns"},
		{head, "no rows"},
		{head + strings.Replace(good, "p_MPa=4.5", "low=0.9", 1), "together"},
		{head + strings.Replace(good, "p_MPa=4.5", "high=0.9", 1), "together"},
		{head + strings.Replace(good, "p_MPa=4.5", "low=1.1; high=0.9", 1), "between"},
		{head + strings.Replace(good, "p_MPa=4.5", "low=0; high=0.9", 1), "between"},
		{head + strings.Replace(strings.Replace(good, "p_MPa=4.5", "low=0.9; high=1", 1), "25", "0", 1), "value of 0"},
		{head + strings.Replace(good, "p_MPa=4.5", "p_GPa=1e308", 1), "too large"},
		{head + strings.Replace(good, ",25,ksi", ",1e308,GPa", 1), "too large"},
		{head + strings.Replace(good, "ksi", "", 1), `write "1"`},
		{head + good + good, "stands twice"},
		{head + strings.Replace(good, "A-1", "", 1), "missing"},
		{head + strings.Replace(good, "stress", "", 1), "missing"},
		{head + strings.Replace(good, "a book", "", 1), "source"},
		{head + strings.Replace(good, "p. 3", "", 1), "source"},
		{head + strings.Replace(good, "seen", "", 1), "status"},
		{head + strings.Replace(good, "seen", "read", 1), "status"},
		{head + strings.Replace(good, "ksi", "furlong", 1), "unit"},
		{head + strings.Replace(good, "25", "many", 1), "number"},
		{head + strings.Replace(good, "25", "NaN", 1), "number"},
		{head + strings.Replace(good, "0.01", "", 1), "number"},
		{head + strings.Replace(good, "0.01", "-0.1", 1), "tolerance"},
		{head + strings.Replace(good, "0.01", "1", 1), "tolerance"},
		{head + strings.Replace(good, "p_MPa=4.5", "p_MPa", 1), "name=value"},
		{head + strings.Replace(good, "p_MPa=4.5", "p_MPa=4; p_psi=5", 1), "twice"},
		{head + strings.Replace(good, "p_MPa=4.5", "a=b; a=c", 1), "twice"},
		{head + strings.Replace(good, "p_MPa=4.5", "a=b; a=1", 1), "twice"},
	} {
		if _, err := Read(strings.NewReader(c.text)); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%q: error %v, want one with %q", c.text, err, c.want)
		}
	}
}

func TestHolds(t *testing.T) {
	rows, err := Read(strings.NewReader(head + `A,ratio,a=1,2,1,0.01,a book,p. 3,seen,
B,ratio,,2,1,0,a book,p. 3,seen,
C,ratio,low=0.9; high=1.2,2,1,0,a book,p. 3,seen,
D,ratio,low=0.9; high=1.2,-2,1,0,a book,p. 3,seen,
E,length,,0,mm,0,a book,p. 3,seen,
F,ratio,table=at most,2,1,0,a book,p. 3,seen,
G,ratio,table=at least,2,1,0,a book,p. 3,seen,
H,ratio,table=near,2,1,0.02,a book,p. 3,seen,
I,ratio,,2,1,0.25,a book,p. 3,seen,
J,ratio,low=0.5; high=1.5,1,1,0,a book,p. 3,seen,
`))
	if err != nil {
		t.Fatal(err)
	}
	nan, inf := math.NaN(), math.Inf(1)
	// What lies on a bound holds; the next number outside does not.
	over := func(x float64) float64 { return math.Nextafter(x, inf) }
	under := func(x float64) float64 { return math.Nextafter(x, -inf) }
	const allowed = 1e-12
	low, high := 0.5, 1.5
	low -= allowed
	high += allowed
	for _, c := range []struct {
		id           string
		holds, fails []float64
	}{
		{"A", []float64{2, 2.0199, 1.9801}, []float64{2.0201, 1.9799, nan, inf, -2}},
		{"B", []float64{2, 2 + 1e-12}, []float64{2 + 1e-11, 2 - 1e-11, nan, inf}},
		{"C", []float64{1.8, 2, 2.4}, []float64{1.79, 2.41, nan, inf, -2}},
		{"D", []float64{-1.8, -2, -2.4}, []float64{-1.79, -2.41, 2, nan}},
		{"E", []float64{0, 1e-13, -1e-13, allowed, -allowed}, []float64{1e-11, -1e-11, over(allowed), under(-allowed), nan}},
		{"F", []float64{1, 1.5, 2}, []float64{0.99, 2.001, nan}},
		{"G", []float64{2, 3, 4}, []float64{1.999, 4.01, nan}},
		{"H", []float64{1.96, 2, 2.006}, []float64{1.95, 2.007, nan}},
		{"I", []float64{1.5, 2.5}, []float64{under(1.5), over(2.5)}},
		{"J", []float64{low, 1, high}, []float64{under(low), over(high), nan}},
	} {
		r := rows[slices.IndexFunc(rows, func(r Row) bool { return r.ID == c.id })]
		for _, x := range c.holds {
			if !r.Holds(x) {
				t.Errorf("%s: %v does not hold", c.id, x)
			}
		}
		for _, x := range c.fails {
			if r.Holds(x) {
				t.Errorf("%s: %v holds", c.id, x)
			}
		}
		if banded := strings.Contains("CDFGHJ", c.id); r.Agrees() == banded {
			t.Errorf("%s: agrees %v", c.id, r.Agrees())
		}
	}
	if off := rows[0].Off(2.1); math.Abs(off-0.05) > 1e-12 {
		t.Errorf("off %g", off)
	}
	if off := rows[4].Off(0.001); off != 0.001 {
		t.Errorf("off %g m of 0", off)
	}
}

// TestMissing: what is asked for in vain is no number, and is named.
func TestMissing(t *testing.T) {
	rows, err := Read(strings.NewReader(head + "A,ratio,a=1; w=word; table=refused,2,1,0.01,a book,p. 3,seen,\n"))
	if err != nil {
		t.Fatal(err)
	}
	r := &rows[0]
	if r.Of("a") != 1 || r.Text("w") != "word" || r.Missing() != nil || !r.MustRefuse() {
		t.Errorf("%g %q %v", r.Of("a"), r.Text("w"), r.Missing())
	}
	if !r.Has("a") || r.Has("w") || r.HasText("a") || !r.HasText("w") || !slices.Equal(r.Inputs(), []string{"a", "table", "w"}) {
		t.Errorf("inputs %v", r.Inputs())
	}
	if !math.IsNaN(r.Of("w")) || r.Text("a") != "" || !slices.Equal(r.Missing(), []string{"w", "a"}) {
		t.Errorf("missing %v", r.Missing())
	}
}

// TestNameOfUnit: a name that is all unit stays whole, and its number as it
// stands.
func TestNameOfUnit(t *testing.T) {
	rows, err := Read(strings.NewReader(head + "A,ratio,_mm=5; mm=6; a_b=7; b_a_mm=8,2,1,0.01,a book,p. 3,seen,\n"))
	if err != nil {
		t.Fatal(err)
	}
	r := &rows[0]
	for name, want := range map[string]float64{"_mm": 5, "mm": 6, "a_b": 7, "b_a": 0.008} {
		if got := r.Of(name); got != want {
			t.Errorf("%q is %g, want %g", name, got, want)
		}
	}
	if names := r.Inputs(); len(names) != 4 {
		t.Errorf("inputs %q", names)
	}
}

// TestFaults: every fault is told, by its line, and the other rows are read.
func TestFaults(t *testing.T) {
	const good = ",stress,p_MPa=4.5,25,ksi,0.01,a book,p. 3,seen,\n"
	rows, err := Read(strings.NewReader("\ufeff" + head + "A" + good + "# a comment\nB,two\n\nC" + good + "\"A\nB\"" + good + "A" + good + strings.Replace("D"+good, "ksi", "kso", 1)))
	const want = `line 4, row "B": 2 fields, want 10 (id,quantity,inputs,value,unit,tolerance_rel,source,where_in_source,status,note); quote a field that holds a comma
line 9, row "A": the id stands twice, first on line 2
line 10, row "D": unknown unit "kso"; write "ksi"`
	if err == nil || err.Error() != want {
		t.Errorf("%v", err)
	}
	if len(rows) != 3 || rows[0].Line != 2 || rows[1].Line != 6 || rows[2].Line != 7 {
		t.Errorf("%+v", rows)
	}
	rows, err = Read(strings.NewReader(head + "A" + good + "B\"" + good))
	if f, ok := errors.AsType[Faults](err); !ok || len(rows) != 1 || len(f) != 1 || f[0].Line != 3 || !strings.Contains(err.Error(), "a quote stands alone") {
		t.Errorf("%d rows, %v", len(rows), err)
	}
	broken := errors.New("broken")
	if _, err := Read(iotest.ErrReader(broken)); !errors.Is(err, broken) {
		t.Errorf("%v", err)
	}
	if fault := (Fault{Line: 3, Err: broken}); !errors.Is(fault, broken) || fault.Error() != "line 3: broken" {
		t.Errorf("%v", fault)
	}
	if _, err := Table(fstest.MapFS{}, "none.csv"); !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("%v", err)
	}
	if rows, err := Table(fstest.MapFS{"a.csv": {Data: []byte(head + "A" + good)}}, "a.csv"); err != nil || len(rows) != 1 {
		t.Errorf("%d rows, %v", len(rows), err)
	}
}

// FuzzRead: no text makes the reader panic, and what it reads has an id, a
// source and finite numbers.
func FuzzRead(f *testing.F) {
	f.Add(head + "A-1,stress,p_MPa=4.5; k=1.2; ends=closed; low=0.9; high=1.1,25,ksi,0.01,a book,p. 3,memory,\n")
	f.Add(head + "A,r,a_degC=1e308,1e308,°F,0.5,a,b,seen,\"x\ny\"\n#\nB,\"\n")
	f.Add("")
	f.Fuzz(func(t *testing.T, text string) {
		rows, err := Read(strings.NewReader(text))
		if rows == nil && err == nil {
			t.Fatal("nothing and no error")
		}
		for i := range rows {
			r := &rows[i]
			if r.ID == "" || r.Source == "" || math.IsNaN(r.Value) || !(r.Tolerance >= 0 && r.Tolerance < 1) {
				t.Fatalf("%+v", r)
			}
			for _, name := range r.Inputs() {
				if r.Has(name) && (math.IsNaN(r.Of(name)) || math.IsInf(r.Of(name), 0)) {
					t.Fatalf("%s: %s is %v", r.ID, name, r.Of(name))
				}
			}
		}
	})
}
