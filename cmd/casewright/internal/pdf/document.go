package pdf

import (
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"

	"casewright/cmd/casewright/internal/document"
	"casewright/cmd/casewright/internal/drawing"
	"casewright/cmd/casewright/internal/lettering"
)

// Sizes on a page, mm.
const (
	edge     = 20.0 // left blank on the left, on the right and at the top
	foot     = 26.0 // of the page's end: the foot and the number of the page
	body     = 3.5  // height of letters
	small    = 2.8
	cellSize = 3.1
	lead     = 1.4 // from line to line, in heights of letters
	indent   = 7.0 // of an item of a list
	caption  = 24.0
	least    = 100.0 // the smallest paper
	letters  = 2.0   // of a figure, the lowest that are read with ease
)

// headings are the heights of letters by level.
var headings = [...]float64{1: 6.3, 2: 5, 3: 4.2, 4: 3.7}

// Fit is the scale at which [Document] draws a figure of a sheet: 1, or what
// makes it as wide or as high as it may be. A sheet without a size has 1.
func (p Paper) Fit(s *drawing.Sheet) float64 {
	if s == nil || !side(s.Width) || !side(s.Height) {
		return 1
	}
	return min(1, (p.Width-2*edge)/s.Width, (p.Height-edge-foot-caption)/s.Height)
}

// Document writes a document on pages of the paper, with its headings as
// outline and its foot and "2 of 5" at the end of each page. A head of a table
// stands again on each page that it goes on to; a figure that is too large is
// drawn at the scale that [Paper.Fit] gives, on a page of its own turned to lie
// where its letters would be lower than 2 mm and are higher there. A foot of more than three lines
// is cut. It is an error if a side of the paper is not 100 mm to 5080 mm, or
// if a figure cannot be drawn.
func Document(out io.Writer, d *document.Document, paper Paper) error {
	if !side(paper.Width) || !side(paper.Height) || min(paper.Width, paper.Height) < least {
		return fmt.Errorf("%g mm × %g mm is no size of paper; each side is %g mm to %d mm", paper.Width, paper.Height, least, largest)
	}
	l := &layout{writer: newWriter(d.Title)}
	l.lay(paper)
	if err := l.blocks(d.Blocks); err != nil {
		return err
	}
	if l.PageCount() == 0 {
		l.newPage()
	}
	l.feet(d.Foot)
	return l.Output(out)
}

// A layout fills pages from the top.
type layout struct {
	*writer
	paper       Paper
	left, width float64
	y, bottom   float64
	fresh       bool    // a new page is to begin with what comes next
	papers      []Paper // of the pages
	level       int     // of the last heading in the outline, from 1; 0 before it
}

// lay takes up the paper of the pages to come.
func (l *layout) lay(p Paper) {
	l.paper, l.left, l.width, l.y, l.bottom = p, edge, p.Width-2*edge, edge, p.Height-foot
}

func (l *layout) newPage() {
	l.page(l.paper.Width, l.paper.Height)
	l.papers = append(l.papers, l.paper)
	l.y, l.fresh = edge, false
}

// room begins a new page if there is not so much of it left, unless the page
// is empty.
func (l *layout) room(height float64) {
	if l.PageCount() == 0 || l.y > edge && (l.fresh || l.y+height > l.bottom) {
		l.newPage()
	}
	l.fresh = false
}

// gap leaves a blank, except at the top of a page.
func (l *layout) gap(height float64) {
	if l.y > edge {
		l.y += height
	}
}

func (l *layout) blocks(blocks []document.Block) error {
	for i, b := range blocks {
		switch b := b.(type) {
		case document.Heading:
			level := min(max(b.Level, 1), len(headings)-1)
			l.heading(b.Text, level, l.start(blocks[i+1:]), true)
		case document.Paragraph:
			l.paragraph(b)
		case document.List:
			l.list(b)
		case document.Table:
			l.table(b)
		case document.Figure:
			if err := check(b.Sheet); err != nil {
				return fmt.Errorf("figure %q: %w", b.Caption, err)
			}
			l.figure(b)
		case document.Fold:
			l.heading(b.Tone.Mark()+b.Title, len(headings)-1, l.start(b.Blocks), false)
			if err := l.blocks(b.Blocks); err != nil {
				return err
			}
		case document.Worked:
			if err := l.blocks(b.Blocks()); err != nil {
				return err
			}
		case document.Break:
			l.fresh = true
		default:
			return fmt.Errorf("%T is no block", b)
		}
	}
	return nil
}

// start is about how much of a page is needed by the first of the blocks, so
// that no heading stands alone at the end of a page.
func (l *layout) start(blocks []document.Block) float64 {
	if len(blocks) == 0 {
		return 0
	}
	switch b := blocks[0].(type) {
	case document.Figure:
		if b.Sheet != nil && !l.paper.turns(b.Sheet) {
			return l.paper.Fit(b.Sheet)*b.Sheet.Height + 3*body*lead
		}
	case document.Heading, document.Fold:
		return 6 * body * lead
	case document.Table:
		return 6 * body * lead
	}
	return 2 * body * lead
}

// flow writes a text in lines, with a new page where one is full.
func (l *layout) flow(t *shaped, x, width, size float64, c colour) {
	for _, s := range t.wrap(width / size) {
		l.room(size * lead)
		l.print(x, l.y+size, t, s.from, s.to, size, c)
		l.y += size * lead
	}
}

