package table

import (
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"
	"unicode/utf8"

	"casewright"
	"casewright/margin"
	"casewright/verification"
)

// Verify writes the rows that casewright was held against, by table and source,
// and the counts. short leaves out the rows that hold; of is the check that
// they are of, empty for all.
func Verify(w io.Writer, list []verification.Case, short bool, of string, o Options) error {
	p := newListing(o)
	for from := 0; from < len(list); {
		to := from + 1
		for to < len(list) && list[to].Table == list[from].Table {
			to++
		}
		p.held(list[from:to], short)
		from = to
	}
	p.marks()
	p.counts(list, of)
	return p.write(w)
}

// held writes the rows of one table. The source stands above the rows that are
// from it; in a wide window, and where a row fails, what it is and where it
// stands in the source stand below.
func (p *listing) held(list []verification.Case, short bool) {
	rows := p.named(nil, "", strings.TrimSuffix(list[0].Table, ".csv"), "expected", "computed", "off %", "allowed", "")
	heading, source := len(rows), ""
	for i := range list {
		c := &list[i]
		if short && c.Pass {
			continue
		}
		if c.Source != source {
			source = c.Source
			rows = p.freeAt(rows, "  ", 2, source)
		}
		rows = p.named(rows, "   ", c.ID, caseCells(c)...)
		if p.options.Width >= 120 || !c.Pass {
			text := c.Quantity + ": " + c.Where
			if math.IsNaN(c.Got) && !c.Refused() {
				text += ". Nothing is computed from these inputs; is each name and number one that there is?"
			}
			rows = p.freeAt(rows, "     ", 6, text)
		}
	}
	if len(rows) > heading {
		p.grid(rows, left, right, right, right, right, left)
		p.line("")
	}
}

// nameRoom is how long a name may be to stand beside its numbers.
const nameRoom = 20

// named adds a row of cells behind a name, or below it where it is long.
func (p *listing) named(rows []row, indent, name string, cells ...string) []row {
	if utf8.RuneCountInString(name) > nameRoom {
		rows = p.freeAt(rows, indent, len(indent), name)
		name = ""
	}
	return append(rows, row{cells: append([]string{indent + name}, cells...)})
}

// marks colours the words of the verdicts, and what rests on memory.
func (p *listing) marks() {
	if !p.options.Colour {
		return
	}
	text := p.text.String()
	p.text.Reset()
	p.text.WriteString(strings.NewReplacer("  FAIL ", "  "+red+"FAIL"+plain+" ", " memory\n", " "+yellow+"memory"+plain+"\n").Replace(text))
}

// caseCells are the columns of one row behind its id: numbers in the unit of
// its source.
func caseCells(c *verification.Case) []string {
	word := "pass"
	if !c.Pass {
		word = "FAIL"
	}
	unit := c.Unit.Symbol()
	expected := figures(c.Unit.FromSI(c.Value))
	if unit != "1" {
		expected += " " + unit
	}
	got, off := figures(c.Unit.FromSI(c.Got)), offText(c)
	if c.Refused() {
		got, off = "refused", ""
	}
	return []string{expected, got, off, allowed(c), word + " " + c.Status}
}

func offText(c *verification.Case) string {
	switch {
	case math.IsNaN(c.Off):
		return "?"
	case c.Value == 0: // the two numbers tell
		return ""
	}
	return percentFine(c.Off)
}

// percentFine is a share in percent, as fine as it needs.
func percentFine(x float64) string {
	switch size := math.Abs(x); {
	case size < 1e-9:
		return "0"
	case size < 1e-4:
		return "< 0.01"
	}
	return strings.Replace(strconv.FormatFloat(100*x, 'g', 3, 64), "-", "−", 1)
}

// allowed is what a deviation may be.
func allowed(c *verification.Case) string {
	low, high, banded := c.Band()
	switch {
	case c.MustRefuse():
		return "refused"
	case banded:
		return bandEnd(low) + " to " + bandEnd(high)
	case c.Tolerance < 1e-9:
		return "exact"
	}
	return strings.Replace("±"+percentFine(c.Tolerance), "±< ", "< ", 1)
}

// bandEnd is how far a share of the value is from it, in percent.
func bandEnd(share float64) string {
	if math.Abs(share-1) < 1e-4 {
		return "0"
	}
	return percentFine(share - 1)
}

// counts tell how much was held, and the verdict.
func (p *listing) counts(list []verification.Case, of string) {
	e := verification.Sum(list)
	tables := map[string]bool{}
	for i := range list {
		tables[list[i].Table] = true
	}
	text := fmt.Sprintf("%s in %s: %d seen in a copy of their source, %d of a solver, %d from memory.",
		counted(e.Rows, "row"), counted(len(tables), "table"), e.Seen, e.Solver, e.Memory)
	if of == "" {
		text += coverage(list)
	}
	p.say("", 2, text+fmt.Sprintf(" Rows that must agree are off by %s %% at most; others lie in a band.", percentFine(e.Worst)))
	word, verdict := "PASS", margin.Pass
	if e.Failed > 0 || e.Rows == 0 {
		word, verdict = "FAIL", margin.Fail
	}
	if p.options.Colour {
		word = colours[verdict] + word + plain
	}
	if e.Failed > 0 {
		p.line("%s: %s of %d off by more than is allowed", word, counted(e.Failed, "row"), e.Rows)
	} else {
		p.line("%s: %s, each within what is allowed", word, counted(e.Rows, "row"))
	}
}

// coverage tells how many checks rest on three rows or more, and which do not.
func coverage(list []verification.Case) string {
	var thin []string
	methods := casewright.Methods()
	for _, m := range methods {
		if of := verification.Sum(verification.Of(list, m.ID)); !of.Enough() {
			thin = append(thin, m.ID)
		}
	}
	text := fmt.Sprintf(" %d of %d checks rest on three rows or more, one of them seen or solved", len(methods)-len(thin), len(methods))
	if thin != nil {
		text += "; not so " + strings.Join(thin, ", ")
	}
	return text + "."
}

func counted(n int, what string) string {
	if n != 1 {
		what += "s"
	}
	return strconv.Itoa(n) + " " + what
}

// evidenceCells are against how many numbers from outside a check was verified.
func evidenceCells(e verification.Evidence) []string {
	worst := percentFine(e.Worst) + " %"
	if e.Agree == 0 {
		worst = "band"
	}
	return []string{strconv.Itoa(e.Rows), strconv.Itoa(e.Seen), strconv.Itoa(e.Solver), strconv.Itoa(e.Memory), worst}
}

// evidenceLines tell the same in a sentence.
func evidenceLines(e verification.Evidence) []string {
	if e.Rows == 0 {
		return []string{"Against nothing from outside."}
	}
	agree := fmt.Sprintf("the %d that must agree are off by %s %% at most", e.Agree, percentFine(e.Worst))
	switch {
	case e.Agree == 0:
		agree = "none must agree, all lie in bands"
	case e.Agree < e.Rows:
		agree += fmt.Sprintf(", the other %d lie in bands", e.Rows-e.Agree)
	}
	return []string{fmt.Sprintf("Against %d numbers from outside: %d seen in a copy of their source, %d of a solver, %d from memory; %s (casewright verify).",
		e.Rows, e.Seen, e.Solver, e.Memory, agree)}
}
