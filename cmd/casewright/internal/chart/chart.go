// Package chart holds lines over time and their axes, for whatever draws them.
package chart

import (
	"math"
	"strings"
)

// A Chart is lines over one time axis and one axis of values.
type Chart struct {
	Title  string
	Note   string // a sentence or two below the title; may be empty
	Unit   string // of all values, as "°C"
	Series []Series
	Levels []Level
	Marks  []Mark
	// Linear makes the time axis linear. By default it is logarithmic from a
	// tenth of the first mark on: a motor burns for seconds and soaks for
	// minutes.
	Linear bool
}

// A Series is a line: a value at each time, in s. What is no number, or beyond
// ±1e30, is not drawn, and the line has a gap there; so is what one of the two
// has beyond the length of the other.
type Series struct {
	Name        string
	Time, Value []float64
}

// A Level is a limit: a value at all times.
type Level struct {
	Name  string
	Value float64
}

// A Mark is a time, in s, at which something happens, as "burnout".
type Mark struct {
	Time float64
	Name string
}

// A Point is a value at a time, in s.
type Point struct{ Time, Value float64 }

// drawable tells whether a number has a place on an axis.
func drawable(x float64) bool { return math.Abs(x) <= 1e30 }

// Pieces are the points of a line, parted where it has a gap.
func (s *Series) Pieces() (list [][]Point) {
	var piece []Point
	for i := range min(len(s.Time), len(s.Value)) {
		if p := (Point{s.Time[i], s.Value[i]}); drawable(p.Time) && drawable(p.Value) {
			piece = append(piece, p)
			continue
		}
		if piece != nil {
			list = append(list, piece)
		}
		piece = nil
	}
	if piece != nil {
		list = append(list, piece)
	}
	return list
}

// A Summary is a line in three points.
type Summary struct{ First, Highest, Last Point }

// Summary gives the first, the highest and the last point; of equal ones the
// earliest is the highest. A line without a point has none.
func (s *Series) Summary() (sum Summary, ok bool) {
	for _, piece := range s.Pieces() {
		for _, p := range piece {
			if !ok {
				sum, ok = Summary{p, p, p}, true
			}
			sum.Last = p
			if p.Value > sum.Highest.Value {
				sum.Highest = p
			}
		}
	}
	return sum, ok
}

// Drawn are the levels that have a place on an axis, and the marks.
func (c *Chart) Drawn() (levels []Level, marks []Mark) {
	for _, l := range c.Levels {
		if drawable(l.Value) {
			levels = append(levels, l)
		}
	}
	for _, m := range c.Marks {
		if drawable(m.Time) {
			marks = append(marks, m)
		}
	}
	return levels, marks
}

// With is a number with the unit of the chart.
func (c *Chart) With(number string) string { return strings.TrimSpace(number + " " + c.Unit) }
