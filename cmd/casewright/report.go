package main

import (
	"fmt"
	"strings"

	"casewright"
	"casewright/cmd/casewright/internal/document"
	"casewright/cmd/casewright/internal/drawing"
	"casewright/cmd/casewright/internal/table"
	"casewright/margin"
	"casewright/working"
)

type reportCmd struct {
	paperFlags
	Units string `help:"Units: auto (as the file has pressure and tube), metric or imperial." enum:"auto,metric,imperial" default:"auto"`
}

// Help follows the flags in report --help.
func (reportCmd) Help() string {
	return `Examples:
  casewright report basalt64.toml -o report.html
  casewright report basalt64.toml -o report.pdf

All there is to say of a design on one page that needs no network and no
script: the verdict, the motor drawn to scale with what fails marked, the least
margins as bars, what gives way first, every check, and each worked out.

Exit status: 0 written, 2 the file or the usage is bad, 3 the program failed.`
}

// Run writes the report.
func (c *reportCmd) Run(s *streams) error {
	return c.write(s, "report", func(r *casewright.Report) *document.Document { return wholeReport(r, table.Options{Units: c.Units}) })
}

// tones are those of verdicts.
var tones = map[margin.Verdict]document.Tone{margin.Pass: document.Plain, margin.Noted: document.Plain, margin.Fail: document.Fail, margin.Refused: document.Fail}

// wholeReport is the document of report.
func wholeReport(r *casewright.Report, o table.Options) *document.Document {
	d := r.Design
	doc := &document.Document{Title: d.Name.Value + ", " + d.Pressure.String()}
	add := func(blocks ...document.Block) { doc.Blocks = append(doc.Blocks, blocks...) }
	f := d.Factors()
	add(document.Heading{Level: 1, Text: doc.Title}, verdictOf(r), document.Paragraph{Text: fmt.Sprintf(
		"Worst case of tolerances. Factors: %g on yield, %g on ultimate strength, %g on fittings.", f.Yield, f.Ultimate, f.Fitting)})
	var notes []string
	for _, n := range r.Notes {
		notes = append(notes, n.Text)
	}
	if notes != nil {
		add(document.List{Items: notes})
	}
	if sheet, _, err := drawing.Section(r); err == nil {
		add(document.Figure{Sheet: sheet, Caption: sheet.Title + ". " + sheet.Description})
	}
	add(document.Heading{Level: 2, Text: "Least margins"}, document.Figure{Sheet: drawing.Bars(r, 20), Caption: "A margin of 0 has just what it needs, factors included."})
	add(document.Heading{Level: 2, Text: "What gives way first"},
		document.Table{Head: []string{"at", "of the design pressure", "", "check", "what happens"}, Right: []bool{true, true}, Rows: table.Order(r, o, 12)})
	rows, verdicts := table.Cells(r, o)
	all := document.Table{Head: []string{"check", "has", "needs", "margin", "gives way at", "", "what it is"}, Right: []bool{false, true, true, true, true}, Rows: rows}
	for _, v := range verdicts {
		all.Tones = append(all.Tones, tones[v])
	}
	add(document.Heading{Level: 2, Text: "Every check"}, all)
	add(document.Heading{Level: 2, Text: "Worked out"})
	which := working.Find(r, "")
	working.Worst(r, which)
	calculations := working.Of(r, which)
	for i := range calculations {
		add(workedFold(table.Work(r, &calculations[i], o)))
	}
	add(document.Heading{Level: 2, Text: "Cautions"}, document.Paragraph{Text: table.Caution, Tone: document.Caution},
		document.Paragraph{Text: "Local codes and licensed practice go before anything here. Nobody stands near a motor under pressure."})
	return doc
}

// workedFold is a check worked out, to be opened.
func workedFold(w table.Worked) document.Fold {
	fold := document.Fold{Title: strings.ToUpper(w.Word) + " " + w.ID + ": " + w.Title}
	add := func(blocks ...document.Block) { fold.Blocks = append(fold.Blocks, blocks...) }
	if w.Why != "" {
		add(document.Paragraph{Text: w.Why})
	}
	for i := range w.Sums {
		symbols, numbers, result := w.Sums[i].Line()
		text := w.Sums[i].Name
		for _, part := range []string{symbols, numbers, result} {
			if part != "" {
				text += " = " + part
			}
		}
		add(document.Paragraph{Text: text, Tone: document.Code})
	}
	add(document.List{Items: w.Outcome})
	t := document.Table{Head: []string{"symbol", "value", "meaning, and where it comes from"}, Right: []bool{false, true}}
	for i := range w.Symbols {
		s := &w.Symbols[i]
		told := append([]string{s.Meaning}, s.Origins...)
		if from := s.FromText(); from != "" {
			told = append(told, "= "+from)
		}
		t.Rows = append(t.Rows, []string{s.Name, s.Value, strings.Join(told, "; ")})
	}
	add(t)
	if w.Change != "" {
		add(document.Paragraph{Text: "To make it pass: write " + w.Change + "."})
	}
	for _, n := range w.Notes {
		add(document.Paragraph{Text: n})
	}
	add(document.Paragraph{Text: fmt.Sprintf("Source: %s. Holds for: %s. %s", w.Source, w.Range, strings.Join(w.Evidence, " "))})
	return fold
}
