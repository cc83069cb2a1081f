package table_test

import (
	"flag"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/olekukonko/tablewriter/pkg/twwidth"
	"pgregory.net/rapid"

	"casewright/cmd/casewright/internal/chart"
	"casewright/cmd/casewright/internal/table"
)

var update = flag.Bool("update", false, "write the golden plots anew")

// heating is a chart of so many lines that rise and fall.
func heating(count int) *chart.Chart {
	c := &chart.Chart{
		Title: "How hot it gets", Note: "Worst case of tolerances; it burns for 2.5 s, then soaks until all is below 60 °C.", Unit: "°C",
		Levels: []chart.Level{{Name: "rubber", Value: 200}, {Name: "bond", Value: 150}},
		Marks:  []chart.Mark{{Time: 2.5, Name: "burnout"}, {Time: 840, Name: "safe to touch"}},
	}
	for i := range count {
		s := chart.Series{Name: fmt.Sprintf("node %d of the wall", i+1)}
		late := 1.5 * math.Pow(2.5, float64(i))
		for k := range 300 {
			t := 0.01 * (math.Pow(1e5, float64(k)/299) - 1)
			s.Time = append(s.Time, t)
			s.Value = append(s.Value, 20+900/float64(i+1)*(t/late)*math.Exp(1-t/late))
		}
		c.Series = append(c.Series, s)
	}
	return c
}

