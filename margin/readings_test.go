package margin_test

import (
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"unicode/utf8"

	"casewright"
	"casewright/casing"
	"casewright/closure"
	"casewright/fastener"
	"casewright/margin"
	"casewright/margin/formula"
	"casewright/verification"
)

// TestWhy: every method says in a sentence or two, and no two in the same
// words, why it matters.
func TestWhy(t *testing.T) {
	said := map[string]string{}
	for _, m := range casewright.Methods() {
		n := utf8.RuneCountInString(m.Why)
		if n < 30 || n > 260 || !strings.HasSuffix(m.Why, ".") || m.Why != strings.TrimSpace(m.Why) || strings.Contains(m.Why, "  ") {
			t.Errorf("%s: %d letters: %q", m.ID, n, m.Why)
		}
		if other, ok := said[m.Why]; ok {
			t.Errorf("%s and %s say the same", m.ID, other)
		}
		said[m.Why] = m.ID
	}
}

// examples are the sound designs that the project shows.
func examples(t *testing.T) []*casewright.Design {
	t.Helper()
	files, err := filepath.Glob("../testdata/designs/*.toml")
	if err != nil || len(files) < 2 {
		t.Fatalf("%d designs, %v", len(files), err)
	}
	var list []*casewright.Design
	for _, file := range files {
		text, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		d, err := casewright.Read(filepath.Base(file), text)
		if err != nil {
			t.Fatal(err)
		}
		list = append(list, d)
	}
	return list
}

// TestReadings: every other reading has a name and a source, can be read, uses
// the method's symbols alone, says something else than the method, and is a
// number wherever the check of an example is.
func TestReadings(t *testing.T) {
	count := 0
	for _, m := range casewright.Methods() {
		seen := map[string]bool{}
		for _, r := range m.Readings {
			count++
			n, err := formula.Parse(r.Formula)
			if err != nil {
				t.Errorf("%s: %v", m.ID, err)
				continue
			}
			for _, name := range n.Names() {
				if !slices.Contains(m.Names(), name) {
					t.Errorf("%s: %q is no symbol of it", m.ID, name)
				}
			}
			if strings.TrimSpace(r.Name) == "" || strings.TrimSpace(r.Source) == "" || seen[r.Name] || seen[r.Formula] {
				t.Errorf("%s: reading %q, source %q", m.ID, r.Name, r.Source)
			}
			seen[r.Name], seen[r.Formula] = true, true
			if slices.Contains([]string{m.Demand, m.Capacity, m.Value, m.Limit}, r.Formula) {
				t.Errorf("%s: %q is its own formula", m.ID, r.Formula)
			}
			if strength := m.Kind == margin.Strength; strength == (r.Of == margin.OfValue) {
				t.Errorf("%s: %q reads what the check has not", m.ID, r.Name)
			}
		}
	}
	if count < 15 {
		t.Errorf("only %d readings", count)
	}
	found := 0
	for _, d := range examples(t) {
		for _, c := range casewright.NewMotor(d).Evaluate(nil) {
			for _, r := range c.Method.Readings {
				if c.Verdict == margin.Refused {
					continue
				}
				if x := reading(t, c.Method, r.Name, c.In[:len(c.Method.Symbols)]); math.IsNaN(x) || math.IsInf(x, 0) {
					t.Errorf("%s of %s: %q is %v", c.Method.ID, d.Name.Value, r.Name, x)
				}
				found++
			}
		}
	}
	if found < count {
		t.Errorf("%d readings in the examples", found)
	}
}

// reading evaluates the reading of a method whose name begins so.
func reading(t *testing.T, m *margin.Method, name string, values []float64) float64 {
	t.Helper()
	i := slices.IndexFunc(m.Readings, func(r margin.Reading) bool { return strings.HasPrefix(r.Name, name) })
	if i < 0 {
		t.Fatalf("%s has no reading %q", m.ID, name)
	}
	n, err := formula.Parse(m.Readings[i].Formula)
	if err != nil {
		t.Fatal(err)
	}
	return n.Eval(func(symbol string) float64 {
		if j := slices.Index(m.Names(), symbol); j >= 0 {
			return values[j]
		}
		return math.NaN()
	})
}

// rows calls check for each row of a reference table that is of that quantity.
func rows(t *testing.T, table, quantity string, check func(*verification.Case)) {
	t.Helper()
	n := 0
	for _, row := range verification.Cases() {
		if row.Table != table || !strings.HasPrefix(row.Quantity, quantity) {
			continue
		}
		n++
		check(&row)
		if missing := row.Missing(); missing != nil {
			t.Errorf("%s: no inputs %v", row.ID, missing)
		}
	}
	if n == 0 {
		t.Fatalf("%s has no %q", table, quantity)
	}
}

// agrees fails the test where a reading is not the row's.
func agrees(t *testing.T, row *verification.Case, got float64) {
	t.Helper()
	if !row.Agrees() || !row.Holds(got) {
		t.Errorf("%s %s: %g, want %g within %g (%s)", row.ID, row.Quantity, got, row.Value, row.Tolerance, row.Source)
	}
}

