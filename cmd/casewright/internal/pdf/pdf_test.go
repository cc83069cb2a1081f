package pdf_test

import (
	"bytes"
	"compress/zlib"
	"fmt"
	"io"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
	"unicode/utf8"

	"casewright/cmd/casewright/internal/document"
	"casewright/cmd/casewright/internal/drawing"
	"casewright/cmd/casewright/internal/lettering"
	"casewright/cmd/casewright/internal/pdf"
)

// square is a sheet with a square of 50 mm, its upper left corner at (20, 10),
// and a shape of each kind and pen.
func square() *drawing.Sheet {
	s := &drawing.Sheet{Width: 400, Height: 120, Title: "Square"}
	s.Add(drawing.Path{Points: []drawing.Point{at(20, 10), at(70, 10), at(70, 60), at(20, 60)}, Closed: true})
	for style := range drawing.NumStyles {
		y := 5 * float64(style)
		s.Line(at(90, 10+y), at(140, 10+y), style)
		s.Add(drawing.Text{At: at(145, 11+y), Text: fmt.Sprintf("style %d ⌀63.5 ±0.05", style), Size: 3.5, Style: style})
	}
	for fill := range drawing.NumFills {
		x := 20 * float64(fill)
		s.Add(
			drawing.Circle{Centre: at(210+x, 30), R: 9, Fill: fill},
			drawing.Path{Points: []drawing.Point{at(202+x, 50), at(218+x, 50), at(210+x, 60)}, Closed: true, Style: drawing.Fault, Fill: fill},
		)
	}
	for i, anchor := range []drawing.Anchor{drawing.Start, drawing.Middle, drawing.End} {
		x := 30 + 20*float64(i)
		s.Add(
			drawing.Text{At: at(60, x+45), Text: "anchor", Size: 5, Anchor: anchor, Bold: true},
			drawing.Text{At: at(100+x, 90), Text: "turned", Size: 5, Anchor: anchor, Turned: true},
			drawing.Circle{Centre: at(60, x+45), R: 0.5},
			drawing.Circle{Centre: at(100+x, 90), R: 0.5},
		)
	}
	return s
}

func at(x, y float64) drawing.Point { return drawing.Point{X: x, Y: y} }

// sample is a document with every block, over several pages.
func sample() *document.Document {
	var rows [][]string
	var tones []document.Tone
	for i := range 70 {
		rows = append(rows, []string{fmt.Sprintf("row %d", i), "the tube's wall holds the pressure with what is left of it", strconv.Itoa(i * i), "pass"})
		tones = append(tones, document.Tone(i%6))
	}
	return &document.Document{
		Title: "A motor ⌀63.5",
		Foot:  "Example. Worst case of tolerances. " + strings.Repeat("What is at the foot of each page. ", 5),
		Blocks: []document.Block{
			document.Heading{Level: 1, Text: "A motor"},
			document.Paragraph{Text: strings.Repeat("Words to be wrapped, ±0.05 mm. ", 20)},
			document.Paragraph{Text: "A strong word.", Tone: document.Strong},
			document.Paragraph{Text: strings.Repeat("Take care. ", 20), Tone: document.Caution},
			document.Paragraph{Text: "It holds.", Tone: document.Pass},
			document.Paragraph{Text: "It does not.", Tone: document.Fail},
			document.Paragraph{Text: "casewright check motor.toml", Tone: document.Code},
			document.Heading{Level: 2, Text: "Lists"},
			document.List{Items: []string{"one", "two", ""}},
			document.List{Items: []string{"first", strings.Repeat("second of many words ", 12), "3", "4", "5", "6", "7", "8", "9", "10"}, Numbered: true},
			document.List{Items: []string{"measure the bore", "weigh the end"}, Ticks: true},
			document.List{Items: []string{"measure the bore", "weigh the end"}, Ticks: true, Numbered: true},
			document.Heading{Level: 4, Text: "A level that skips one"},
			document.Figure{Sheet: square(), Caption: "A square of 50 mm, scale 1:2.35"},
			document.Heading{Level: 2, Text: "Tables"},
			document.Table{Caption: "Checks", Head: []string{"check", "what it says", "size, mm", "word"}, Right: []bool{false, false, true}, Rows: rows, Tones: tones},
			document.Fold{Title: "More", Blocks: []document.Block{document.Paragraph{Text: "What is folded."}}},
			document.Break{},
			document.Break{},
			document.Heading{Level: 2, Text: "To measure"},
			document.Table{Head: []string{"what", "nominal", "measured", "by"}, Rows: [][]string{{"bore", "57.1 mm"}, {"wall", "3.2 mm", "", ""}}},
			document.Table{Head: []string{"a", "b"}, Rows: [][]string{{strings.Repeat("a long cell ", 500), strings.Repeat("x", 2000)}, {"דוד לוי (63.5 mm)", "محمد علي"}}},
			document.Break{},
		},
	}
}

