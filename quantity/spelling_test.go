package quantity_test

import (
	"strings"
	"testing"

	"casewright/quantity"

	"pgregory.net/rapid"
)

// The signs, the blank before a unit and the zero before the point are those of
// SI writing: NIST SP 811 (2008) 7.2, and 10.5.2 for the point. From memory.
func TestSpelling(t *testing.T) {
	for text, want := range map[string]string{
		"63.50mm":                 "63.50 mm",
		"  63.5   mm ":            "63.5 mm",
		"57.0+0/-.05mm":           "57.0 +0/-0.05 mm",
		"57.0 -.05 / + 0 mm":      "57.0 -0.05/+0 mm",
		"57.10+-.030mm":           "57.10 ±0.030 mm",
		"57.10\u00a0mm ± 0.03 mm": "57.10 ±0.03 mm",
		"2 1/2±1/64in":            "2 1/2 ±1/64 in",
		".5in":                    "0.5 in",
		"-.5 mm":                  "-0.5 mm",
		"−.5 mm":                  "-0.5 mm",
		"+5mm":                    "+5 mm",
		"1.50e1mm":                "1.50e1 mm",
		"5um":                     "5 µm",
		"63.5 ±0.1 mm":            "63.5 ±0.1 mm",
	} {
		d, err := quantity.ParseDimension(text)
		if err != nil {
			t.Errorf("%q: %v", text, err)
		} else if got := d.Spelling(); got != want {
			t.Errorf("%q: %q, want %q", text, got, want)
		}
	}
	for _, c := range []struct {
		kind       quantity.Kind
		text, want string
	}{
		{quantity.KindTemperature, "120degC", "120 °C"},
		{quantity.KindTemperature, "-40.0degF", "-40.0 °F"},
		{quantity.KindPressure, "4.50MPa", "4.50 MPa"},
		{quantity.KindAngle, "15 deg", "15°"},
		{quantity.KindAngle, "22.50 °", "22.50°"},
		{quantity.KindRatio, " 1.50", "1.50"},
		{quantity.KindRatio, "10%", "10 %"},
		{quantity.KindExpansion, "23.60e-6 1/K", "23.60e-6 /K"},
		{quantity.KindHeatTransfer, "800W/m2K", "800 W/(m² K)"},
		{quantity.KindTorque, "4N·m", "4 N m"},
	} {
		a, err := quantity.Parse(c.kind, c.text)
		if err != nil {
			t.Errorf("%q: %v", c.text, err)
		} else if got := a.Spelling(); got != c.want {
			t.Errorf("%q: %q, want %q", c.text, got, c.want)
		}
	}
	if got := (quantity.Dimension{}).Spelling() + (quantity.Amount{}).Spelling(); got != "" {
		t.Errorf("what is unset is spelt %q", got)
	}
}

// What was computed is spelt as String prints it, and a text that is right
// already stays; other blanks and signs come back to it.
func TestSpellingRoundTrip(t *testing.T) {
	loosen := strings.NewReplacer(" ±", "+-", " +", "+", "/-", " / - ", " mm", "mm", " in", "  in", "0.", ".")
	rapid.Check(t, func(t *rapid.T) {
		d := dimension().Draw(t, "d")
		if d.Spelling() != d.String() {
			t.Fatalf("%q, not %q", d.Spelling(), d.String())
		}
		loose := d.String()
		if !strings.Contains(loose, "00.") && !strings.Contains(loose, "10.") && rapid.Bool().Draw(t, "loose") {
			loose = loosen.Replace(loose)
		}
		back, err := quantity.ParseDimension(loose)
		if err != nil {
			t.Skip() // as 10. mm is none
		}
		if again, err := quantity.ParseDimension(back.Spelling()); err != nil || !again.Equal(back) || again.Spelling() != back.Spelling() {
			t.Fatalf("%q is spelt %q, then %q", loose, back.Spelling(), again.Spelling())
		}
		if loose == d.String() && back.Spelling() != loose {
			t.Fatalf("%q is spelt %q", loose, back.Spelling())
		}
	})
}

// FuzzSpelling holds that a spelling is read as what was written, in the same
// unit and with the same digits, and is spelt like itself.
func FuzzSpelling(f *testing.F) {
	for _, s := range seeds {
		for _, k := range everyKind() {
			f.Add(uint8(k), s)
		}
	}
	f.Fuzz(func(t *testing.T, kind uint8, text string) {
		if a, err := quantity.Parse(quantity.Kind(kind), text); err == nil {
			b, err := quantity.Parse(quantity.Kind(kind), a.Spelling())
			if err != nil || !b.Equal(a) || b.Unit() != a.Unit() || b.Value().Exponent() != a.Value().Exponent() || b.Spelling() != a.Spelling() {
				t.Errorf("%q is spelt %q, and that %q: %v", text, a.Spelling(), b.Spelling(), err)
			}
		}
		if d, err := quantity.ParseDimension(text); err == nil {
			b, err := quantity.ParseDimension(d.Spelling())
			if err != nil || !b.Equal(d) || b.Unit() != d.Unit() || b.Nominal().Exponent() != d.Nominal().Exponent() ||
				b.Lower().Exponent() != d.Lower().Exponent() || b.Upper().Exponent() != d.Upper().Exponent() || b.Spelling() != d.Spelling() {
				t.Errorf("%q is spelt %q, and that %q: %v", text, d.Spelling(), b.Spelling(), err)
			}
		}
	})
}
