package fastener_test

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

	"casewright/fastener"
	"casewright/quantity"
	"casewright/verification/held"
)

func ExampleLookupThread() {
	t, ok := fastener.LookupThread("#10-32")
	fmt.Println(t.Name, ok)
	fmt.Printf("d = %.3f mm\n", quantity.LengthOf(t.Diameter)/quantity.Millimetre)
	fmt.Printf("A_s = %.4f in²\n", t.StressArea()/quantity.SquareInch)
	// Output:
	// 10-32 UNF true
	// d = 4.826 mm
	// A_s = 0.0200 in²
}

func ExampleThread_StressArea() {
	t, _ := fastener.LookupThread("M5")
	fmt.Printf("%s: %.1f mm²\n", t.Name, t.StressArea()/quantity.SquareMillimetre)
	// Output: M5x0.8: 14.2 mm²
}

// TestThreadsPublished holds threads and classes against printed tables. The
// source of each number stands in its row.
func TestThreadsPublished(t *testing.T) { held.Table(t, "threads_published.csv", nil) }

// TestThreadTable holds the table against slips.
func TestThreadTable(t *testing.T) {
	list := fastener.Threads()
	if len(list) != len(fastener.ThreadNames()) || len(list) < 40 {
		t.Fatalf("%d threads, %d names", len(list), len(fastener.ThreadNames()))
	}
	seen := map[string]bool{}
	coarse := map[string]int{}
	for i, th := range list {
		if seen[th.Name] {
			t.Errorf("%s twice", th.Name)
		}
		seen[th.Name] = true
		if th.Metric != th.Pitch.IsPositive() || th.Metric != (th.ThreadsPerInch == 0) {
			t.Errorf("%s: pitch %v m and %d threads an inch", th.Name, th.Pitch, th.ThreadsPerInch)
		}
		if got := designation(th); got != th.Name {
			t.Errorf("%s: its sizes say %s", th.Name, got)
		}
		diameter := fmt.Sprint(th.Metric, th.Diameter)
		if th.Coarse {
			coarse[diameter]++
		}
		if coarse[diameter] != 1 {
			t.Errorf("%s: %d coarse threads of its diameter so far", th.Name, coarse[diameter])
		}
		core, stress, shank := th.CoreArea(), th.StressArea(), th.ShankArea()
		if !(0 < core && core < stress && stress < shank) {
			t.Errorf("%s: areas %g, %g, %g", th.Name, core, stress, shank)
		}
		if i == 0 || list[i-1].Metric != th.Metric {
			continue
		}
		switch last := list[i-1]; last.Diameter.Cmp(th.Diameter) {
		case 1:
			t.Errorf("%s after %s", th.Name, last.Name)
		case 0:
			if stress <= last.StressArea() {
				t.Errorf("%s is not finer than %s", th.Name, last.Name)
			}
		}
	}
}

// designation names a thread from its sizes: the numbered ones are #n with
// D = 0.060 + 0.013 n in (ASME B1.1), the others fractions of an inch.
func designation(th fastener.Thread) string {
	if th.Metric {
		return fmt.Sprintf("M%sx%s", th.Diameter.Shift(3), th.Pitch.Shift(3))
	}
	series := " UNF"
	if th.Coarse {
		series = " UNC"
	}
	inches := float64(quantity.LengthOf(th.Diameter) / quantity.Inch)
	size := strconv.FormatFloat(math.Round((inches-0.060)/0.013*1e6)/1e6, 'g', -1, 64)
	if inches >= 0.25 {
		over, under := math.Round(inches*16*1e6)/1e6, 16
		for math.Mod(over, 2) == 0 {
			over, under = over/2, under/2
		}
		size = fmt.Sprintf("%v/%d", over, under)
	}
	return fmt.Sprintf("%s-%d%s", size, th.ThreadsPerInch, series)
}

