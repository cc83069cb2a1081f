package document

import (
	"fmt"
	"html"
	"io"
	"strings"
)

const style = `
:root{--ink:#1d2730;--soft:#55626e;--line:#cfd6dc;--paper:#fff;--good:#1f6b3a;--bad:#a3201c;--warn:#6b5300;color-scheme:light dark}
@media screen and (prefers-color-scheme:dark){:root{--ink:#e6eaee;--soft:#a9b4be;--line:#3a444d;--paper:#15191d;--good:#7fd19a;--bad:#ff9a94;--warn:#e2c46a}}
body{color:var(--ink);background:var(--paper);font:16px/1.5 system-ui,"Noto Sans","DejaVu Sans",sans-serif;max-width:60rem;margin:2rem auto;padding:0 1rem;overflow-wrap:anywhere}
h1{font-size:1.6rem}h2{font-size:1.25rem;border-top:2px solid var(--line);padding-top:1rem}h3{font-size:1.05rem}
.strong{font-weight:700}.pass{color:var(--good);font-weight:700}.fail{color:var(--bad);font-weight:700}.caution{color:var(--warn);font-weight:700}.code{font-family:ui-monospace,"DejaVu Sans Mono",monospace}
.wide{overflow-x:auto}table{border-collapse:collapse;width:100%}caption{text-align:left;color:var(--soft)}th,td{text-align:left;vertical-align:top;padding:.25rem .8rem .25rem 0;border-bottom:1px solid var(--line);overflow-wrap:normal}
th{font-size:.85rem;color:var(--soft)}.right{text-align:right}td.right{white-space:nowrap}td.write{min-width:7rem;border-bottom:1px solid var(--ink)}
ul.ticks{list-style:none;padding-left:0}ul.ticks label{display:block;padding:.15rem 0}
figure{margin:1rem 0}figure svg{width:100%;height:auto}figcaption,footer{color:var(--soft)}summary{cursor:pointer;font-weight:600}
@media print{body{margin:0;max-width:none;font-size:10.5pt}tr,figure{break-inside:avoid}.break{break-before:page}details>*{display:block}}
`

// HTML writes the document as one page without any reference to elsewhere,
// which needs no script.
func (d *Document) HTML(w io.Writer) error {
	var b strings.Builder
	fmt.Fprintf(&b, "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n<title>%s</title>\n<style>%s</style>\n</head>\n<body>\n<main>\n", quoted(d.Title), style)
	htmlBlocks(&b, d.Blocks)
	fmt.Fprintf(&b, "</main>\n<footer><p>%s</p></footer>\n</body>\n</html>\n", quoted(d.Foot))
	_, err := io.WriteString(w, b.String())
	return err
}

// toneClasses are the classes of tones, toneMarks the signs that stand before
// them: colour never stands alone.
var (
	toneClasses = [...]string{Plain: "", Strong: "strong", Caution: "caution", Pass: "pass", Fail: "fail", Code: "code"}
	toneMarks   = [...]string{Plain: "", Strong: "", Caution: "⚠ ", Pass: "✓ ", Fail: "✗ ", Code: ""}
)

func class(t Tone) string {
	if toneClasses[t] == "" {
		return ""
	}
	return ` class="` + toneClasses[t] + `"`
}

func htmlBlocks(b *strings.Builder, blocks []Block) {
	for _, block := range blocks {
		switch x := block.(type) {
		case Heading:
			fmt.Fprintf(b, "<h%d>%s</h%d>\n", x.Level, quoted(x.Text), x.Level)
		case Paragraph:
			fmt.Fprintf(b, "<p%s>%s%s</p>\n", class(x.Tone), toneMarks[x.Tone], quoted(x.Text))
		case List:
			x.html(b)
		case Table:
			x.html(b)
		case Figure:
			fmt.Fprintf(b, "<figure>%s<figcaption>%s</figcaption></figure>\n", x.Sheet.Inline(false), quoted(x.Caption))
		case Fold:
			fmt.Fprintf(b, "<details><summary>%s</summary>\n", quoted(x.Title))
			htmlBlocks(b, x.Blocks)
			b.WriteString("</details>\n")
		case Break:
			b.WriteString("<div class=\"break\"></div>\n")
		}
	}
}

func (l List) html(b *strings.Builder) {
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

func (t Table) html(b *strings.Builder) {
	b.WriteString("<div class=\"wide\"><table>\n")
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
func quoted(text string) string {
	return html.EscapeString(strings.Map(func(r rune) rune {
		if r < ' ' && r != '\t' && r != '\n' {
			return '\uFFFD'
		}
		return r
	}, strings.ToValidUTF8(text, "\uFFFD")))
}
