// Package pdf writes drawings at true scale and documents on paper, as PDF
// that is the same, byte for byte, whenever it is written. Lengths are mm.
package pdf

import (
	"errors"
	"fmt"
	"io"
	"math"
	"time"

	"codeberg.org/go-pdf/fpdf"

	"casewright/cmd/casewright/internal/drawing"
	"casewright/cmd/casewright/internal/lettering"
)

// Paper is a size of paper, mm.
type Paper struct{ Width, Height float64 }

// The papers: A4 by ISO 216, Letter 8.5 in by 11 in.
var (
	A4     = Paper{210, 297}
	Letter = Paper{215.9, 279.4}
)

// largest is the longest side of a page, mm: 14 400 pt, as the PDF reference
// has it (from memory).
const largest = 5080

// day is the one on which every file says that it was made, so that two files
// differ only where their contents do.
var day = time.Date(2000, 1, 1, 0, 0, 0, 0, time.UTC)

// Drawings writes each sheet on a page of just its size, so that a print at
// 100 % is true to scale within 0.01 mm. It is an error if there is no sheet,
// or if a size, place or style on one is none.
func Drawings(out io.Writer, title string, sheets []*drawing.Sheet) error {
	if len(sheets) == 0 {
		return errors.New("there is no sheet to write")
	}
	for i, s := range sheets {
		if err := check(s); err != nil {
			return fmt.Errorf("sheet %d: %w", i+1, err)
		}
	}
	w := newWriter(title)
	for _, s := range sheets {
		w.page(s.Width, s.Height)
		w.sheet(s, frame{scale: 1})
	}
	return w.Output(out)
}

// A writer writes one file. fpdf remembers pens and colours, but not that the
// end of a clipped or turned part takes them back; so whatever is drawn sets
// all that it needs.
type writer struct {
	*fpdf.Fpdf
	glyphs map[face]*glyphs
}

func newWriter(title string) *writer {
	p := fpdf.New("P", "mm", "A4", "")
	p.SetCreationDate(day)
	p.SetModificationDate(day)
	p.SetCatalogSort(true)
	p.SetProducer("casewright", true)
	p.SetTitle(lettering.Clean(title), true)
	p.SetLang("en")
	p.SetMargins(0, 0, 0)
	p.SetAutoPageBreak(false, 0)
	p.SetLineJoinStyle("round")
	return &writer{p, map[face]*glyphs{}}
}

func (w *writer) page(width, height float64) {
	w.AddPageFormat("P", fpdf.SizeType{Wd: width, Ht: height})
}

// length tells whether a number can be a length on a page.
func length(x float64) bool { return !math.IsNaN(x) && math.Abs(x) <= 1e6 }

// side tells whether a number can be the side of a page.
func side(x float64) bool { return x >= 1 && x <= largest }
