package drawing_test

import (
	"bytes"
	"encoding/xml"
	"errors"
	"io"
	"math"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"casewright"
	"casewright/bench"
	"casewright/cmd/casewright/internal/drawing"
	"casewright/quantity"
)

// strips are those of the example, round a tube of another size.
func strips(t rapid.TB, across float64, count int, start float64) []bench.Strip {
	t.Helper()
	design, err := casewright.Read("basalt64.toml", []byte(casewright.Example))
	if err != nil {
		t.Fatal(err)
	}
	rows, err := bench.HoleRows(design)
	if err != nil {
		t.Fatal(err)
	}
	var list []bench.Strip
	for _, r := range rows {
		r.Across = quantity.Length(across)
		r.Holes = bench.Circle(r.Across, count, start)
		list = append(list, bench.StripOf(r, 0.0001))
	}
	return list
}

// circles reads the circles of an SVG back, by what they are of.
func circles(t rapid.TB, svg string) map[string][][2]float64 {
	t.Helper()
	list := map[string][][2]float64{}
	d := xml.NewDecoder(strings.NewReader(svg))
	for {
		token, err := d.Token()
		if errors.Is(err, io.EOF) {
			return list
		}
		if err != nil {
			t.Fatal(err)
		}
		e, ok := token.(xml.StartElement)
		if !ok || e.Name.Local != "circle" {
			continue
		}
		var of string
		var at [2]float64
		for _, a := range e.Attr {
			switch a.Name.Local {
			case "data-of":
				of = a.Value
			case "cx":
				at[0], err = strconv.ParseFloat(a.Value, 64)
			case "cy":
				at[1], err = strconv.ParseFloat(a.Value, 64)
			}
			if err != nil {
				t.Fatal(err)
			}
		}
		list[of] = append(list[of], at)
	}
}

// TestWholeStripsReadBack: each hole centre in the SVG lies where its angle
// says, to 0.01 mm, over tubes and counts; the lower end's row lies as far from
// the other edge of its strip.
func TestWholeStripsReadBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		across := rapid.Float64Range(0.02, 0.3).Draw(t, "D")
		count := rapid.IntRange(1, 24).Draw(t, "N")
		start := float64(rapid.IntRange(0, 359).Draw(t, "start"))
		list := strips(t, across, count, start)
		sheet := drawing.WholeStrips(list, drawing.StripText{Motor: "M"})
		found := circles(t, sheet.Inline(true))
		for _, s := range list {
			round := math.Pi * (across + 0.0001) * 1e3
			var first [2]float64
			for k := range count {
				at := found["hole "+s.End+" "+strconv.Itoa(k+1)]
				angle := math.Mod(start+360*float64(k)/float64(count), 360)
				// A hole whose cross-hairs (2.75 + 3 mm) reach over one of the lines is
				// drawn at the other too.
				arc := round * angle / 360
				if want := map[bool]int{true: 2, false: 1}[arc < 5.75 || arc > round-5.75]; len(at) != want {
					t.Fatalf("hole %d of %s at %g mm is drawn %d times", k+1, s.End, arc, len(at))
				}
				if len(at) == 2 && math.Abs(math.Abs(at[1][0]-at[0][0])-round) > 0.01 {
					t.Fatalf("on the lap line it is %g mm away, round it is %g mm", at[1][0]-at[0][0], round)
				}
				if k == 0 {
					first = [2]float64{at[0][0] - round*angle/360, at[0][1]}
				}
				if off := at[0][0] - first[0] - round*angle/360; math.Abs(off) > 0.01 || at[0][1] != first[1] {
					t.Fatalf("hole %d of %s is %g mm off", k+1, s.End, off)
				}
			}
		}
	})
}

