package drawing_test

import (
	"bytes"
	"encoding/xml"
	"errors"
	"io"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"casewright/cmd/casewright/internal/drawing"
)

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

const hostile = "<b>&\"'\x00\x07 דוד محمد \U0001F680 %%c \\U+0041 \xff"

// TestHostileTexts: whatever a name holds, SVG stays XML that shows it, and DXF
// stays pairs of ASCII lines.
func TestHostileTexts(t *testing.T) {
	for _, name := range []string{hostile, strings.Repeat(hostile, 300), ""} {
		list := strips(t, 0.06, 8, 0, "5.5 mm", "14 mm")
		list[0].End = name
		sheet := drawing.WholeStrips(list, drawing.Beside{Motor: name})
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

// TestDXFPlaces: what is drawn up there is up there, and in mm.
func TestDXFPlaces(t *testing.T) {
	s := &drawing.Sheet{Width: 100, Height: 60}
	s.Line(drawing.Point{X: 10, Y: 5}, drawing.Point{X: 20, Y: 5}, drawing.Outline)
	s.Add(drawing.Circle{Centre: drawing.Point{X: 30, Y: 60}, R: 2.5, Style: drawing.Centre})
	var b bytes.Buffer
	if err := s.DXF(&b); err != nil {
		t.Fatal(err)
	}
	text := strings.ReplaceAll(b.String(), "\r\n", "|")
	for _, want := range []string{"$INSUNITS| 70|4|", "$MEASUREMENT| 70|1|", "LINE|  8|OUTLINE| 10|10| 20|55| 11|20| 21|55|", "CIRCLE|  8|CENTRE| 10|30| 20|0| 40|2.5|"} {
		if !strings.Contains(text, want) {
			t.Errorf("no %s in %s", want, text)
		}
	}
}