func drawings(t testing.TB, sheets ...*drawing.Sheet) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := pdf.Drawings(&b, "Drawings", sheets); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func written(t testing.TB, d *document.Document, paper pdf.Paper) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := pdf.Document(&b, d, paper); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

var (
	streams   = regexp.MustCompile(`(?s)<</Filter /FlateDecode /Length (\d+)>>\nstream\n`)
	pageSizes = regexp.MustCompile(`/Type /Page\n/Parent 1 0 R\n(?:/MediaBox \[0 0 ([\d.]+) ([\d.]+)\])?`)
	pageCount = regexp.MustCompile(`/Kids \[[^\]]*\]\s/Count (\d+)`)
	closed    = regexp.MustCompile(`([\d.]+) ([\d.]+) m\s+([\d.]+) ([\d.]+) l\s+([\d.]+) ([\d.]+) l\s+([\d.]+) ([\d.]+) l\s+h\s+S`)
)

// contents inflates the streams of a file that are what its pages show.
func contents(t testing.TB, file []byte) (out []string) {
	t.Helper()
	for _, m := range streams.FindAllSubmatchIndex(file, -1) {
		n, err := strconv.Atoi(string(file[m[2]:m[3]]))
		if err != nil {
			t.Fatal(err)
		}
		r, err := zlib.NewReader(bytes.NewReader(file[m[1] : m[1]+n]))
		if err != nil {
			t.Fatal(err)
		}
		text, err := io.ReadAll(r)
		if err != nil {
			t.Fatal(err)
		}
		out = append(out, string(text))
	}
	return out
}

func pages(t testing.TB, file []byte) int {
	t.Helper()
	m := pageCount.FindSubmatch(file)
	if m == nil {
		t.Fatal("the file has no count of pages")
	}
	n, err := strconv.Atoi(string(m[1]))
	if err != nil {
		t.Fatal(err)
	}
	return n
}

// numbers are those of a match, in mm: a point is 1/72 of 25.4 mm, by the PDF
// reference.
func numbers(t testing.TB, match []string) (out []float64) {
	t.Helper()
	for _, s := range match {
		x, err := strconv.ParseFloat(s, 64)
		if err != nil {
			t.Fatal(err)
		}
		out = append(out, x*25.4/72)
	}
	return out
}

// TestScale holds that a square of 50 mm is one on the page, and where it is.
func TestScale(t *testing.T) {
	file := drawings(t, square(), &drawing.Sheet{Width: 100, Height: 500})
	sizes := pageSizes.FindAllStringSubmatch(string(file), -1)
	if len(sizes) != 2 {
		t.Fatalf("%d pages, want 2", len(sizes))
	}
	for i, want := range [][2]float64{{400, 120}, {100, 500}} {
		if got := numbers(t, sizes[i][1:]); !about(got, want[:]) {
			t.Errorf("page %d is %v mm, want %v", i+1, got, want)
		}
	}
	m := closed.FindStringSubmatch(contents(t, file)[0])
	if m == nil {
		t.Fatal("there is no square")
	}
	got, want := numbers(t, m[1:]), []float64{20, 110, 70, 110, 70, 60, 20, 60} // y goes up in PDF
	if !about(got, want) {
		t.Errorf("the square's corners are at %v mm, want %v", got, want)
	}
}

// TestFit holds that a figure is as large as Fit says.
func TestFit(t *testing.T) {
	s := square()
	scale := pdf.A4.Fit(s)
	if want := 170.0 / 400; !about([]float64{scale}, []float64{want}) {
		t.Errorf("400 mm fit A4 at %g, want %g", scale, want)
	}
	if got := pdf.A4.Fit(&drawing.Sheet{Width: 170, Height: 100}); got != 1 {
		t.Errorf("170 mm fit A4 at %g, want 1", got)
	}
	m := closed.FindStringSubmatch(contents(t, written(t, &document.Document{Blocks: []document.Block{document.Figure{Sheet: s}}}, pdf.A4))[0])
	if m == nil {
		t.Fatal("there is no square")
	}
	c := numbers(t, m[1:])
	scale = pdf.Paper{Width: 297, Height: 210}.Fit(s) // its letters are too low on A4 upright
	if got, want := []float64{c[2] - c[0], c[3] - c[5]}, []float64{50 * scale, 50 * scale}; !about(got, want) {
		t.Errorf("the square is %v mm, want %v", got, want)
	}
}

