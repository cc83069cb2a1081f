package reference

import (
	"math"
	"os"
	"testing"
)

// Input returns an input in SI, by its name without the unit. It fails the
// test where the row has no such number.
func (r Row) Input(t testing.TB, name string) float64 {
	t.Helper()
	x, ok := r.numbers[name]
	if !ok {
		t.Fatalf("%s: no number %q among the inputs", r.ID, name)
	}
	return x
}

// Word returns an input that is a name or a word. It fails the test where the
// row has none.
func (r Row) Word(t testing.TB, name string) string {
	t.Helper()
	w, ok := r.words[name]
	if !ok {
		t.Fatalf("%s: no word %q among the inputs", r.ID, name)
	}
	return w
}

// Close fails the test unless got, in SI, is the row's value within its
// tolerance.
func (r Row) Close(t testing.TB, got float64) {
	t.Helper()
	if !(math.Abs(got-r.Value) <= max(r.Tolerance, rounding)*math.Abs(r.Value)) {
		t.Errorf("%s %s: got %.7g %s, want %.7g within %.2g %% (%s, %s; %s)", r.ID, r.Quantity,
			r.Unit.FromSI(got), r.Unit.Symbol(), r.Unit.FromSI(r.Value), 100*r.Tolerance, r.Source, r.Where, r.Status)
	}
}

// Load returns the rows of a table. It fails the test where the table has no
// rows, or a row lacks its source or status or cannot be read.
func Load(t testing.TB, path string) []Row {
	t.Helper()
	f, err := os.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := Read(f)
	if err != nil {
		t.Fatalf("%s: %v", path, err)
	}
	return rows
}

// Run gives each row of a table to the check of its quantity, in a subtest
// named by the row's id. It fails the test where a row has no check, and where
// a check finds no row.
func Run(t *testing.T, path string, checks map[string]func(*testing.T, Row)) {
	t.Helper()
	used := map[string]bool{}
	for _, row := range Load(t, path) {
		check, ok := checks[row.Quantity]
		if !ok {
			t.Errorf("%s: no test for %q", row.ID, row.Quantity)
			continue
		}
		used[row.Quantity] = true
		t.Run(row.ID, func(t *testing.T) { check(t, row) })
	}
	for name := range checks {
		if !used[name] {
			t.Errorf("%s: no row for %q", path, name)
		}
	}
}
