package drawing

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"casewright/cmd/casewright/internal/chart"
)

// Sizes of a chart, mm on its sheet.
const (
	plotWide   = 150.0
	plotHigh   = 90.0 // at least
	leaderLong = 8.0  // from the end of a line to its label
	sampleLong = 18.0 // of a line beside its name: longer than any of its dashes' turns
	nameLong   = 70.0 // of a name, at most
	steps      = 10   // of an axis, at most
)

// plot is a chart being drawn.
type plot struct {
	*Sheet
	chart         *chart.Chart
	times, values chart.Axis
	left, right   float64 // of the frame
	top, bottom   float64
}

// Chart draws lines over time. A line is known by its dashes and by the name at
// its end; of more than [Curves] lines two have the same dashes. In the picture
// each is marked as "series" and its name.
func Chart(c *chart.Chart) *Sheet {
	p := &plot{Sheet: &Sheet{Title: c.Title, Description: describe(c)}, chart: c, times: c.Times(steps), values: c.Values(steps)}
	labels := p.labels()
	p.layOut(labels)
	p.frame()
	p.marks()
	p.lines()
	p.write(labels)
	return p.Sheet
}

// at is the place of a point on the sheet.
func (p *plot) at(point chart.Point) Point {
	return Point{
		p.left + p.times.At(point.Time)*(p.right-p.left),
		p.bottom - p.values.At(point.Value)*(p.bottom-p.top),
	}
}

// layOut finds where everything stands, and how large the sheet is.
func (p *plot) layOut(labels []label) {
	c := p.chart
	p.times.Thin(func(text string) float64 { return (TextWidth(text, textSize) + 1.5) / plotWide })
	wide := widest(p.unit(), textSize)
	for _, t := range p.values.Ticks {
		wide = max(wide, widest(t.Label, textSize))
	}
	p.left = margins + wide + 2
	p.right = p.left + plotWide
	names := 0.0
	for _, l := range labels {
		names = max(names, widest(l.name, textSize))
	}
	// Beside the frame is room for the names of marks, too.
	p.Width = p.right + leaderLong + sampleLong + 2 + max(names, 30) + margins

	y := margins + 4
	p.Add(Text{At: Point{margins, y}, Text: fit(c.Title, p.Width-2*margins, 4), Size: 4, Bold: true})
	for _, text := range lines([]string{c.Note}, 0.9*(p.Width-2*margins), textSize) {
		y += lineStep
		p.Add(Text{At: Point{margins, y}, Text: fit(text, p.Width-2*margins, textSize), Size: textSize})
	}
	_, count := p.flags()
	p.top = y + 2 + laneStep*float64(max(1, count)) + 4
	p.bottom = p.top + max(plotHigh, laneStep*float64(len(labels)))
	p.Height = p.bottom + 2*lineStep + 2 + margins
}

func (p *plot) unit() string { return fit(p.chart.Unit, 30, textSize) }

// frame draws the axes.
func (p *plot) frame() {
	for _, t := range p.values.Ticks {
		y := p.at(chart.Point{Time: p.times.From, Value: t.Value}).Y
		p.Line(Point{p.left, y}, Point{p.right, y}, Grid)
		p.Add(Text{At: Point{p.left - 2, y + 0.36*textSize}, Text: t.Label, Size: textSize, Anchor: End})
	}
	p.Add(Text{At: Point{p.left - 2, p.top - laneStep}, Text: p.unit(), Size: textSize, Anchor: End})
	for _, t := range p.times.Ticks {
		x := p.at(chart.Point{Time: t.Value}).X
		p.Line(Point{x, p.top}, Point{x, p.bottom}, Grid)
		p.Add(Text{At: Point{x, p.bottom + lineStep}, Text: t.Label, Size: textSize, Anchor: Middle})
	}
	p.Add(
		Text{At: Point{(p.left + p.right) / 2, p.bottom + 2*lineStep + 1}, Text: p.times.Title(), Size: textSize, Anchor: Middle},
		Path{Points: []Point{{p.left, p.top}, {p.right, p.top}, {p.right, p.bottom}, {p.left, p.bottom}}, Closed: true, Style: Thin, ID: "frame"},
	)
}

// A flag is the name of a mark, to the right of its line.
type flag struct {
	x    float64
	text string
	lane int // from the frame upwards
}

