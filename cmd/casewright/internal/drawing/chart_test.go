package drawing_test

import (
	"bytes"
	"encoding/xml"
	"errors"
	"io"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"casewright/cmd/casewright/internal/chart"
	"casewright/cmd/casewright/internal/drawing"
)

// heating is a chart of so many lines that rise and fall, at 60 times, with two
// limits and two marks.
func heating(count int) *chart.Chart {
	c := &chart.Chart{
		Title: "How hot it gets", Note: "Worst case of tolerances.", Unit: "°C",
		Levels: []chart.Level{{Name: "rubber", Value: 200}, {Name: "bond", Value: 150}},
		Marks:  []chart.Mark{{Time: 2.5, Name: "burnout"}, {Time: 840, Name: "safe to touch"}},
	}
	for i := range count {
		s := chart.Series{Name: "node " + strconv.Itoa(i+1)}
		late := 1.5 * math.Pow(1.7, float64(i))
		for k := range 60 {
			t := 0.01 * (math.Pow(1e5, float64(k)/59) - 1)
			s.Time = append(s.Time, t)
			s.Value = append(s.Value, 20+900/float64(i+1)*(t/late)*math.Exp(1-t/late))
		}
		c.Series = append(c.Series, s)
	}
	return c
}

// names are such as a design may hold, and worse.
var names = []string{"", "wall", "wall", "hot face of the liner", hostile, strings.Repeat("W", 80), strings.Repeat("W<&>\"ש", 400), "חוץ 12 (a)", "حرارة الجدار", "a\u202Eb", "‱‱‱‱‱‱‱‱‱‱‱‱‱‱‱‱‱‱‱‱‱‱‱‱‱‱‱‱‱‱‱‱‱‱‱‱‱‱‱‱‱‱"}

// anyChart is a chart of up to 15 lines of up to 30 points, some of which are
// none, with up to 6 limits and marks.
func anyChart(t *rapid.T) *chart.Chart {
	name := rapid.SampledFrom(names)
	reach := rapid.SampledFrom([]float64{1e-6, 0.3, 10, 1000, 1e6}).Draw(t, "reach")
	number := rapid.OneOf(
		rapid.Float64Range(0, reach), rapid.Float64Range(-0.3*reach, reach), rapid.SampledFrom([]float64{0, reach, math.NaN(), math.Inf(1), -math.MaxFloat64}),
	)
	numbers := rapid.SliceOfN(number, 0, 30)
	c := &chart.Chart{Title: name.Draw(t, "title"), Note: name.Draw(t, "note"), Unit: rapid.SampledFrom([]string{"°C", "", "K", strings.Repeat("W", 50)}).Draw(t, "unit"), Linear: rapid.Bool().Draw(t, "linear")}
	for range rapid.IntRange(0, 15).Draw(t, "lines") {
		times := numbers.Draw(t, "times")
		if rapid.Bool().Draw(t, "in order") {
			slices.Sort(times)
		}
		c.Series = append(c.Series, chart.Series{Name: name.Draw(t, "name"), Time: times, Value: numbers.Draw(t, "values")})
	}
	for range rapid.IntRange(0, 6).Draw(t, "levels") {
		c.Levels = append(c.Levels, chart.Level{Name: name.Draw(t, "level"), Value: number.Draw(t, "at")})
	}
	for range rapid.IntRange(0, 6).Draw(t, "marks") {
		c.Marks = append(c.Marks, chart.Mark{Name: name.Draw(t, "mark"), Time: number.Draw(t, "when")})
	}
	return c
}

// TestChartsKeepApart: no text meets another or a line, no two names of lines
// meet, nothing leaves the sheet, and whatever writes sheets can write it.
func TestChartsKeepApart(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawing.Chart(anyChart(t))
		apart(t, s)
		f := frame(t, s)
		for _, shape := range s.Shapes {
			if p, ok := shape.(drawing.Path); ok && strings.HasPrefix(p.ID, "series ") {
				for _, at := range p.Points {
					if !(at.X > f.left-1e-6 && at.X < f.right+1e-6 && at.Y > f.top-1e-6 && at.Y < f.bottom+1e-6) {
						t.Fatalf("%v is not in the frame %v", at, f)
					}
				}
			}
		}
		circles(t, s.Inline(true)) // reads it all
		if err := errors.Join(s.DXF(io.Discard), s.PNG(io.Discard, 200)); err != nil {
			t.Fatal(err)
		}
	})
}

// frame is where the lines of a chart are.
func frame(t rapid.TB, s *drawing.Sheet) rect {
	t.Helper()
	for _, shape := range s.Shapes {
		if p, ok := shape.(drawing.Path); ok && p.ID == "frame" {
			return around(p.Points...)
		}
	}
	t.Fatal("no frame")
	return rect{}
}

