package materials_test

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"casewright/margin"
	"casewright/materials"
	"casewright/quantity"
)

// A published row is a number from outside the project. Its inputs say what of
// ours it belongs to, and how the two compare:
//
//	is        equal, within the tolerance
//	near      not above by more than rounding, not below by more than the tolerance
//	at most   ours is no higher, and no less than half
//	at least  ours is no lower, and no more than double
//	refused   ours gives no number there
type published struct {
	id, value, unit  string
	tolerance        float64
	material, curve  string
	property         materials.Property
	temperature      quantity.Temperature
	of, relation     string
	source, standing string
}

func readPublished(t *testing.T) []published {
	t.Helper()
	f, err := os.Open("../testdata/reference/materials_published.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close() //nolint:errcheck // only read
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	const header = "id,quantity,inputs,value,unit,tolerance_rel,source,where_in_source,status,note"
	if got := strings.Join(rows[0], ","); got != header {
		t.Fatalf("header %q", got)
	}
	keys := map[string]materials.Property{}
	for p := range materials.NumProperties {
		keys[p.Key()] = p
	}
	var list []published
	for i, row := range rows[1:] {
		p := published{id: row[0], value: row[3], unit: row[4], source: row[6], standing: row[8], temperature: quantity.Celsius(20)}
		if p.tolerance, err = strconv.ParseFloat(row[5], 64); err != nil {
			t.Fatalf("row %d: %v", i+2, err)
		}
		for input := range strings.SplitSeq(row[2], "; ") {
			key, value, _ := strings.Cut(input, "=")
			switch key {
			case "material":
				p.material = value
			case "curve":
				p.curve = value
			case "property":
				property, ok := keys[value]
				if !ok {
					t.Fatalf("row %d: no property %q", i+2, value)
				}
				p.property = property
			case "T":
				p.temperature = quantity.Temperature(amount(t, quantity.KindTemperature, value))
			case "of":
				p.of = value
			case "table":
				p.relation = value
			default:
				t.Fatalf("row %d: no input %q", i+2, key)
			}
		}
		list = append(list, p)
	}
	return list
}

func amount(t *testing.T, k quantity.Kind, text string) float64 {
	t.Helper()
	a, err := quantity.Parse(k, text)
	if err != nil {
		t.Fatal(err)
	}
	return a.SI()
}

// ours reads our number for the row.
func (p published) ours(t *testing.T) materials.Reading {
	t.Helper()
	if p.curve != "" {
		r, ok := materials.Curve(p.curve)
		if !ok {
			t.Fatalf("no curve %q", p.curve)
		}
		return r.At(p.property, p.temperature)
	}
	m, ok := materials.Lookup(p.material)
	if !ok {
		t.Fatalf("no material %q", p.material)
	}
	return m.At(p.property, p.temperature)
}

// theirs reads the published number, or its ratio to the one at 20 °C.
func (p published) theirs(t *testing.T) float64 {
	t.Helper()
	text := p.value + " " + p.unit
	if p.unit == "1" {
		return amount(t, quantity.KindRatio, p.value)
	}
	x := amount(t, p.property.Kind(), text)
	if p.of != "" {
		x /= amount(t, p.property.Kind(), p.of)
	}
	return x
}

// TestPublished compares the tables with numbers from outside, each with its
// source in testdata/reference/materials_published.csv.
func TestPublished(t *testing.T) {
	const rounding = 1e-9
	for _, p := range readPublished(t) {
		if p.source == "" || p.standing != materials.Seen && p.standing != materials.Memory {
			t.Errorf("%s: source %q, status %q", p.id, p.source, p.standing)
		}
		ours, theirs := p.ours(t), p.theirs(t)
		ratio := ours.SI / theirs
		var good bool
		switch p.relation {
		case "is":
			good = math.Abs(ratio-1) <= p.tolerance+rounding
		case "near":
			good = ratio <= 1+0.003 && ratio >= 1-p.tolerance
		case "at most":
			good = ratio <= 1+rounding && ratio >= 0.5
		case "at least":
			good = ratio >= 1-rounding && ratio <= 2
		case "refused":
			good = ours.Reason == margin.Temperature && math.IsNaN(ours.SI)
		default:
			t.Errorf("%s: no relation %q", p.id, p.relation)
		}
		if !good {
			t.Errorf("%s: %s%s %s at %.0f °C: ours %g, published %g, which ours must %q (%s)",
				p.id, p.material, p.curve, p.property.Key(), p.temperature.Celsius(), ours.SI, theirs, p.relation, p.source)
		}
	}
}

// TestSheetScaled holds that the shear and bearing strengths of 6061-T6 stand
// to its tensile strengths no higher than in the handbook's sheet, and no more
// than 6 % lower. MIL-HDBK-5J Table 3.6.2.0(b1), seen in a secondary copy:
// 42 and 35 ksi in tension, 27 in shear, 67 and 88, 50 and 58 in bearing.
func TestSheetScaled(t *testing.T) {
	for _, name := range []string{"6061-T6 drawn tube", "6061-T6 extruded tube", "6061-T6 bar"} {
		m, _ := materials.Lookup(name)
		for _, c := range []struct {
			p, of       materials.Property
			sheet, base float64 // ksi
		}{
			{materials.Shear, materials.Ultimate, 27, 42},
			{materials.BearingUltimate15, materials.Ultimate, 67, 42},
			{materials.BearingUltimate2, materials.Ultimate, 88, 42},
			{materials.BearingYield15, materials.Yield, 50, 35},
			{materials.BearingYield2, materials.Yield, 58, 35},
		} {
			a, _ := m.Value(c.p)
			b, _ := m.Value(c.of)
			if got := a.SI / b.SI / (c.sheet / c.base); !(got <= 1 && got >= 0.94) {
				t.Errorf("%s %s: %.4f of the sheet's share of %s", name, c.p.Key(), got, c.of.Key())
			}
		}
	}
}