func about(got, want []float64) bool {
	for i := range want {
		if math.Abs(got[i]-want[i]) > 0.01 {
			return false
		}
	}
	return len(got) == len(want)
}

// TestTurned: a figure whose letters would be too low has a page of its own that
// lies, with its foot where feet are, and what follows stands upright again.
func TestTurned(t *testing.T) {
	s := &drawing.Sheet{Width: 250, Height: 100}
	s.Add(drawing.Text{At: drawing.Point{X: 1, Y: 50}, Text: "low", Size: 2.5})
	low := document.Figure{Sheet: s}
	if got := boxes(t, written(t, &document.Document{Foot: "foot", Blocks: []document.Block{low, document.Paragraph{Text: "after"}, low}}, pdf.A4)); !slices.Equal(got, []string{"297×210", "210×297", "297×210"}) {
		t.Errorf("pages %v", got)
	}
	high := &drawing.Sheet{Width: 250, Height: 100}
	high.Add(drawing.Text{At: drawing.Point{X: 1, Y: 50}, Text: "high", Size: 4})
	if got := boxes(t, written(t, &document.Document{Blocks: []document.Block{document.Figure{Sheet: high}}}, pdf.A4)); !slices.Equal(got, []string{"210×297"}) {
		t.Errorf("pages %v", got)
	}
}

var mediaBox = regexp.MustCompile(`/MediaBox \[0 0 ([0-9.]+) ([0-9.]+)\]`)

// boxes are the sizes of the pages, mm.
func boxes(t *testing.T, file []byte) (list []string) {
	t.Helper()
	for _, m := range mediaBox.FindAllSubmatch(file, -1) {
		size := numbers(t, []string{string(m[1]), string(m[2])})
		list = append(list, fmt.Sprintf("%.0f×%.0f", size[0], size[1]))
	}
	return list[:len(list)-1] // the last is of no page, for those that have none
}

// TestSame holds that a file is the same whenever it is written.
func TestSame(t *testing.T) {
	if !bytes.Equal(drawings(t, square()), drawings(t, square())) {
		t.Error("two drawings differ")
	}
	if !bytes.Equal(written(t, sample(), pdf.A4), written(t, sample(), pdf.A4)) {
		t.Error("two documents differ")
	}
}

// TestPages counts pages, and reads their numbers.
func TestPages(t *testing.T) {
	long := document.Paragraph{Text: strings.Repeat("word ", 10000)}
	for _, c := range []struct {
		name   string
		blocks []document.Block
		want   int
	}{
		{"nothing", nil, 1},
		{"breaks alone", []document.Block{document.Break{}, document.Break{}}, 1},
		{"a break between", []document.Block{document.Paragraph{}, document.Break{}, document.Break{}, document.Paragraph{}, document.Break{}}, 2},
		{"a break before a table", []document.Block{document.Paragraph{}, document.Break{}, document.Table{Head: []string{"a"}}}, 2},
		{"a figure that has no room left", []document.Block{
			document.Figure{Sheet: &drawing.Sheet{Width: 100, Height: 150}}, document.Figure{Sheet: &drawing.Sheet{Width: 100, Height: 150}},
		}, 2},
		// (297 − 20 − 26)/(3.5 × 1.4) is 51.2 lines a page.
		{"51 lines", []document.Block{document.Paragraph{Text: strings.Repeat(strings.Repeat("x", 81)+" ", 51)}}, 1},
		{"52 lines", []document.Block{document.Paragraph{Text: strings.Repeat(strings.Repeat("x", 81)+" ", 52)}}, 2},
	} {
		t.Run(c.name, func(t *testing.T) {
			if got := pages(t, written(t, &document.Document{Blocks: c.blocks}, pdf.A4)); got != c.want {
				t.Errorf("%d pages, want %d", got, c.want)
			}
		})
	}
	file := written(t, &document.Document{Blocks: []document.Block{long}, Foot: "foot"}, pdf.Letter)
	n := pages(t, file)
	if n < 5 {
		t.Fatalf("10 000 words stand on %d pages", n)
	}
	for i, page := range contents(t, file)[:n] {
		for _, want := range []string{fmt.Sprintf("%d of %d", i+1, n), "foot"} {
			if !shows(page, want) {
				t.Errorf("page %d does not show %q", i+1, want)
			}
		}
	}
}

