package quantity_test

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"casewright/quantity"
)

// kindNamed returns the kind with the given name.
func kindNamed(t *testing.T, name string) quantity.Kind {
	t.Helper()
	for k := quantity.KindRatio; k <= quantity.KindAngle; k++ {
		if k.String() == name {
			return k
		}
	}
	t.Fatalf("no kind is named %q", name)
	return 0
}

// The conversion factors as NIST prints them in SP 811, to half of the last printed digit; the file says of each row whether it was seen
// in a copy or remembered.
func TestNISTSP811(t *testing.T) {
	f, err := os.Open("../testdata/reference/nist_sp811.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	if len(rows) != 1+17 {
		t.Fatalf("%d rows", len(rows))
	}
	for _, r := range rows[1:] {
		id, name, input, unit := r[0], r[1], strings.TrimPrefix(r[2], "text="), r[4]
		t.Run(id, func(t *testing.T) {
			want, err := strconv.ParseFloat(r[3], 64)
			if err != nil {
				t.Fatal(err)
			}
			tolerance, err := strconv.ParseFloat(r[5], 64)
			if err != nil || tolerance > 5e-7 { // seven digits are printed
				t.Fatalf("tolerance %q: %v", r[5], err)
			}
			k := kindNamed(t, name)
			a, err := quantity.Parse(k, input)
			if err != nil {
				t.Fatal(err)
			}
			if k.SI() != unit {
				t.Errorf("the SI unit is %s, want %s", k.SI(), unit)
			}
			if got := a.SI(); !(math.Abs(got-want) <= tolerance*want) {
				t.Errorf("%s is %.10g %s, want %s", input, got, unit, r[3])
			}
			// The rounded factor used for printing agrees with the exact one.
			v, _ := a.Value().Float64()
			if got := a.Unit().ToSI(v); !(math.Abs(got-want) <= tolerance*want+1e-15*want) {
				t.Errorf("ToSI gives %.10g", got)
			}
			if got := a.Unit().FromSI(want); !(math.Abs(got-v) <= 2*tolerance*v+1e-12*math.Max(want, v)) {
				t.Errorf("FromSI gives %.10g, want %g", got, v)
			}
		})
	}
}
