// Package summary writes what came of a design file as a short text in
// Markdown, for a comment on a change or the summary of a build.
package summary

import (
	"fmt"
	"io"
	"strconv"

	"casewright/cmd/casewright/internal/document"
	"casewright/cmd/casewright/internal/findings"
	"casewright/cmd/casewright/internal/table"
	"casewright/margin"
)

// least is how many of the passing checks are shown, the least margins.
const least = 5

// Write writes the summary of one file: verdict, what fails or is refused and
// the least margins, what gives way first, what to write, and the caution. With
// o.All it has every passing check.
func Write(w io.Writer, outcome *findings.Outcome, list []findings.Finding, o table.Options) error {
	if outcome.Report == nil {
		return faulty(outcome, list).Markdown(w)
	}
	r := outcome.Report
	verdict := document.Paragraph{Text: table.Headline(r, o), Tone: document.Fail}
	if r.Verdict == margin.Pass && o.Lost == nil {
		verdict.Tone = document.Pass
	}
	passing := least
	if o.All {
		passing = len(r.Results)
	}
	blocks := []document.Block{
		document.Heading{Level: 2, Text: fmt.Sprintf("%s, %s (%s)", r.Design.Name.Value, r.Design.Pressure.String(), findings.Title(outcome.File))},
		verdict,
		document.Table{
			Head: []string{"check", "has", "needs", "margin", "gives way at", "", "what it is"}, Right: []bool{false, true, true, true, true},
			Rows: table.Least(r, o, passing),
		},
	}
	if list != nil {
		t := document.Table{Head: []string{"line", "check", "what is wrong, and what would mend it"}, Right: []bool{true}}
		for i := range list {
			t.Rows = append(t.Rows, []string{line(&list[i]), list[i].Name(), list[i].Sentence()})
		}
		blocks = append(blocks, document.Heading{Level: 3, Text: "What to write"}, t)
	}
	if first := table.First(r, o); first != nil {
		blocks = append(
			blocks,
			document.Heading{Level: 3, Text: "What gives way first"},
			document.Table{Head: []string{"at", "of the design pressure", "", "check", "what happens"}, Right: []bool{true, true}, Rows: first},
		)
	}
	return (&document.Document{Blocks: append(blocks, document.Paragraph{Text: table.Caution, Tone: document.Caution})}).Markdown(w)
}

// faulty is the summary of a file with faults.
func faulty(o *findings.Outcome, list []findings.Finding) *document.Document {
	count := fmt.Sprintf("%d faults", len(list))
	if len(list) == 1 {
		count = "one fault"
	}
	t := document.Table{Head: []string{"line", "what is wrong, and what to write instead"}, Right: []bool{true}}
	for i := range list {
		t.Rows = append(t.Rows, []string{line(&list[i]), list[i].Sentence()})
	}
	return &document.Document{Blocks: []document.Block{
		document.Heading{Level: 2, Text: findings.Title(o.File)},
		document.Paragraph{Text: "NOT CHECKED: " + count + " in the file", Tone: document.Fail},
		t,
	}}
}

// line is the line of a finding; empty where it has none.
func line(f *findings.Finding) string {
	if f.Line == 0 {
		return ""
	}
	return strconv.Itoa(f.Line)
}
