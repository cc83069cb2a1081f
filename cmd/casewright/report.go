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
	built
	Units string `help:"Units: auto (as the file has pressure and tube), metric or imperial." enum:"auto,metric,imperial" default:"auto"`
}

// Help follows the flags in report --help.
func (reportCmd) Help() string {
	return `Examples:
  casewright report basalt64.toml -o report.html
  casewright report basalt64.toml -o report.pdf

All there is to say of a design on one page that needs no network and no
script: the verdict, the motor drawn to scale with what fails marked, the least
margins as bars, what gives way first, every check, and each worked out; on
paper (PDF) only what fails or is refused and the 12 least margins are.

Exit status: 0 written, 2 the file or the usage is bad, 3 the program failed.`
}

// Run writes the report.
func (c *reportCmd) Run(s *streams) error {
	return c.write(s, "report", c.built, func(r *casewright.Report, paper bool) *document.Document {
		return wholeReport(r, table.Options{Units: c.Units}, paper)
	})
}

// tones are those of verdicts.
var tones = map[margin.Verdict]document.Tone{margin.Pass: document.Plain, margin.Noted: document.Plain, margin.Fail: document.Fail, margin.Refused: document.Fail}

// wholeReport is the document of report; on paper what passes by far is not
// worked out.
func wholeReport(r *casewright.Report, o table.Options, paper bool) *document.Document {
	d := r.Design
	doc := &document.Document{Title: d.Name.Value + ", " + d.Pressure.String()}
	add := func(blocks ...document.Block) { doc.Blocks = append(doc.Blocks, blocks...) }
	f := d.Factors()
	cases := "Worst case of tolerances"
	if d.Drawn != nil {
		cases = "As built; worst case of what is not measured"
	}
	add(document.Heading{Level: 1, Text: doc.Title}, verdictOf(r), document.Paragraph{Text: fmt.Sprintf(
		cases+". Factors: %g on yield, %g on ultimate strength, %g on fittings.", f.Yield, f.Ultimate, f.Fitting)})
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
	if paper {
		which = pressing(r, which)
		add(document.Paragraph{Text: fmt.Sprintf("On paper: what fails or is refused, and the %d least margins of the rest, %d of %d checks. casewright explain, and this report as HTML, work them all out.", leastOnPaper, len(which), len(r.Results))})
	}
	calculations := working.Of(r, which)
	for i := range calculations {
		c := &calculations[i]
		w := table.Work(r, c, o)
		tone := tones[c.Result.Verdict]
		add(document.Fold{Name: w.ID, Title: strings.ToUpper(w.Word) + " " + w.ID + ": " + w.Title, Tone: tone, Open: tone == document.Fail, Blocks: []document.Block{document.Worked{Check: w}}})
	}
	add(document.Heading{Level: 2, Text: "Cautions"}, document.Paragraph{Text: table.Caution, Tone: document.Caution},
		document.Paragraph{Text: "Local codes and licensed practice go before anything here. Nobody stands near a motor under pressure."})
	return doc
}

// leastOnPaper is how many of the checks that pass are worked out on paper.
const leastOnPaper = 12

// pressing are those of the checks, the worst first, that are worked out on
// paper.
func pressing(r *casewright.Report, worstFirst []int) (list []int) {
	passes := 0
	for _, i := range worstFirst {
		switch v := r.Results[i].Verdict; {
		case v == margin.Fail || v == margin.Refused:
			list = append(list, i)
		case v == margin.Pass && passes < leastOnPaper:
			passes++
			list = append(list, i)
		}
	}
	return list
}
