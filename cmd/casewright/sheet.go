package main

import (
	"errors"
	"fmt"
	"io"
	"path/filepath"
	"strconv"

	"casewright"
	"casewright/bench"
	"casewright/cmd/casewright/internal/document"
	"casewright/cmd/casewright/internal/pdf"
	"casewright/cmd/casewright/internal/table"
)

// paperFlags are those of commands that write a document.
type paperFlags struct {
	File   string `arg:"" help:"A design file; - is standard input."`
	Output string `name:"output" short:"o" help:"File to write; its end tells the format. Standard output where none is named."`
	Format string `help:"markdown, html or pdf." enum:"auto,markdown,html,pdf" default:"auto"`
	Paper  string `help:"a4 or letter, of a PDF." enum:"a4,letter" default:"a4"`
}

// write checks the design and writes the document that is made of it, on paper
// as PDF.
func (p *paperFlags) write(s *streams, kind string, from built, of func(r *casewright.Report, paper bool) *document.Document) error {
	format, err := formatOf(p.Format, p.Output, "markdown", "html", "pdf")
	if err != nil {
		return err
	}
	design, err := from.read(p.File, s)
	var found casewright.Errors
	if errors.As(err, &found) {
		if err := tellInvalid(s, kind, format, p.File, found); err != nil {
			return err
		}
		return status{code: exitInput}
	}
	if err != nil {
		return err
	}
	doc := of(casewright.Check(design), format == "pdf")
	doc.Foot = footOf(design)
	return put(s, p.Output, p.File, func(w io.Writer) error {
		switch format {
		case "html":
			return doc.HTML(w)
		case "pdf":
			return pdf.Document(w, doc, map[string]pdf.Paper{"a4": pdf.A4, "letter": pdf.Letter}[p.Paper])
		}
		return doc.Markdown(w)
	})
}

// footOf tells at the foot of a document what it is made from.
func footOf(d *casewright.Design) string {
	return fmt.Sprintf("%s, SHA-256 %x, casewright %s. %s", filepath.Base(d.File), d.SHA256, casewright.Version, table.Caution)
}

type sheetCmd struct{ paperFlags }

// Help follows the flags in sheet --help.
func (sheetCmd) Help() string {
	return `Examples:
  casewright sheet basalt64.toml -o basalt64-sheet.pdf
  casewright sheet basalt64.toml | less

For the machine shop, a sheet of each part: every dimension with its tolerance,
threads, surfaces, edges, material. And the inspection sheet: what to measure of
what comes back, the three dimensions first that cost most margin. What you
measure goes into [measured] of the design file; check --as-built takes it.

Exit status: 0 written, 2 the file or the usage is bad, 3 the program failed.`
}

// Run writes the sheets.
func (c *sheetCmd) Run(s *streams) error { return c.write(s, "sheet", built{}, sheets) }

// sheets is the document of sheet.
func sheets(r *casewright.Report, _ bool) *document.Document {
	name := r.Design.Name.Value
	doc := &document.Document{Title: name + ": sheets of its parts"}
	add := func(blocks ...document.Block) { doc.Blocks = append(doc.Blocks, blocks...) }
	add(document.Heading{Level: 1, Text: doc.Title}, verdictOf(r))
	for i, p := range bench.Parts(r.Design) {
		if i > 0 && !p.Bought {
			add(document.Break{})
		}
		add(document.Heading{Level: 2, Text: fmt.Sprintf("%s, %d off", p.Name, p.Quantity)})
		text := p.Material
		if p.Form != "" {
			text += "; " + p.Form
		}
		if text != "" {
			add(document.Paragraph{Text: text, Tone: document.Strong})
		}
		t := document.Table{Head: []string{"what", "on the drawing", "where it is from"}}
		for _, row := range p.Rows {
			from := row.Source
			if from == "" {
				from = row.Key
			}
			t.Rows = append(t.Rows, []string{row.What, row.Text, from})
		}
		if len(t.Rows) > 0 {
			add(t)
		}
		if len(p.Notes) > 0 {
			add(document.List{Items: p.Notes})
		}
	}
	add(document.Break{}, document.Heading{Level: 2, Text: "Inspection on receipt"})
	t := document.Table{Head: []string{"", "part", "what", "least", "greatest", "measured", "with", "its tolerance costs"}, Right: []bool{false, false, false, true, true, false, false, false}}
	first := false
	for i, item := range bench.Inspection(r) {
		mark, tone := strconv.Itoa(i+1), document.Plain
		if item.First {
			mark, tone, first = "first "+mark, document.Strong, true
		}
		costs := "–" // nothing, at any check whose margin is below 1
		if item.Check != "" {
			costs = fmt.Sprintf("%.3f of %s", item.Loss, item.Check)
		}
		least, greatest := item.Least+" "+item.Unit, item.Greatest+" "+item.Unit
		if item.Exact {
			greatest = "no tolerance"
		}
		t.Rows = append(t.Rows, []string{mark, item.Part, item.What, least, greatest, "", item.Instrument, costs})
		t.Tones = append(t.Tones, tone)
	}
	if first {
		add(document.Paragraph{Text: "Measure those marked first before all others: their tolerances cost most margin."})
	}
	add(t, document.Paragraph{Text: `Write what you measure into the design file, as [measured] with "nozzle.outside_diameter" = "56.98 ±0.01 mm", the gauge's uncertainty behind it, and run casewright check --as-built.`})
	return doc
}

// verdictOf is the verdict of a motor as a paragraph.
func verdictOf(r *casewright.Report) document.Paragraph {
	tone := document.Fail
	if r.Verdict.String() == "pass" {
		tone = document.Pass
	}
	return document.Paragraph{Text: table.Verdict(r) + ". " + table.Caution, Tone: tone}
}
