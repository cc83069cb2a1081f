package document

import (
	"fmt"
	"io"
	"strings"

	"casewright/cmd/casewright/internal/page"
)

// Markdown writes the document as Markdown with tables; a drawing is told by
// its title and its description.
func (d *Document) Markdown(w io.Writer) error {
	var b strings.Builder
	markdownBlocks(&b, d.Blocks)
	if d.Foot != "" {
		b.WriteString(page.Plain(d.Foot) + "\n")
	}
	_, err := io.WriteString(w, b.String())
	return err
}

func markdownBlocks(b *strings.Builder, blocks []Block) {
	for _, block := range blocks {
		switch x := block.(type) {
		case Heading:
			fmt.Fprintf(b, "%s %s\n\n", strings.Repeat("#", x.Level), page.Plain(x.Text))
		case Paragraph:
			text := x.Tone.Mark() + page.Plain(x.Text)
			if x.Tone != Plain && x.Tone != Code {
				text = "**" + text + "**"
			}
			b.WriteString(text + "\n\n")
		case List:
			for i, item := range x.Items {
				mark := "-"
				switch {
				case x.Numbered:
					mark = fmt.Sprintf("%d.", i+1)
				case x.Ticks:
					mark = "- [ ]"
				}
				fmt.Fprintf(b, "%s %s\n", mark, page.Plain(item))
			}
			b.WriteString("\n")
		case Table:
			x.markdown(b)
		case Figure:
			fmt.Fprintf(b, "*%s. %s %s*\n\n", page.Plain(x.Sheet.Title), page.Plain(x.Sheet.Description), page.Plain(x.Caption))
		case Fold:
			fmt.Fprintf(b, "### %s%s\n\n", x.Tone.Mark(), page.Plain(x.Title))
			markdownBlocks(b, x.Blocks)
		case Worked:
			b.WriteString(page.CheckMarkdown(&x.Check, workedLevel) + "\n\n")
		case Break:
			b.WriteString("---\n\n")
		}
	}
}

func (t Table) markdown(b *strings.Builder) {
	if t.Caption != "" {
		b.WriteString(page.Plain(t.Caption) + "\n\n")
	}
	line := func(cells []string) {
		b.WriteString("|")
		for _, cell := range cells {
			b.WriteString(" " + page.Plain(cell) + " |")
		}
		b.WriteString("\n")
	}
	line(t.Head)
	b.WriteString("|")
	for i := range t.Head {
		if i < len(t.Right) && t.Right[i] {
			b.WriteString(" ---: |")
		} else {
			b.WriteString(" --- |")
		}
	}
	b.WriteString("\n")
	for _, row := range t.Rows {
		line(row)
	}
	b.WriteString("\n")
}
