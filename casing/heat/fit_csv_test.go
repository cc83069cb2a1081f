package heat_test

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"casewright/casing/heat"
)

var csvEnds = []string{"nozzle", "bulk, head"}

func TestReadCourses(t *testing.T) {
	want := []heat.Course{
		{Place: at("wall_outside"), Time: []float64{-1, 0.5, 60}, Temperature: []float64{294.15, 373.15, 274.65}},
		{Place: heat.Place{Trace: "gland", End: 0}, Time: []float64{-1, 60}, Temperature: []float64{294.5, 300}},
		{Place: heat.Place{Trace: "rear", End: 1}, Time: []float64{0.5}, Temperature: []float64{373.15}},
	}
	for name, text := range map[string]string{
		"commas":     "time (s),wall_outside (°C),nozzle/gland (K),\"bulk, head/rear (°F)\"\n-1,21,294.5,\n0.5,1e2,,212\n\n60,1.5,300,\n",
		"semicolons": "\ufefftime (s); wall_outside (degC) ;nozzle/gland(K);bulk, head/rear (°F)\r\n\u22121;21;294,5;\r\n0,5;1e2; ;212\r\n;;;\r\n60;1,5;300;\r\n",
		"minutes":    "time (ms),wall_outside (°C),nozzle/gland (K),\"bulk, head/rear (°F)\"\n-1000,21.0,294.5,\n+500,100,,212\n6e4,1.5,300,",
	} {
		got, err := heat.ReadCourses(strings.NewReader(text), csvEnds)
		if err != nil {
			t.Errorf("%s: %v", name, err)
		}
		if diff := cmp.Diff(want, got, cmp.Comparer(func(a, b float64) bool { return math.Abs(a-b) < 1e-9 })); diff != "" {
			t.Errorf("%s: %s", name, diff)
		}
	}
}

// TestCSVFaults marks in each text where its fault stands, by a ¶ that is taken
// out; the faults come in this order.
func TestCSVFaults(t *testing.T) {
	header := "time (s),wall_outside (°C),bond (K)\n"
	for text, words := range map[string][]string{
		"":                     {`the file is empty; write a header as "time (s),wall_outside (°C)"`},
		"¶Time (s),bond (K)\n": {`write "time (s)"`},
		"¶time,bond (K)\n":     {`write "time (s)"`},
		"¶time (h),bond (K)\n": {`write "time (s)"`},
		"¶time (s)\n1\n":       {"no column of temperatures"},
		"time (s),bond (K),¶wall_ouside (°C),¶bond (bar),¶bond\n":   {"write one of hot_face, bond", `write "bond (°C)"`, "no unit"},
		"time (s),¶nozle/gland (K)\n":                               {"bulk, head/rear"},
		"¶time (s),bond (K)\n":                                      {"column 2 holds no reading"},
		header + "0,21.5,¶290;5\n":                                  {"is no number; write it as 21.5"},
		header + "0;21,¶5;290\n":                                    {"divide the row by commas, as the header is"},
		header + "0,21.5,290\n1,21,¶5,290,5\n":                      {"write decimals with a point"},
		"time (s);bond (°C)\n0;¶21.5\n0,5;21,5\n1;¶1.021,5\n":       {`has "." for a decimal mark; write it with ","`, "no marks between thousands"},
		header + "0,¶n/a,300\n1,¶NaN,¶Inf\n2,¶0x1p3,¶1_000\n":       {"leave the cell empty", "is no number", "is no number", "is no number", "is no number"},
		header + "0,¶-300,¶1e5\n1,¶-999,300\n":                      {"out of range", "out of range", "leave the cell empty"},
		header + "¶,21,300\n":                                       {"the row has no time"},
		header + "1,21,300\n1,21,300\n¶0.5,21,300\n2,21,300\n":      {"the time goes back, from 1 to 0.5 s"},
		header + "¶1e7,21,300\n":                                    {"at most 1e6 s"},
		header + "¶-1e7,21,300\n":                                   {"at most 1e6 s"},
		header + "0,¶2é1,300\n1,21,¶3OO\n":                          {`"2é1" is no number`, "3OO"},
		header + "0,é¶\"1\",300\n1,21,¶x\n":                         {"a quotation mark", "is no number"},
		"time (s),bond (K)\n¶0,\"300\n1,301\n":                      {"a quotation mark"},
		"time (s),¶\"é\",bond (K)\n":                                {`"é" is no place`},
		"time (s),bond (¶\xb0C)\n0,21\n":                            {"this is not UTF-8; save the file as CSV in UTF-8"},
		header + strings.Repeat("0,¶x,¶y\n", 10) + "0,x,y\n0,x,y\n": slices.Repeat([]string{"is no number"}, heat.MostCSVFaults),
	} {
		var wanted []string
		line, column := 1, 1
		for _, r := range text {
			switch r {
			case '¶':
				wanted = append(wanted, fmt.Sprintf("%d:%d: ", line, column))
				continue
			case '\n':
				line, column = line+1, 0
			}
			column++
		}
		plain := strings.ReplaceAll(text, "¶", "")
		_, err := heat.ReadCourses(strings.NewReader(plain), csvEnds)
		var faults heat.CSVFaults
		if !errors.As(err, &faults) {
			t.Errorf("%q: %v", plain, err)
			continue
		}
		if len(faults) != len(words) {
			t.Errorf("%q: %d faults, want %d:\n%v", plain, len(faults), len(words), err)
			continue
		}
		for i, one := range faults {
			if wanted != nil && !strings.HasPrefix(one.Error(), wanted[i]) || !strings.Contains(one.Error(), words[i]) {
				t.Errorf("%q: got %s\nwant %s…%s", plain, one, wanted, words[i])
			}
		}
	}
}

