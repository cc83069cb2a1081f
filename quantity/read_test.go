package quantity_test

import (
	"errors"
	"strings"
	"testing"

	"casewright/quantity"

	"github.com/shopspring/decimal"
)

// The forms a dimension may take. The values in metres are by hand: an inch is 0.0254 m.
func TestParseDimension(t *testing.T) {
	for _, c := range []struct{ text, nominal, lower, upper, printed string }{
		{"63.5 mm", "0.0635", "0", "0", "63.5 mm"},
		{"63.50 mm", "0.0635", "0", "0", "63.50 mm"},
		{"63.5mm", "0.0635", "0", "0", "63.5 mm"},
		{" 63.5  mm ", "0.0635", "0", "0", "63.5 mm"},
		{"63.5 mm", "0.0635", "0", "0", "63.5 mm"}, // U+00A0
		{"63.5\u202f±\u20090.1\tmm", "0.0635", "-0.0001", "0.0001", "63.5 ±0.1 mm"},
		{"+63.5 mm", "0.0635", "0", "0", "63.5 mm"},
		{"-3 mm", "-0.003", "0", "0", "-3 mm"},
		{"−3 mm", "-0.003", "0", "0", "-3 mm"}, // U+2212
		{".250 in", "0.00635", "0", "0", "0.250 in"},
		{"6.35 cm", "0.0635", "0", "0", "6.35 cm"},
		{"0.0635 m", "0.0635", "0", "0", "0.0635 m"},
		{"250 µm", "0.00025", "0", "0", "250 µm"},
		{"250 μm", "0.00025", "0", "0", "250 µm"},
		{"250 um", "0.00025", "0", "0", "250 µm"},
		{"6.35e1 mm", "0.0635", "0", "0", "63.5 mm"},
		{"6.35E-2 m", "0.0635", "0", "0", "0.0635 m"},
		{"1e3 mm", "1", "0", "0", "1000 mm"},
		{"1e+3 mm", "1", "0", "0", "1000 mm"},
		{"0e12 mm", "0", "0", "0", "0 mm"},
		{"0bar", "", "", "", ""}, // not hexadecimal; of another kind
		{"63.5 ±0.1 mm", "0.0635", "-0.0001", "0.0001", "63.5 ±0.1 mm"},
		{"63.5±0.1mm", "0.0635", "-0.0001", "0.0001", "63.5 ±0.1 mm"},
		{"63.5 +-0.1 mm", "0.0635", "-0.0001", "0.0001", "63.5 ±0.1 mm"},
		{"63.5+-0.1mm", "0.0635", "-0.0001", "0.0001", "63.5 ±0.1 mm"},
		{"63.5 +−0.1 mm", "0.0635", "-0.0001", "0.0001", "63.5 ±0.1 mm"},
		{"63.5 mm ±0.1 mm", "0.0635", "-0.0001", "0.0001", "63.5 ±0.1 mm"},
		{"63.5 ±0 mm", "0.0635", "0", "0", "63.5 mm"},
		{"57.0 +0/-0.05 mm", "0.057", "-0.00005", "0", "57.0 +0/-0.05 mm"},
		{"57.0 -0.05/+0 mm", "0.057", "-0.00005", "0", "57.0 +0/-0.05 mm"},
		{"57.0 +0 / −0.05 mm", "0.057", "-0.00005", "0", "57.0 +0/-0.05 mm"},
		{"57.0 mm +0/-0.05 mm", "0.057", "-0.00005", "0", "57.0 +0/-0.05 mm"},
		{"57.0 + 0/- 0.05 mm", "0.057", "-0.00005", "0", "57.0 +0/-0.05 mm"},
		{"3.60 +0.15/-0 mm", "0.0036", "0", "0.00015", "3.60 +0.15/-0 mm"},
		{"3.60 +0.15/+0.05 mm", "0.0036", "0.00005", "0.00015", "3.60 +0.15/+0.05 mm"},
		{"3.60 +0.05/+0.15 mm", "0.0036", "0.00005", "0.00015", "3.60 +0.15/+0.05 mm"},
		{"3.60 -0.05/-0.15 mm", "0.0036", "-0.00015", "-0.00005", "3.60 -0.05/-0.15 mm"},
		{"3.60 +0.1/-0.1 mm", "0.0036", "-0.0001", "0.0001", "3.60 ±0.1 mm"},
		{"2.5 in", "0.0635", "0", "0", "2.5 in"},
		{"2.500 ±0.005 in", "0.0635", "-0.000127", "0.000127", "2.500 ±0.005 in"},
		{"1/4 in", "0.00635", "0", "0", "0.25 in"},
		{"5/4 in", "0.03175", "0", "0", "1.25 in"},
		{"-1/4 in", "-0.00635", "0", "0", "-0.25 in"},
		{"2 1/2 in", "0.0635", "0", "0", "2.5 in"},
		{"2  1/2 in", "0.0635", "0", "0", "2.5 in"},
		{"-2 1/2 in", "-0.0635", "0", "0", "-2.5 in"},
		{"0 1/2 in", "0.0127", "0", "0", "0.5 in"},
		{"123456789012345 1/2 mm", "123456789012.3455", "0", "0", "123456789012345.5 mm"},
		{"123456789012345/2 mm", "61728394506.1725", "0", "0", "61728394506172.5 mm"},
		{strings.Repeat(" ", 121) + "63.5 mm", "0.0635", "0", "0", "63.5 mm"}, // 128 bytes
		{"2 1/2 ±1/64 in", "0.0635", "-0.000396875", "0.000396875", "2.5 ±0.015625 in"},
		{"2 1/2 in ±1/64 in", "0.0635", "-0.000396875", "0.000396875", "2.5 ±0.015625 in"},
		{"2 1/2 +1/64/-1/32 in", "0.0635", "-0.00079375", "0.000396875", "2.5 +0.015625/-0.03125 in"},
		{"1/512 in", "0.000049609375", "0", "0", "0.001953125 in"},
		{"1/625 in", "0.00004064", "0", "0", "0.0016 in"},
		{"1/1000 in", "0.0000254", "0", "0", "0.001 in"},
		{"3/10 in", "0.00762", "0", "0", "0.3 in"},
		{"999999999999999.9999999999999999999999 mm", "999999999999.9999999999999999999999999", "0", "0", "999999999999999.9999999999999999999999 mm"},
	} {
		d, err := quantity.ParseDimension(c.text)
		if c.printed == "" {
			if err == nil {
				t.Errorf("%q parses", c.text)
			}
			continue
		}
		if err != nil {
			t.Errorf("%q: %v", c.text, err)
			continue
		}
		want := func(name string, got decimal.Decimal, s string) {
			t.Helper()
			if !got.Equal(decimal.RequireFromString(s)) {
				t.Errorf("%q: %s %s m, want %s m", c.text, name, got, s)
			}
		}
		want("nominal", d.Nominal(), c.nominal)
		want("lower", d.Lower(), c.lower)
		want("upper", d.Upper(), c.upper)
		if got := d.String(); got != c.printed {
			t.Errorf("%q: prints %q, want %q", c.text, got, c.printed)
		}
		if d.Text() != c.text {
			t.Errorf("text %q, want %q", d.Text(), c.text)
		}
		if !d.IsSet() || d.HasTolerance() != (c.lower != "0" || c.upper != "0") {
			t.Errorf("%q: set %t, tolerance %t", c.text, d.IsSet(), d.HasTolerance())
		}
		if c.lower+c.upper == "00" {
			if a, err := quantity.Parse(quantity.KindLength, c.text); strings.Contains(c.text, "±") {
				if err == nil {
					t.Errorf("%q: an amount takes a tolerance", c.text)
				}
			} else if err != nil || a.SI() != float64(quantity.LengthOf(d.Nominal())) {
				t.Errorf("%q: as an amount %v, %v", c.text, a, err)
			}
		}
	}
}

