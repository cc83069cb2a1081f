// Package page writes checks worked out as documents to keep: Markdown, and
// HTML that stands alone, its formulas typeset by the browser.
package page

import (
	_ "embed"
	"encoding/hex"
	"fmt"
	"html"
	"html/template"
	"io"
	"strings"

	"casewright"
	"casewright/cmd/casewright/internal/table"
	"casewright/margin/formula"
)

var (
	//go:embed page.html
	pageHTML string
	//go:embed check.html
	checkHTML string
)

// Style is the style sheet of all pages that we write.
//
//go:embed style.css
var Style string

var pageTemplate = template.Must(template.New("page").Funcs(template.FuncMap{
	"symbols": func(n *formula.Node) template.HTML { return math(n, nil, false) },
	"display": func(n *formula.Node) template.HTML { return math(n, nil, true) },
	"numbers": func(n *formula.Node, values map[string]string) template.HTML { return math(n, values, true) },
	"symbol":  symbol,
	"value":   func(text string) template.HTML { return template.HTML("<math>" + quantityMath(text) + "</math>") }, //nolint:gosec // escaped
	"anchor":  anchor,
	"style":   func() template.CSS { return template.CSS(Style) }, //nolint:gosec // ours
	"level":   func(w *table.Worked, level int) leveled { return leveled{w, level} },
	"head": func(level int, text string) template.HTML {
		return template.HTML(fmt.Sprintf("<h%d>%s</h%d>", level, html.EscapeString(text), level)) //nolint:gosec // escaped
	},
}).Parse(pageHTML + checkHTML))

// leveled is a check with the level of its headings.
type leveled struct {
	*table.Worked
	Level int
}

// document is what the page is made of.
type document struct {
	Motor, Pressure, File, SHA256 string
	Verdict, Word                 string
	Version, Caution              string
	Factors                       casewright.Factors
	Notes                         []casewright.Note
	Checks                        []*table.Worked
}

// HTML writes the checks as one page without any reference to elsewhere.
func HTML(w io.Writer, r *casewright.Report, list []table.Worked) error {
	return pageTemplate.Execute(w, documentOf(r, list))
}

// CheckHTML returns one check worked out, without its title, as a part of a page
// that has [Style]; level is that of its headings.
func CheckHTML(w *table.Worked, level int) (string, error) {
	var b strings.Builder
	err := pageTemplate.ExecuteTemplate(&b, "check", leveled{w, level})
	return b.String(), err
}

func documentOf(r *casewright.Report, list []table.Worked) document {
	d := r.Design
	file := d.File
	if file == "-" {
		file = ""
	}
	checks := make([]*table.Worked, len(list))
	for i := range list {
		checks[i] = &list[i]
	}
	return document{
		Motor: d.Name.Value, Pressure: d.Pressure.String(), File: file, SHA256: hex.EncodeToString(d.SHA256[:]),
		Verdict: r.Verdict.String(), Word: table.Verdict(r),
		Version: casewright.Version, Caution: table.Caution,
		Factors: d.Factors(), Notes: r.Notes, Checks: checks,
	}
}

// math is a formula as MathML: with its symbols, or with numbers for them; at
// full height where it is displayed.
func math(n *formula.Node, values map[string]string, displayed bool) template.HTML {
	var name func(string) string
	if values != nil {
		name = func(name string) string {
			if text := values[name]; text != "" {
				return quantityMath(text)
			}
			return ""
		}
	}
	style := ""
	if displayed {
		style = ` displaystyle="true"`
	}
	return template.HTML("<math" + style + ">" + n.MathML(name) + "</math>") //nolint:gosec // the printer escapes
}

// symbol is one symbol as MathML.
func symbol(name string) template.HTML {
	n := &formula.Node{Op: "name", Name: name}
	return math(n, nil, false)
}

// quantityMath is a number with its unit as MathML: "4.5 MPa", "2.36·10⁻⁵ 1/K".
func quantityMath(text string) string {
	number, unit, _ := strings.Cut(text, " ")
	row := "<mn>" + html.EscapeString(number) + "</mn>"
	if unit != "" {
		row += `<mspace width="0.2em"/><mtext>` + html.EscapeString(unit) + "</mtext>"
	}
	return "<mrow>" + row + "</mrow>"
}

// anchor is the id of a check in a link.
func anchor(id string) string { return strings.NewReplacer("/", "-", " ", "_").Replace(id) }
