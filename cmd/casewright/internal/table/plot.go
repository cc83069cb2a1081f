package table

import (
	"io"
	"math"
	"slices"
	"strconv"
	"strings"

	"github.com/olekukonko/tablewriter/pkg/twwidth"
	"github.com/olekukonko/tablewriter/tw"

	"casewright/cmd/casewright/internal/chart"
	"casewright/cmd/casewright/internal/lettering"
)

// Sizes of a plot, in columns and rows.
const (
	plotRows   = 20
	leastWidth = 60
	mostWidth  = 200
	mostEnds   = 12 // letters of lines that end beside each other
)

// Plot writes lines over time in characters, as wide as the options say, 60 to
// 200 columns: in dots of which a character has eight, or plain ASCII. A letter
// stands for a line, a capital for a limit, a number for a mark; all are named
// below, with what the lines reach.
func Plot(w io.Writer, c *chart.Chart, o Options) error {
	p := &plot{page: page{options: o}, chart: c, width: max(leastWidth, min(mostWidth, o.Width))}
	p.options.Width = p.width
	p.head()
	p.layOut()
	p.limits()
	p.lines()
	p.write()
	if err := p.legend(); err != nil {
		return err
	}
	_, err := io.WriteString(w, p.text.String())
	return err
}

// plot is a chart being written.
type plot struct {
	page
	chart         *chart.Chart
	width         int
	times, values chart.Axis
	left          int // columns before the axis
	screen
	ends [plotRows]string // letters of what ends there
}

// clean is a text as it may stand in a line.
func (p *plot) clean(text string) string { return p.signs(lettering.Clean(text)) }

// cut shortens a text to so many columns.
func (p *plot) cut(text string, columns int) string {
	text = p.clean(text)
	if twwidth.Width(text) <= columns {
		return text
	}
	more := p.signs("…")
	return twwidth.Truncate(text, max(0, columns-twwidth.Width(more))) + more
}

func (p *plot) head() {
	p.line("%s", p.cut(p.chart.Title, p.width))
	if p.chart.Note != "" {
		for line := range strings.Lines(p.note()) {
			p.line("%s", p.cut(strings.TrimSuffix(line, "\n"), p.width))
		}
	}
	p.line("")
}

func (p *plot) note() string {
	b := page{options: p.options}
	b.wrapped("", 0, p.clean(p.chart.Note))
	return b.text.String()
}

// letter stands for a line or, in capitals, for a limit.
func letter(i int, first rune) rune {
	if i >= 26 {
		return '?'
	}
	return first + rune(i)
}

// layOut finds the axes, and how much room they leave.
func (p *plot) layOut() {
	p.times, p.values = p.chart.Times(8), p.chart.Values(8)
	p.left = twwidth.Width(p.unit())
	for _, t := range p.values.Ticks {
		p.left = max(p.left, len(t.Label))
	}
	// Rows do not hang on the number of columns.
	p.screen = newScreen(1, p.options.ASCII)
	for i := range p.chart.Series {
		if sum, ok := p.chart.Series[i].Summary(); ok && p.times.At(sum.Last.Time) > 0.98 {
			p.end(sum.Last.Value, letter(i, 'a'))
		}
	}
	levels, _ := p.chart.Drawn()
	for i, l := range levels {
		p.end(l.Value, letter(i, 'A'))
	}
	ends := 0
	for _, text := range p.ends {
		ends = max(ends, len(text))
	}
	p.screen = newScreen(p.width-p.left-2-1-ends, p.options.ASCII)
	p.times.Thin(func(label string) float64 { return float64(len(label)+2) / float64(p.columns) })
}

// end has a letter stand at the end of the row of a value.
func (p *plot) end(value float64, letter rune) {
	at := &p.ends[p.row(value)]
	switch {
	case len(*at) < mostEnds:
		*at += string(letter)
	default:
		*at = (*at)[:mostEnds-1] + "+"
	}
}

func (p *plot) unit() string { return p.cut(p.chart.Unit, 12) }

// row and column are those of a value and of a time.
func (p *plot) row(value float64) int   { return p.dotAt(chart.Point{Value: value}).y / p.high }
func (p *plot) column(time float64) int { return p.dotAt(chart.Point{Time: time}).x / p.wide }

// dotAt is the dot nearest to a point.
func (p *plot) dotAt(at chart.Point) spot {
	x, y := p.times.At(at.Time), 1-p.values.At(at.Value)
	return spot{nearestOf(x, p.columns*p.wide), nearestOf(y, plotRows*p.high)}
}

// nearestOf is the one of so many that is nearest to a part of the whole.
func nearestOf(part float64, count int) int {
	return max(0, min(count-1, int(math.Round(part*float64(count-1)))))
}

// limits draws the levels and the marks, behind the lines.
func (p *plot) limits() {
	levels, marks := p.chart.Drawn()
	for _, m := range marks {
		for row := range plotRows {
			p.at(p.column(m.Time), row).sign = p.sign('┊', ':')
		}
	}
	for _, l := range levels {
		for column := range p.columns {
			p.at(column, p.row(l.Value)).sign = p.sign('╌', '-')
		}
	}
}

func (p *plot) sign(fine, plain rune) rune {
	if p.options.ASCII {
		return plain
	}
	return fine
}

// lines draws the lines and puts their letters on them.
func (p *plot) lines() {
	for i := range p.chart.Series {
		for _, piece := range p.chart.Series[i].Pieces() {
			last := p.dotAt(piece[0])
			for _, at := range piece {
				next := p.dotAt(at)
				p.stroke(last, next, i)
				last = next
			}
		}
	}
	for i := range p.chart.Series {
		p.name(i)
	}
}

