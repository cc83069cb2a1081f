package reference

import (
	"encoding/csv"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
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
		{r.Input(t, "p"), 4.5e6},
		{r.Input(t, "k"), 1.2},
		{r.Input(t, "R_m"), 1000 * psi},
		{r.Value, 25000 * psi},
		{r.Tolerance, 0.01},
	} {
		if math.Abs(c.got-c.want) > 1e-12*c.want {
			t.Errorf("got %v, want %v", c.got, c.want)
		}
	}
	if w := r.Word(t, "ends"); w != "closed" {
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

// recorder stands for a test that may fail.
type recorder struct {
	testing.TB
	failed string
}

func (r *recorder) Helper()                           {}
func (r *recorder) Errorf(format string, args ...any) { r.failed = fmt.Sprintf(format, args...) }
func (r *recorder) Fatalf(format string, args ...any) { r.failed = fmt.Sprintf(format, args...) }
func (r *recorder) Fatal(args ...any)                 { r.failed = fmt.Sprint(args...) }

func TestClose(t *testing.T) {
	rows, err := Read(strings.NewReader(head + "A-1,ratio,a=1,2,1,0.01,a book,p. 3,seen,\nA-2,ratio,,2,1,0,a book,p. 3,seen,\n"))
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		row    Row
		got    float64
		passes bool
	}{
		{rows[0], 2, true},
		{rows[0], 2.0199, true},
		{rows[0], 1.9801, true},
		{rows[0], 2.0201, false},
		{rows[0], 1.9799, false},
		{rows[0], math.NaN(), false},
		{rows[0], math.Inf(1), false},
		{rows[1], 2 + 4e-13, true},
		{rows[1], 2 + 1e-11, false},
	} {
		r := recorder{TB: t}
		c.row.Close(&r, c.got)
		if (r.failed == "") != c.passes {
			t.Errorf("%s: %v: %q", c.row.ID, c.got, r.failed)
		}
	}
	r := recorder{TB: t}
	rows[0].Input(&r, "b")
	if !strings.Contains(r.failed, `"b"`) {
		t.Errorf("no failure for an input that is not there: %q", r.failed)
	}
	r.failed = ""
	rows[0].Word(&r, "a")
	if !strings.Contains(r.failed, `"a"`) {
		t.Errorf("no failure for a word that is a number: %q", r.failed)
	}
}

// TestTablesNameSources holds every table of reference values, whatever test
// reads it: a number without its source is worth nothing.
func TestTablesNameSources(t *testing.T) {
	paths, err := filepath.Glob("../../testdata/reference/*.csv")
	if err != nil || len(paths) == 0 {
		t.Fatalf("no tables: %v", err)
	}
	for _, path := range paths {
		f, err := os.Open(path)
		if err != nil {
			t.Fatal(err)
		}
		r := csv.NewReader(f)
		r.Comment = '#'
		records, err := r.ReadAll()
		f.Close()
		if err != nil || len(records) < 2 {
			t.Errorf("%s: %d rows, error %v", path, len(records), err)
			continue
		}
		source, status := slices.Index(records[0], "source"), slices.Index(records[0], "status")
		if source < 0 || status < 0 {
			t.Errorf("%s: no column for source or status", path)
			continue
		}
		for _, record := range records[1:] {
			if record[source] == "" || record[status] == "" {
				t.Errorf("%s: %s has no source or no status", path, record[0])
			}
		}
	}
}
