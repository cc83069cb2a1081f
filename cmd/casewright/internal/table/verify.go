package table

import (
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"

	"casewright"
	"casewright/margin"
	"casewright/verification"
)

// Verify writes the rows that casewright was held against, by table, and the
// counts; short leaves out the rows that hold.
func Verify(w io.Writer, list []verification.Case, short bool, o Options) error {
	p := newListing(o)
	var rows []row
	from := ""
	for i := range list {
		c := &list[i]
		if short && c.Pass {
			continue
		}
		if c.Table != from {
			if from = c.Table; rows != nil {
				rows = append(rows, row{free: " "})
			}
			rows = append(rows, row{cells: []string{strings.TrimSuffix(from, ".csv"), "expected", "computed", "off", "allowed", "", ""}})
		}
		rows = append(rows, row{cells: caseCells(c)})
		if o.Width >= 120 || !c.Pass {
			rows = p.free(rows, c.Quantity+". "+c.Source+", "+c.Where)
		}
	}
	if rows != nil {
		p.grid(rows, left, right, right, right, right, left, left)
		p.marks(list)
		p.line("")
	}
	p.counts(list)
	return p.write(w)
}

// marks colours the words of the verdicts.
func (p *listing) marks(list []verification.Case) {
	if !p.options.Colour {
		return
	}
	text := p.text.String()
	p.text.Reset()
	p.text.WriteString(strings.ReplaceAll(text, "  FAIL", "  "+red+"FAIL"+plain))
}

// caseCells are the columns of one row: numbers in the unit of its source.
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
	if c.Refused {
		got, off = "refused", ""
	}
	return []string{"  " + c.ID, expected, got, off, allowed(c), word, c.Status}
}

func offText(c *verification.Case) string {
	if math.IsNaN(c.Off) {
		return "?"
	}
	if c.Value == 0 {
		return figures(c.Off)
	}
	return percentFine(c.Off)
}

// percentFine is a share in percent, as fine as it needs.
func percentFine(x float64) string {
	switch size := math.Abs(x); {
	case size < 1e-9:
		return "0 %"
	case size < 1e-4:
		return "< 0.01 %"
	}
	return strings.Replace(strconv.FormatFloat(100*x, 'g', 3, 64), "-", "−", 1) + " %"
}

// allowed is what a deviation may be.
func allowed(c *verification.Case) string {
	if low, high, ok := c.Band(); ok {
		return strings.TrimSuffix(percentFine(low-1), " %") + " to " + percentFine(high-1)
	}
	if c.Tolerance == 0 {
		return "exact"
	}
	return strings.Replace("±"+percentFine(c.Tolerance), "±< ", "< ", 1)
}

// counts tell how much was held, and the verdict.
func (p *listing) counts(list []verification.Case) {
	e := verification.Sum(list)
	covered, thin := 0, []string{}
	for _, m := range casewright.Methods() {
		of := verification.Sum(verification.Of(list, m.ID))
		if of.Rows >= 3 && of.Seen+of.Solver > 0 {
			covered++
		} else if of.Rows > 0 {
			thin = append(thin, m.ID)
		}
	}
	tables := map[string]bool{}
	for i := range list {
		tables[list[i].Table] = true
	}
	p.say("", 2, fmt.Sprintf("%d rows in %d tables: %d seen in a copy of their source, %d of a solver, %d from memory. %d of %d checks rest on three rows or more, one of them seen or solved. Rows that must agree are off by %s at most; others lie in a band.",
		e.Rows, len(tables), e.Seen, e.Solver, e.Memory, covered, len(casewright.Methods()), percentFine(e.Worst)))
	if len(thin) > 0 && len(thin) < 8 {
		p.say("", 2, "Fewer: "+strings.Join(thin, ", ")+".")
	}
	word := "PASS"
	verdict := margin.Pass
	if e.Failed > 0 || e.Rows == 0 {
		word, verdict = "FAIL", margin.Fail
	}
	text := fmt.Sprintf(": %d of %d rows hold", e.Rows-e.Failed, e.Rows)
	if p.options.Colour {
		word = colours[verdict] + word + plain
	}
	p.line("%s%s", word, text)
}

// evidence is against how many numbers from outside a check was verified.
type evidence struct{ verification.Evidence }

func evidenceOf(id string) evidence {
	return evidence{verification.Sum(verification.Of(verification.Cases(), id))}
}

func (e evidence) cells() []string {
	return []string{strconv.Itoa(e.Rows), strconv.Itoa(e.Seen), strconv.Itoa(e.Solver), strconv.Itoa(e.Memory), percentFine(e.Worst)}
}

// lines tell the evidence in a sentence.
func (e evidence) lines() []string {
	if e.Rows == 0 {
		return []string{"Against nothing from outside."}
	}
	return []string{fmt.Sprintf("Against %d numbers from outside: %d seen in a copy of their source, %d of a solver, %d from memory; those that must agree are off by %s at most (casewright verify).",
		e.Rows, e.Seen, e.Solver, e.Memory, percentFine(e.Worst))}
}