// TestCSVBounds: what is too much is refused.
func TestCSVBounds(t *testing.T) {
	for name, text := range map[string]string{
		"16 MB":          "time (s),bond (K)\n" + strings.Repeat(" ", heat.MostCSVBytes),
		"a million rows": "time (s),bond (K)\n" + strings.Repeat("1,300\n", heat.MostCSVRows+1),
		"101 columns":    "time (s)" + strings.Repeat(",bond (K)", heat.MostCSVColumns) + "\n",
	} {
		if _, err := heat.ReadCourses(strings.NewReader(text), nil); err == nil || !strings.Contains(err.Error(), name) {
			t.Errorf("%s: %v", name, err)
		}
	}
	if list, err := heat.ReadCourses(strings.NewReader("time (s),bond (K)\n"+strings.Repeat("1,300\n", heat.MostCSVRows)), nil); err != nil || len(list[0].Time) != heat.MostCSVRows {
		t.Error(err)
	}
}

type brokenReader struct{}

func (brokenReader) Read([]byte) (int, error) { return 0, errors.New("no such disk") }

func TestCSVReader(t *testing.T) {
	if _, err := heat.ReadCourses(brokenReader{}, nil); err == nil || err.Error() != "no such disk" {
		t.Error(err)
	}
}

// FuzzReadCourses: what is read can be fitted as far as its courses go, and what
// is not names places within the text.
func FuzzReadCourses(f *testing.F) {
	for _, text := range []string{
		"time (s),wall_outside (°C),nozzle/gland (K)\n0,21.3,294.5\n0.5,21.4,\n", "time (min);bond (°F)\n0;70,5\n\n1;\"71\"\n",
		"time (s),bond (K)\n1,2,3\n0,\"\n\xff", "\ufefftime (s),\"a\nb\"\n", "time (s);bond (K)\n\r\n1;1.5\n", "time (s),bond (K)\n\"\n0\",300\n1,x",
	} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		list, err := heat.ReadCourses(strings.NewReader(text), csvEnds)
		if err != nil {
			var faults heat.CSVFaults
			if !errors.As(err, &faults) || len(faults) == 0 || len(faults) > heat.MostCSVFaults || list != nil {
				t.Fatalf("%v", err)
			}
			lines := strings.Split(text, "\n")
			for _, one := range faults {
				if one.Line < 0 || one.Line > len(lines) || one.Line > 0 && (one.Column < 1 || one.Column > len(lines[one.Line-1])+1) || one.Why == "" || one.Write == "" {
					t.Fatalf("%q: %d:%d is not there: %v", text, one.Line, one.Column, one)
				}
			}
			return
		}
		if len(list) == 0 {
			t.Fatal("no courses")
		}
		for _, c := range list {
			if len(c.Time) == 0 || len(c.Time) != len(c.Temperature) || !slices.IsSorted(c.Time) || slices.ContainsFunc(c.Temperature, func(x float64) bool { return !(x >= 100 && x <= 5000) }) {
				t.Fatalf("%+v", c)
			}
		}
	})
}
