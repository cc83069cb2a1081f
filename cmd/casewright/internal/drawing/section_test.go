package drawing_test

import (
	"bytes"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"casewright"
	"casewright/cmd/casewright/internal/drawing"
	"casewright/margin"
)

// designs are motors that differ: the examples, in mm and in inches, and
// variations of one of them.
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
	pipe := []string{`plate = "12 mm"`, "plate = \"12 mm\"\nport_thread = \"1/4-18 NPT\""}
	for name, changes := range map[string][]string{
		"short":      {`length = "420 ±0.5 mm"`, `length = "110 mm"`},
		"1 m":        {`length = "420 ±0.5 mm"`, `length = "1 m"`},
		"long":       {`length = "420 ±0.5 mm"`, `length = "2400 mm"`},
		"turned":     {`engagement = "9 mm"`, "angle = \"22.5°\"\n  engagement = \"9 mm\""},
		"port":       {`plate = "12 mm"`, "plate = \"12 mm\"\nport = \"10 mm\""},
		"pipe":       pipe,
		"blind pipe": {`plate = "12 mm"`, "plate = \"12 mm\"\nport_thread = \"1/8-27 NPT\"\nport_depth = \"9.5 mm\"\nport = \"1/8 in\""},
		"sunk":       {"  class = \"12.9\"", "  class = \"12.9\"\n  head = \"countersunk\"\n  head_depth = \"1.50 mm\""},
		"all at once": append([]string{
			"  class = \"12.9\"", "  class = \"12.9\"\n  head = \"countersunk\"\n  head_depth = \"1.5 mm\"", "pressure = \"4.5 MPa\"", "pressure = \"45 MPa\"",
		}, pipe...),
		"name":      {`name = "Basalt 64"`, `name = "` + strings.Repeat("W", 60) + `"`, `name = "nozzle"`, `name = "` + strings.Repeat("m", 60) + `"`},
		"hot":       {`temperature = "90 °C"`, `temperature = "260 °C"`},
		"near":      {`edge = "14 ±0.2 mm"`, `edge = "4 ±0.2 mm"`},
		"3 screws":  {`count = 8`, `count = 3`},
		"16 screws": {`count = 8`, `count = 16`},
		"one ring":  {"  count = 2                           # two equal grooves\n", "", "  count = 2\n", "", `  groove_spacing = "6 mm"             # near wall to near wall`, "", `  groove_spacing = "6 mm"`, ""},
		"one piece": {`insert_diameter = "31 +0/-0.05 mm"`, "one_piece = true", `lip_diameter = "25 ±0.1 mm"           # inside diameter of the lip that holds the insert`, "", `lip = "6 ±0.1 mm"                     # its thickness, along the axis`, ""},
		"too much":  {`pressure = "4.5 MPa"`, `pressure = "200 MPa"`},
	} {
		text := casewright.Example
		for i := 0; i < len(changes); i += 2 {
			changed := strings.ReplaceAll(text, changes[i], changes[i+1])
			if changed == text {
				t.Fatalf("%s: no %q", name, changes[i])
			}
			text = changed
		}
		add(name, text)
	}
	// No file has such names, but a design may.
	long := list["all at once"]
	long.Name.Value, long.Ends[0].Name.Value, long.Ends[1].Name.Value = strings.Repeat("W<&>ש", 2000), strings.Repeat("W", 10000), strings.Repeat("x", 10000)
	return list
}

// crosses tells whether a line from p to q comes into a box: Liang and Barsky's
// cut of a line by a window.
func crosses(p, q drawing.Point, b rect) bool {
	from, to := 0.0, 1.0
	for _, side := range [][2]float64{{p.X - q.X, p.X - b.left}, {q.X - p.X, b.right - p.X}, {p.Y - q.Y, p.Y - b.top}, {q.Y - p.Y, b.bottom - p.Y}} {
		switch way, room := side[0], side[1]; {
		case way == 0 && room < 0:
			return false
		case way < 0:
			from = max(from, room/way)
		case way > 0:
			to = min(to, room/way)
		}
	}
	return from < to
}

// TestSection: in motors of all kinds no text meets another or is crossed by a
// line, no arrow is hidden, nothing leaves the sheet, each dimension stands
// there as the file has it, and what fails is marked by a sign and a word.
func TestSection(t *testing.T) {
	list := designs(t)
	if len(list) < 20 {
		t.Fatalf("%d designs", len(list))
	}
	for name, d := range list {
		t.Run(name, func(t *testing.T) { look(t, d) })
	}
}

