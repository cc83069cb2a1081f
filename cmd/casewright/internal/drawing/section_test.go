package drawing_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"casewright"
	"casewright/cmd/casewright/internal/drawing"
)

// designs are twelve motors: the examples, and variations of them.
func designs(t *testing.T) map[string]*casewright.Design {
	t.Helper()
	list := map[string]*casewright.Design{}
	add := func(name, text string) {
		design, err := casewright.Read(name, []byte(text))
		if err != nil {
			t.Fatal(err)
		}
		list[name] = design
	}
	files, err := filepath.Glob("../../../../testdata/designs/*.toml")
	if err != nil || len(files) < 4 {
		t.Fatalf("%d examples, %v", len(files), err)
	}
	for _, file := range files {
		text, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		add(filepath.Base(file), string(text))
	}
	for name, change := range map[string][2]string{
		"short":     {`length = "420 ±0.5 mm"`, `length = "110 mm"`},
		"long":      {`length = "420 ±0.5 mm"`, `length = "2400 mm"`},
		"turned":    {`engagement = "9 mm"`, "angle = \"22.5°\"\n  engagement = \"9 mm\""},
		"port":      {`plate = "12 mm"`, "plate = \"12 mm\"\nport = \"10 mm\""},
		"pipe":      {`plate = "12 mm"`, "plate = \"12 mm\"\nport_thread = \"1/4-18 NPT\""},
		"name":      {`name = "Basalt 64"`, `name = "` + strings.Repeat("W<&>ש", 12) + `"`},
		"hot":       {`temperature = "90 °C"`, `temperature = "260 °C"`},
		"near":      {`edge = "14 ±0.2 mm"`, `edge = "4 ±0.2 mm"`},
		"one piece": {`insert_diameter = "31 +0/-0.05 mm"`, "one_piece = true"},
	} {
		text := strings.Replace(casewright.Example, change[0], change[1], 1)
		if text == casewright.Example {
			t.Fatalf("%s: nothing changed", name)
		}
		if name == "one piece" {
			for _, key := range []string{"lip_diameter = ", "lip = "} {
				at := strings.Index(text, key)
				text = text[:at] + text[at+strings.IndexByte(text[at:], '\n'):]
			}
		}
		add(name, text)
	}
	if len(list) < 12 {
		t.Fatalf("%d designs", len(list))
	}
	return list
}

type box struct{ left, top, right, bottom float64 }

func boxOf(x drawing.Text) box {
	w := drawing.TextWidth(x.Text, x.Size)
	before := [...]float64{drawing.Start: 0, drawing.Middle: w / 2, drawing.End: w}[x.Anchor]
	if x.Turned {
		return box{x.At.X - x.Size, x.At.Y - w + before, x.At.X, x.At.Y + before}
	}
	return box{x.At.X - before, x.At.Y - x.Size, x.At.X - before + w, x.At.Y}
}

// TestSection: in twelve motors no text meets another, nothing leaves the
// sheet, each dimension stands there as the file has it, and what fails is
// marked.
func TestSection(t *testing.T) {
	for name, d := range designs(t) {
		r := casewright.Check(d)
		s, _, err := drawing.Section(r)
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		var texts []drawing.Text
		faults := 0
		inside := func(at drawing.Point) {
			if at.X < 0 || at.Y < 0 || at.X > s.Width || at.Y > s.Height {
				t.Errorf("%s: %v is not on the sheet of %g × %g mm", name, at, s.Width, s.Height)
			}
		}
		for _, shape := range s.Shapes {
			switch x := shape.(type) {
			case drawing.Text:
				texts = append(texts, x)
				b := boxOf(x)
				inside(drawing.Point{X: b.left, Y: b.top})
				inside(drawing.Point{X: b.right, Y: b.bottom})
			case drawing.Path:
				for _, at := range x.Points {
					inside(at)
				}
			case drawing.Circle:
				if x.ID == "fault" {
					faults++
				}
				inside(x.Centre)
			}
		}
		all := map[string]bool{}
		for i, x := range texts {
			all[x.Text] = true
			for _, y := range texts[:i] {
				a, b := boxOf(x), boxOf(y)
				if a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom {
					t.Errorf("%s: %q lies on %q", name, x.Text, y.Text)
				}
			}
		}
		if (faults > 0) != (r.Verdict.String() != "pass") {
			t.Errorf("%s: %d marks, verdict %s", name, faults, r.Verdict)
		}
		for part := range len(d.Ends) + 1 {
			for _, path := range []string{
				"tube.length", "tube.inside_diameter", "tube.outside_diameter", "tube.lead_in", "end.outside_diameter", "end.length", "end.plate", "end.port", "end.insert_diameter",
				"end.lip_diameter", "end.lip", "end.seal.groove_diameter", "end.seal.groove_width", "end.seal.groove_from_face", "end.seal.groove_spacing", "end.screws.edge", "end.screws.from_face",
			} {
				if strings.HasPrefix(path, "end.") != (part > 0) {
					continue
				}
				text := casewright.FindKey(path).Text(d, part)
				if text != "" && !all[text] && !all["⌀"+text] {
					t.Errorf("%s: %s = %q of part %d is not on the drawing", name, path, text, part)
				}
			}
		}
	}
}
