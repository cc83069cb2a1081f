package quantity_test

import (
	"strings"
	"testing"

	"casewright/quantity"
)

// TestEveryKindHasAName: any number is a kind or none; those that are stand
// first, with a name and the symbol of a unit each.
func TestEveryKindHasAName(t *testing.T) {
	known := 0
	for n := range 256 {
		k := quantity.Kind(n)
		name, si := k.String(), k.SI()
		if (name == "unknown kind") != (si == "") {
			t.Errorf("kind %d: %q in %q", n, name, si)
		}
		if si == "" {
			if _, err := quantity.Parse(k, "1"); err == nil || !strings.HasSuffix(err.Error(), "is of an unknown kind") {
				t.Errorf("kind %d: 1 is read, with error %v", n, err)
			}
			continue
		}
		if u, ok := k.Unit(si); !ok || u.Kind() != k {
			t.Errorf("kind %d, %s: no unit %q of its own", n, name, si)
		}
		if known++; n >= known {
			t.Errorf("kind %d stands after one without a name", n)
		}
	}
	if known == 0 {
		t.Error("no kind is known")
	}
}
