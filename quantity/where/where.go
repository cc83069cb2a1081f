// Package where finds where each key of a TOML file stands, for messages that
// name file, line and column, and refuses texts that the decoder would take too
// long over.
package where

import (
	"bytes"
	"errors"
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"

	"github.com/BurntSushi/toml"
)

// The bounds of a design file. For each part of a dotted key the decoder goes
// over the whole key again, the tables it lies in included; hence these three
// bounds together, within which the worst text found cost it half a second.
const (
	MostBytes    = 1 << 20
	maxTextItems = 20_000 // parts of keys, arrays and inline tables together
	maxKeyDots   = 32     // of the full key, its tables counted
	maxKeyBytes  = 1024   // of the full key, its tables counted
	maxNesting   = 32     // arrays and inline tables within each other
)

// A Key is where a key stands in a design file.
type Key struct {
	Offset       int      // of the key in bytes, from 0; a quote belongs to the key, the bracket of a header does not
	End          int      // of the key in bytes, behind its last part
	Line, Column int      // of the key, from 1; the column in runes, a byte-order mark not counted
	Key          toml.Key // the full key as MetaData.Keys has it, not a copy

	// Spelling has the parts of the key as written, quotes included, without
	// those of the table that it lies in.
	Spelling []string

	// Entry says for each part of Key in which entry of an array of tables, from
	// 0, the key lies, and is -1 where the part is not an array of tables. An
	// array written as a value counts all its elements, those of arrays within
	// it one by one; the key of that value itself has -1.
	Entry []int

	// Value is the value as written, quotes and brackets included. A header has
	// none: Value is "" and its line 0.
	Value                  string
	ValueOffset            int
	ValueLine, ValueColumn int
}

// A Fault is a fault of the text that is found before it is decoded. Line and
// column count from 1, the column in runes; both are 0 where the whole file is
// at fault. Write tells what to do, as a sentence without capital and full stop.
type Fault struct {
	Line, Column   int
	Message, Write string
}

// Error gives line, message and what to do.
func (e *Fault) Error() string {
	if e.Line == 0 {
		return e.Message + "; " + e.Write
	}
	return fmt.Sprintf("line %d: %s; %s", e.Line, e.Message, e.Write)
}

// errNotTOML ends a scan of what the decoder will not accept either.
var errNotTOML = errors.New("the text is not TOML")

// Check returns a *Fault for a text that the decoder would
// take too long over, that is not UTF-8, or that holds a control character.
// Other faults it leaves to the decoder.
func Check(text []byte) error {
	if len(text) > MostBytes {
		return &Fault{
			Message: fmt.Sprintf("the file has %d bytes, more than %d (1 MiB)", len(text), MostBytes),
			Write:   "write one motor a file",
		}
	}
	if err := checkEncoding(text); err != nil {
		return err
	}
	var limit *Fault
	if _, err := scan(text); errors.As(err, &limit) {
		return limit
	}
	return nil
}

// LongStrings returns where the strings in three quotes stand in a text that
// decodes, each from its first quote to behind its last: nowhere else is a line
// end part of a value. It fails where Check or the decoder would.
func LongStrings(text []byte) ([][2]int, error) {
	s, err := scan(text)
	if err != nil {
		return nil, err
	}
	return s.long, nil
}

