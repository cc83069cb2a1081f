package quantity_test

import (
	"errors"
	"math"
	"testing"

	"casewright/quantity"
)

var seeds = []string{
	"63.5 mm", "63.5 ±0.1 mm", "57.0 +0/-0.05 mm", "2 1/2 ±1/64 in", "63.5 mm ±0.1 mm", "1/3 in", "1/0 in", "14,5 mm", "1,500.5 mm",
	"63.5 +-0.1 mm", "63.5 ±-0.1 mm", "57 +/-0.1 mm", "2½ in", "2-1/2 in", "-300 °C", "212 °F", "23.6e-6 1/K", "10 %", "15°", "650 psia",
	"1e999 mm", "0x10 mm", "١٤ mm", "NaN", "57 0/-0.05 mm", "-0/-0 mm", "0 -0/+0 µm", "5 lbf-in", "999999999999999.9999999999999999999999 ±1e-22 in",
}

// checkError holds what every error promises: a message, and a correction that is accepted.
func checkError(t *testing.T, text string, err error, accepted func(string) error) {
	t.Helper()
	var e *quantity.SyntaxError
	if !errors.As(err, &e) || e.Message == "" || err.Error() == "" {
		t.Fatalf("%q: %#v", text, err)
	}
	if len(text) <= 128 && e.Text != text {
		t.Fatalf("%q is quoted as %q", text, e.Text)
	}
	if e.Write != "" {
		if err := accepted(e.Write); err != nil {
			t.Fatalf("%q: the correction %q fails: %v", text, e.Write, err)
		}
	}
}

func FuzzParse(f *testing.F) {
	for _, s := range seeds {
		for _, k := range everyKind() {
			f.Add(uint8(k), s)
		}
	}
	f.Fuzz(func(t *testing.T, kind uint8, text string) {
		k := quantity.Kind(kind)
		a, err := quantity.Parse(k, text)
		if err != nil {
			if a.IsSet() {
				t.Fatalf("%q: set, and %v", text, err)
			}
			checkError(t, text, err, func(s string) error { _, err := quantity.Parse(k, s); return err })
			return
		}
		if !a.IsSet() || a.Kind() != k || a.Text() != text {
			t.Fatalf("%q: %v", text, a)
		}
		if si := a.SI(); math.IsNaN(si) || math.IsInf(si, 0) || k == quantity.KindTemperature && si < 0 {
			t.Fatalf("%q is %v", text, si)
		}
		back, err := quantity.Parse(k, a.String())
		if err != nil || !back.Equal(a) || back.Unit() != a.Unit() || back.String() != a.String() {
			t.Fatalf("%q: %q comes back as %q, %v", text, a, back, err)
		}
	})
}

func FuzzParseDimension(f *testing.F) {
	for _, s := range seeds {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		d, err := quantity.ParseDimension(text)
		if err != nil {
			if d.IsSet() {
				t.Fatalf("%q: set, and %v", text, err)
			}
			checkError(t, text, err, func(s string) error { _, err := quantity.ParseDimension(s); return err })
			return
		}
		if !d.IsSet() || d.Text() != text || d.Lower().Cmp(d.Upper()) > 0 {
			t.Fatalf("%q: %v", text, d)
		}
		back, err := quantity.ParseDimension(d.String())
		if err != nil || !back.Equal(d) || back.Unit() != d.Unit() || back.String() != d.String() {
			t.Fatalf("%q: %q comes back as %q, %v", text, d, back, err)
		}
	})
}
