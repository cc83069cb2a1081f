package pdf

import (
	"slices"
	"strings"

	"casewright/cmd/casewright/internal/document"
	"casewright/cmd/casewright/internal/drawing"
)

// Sizes in a table, mm.
const (
	pad     = 1.4  // left blank about the text of a cell
	hand    = 30.0 // the least width of a column to write in
	written = 9.0  // the least height of a row to write in
	wide    = 45.0 // a word may be broken that is wider
)

// tints are the colours of rows, whose cells have the word for it.
var tints = [...]colour{
	document.Plain:   white,
	document.Strong:  {235, 235, 235},
	document.Caution: {252, 243, 215},
	document.Pass:    {228, 243, 228},
	document.Fail:    {250, 224, 221},
	document.Code:    white,
}

var headTint = colour{220, 220, 220}

// A grid is a table that is being laid out.
type grid struct {
	*layout
	widths []float64 // of the columns
	right  []bool
	blank  []bool // columns to write in
	rows   []row  // the head first
}

// A row is the texts of a line of a table, and the lines of each.
type row struct {
	cells []*shaped
	lines [][]span
	tint  colour
	least float64 // height
}

func (l *layout) table(t document.Table) {
	columns := len(t.Head)
	for _, r := range t.Rows {
		columns = max(columns, len(r))
	}
	if columns == 0 {
		return
	}
	g := &grid{layout: l, right: make([]bool, columns), blank: make([]bool, columns)}
	copy(g.right, t.Right)
	for c := range g.blank {
		g.blank[c] = len(t.Rows) > 0 && !slices.ContainsFunc(t.Rows, func(r []string) bool { return c < len(r) && r[c] != "" })
	}
	least := 0.0
	if slices.Contains(g.blank, true) {
		least = written
	}
	g.rows = append(g.rows, g.row(t.Head, bold, headTint, 0))
	for i, r := range t.Rows {
		tone := document.Plain
		if i < len(t.Tones) && int(t.Tones[i]) < len(tints) {
			tone = t.Tones[i]
		}
		g.rows = append(g.rows, g.row(r, faceOf(tone), tints[tone], least))
	}
	g.size()
	l.gap(0.5 * body)
	if t.Caption != "" {
		l.room(small*lead + g.rows[0].height(0) + written)
		l.captioned(t.Caption)
	}
	g.write()
	l.gap(0.8 * body)
}

func (g *grid) row(cells []string, f face, tint colour, least float64) row {
	r := row{cells: make([]*shaped, len(g.blank)), tint: tint, least: least}
	for c := range r.cells {
		text := ""
		if c < len(cells) {
			text = cells[c]
		}
		if g.right[c] && len(g.rows) > 0 { // a number stays with its unit
			text = strings.ReplaceAll(text, " ", "\u00a0")
		}
		r.cells[c] = g.shape(text, f)
	}
	return r
}

// size gives the columns their widths by what they hold, and the cells their
// lines: as wide as the widest cell if all have room, else at least as wide as
// the widest word, up to a limit, else what can be had.
func (g *grid) size() {
	words, all := make([]float64, len(g.blank)), make([]float64, len(g.blank))
	for c := range g.blank {
		for _, r := range g.rows {
			word, whole := r.cells[c].widest()
			words[c], all[c] = max(words[c], word), max(all[c], whole)
		}
		words[c], all[c] = min(wide, words[c]*cellSize)+2*pad+0.01, all[c]*cellSize+2*pad+0.01
		if g.blank[c] {
			words[c], all[c] = max(words[c], hand), max(all[c], hand)
		}
	}
	g.widths = shares(words, all, g.width)
	if spare := g.width - sum(g.widths); spare > 0 {
		blanks := 0
		for _, b := range g.blank {
			if b {
				blanks++
			}
		}
		for c, b := range g.blank {
			if b {
				g.widths[c] += spare / float64(blanks)
			}
		}
	}
	for i := range g.rows {
		r := &g.rows[i]
		for c, cell := range r.cells {
			r.lines = append(r.lines, cell.wrap(max(0, g.widths[c]-2*pad)/cellSize))
		}
	}
}

