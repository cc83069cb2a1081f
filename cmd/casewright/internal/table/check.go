// Package table writes reports for a person at a terminal.
package table

import (
	"fmt"
	"io"
	"regexp"
	"slices"
	"strings"
	"unicode/utf8"

	"github.com/olekukonko/tablewriter/tw"

	"casewright"
	"casewright/margin"
	"casewright/quantity"
)

// Options say how a report is written.
type Options struct {
	All    bool   // passing checks too
	Units  string // auto, metric or imperial
	Colour bool
	ASCII  bool
	Width  int // columns

	Baseline string   // file of the margins that the report was held against; empty for none
	Lost     []string // what is lost against it; the verdict is then FAIL
}

// Check writes a report: the checks by part, what to write where one fails,
// the notes, and last the verdict with what gives way first.
func Check(w io.Writer, r *casewright.Report, o Options) error {
	p := &page{report: r, options: o, units: unitsFor(o.Units, r.Design)}
	p.head()
	if err := p.parts(); err != nil {
		return err
	}
	p.refusals()
	p.advice()
	p.notes()
	p.lost()
	p.verdict()
	_, err := io.WriteString(w, p.finish())
	return err
}

type page struct {
	report  *casewright.Report
	options Options
	units   units
	text    strings.Builder
	said    string // how the line of the verdict begins, once it is written
}

func (p *page) line(format string, args ...any) { fmt.Fprintf(&p.text, format+"\n", args...) }

// wrapped writes a text behind a label over as many lines as the width asks
// for; all but the first are indented.
func (p *page) wrapped(label string, indent int, text string) {
	width := max(40, min(100, p.options.Width))
	label, text = p.signs(label), p.signs(text)
	line, empty := label, true
	for _, word := range strings.Fields(text) {
		if !empty && utf8.RuneCountInString(line)+1+utf8.RuneCountInString(word) > width {
			p.line("%s", line)
			line, empty = strings.Repeat(" ", indent), true
		}
		if !empty {
			line += " "
		}
		line, empty = line+word, false
	}
	p.line("%s", line)
}

func (p *page) head() {
	d := p.report.Design
	left := p.signs(fmt.Sprintf("%s, %s, %s", d.Name.Value, d.Pressure.String(), d.File))
	if d.File == "-" {
		left = p.signs(fmt.Sprintf("%s, %s", d.Name.Value, d.Pressure.String()))
	}
	right := "worst case of tolerances"
	if d.Drawn != nil {
		right = "as built, worst case of what is not measured"
	}
	width := min(80, p.options.Width)
	if gap := width - utf8.RuneCountInString(left) - len(right); gap >= 2 {
		p.line("%s%s%s", left, strings.Repeat(" ", gap), right)
		return
	}
	p.wrapped("", 2, left)
	p.line("%*s", width, right)
}

func (p *page) parts() error {
	var rows []row
	headed := false // the column heads stand over the first row that is shown
	for _, part := range p.sorted() {
		head := len(rows)
		rows = append(rows, row{cells: []string{part.name, "", "", "", "", ""}})
		folded := 0
		for _, result := range part.results {
			if !p.options.All && (result.Verdict == margin.Pass || result.Verdict == margin.Noted) {
				folded++
				continue
			}
			if !headed {
				rows[head].cells, headed = []string{part.name, "has", "needs", "margin", "gives way", ""}, true
			}
			rows = append(rows, row{cells: p.cells(result)})
		}
		if folded > 0 {
			rows = append(rows, row{free: part.folded()})
		}
	}
	return p.render(rows)
}

// part is the results of one part, worst first.
type part struct {
	name    string
	results []*casewright.Result
}

// rank orders results: refused, then by rising margin, notes without last.
func rank(r *casewright.Result) (group int, size float64) {
	switch {
	case r.Verdict == margin.Refused:
		return 0, 0
	case r.Verdict == margin.Noted:
		return 2, 0
	}
	return 1, r.Margin
}

func worse(a, b *casewright.Result) int {
	x, m := rank(a)
	y, n := rank(b)
	switch {
	case x != y:
		return x - y
	case m < n:
		return -1
	case m > n:
		return 1
	}
	return 0
}