// paths reads the paths of an SVG back: their points, by what they are of.
func paths(t *testing.T, svg string) map[string][]drawing.Point {
	t.Helper()
	list := map[string][]drawing.Point{}
	d := xml.NewDecoder(strings.NewReader(svg))
	place := regexp.MustCompile(`[ML]([-\d.]+) ([-\d.]+)`)
	for {
		token, err := d.Token()
		if errors.Is(err, io.EOF) {
			return list
		}
		if err != nil {
			t.Fatal(err)
		}
		e, ok := token.(xml.StartElement)
		if !ok || e.Name.Local != "path" {
			continue
		}
		var of, path string
		for _, a := range e.Attr {
			switch a.Name.Local {
			case "data-of":
				of = a.Value
			case "d":
				path = a.Value
			}
		}
		for _, m := range place.FindAllStringSubmatch(path, -1) {
			x, err1 := strconv.ParseFloat(m[1], 64)
			y, err2 := strconv.ParseFloat(m[2], 64)
			if err := errors.Join(err1, err2); err != nil {
				t.Fatal(err)
			}
			list[of] = append(list[of], drawing.Point{X: x, Y: y})
		}
	}
}

// TestChartReadsBack: in the SVG each point of each line lies where the map says
// that the labels of the axes tell, to 0.01 mm: from 0 to 1000 s with the knee
// at 0.2 s, and from 0 to 1000 °C; or linear, in min.
func TestChartReadsBack(t *testing.T) {
	for _, linear := range []bool{false, true} {
		c := heating(12)
		c.Linear = linear
		s := drawing.Chart(c)
		got := paths(t, s.Inline(true))
		f := frame(t, s)
		last := c.Series[0].Time[59]
		along := func(time float64) float64 {
			if linear {
				return time / last
			}
			length := func(time float64) float64 {
				if time <= 0.2 {
					return time / 0.2
				}
				return 1 + math.Log(time/0.2)
			}
			return length(time) / length(last)
		}
		x := func(time float64) float64 { return f.left + along(time)*(f.right-f.left) }
		y := func(value float64) float64 { return f.bottom - value/1000*(f.bottom-f.top) }
		for i := range c.Series {
			series := &c.Series[i]
			points := got["series "+series.Name]
			if len(points) != 60 {
				t.Fatalf("%d points of %s", len(points), series.Name)
			}
			for k, p := range points {
				if math.Abs(p.X-x(series.Time[k])) > 0.01 || math.Abs(p.Y-y(series.Value[k])) > 0.01 {
					t.Errorf("%s: (%g s, %g °C) at %v", series.Name, series.Time[k], series.Value[k], p)
				}
			}
		}
		for _, l := range c.Levels {
			points := got["level "+l.Name]
			if want := []drawing.Point{{X: f.left, Y: y(l.Value)}, {X: f.right, Y: y(l.Value)}}; len(points) != 2 || math.Abs(points[0].Y-want[0].Y) > 0.01 || math.Abs(points[1].X-want[1].X) > 0.01 {
				t.Errorf("level %s from %v", l.Name, points)
			}
		}
		ticks := 0
		for _, shape := range s.Shapes {
			text, ok := shape.(drawing.Text)
			if !ok {
				continue
			}
			if time, ok := read(text.Text, linear); ok && text.Anchor == drawing.Middle {
				ticks++
				if math.Abs(text.At.X-x(time)) > 0.01 {
					t.Errorf("the label %s stands at %g mm, not %g mm", text.Text, text.At.X, x(time))
				}
			}
			if value, err := strconv.ParseFloat(text.Text, 64); err == nil && text.Anchor == drawing.End {
				ticks++
				if middle := text.At.Y - 0.36*text.Size; math.Abs(middle-y(value)) > 0.01 {
					t.Errorf("the label %s stands at %g mm, not %g mm", text.Text, middle, y(value))
				}
			}
			for _, m := range c.Marks {
				if strings.HasPrefix(text.Text, m.Name) && math.Abs(text.At.X-1.2-x(m.Time)) > 0.01 {
					t.Errorf("%s stands at %g mm, its mark at %g mm", m.Name, text.At.X, x(m.Time))
				}
			}
		}
		if ticks < 10 {
			t.Errorf("%d ticks", ticks)
		}
	}
}

// read is the time, in s, that a label tells.
func read(label string, minutes bool) (seconds float64, ok bool) {
	number, unit, _ := strings.Cut(label, " ")
	x, err := strconv.ParseFloat(number, 64)
	if unit == "min" || minutes {
		x *= 60
	}
	return x, err == nil && (unit == "s" || unit == "min" || unit == "")
}