// flags are the names of the marks, from the right to the left, each above those
// over which it reaches: their lines end below it.
func (p *plot) flags() (list []flag, lanes int) {
	_, marks := p.chart.Drawn()
	for _, m := range marks {
		x := p.at(chart.Point{Time: m.Time}).X
		told := ", " + chart.Time(m.Time)
		list = append(list, flag{x: x, text: fit(m.Name, p.Width-margins-x-3-widest(told, textSize), textSize) + told})
	}
	slices.SortStableFunc(list, func(a, b flag) int { return cmp.Compare(b.x, a.x) })
	for i := range list {
		for _, other := range list[:i] {
			if other.x < list[i].x+3+widest(list[i].text, textSize) {
				list[i].lane = max(list[i].lane, other.lane+1)
			}
		}
		lanes = max(lanes, list[i].lane+1)
	}
	return list, lanes
}

func (p *plot) marks() {
	list, _ := p.flags()
	for _, f := range list {
		y := p.top - 2 - laneStep*float64(f.lane)
		p.Line(Point{f.x, p.bottom}, Point{f.x, y - 0.75*textSize}, Thin)
		p.Add(Text{At: Point{f.x + 1.2, y}, Text: f.text, Size: textSize})
	}
}

// curve is the style of the curve with a number, from 0.
func curve(i int) Style { return Curve + Style(i%Curves) }

// lines draws the limits and the lines; a point that stands alone is a ring.
func (p *plot) lines() {
	levels, _ := p.chart.Drawn()
	for _, l := range levels {
		y := p.at(chart.Point{Value: l.Value}).Y
		p.Add(Path{Points: []Point{{p.left, y}, {p.right, y}}, Style: Hidden, ID: "level " + l.Name})
	}
	for i := range p.chart.Series {
		s := &p.chart.Series[i]
		for _, piece := range s.Pieces() {
			points := make([]Point, len(piece))
			for k, at := range piece {
				points[k] = p.at(at)
			}
			if len(points) == 1 {
				p.Add(Circle{Centre: points[0], R: 0.7, Style: curve(i), ID: "series " + s.Name})
				continue
			}
			p.Add(Path{Points: points, Style: curve(i), ID: "series " + s.Name})
		}
	}
}

// A label names a line at its end.
type label struct {
	name  string
	style Style
	end   chart.Point
	bare  bool // there is no line
}

// labels are those of the lines, then those of the limits.
func (p *plot) labels() (list []label) {
	for i := range p.chart.Series {
		s := &p.chart.Series[i]
		l := label{name: fit(s.Name, nameLong, textSize), style: curve(i), end: chart.Point{Value: p.values.From}}
		if sum, ok := s.Summary(); ok {
			l.end = sum.Last
		} else {
			l.name, l.bare = fit(s.Name, nameLong-widest(noValues, textSize), textSize)+noValues, true
		}
		list = append(list, l)
	}
	levels, _ := p.chart.Drawn()
	for _, l := range levels {
		told := ", " + p.chart.With(chart.Number(l.Value))
		told = fit(told, nameLong/2, textSize)
		list = append(list, label{name: fit(l.Name, nameLong-widest(told, textSize), textSize) + told, style: Hidden, end: chart.Point{Time: p.times.To, Value: l.Value}})
	}
	return list
}

const noValues = ": no values"

// write writes the labels as near to the ends of their lines as they have room.
func (p *plot) write(labels []label) {
	wanted := make([]float64, len(labels))
	for i, l := range labels {
		wanted[i] = p.at(l.end).Y
	}
	for i, y := range chart.Spread(wanted, laneStep, p.top+laneStep/2, p.bottom-laneStep/2) {
		l := labels[i]
		x := p.right + leaderLong
		if !l.bare {
			end := p.at(l.end)
			p.Add(Path{Points: []Point{end, {p.right, end.Y}, {x, y}}, Style: Dimension, ID: "leader"})
			p.Line(Point{x, y}, Point{x + sampleLong, y}, l.style)
		}
		p.Add(Text{At: Point{x + sampleLong + 2, y + 0.36*textSize}, Text: l.name, Size: textSize})
	}
}

// describe tells in words what the lines show.
func describe(c *chart.Chart) string {
	told := []string{}
	for i := range c.Series {
		s := &c.Series[i]
		name := clip(s.Name, 60)
		sum, ok := s.Summary()
		if !ok {
			told = append(told, name+noValues+".")
			continue
		}
		point := func(at chart.Point) string {
			return c.With(chart.Number(at.Value)) + " at " + chart.Time(at.Time)
		}
		told = append(told, fmt.Sprintf("%s: %s, highest %s, last %s.", name, point(sum.First), point(sum.Highest), point(sum.Last)))
	}
	levels, marks := c.Drawn()
	for _, l := range levels {
		told = append(told, fmt.Sprintf("Limit %s: %s.", clip(l.Name, 60), c.With(chart.Number(l.Value))))
	}
	for _, m := range marks {
		told = append(told, fmt.Sprintf("%s at %s.", clip(m.Name, 60), chart.Time(m.Time)))
	}
	return strings.Join(append([]string{"Lines over time."}, told...), " ")
}