// The forms an amount may take. The values in SI are by hand; those of psi and °F are held by the NIST table.
func TestParse(t *testing.T) {
	for _, c := range []struct {
		kind    quantity.Kind
		text    string
		si      float64
		printed string
	}{
		{quantity.KindRatio, "1.5", 1.5, "1.5"},
		{quantity.KindRatio, "0.10", 0.1, "0.10"},
		{quantity.KindRatio, "10 %", 0.1, "10 %"},
		{quantity.KindRatio, "10%", 0.1, "10 %"},
		{quantity.KindRatio, "1", 1, "1"},
		{quantity.KindRatio, "-0.5", -0.5, "-0.5"},
		{quantity.KindRatio, "1/4", 0.25, "0.25"},
		{quantity.KindArea, "150 mm²", 150e-6, "150 mm²"},
		{quantity.KindArea, "150 mm2", 150e-6, "150 mm²"},
		{quantity.KindPressure, "4.5 MPa", 4.5e6, "4.5 MPa"},
		{quantity.KindPressure, "-4.5 MPa", -4.5e6, "-4.5 MPa"},
		{quantity.KindPressure, "0 bar", 0, "0 bar"},
		{quantity.KindPressure, "0bar", 0, "0 bar"},
		{quantity.KindPressure, "45bar", 4.5e6, "45 bar"},
		{quantity.KindPressure, "68.9 GPa", 68.9e9, "68.9 GPa"},
		{quantity.KindPressure, "68.9e9 Pa", 68.9e9, "68900000000 Pa"},
		{quantity.KindPressure, "450 kPa", 450e3, "450 kPa"},
		{quantity.KindForce, "3.33 kN", 3330, "3.33 kN"},
		{quantity.KindTemperature, "120 °C", 393.15, "120 °C"},
		{quantity.KindTemperature, "120 degC", 393.15, "120 °C"},
		{quantity.KindTemperature, "120°C", 393.15, "120 °C"},
		{quantity.KindTemperature, "+20 °C", 293.15, "20 °C"},
		{quantity.KindTemperature, "-40 °C", 233.15, "-40 °C"},
		{quantity.KindTemperature, "-40 °F", 233.15, "-40 °F"},
		{quantity.KindTemperature, "−40 degF", 233.15, "-40 °F"},
		{quantity.KindTemperature, "-273.15 °C", 0, "-273.15 °C"},
		{quantity.KindTemperature, "-459.67 °F", 0, "-459.67 °F"},
		{quantity.KindTemperature, "0 K", 0, "0 K"},
		{quantity.KindTemperatureDifference, "10 K", 10, "10 K"},
		{quantity.KindTemperatureDifference, "10 °C", 10, "10 °C"},
		{quantity.KindTemperatureDifference, "-18 °F", -10, "-18 °F"},
		{quantity.KindTime, "1.2 s", 1.2, "1.2 s"},
		{quantity.KindTime, "250 ms", 0.25, "250 ms"},
		{quantity.KindTime, "2 min", 120, "2 min"},
		{quantity.KindTorque, "5 N m", 5, "5 N m"},
		{quantity.KindTorque, "5 N·m", 5, "5 N m"},
		{quantity.KindTorque, "5 N m", 5, "5 N m"},
		{quantity.KindMass, "1.2 kg", 1.2, "1.2 kg"},
		{quantity.KindMass, "250 g", 0.25, "250 g"},
		{quantity.KindDensity, "2700 kg/m³", 2700, "2700 kg/m³"},
		{quantity.KindDensity, "2700 kg/m3", 2700, "2700 kg/m³"},
		{quantity.KindDensity, "2.7 g/cm3", 2700, "2.7 g/cm³"},
		{quantity.KindExpansion, "23.6e-6 /K", 23.6e-6, "0.0000236 /K"},
		{quantity.KindExpansion, "23.6e-6/K", 23.6e-6, "0.0000236 /K"},
		{quantity.KindExpansion, "23.6e-6 1/K", 23.6e-6, "0.0000236 /K"},
		{quantity.KindExpansion, "23.6 µm/(m K)", 23.6e-6, "23.6 µm/(m K)"},
		{quantity.KindExpansion, "10 /°F", 18, "10 /°F"}, // a kelvin is 1.8 °F
		{quantity.KindConductivity, "167 W/(m K)", 167, "167 W/(m K)"},
		{quantity.KindConductivity, "167 W/m/K", 167, "167 W/(m K)"},
		{quantity.KindSpecificHeat, "896 J/(kg K)", 896, "896 J/(kg K)"},
		{quantity.KindAngle, "15°", 0.26179938779914943654, "15°"}, // π/12
		{quantity.KindAngle, "15 °", 0.26179938779914943654, "15°"},
		{quantity.KindAngle, "15 deg", 0.26179938779914943654, "15°"},
		{quantity.KindAngle, "0.26 rad", 0.26, "0.26 rad"},
		{quantity.KindLength, "1.2345678901234567e-05 m", 1.2345678901234567e-05, "0.000012345678901234567 m"},
	} {
		a, err := quantity.Parse(c.kind, c.text)
		if err != nil {
			t.Errorf("%q: %v", c.text, err)
			continue
		}
		if got := a.SI(); got != c.si {
			t.Errorf("%q: %v in SI, want %v", c.text, got, c.si)
		}
		if got := a.String(); got != c.printed {
			t.Errorf("%q: prints %q, want %q", c.text, got, c.printed)
		}
		if !a.IsSet() || a.Kind() != c.kind || a.Text() != c.text {
			t.Errorf("%q: set %t, %s, text %q", c.text, a.IsSet(), a.Kind(), a.Text())
		}
	}
}

