// Package document holds documents to keep, a list of blocks each, and writes
// them as HTML that stands alone and as Markdown; package pdf writes them on
// paper.
package document

import (
	"fmt"
	"strings"

	"casewright/cmd/casewright/internal/drawing"
	"casewright/cmd/casewright/internal/table"
)

// A Document is what is handed over.
type Document struct {
	Title  string
	Blocks []Block
	Foot   string // at the foot of each page of paper
}

// A Block is one of [Heading], [Paragraph], [List], [Table], [Figure], [Fold],
// [Worked] and [Break].
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

// Mark is the sign that stands before a text of the tone; empty where none does.
func (t Tone) Mark() string {
	switch t {
	case Caution:
		return "⚠ "
	case Pass:
		return "✓ "
	case Fail:
		return "✗ "
	case Plain, Strong, Code:
	}
	return ""
}

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

// Fold is a part that one opens where that can be done, and sees where not;
// Open is as it is found. Its title is a heading of level 3. By its name it is
// known again where the title changes.
type Fold struct {
	Name   string // empty where there is no need
	Title  string
	Tone   Tone
	Open   bool
	Blocks []Block
}

// Worked is a check worked out: its formulas typeset where that can be done, as
// [Worked.Blocks] where not.
type Worked struct{ Check table.Worked }

// workedLevel is that of the headings in a check worked out: in a [Fold].
const workedLevel = 4

// Break begins a new page of paper.
type Break struct{}

func (Heading) block()   {}
func (Paragraph) block() {}
func (List) block()      {}
func (Table) block()     {}
func (Figure) block()    {}
func (Fold) block()      {}
func (Worked) block()    {}
func (Break) block()     {}

// Blocks are the check in texts and tables alone.
func (w Worked) Blocks() []Block {
	c := &w.Check
	var list []Block
	add := func(blocks ...Block) { list = append(list, blocks...) }
	if c.Why != "" {
		add(Paragraph{Text: c.Why})
	}
	for i := range c.Sums {
		add(Paragraph{Text: c.Sums[i].Text(), Tone: Code})
	}
	add(List{Items: c.Outcome})
	t := Table{Head: []string{"symbol", "value", "meaning, and where it comes from"}, Right: []bool{false, true}}
	for i := range c.Symbols {
		s := &c.Symbols[i]
		told := append([]string{s.Meaning}, s.Origins...)
		if from := s.FromText(); from != "" {
			told = append(told, "= "+from)
		}
		t.Rows = append(t.Rows, []string{s.Name, s.Value, strings.Join(told, "; ")})
	}
	add(t)
	if c.Change != "" {
		add(Paragraph{Text: "To make it pass: write " + c.Change + "."})
	}
	for _, n := range c.Notes {
		add(Paragraph{Text: n})
	}
	add(Paragraph{Text: fmt.Sprintf("Source: %s. Holds for: %s. %s", c.Source, c.Range, strings.Join(c.Evidence, " "))})
	return list
}