// name puts the letter of a line where it ends before the others, and, among
// dots, on the line here and there.
func (p *plot) name(i int) {
	s := &p.chart.Series[i]
	sum, ok := s.Summary()
	if !ok {
		return
	}
	if p.times.At(sum.Last.Time) <= 0.98 {
		d := p.dotAt(sum.Last)
		p.at(d.x/p.wide, d.y/p.high).letter = letter(i, 'a')
	}
	if p.options.ASCII {
		return
	}
	count := len(p.chart.Series)
	apart := max(16, 3*count)
	for column := (i*apart/count + apart/2) % apart; column < p.columns; column += apart {
		for row := range plotRows {
			if c := p.at(column, row); c.dots != 0 && c.line == i && c.letter == 0 {
				c.letter = letter(i, 'a')
				break
			}
		}
	}
}

// write writes what is drawn, with its axes.
func (p *plot) write() {
	p.line("%s", strings.TrimRight(padded(p.unit(), p.left)+p.numbers(), " "))
	labels := map[int]string{}
	for _, t := range p.values.Ticks {
		labels[p.row(t.Value)] = t.Label
	}
	for row := range plotRows {
		label, ticked := labels[row]
		axis := p.sign('│', '|')
		if ticked {
			axis = p.sign('┤', '+')
		}
		line := padded(label, p.left) + " " + string(axis) + p.screen.row(row, p.options.Colour)
		if ends := p.ends[row]; ends != "" {
			line += " " + p.coloured(ends)
		}
		p.line("%s", strings.TrimRight(line, " "))
	}
	p.foot()
}

// padded is a text to the right of a width.
func padded(text string, width int) string {
	return strings.Repeat(" ", max(0, width-twwidth.Width(text))) + text
}

// numbers are those of the marks, above them.
func (p *plot) numbers() string {
	_, marks := p.chart.Drawn()
	order := make([]int, len(marks))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return p.column(marks[a].Time) - p.column(marks[b].Time) })
	line := []byte(strings.Repeat(" ", 2))
	for _, i := range order {
		text := strconv.Itoa(i + 1)
		at := 2 + p.column(marks[i].Time)
		if at < len(line) && len(line) > 2 {
			at = len(line) + 1
		}
		if p.left+at+len(text) > p.width {
			break // the list below has the time
		}
		line = append(line, strings.Repeat(" ", at-len(line))+text...)
	}
	return strings.TrimRight(string(line), " ")
}

// foot writes the axis of time.
func (p *plot) foot() {
	axis := []rune(strings.Repeat(string(p.sign('─', '-')), p.columns))
	labels := []byte(strings.Repeat(" ", p.width))
	from := p.left + 2
	for _, t := range p.times.Ticks {
		column := p.column(t.Value)
		axis[column] = p.sign('┴', '+')
		at := max(0, min(p.width-len(t.Label), from+column-len(t.Label)/2))
		copy(labels[at:], t.Label)
	}
	p.line("%s %c%s", strings.Repeat(" ", p.left), p.sign('└', '+'), string(axis))
	p.line("%s", strings.TrimRight(string(labels), " "))
	title := p.times.Title()
	p.line("%s%s", strings.Repeat(" ", max(0, min(p.width-len(title), from+(p.columns-len(title))/2))), title)
}

// legend names lines, limits and marks.
func (p *plot) legend() error {
	levels, marks := p.chart.Drawn()
	values := "values"
	if p.chart.Unit != "" {
		values += " in " + p.chart.Unit
	}
	rows := [][]string{{"", values, "first", "highest", "at", "last"}}
	for i := range p.chart.Series {
		s := &p.chart.Series[i]
		cells := []string{string(letter(i, 'a')), s.Name, "none", "", "", ""}
		if sum, ok := s.Summary(); ok {
			cells = append(cells[:2], chart.Number(sum.First.Value), chart.Number(sum.Highest.Value), chart.Time(sum.Highest.Time), chart.Number(sum.Last.Value))
		}
		rows = append(rows, cells)
	}
	list, err := aligned(p.named(rows), []tw.Align{left, left, right, right, right, right})
	if err != nil {
		return err
	}
	p.line("")
	if len(p.chart.Series) > 0 {
		for i, line := range list {
			if i > 0 {
				name := string(letter(i-1, 'a'))
				line = p.coloured(name) + strings.TrimPrefix(line, name)
			}
			p.line("%s", line)
		}
	}
	for i, l := range levels {
		value := ", " + p.cut(p.chart.With(chart.Number(l.Value)), 24)
		p.line("%c  limit: %s%s", letter(i, 'A'), p.cut(l.Name, p.width-10-twwidth.Width(value)), value)
	}
	for i, m := range marks {
		number, time := strconv.Itoa(i+1), ", "+chart.Time(m.Time)
		p.line("%s  %s%s", number, p.cut(m.Name, p.width-len(number)-2-len(time)), time)
	}
	if p.options.ASCII && p.met {
		p.line("%c  more than one line", several)
	}
	return nil
}

// named are rows with their names, in the second column, cut to the room that the
// other columns leave.
func (p *plot) named(list [][]string) (rows []row) {
	room := p.width
	for i := range list[0] {
		if i != 1 {
			widest := 0
			for _, cells := range list {
				widest = max(widest, len(cells[i]))
			}
			room -= widest + 2
		}
	}
	for _, cells := range list {
		cells[1] = p.cut(cells[1], room)
		rows = append(rows, row{cells: cells})
	}
	return rows
}

// coloured gives the letters of lines the colours of their lines.
func (p *plot) coloured(letters string) string {
	if !p.options.Colour {
		return letters
	}
	var b strings.Builder
	for _, r := range letters {
		if r >= 'a' && r <= 'z' {
			b.WriteString(lineColour(int(r-'a')) + string(r) + plain)
		} else {
			b.WriteRune(r)
		}
	}
	return b.String()
}