func TestLookupThread(t *testing.T) {
	for text, want := range map[string]string{
		"M5x0.8": "M5x0.8", "M5×0.8": "M5x0.8", "m5 x 0.8": "M5x0.8", "M5": "M5x0.8", "M5 X .80": "M5x0.8", "M6x1.0": "M6x1",
		"M8": "M8x1.25", "M8x1": "M8x1", "M2.5": "M2.5x0.45", "M10": "M10x1.5", "M12": "M12x1.75",
		"10-32 UNF": "10-32 UNF", "10-32": "10-32 UNF", "#10-32 UNF": "10-32 UNF", "# 10 - 32 unf": "10-32 UNF", "10–24": "10-24 UNC",
		"1/4-20 UNC": "1/4-20 UNC", "1/4-20": "1/4-20 UNC", "1/2-20unf": "1/2-20 UNF", "6-32": "6-32 UNC",

		"": "", "M": "", "M5x": "", "M5x1": "", "M50": "", "Mx0.8": "", "5x0.8": "", "M5,0x0,8": "", "10": "", "1/4": "", "10-32 UNC": "", "10-20": "", "-": "", "#": "",
	} {
		got, ok := fastener.LookupThread(text)
		if got.Name != want || ok != (want != "") {
			t.Errorf("LookupThread(%q) = %q, %v; want %q", text, got.Name, ok, want)
		}
	}
}

// TestLookupAnyhow spells every thread and class with other case and blanks.
func TestLookupAnyhow(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		name := rapid.SampledFrom(fastener.ThreadNames()).Draw(t, "thread")
		text := respelt(t, strings.ReplaceAll(name, "x", rapid.SampledFrom([]string{"x", "×"}).Draw(t, "by")))
		if got, ok := fastener.LookupThread(text); !ok || got.Name != name {
			t.Fatalf("LookupThread(%q) = %q, %v; want %q", text, got.Name, ok, name)
		}
		name = rapid.SampledFrom(fastener.ClassNames()).Draw(t, "class")
		text = respelt(t, name)
		if got, ok := fastener.LookupClass(text); !ok || got.Name != name {
			t.Fatalf("LookupClass(%q) = %q, %v; want %q", text, got.Name, ok, name)
		}
	})
}

// respelt draws another case and more or fewer blanks.
func respelt(t *rapid.T, text string) string {
	var b strings.Builder
	for _, r := range text {
		if rapid.Bool().Draw(t, "blank") {
			b.WriteString(rapid.SampledFrom([]string{" ", "\t", "\u00a0", "\u202f"}).Draw(t, "which"))
		}
		switch {
		case r == ' ':
		case rapid.Bool().Draw(t, "upper"):
			b.WriteRune(unicode.ToUpper(r))
		default:
			b.WriteRune(unicode.ToLower(r))
		}
	}
	return b.String()
}

// TestTablesNameSources reads every table as it stands.
func TestTablesNameSources(t *testing.T) {
	for _, file := range []string{"threads.csv", "classes.csv", "steel_at_temperature.csv", "../testdata/reference/threads_published.csv"} {
		for _, row := range csvRows(t, file) {
			found := 0
			for column, text := range row {
				switch {
				case strings.HasSuffix(column, "source"):
					found++
					if text == "" {
						t.Errorf("%s: no source: %v", file, row)
					}
				case strings.HasSuffix(column, "status"):
					found++
					if text != "seen" && text != "memory" {
						t.Errorf("%s: status %q: %v", file, text, row)
					}
				}
			}
			if found < 2 {
				t.Errorf("%s: no columns of source and status", file)
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

func FuzzLookupThread(f *testing.F) {
	for _, seed := range append(fastener.ThreadNames(), "M5", "#10-32", "m.5", "M5x", "1/4-20", "×", "M5×0.8", "\xff", "−") {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, text string) {
		th, ok := fastener.LookupThread(text)
		if !ok {
			if th.Name != "" {
				t.Errorf("%q: not found, and yet %s", text, th.Name)
			}
			return
		}
		if again, ok := fastener.LookupThread(th.Name); !ok || again.Name != th.Name {
			t.Errorf("%q is %s, which is %q, %v", text, th.Name, again.Name, ok)
		}
	})
}