// TestHeading holds that no heading stands alone at the end of a page.
func TestHeading(t *testing.T) {
	turned := 0 // headings on the second page
	for high := 205.0; high <= 227; high += 2 {
		for _, next := range []document.Block{
			document.Paragraph{Text: "after"},
			document.Table{Head: []string{"after"}, Rows: [][]string{{"x"}}},
			document.Figure{Sheet: &drawing.Sheet{Width: 50, Height: 10, Shapes: []drawing.Shape{drawing.Text{Text: "after", Size: 3}}}},
			document.Fold{Title: "fold", Blocks: []document.Block{document.List{Items: []string{"after"}}}},
		} {
			file := written(t, &document.Document{Blocks: []document.Block{
				document.Figure{Sheet: &drawing.Sheet{Width: 10, Height: high}}, document.Heading{Level: 2, Text: "title"}, next,
			}}, pdf.A4)
			for i, page := range contents(t, file)[:pages(t, file)] {
				if shows(page, "title") != shows(page, "after") {
					t.Errorf("after %g mm, the heading and a %T stand on two pages", high, next)
				}
				if i == 1 && shows(page, "title") {
					turned++
				}
			}
		}
	}
	if turned == 0 {
		t.Error("no heading was near the end of a page")
	}
}

// TestTables holds that the head stands on each page, and every cell on one.
func TestTables(t *testing.T) {
	var rows [][]string
	for i := range 150 {
		rows = append(rows, []string{fmt.Sprintf("cell%d.", i), ""})
	}
	rows = append(rows, []string{strings.Repeat("much ", 3000) + "end.", ""})
	file := written(t, &document.Document{Blocks: []document.Block{document.Table{Head: []string{"thehead", "by"}, Rows: rows}}}, pdf.A4)
	list := contents(t, file)[:pages(t, file)]
	for i, page := range list {
		if !shows(page, "thehead") {
			t.Errorf("page %d has no head", i+1)
		}
	}
	all := strings.Join(list, "\n")
	for i := range 150 {
		if !shows(all, fmt.Sprintf("cell%d.", i)) {
			t.Errorf("there is no cell %d", i)
		}
	}
	if !shows(all, "end.") {
		t.Error("the end of the long cell is missing")
	}
}

// shows tells whether a page shows a text: fpdf writes it in UTF-16, and a
// backslash before brackets.
func shows(page, text string) bool {
	var b strings.Builder
	for _, r := range text {
		b.WriteString("\x00" + string(r))
	}
	return strings.Contains(page, b.String())
}

// TestOutline holds that headings are the outline, whatever their levels.
func TestOutline(t *testing.T) {
	file := string(written(t, &document.Document{Blocks: []document.Block{
		document.Heading{Level: 3, Text: "A"},
		document.Heading{Level: 9, Text: ""},
		document.Heading{Level: -1, Text: "B"},
		document.Fold{Title: "C", Blocks: []document.Block{document.Heading{Level: 2, Text: "D"}}},
	}}, pdf.A4))
	for text, want := range map[string]int{"A": 1, "": 1, "B": 1, "C": 0, "D": 1} {
		title := "/Title (\xfe\xff"
		for _, r := range text {
			title += "\x00" + string(r)
		}
		if got := strings.Count(file, title+")\n/Parent"); got != want {
			t.Errorf("%q stands %d times in the outline, want %d", text, got, want)
		}
	}
}