// TestChartLabels: the name of each line stands in its colour's place beside a
// sample of its dashes, a leader goes from the line's end to it, and no two
// lines of twelve have the same dashes.
func TestChartLabels(t *testing.T) {
	c := heating(12)
	s := drawing.Chart(c)
	seen := map[drawing.Style]bool{}
	for i, shape := range s.Shapes {
		text, ok := shape.(drawing.Text)
		if !ok || !strings.HasPrefix(text.Text, "node ") {
			continue
		}
		leader, sample := s.Shapes[i-2].(drawing.Path), s.Shapes[i-1].(drawing.Path)
		at := slices.IndexFunc(s.Shapes, func(shape drawing.Shape) bool {
			p, ok := shape.(drawing.Path)
			return ok && p.ID == "series "+text.Text
		})
		line := s.Shapes[at].(drawing.Path)
		if line.Style != sample.Style || leader.Points[0] != line.Points[len(line.Points)-1] || leader.Points[2] != sample.Points[0] {
			t.Errorf("%s: style %d and sample %d, leader %v", text.Text, line.Style, sample.Style, leader.Points)
		}
		if middle := text.At.Y - 0.36*text.Size; math.Abs(middle-sample.Points[1].Y) > 1e-9 || sample.Points[1].X > text.At.X {
			t.Errorf("%s stands at %v, its sample ends at %v", text.Text, text.At, sample.Points[1])
		}
		long := 0.0
		for _, dash := range drawing.Pens[line.Style].Dashes {
			long += dash
		}
		if long > sample.Points[1].X-sample.Points[0].X {
			t.Errorf("the dashes of %s do not turn once in its sample", text.Text)
		}
		for other := range seen {
			if slices.Equal(drawing.Pens[other].Dashes, drawing.Pens[line.Style].Dashes) {
				t.Errorf("styles %d and %d have the same dashes", other, line.Style)
			}
		}
		seen[line.Style] = true
	}
	if len(seen) != 12 {
		t.Errorf("%d lines have a label", len(seen))
	}
	for _, want := range []string{"node 1: 20 °C at 0 s, highest 919 °C at ", "Limit rubber: 200 °C.", "burnout at 2.5 s."} {
		if !strings.Contains(s.Description, want) {
			t.Errorf("%q does not tell %q", s.Description, want)
		}
	}
}

// TestChartContrast: by day and by night each line of a chart stands out from
// the ground by 4.5 to 1 or more, as WCAG 2 asks of text (1.4.3, from memory; its
// relative luminance too).
func TestChartContrast(t *testing.T) {
	style := drawing.StyleSheet()
	day, night, ok := strings.Cut(style, "@media")
	if !ok {
		t.Fatal("no night")
	}
	light := func(css, of string) float64 {
		m := regexp.MustCompile(regexp.QuoteMeta(of) + `#([0-9a-f]{3,6})\b`).FindStringSubmatch(css)
		if m == nil {
			t.Fatalf("no %q", of)
		}
		hex := m[1]
		if len(hex) == 3 {
			hex = strings.Repeat(hex[:1], 2) + strings.Repeat(hex[1:2], 2) + strings.Repeat(hex[2:], 2)
		}
		sum := 0.0
		for i, share := range []float64{0.2126, 0.7152, 0.0722} {
			part, err := strconv.ParseUint(hex[2*i:2*i+2], 16, 8)
			if err != nil {
				t.Fatal(err)
			}
			c := float64(part) / 255
			if c <= 0.04045 {
				c /= 12.92
			} else {
				c = math.Pow((c+0.055)/1.055, 2.4)
			}
			sum += share * c
		}
		return sum
	}
	for name, css := range map[string]string{"day": day, "night": night} {
		ground := light(css, "background:")
		for i := range drawing.Curves {
			line := light(css, ".curve"+strconv.Itoa(i+1)+"{stroke:")
			if ratio := (max(ground, line) + 0.05) / (min(ground, line) + 0.05); ratio < 4.5 {
				t.Errorf("line %d by %s: %.2f to 1", i+1, name, ratio)
			}
		}
	}
}

// TestCurvesInDXF: a line is one polyline, so that its dashes run on; its type
// and its layer are told, and those of others are not.
func TestCurvesInDXF(t *testing.T) {
	s := &drawing.Sheet{Width: 100, Height: 60}
	s.Add(drawing.Path{Points: []drawing.Point{{X: 10, Y: 5}, {X: 20, Y: 15}, {X: 30, Y: 5}}, Style: drawing.Curve + 3})
	var b bytes.Buffer
	if err := s.DXF(&b); err != nil {
		t.Fatal(err)
	}
	text := strings.ReplaceAll(b.String(), "\r\n", "|")
	for _, want := range []string{
		"LTYPE|  2|CURVE4| 70|0|  3|curve4| 72|65| 73|4| 40|6.65| 49|4.2| 49|-1.05| 49|0.35| 49|-1.05|",
		"LAYER|  2|CURVE4| 70|0| 62|3|  6|CURVE4|",
		"POLYLINE|  8|CURVE4| 66|1| 70|128|",
		"VERTEX|  8|CURVE4| 10|20| 20|45|  0|VERTEX|  8|CURVE4| 10|30| 20|55|  0|SEQEND|",
	} {
		if !strings.Contains(text, want) {
			t.Errorf("no %s in %s", want, text)
		}
	}
	if strings.Contains(text, "CURVE5") {
		t.Error("a layer without a line")
	}
}
