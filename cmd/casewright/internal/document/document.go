// Package document holds documents to keep, a list of blocks each, and writes
// them as HTML that stands alone and as Markdown; package pdf writes them on
// paper.
package document

import "casewright/cmd/casewright/internal/drawing"

// A Document is what is handed over.
type Document struct {
	Title  string
	Blocks []Block
	Foot   string // at the foot of each page of paper
}

// A Block is one of [Heading], [Paragraph], [List], [Table], [Figure], [Fold]
// and [Break].
type Block interface{ block() }

// A Tone is how a text is meant.
type Tone uint8

// The tones. Each has a word or a mark too: colour never stands alone.
const (
	Plain Tone = iota
	Strong
	Caution
	Pass
	Fail
	Code // in letters of equal width
)

// Heading is the title of what follows; Level 1 is the document's.
type Heading struct {
	Level int
	Text  string
}

// Paragraph is a text.
type Paragraph struct {
	Text string
	Tone Tone
}

// List is a list, numbered or of boxes to tick, or neither.
type List struct {
	Items           []string
	Numbered, Ticks bool
}

// Table is a table with a head; Right marks the columns that stand to the
// right, Tones the rows. A column of which all cells are empty is left to be
// written in by hand, and wide enough for it.
type Table struct {
	Caption string
	Head    []string
	Right   []bool
	Rows    [][]string
	Tones   []Tone // of the rows; nil where all are plain
}

// Figure is a drawing.
type Figure struct {
	Sheet   *drawing.Sheet
	Caption string
}

// Fold is a part that one opens where that can be done, and sees where not.
type Fold struct {
	Title  string
	Blocks []Block
}

// Break begins a new page of paper.
type Break struct{}

func (Heading) block()   {}
func (Paragraph) block() {}
func (List) block()      {}
func (Table) block()     {}
func (Figure) block()    {}
func (Fold) block()      {}
func (Break) block()     {}