// sorted gives the parts, the worst first, each with its worst check first.
func (p *page) sorted() []part {
	var list []part
	for i := range p.report.Results {
		r := &p.report.Results[i]
		if len(list) == 0 || list[len(list)-1].name != r.Part {
			list = append(list, part{name: r.Part})
		}
		last := &list[len(list)-1]
		last.results = append(last.results, r)
	}
	for _, one := range list {
		slices.SortStableFunc(one.results, worse)
	}
	slices.SortStableFunc(list, func(a, b part) int { return worse(a.results[0], b.results[0]) })
	return list
}

// folded counts the checks of a part that are not shown one by one.
func (p *part) folded() string {
	passes, notes, shown := 0, 0, 0
	var least *casewright.Result
	for _, r := range p.results {
		switch r.Verdict {
		case margin.Pass:
			passes++
			if least == nil {
				least = r
			}
		case margin.Noted:
			notes++
		default:
			shown++
		}
	}
	text := fmt.Sprintf("        %d pass", passes)
	if shown > 0 {
		text = fmt.Sprintf("        %d more pass", passes)
	}
	if least != nil {
		text += fmt.Sprintf(", least margin %s (%s)", Margin(least.Margin), least.Method.ID)
	}
	if notes > 0 {
		text += fmt.Sprintf(", %d %s", notes, plural("note", notes))
	}
	return text
}

func plural(word string, n int) string {
	if n == 1 {
		return word
	}
	return word + "s"
}

// words are the verdicts as the table writes them.
var words = map[margin.Verdict]string{margin.Pass: "pass", margin.Fail: "FAIL", margin.Refused: "REFUSED", margin.Noted: "note"}

const (
	red    = "\x1b[31m"
	green  = "\x1b[32m"
	yellow = "\x1b[33m"
	plain  = "\x1b[0m"
)

var colours = map[margin.Verdict]string{margin.Pass: green, margin.Fail: red, margin.Refused: red, margin.Noted: yellow}

func (p *page) cells(r *casewright.Result) []string {
	has, needs := p.units.hasNeeds(r)
	mode := r.Method.Mode.String()
	if r.Method.Mode == margin.Rule {
		mode = ""
	}
	if r.ByTolerance() {
		mode = strings.TrimSpace(mode + " tol")
	}
	return []string{
		fmt.Sprintf("  %-*s  %s", p.wordWidth(), words[r.Verdict], r.Method.ID),
		p.signs(has), p.signs(needs.cell()), Margin(r.Margin), p.units.text(r.GivesWayAt, quantity.KindPressure, down), mode, p.signs(r.Method.Title),
	}
}

// wordWidth is that of the widest verdict that stands in the table.
func (p *page) wordWidth() int {
	for i := range p.report.Results {
		if p.report.Results[i].Verdict == margin.Refused {
			return len("REFUSED")
		}
	}
	return len("FAIL")
}

// render aligns the rows, with the titles of the checks where there is room,
// and closer together where there is little. Verdict words are coloured
// afterwards, so that the alignment never sees a colour.
func (p *page) render(rows []row) error {
	columns := []tw.Align{tw.AlignLeft, tw.AlignRight, tw.AlignRight, tw.AlignRight, tw.AlignRight, tw.AlignLeft, tw.AlignLeft}
	var lines []string
	for _, layout := range []struct{ columns, blanks int }{{7, 2}, {7, 1}, {6, 2}, {6, 1}, {5, 1}} {
		if layout.columns == 5 {
			rows = withoutModes(rows)
			layout.columns = 6
		}
		var err error
		if lines, err = alignedApart(rows, columns[:layout.columns], layout.blanks); err != nil {
			return err
		}
		if widest(lines) <= p.options.Width {
			break
		}
	}
	p.lines(lines)
	return nil
}

// lines writes lines that have been laid out.
func (p *page) lines(lines []string) {
	for _, line := range lines {
		p.line("%s", line)
	}
}

// withoutModes are the rows without the mode of each check, which the last
// lines tell for what matters; the mark of a tolerance stays.
func withoutModes(rows []row) []row {
	list := slices.Clone(rows)
	for i, r := range list {
		if len(r.cells) > 5 {
			list[i].cells = slices.Clone(r.cells)
			list[i].cells[5] = ""
			if strings.HasSuffix(r.cells[5], "tol") {
				list[i].cells[5] = "tol"
			}
		}
	}
	return list
}