// TestStripPages: on paper the pieces overlap, every hole is on one of them, no
// shape leaves the page, and a strip wider than the paper is refused.
func TestStripPages(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		across := rapid.Float64Range(0.02, 0.5).Draw(t, "D")
		count := rapid.IntRange(1, 40).Draw(t, "N")
		list := strips(t, across, count, 0)
		paper := rapid.SampledFrom([]drawing.Format{drawing.A4, drawing.Letter}).Draw(t, "paper")
		pages, err := drawing.StripPages(list, drawing.StripText{Motor: strings.Repeat("W", 300)}, paper)
		if err != nil {
			t.Fatal(err)
		}
		seen := map[string]bool{}
		for _, p := range pages {
			if p.Width != paper.Width || p.Height != paper.Height {
				t.Fatalf("a page of %g × %g mm", p.Width, p.Height)
			}
			inside := func(at drawing.Point) {
				if at.X < 0 || at.Y < 0 || at.X > p.Width || at.Y > p.Height {
					t.Fatalf("%v is not on the page of %g × %g mm", at, p.Width, p.Height)
				}
			}
			for _, shape := range p.Shapes {
				switch x := shape.(type) {
				case drawing.Path:
					for _, at := range x.Points {
						inside(at)
					}
				case drawing.Circle:
					inside(drawing.Point{X: x.Centre.X - x.R, Y: x.Centre.Y - x.R})
					inside(drawing.Point{X: x.Centre.X + x.R, Y: x.Centre.Y + x.R})
					seen[x.ID] = true
				case drawing.Text:
					inside(x.At)
					if !x.Turned && x.Anchor == drawing.Start {
						inside(drawing.Point{X: x.At.X + drawing.TextWidth(x.Text, x.Size), Y: x.At.Y})
					}
				}
			}
		}
		for _, s := range list {
			for k := range count {
				if id := "hole " + s.End + " " + strconv.Itoa(k+1); !seen[id] {
					t.Fatalf("%s is on no page", id)
				}
			}
		}
	})
	far := strips(t, 0.05, 8, 0)
	far[0].Height = 0.3
	if _, err := drawing.StripPages(far, drawing.StripText{}, drawing.A4); err == nil {
		t.Error("a strip of 300 mm goes on A4")
	}
}

const hostile = "<b>&\"'\x00\x07 דוד محمد \U0001F680 %%c \\U+0041 \xff"

// TestHostileTexts: whatever a name holds, SVG stays XML that shows it, and DXF
// stays pairs of ASCII lines.
func TestHostileTexts(t *testing.T) {
	for _, name := range []string{hostile, strings.Repeat(hostile, 300), ""} {
		list := strips(t, 0.06, 8, 0)
		list[0].End = name
		sheet := drawing.WholeStrips(list, drawing.StripText{Motor: name})
		sheet.Add(drawing.Text{Text: name, Size: 3, Turned: true, Bold: true, Anchor: drawing.End, Style: drawing.Fault})
		circles(t, sheet.Inline(false)) // reads it all
		var b bytes.Buffer
		if err := sheet.SVG(&b); err != nil || name != "" && strings.Contains(b.String(), "<b>") {
			t.Errorf("error %v, or text that became an element", err)
		}
		b.Reset()
		if err := sheet.DXF(&b); err != nil {
			t.Fatal(err)
		}
		lines := strings.Split(strings.TrimSuffix(b.String(), "\r\n"), "\r\n")
		for i := 0; i < len(lines); i += 2 {
			if _, err := strconv.Atoi(strings.TrimSpace(lines[i])); err != nil || i+1 == len(lines) {
				t.Fatalf("line %d is no group code: %q", i+1, lines[i])
			}
		}
		for i, c := range b.Bytes() {
			if c > 126 || c < ' ' && c != '\r' && c != '\n' {
				t.Fatalf("byte %d is %#x", i, c)
			}
		}
		if lines[len(lines)-1] != "EOF" || strings.Contains(b.String(), "%%c") {
			t.Error("no end, or a code of the text's own")
		}
	}
}

// TestDXFPlaces: what is drawn up there is up there.
func TestDXFPlaces(t *testing.T) {
	s := &drawing.Sheet{Width: 100, Height: 60}
	s.Line(drawing.Point{X: 10, Y: 5}, drawing.Point{X: 20, Y: 5}, drawing.Outline)
	s.Add(drawing.Circle{Centre: drawing.Point{X: 30, Y: 60}, R: 2.5, Style: drawing.Centre})
	var b bytes.Buffer
	if err := s.DXF(&b); err != nil {
		t.Fatal(err)
	}
	text := strings.ReplaceAll(b.String(), "\r\n", "|")
	for _, want := range []string{"LINE|  8|OUTLINE| 10|10| 20|55| 11|20| 21|55|", "CIRCLE|  8|CENTRE| 10|30| 20|0| 40|2.5|"} {
		if !strings.Contains(text, want) {
			t.Errorf("no %s in %s", want, text)
		}
	}
}