// heading writes a heading, with so much room for what follows it.
func (l *layout) heading(text string, level int, follows float64, outlined bool) {
	size := headings[level]
	t := l.shape(text, bold)
	l.gap(0.9 * size)
	height := float64(len(t.wrap(l.width/size))) * size * lead
	l.room(min(height+0.3*size+follows, l.bottom-edge))
	if outlined {
		l.bookmark(text, level)
	}
	l.flow(t, l.left, l.width, size, black)
	l.y += 0.3 * size
}

// bookmark puts a heading that is about to be written into the outline. fpdf
// takes no level of which the one above is missing, and encodes by the font in
// use.
func (l *layout) bookmark(text string, level int) {
	l.level = min(level, l.level+1)
	l.use(bold, headings[level])
	l.Bookmark(lettering.Clean(text), l.level-1, l.y-2)
}

// inks are the colours of tones, whose marks stand before them.
var inks = [...]colour{document.Plain: black, document.Strong: black, document.Caution: {120, 70, 0}, document.Pass: {0, 90, 30}, document.Fail: dark, document.Code: black}

func faceOf(t document.Tone) face {
	switch t {
	case document.Strong:
		return bold
	case document.Code:
		return mono
	}
	return regular
}

func (l *layout) paragraph(p document.Paragraph) {
	x, width := l.left, l.width
	l.gap(0.3 * body)
	l.room(body * lead)
	tone := p.Tone
	if int(tone) >= len(inks) {
		tone = document.Plain
	}
	if mark := tone.Mark(); mark != "" {
		t := l.shape(strings.TrimSpace(mark), regular)
		l.print(x, l.y+body, t, 0, len(t.Runes), body, inks[tone])
		x, width = x+indent, width-indent
	}
	l.flow(l.shape(p.Text, faceOf(p.Tone)), x, width, body, inks[tone])
	l.gap(0.3 * body)
}

func (l *layout) list(list document.List) {
	number := 0.0 // width of the last number
	if list.Numbered {
		t := l.shape(strconv.Itoa(len(list.Items))+".", regular)
		number = body * t.width(0, len(t.Runes))
	}
	l.gap(0.3 * body)
	for i, item := range list.Items {
		l.room(body * lead)
		x := l.left + 1
		if list.Ticks {
			l.pen(drawing.Thin)
			l.Rect(x, l.y+0.1*body, body, body, "D")
			x += indent
		}
		if list.Numbered {
			t := l.shape(strconv.Itoa(i+1)+".", regular)
			l.print(x+number-body*t.width(0, len(t.Runes)), l.y+body, t, 0, len(t.Runes), body, black)
			x += number + 2
		}
		if !list.Ticks && !list.Numbered {
			t := l.shape("•", regular)
			l.print(x, l.y+body, t, 0, len(t.Runes), body, black)
			x += indent - 2
		}
		l.flow(l.shape(item, regular), x, l.left+l.width-x, body, black)
		l.gap(0.25 * body)
	}
	l.gap(0.3 * body)
}

// turned is the paper on its side.
func (p Paper) turned() Paper { return Paper{p.Height, p.Width} }

// turns tells whether a figure has a page of its own, turned.
func (p Paper) turns(s *drawing.Sheet) bool {
	lowest := math.Inf(1)
	for _, shape := range s.Shapes {
		if t, ok := shape.(drawing.Text); ok {
			lowest = min(lowest, t.Size)
		}
	}
	upright := p.Fit(s)
	return upright*lowest < letters && p.turned().Fit(s) > upright
}

func (l *layout) figure(f document.Figure) {
	if upright := l.paper; upright.turns(f.Sheet) {
		l.lay(upright.turned())
		l.newPage()
		defer func() {
			l.lay(upright)
			l.y, l.fresh = l.bottom, true
		}()
	}
	scale := l.paper.Fit(f.Sheet)
	width, height := scale*f.Sheet.Width, scale*f.Sheet.Height
	l.gap(body)
	l.room(height + min(caption-1, 2*body*lead))
	l.ClipRect(l.left, l.y, width, height, false)
	l.sheet(f.Sheet, frame{l.left, l.y, scale})
	l.ClipEnd()
	l.y += height + 1
	l.captioned(f.Caption)
	l.gap(body)
}

func (l *layout) captioned(text string) {
	if text != "" {
		l.flow(l.shape(text, regular), l.left, l.width, small, black)
		l.y += 1
	}
}

// feet writes the foot and the number of each page, when their count is known.
func (l *layout) feet(text string) {
	const lines = 3
	count := l.PageCount()
	t := l.shape(text, regular)
	for page := 1; page <= count; page++ {
		l.SetPage(page)
		width, bottom := l.papers[page-1].Width-2*edge, l.papers[page-1].Height-foot
		number := l.shape(fmt.Sprintf("%d of %d", page, count), regular)
		// fpdf counts y from the top of the last page, however high this one is.
		y := bottom + 7 + small + l.papers[count-1].Height - l.papers[page-1].Height
		taken := small * number.width(0, len(number.Runes))
		l.print(l.left+width-taken, y, number, 0, len(number.Runes), small, black)
		spans := t.wrap((width - taken - 6) / small)
		for i, s := range spans[:min(lines, len(spans))] {
			l.print(l.left, y+float64(i)*small*lead, t, s.from, s.to, small, black)
		}
	}
}