// widest is the length of the longest line, in columns.
func widest(lines []string) int {
	most := 0
	for _, line := range lines {
		most = max(most, utf8.RuneCountInString(line))
	}
	return most
}

// tally tells how many checks fail and are refused, or that all pass.
func tally(r *casewright.Report) string {
	fails, refused, noted, tolerance := 0, 0, 0, 0
	for i := range r.Results {
		switch r.Results[i].Verdict {
		case margin.Fail:
			fails++
			if r.Results[i].ByTolerance() {
				tolerance++
			}
		case margin.Refused:
			refused++
		case margin.Noted:
			noted++
		}
	}
	var counts []string
	total := len(r.Results) - noted // what is only told is not counted as checked
	switch {
	case fails == 0 && refused == 0:
		counts = append(counts, fmt.Sprintf("%d checks", total))
		if noted > 0 {
			counts = append(counts, fmt.Sprintf("%d %s", noted, plural("note", noted)))
		}
	default:
		if fails > 0 {
			counts = append(counts, fmt.Sprintf("%d of %d checks", fails, total))
			switch {
			case tolerance == fails:
				counts = append(counts, "by tolerance only")
			case tolerance > 0:
				counts = append(counts, fmt.Sprintf("%d of them by tolerance only", tolerance))
			}
		}
		if refused > 0 {
			counts = append(counts, fmt.Sprintf("%d of %d refused", refused, total))
		}
	}
	return strings.Join(counts, ", ")
}

func (p *page) verdict() {
	r := p.report
	p.said = p.options.word(r) + ": "
	p.line("")
	p.wrapped("", 2, Headline(r, p.options))
	for _, mode := range []struct {
		mode  margin.Mode
		label string
	}{{margin.Leaks, "Leaks first   "}, {margin.Breaks, "Breaks first  "}, {margin.Yields, "Yields first  "}} {
		if e := r.First(mode.mode); e != nil {
			p.event(mode.label, e)
		}
	}
	if slices.ContainsFunc(r.Results, func(one casewright.Result) bool { return one.Verdict == margin.Refused }) {
		p.line("What is refused has no place in this order.")
	}
	f := r.Design.Factors()
	p.line("Factors        %g yield, %g ultimate, %g fitting", f.Yield, f.Ultimate, f.Fitting)
	p.line("%s", Caution)
}

// lost tells what is lost against the margins that are kept.
func (p *page) lost() {
	if len(p.options.Lost) == 0 {
		return
	}
	p.line("")
	p.line("Lost against %s", p.options.Baseline)
	for _, text := range p.options.Lost {
		p.wrapped("  ", 4, text)
	}
}

// Verdict is the verdict on the whole motor in full: what has been made easier
// in the file, and what was not checked, belong to it.
func Verdict(r *casewright.Report) string {
	return strings.Join(append([]string{wordOf(r)}, unchecked(r)...), "; ")
}

// Headline is the verdict in full with the number of checks behind it, and what
// is lost against a baseline.
func Headline(r *casewright.Report, o Options) string {
	list := []string{tally(r)}
	switch lost := len(o.Lost); {
	case lost > 0:
		list = []string{fmt.Sprintf("%d lost against %s", lost, o.Baseline), tally(r)}
	case o.Baseline != "":
		list = append(list, "nothing lost against "+o.Baseline)
	}
	return o.word(r) + ": " + strings.Join(append(list, unchecked(r)...), "; ")
}

// word is the verdict: what is lost against a baseline is no pass.
func (o *Options) word(r *casewright.Report) string {
	word := wordOf(r)
	if rest, ok := strings.CutPrefix(word, strings.ToUpper(words[margin.Pass])); ok && len(o.Lost) > 0 {
		return strings.ToUpper(words[margin.Fail]) + rest
	}
	return word
}

// unchecked tells what the verdict does not speak of.
func unchecked(r *casewright.Report) []string {
	noLeadIn := slices.ContainsFunc(r.Results, func(one casewright.Result) bool {
		return one.Verdict == margin.Noted && one.Notes.Has(margin.NoLeadIn)
	})
	var list []string
	for _, q := range []struct {
		so   bool
		text string
	}{
		{r.Has("cold"), "COLD: no temperature given"},
		{r.Has("not_checked_insert"), "NOT CHECKED: what holds the nozzle insert"},
		{noLeadIn, "NOT CHECKED: insertion of the ring"},
		{r.Design.Open, "NOT CHECKED: what needs more of the motor"},
		{r.Has("ends_missing"), "NOT CHECKED: " + missingEnds(len(r.Design.Ends))},
	} {
		if q.so {
			list = append(list, q.text)
		}
	}
	return list
}

