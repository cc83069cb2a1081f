package document_test

import (
	"bytes"
	"encoding/xml"
	"errors"
	"io"
	"regexp"
	"strings"
	"testing"

	"casewright/cmd/casewright/internal/document"
	"casewright/cmd/casewright/internal/drawing"
	"casewright/cmd/casewright/internal/table"
	"casewright/margin/formula"
)

// whole is a document with a text in every place.
func whole(s string) *document.Document {
	sheet := &drawing.Sheet{Width: 50, Height: 20, Title: s, Description: s}
	sheet.Add(drawing.Text{At: drawing.Point{X: 1, Y: 5}, Text: s, Size: 3})
	return &document.Document{Title: s, Foot: s, Blocks: []document.Block{
		document.Heading{Level: 1, Text: s},
		document.Paragraph{Text: s},
		document.Paragraph{Text: s, Tone: document.Fail},
		document.List{Items: []string{s, s}},
		document.List{Items: []string{s}, Ticks: true},
		document.List{Items: []string{s}, Numbered: true},
		document.Table{Caption: s, Head: []string{s, s, "measured"}, Right: []bool{false, true}, Rows: [][]string{{s, s, ""}}, Tones: []document.Tone{document.Fail}},
		document.Figure{Sheet: sheet, Caption: s},
		document.Fold{Title: s, Blocks: []document.Block{document.Paragraph{Text: s, Tone: document.Code}}},
		document.Fold{Title: s, Tone: document.Fail, Open: true, Blocks: []document.Block{document.Worked{Check: worked(s)}}},
		document.Heading{Level: 2, Text: s},
		document.Heading{Level: 2, Text: s},
		document.Heading{Level: 2, Text: s},
		document.Break{},
	}}
}

// worked is a check worked out with a text in every place that may hold one of
// the design file's.
func worked(s string) table.Worked {
	f, err := formula.Parse("p r/t")
	if err != nil {
		panic(err)
	}
	return table.Worked{
		ID: s, Title: s, Verdict: s, Word: s, Part: s, Why: s, Source: s, Range: s, Change: s, Outcome: []string{s}, Changes: []string{s}, Notes: []string{s}, Evidence: []string{s},
		Sums:     []table.WorkedSum{{Name: "demand", Formula: f, Result: "45 MPa", Values: map[string]string{"p": "4.5 MPa", "r": "30 mm", "t": "3 mm"}}},
		Symbols:  []table.WorkedSymbol{{Name: "p", Value: "4.5 MPa", Meaning: s, From: f, Origins: []string{s}}},
		Readings: []table.WorkedReading{{Name: s, Result: "46 MPa", Over: s, Source: s, Formula: f}}, Effects: []table.WorkedEffect{{Key: s, Written: s, Step: "1 mm", By: "+0.1"}},
	}
}

var hostile = []string{
	"plain", "<script>alert(1)</script>", `"quotes" & 'and' <b>`, "]]> --> </style></svg>", "דוד محمد 漢字 \U0001F680", "\x00\x07\xff\xed\xa0\x80",
	"| # * _ ` [a](b) <c> \\", strings.Repeat("<&>\"W", 2000),
}

// TestHTML: whatever the texts hold, they are texts: the elements are the same
// as of a plain document, nothing is asked of elsewhere, and the page is
// well-formed where XML and HTML agree.
func TestHTML(t *testing.T) {
	elements := func(s string) []string {
		var b bytes.Buffer
		if err := whole(s).HTML(&b); err != nil {
			t.Fatal(err)
		}
		page := b.String()
		if regexp.MustCompile(`(?i)(src|href)="[^#]|url\(|@import|<script`).MatchString(regexp.MustCompile(`(?s)>[^<]*<`).ReplaceAllString(page, "><")) {
			t.Errorf("%.20q: the page asks for something", s)
		}
		d := xml.NewDecoder(strings.NewReader(page))
		d.Strict, d.AutoClose, d.Entity = false, xml.HTMLAutoClose, xml.HTMLEntity
		var list []string
		for {
			token, err := d.Token()
			if errors.Is(err, io.EOF) {
				return list
			}
			if err != nil {
				t.Fatalf("%.20q: %v", s, err)
			}
			if e, ok := token.(xml.StartElement); ok {
				list = append(list, e.Name.Local)
			}
		}
	}
	want := strings.Join(elements("plain"), " ")
	for _, s := range hostile {
		if got := strings.Join(elements(s), " "); got != want {
			t.Errorf("%.20q: elements %s, want %s", s, got, want)
		}
	}
	// Formulas are typeset, with symbols and with numbers.
	if n := strings.Count(want, "math mfrac"); n != 4 {
		t.Errorf("%d fractions, want 4", n)
	}
	for _, must := range []string{"details summary", "figure div svg", "th", "input", "caption"} {
		if !strings.Contains(want, must) {
			t.Errorf("no %s in %s", must, want)
		}
	}
}

// TestMarkdown: a text keeps to its line, and nothing in it makes a heading, a
// row, a link or an element.
func TestMarkdown(t *testing.T) {
	lines := func(s string) int {
		var b bytes.Buffer
		if err := whole(s).Markdown(&b); err != nil {
			t.Fatal(err)
		}
		text := b.String()
		if regexp.MustCompile(`(^|[^\\])<(script|b|c|/style)`).MatchString(text) || strings.Contains(text, "[a](b)") {
			t.Errorf("%.20q became more than text", s)
		}
		return strings.Count(text, "\n")
	}
	want := lines("plain")
	for _, s := range append(hostile, "a\nb\r\n# c") {
		if got := lines(s); got != want {
			t.Errorf("%.20q: %d lines, want %d", s, got, want)
		}
	}
}