// checkEncoding refuses what is not UTF-8, and the control characters that TOML
// allows nowhere.
func checkEncoding(text []byte) error {
	if isUTF16(text) {
		return &Fault{1, 1, "the file is UTF-16", "save it as UTF-8"}
	}
	for at := 0; at < len(text); {
		r, size := utf8.DecodeRune(text[at:])
		var message, write string
		switch {
		case r == utf8.RuneError && size == 1:
			message, write = fmt.Sprintf("the byte 0x%02X is not UTF-8", text[at]), "save the file as UTF-8"
			if text[at] >= 0xA0 { // Below stand control characters, or quotes and dashes in Windows-1252.
				message += fmt.Sprintf(" (%q in Latin-1)", rune(text[at]))
			}
		case r == '\r' && !bytes.HasPrefix(text[at:], []byte("\r\n")):
			message, write = "a carriage return stands without a line feed", "save the file with line ends LF or CRLF"
		case r < ' ' && r != '\t' && r != '\n' && r != '\r', r == 0x7F:
			message, write = fmt.Sprintf("the control character 0x%02X stands in the text", r), "delete it"
		default:
			at += size
			continue
		}
		if bytes.IndexByte(text, 0) >= 0 {
			message, write = "the file holds NUL bytes and is not a text", "give a design file, saved as UTF-8"
		}
		line, column := Position(text, at)
		return &Fault{line, column, message, write}
	}
	return nil
}

// isUTF16 reports a byte-order mark of UTF-16, or what Latin letters look like
// in it: NUL in every other place, here in half of them to allow for other
// letters.
func isUTF16(text []byte) bool {
	if bytes.HasPrefix(text, []byte("\xFF\xFE")) || bytes.HasPrefix(text, []byte("\xFE\xFF")) {
		return true
	}
	start := text[:min(len(text), 256)]
	var nul [2]int
	for i, b := range start {
		if b == 0 {
			nul[i%2]++
		}
	}
	few, many := min(nul[0], nul[1]), max(nul[0], nul[1])
	return few == 0 && many > 1 && many*4 >= len(start)
}

// Keys zips a scan of text with the decoder's list of its keys, in the order
// of the text. Where the two disagree in number, or a key of the list is not
// spelt at its place, it returns nil: no place is better than a wrong one. The
// text must be the one that meta comes from.
func Keys(text []byte, meta toml.MetaData) []Key {
	s, err := scan(text)
	keys := meta.Keys()
	if err != nil || len(s.marks) != len(keys) {
		return nil
	}
	var (
		marks = s.marks
		list  = make([]Key, 0, len(marks))
		whole = string(text)
		at    = startOf(text)
		root  = &tableNode{entry: -1}
		table = root // of the last header
	)
	for i, m := range marks {
		var outer Key
		if m.parent >= 0 {
			outer = list[m.parent]
		}
		if !m.spells(keys[i], outer.Key) {
			return nil
		}
		p := Key{Offset: m.key, End: m.keyEnd, Key: keys[i], Spelling: m.spelling, Entry: slices.Clone(outer.Entry)}
		at.advance(text, m.key)
		p.Line, p.Column = at.line, at.column
		if m.kind == valueKey || m.kind == inlineKey {
			at.advance(text, m.value)
			p.Value, p.ValueOffset, p.ValueLine, p.ValueColumn = whole[m.value:m.end], m.value, at.line, at.column
		}
		tables, last := keys[i][len(outer.Key):len(keys[i])-1], keys[i][len(keys[i])-1]
		switch m.kind {
		case tableKey, arrayTableKey:
			p.Entry, table = root.walk(p.Entry, tables)
			table = table.child(last)
			if m.kind == arrayTableKey {
				table.entry, table.tables = table.entry+1, nil
			}
			p.Entry = append(p.Entry, table.entry)
		case valueKey:
			p.Entry, _ = table.walk(p.Entry, tables)
			p.Entry = append(p.Entry, -1)
		case inlineKey:
			p.Entry[len(outer.Key)-1] = m.element
			for range len(tables) + 1 {
				p.Entry = append(p.Entry, -1)
			}
		}
		list = append(list, p)
	}
	return list
}

// tableNode is what the headers and dotted keys so far have made of a name: a
// table (entry -1), or the last entry of an array of tables.
type tableNode struct {
	entry  int
	tables map[string]*tableNode
}