// wordOf is the verdict, with what has been made easier in the file.
func wordOf(r *casewright.Report) string {
	word := strings.ToUpper(words[r.Verdict])
	var easier []string
	if r.Has("reduced_factors") {
		easier = append(easier, "REDUCED FACTORS")
	}
	if r.Has("own_limits") {
		easier = append(easier, "OWN LIMITS")
	}
	if easier != nil {
		word += " AT " + strings.Join(easier, " AND ")
	}
	return word
}

func missingEnds(n int) string {
	if n == 0 {
		return "the ends"
	}
	return "the other end"
}

// event writes what gives way first, at which pressure, and how many times the
// design pressure that is. Ends alike are named together.
func (p *page) event(label string, e *casewright.Event) {
	where := e.Result.Part + ", " + e.Result.Method.ID
	both := 0
	for _, other := range p.report.Order {
		if other.Result.Method == e.Result.Method && other.At == e.At {
			both++
		}
	}
	if both > 1 {
		where = e.Result.Method.ID + " at both ends"
	}
	if e.At == 0 {
		p.wrapped(label+" ", 15, fmt.Sprintf("%s, already without pressure: %s", where, e.Result.Method.Part))
		return
	}
	at := p.units.text(e.At, quantity.KindPressure, down)
	p.wrapped(label+" ", 15, fmt.Sprintf("%s, at %s, %s x: %s", where, at, digits(e.At/p.report.Design.Pressure.SI(), 1, down), e.Result.Method.Part))
}

// finish applies colour and plain ASCII to the whole page.
func (p *page) finish() string {
	text := p.signs(p.text.String())
	if !p.options.Colour {
		return text
	}
	lines := strings.Split(text, "\n")
	for i, line := range lines {
		for verdict, word := range words {
			if rest, ok := strings.CutPrefix(line, "  "+word+" "); ok {
				lines[i] = "  " + colours[verdict] + word + plain + " " + rest
			}
		}
		if p.said != "" && strings.HasPrefix(line, p.said) {
			word := strings.ToUpper(words[p.report.Verdict])
			lines[i] = colours[p.report.Verdict] + word + plain + strings.TrimPrefix(line, word)
		}
	}
	return strings.Join(lines, "\n")
}

var ascii = strings.NewReplacer(
	"±", "+-", "°C", "degC", "°F", "degF", "°", " deg", "×", "x", "−", "-", "²", "^2", "³", "^3", "≥", ">=", "≤", "<=",
	"µ", "u", "Δ", "d", "α", "alpha", "ν", "nu", "ρ", "rho", "λ", "lambda", "δ", "delta", "ψ", "psi", "θ", "theta", "√", "sqrt", "π", "pi", "…", "...", "é", "e", "·", " ", "→", "->",
)

// signs writes a text in the signs that the reader wants, before it is laid
// out: a sign may grow.
func (p *page) signs(text string) string {
	if p.options.ASCII {
		return ASCII(text)
	}
	return text
}

// powers are powers of ten and roots of a number, as a reader writes them by hand.
var (
	powers = regexp.MustCompile(`·10([⁻⁰¹²³⁴⁵⁶⁷⁸⁹]+)`)
	roots  = regexp.MustCompile(`√([0-9.]+)`)
	raised = strings.NewReplacer("⁻", "-", "⁰", "0", "¹", "1", "²", "2", "³", "3", "⁴", "4", "⁵", "5", "⁶", "6", "⁷", "7", "⁸", "8", "⁹", "9")
)

// ASCII replaces the signs that it knows, and all others by a question mark.
func ASCII(text string) string {
	text = powers.ReplaceAllStringFunc(text, func(s string) string { return "e" + raised.Replace(strings.TrimPrefix(s, "·10")) })
	text = roots.ReplaceAllString(text, "sqrt($1)")
	return strings.Map(func(c rune) rune {
		if c > 126 {
			return '?'
		}
		return c
	}, ascii.Replace(text))
}
