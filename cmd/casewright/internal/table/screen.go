package table

import "strings"

// A screen is the characters of a plot. Among dots each has two columns and four
// rows of them, in ASCII it is one dot.
type screen struct {
	columns    int
	wide, high int // dots of a character
	cells      []cell
	met        bool // two lines share a character
}

// A cell is one character.
type cell struct {
	dots   uint8 // the bits of a Braille pattern
	line   int   // that goes through it; manyLines where more than one does
	sign   rune  // behind the lines
	letter rune  // before them
}

const (
	manyLines = -1
	several   = '*' // lines in one character of ASCII
)

// A spot is a dot, from the upper left.
type spot struct{ x, y int }

func newScreen(columns int, ascii bool) screen {
	s := screen{columns: columns, wide: 2, high: 4, cells: make([]cell, columns*plotRows)}
	if ascii {
		s.wide, s.high = 1, 1
	}
	return s
}

func (s *screen) at(column, row int) *cell { return &s.cells[row*s.columns+column] }

// braille are the bits of the dots of a pattern, by row and column. Source: the
// Unicode Standard, block Braille Patterns (U+2800).
var braille = [4][2]uint8{{0x01, 0x08}, {0x02, 0x10}, {0x04, 0x20}, {0x40, 0x80}}

// dot sets a dot of a line.
func (s *screen) dot(at spot, line int) {
	c := s.at(at.x/s.wide, at.y/s.high)
	switch {
	case c.dots == 0:
		c.line = line
	case c.line != line:
		c.line, s.met = manyLines, true
	}
	c.dots |= braille[at.y%s.high][at.x%s.wide]
}

// stroke sets the dots from one to another.
func (s *screen) stroke(from, to spot, line int) {
	dx, dy := to.x-from.x, to.y-from.y
	count := max(dx, -dx, dy, -dy)
	s.dot(from, line)
	for i := 1; i <= count; i++ {
		s.dot(spot{from.x + rounded(dx*i, count), from.y + rounded(dy*i, count)}, line)
	}
}

// rounded is a quotient to the nearest whole number.
func rounded(a, b int) int {
	if a < 0 {
		return -rounded(-a, b)
	}
	return (2*a + b) / (2 * b)
}

// row is one line of characters.
func (s *screen) row(row int, coloured bool) string {
	var b strings.Builder
	for column := range s.columns {
		c := s.at(column, row)
		sign := c.rune(s.high > 1)
		if coloured && c.dots != 0 && c.line != manyLines {
			b.WriteString(lineColour(c.line) + string(sign) + plain)
			continue
		}
		b.WriteRune(sign)
	}
	return b.String()
}

// rune is the character to be seen.
func (c *cell) rune(dotted bool) rune {
	switch {
	case c.letter != 0:
		return c.letter
	case c.dots != 0 && dotted:
		return 0x2800 + rune(c.dots)
	case c.dots != 0 && c.line == manyLines:
		return several
	case c.dots != 0:
		return letter(c.line, 'a')
	case c.sign != 0:
		return c.sign
	}
	return ' '
}

// lineColour is the colour of a line: none is that of a verdict.
func lineColour(line int) string {
	return []string{"\x1b[34m", "\x1b[35m", "\x1b[36m", "\x1b[94m", "\x1b[95m", "\x1b[96m"}[line%6]
}
