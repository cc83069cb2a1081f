package live

import (
	"fmt"
	"io"
	"math"
	"slices"
	"strings"
	"unicode/utf8"
)

// A Terminal is drawn anew on its other screen, so that what stood there before
// comes back. Sources: ECMA-48 (CSI ED, EL, CUP, SGR); xterm control sequences,
// private modes 25 (cursor) and 1049 (other screen).
type Terminal struct {
	To     io.Writer
	Colour bool
	Signs  func(string) string // the text in the signs that the reader wants
}

const (
	begin = "\x1b[?1049h\x1b[?25l"
	end   = "\x1b[?25h\x1b[?1049l"
	home  = "\x1b[H"
	rest  = "\x1b[K" // of the line, cleared
	below = "\x1b[J"
	dim   = "\x1b[2m"
	red   = "\x1b[31m"
	plain = "\x1b[0m"
)

// Begin goes to the other screen.
func (t *Terminal) Begin() error { return second(io.WriteString(t.To, begin)) }

// End goes back.
func (t *Terminal) End() error { return second(io.WriteString(t.To, end)) }

// Draw draws the faults and below them the table, dimmed where it is stale, on so
// many columns and rows; 0 rows are without end. Where there are too few it
// leaves out the middle of the table, as its end has the verdict, and where the
// faults need them all the table.
func (t *Terminal) Draw(faults []Excerpt, table string, stale bool, columns, rows int) error {
	if rows == 0 {
		rows = math.MaxInt
	}
	lines := t.Faults(faults, columns)
	if len(lines) > rows {
		lines = append(lines[:rows-1], "      ...")
	}
	var between []string
	switch {
	case stale:
		between = []string{"", t.Signs("As it last read well:")}
	case len(lines) > 0:
		between = []string{""}
	}
	if room := rows - len(lines) - len(between); table != "" && room > 0 {
		body := cut(strings.Split(strings.TrimRight(table, "\n"), "\n"), room)
		for i := range body {
			if stale {
				body[i] = t.dimmed(body[i])
			}
		}
		lines = slices.Concat(lines, between, body)
	}
	return second(io.WriteString(t.To, home+strings.Join(lines, rest+"\r\n")+rest+below))
}

// Faults are the lines that tell what is wrong: of each file the lines round a
// fault, the fault below its own, and what to write.
func (t *Terminal) Faults(faults []Excerpt, columns int) (lines []string) {
	for _, x := range faults {
		lines = append(lines, t.red(t.Signs(x.Title())))
		for _, l := range x.Lines {
			switch {
			case l.Number > 0:
				lines = append(lines, clipped(fmt.Sprintf("%5d | %s", l.Number, t.Signs(l.Text)), columns))
			case l.Faults == nil:
				lines = append(lines, "      ...")
			}
			for _, e := range l.Faults {
				// In other signs a line may be longer, and the caret beside its place.
				if caret := l.Caret(e); caret != "" && t.Signs(l.Text) == l.Text && 8+len(caret) <= columns {
					lines = append(lines, "      | "+t.red(caret))
				}
				for _, line := range wrapped(t.Signs(printable(e.Text())), columns-8) {
					lines = append(lines, "        "+t.red(line))
				}
			}
		}
		if x.More > 0 {
			lines = append(lines, fmt.Sprintf("      ... and %d more", x.More))
		}
	}
	return lines
}

func (t *Terminal) red(text string) string {
	if !t.Colour {
		return text
	}
	return red + text + plain
}

func (t *Terminal) dimmed(line string) string {
	if !t.Colour {
		return line
	}
	return dim + line + plain
}

// cut leaves out the middle of what is longer than the rows: of its end, the
// lines after the last empty one stay; where they are too many the first of
// them, with the verdict, and the last.
func cut(lines []string, rows int) []string {
	if len(lines) <= rows {
		return lines
	}
	tail := lines
	for i, line := range lines {
		if line == "" {
			tail = lines[i+1:]
		}
	}
	switch room := rows - 2; { // what begins stays, by a line
	case room >= len(tail):
	case room > 1:
		tail = slices.Concat(tail[:room-1], tail[len(tail)-1:])
	default:
		tail = tail[:max(0, room)]
	}
	head := rows - len(tail) - 1
	left := fmt.Sprintf("      ... %d lines left out; a higher window shows them ...", len(lines)-head-len(tail))
	return slices.Concat(lines[:head], []string{left}, tail)
}

// clipped is a line that ends at the window's edge.
func clipped(line string, columns int) string {
	if utf8.RuneCountInString(line) <= columns {
		return line
	}
	return string([]rune(line)[:columns])
}

// wrapped is a text in lines of so many columns, at least 30.
func wrapped(text string, columns int) (lines []string) {
	columns = max(30, columns)
	line := ""
	for _, word := range strings.Fields(text) {
		for utf8.RuneCountInString(word) > columns {
			if line != "" {
				lines, line = append(lines, line), ""
			}
			lines = append(lines, string([]rune(word)[:columns]))
			word = string([]rune(word)[columns:])
		}
		switch {
		case line == "":
			line = word
		case utf8.RuneCountInString(line)+1+utf8.RuneCountInString(word) > columns:
			lines = append(lines, line)
			line = word
		default:
			line += " " + word
		}
	}
	return append(lines, line)
}
