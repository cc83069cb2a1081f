package seal_test

import (
	"encoding/csv"
	"fmt"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"
	"unicode"

	"pgregory.net/rapid"

	"casewright/quantity"
	"casewright/seal"
	"casewright/verification"
	"casewright/verification/held"
)

func ExampleLookupRing() {
	r, ok := seal.LookupRing("as568 137")
	fmt.Println(r.Name, ok)
	fmt.Println("inside", r.InsideDimension())
	fmt.Println("section", r.SectionDimension())
	fmt.Printf("%.2f x %.2f mm\n", quantity.LengthOf(r.Inside)/quantity.Millimetre, quantity.LengthOf(r.Section)/quantity.Millimetre)
	// Output:
	// AS568-137 true
	// inside 2.050 ±0.017 in
	// section 0.103 ±0.003 in
	// 52.07 x 2.62 mm
}

// TestRingsPublished holds the rings against printed tables. The source of
// each number stands in its row; those marked memory were not looked up.
func TestRingsPublished(t *testing.T) {
	held.Table(t, "rings_published.csv", held.Also{
		// Every ring of the series has this tolerance, and this section.
		"section tolerance": func(t *testing.T, c *verification.Case) {
			section, err := quantity.ParseDimension(c.Text("section"))
			if err != nil {
				t.Fatal(err)
			}
			for _, r := range seal.Rings() {
				if float64(r.Series) != c.Of("series") {
					continue
				}
				if !c.Holds(float64(quantity.LengthOf(r.SectionTolerance))) || !r.Section.Equal(section.Nominal()) {
					t.Errorf("%s: section %v", r.Name, r.SectionDimension())
				}
			}
		},
	})
}

// TestRingTable holds the table against slips: in order, one section in each
// series, dash numbers without a gap, tolerances that grow with size.
func TestRingTable(t *testing.T) {
	list, names := seal.Rings(), seal.RingNames()
	if len(list) != 236 || len(names) != 236 {
		t.Fatalf("%d rings, %d names; want 236", len(list), len(names))
	}
	for i, r := range list {
		if names[i] != r.Name || !strings.HasPrefix(r.Name, "AS568-") {
			t.Errorf("%s under the name %s", r.Name, names[i])
		}
		dash, err := strconv.Atoi(r.Name[len("AS568-"):])
		if err != nil {
			t.Fatal(err)
		}
		if dash/100*100 != r.Series {
			t.Errorf("%s in series %d", r.Name, r.Series)
		}
		if i == 0 || list[i-1].Series < r.Series {
			continue
		}
		last := list[i-1]
		switch {
		case last.Series != r.Series, last.Name != fmt.Sprintf("AS568-%03d", dash-1):
			t.Errorf("%s after %s", r.Name, last.Name)
		case !r.Inside.GreaterThan(last.Inside):
			t.Errorf("%s: inside %v, not more than %v", r.Name, r.InsideDimension(), last.InsideDimension())
		case r.InsideTolerance.LessThan(last.InsideTolerance):
			t.Errorf("%s: inside %v, closer than %v", r.Name, r.InsideDimension(), last.InsideDimension())
		case !r.Section.Equal(last.Section), !r.SectionTolerance.Equal(last.SectionTolerance):
			t.Errorf("%s: section %v, not %v", r.Name, r.SectionDimension(), last.SectionDimension())
		}
	}
}

// TestRingNominal holds each inside diameter against the size it is named
// for, a multiple of 1/32 in, less a constant of its series: 0.011, 0.013,
// 0.016, 0.025 and 0.025 in. Common practice of size charts, from memory; the
// two smallest rings here are the exceptions.
func TestRingNominal(t *testing.T) {
	less := map[int]float64{0: 0.011, 100: 0.013, 200: 0.016, 300: 0.025, 400: 0.025}
	for _, r := range seal.Rings() {
		if r.Name == "AS568-004" || r.Name == "AS568-005" {
			continue
		}
		parts := (float64(quantity.LengthOf(r.Inside)/quantity.Inch) + less[r.Series]) * 32
		if off := math.Abs(parts-math.Round(parts)) / 32; !(off < 0.00105) {
			t.Errorf("%s: inside %v is %.4f in off a 32nd", r.Name, r.InsideDimension(), off)
		}
	}
}