// TestReadingsOfBurst: each reading is the closed form that another program
// gave for the same tube.
func TestReadingsOfBurst(t *testing.T) {
	for name, quantity := range map[string]string{
		"Faupel": "Faupel's burst pressure", "Turner": "Turner's burst pressure", "Svensson": "Svensson's burst pressure",
	} {
		rows(t, "burst_instability.csv", quantity, func(row *verification.Case) {
			od, wall, n := row.Of("OD"), row.Of("t"), row.Of("n")
			// Svensson 1958: (0.25/(n + 0.227)) (e/n)^n.
			hardening := 0.25 / (n + 0.227) * math.Pow(math.E/n, n)
			agrees(t, row, reading(t, &casing.BurstPressure, name, []float64{0, od / (od - 2*wall), row.Of("Fty"), row.Of("Ftu"), hardening}))
		})
	}
}

// TestReadingsOfThinWall: a wall worked out in textbooks by t = p R/σ carries
// the textbook's stress, whichever radius R is said to be.
func TestReadingsOfThinWall(t *testing.T) {
	for _, m := range []*margin.Method{&casing.Yield, &casing.Hoop} {
		for name, inside := range map[string]float64{"by the bore": 0, "by the mean diameter": 0.5, "by the outside diameter": 1} {
			rows(t, "least_wall.csv", "least wall, thin tube", func(row *verification.Case) {
				p, r, stress := row.Of("p"), row.Of("R"), row.Of("S")*row.Of("E")
				ri := r - inside*row.Value
				got := reading(t, m, "hoop stress of a thin wall, "+name, []float64{p, (ri + row.Value) / ri, 0})
				if !(math.Abs(got/stress-1) <= row.Tolerance*1.01) {
					t.Errorf("%s %s, %s: %g Pa, want %g within %g (%s)", row.ID, m.ID, name, got, stress, row.Tolerance, row.Source)
				}
			})
		}
	}
}

// TestReadingOfTresca: twice the greatest shear stress is the hoop stress less
// the radial one, -p, of the finite elements and of a verification manual.
func TestReadingOfTresca(t *testing.T) {
	rows(t, "cylinders_textbook.csv", "von Mises at the bore", func(row *verification.Case) {
		got := reading(t, &casing.Yield, "Tresca", []float64{row.Of("p"), row.Of("Ro") / row.Of("Ri"), 0})
		if want := row.Of("hoop") - row.Of("radial"); !(math.Abs(got-want) <= 1e-9*want) {
			t.Errorf("%s: %g, want %g (%s)", row.ID, got, want, row.Source)
		}
	})
	rows(t, "cylinders_fem.csv", "bore hoop", func(row *verification.Case) {
		p, od, wall := row.Of("p"), row.Of("OD"), row.Of("t")
		got := reading(t, &casing.Yield, "Tresca", []float64{p, od / (od - 2*wall), 0})
		if want := row.Value + p; !(math.Abs(got-want) <= row.Tolerance*want) {
			t.Errorf("%s: %g, want %g (%s)", row.ID, got, want, row.Source)
		}
	})
}

// TestReadingOfWholeSection: the axial stress away from the holes is that of
// the finite elements and of a verification manual.
func TestReadingOfWholeSection(t *testing.T) {
	whole := func(row *verification.Case, p, bore, wall float64) {
		agrees(t, row, reading(t, &casing.NetSection, "whole section", []float64{p, bore, wall, 8, 0.001, 0, 0}))
	}
	rows(t, "cylinders_textbook.csv", "mean axial stress, no holes", func(row *verification.Case) {
		ri, ro := row.Of("Ri"), row.Of("Ro")
		whole(row, row.Of("p"), 2*ri, ro-ri)
	})
	rows(t, "cylinders_fem.csv", "mean axial stress, no holes", func(row *verification.Case) {
		od, wall := row.Of("OD"), row.Of("t")
		whole(row, row.Of("p"), od-2*wall, wall)
	})
}

// TestReadingOfTearOutIsUnconservative: two planes from the centre of the hole
// promise more than the limit load of the finite elements.
func TestReadingOfTearOutIsUnconservative(t *testing.T) {
	rows(t, "pin_limit_load.csv", "limit load", func(row *verification.Case) {
		got := reading(t, &fastener.HoleTearOut, "two planes from the hole's centre",
			[]float64{0, 1, 1, row.Of("t"), row.Of("e"), row.Of("d"), row.Of("tau"), 0})
		if !(got > row.Value) {
			t.Errorf("%s: %g N, the limit load is %g N", row.ID, got, row.Value)
		}
	})
}

// TestReadingOfPlate: 3 p r²/(4 t²) at the edge of a clamped plate (Mechanical
// Engineer's Data Handbook, p. 53, seen); the plate that rests on its edge is
// stressed more.
func TestReadingOfPlate(t *testing.T) {
	v := margin.Values{1, 0.3, 4e6, 0.060, 0, 0.010, 0, 0.060}
	const clamped = 0.75 * 4e6 * 0.030 * 0.030 / (0.010 * 0.010)
	for _, m := range []*margin.Method{&closure.Plate, &closure.PlateUltimate} {
		got := reading(t, m, "edge built in", v[:])
		if demand, _ := m.Eval(&v); math.Abs(got-clamped) > 1 || !(got < demand) {
			t.Errorf("%s: %g, want %g, and less than %g", m.ID, got, clamped, demand)
		}
	}
}