func plot(t rapid.TB, c *chart.Chart, o table.Options) string {
	t.Helper()
	var b strings.Builder
	if err := table.Plot(&b, c, o); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// TestPlotGolden compares plots with those that were looked at and kept.
func TestPlotGolden(t *testing.T) {
	for name, got := range map[string]string{
		"plot-80":       plot(t, heating(4), table.Options{Width: 80}),
		"plot-60-ascii": plot(t, heating(3), table.Options{Width: 60, ASCII: true}),
		"plot-140":      plot(t, heating(12), table.Options{Width: 140}),
		"plot-colour":   plot(t, heating(2), table.Options{Width: 60, Colour: true}),
		"plot-none":     plot(t, &chart.Chart{Title: "None", Series: []chart.Series{{Name: "empty"}, {Name: "none", Time: []float64{1}, Value: []float64{math.NaN()}}}}, table.Options{Width: 80}),
	} {
		path := filepath.Join("testdata", name+".golden")
		if *update {
			if err := os.WriteFile(path, []byte(got), 0o644); err != nil {
				t.Fatal(err)
			}
			continue
		}
		want, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		if diff := cmp.Diff(string(want), got); diff != "" {
			t.Errorf("%s (-want +got):\n%s", name, diff)
		}
	}
}

// TestPlotReadsBack: in ASCII each point of a line has its letter, or the sign of
// several lines, in the row and column that the ticks of the axes tell: 1000 °C
// in the first of 20 rows and 0 °C in the last, 0 s in the first column.
func TestPlotReadsBack(t *testing.T) {
	c := heating(3)
	text := strings.Split(plot(t, c, table.Options{Width: 100, ASCII: true}), "\n")
	first := slices.IndexFunc(text, func(line string) bool { return strings.HasPrefix(line, "1000 +") })
	if first < 0 || !strings.HasPrefix(text[first+19], "   0 +") {
		t.Fatalf("no axis from 1000 to 0 in 20 rows:\n%s", strings.Join(text, "\n"))
	}
	const left = 6
	columns := len(text[first+20]) - left
	last := c.Series[0].Time[299]
	length := func(time float64) float64 {
		if time <= 0.2 {
			return time / 0.2
		}
		return 1 + math.Log(time/0.2)
	}
	for i := range c.Series {
		s := &c.Series[i]
		for k := range s.Time {
			column := left + int(math.Round(length(s.Time[k])/length(last)*float64(columns-1)))
			row := first + int(math.Round((1-s.Value[k]/1000)*19))
			if sign := text[row][column]; sign != 'a'+byte(i) && sign != '*' {
				t.Fatalf("line %d at %g s, %g °C: %q in row %d, column %d:\n%s", i, s.Time[k], s.Value[k], sign, row, column, strings.Join(text, "\n"))
			}
		}
	}
}

// TestBraille: the dots of a rising line, by the numbers that dots have in the
// Unicode Standard: 1 to 3 and 7 down the left, 4 to 6 and 8 down the right.
func TestBraille(t *testing.T) {
	text := plot(t, &chart.Chart{Linear: true, Series: []chart.Series{{Name: "up", Time: []float64{0, 1}, Value: []float64{0, 1}}}}, table.Options{Width: 60})
	rows := slices.DeleteFunc(strings.Split(text, "\n"), func(line string) bool { return !strings.ContainsAny(line, "│┤") })
	if len(rows) != 20 {
		t.Fatalf("%d rows:\n%s", len(rows), text)
	}
	count := 0
	for _, r := range text {
		if r > 0x2800 && r < 0x2900 {
			for bits := r - 0x2800; bits > 0; bits /= 2 {
				count += int(bits % 2)
			}
		}
	}
	// One dot for each column of dots, two in a character, but for those under the
	// letters of the line.
	columns := 60 - len("0.0 ┤") + len("┤") - 1 - len(" a")
	if letters := strings.Count(strings.Join(rows, ""), "a") - 1; count > 2*columns || count < 2*(columns-letters) {
		t.Errorf("%d dots in %d columns:\n%s", count, columns, text)
	}
	lower := []rune(strings.Split(rows[19], "┤")[1])
	if lower[0] != '⡠' && lower[0] != '⣀' { // dots 7 and 6, or 7 and 8
		t.Errorf("the line begins with %c:\n%s", lower[0], text)
	}
}

var escapes = regexp.MustCompile("\x1b\\[[0-9]*m")

// TestPlotKeepsWidth: whatever is plotted, no line is wider than the terminal of
// 60 to 200 columns, ASCII is ASCII, the plot has 20 rows, no name breaks a line
// or sends an escape, and colours change nothing else.
func TestPlotKeepsWidth(t *testing.T) {
	name := rapid.SampledFrom([]string{"", "wall", strings.Repeat("W", 300), "壁の温度" + strings.Repeat("温", 100), "\x1b[2J\n\r\tend", "חוץ", "a\u202Eb\xff", "𝛼"})
	number := rapid.OneOf(rapid.Float64Range(-10, 1000), rapid.Float64(), rapid.SampledFrom([]float64{math.NaN(), math.Inf(1), 0, 1e30}))
	numbers := rapid.SliceOfN(number, 0, 20)
	rapid.Check(t, func(t *rapid.T) {
		c := &chart.Chart{Title: name.Draw(t, "title"), Note: name.Draw(t, "note"), Unit: name.Draw(t, "unit"), Linear: rapid.Bool().Draw(t, "linear")}
		for range rapid.IntRange(0, 30).Draw(t, "lines") {
			c.Series = append(c.Series, chart.Series{Name: name.Draw(t, "name"), Time: numbers.Draw(t, "times"), Value: numbers.Draw(t, "values")})
		}
		for range rapid.IntRange(0, 30).Draw(t, "limits") {
			c.Levels = append(c.Levels, chart.Level{Name: name.Draw(t, "limit"), Value: number.Draw(t, "at")})
			c.Marks = append(c.Marks, chart.Mark{Name: name.Draw(t, "mark"), Time: number.Draw(t, "when")})
		}
		width := rapid.IntRange(0, 300).Draw(t, "width")
		most := max(60, min(200, width))
		fine := plot(t, c, table.Options{Width: width})
		plain := plot(t, c, table.Options{Width: width, ASCII: true})
		if got := escapes.ReplaceAllString(plot(t, c, table.Options{Width: width, Colour: true}), ""); got != fine {
			t.Fatalf("colours change it: %s", cmp.Diff(fine, got))
		}
		for _, text := range []string{fine, plain} {
			for line := range strings.Lines(text) {
				line = strings.TrimSuffix(line, "\n")
				if got := twwidth.Width(line); got > most {
					t.Fatalf("%d columns of %d: %q", got, most, line)
				}
				if strings.ContainsFunc(line, func(r rune) bool { return r < ' ' || r == 0x202E }) {
					t.Fatalf("a control: %q", line)
				}
			}
		}
		if i := strings.IndexFunc(plain, func(r rune) bool { return r > 126 }); i >= 0 {
			t.Fatalf("not ASCII: %q", plain[i:])
		}
		if rows := strings.Count(fine, "│") + strings.Count(fine, "┤"); rows != 20 {
			t.Fatalf("%d rows", rows)
		}
	})
}