// The exact words for what is wrong.
func TestErrors(t *testing.T) {
	for _, c := range []struct {
		kind quantity.Kind
		text string
		want string
	}{
		{quantity.KindLength, "", `"" is empty; a length needs a number and a unit: mm, in or cm`},
		{quantity.KindLength, "\u00a0", `"\u00a0" is empty; a length needs a number and a unit: mm, in or cm`},
		{quantity.KindLength, " ", `" " is empty; a length needs a number and a unit: mm, in or cm`},
		{quantity.KindLength, "mm", `"mm" has no number before the unit`},
		{quantity.KindLength, "psi", `"psi" has no number before the unit`},
		{quantity.KindLength, "abc", `"abc" does not begin with a number`},
		{quantity.KindLength, "-", `"-" does not begin with a number`},
		{quantity.KindLength, "- 3 mm", `"- 3 mm" does not begin with a number`},
		{quantity.KindLength, "--3 mm", `"--3 mm" does not begin with a number`},
		{quantity.KindLength, ". mm", `". mm" has no digit after a point`},
		{quantity.KindLength, "5. mm", `"5. mm" has no digit after a point`},
		{quantity.KindLength, "1.2.3 mm", `"1.2.3 mm" is not a plain number and a unit`},
		{quantity.KindLength, "1 1 mm", `"1 1 mm" is not a plain number and a unit`},
		{quantity.KindLength, "1e1.5 mm", `"1e1.5 mm" is not a plain number and a unit`},
		{quantity.KindLength, "nan mm", `"nan mm" is not a finite number`},
		{quantity.KindLength, "NaN", `"NaN" is not a finite number`},
		{quantity.KindLength, "inf", `"inf" is not a finite number`},
		{quantity.KindLength, "-Infinity mm", `"-Infinity mm" is not a finite number`},
		{quantity.KindLength, "∞ mm", `"∞ mm" does not begin with a number`},
		{quantity.KindLength, "0x10 mm", `"0x10 mm" is not a decimal number`},
		{quantity.KindLength, "-0X10 mm", `"-0X10 mm" is not a decimal number`},
		{quantity.KindLength, "0b1 mm", `"0b1 mm" has the unknown unit "b1 mm"; a length needs mm, in or cm`},
		{quantity.KindLength, "14 mm\x00", `"14 mm\x00" has the unknown unit "mm\x00"; a length needs mm, in or cm`},
		{quantity.KindLength, "14 mm\xff", `"14 mm\xff" is not UTF-8`},
		{quantity.KindLength, "14 mm\n", `"14 mm\n" has the unknown unit "mm\n"; a length needs mm, in or cm`},

		// Numbers out of bounds.
		{quantity.KindLength, "1e999 mm", `"1e999 mm" has a number out of range: at most 15 digits before the point and 22 after it`},
		{quantity.KindLength, "1e-999 mm", `"1e-999 mm" has a number out of range: at most 15 digits before the point and 22 after it`},
		{quantity.KindLength, "1e99999999999999999999 mm", `"1e99999999999999999999 mm" has a number out of range: at most 15 digits before the point and 22 after it`},
		{quantity.KindLength, "1e001 mm", `"1e001 mm" has a number out of range: at most 15 digits before the point and 22 after it`},
		{quantity.KindLength, "1e15 mm", `"1e15 mm" has a number out of range: at most 15 digits before the point and 22 after it`},
		{quantity.KindLength, "0e16 mm", `"0e16 mm" has a number out of range: at most 15 digits before the point and 22 after it`},
		{quantity.KindLength, "1e-23 mm", `"1e-23 mm" has a number out of range: at most 15 digits before the point and 22 after it`},
		{quantity.KindLength, "1234567890123456 mm", `"1234567890123456 mm" has a number out of range: at most 15 digits before the point and 22 after it`},
		{quantity.KindLength, "1234567890123456 1/2 mm", `"1234567890123456 1/2 mm" has a number out of range: at most 15 digits before the point and 22 after it`},
		{quantity.KindLength, "1234567890123456/2 mm", `"1234567890123456/2 mm" has a number out of range: at most 15 digits before the point and 22 after it`},
		{quantity.KindLength, "5 +1e99/-0 mm", `"5 +1e99/-0 mm" has a number out of range: at most 15 digits before the point and 22 after it`},
		{quantity.KindLength, "5 ±1e99 mm", `"5 ±1e99 mm" has a number out of range: at most 15 digits before the point and 22 after it`},
		{quantity.KindLength, strings.Repeat("1", 200) + " mm", `"` + strings.Repeat("1", 128) + `…" is longer than 128 bytes`},
		{quantity.KindLength, strings.Repeat("x", 128), `"` + strings.Repeat("x", 128) + `" does not begin with a number`},
		{quantity.KindLength, strings.Repeat("\x80", 200), `"` + strings.Repeat(`\x80`, 124) + `…" is longer than 128 bytes`},
		{quantity.KindLength, strings.Repeat("±", 100), `"` + strings.Repeat("±", 64) + `…" is longer than 128 bytes`},
		{quantity.KindLength, "1" + strings.Repeat("±", 100), `"1` + strings.Repeat("±", 63) + `…" is longer than 128 bytes`},

		// Fractions.
		{quantity.KindLength, "1/0 in", `"1/0 in" divides by zero`},
		{quantity.KindLength, "2 1/0 in", `"2 1/0 in" divides by zero`},
		{quantity.KindLength, "2 ±1/0 in", `"2 ±1/0 in" divides by zero`},
		{quantity.KindLength, "1/3 in", `"1/3 in" has the fraction 1/3, which does not end as a decimal: write a decimal`},
		{quantity.KindLength, "3/6 in", `"3/6 in" has the fraction 3/6, which does not end as a decimal: write a decimal`},
		{quantity.KindLength, "2 1/999 in", `"2 1/999 in" has the fraction 1/999, which does not end as a decimal: write a decimal`},
		{quantity.KindLength, "1/1024 in", `"1/1024 in" has a denominator above 1000: write a decimal`},
		{quantity.KindLength, "1/00016 in", `"1/00016 in" has a denominator above 1000: write a decimal`},
		{quantity.KindLength, "1/18446744073709551617 in", `"1/18446744073709551617 in" has a denominator above 1000: write a decimal`},
		{quantity.KindLength, "2 5/4 in", `"2 5/4 in" has the fraction 5/4 after a whole number, where it must be below 1`},
		{quantity.KindLength, "2 4/4 in", `"2 4/4 in" has the fraction 4/4 after a whole number, where it must be below 1`},
		{quantity.KindLength, "1.5/2 in", `"1.5/2 in" has the unknown unit "/2 in"; a length needs mm, in or cm`},
		{quantity.KindLength, "2 /4 in", `"2 /4 in" has the unknown unit "/4 in"; a length needs mm, in or cm`},
		{quantity.KindLength, "1/2.5 in", `"1/2.5 in" is not a plain number and a unit`},
		{quantity.KindLength, "2.5 1/2 in", `"2.5 1/2 in" is not a plain number and a unit`},
		{quantity.KindLength, "2-1/2 in", `"2-1/2 in" is a mixed number, or a size with one deviation; write "2 1/2 in"`},
		{quantity.KindLength, "2 -1/2 in", `"2 -1/2 in" has one deviation; a tolerance needs both, as in +0.2/-0`},
		{quantity.KindLength, "2 1/2-1/64 in", `"2 1/2-1/64 in" has one deviation; a tolerance needs both, as in +0.2/-0`},
		{quantity.KindLength, "2½ in", `"2½ in" has '½' where "1/2" is due; write "2 1/2 in"`},
		{quantity.KindLength, "¾ in", `"¾ in" has '¾' where "3/4" is due; write "3/4 in"`},
		{quantity.KindLength, "3⁄4 in", `"3⁄4 in" has '⁄' where "/" is due; write "3/4 in"`},

		// Commas, separators, other digits.
		{quantity.KindLength, "14,5 mm", `"14,5 mm" has a decimal comma; write "14.5 mm"`},
		{quantity.KindLength, "63,5 ±0,1 mm", `"63,5 ±0,1 mm" has a decimal comma; write "63.5 ±0.1 mm"`},
		{quantity.KindLength, "57,0 +0/-0,05 MM", `"57,0 +0/-0,05 MM" has a decimal comma; write "57.0 +0/-0.05 mm"`},
		{quantity.KindLength, "14,5", `"14,5" has a decimal comma; write "14.5 mm"`},
		{quantity.KindLength, ",5 mm", `",5 mm" has a decimal comma; write ".5 mm"`},
		{quantity.KindLength, "0,250 in", `"0,250 in" has a decimal comma; write "0.250 in"`},
		{quantity.KindLength, "1234,567 mm", `"1234,567 mm" has a decimal comma; write "1234.567 mm"`},
		{quantity.KindPressure, "1,500 psi", `"1,500 psi" has a comma that may mean 1.500 or 1500`},
		{quantity.KindPressure, "150,000 psi", `"150,000 psi" has a comma that may mean 150.000 or 150000`},
		{quantity.KindPressure, "1,500,000 Pa", `"1,500,000 Pa" has thousands separators; write "1500000 Pa"`},
		{quantity.KindPressure, "1,500.5 psi", `"1,500.5 psi" has thousands separators; write "1500.5 psi"`},
		{quantity.KindPressure, "1.500,5 psi", `"1.500,5 psi" has a comma out of place`},
		{quantity.KindPressure, "1,50,000 psi", `"1,50,000 psi" has a comma out of place`},
		{quantity.KindPressure, "5, psi", `"5, psi" has a comma out of place`},
		{quantity.KindPressure, "5 psi,", `"5 psi," has a comma out of place`},
		{quantity.KindLength, "2 500 mm", `"2 500 mm" has a space inside a number; write "2500 mm"`},
		{quantity.KindLength, "250 500 mm", `"250 500 mm" has a space inside a number; write "250500 mm"`},
		{quantity.KindLength, "1234 500 mm", `"1234 500 mm" is not a plain number and a unit`},
		{quantity.KindLength, "57.0 500 mm", `"57.0 500 mm" is not a plain number and a unit`},
		{quantity.KindLength, "57.0 0 -0.05 mm", `"57.0 0 -0.05 mm" is not a plain number and a unit`},
		{quantity.KindLength, "57.0 0/", `"57.0 0/" is not a plain number and a unit`},
		{quantity.KindLength, "1_000 mm", `"1_000 mm" has a separator in a number; write "1000 mm"`},
		{quantity.KindLength, "1'000 mm", `"1'000 mm" has the unknown unit "'000 mm"; a length needs mm, in or cm`},
		{quantity.KindLength, "١٤ mm", `"١٤ mm" has digits other than 0 to 9`},
		{quantity.KindLength, "１４ mm", `"１４ mm" has digits other than 0 to 9`},

		// Units.
		{quantity.KindLength, "14", `"14" has no unit; write "14 mm"`},
		{quantity.KindLength, "1/4", `"1/4" has no unit; write "1/4 mm"`},
		{quantity.KindArea, "14", `"14" has no unit; write "14 mm²"`},
		{quantity.KindPressure, "4.5", `"4.5" has no unit; write "4.5 MPa"`},
		{quantity.KindForce, "14", `"14" has no unit; write "14 N"`},
		{quantity.KindTemperature, "120", `"120" has no unit; write "120 °C"`},
		{quantity.KindTemperature, "-300", `"-300" has no unit`},
		{quantity.KindTemperatureDifference, "120", `"120" has no unit; write "120 K"`},
		{quantity.KindTime, "2", `"2" has no unit; write "2 s"`},
		{quantity.KindTorque, "2", `"2" has no unit; write "2 N m"`},
		{quantity.KindMass, "2", `"2" has no unit; write "2 kg"`},
		{quantity.KindDensity, "2700", `"2700" has no unit; write "2700 kg/m³"`},
		{quantity.KindExpansion, "23.6e-6", `"23.6e-6" has no unit; write "23.6e-6 /K"`},
		{quantity.KindConductivity, "167", `"167" has no unit; write "167 W/(m K)"`},
		{quantity.KindSpecificHeat, "896", `"896" has no unit; write "896 J/(kg K)"`},
		{quantity.KindAngle, "15", `"15" has no unit; write "15°"`},
		{quantity.KindLength, "14 MM", `"14 MM" has the unit "MM" in the wrong case; write "14 mm"`},
		{quantity.KindLength, "14 Mm", `"14 Mm" has the unit "Mm" in the wrong case; write "14 mm"`},
		{quantity.KindLength, "14MM ±1MM", `"14MM ±1MM" has the unit "MM" in the wrong case; write "14 mm ±1 mm"`},
		{quantity.KindPressure, "4.5 mpa", `"4.5 mpa" has the unit "mpa" in the wrong case; write "4.5 MPa"`},
		{quantity.KindPressure, "4.5 PSI", `"4.5 PSI" has the unit "PSI" in the wrong case; write "4.5 psi"`},
		{quantity.KindTemperature, "120 DegC", `"120 DegC" has the unit "DegC" in the wrong case; write "120 °C"`},
		{quantity.KindPressure, "4.5 mm", `"4.5 mm" is a length; a pressure needs MPa, bar or psi`},
		{quantity.KindLength, "14 psi", `"14 psi" is a pressure; a length needs mm, in or cm`},
		{quantity.KindTemperature, "14 psi", `"14 psi" is a pressure; a temperature needs °C, °F or K`},
		{quantity.KindAngle, "14 mm", `"14 mm" is a length; an angle needs ° or rad`},
		{quantity.KindLength, "14 mm²", `"14 mm²" is an area; a length needs mm, in or cm`},
		{quantity.KindConductivity, "896 J/(kg K)", `"896 J/(kg K)" is a specific heat; a thermal conductivity needs W/(m K) or Btu/(h ft °F)`},
		{quantity.KindRatio, "14 mm", `"14 mm" is a length; a ratio needs no unit, or %`},
		{quantity.KindLength, "14 %", `"14 %" is a ratio; a length needs mm, in or cm`},
		{quantity.KindLength, "5e mm", `"5e mm" has the unknown unit "e mm"; a length needs mm, in or cm`},
		{quantity.KindLength, "14 ft", `"14 ft" has the unknown unit "ft"; a length needs mm, in or cm`},
		{quantity.KindLength, "14 km", `"14 km" has the unknown unit "km"; a length needs mm, in or cm`}, // not cm: a letter is a power of ten
		{quantity.KindLength, "14 inch", `"14 inch" has the unknown unit "inch"; write "14 in"`},
		{quantity.KindLength, `14"`, `"14\"" has the unknown unit "\""; write "14 in"`},
		{quantity.KindLength, `2 1/2″ ± 1/64″`, `"2 1/2″ ± 1/64″" has the unknown unit "″"; write "2 1/2 in ± 1/64 in"`},
		{quantity.KindPressure, "4.5 N/mm²", `"4.5 N/mm²" has the unknown unit "N/mm²"; write "4.5 MPa"`},
		{quantity.KindPressure, "650 psig", `"650 psig" has the unknown unit "psig"; write "650 psi"`},
		{quantity.KindPressure, "650 psia", `"650 psia" has the unit "psia" of an absolute pressure; write the gauge pressure in MPa, bar or psi`},
		{quantity.KindTorque, "5 Nm", `"5 Nm" has the unknown unit "Nm"; write "5 N m"`},
		{quantity.KindTorque, "50 in-lb", `"50 in-lb" has the unknown unit "in-lb"; write "50 lbf in"`},
		{quantity.KindTorque, "50 lbf-in", `"50 lbf-in" has the unknown unit "lbf-in"; write "50 lbf in"`},
		{quantity.KindConductivity, "167 W/mK", `"167 W/mK" has the unknown unit "W/mK"; write "167 W/(m K)"`},
		{quantity.KindTemperature, "120 C", `"120 C" has the unknown unit "C"; write "120 °C"`},
		{quantity.KindTemperature, "120 ºC", `"120 ºC" has the unknown unit "ºC"; write "120 °C"`}, // U+00BA
		{quantity.KindTemperature, "120 ° C", `"120 ° C" has the unknown unit "° C"; write "120 °C"`},
		{quantity.KindExpansion, "1/K", `"1/K" has no number before the unit`},
		{quantity.KindRatio, "%", `"%" has no number before the unit`},
		{quantity.KindRatio, "", `"" is empty; a ratio needs a number`},
		{quantity.KindRatio, "0.10 1", `"0.10 1" is not a plain number and a unit`},

		// Absolute zero.
		{quantity.KindTemperature, "-300 °C", `"-300 °C" is below absolute zero, -273.15 °C`},
		{quantity.KindTemperature, "-273.1500001 °C", `"-273.1500001 °C" is below absolute zero, -273.15 °C`},
		{quantity.KindTemperature, "-459.68 °F", `"-459.68 °F" is below absolute zero, -459.67 °F`},
		{quantity.KindTemperature, "-1 K", `"-1 K" is below absolute zero, 0 K`},

		// Tolerances.
		{quantity.KindLength, "3 mm ±0.1", `"3 mm ±0.1" has a tolerance without a unit; write "3 ±0.1 mm"`},
		{quantity.KindLength, "3 mm +0.1/-0", `"3 mm +0.1/-0" has a tolerance without a unit; write "3 +0.1/-0 mm"`},
		{quantity.KindLength, "3 ±0.1", `"3 ±0.1" has no unit; write "3 ±0.1 mm"`},
		{quantity.KindLength, "+0.1/-0.1 mm", `"+0.1/-0.1 mm" is a tolerance without a size`},
		{quantity.KindLength, "+0.1 / -0.1 mm", `"+0.1 / -0.1 mm" is a tolerance without a size`},
		{quantity.KindLength, "±0.1 mm", `"±0.1 mm" is a tolerance without a size`},
		{quantity.KindLength, "63.5 ±-0.1 mm", `"63.5 ±-0.1 mm" has a sign after ±; write "63.5 ±0.1 mm"`},
		{quantity.KindLength, "63.5 ± +0.1 mm", `"63.5 ± +0.1 mm" has a sign after ±; write "63.5 ±0.1 mm"`},
		{quantity.KindLength, "63.5 +/-0.1 mm", `"63.5 +/-0.1 mm" has +/- for ±; write "63.5 ±0.1 mm"`},
		{quantity.KindLength, "63.5 ± mm", `"63.5 ± mm" does not begin with a number`},
		{quantity.KindLength, "63.5 mm ±0.1 in", `"63.5 mm ±0.1 in" has two units, mm and in`},
		{quantity.KindLength, "63.5 MPa ±0.1 mm", `"63.5 MPa ±0.1 mm" is a pressure; a length needs mm, in or cm`},
		{quantity.KindLength, "14 +0.2 mm", `"14 +0.2 mm" has one deviation; a tolerance needs both, as in +0.2/-0`},
		{quantity.KindLength, "14-0.2 mm", `"14-0.2 mm" has one deviation; a tolerance needs both, as in +0.2/-0`},
		{quantity.KindLength, "57 0/-0.05 mm", `"57 0/-0.05 mm" has a deviation without a sign; write "57 +0/-0.05 mm"`},
		{quantity.KindLength, "57 0/+0.05 mm", `"57 0/+0.05 mm" has a deviation without a sign; write "57 -0/+0.05 mm"`},
		{quantity.KindLength, "57 +0.1/0 mm", `"57 +0.1/0 mm" has a deviation without a sign; write "57 +0.1/-0 mm"`},
		{quantity.KindLength, "57 -0.1/0 mm", `"57 -0.1/0 mm" has a deviation without a sign; write "57 -0.1/+0 mm"`},
		{quantity.KindLength, "57 +0.1/0.05 mm", `"57 +0.1/0.05 mm" has a deviation without a sign`},
		{quantity.KindLength, "57 +0.1/ mm", `"57 +0.1/ mm" has a deviation without a sign`},
		{quantity.KindLength, "57 +0.1/- mm", `"57 +0.1/- mm" does not begin with a number`},
		{quantity.KindLength, "57 +0/–0.05 mm", `"57 +0/–0.05 mm" has '–' where "-" is due; write "57 +0/-0.05 mm"`},
		{quantity.KindLength, "14 ±0.1 ±0.2 mm", `"14 ±0.1 ±0.2 mm" has more than one tolerance`},
		{quantity.KindLength, "14 ±0.1±0.2 mm", `"14 ±0.1±0.2 mm" has more than one tolerance`},
		{quantity.KindLength, "14 ±0.1/0.2 mm", `"14 ±0.1/0.2 mm" has more than one tolerance`},
		{quantity.KindLength, "14 +0.1/-0.1/-0.2 mm", `"14 +0.1/-0.1/-0.2 mm" has more than one tolerance`},
		{quantity.KindLength, "14 ±0.1.2 mm", `"14 ±0.1.2 mm" has a tolerance that is no plain number`},
		{quantity.KindLength, "14 ±0.1 2 mm", `"14 ±0.1 2 mm" has a tolerance that is no plain number`},
		{quantity.KindPressure, "4.5 ±0.1 MPa", `"4.5 ±0.1 MPa" has a tolerance, which only a length takes: write the one value that hurts`},
		{quantity.KindPressure, "4.5 MPa ±0.1 MPa", `"4.5 MPa ±0.1 MPa" has a tolerance, which only a length takes: write the one value that hurts`},
		{quantity.KindTemperature, "120 +-5 degC", `"120 +-5 degC" has a tolerance, which only a length takes: write the one value that hurts`},
		{quantity.KindRatio, "1.5 +0.1/-0", `"1.5 +0.1/-0" has a tolerance, which only a length takes: write the one value that hurts`},
		{quantity.Kind(200), "1", `"1" is of an unknown kind`},
	} {
		var err error
		if c.kind == quantity.KindLength {
			_, err = quantity.ParseDimension(c.text)
		} else {
			_, err = quantity.Parse(c.kind, c.text)
		}
		if err == nil {
			t.Errorf("%q parses as a %s", c.text, c.kind)
			continue
		}
		if err.Error() != c.want {
			t.Errorf("%q:\n got %s\nwant %s", c.text, err, c.want)
		}
		var syntax *quantity.SyntaxError
		if !errors.As(err, &syntax) {
			t.Errorf("%q: %T", c.text, err)
		}
	}
	// An amount of length is a dimension without a tolerance.
	_, err := quantity.Parse(quantity.KindLength, "1 ±0.1 mm")
	if want := `"1 ±0.1 mm" has a tolerance, which is not taken here: write the one length that counts`; err == nil || err.Error() != want {
		t.Errorf("got %v\nwant %s", err, want)
	}
}