// shares divides a width: what each column wants if there is so much, else at
// least what each needs, and more in proportion to what it wants; else what
// each needs up to a width that is the same for all that need more.
func shares(need, want []float64, width float64) []float64 {
	out := slices.Clone(want)
	needed, wanted := sum(need), sum(want)
	switch {
	case wanted <= width:
	case needed <= width:
		for i := range out {
			out[i] = need[i] + (want[i]-need[i])*(width-needed)/(wanted-needed)
		}
	default:
		order := slices.Clone(need)
		slices.Sort(order)
		left, most := width, 0.0
		for i, n := range order {
			most = left / float64(len(order)-i)
			if n > most {
				break
			}
			left -= n
		}
		for i := range out {
			out[i] = min(need[i], most)
		}
	}
	return out
}

func sum(list []float64) (total float64) {
	for _, x := range list {
		total += x
	}
	return total
}

// count is how many lines the cells have at most.
func (r *row) count() (most int) {
	for _, lines := range r.lines {
		most = max(most, len(lines))
	}
	return most
}

// height is that of the row from one of its lines on.
func (r *row) height(from int) float64 {
	return max(r.least, float64(r.count()-from)*cellSize*lead+2*pad)
}

// again is whether the head is low enough to stand on each page.
func (g *grid) again() bool { return g.rows[0].height(0) < (g.bottom-edge)/3 }

func (g *grid) write() {
	first := 0.0 // what must stand below the head
	if len(g.rows) > 1 {
		first = min(g.rows[1].height(0), g.split())
	}
	g.room(g.rows[0].height(0) + first)
	g.whole(&g.rows[0], func() {})
	for i := range g.rows[1:] {
		g.whole(&g.rows[i+1], func() {
			if g.again() {
				g.part(&g.rows[0], 0, g.rows[0].count())
			}
		})
	}
}

// split is the least height of a part of a row that is higher than a page.
func (g *grid) split() float64 { return 3*cellSize*lead + 2*pad }

// whole writes a row, on a new page if this one has no room for it, and in
// parts if none has. begin writes what each new page begins with.
func (g *grid) whole(r *row, begin func()) {
	room := g.bottom - edge // on a new page
	if g.again() {
		room -= g.rows[0].height(0)
	}
	for from := 0; ; {
		height := r.height(from)
		if height > room {
			height = g.split()
		}
		if g.y > edge && g.y+height > g.bottom {
			g.newPage()
			begin()
		}
		to := r.count()
		if g.y+r.height(from) > g.bottom {
			to = min(to, from+max(1, int((g.bottom-g.y-2*pad)/(cellSize*lead))))
		}
		g.part(r, from, to)
		if to == r.count() {
			return
		}
		from = to
	}
}

// part writes lines of a row.
func (g *grid) part(r *row, from, to int) {
	height := float64(to-from)*cellSize*lead + 2*pad
	if to == r.count() {
		height = r.height(from)
	}
	width := sum(g.widths)
	if r.tint != white {
		g.SetFillColor(r.tint[0], r.tint[1], r.tint[2])
		g.Rect(g.left, g.y, width, height, "F")
	}
	g.pen(drawing.Thin)
	g.Line(g.left, g.y, g.left+width, g.y) // again, if the tint lies over it
	g.Line(g.left, g.y+height, g.left+width, g.y+height)
	x := g.left
	for c, cell := range r.cells {
		if g.blank[c] {
			g.pen(drawing.Thin)
			g.Line(x, g.y, x, g.y+height)
			g.Line(x+g.widths[c], g.y, x+g.widths[c], g.y+height)
		}
		for i := from; i < min(to, len(r.lines[c])); i++ {
			s := r.lines[c][i]
			at := x + pad
			if g.right[c] {
				at = x + g.widths[c] - pad - cellSize*cell.width(s.from, s.to)
			}
			g.print(at, g.y+pad+float64(i-from)*cellSize*lead+cellSize, cell, s.from, s.to, cellSize, black)
		}
		x += g.widths[c]
	}
	g.y += height
}