// child returns the table of that name, a new one at its first mention.
func (t *tableNode) child(name string) *tableNode {
	c := t.tables[name]
	if c == nil {
		c = &tableNode{entry: -1}
		if t.tables == nil {
			t.tables = make(map[string]*tableNode)
		}
		t.tables[name] = c
	}
	return c
}

// walk goes down the names, appends the entry of each, and returns the table
// it comes to.
func (t *tableNode) walk(entries []int, names []string) ([]int, *tableNode) {
	for _, name := range names {
		t = t.child(name)
		entries = append(entries, t.entry)
	}
	return entries, t
}

// textPlace counts lines and columns while it moves forward through a text, so
// that many places cost one pass.
type textPlace struct{ offset, line, column int }

// startOf is the place after the byte-order mark. The decoder drops one of
// UTF-8 or UTF-16, and so must the scan.
func startOf(text []byte) textPlace {
	for _, mark := range []string{"\xEF\xBB\xBF", "\xFF\xFE", "\xFE\xFF"} {
		if bytes.HasPrefix(text, []byte(mark)) {
			return textPlace{len(mark), 1, 1}
		}
	}
	return textPlace{0, 1, 1}
}

func (p *textPlace) advance(text []byte, to int) {
	for ; p.offset < to; p.offset++ {
		switch b := text[p.offset]; {
		case b == '\n':
			p.line, p.column = p.line+1, 1
		case utf8.RuneStart(b):
			p.column++
		}
	}
}

// Position gives line and column of an offset.
func Position(text []byte, offset int) (line, column int) {
	p := startOf(text)
	p.advance(text, offset)
	return p.line, p.column
}

// keyKind says how a key is written.
type keyKind int

const (
	tableKey      keyKind = iota // [key]
	arrayTableKey                // [[key]]
	valueKey                     // key = value, on a line of its own
	inlineKey                    // key = value, in an inline table
)

// keyMark is a key as the scan finds it.
type keyMark struct {
	kind       keyKind
	key        int      // offset of the key
	keyEnd     int      // behind its last part
	spelling   []string // of its parts as written, quotes included
	value, end int      // range of the value
	parent     int      // the header, or the key whose value holds this one; -1 for none
	element    int      // of parent's value, where that is an array; else -1
	elements   int      // of the value so far, where it is an array
	dots       int      // of the full key
	length     int      // of the full key, in bytes
}

// spells reports whether the mark, within the table outer, is the key.
func (m *keyMark) spells(key, outer toml.Key) bool {
	if len(key) != len(outer)+len(m.spelling) || !slices.Equal(key[:len(outer)], outer) {
		return false
	}
	for i, name := range key[len(outer):] {
		if !spells(m.spelling[i], name) {
			return false
		}
	}
	return true
}

