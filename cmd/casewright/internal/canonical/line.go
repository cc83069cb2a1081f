package canonical

import (
	"bytes"
	"cmp"
	"slices"
	"strings"

	"github.com/BurntSushi/toml"

	"casewright/quantity/where"
)

// lineKind says what stands on a line.
type lineKind int

const (
	blankLine lineKind = iota
	commentLine
	pairLine // key = value, over as many lines as the value has
	headerLine
)

// A line is what the layout moves as one.
type line struct {
	kind    lineKind
	text    string // without blanks around and without comment
	comment string // at its end
	key     toml.Key
	entry   []int // as where.Key has it
}

// splitter takes a text apart at the places of its keys. Between them stand
// only blanks, comments and line ends.
type splitter struct {
	text []byte
	long [][2]int
	list []line
}

func (s *splitter) lines(keys []where.Key) ([]line, error) {
	at := len(s.text) - len(bytes.TrimPrefix(s.text, []byte("\uFEFF")))
	for i := range keys {
		k := &keys[i]
		if k.Offset < at {
			continue // of an inline table, which is part of a value
		}
		start, end, l, ok := s.statement(k)
		if !ok || start < at || !s.between(s.text[at:start], len(s.list) > 0) {
			return nil, ErrUncertain
		}
		s.list = append(s.list, l)
		at = end
	}
	rest := s.text[at:]
	if !bytes.HasSuffix(rest, []byte("\n")) {
		rest = append(bytes.Clone(rest), '\n')
	}
	if !s.between(rest, len(s.list) > 0) {
		return nil, ErrUncertain
	}
	return s.list, nil
}

// statement returns a header or a pair, and from where to where it goes.
func (s *splitter) statement(k *where.Key) (start, end int, l line, ok bool) {
	l = line{key: k.Key, entry: k.Entry}
	name := strings.Join(k.Spelling, ".")
	if k.ValueLine > 0 {
		l.kind = pairLine
		tables := strings.Join(k.Key[:len(k.Key)-1], ".")
		end = k.ValueOffset + len(k.Value)
		l.text = name + " = " + s.value(tables, k)
		return k.Offset, end, l, true
	}
	opening, closing := "[", "]"
	if k.Entry[len(k.Entry)-1] >= 0 {
		opening, closing = "[[", "]]"
	}
	l.kind, l.text = headerLine, opening+name+closing
	before := bytes.TrimRight(s.text[:k.Offset], " \t")
	after := bytes.TrimLeft(s.text[k.End:], " \t")
	ok = bytes.HasSuffix(before, []byte(opening)) && bytes.HasPrefix(after, []byte(closing))
	return len(before) - len(opening), len(s.text) - len(after) + len(closing), l, ok
}

// between takes what stands between two statements. The rest of the first line
// belongs to the statement before, if there is one.
func (s *splitter) between(text []byte, follows bool) bool {
	pieces := strings.Split(string(text), "\n")
	for i, piece := range pieces {
		piece = strings.Trim(piece, " \t\r")
		switch {
		case piece != "" && piece[0] != '#':
			return false
		case i == 0 && follows:
			s.list[len(s.list)-1].comment = piece
		case piece != "":
			s.list = append(s.list, line{kind: commentLine, text: piece})
		case i < len(pieces)-1: // the last piece is what a statement is set in by
			s.list = append(s.list, line{kind: blankLine})
		}
	}
	return true
}

// value is the value of a key, on one line or as it is over several.
func (s *splitter) value(table string, k *where.Key) string {
	if !strings.Contains(k.Value, "\n") {
		return spelt(table, k.Key[len(k.Key)-1], k.Value)
	}
	var b strings.Builder
	at := k.ValueOffset
	for part := range strings.SplitAfterSeq(k.Value, "\n") {
		at += len(part)
		if kept, ends := strings.CutSuffix(part, "\n"); ends && !s.inString(at-1) {
			part = strings.TrimRight(kept, " \t\r") + "\n"
		}
		b.WriteString(part)
	}
	return b.String()
}

// inString tells whether an offset lies in a string in three quotes.
func (s *splitter) inString(at int) bool {
	i, _ := slices.BinarySearchFunc(s.long, at, func(l [2]int, at int) int { return cmp.Compare(l[1], at+1) })
	return i < len(s.long) && s.long[i][0] <= at
}