func TestLookupRing(t *testing.T) {
	for text, want := range map[string]string{
		"AS568-137": "AS568-137", "as568-137": "AS568-137", "AS568 137": "AS568-137", "AS568 -137": "AS568-137", "-137": "AS568-137", "137": "AS568-137",
		" 1 3 7 ": "AS568-137", "AS568–137": "AS568-137", "−137": "AS568-137", "-010": "AS568-010", "425": "AS568-425",

		"": "", "-": "", "AS568": "", "AS568-": "", "10": "", "-10": "", "AS568-1370": "", "--137": "", "0137": "", "+137": "", "1e2": "", "999": "", "AS568-101": "", "2-137": "",
	} {
		got, ok := seal.LookupRing(text)
		if got.Name != want || ok != (want != "") {
			t.Errorf("LookupRing(%q) = %q, %v; want %q", text, got.Name, ok, want)
		}
	}
}

// TestLookupAnyhow spells rings and compounds with other case and blanks.
func TestLookupAnyhow(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		name := rapid.SampledFrom(seal.RingNames()).Draw(t, "ring")
		text := respelt(t, strings.TrimPrefix(name, rapid.SampledFrom([]string{"", "AS568", "AS568-"}).Draw(t, "less")))
		if got, ok := seal.LookupRing(text); !ok || got.Name != name {
			t.Fatalf("LookupRing(%q) = %q, %v; want %q", text, got.Name, ok, name)
		}
		name = rapid.SampledFrom(seal.CompoundNames()).Draw(t, "compound")
		text = respelt(t, name)
		if got, ok := seal.LookupCompound(text); !ok || got.Name != name {
			t.Fatalf("LookupCompound(%q) = %q, %v; want %q", text, got.Name, ok, name)
		}
	})
}

// respelt draws another case and more blanks.
func respelt(t *rapid.T, text string) string {
	var b strings.Builder
	for _, r := range text {
		if rapid.Bool().Draw(t, "blank") {
			b.WriteString(rapid.SampledFrom([]string{" ", "\t", "\u00a0", "\u202f"}).Draw(t, "which"))
		}
		if rapid.Bool().Draw(t, "upper") {
			b.WriteRune(unicode.ToUpper(r))
		} else {
			b.WriteRune(unicode.ToLower(r))
		}
	}
	return b.String()
}

// TestTablesNameSources reads every table as it stands.
func TestTablesNameSources(t *testing.T) {
	for _, file := range []string{"rings.csv", "compounds.csv", "../testdata/reference/rings_published.csv"} {
		for _, row := range csvRows(t, file) {
			if row["source"] == "" {
				t.Errorf("%s: no source: %v", file, row)
			}
			switch status := row["status"]; {
			case status == "seen" || status == "memory":
			case file == "rings.csv" && status == "diameter seen, tolerance memory":
			default:
				t.Errorf("%s: status %q: %v", file, status, row)
			}
		}
	}
}

// csvRows reads a table with a header, each row by column name.
func csvRows(t *testing.T, file string) []map[string]string {
	t.Helper()
	f, err := os.Open(file)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	all, err := r.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var rows []map[string]string
	for _, record := range all[1:] {
		row := map[string]string{}
		for i, column := range all[0] {
			row[column] = record[i]
		}
		rows = append(rows, row)
	}
	if len(rows) == 0 {
		t.Fatalf("%s is empty", file)
	}
	return rows
}

func FuzzLookupRing(f *testing.F) {
	for _, seed := range append(seal.RingNames(), "-137", "137", "as568 137", "AS568", "\xff", "−137") {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, text string) {
		r, ok := seal.LookupRing(text)
		if !ok {
			if r.Name != "" {
				t.Errorf("%q: not found, and yet %s", text, r.Name)
			}
			return
		}
		if again, ok := seal.LookupRing(r.Name); !ok || again.Name != r.Name {
			t.Errorf("%q is %s, which is %q, %v", text, r.Name, again.Name, ok)
		}
	})
}
