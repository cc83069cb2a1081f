package quantity_test

import (
	"testing"

	"casewright/quantity"

	"github.com/shopspring/decimal"
)

func dec(s string) decimal.Decimal { return decimal.RequireFromString(s) }

func mustDimension(t *testing.T, text string) quantity.Dimension {
	t.Helper()
	d, err := quantity.ParseDimension(text)
	if err != nil {
		t.Fatal(err)
	}
	return d
}

func TestUnset(t *testing.T) {
	var d quantity.Dimension
	if d.IsSet() || d.HasTolerance() || d.String() != "" || d.Text() != "" || !d.Nominal().IsZero() {
		t.Errorf("the zero Dimension is %v", d)
	}
	for name, other := range map[string]quantity.Dimension{
		"WithNominal":             d.WithNominal(dec("1")),
		"WithDeviations":          d.WithDeviations(dec("-1"), dec("1")),
		"Exact":                   d.Exact(),
		"NewDimension of seconds": quantity.NewDimension(dec("1"), dec("0"), dec("0"), quantity.MustUnit("s")),
		"NewDimension of no unit": quantity.NewDimension(dec("1"), dec("0"), dec("0"), quantity.Unit{}),
	} {
		if other.IsSet() || other.String() != "" {
			t.Errorf("%s of an unset dimension is %v", name, other)
		}
	}
	var a quantity.Amount
	if a.IsSet() || a.String() != "" || a.Text() != "" || a.SI() != 0 || a.Sign() != 0 {
		t.Errorf("the zero Amount is %v", a)
	}
	ratio := quantity.NewAmount(dec("-5"), quantity.Unit{})
	if a.Cmp(quantity.Amount{}) != 0 || a.Cmp(ratio) != -1 || ratio.Cmp(a) != 1 {
		t.Error("an unset amount does not come first")
	}
	if mustDimension(t, "0 mm").Equal(d) {
		t.Error("0 mm equals an unset dimension")
	}
}

func TestDimensionParts(t *testing.T) {
	d := mustDimension(t, "57.0 +0/-0.05 mm")
	if !d.Least().Equal(dec("0.05695")) || !d.Greatest().Equal(dec("0.057")) {
		t.Errorf("from %s to %s", d.Least(), d.Greatest())
	}
	for _, c := range []struct {
		got  quantity.Dimension
		want string
	}{
		{d.Exact(), "57.0 mm"},
		{d.WithNominal(dec("0.0634")), "63.4 +0/-0.05 mm"},
		{d.WithDeviations(dec("-0.0001"), dec("0.0001")), "57.0 ±0.1 mm"},
		{d.WithDeviations(dec("0.0001"), dec("-0.0002")), "57.0 +0.1/-0.2 mm"},
		{quantity.NewDimension(dec("14.2"), dec("0.2"), dec("-0.2"), quantity.MustUnit("mm")), "14.2 ±0.2 mm"},
	} {
		if c.got.String() != c.want {
			t.Errorf("got %q, want %q", c.got, c.want)
		}
		if c.got.Text() != "" {
			t.Errorf("%q remembers the text %q", c.got, c.got.Text())
		}
		if !c.got.Equal(mustDimension(t, c.want)) {
			t.Errorf("%q is read back as another dimension", c.want)
		}
		if c.got.Unit() != d.Unit() {
			t.Errorf("unit %s", c.got.Unit().Symbol())
		}
	}
	if d.Equal(d.Exact()) || d.Equal(d.WithNominal(dec("0.058"))) || !d.Equal(mustDimension(t, "57 -0.05/+0 mm")) {
		t.Error("Equal")
	}
}

// A length that does not end in inches is printed to six places; everything that was written in inches ends.
func TestDimensionThatDoesNotEnd(t *testing.T) {
	inch := mustDimension(t, "1.00 ±0.01 in")
	for _, c := range []struct {
		metres, want string
	}{
		{"0.001", "0.03937 ±0.01 in"}, // 1/25.4 = 0.0393700787…
		{"0.002", "0.07874 ±0.01 in"}, // 2/25.4 = 0.0787401575…
		{"0.005", "0.19685 ±0.01 in"}, // 5/25.4 = 0.1968503937…
		{"0.007", "0.275591 ±0.01 in"},
		{"0.0000000001", "0 ±0.01 in"},
		{"-0.001", "-0.03937 ±0.01 in"},
		{"0.0127", "0.5 ±0.01 in"},
		{"0.01270000", "0.5000 ±0.01 in"},
	} {
		if got := inch.WithNominal(dec(c.metres)).String(); got != c.want {
			t.Errorf("%s m: %q, want %q", c.metres, got, c.want)
		}
	}
	if got := inch.WithDeviations(dec("-0.000000001"), dec("0.0001")).String(); got != "1.00 +0.003937/-0 in" {
		t.Errorf("got %q", got)
	}
}