func look(t *testing.T, d *casewright.Design) {
	r := casewright.Check(d)
	s, _, err := drawing.Section(r)
	if err != nil {
		t.Fatal(err)
	}
	if s.Width > 330 || s.Height > 180 {
		t.Errorf("a sheet of %g × %g mm is too large for letters that can be read on A4", s.Width, s.Height)
	}
	inside := func(what string, at drawing.Point) {
		if at.X < 4 || at.Y < 4 || at.X > s.Width-4 || at.Y > s.Height-4 {
			t.Errorf("%s at %v is not on the sheet of %g × %g mm, 4 mm from its edge", what, at, s.Width, s.Height)
		}
	}
	var texts []drawing.Text
	faults, marks := 0, 0
	for i, shape := range s.Shapes {
		switch x := shape.(type) {
		case drawing.Text:
			b := inkOf(t, x)
			inside(x.Text, drawing.Point{X: b.left, Y: b.top})
			inside(x.Text, drawing.Point{X: b.right, Y: b.bottom})
			for _, y := range texts {
				if b.meets(inkOf(t, y)) {
					t.Errorf("%q lies on %q", x.Text, y.Text)
				}
			}
			texts = append(texts, x)
			if strings.HasPrefix(x.Text, "✗ ") && (strings.Contains(x.Text, "FAIL ") || strings.Contains(x.Text, "REFUSED ")) {
				marks++
			}
			clear(t, s.Shapes, i)
		case drawing.Path:
			for _, at := range x.Points {
				inside(x.ID, at)
			}
		case drawing.Circle:
			if x.ID == "fault" {
				faults++
			}
			inside(x.ID, drawing.Point{X: x.Centre.X - x.R, Y: x.Centre.Y - x.R})
			inside(x.ID, drawing.Point{X: x.Centre.X + x.R, Y: x.Centre.Y + x.R})
		}
	}
	if (faults > 0) != (r.Verdict != margin.Pass) || faults != marks {
		t.Errorf("%d circles, %d marks, verdict %s", faults, marks, r.Verdict)
	}
	written(t, d, texts)
	for _, id := range pictures(d) {
		if !slices.ContainsFunc(s.Shapes, func(shape drawing.Shape) bool { p, ok := shape.(drawing.Path); return ok && p.ID == id }) {
			t.Errorf("no picture of %s", id)
		}
	}
}

// clear tells of lines that cross text i: later than its ground, or where it
// has none; and of arrows below its ground.
func clear(t *testing.T, shapes []drawing.Shape, i int) {
	x := shapes[i].(drawing.Text)
	b := inkOf(t, x)
	b.left, b.top, b.right, b.bottom = b.left+0.2, b.top+0.2, b.right-0.2, b.bottom-0.2
	ground := -1
	if p, ok := shapes[max(0, i-1)].(drawing.Path); ok && p.Fill == drawing.Paper && p.Style == drawing.Bare {
		ground = i - 1
	}
	for k, shape := range shapes {
		p, ok := shape.(drawing.Path)
		if !ok || p.Style == drawing.Bare {
			continue
		}
		arrow := p.Closed && p.Style == drawing.Dimension
		if k < ground && !arrow {
			continue
		}
		points := p.Points
		if p.Closed {
			points = append(points[:len(points):len(points)], points[0])
		}
		for j := 1; j < len(points); j++ {
			if crosses(points[j-1], points[j], b) {
				t.Errorf("%q is crossed by %q, %v to %v", x.Text, drawing.Pens[p.Style].Name, points[j-1], points[j])
				break
			}
		}
	}
}

// written tells of dimensions that do not stand there as the file has them.
func written(t *testing.T, d *casewright.Design, texts []drawing.Text) {
	all := map[string]bool{}
	for _, x := range texts {
		all[x.Text] = true
	}
	for part := range len(d.Ends) + 1 {
		for _, path := range []string{
			"tube.length", "tube.inside_diameter", "tube.outside_diameter", "tube.lead_in", "end.outside_diameter", "end.length", "end.plate", "end.port", "end.port_thread", "end.port_depth", "end.insert_diameter",
			"end.lip_diameter", "end.lip", "end.seal.groove_diameter", "end.seal.groove_width", "end.seal.groove_from_face", "end.seal.groove_spacing", "end.screws.edge", "end.screws.from_face", "end.screws.head_depth",
		} {
			if strings.HasPrefix(path, "end.") != (part > 0) {
				continue
			}
			key := casewright.FindKey(path)
			text := key.Text(d, part)
			if size, ok := key.Field(d, part).(*casewright.Dimension); ok {
				text = size.Text()
			}
			in := strings.HasSuffix(path, "head_depth") && slices.ContainsFunc(texts, func(x drawing.Text) bool { return strings.Contains(x.Text, "countersunk "+text+" deep") })
			if text != "" && !all[text] && !all["⌀"+text] && !in {
				t.Errorf("%s = %q of part %d is not on the drawing", path, text, part)
			}
		}
	}
}

