package canonical

import (
	"strings"
	"unicode/utf8"
)

// commentColumn is how many columns stand before a comment at the end of a
// line, where they suffice.
const commentColumn = 38

const inset = "  "

// print writes the document.
func (d *document) print() []byte {
	p := &printer{}
	p.apart("", d.head)
	for i := range d.list {
		s := &d.list[i]
		indent := strings.Repeat(inset, s.depth())
		p.apart(indent, s.lead)
		p.gap()
		p.comment(indent, s.above)
		p.line(indent, s.header)
		if len(s.body) > 0 {
			p.paragraph(indent, s.body[0])
			p.apart(indent, s.body[1:])
		}
	}
	p.apart("", d.tail)
	p.flush()
	return []byte(p.out.String())
}

type printer struct {
	out     strings.Builder
	pending []row // lines next to each other, whose comments are set below each other
}

// A row is a line and its comment, still apart.
type row struct{ text, comment string }

// gap puts a blank line after what has been written.
func (p *printer) gap() {
	p.flush()
	if p.out.Len() > 0 {
		p.out.WriteByte('\n')
	}
}

// apart writes paragraphs, each after a blank line.
func (p *printer) apart(indent string, list []paragraph) {
	for _, one := range list {
		p.gap()
		p.paragraph(indent, one)
	}
}

func (p *printer) paragraph(indent string, one paragraph) {
	for _, pair := range one.pairs {
		p.comment(indent, pair.above)
		p.line(indent, pair.line)
	}
	p.comment(indent, one.below)
}

func (p *printer) comment(indent string, lines []string) {
	for _, text := range lines {
		p.pending = append(p.pending, row{text: indent + text})
	}
}

func (p *printer) line(indent string, l line) {
	p.pending = append(p.pending, row{indent + l.text, l.comment})
}

// flush writes the pending rows.
func (p *printer) flush() {
	column := commentColumn
	for _, r := range p.pending {
		if r.comment != "" && !strings.Contains(r.text, "\n") {
			column = max(column, utf8.RuneCountInString(r.text)+2)
		}
	}
	for _, r := range p.pending {
		p.out.WriteString(r.text)
		if r.comment != "" {
			blanks := 2
			if !strings.Contains(r.text, "\n") {
				blanks = column - utf8.RuneCountInString(r.text)
			}
			p.out.WriteString(strings.Repeat(" ", blanks))
			p.out.WriteString(r.comment)
		}
		p.out.WriteByte('\n')
	}
	p.pending = nil
}