// spells compares one part of a key as written with its name. Of a part with an
// escape it compares what stands before the escape.
func spells(spelling, name string) bool {
	if q := spelling[0]; q != '"' && q != '\'' {
		return spelling == name
	}
	inner := spelling[1 : len(spelling)-1]
	if before, _, escaped := strings.Cut(inner, `\`); escaped && spelling[0] == '"' {
		return strings.HasPrefix(name, before)
	}
	return inner == name
}

// keyScanner finds the keys of a TOML text. It only skips what else there is
// and judges nothing; what it cannot skip, the decoder refuses.
type keyScanner struct {
	text  []byte
	at    int
	marks []keyMark
	long  [][2]int // strings in three quotes
	items int
}

// scan lists the keys in the order of the decoder: a key before those in
// its value. It fails with a *Fault where the text exceeds a bound, and
// with errNotTOML.
func scan(text []byte) (*keyScanner, error) {
	s := &keyScanner{text: text, at: startOf(text).offset}
	parent := -1
	for s.skipBlank(); s.at < len(text); s.skipBlank() {
		var err error
		if s.accept('[') {
			parent, err = s.header()
		} else {
			err = s.pair(valueKey, parent, -1, 0)
		}
		if err != nil {
			return nil, err
		}
		s.skipSpaces()
		if !strings.ContainsRune("\x00\r\n#", rune(s.peek())) {
			return nil, errNotTOML
		}
	}
	return s, nil
}

// header reads [key] or [[key]] after the first bracket.
func (s *keyScanner) header() (index int, err error) {
	m := keyMark{kind: tableKey, parent: -1, element: -1}
	if s.accept('[') {
		m.kind = arrayTableKey
	}
	if err := s.key(&m); err != nil {
		return 0, err
	}
	if !s.accept(']') || m.kind == arrayTableKey && !s.accept(']') {
		return 0, errNotTOML
	}
	s.marks = append(s.marks, m)
	return len(s.marks) - 1, nil
}

// pair reads key = value.
func (s *keyScanner) pair(kind keyKind, parent, element, depth int) error {
	m := keyMark{kind: kind, parent: parent, element: element}
	if err := s.key(&m); err != nil {
		return err
	}
	if !s.accept('=') {
		return errNotTOML
	}
	s.skipSpaces()
	m.value = s.at
	index := len(s.marks)
	s.marks = append(s.marks, m)
	if err := s.skipValue(index, -1, depth); err != nil {
		return err
	}
	s.marks[index].end = s.at
	return nil
}

// key reads a dotted key and the spaces about it.
func (s *keyScanner) key(m *keyMark) error {
	s.skipSpaces()
	m.key = s.at
	if m.parent >= 0 {
		m.dots, m.length = s.marks[m.parent].dots+1, s.marks[m.parent].length
	}
	for {
		start := s.at
		if err := s.skipName(); err != nil {
			return err
		}
		if err := s.count(start); err != nil {
			return err
		}
		m.spelling = append(m.spelling, string(s.text[start:s.at]))
		m.length += s.at - start
		m.keyEnd = s.at
		s.skipSpaces()
		if !s.accept('.') {
			break
		}
		s.skipSpaces()
		m.dots++
	}
	switch {
	case m.dots > maxKeyDots:
		return s.refuse(m.key, fmt.Sprintf("the key has more than %d dots, its tables counted", maxKeyDots), "write the key below a header such as [end.screws]")
	case m.length > maxKeyBytes:
		return s.refuse(m.key, fmt.Sprintf("the key is longer than %d bytes, its tables counted", maxKeyBytes), "write one of the known keys")
	}
	return nil
}

func (s *keyScanner) skipName() error {
	if c := s.peek(); c == '"' || c == '\'' {
		return s.skipString()
	}
	start := s.at
	for isBareKey(s.peek()) {
		s.at++
	}
	if s.at == start {
		return errNotTOML
	}
	return nil
}

func isBareKey(b byte) bool {
	return 'a' <= b && b <= 'z' || 'A' <= b && b <= 'Z' || '0' <= b && b <= '9' || b == '_' || b == '-'
}

// skipValue skips a value of the key marks[owner]; element is -1 outside an
// array.
func (s *keyScanner) skipValue(owner, element, depth int) error {
	switch c := s.peek(); {
	case c == '[':
		return s.skipArray(owner, depth+1)
	case c == '{':
		return s.skipInlineTable(owner, element, depth+1)
	case bytes.HasPrefix(s.text[s.at:], []byte(`"""`)), bytes.HasPrefix(s.text[s.at:], []byte("'''")):
		start := s.at
		err := s.skipLongString()
		s.long = append(s.long, [2]int{start, s.at})
		return err
	case c == '"' || c == '\'':
		return s.skipString()
	}
	return s.skipWord()
}

func (s *keyScanner) skipArray(owner, depth int) error {
	if err := s.nest(depth); err != nil {
		return err
	}
	for s.skipBlank(); !s.accept(']'); s.skipBlank() {
		nested := s.peek() == '['
		if err := s.skipValue(owner, s.marks[owner].elements, depth); err != nil {
			return err
		}
		if !nested {
			s.marks[owner].elements++
		}
		if err := s.separate(']'); err != nil {
			return err
		}
	}
	return nil
}

func (s *keyScanner) skipInlineTable(owner, element, depth int) error {
	if err := s.nest(depth); err != nil {
		return err
	}
	for s.skipBlank(); !s.accept('}'); s.skipBlank() {
		if err := s.pair(inlineKey, owner, element, depth); err != nil {
			return err
		}
		if err := s.separate('}'); err != nil {
			return err
		}
	}
	return nil
}

// nest steps into an array or an inline table.
func (s *keyScanner) nest(depth int) error {
	if depth > maxNesting {
		return s.refuse(s.at, fmt.Sprintf("arrays and inline tables lie more than %d deep", maxNesting), "close the brackets of each value")
	}
	if err := s.count(s.at); err != nil {
		return err
	}
	s.at++
	return nil
}

// separate reads a comma, or stops before the end.
func (s *keyScanner) separate(end byte) error {
	s.skipBlank()
	if !s.accept(',') && s.peek() != end {
		return errNotTOML
	}
	return nil
}

// skipString skips a string on one line.
func (s *keyScanner) skipString() error {
	quote := s.text[s.at]
	for s.at++; s.at < len(s.text); s.at++ {
		switch b := s.text[s.at]; {
		case b == quote:
			s.at++
			return nil
		case b == '\n':
			return errNotTOML
		case b == '\\' && quote == '"':
			s.at++
		}
	}
	return errNotTOML
}

// skipLongString skips a string in three quotes. It ends with the last of the
// first three or more quotes in a row: those before the last three are its own.
func (s *keyScanner) skipLongString() error {
	quote, row := s.text[s.at], 0
	for s.at += 3; s.at < len(s.text); s.at++ {
		switch b := s.text[s.at]; {
		case b == quote:
			row++
			continue
		case row >= 3:
			return nil
		case b == '\\' && quote == '"':
			s.at++
		}
		row = 0
	}
	if row >= 3 {
		return nil
	}
	return errNotTOML
}

// skipWord skips a number, a time, true or false. A time may hold a space.
func (s *keyScanner) skipWord() error {
	rest := s.text[s.at:]
	if end := bytes.IndexAny(rest, ",]}#\r\n"); end >= 0 {
		rest = rest[:end]
	}
	rest = bytes.TrimRight(rest, " \t")
	if len(rest) == 0 {
		return errNotTOML
	}
	s.at += len(rest)
	return nil
}

// skipBlank skips spaces, line ends and comments.
func (s *keyScanner) skipBlank() {
	for ; s.at < len(s.text); s.at++ {
		switch s.text[s.at] {
		case ' ', '\t', '\r', '\n':
		case '#':
			end := bytes.IndexByte(s.text[s.at:], '\n')
			if end < 0 {
				s.at = len(s.text)
				return
			}
			s.at += end
		default:
			return
		}
	}
}

func (s *keyScanner) skipSpaces() {
	for c := s.peek(); c == ' ' || c == '\t'; c = s.peek() {
		s.at++
	}
}

// peek returns the next byte, or NUL at the end.
func (s *keyScanner) peek() byte {
	if s.at >= len(s.text) {
		return 0
	}
	return s.text[s.at]
}

// accept skips the next byte if it is b.
func (s *keyScanner) accept(b byte) bool {
	if s.at >= len(s.text) || s.text[s.at] != b {
		return false
	}
	s.at++
	return true
}

// count counts one more part of a key, array or inline table.
func (s *keyScanner) count(at int) error {
	s.items++
	if s.items > maxTextItems {
		return s.refuse(at, fmt.Sprintf("the file has more than %d names, arrays and inline tables", maxTextItems), "write one motor a file")
	}
	return nil
}

func (s *keyScanner) refuse(at int, message, write string) error {
	line, column := Position(s.text, at)
	return &Fault{line, column, message, write}
}