// TestRefused holds that what cannot be drawn is an error.
func TestRefused(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	ok := at(1, 1)
	for name, s := range map[string]*drawing.Sheet{
		"no sheet":   nil,
		"no size":    {},
		"NaN wide":   {Width: nan, Height: 10},
		"too wide":   {Width: 6000, Height: 10},
		"no number":  with(drawing.Path{Points: []drawing.Point{ok, at(nan, 0)}}),
		"no end":     with(drawing.Path{Points: []drawing.Point{ok, at(0, inf)}}),
		"no centre":  with(drawing.Circle{Centre: drawing.Point{X: -inf}}),
		"no radius":  with(drawing.Circle{R: nan}),
		"negative":   with(drawing.Circle{R: -1}),
		"no place":   with(drawing.Text{At: drawing.Point{Y: nan}, Size: 1}),
		"no letters": with(drawing.Text{Text: "x"}),
		"NaN high":   with(drawing.Text{Text: "x", Size: nan}),
		"no anchor":  with(drawing.Text{Text: "x", Size: 1, Anchor: 3}),
		"no style":   with(drawing.Path{Style: drawing.NumStyles}),
		"no fill":    with(drawing.Circle{Fill: drawing.NumFills}),
		"no shape":   with(nil),
	} {
		if err := pdf.Drawings(io.Discard, "", []*drawing.Sheet{s}); err == nil {
			t.Errorf("%s: no error of the drawing", name)
		}
		d := &document.Document{Blocks: []document.Block{document.Fold{Blocks: []document.Block{document.Figure{Sheet: s}}}}}
		if err := pdf.Document(io.Discard, d, pdf.A4); err == nil {
			t.Errorf("%s: no error of the figure", name)
		}
	}
	if err := pdf.Drawings(io.Discard, "", nil); err == nil {
		t.Error("no sheets: no error")
	}
	if err := pdf.Document(io.Discard, &document.Document{Blocks: []document.Block{nil}}, pdf.A4); err == nil {
		t.Error("no block: no error")
	}
	for _, p := range []pdf.Paper{{}, {nan, 297}, {210, inf}, {99, 297}, {210, 6000}} {
		if err := pdf.Document(io.Discard, &document.Document{}, p); err == nil {
			t.Errorf("%v: no error", p)
		}
	}
}

func with(s drawing.Shape) *drawing.Sheet {
	return &drawing.Sheet{Width: 10, Height: 10, Shapes: []drawing.Shape{s}}
}

// hostile are texts that break writers of PDF.
var hostile = []string{
	"", " ", "<b>&amp;</b>", `"quotes" 'and' \(brackets\)`, "שלום עולם (123) test", "محمد علي ٦٣ لا", "😀 \U00010000 漢字",
	"\xff\xc3\xed\xa0\x80", "a\x00b\n\r\tc\u2028d", "e\u0301\u0301 \u0301", "\uFFFF\uFFFE\uFEFF", "\u202Eabc\u2066\u200Dمـ\u200C",
	strings.Repeat("x", 10000), strings.Repeat(" ", 10000), strings.Repeat("a\u0301", 5000), "a" + strings.Repeat("\u0301", 10000),
	strings.Repeat("(", 10000), strings.Repeat("[א]", 3000), strings.Repeat("ب", 10000), strings.Repeat("😀", 10000), strings.Repeat("word ", 2000),
}

// TestHostile: in every place of a drawing and of a document such a text is a
// text and breaks nothing.
func TestHostile(t *testing.T) {
	for _, s := range hostile {
		sheet := &drawing.Sheet{Width: 100, Height: 50, Title: s, Description: s}
		sheet.Add(
			drawing.Text{Text: s, Size: 3},
			drawing.Text{Text: s, Size: 3, Turned: true, Bold: true, Anchor: drawing.End},
		)
		if err := pdf.Drawings(io.Discard, s, []*drawing.Sheet{sheet}); err != nil {
			t.Errorf("%.20q: %v", s, err)
		}
		d := &document.Document{Title: s, Foot: s, Blocks: []document.Block{
			document.Heading{Level: 1, Text: s},
			document.Paragraph{Text: s, Tone: document.Caution},
			document.Paragraph{Text: s, Tone: document.Code},
			document.List{Items: []string{s, s}, Numbered: true},
			document.Table{Caption: s, Head: []string{s, s, ""}, Rows: [][]string{{s, s, "", s}, {s}}, Right: []bool{true}},
			document.Figure{Sheet: sheet, Caption: s},
			document.Fold{Title: s, Blocks: []document.Block{document.Paragraph{Text: s}}},
		}}
		if err := pdf.Document(io.Discard, d, pdf.Letter); err != nil {
			t.Errorf("%.20q: %v", s, err)
		}
	}
}

// FuzzText: whatever text comes, what goes to the PDF writer is what it can
// take, and lines are no wider than their room unless one letter is.
func FuzzText(f *testing.F) {
	for _, s := range hostile {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		if len(s) > 20000 {
			return // longer than any place allows
		}
		for _, r := range lettering.Clean(s) {
			if r > 0xFFFF || r < ' ' {
				t.Fatalf("%q gives %U", s, r)
			}
		}
		for _, line := range pdf.Wrap(s, 50) {
			if utf8.RuneCountInString(line) > 1 && pdf.Width(line) > 50.01 {
				t.Fatalf("%q is %g wide", line, pdf.Width(line))
			}
		}
	})
}