// 1500 psi is the top of the second band of a table of gaps that is compared in psi: the comparisons have to be exact there.
func TestAmountCmp(t *testing.T) {
	amount := func(k quantity.Kind, text string) quantity.Amount {
		a, err := quantity.Parse(k, text)
		if err != nil {
			t.Fatal(err)
		}
		return a
	}
	for _, c := range []struct {
		kind quantity.Kind
		a, b string
		want int
	}{
		{quantity.KindPressure, "1500 psi", "1500 psi", 0},
		{quantity.KindPressure, "1500 psi", "1.5 ksi", 0},
		{quantity.KindPressure, "1500.000000000000000001 psi", "1.5 ksi", 1},
		{quantity.KindPressure, "10342135.939753 Pa", "1500 psi", 1},  // psi is 6894.757293168361… Pa in tables that print 16 digits
		{quantity.KindPressure, "10342135.939752 Pa", "1500 psi", -1}, // 1500 times that is 10342135.9397525…
		{quantity.KindPressure, "10.342136 MPa", "1500 psi", 1},       // as a table would round it
		{quantity.KindPressure, "45 bar", "4.5 MPa", 0},
		{quantity.KindPressure, "-1 psi", "0 MPa", -1},
		{quantity.KindTemperature, "212 °F", "100 °C", 0}, // the boiling point in both
		{quantity.KindTemperature, "212.000001 °F", "100 °C", 1},
		{quantity.KindTemperature, "-40 °F", "-40 °C", 0}, // where the two scales cross
		{quantity.KindTemperature, "32 °F", "273.15 K", 0},
		{quantity.KindTemperatureDifference, "18 °F", "10 °C", 0},
		{quantity.KindLength, "2 1/2 in", "63.5 mm", 0},
		{quantity.KindLength, "63.5000000000000000001 mm", "2.5 in", 1},
		{quantity.KindAngle, "180°", "3.14159265358979 rad", 1},
		{quantity.KindAngle, "180°", "3.14159265358980 rad", -1},
		{quantity.KindExpansion, "10 /°F", "18 /K", 0},
		{quantity.KindDensity, "2.7 g/cm3", "2700 kg/m3", 0},
		{quantity.KindRatio, "10 %", "0.1", 0},
	} {
		a, b := amount(c.kind, c.a), amount(c.kind, c.b)
		if got := a.Cmp(b); got != c.want {
			t.Errorf("%s against %s: %d, want %d", c.a, c.b, got, c.want)
		}
		if got := b.Cmp(a); got != -c.want {
			t.Errorf("%s against %s: %d, want %d", c.b, c.a, got, -c.want)
		}
		if a.Equal(b) != (c.want == 0) {
			t.Errorf("%s equals %s: %t", c.a, c.b, a.Equal(b))
		}
	}
	if amount(quantity.KindTemperature, "5 K").Cmp(amount(quantity.KindTemperatureDifference, "5 K")) == 0 {
		t.Error("a temperature equals a difference")
	}
	for text, want := range map[string]int{"-10 °C": 1, "0 °F": 1, "-273.15 °C": 0, "0 K": 0} {
		if got := amount(quantity.KindTemperature, text).Sign(); got != want {
			t.Errorf("%s has sign %d", text, got)
		}
	}
	if amount(quantity.KindPressure, "-1 psi").Sign() != -1 || amount(quantity.KindPressure, "0 psi").Sign() != 0 {
		t.Error("sign of a pressure")
	}
}

// The decimal in SI is exact where it ends; a third of a kelvin does not, and is rounded far below any float64.
func TestExactSI(t *testing.T) {
	for _, c := range []struct {
		kind       quantity.Kind
		text, want string
	}{
		{quantity.KindLength, "2 1/2 in", "0.0635"},
		{quantity.KindRatio, "2.5 %", "0.025"},
		{quantity.KindTemperature, "20 °C", "293.15"},
		{quantity.KindTemperature, "212 °F", "373.15"},
		{quantity.KindTemperatureDifference, "3 °F", "1.666666666666666666666666666667"},
		{quantity.KindForce, "1 lbf", "4.4482216152605"},
	} {
		a, err := quantity.Parse(c.kind, c.text)
		if err != nil || !a.ExactSI().Equal(dec(c.want)) {
			t.Errorf("%s: %s, want %s, %v", c.text, a.ExactSI(), c.want, err)
		}
	}
	if !(quantity.Amount{}).ExactSI().IsZero() {
		t.Error("an unset amount is not 0")
	}
}
