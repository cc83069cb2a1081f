package document

import (
	"cmp"
	"fmt"
	"html"
	"io"
	"strings"

	"casewright/cmd/casewright/internal/drawing"
	"casewright/cmd/casewright/internal/page"
)

// HTML writes the document as one page without any reference to elsewhere,
// which needs no script. The headings of level 2 are listed at its top where
// there are three or more.
func (d *Document) HTML(w io.Writer) error {
	body, drawn, err := d.body()
	if err != nil {
		return err
	}
	style := page.Style
	if drawn {
		style = Style()
	}
	_, err = fmt.Fprintf(w, "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n<title>%s</title>\n<style>\n%s</style>\n</head>\n<body>\n%s</body>\n</html>\n", quoted(d.Title), style, body)
	return err
}

// Style is the style sheet of a page that has the [Document.Body] of a document.
func Style() string { return page.Style + drawing.StyleSheet() }

// Body is the document as part of a page that has [Style].
func (d *Document) Body() (string, error) {
	body, _, err := d.body()
	return body, err
}

// body also tells whether there is a figure.
func (d *Document) body() (body string, drawn bool, err error) {
	p := &htmlPage{}
	p.blocks(d.Blocks)
	var b strings.Builder
	if len(p.contents) > 2 {
		b.WriteString("<a class=\"skip\" href=\"#document\">To the document</a>\n<nav class=\"contents\" aria-label=\"Contents\"><ol>\n")
		for i, text := range p.contents {
			fmt.Fprintf(&b, "<li><a href=\"#part-%d\">%s</a></li>\n", i+1, quoted(text))
		}
		b.WriteString("</ol></nav>\n")
	}
	fmt.Fprintf(&b, "<main id=\"document\">\n%s</main>\n<footer><p>%s</p></footer>\n", p.String(), quoted(d.Foot))
	return b.String(), p.drawn, p.err
}

// An htmlPage is a page being written.
type htmlPage struct {
	strings.Builder
	contents []string // headings of level 2
	drawn    bool     // there is a figure
	err      error
}

// classes are those of tones.
var classes = [...]string{Plain: "", Strong: "strong", Caution: "caution", Pass: "pass", Fail: "fail", Code: "code"}

func class(t Tone) string {
	if classes[t] == "" {
		return ""
	}
	return ` class="` + classes[t] + `"`
}

func (p *htmlPage) blocks(blocks []Block) {
	for _, block := range blocks {
		switch x := block.(type) {
		case Heading:
			id := ""
			if x.Level == 2 {
				p.contents = append(p.contents, x.Text)
				id = fmt.Sprintf(" id=\"part-%d\"", len(p.contents))
			}
			fmt.Fprintf(p, "<h%d%s>%s</h%d>\n", x.Level, id, quoted(x.Text), x.Level)
		case Paragraph:
			fmt.Fprintf(p, "<p%s>%s%s</p>\n", class(x.Tone), x.Tone.Mark(), quoted(x.Text))
		case List:
			x.html(p)
		case Table:
			x.html(p)
		case Figure:
			p.drawn = true
			fmt.Fprintf(p, "<figure><div class=\"wide\" tabindex=\"0\" role=\"group\" aria-label=\"Drawing\">%s</div><figcaption>%s</figcaption></figure>\n", x.Sheet.Inline(false), quoted(x.Caption))
		case Fold:
			open := ""
			if x.Open {
				open = " open"
			}
			name := ""
			if x.Name != "" {
				name = fmt.Sprintf(" data-name=\"%s\"", quoted(x.Name))
			}
			fmt.Fprintf(p, "<details%s%s><summary><span role=\"heading\" aria-level=\"3\"%s>%s%s</span></summary>\n", name, open, class(x.Tone), x.Tone.Mark(), quoted(x.Title))
			p.blocks(x.Blocks)
			p.WriteString("</details>\n")
		case Worked:
			text, err := page.CheckHTML(&x.Check, workedLevel)
			p.WriteString(legal(text) + "\n")
			if p.err == nil {
				p.err = err
			}
		case Break:
			p.WriteString("<div class=\"break\"></div>\n")
		}
	}
}

func (l List) html(b *htmlPage) {
	tag, open := "ul", "<ul>"
	switch {
	case l.Numbered:
		tag, open = "ol", "<ol>"
	case l.Ticks:
		open = `<ul class="ticks">`
	}
	b.WriteString(open + "\n")
	for _, item := range l.Items {
		if l.Ticks {
			fmt.Fprintf(b, "<li><label><input type=\"checkbox\"> %s</label></li>\n", quoted(item))
		} else {
			fmt.Fprintf(b, "<li>%s</li>\n", quoted(item))
		}
	}
	b.WriteString("</" + tag + ">\n")
}

func (t Table) html(b *htmlPage) {
	fmt.Fprintf(b, "<div class=\"wide\" tabindex=\"0\" role=\"group\" aria-label=\"%s\"><table>\n", quoted(cmp.Or(t.Caption, "Table")))
	if t.Caption != "" {
		fmt.Fprintf(b, "<caption>%s</caption>\n", quoted(t.Caption))
	}
	b.WriteString("<thead><tr>")
	for i, cell := range t.Head {
		fmt.Fprintf(b, "<th scope=\"col\"%s>%s</th>", t.right(i), quoted(cell))
	}
	b.WriteString("</tr></thead>\n<tbody>\n")
	for r, row := range t.Rows {
		tone := Plain
		if r < len(t.Tones) {
			tone = t.Tones[r]
		}
		fmt.Fprintf(b, "<tr%s>", class(tone))
		for i, cell := range row {
			if t.empty(i) {
				b.WriteString(`<td class="write"></td>`)
				continue
			}
			fmt.Fprintf(b, "<td%s>%s</td>", t.right(i), quoted(cell))
		}
		b.WriteString("</tr>\n")
	}
	b.WriteString("</tbody></table></div>\n")
}

func (t Table) right(i int) string {
	if i < len(t.Right) && t.Right[i] {
		return ` class="right"`
	}
	return ""
}

// empty tells whether a column is left to be written in by hand.
func (t Table) empty(i int) bool {
	for _, row := range t.Rows {
		if i < len(row) && row[i] != "" {
			return false
		}
	}
	return true
}

// quoted is a text that HTML takes for nothing else.
func quoted(text string) string { return html.EscapeString(legal(text)) }

// legal replaces what no page may hold.
func legal(text string) string {
	return strings.Map(func(r rune) rune {
		if r < ' ' && r != '\t' && r != '\n' {
			return '\uFFFD'
		}
		return r
	}, strings.ToValidUTF8(text, "\uFFFD"))
}
