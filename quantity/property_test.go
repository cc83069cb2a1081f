package quantity_test

import (
	"math"
	"testing"

	"casewright/quantity"

	"github.com/shopspring/decimal"
	"pgregory.net/rapid"
)

// number draws a decimal as a drawing might hold it.
func number(limit int64) *rapid.Generator[decimal.Decimal] {
	return rapid.Custom(func(t *rapid.T) decimal.Decimal {
		return decimal.New(rapid.Int64Range(-limit, limit).Draw(t, "digits"), int32(rapid.IntRange(-6, 1).Draw(t, "exponent")))
	})
}

func unitOf(k quantity.Kind) *rapid.Generator[quantity.Unit] {
	return rapid.SampledFrom(quantity.Units(k))
}

func dimension() *rapid.Generator[quantity.Dimension] {
	return rapid.Custom(func(t *rapid.T) quantity.Dimension {
		lower := number(9999).Draw(t, "lower")
		upper := rapid.SampledFrom([]decimal.Decimal{lower.Neg(), {}, number(9999).Draw(t, "other")}).Draw(t, "upper")
		return quantity.NewDimension(number(99_999_999).Draw(t, "nominal"), lower, upper, unitOf(quantity.KindLength).Draw(t, "unit"))
	})
}

func amount(k quantity.Kind) *rapid.Generator[quantity.Amount] {
	return rapid.Custom(func(t *rapid.T) quantity.Amount {
		v := number(99_999_999).Draw(t, "value")
		if k == quantity.KindTemperature {
			v = v.Abs()
		}
		return quantity.NewAmount(v, unitOf(k).Draw(t, "unit"))
	})
}

func TestDimensionRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := dimension().Draw(t, "d")
		back, err := quantity.ParseDimension(d.String())
		if err != nil {
			t.Fatal(err)
		}
		if !back.Equal(d) || back.Unit() != d.Unit() {
			t.Fatalf("%s comes back as %s", d, back)
		}
		if back.String() != d.String() || back.Text() != d.String() {
			t.Fatalf("%s prints as %s", d, back)
		}
	})
}

func TestAmountRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		k := rapid.SampledFrom(everyKind()).Draw(t, "kind")
		a := amount(k).Draw(t, "a")
		back, err := quantity.Parse(k, a.String())
		if err != nil {
			t.Fatal(err)
		}
		if !back.Equal(a) || back.Unit() != a.Unit() || back.SI() != a.SI() || back.String() != a.String() {
			t.Fatalf("%s comes back as %s", a, back)
		}
	})
}

// The least size is below the nominal and the greatest above, unless both deviations have one sign.
func TestLeastNominalGreatest(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := dimension().Draw(t, "d")
		if d.Least().Cmp(d.Greatest()) > 0 {
			t.Fatalf("%s: from %s to %s", d, d.Least(), d.Greatest())
		}
		below, above := d.Least().Cmp(d.Nominal()) <= 0, d.Greatest().Cmp(d.Nominal()) >= 0
		if below != (d.Lower().Sign() <= 0) || above != (d.Upper().Sign() >= 0) {
			t.Fatalf("%s: %s, %s, %s", d, d.Least(), d.Nominal(), d.Greatest())
		}
		if e := d.Exact(); !e.Least().Equal(d.Nominal()) || !e.Greatest().Equal(d.Nominal()) || e.HasTolerance() {
			t.Fatalf("%s exact: from %s to %s", d, e.Least(), e.Greatest())
		}
	})
}

// A number of inches and 25.4 times as many millimetres are one length, exactly and as a float64.
func TestInchesAndMillimetresAgree(t *testing.T) {
	in, mm := quantity.MustUnit("in"), quantity.MustUnit("mm")
	rapid.Check(t, func(t *rapid.T) {
		v := number(99_999_999).Draw(t, "inches")
		a, b := quantity.NewAmount(v, in), quantity.NewAmount(v.Mul(dec("25.4")), mm)
		if !a.Equal(b) || a.SI() != b.SI() {
			t.Fatalf("%s is not %s", a, b)
		}
		lower, upper := number(999).Draw(t, "lower"), number(999).Draw(t, "upper")
		d := quantity.NewDimension(v, lower, upper, in)
		e := quantity.NewDimension(v.Mul(dec("25.4")), lower.Mul(dec("25.4")), upper.Mul(dec("25.4")), mm)
		if !d.Equal(e) || quantity.LengthOf(d.Least()) != quantity.LengthOf(e.Least()) {
			t.Fatalf("%s is not %s", d, e)
		}
		if float64(quantity.LengthOf(d.Nominal())) != a.SI() {
			t.Fatalf("%s as a dimension and as an amount", d)
		}
	})
}

// Cmp is an order, and the floats, each rounded once, never contradict it.
func TestCmpIsAnOrder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		k := rapid.SampledFrom(everyKind()).Draw(t, "kind")
		a, b, c := amount(k).Draw(t, "a"), amount(k).Draw(t, "b"), amount(k).Draw(t, "c")
		if a.Cmp(b) != -b.Cmp(a) || a.Cmp(a) != 0 {
			t.Fatalf("%s and %s", a, b)
		}
		if a.Cmp(b) <= 0 && b.Cmp(c) <= 0 && a.Cmp(c) > 0 {
			t.Fatalf("%s, %s, %s", a, b, c)
		}
		x, y := a.SI(), b.SI()
		if math.IsInf(x, 0) || math.IsNaN(x) {
			t.Fatalf("%s is %v", a, x)
		}
		if x < y && a.Cmp(b) >= 0 || x > y && a.Cmp(b) <= 0 || x != y && a.Equal(b) {
			t.Fatalf("%s is %v, %s is %v: Cmp %d", a, x, b, y, a.Cmp(b))
		}
		if s := a.Sign(); s != 0 && math.Signbit(x) != (s < 0) || (s == 0) != (x == 0) {
			t.Fatalf("%s has sign %d and is %v", a, s, x)
		}
		v, _ := a.Value().Float64()
		if got := a.Unit().ToSI(v); !(math.Abs(got-x) <= 1e-14*math.Abs(x)+1e-12) {
			t.Fatalf("%s: ToSI gives %v, SI %v", a, got, x)
		}
	})
}