// pictures are what the drawing of a design must show.
func pictures(d *casewright.Design) []string {
	ids := []string{"tube wall", "hole", "screw", "head"}
	for i := range d.Ends {
		e := &d.Ends[i]
		if e.Screws.HeadDepth.IsSet() {
			ids = append(ids, "countersink", "countersink outside")
		}
		if e.PortThread.Name != "" {
			ids = append(ids, "pipe thread", "tap drill")
		}
		if e.Insert.IsSet() {
			ids = append(ids, "insert")
		}
	}
	return ids
}

// TestBars: what fails has its mark and its word, and a long name of an end
// hides no check.
func TestBars(t *testing.T) {
	d := designs(t)["all at once"]
	r := casewright.Check(d)
	s := drawing.Bars(r, 20)
	fails := 0
	var texts []drawing.Text
	for _, shape := range s.Shapes {
		x, ok := shape.(drawing.Text)
		if !ok {
			continue
		}
		if strings.HasPrefix(x.Text, "✗ FAIL ") {
			fails++
			id := x.Text[strings.LastIndex(x.Text, "/")+1:]
			if !slices.ContainsFunc(r.Results, func(one casewright.Result) bool { return one.Method.ID == id }) {
				t.Errorf("%q names no check", x.Text)
			}
		}
		b := inkOf(t, x)
		for _, y := range texts {
			if b.meets(inkOf(t, y)) {
				t.Errorf("%q lies on %q", x.Text, y.Text)
			}
		}
		if b.left < 0 || b.top < 0 || b.right > s.Width || b.bottom > s.Height {
			t.Errorf("%q leaves the sheet", x.Text)
		}
		texts = append(texts, x)
	}
	if fails < 10 {
		t.Errorf("%d fail", fails)
	}
}

// TestDXFSigns: the signs of drawings are codes that a reader of release 12
// knows, and a text's own stay text.
func TestDXFSigns(t *testing.T) {
	s := &drawing.Sheet{Width: 10, Height: 10}
	s.Add(drawing.Text{Text: "⌀5 ±0.1 mm, 15°, 5 %±1, %%d %%%c × μ", Size: 3})
	var b bytes.Buffer
	if err := s.DXF(&b); err != nil {
		t.Fatal(err)
	}
	if want := `%%c5 %%p0.1 mm, 15%%d, 5 % %%p1, % %d % % %c \U+00D7 \U+03BC`; !strings.Contains(b.String(), want+"\r\n") {
		t.Errorf("no %s in %s", want, b.String())
	}
}

// TestCountersink: a head of 90° (ISO 10642, from memory) 1.5 mm deep over a hole
// of 5.5 mm is 8.5 mm wide where it lies flush; an 1/8-27 NPT thread narrows by
// 1/16 of its depth (ASME B1.20.1, from memory).
func TestCountersink(t *testing.T) {
	all := designs(t)
	size := func(name, id string, of func(p drawing.Path) float64) float64 {
		s, scale, err := drawing.Section(casewright.Check(all[name]))
		if err != nil {
			t.Fatal(err)
		}
		for _, shape := range s.Shapes {
			if p, ok := shape.(drawing.Path); ok && p.ID == id {
				return of(p) / scale
			}
		}
		return 0
	}
	for _, c := range []struct {
		what      string
		got, want float64
	}{
		{"mouth", size("sunk", "countersink", func(p drawing.Path) float64 { return p.Points[3].X - p.Points[0].X }), 8.5},
		{"hole", size("sunk", "countersink", func(p drawing.Path) float64 { return p.Points[2].X - p.Points[1].X }), 5.5},
		{"depth", size("sunk", "countersink", func(p drawing.Path) float64 { return p.Points[1].Y - p.Points[0].Y }), 1.5},
		{"thread's depth", size("blind pipe", "pipe thread", func(p drawing.Path) float64 { return p.Points[0].X - p.Points[1].X }), 9.5},
		{"taper on the radius", size("blind pipe", "pipe thread", func(p drawing.Path) float64 { return p.Points[0].Y - p.Points[1].Y }), 9.5 / 32},
	} {
		if math.Abs(c.got-c.want) > 1e-9 {
			t.Errorf("%s %g mm, want %g mm", c.what, c.got, c.want)
		}
	}
}
