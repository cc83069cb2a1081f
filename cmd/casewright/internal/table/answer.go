package table

import (
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"

	"github.com/olekukonko/tablewriter/tw"

	"casewright"
	"casewright/margin"
	"casewright/quantity"
	"casewright/seal"
	"casewright/sizing"
)

// Answer writes an answer: the sizes with what governs them, what else would
// pass, the checks that were asked, and last the verdict.
func Answer(w io.Writer, a *sizing.Answer, o Options) error {
	p := &page{report: a.Report, options: o, units: unitsFor(o.Units, a.Design)}
	p.question(a)
	if a.Question == "size" {
		if err := p.found(a); err != nil {
			return err
		}
	} else {
		p.values(a)
	}
	if err := p.choices(a); err != nil {
		return err
	}
	if err := p.budget(a); err != nil {
		return err
	}
	p.line("")
	if err := p.parts(); err != nil {
		return err
	}
	p.refusals()
	p.advice()
	p.notes()
	p.verdict()
	_, err := io.WriteString(w, p.finish())
	return err
}

// titles say what is asked.
var titles = map[string]string{
	"wall":     "Least wall of the tube",
	"pressure": "Greatest pressure of the tube",
	"edge":     "Least distance of the holes from the tube end",
	"screws":   "Rows of screws that hold the end",
	"groove":   "Ring and groove for the bore",
	"size":     "Values that pass",
}

func (p *page) question(a *sizing.Answer) {
	d := a.Design
	text := titles[a.Question]
	if d.Pressure.IsSet() && a.Question != "pressure" {
		text += ", " + d.Pressure.String()
	}
	if d.Tube.Material.Material != nil {
		text += ", " + d.Tube.Material.Name
	}
	p.wrapped("", 2, text+"; worst case of tolerances")
}

// values writes what has been found, what governs it, and what to write.
func (p *page) values(a *sizing.Answer) {
	if !a.Found() {
		p.wrapped("  ", 4, nothing(a))
		return
	}
	for i := range a.Values {
		v := &a.Values[i]
		if text := p.exactly(v); text != "" {
			p.wrapped("  ", 4, text)
		}
	}
	p.wrapped("  ", 4, "Write "+writes(a.Values)+".")
	for i := range a.Values {
		p.ignored(&a.Values[i])
	}
}

// found writes the values of a design file, a line each, with what governs
// them.
func (p *page) found(a *sizing.Answer) error {
	if a.Nearest {
		p.wrapped("  ", 4, "Not all that is wanted can pass. Nearest comes what stands here; below stands what fails, and by how much.")
	}
	var rows []row
	for i := range a.Values {
		v := &a.Values[i]
		exact := ""
		if v.Exact.IsSet() {
			exact = p.exact(v.Exact, v.AtMost)
			if v.AtMost {
				exact = "at most " + exact
			} else {
				exact = "at least " + exact
			}
		}
		why := v.Governs.Text
		if v.Governs.Method != nil {
			why = v.Governs.Method.ID
		}
		rows = append(rows, row{cells: []string{"  " + v.Part, p.signs(assignment(v.Key, v.Drawing)), exact, why}})
	}
	return p.fit(rows, []tw.Align{tw.AlignLeft, tw.AlignLeft, tw.AlignLeft, tw.AlignLeft})
}

// nothing says that nothing passes, and what came nearest.
func nothing(a *sizing.Answer) string {
	if !a.Nearest {
		return "Nothing can be tried: no standard size fits."
	}
	var near []string
	keys := []string{"end.screws.thread", "end.screws.class", "end.screws.count"}
	if a.Question == "groove" {
		keys = []string{"end.seal.size", "end.seal.groove_diameter", "end.seal.groove_width", "end.outside_diameter"}
	}
	for _, key := range keys {
		if text := casewright.FindKey(key).Text(a.Design, len(a.Design.Ends)); text != "" {
			near = append(near, assignment(key, text))
		}
	}
	return "Nothing that was tried passes. Nearest comes " + strings.Join(near, ", ") + "; below stands what fails there, and by how much."
}

// writes are the keys as one would write them, each in its table.
func writes(values []sizing.Value) string {
	var list []string
	for _, v := range values {
		list = append(list, assignment(v.Key, v.Drawing))
	}
	return strings.Join(list, ", ")
}

// assignment is a key and its value as a design file has them.
func assignment(key, text string) string {
	name := key[strings.LastIndexByte(key, '.')+1:]
	if name == "count" {
		return name + " = " + text
	}
	return fmt.Sprintf("%s = %q", name, text)
}

// exactly says how much a size must be, and why it cannot be less.
func (p *page) exactly(v *sizing.Value) string {
	side := "at least"
	if v.AtMost {
		side = "at most"
	}
	var size string
	switch {
	case v.Exact.IsSet():
		size = p.exact(v.Exact, v.AtMost)
	case v.Amount.IsSet():
		size = v.Amount.String()
	default:
		return ""
	}
	text := fmt.Sprintf("%s: %s %s", name(v.Key), side, size)
	switch {
	case v.Governs.Method != nil:
		text += fmt.Sprintf(", for %s (%s; %s)", v.Governs.Method.ID, v.Governs.Method.Title, v.Governs.Method.Source)
	case v.Governs.Text != "":
		text += ", for " + v.Governs.Text
	}
	return text + "."
}

// exact is a size to a micrometre, or in inches rounded to the safe side.
func (p *page) exact(d quantity.Dimension, atMost bool) string {
	side := up
	if atMost {
		side = down
	}
	unit, scale := "mm", 1e3
	if p.units.inches {
		unit, scale = "in", 1e4
	}
	x := quantity.MustUnit(unit).FromSI(d.Nominal().InexactFloat64()) * scale
	if side == up {
		x = math.Ceil(x - 1e-6)
	} else {
		x = math.Floor(x + 1e-6)
	}
	return strconv.FormatFloat(x/scale, 'f', -1, 64) + " " + unit
}

func name(key string) string { return key[strings.LastIndexByte(key, '.')+1:] }

// ignored says what fails, one check after the other, where a size is worse
// than the answer.
func (p *page) ignored(v *sizing.Value) {
	if len(v.Each) == 0 {
		return
	}
	word := "below"
	if v.AtMost {
		word = "above"
	}
	var list []string
	for _, l := range v.Each {
		list = append(list, fmt.Sprintf("%s %s %s (%s)", word, p.exact(l.Size, v.AtMost), l.Method.ID, l.Method.Part))
	}
	p.wrapped("  ", 4, "What fails if it is ignored: "+strings.Join(list, "; ")+".")
}

// shown is how many options a person wants to see.
const shown = 12

// choices writes the options, a line each.
func (p *page) choices(a *sizing.Answer) error {
	if len(a.Options) == 0 {
		return nil
	}
	rows := []row{{cells: p.heads(a)}}
	most := shown
	if a.Question == "wall" {
		most = 5
	}
	for i := range a.Options[:min(most, len(a.Options))] {
		rows = append(rows, row{cells: p.choice(a, &a.Options[i])})
	}
	columns := make([]tw.Align, len(rows[0].cells))
	for i := range columns {
		columns[i] = tw.AlignLeft
	}
	p.line("")
	return p.fit(rows, columns)
}

// fit writes rows, closer together where the screen is narrow.
func (p *page) fit(rows []row, columns []tw.Align) error {
	var lines []string
	for _, blanks := range []int{2, 1} {
		var err error
		if lines, err = alignedApart(rows, columns, blanks); err != nil {
			return err
		}
		if widest(lines) <= p.options.Width {
			break
		}
	}
	for _, line := range lines {
		p.line("%s", line)
	}
	return nil
}

func (p *page) heads(a *sizing.Answer) []string {
	switch a.Question {
	case "wall":
		return []string{"  in stock", "kg/m", "least margin"}
	case "screws":
		return []string{"  thread", "class", "count", "fit", "hole", "edge", "g", "least margin"}
	}
	return []string{"  ring", "groove " + p.unit(), "width " + p.unit(), "end " + p.unit(), "squeeze", "stretch", "fill", "gap"}
}

func (p *page) choice(a *sizing.Answer, o *sizing.Option) []string {
	text := map[string]string{}
	for _, s := range o.Sets {
		text[s.Key] = p.signs(s.Text)
	}
	worst := ""
	if o.Least != nil {
		worst = marginText(o.Least.Margin) + " " + o.Least.Method.ID
	}
	switch a.Question {
	case "wall":
		return []string{"  " + text["tube.wall"], digits(float64(o.Mass), 2, up), worst}
	case "screws":
		mass := ""
		if o.Mass > 0 {
			mass = digits(float64(o.Mass)*1000, 0, up)
		}
		return []string{
			"  " + text["end.screws.thread"], text["end.screws.class"], text["end.screws.count"], fmt.Sprint(o.Most),
			text["end.screws.hole"], text["end.screws.edge"], mass, worst,
		}
	}
	return []string{
		"  " + text["end.seal.size"], bare(text["end.seal.groove_diameter"]), bare(text["end.seal.groove_width"]), bare(text["end.outside_diameter"]),
		p.between(o.Report, &seal.SqueezeLeastOffset, &seal.SqueezeMostOffset, &seal.SqueezeLeast, &seal.SqueezeMost),
		p.between(o.Report, &seal.StretchLeast, &seal.StretchMost), p.seen(o.Report, &seal.GrooveFill, up), p.seen(o.Report, &seal.Gap, up),
	}
}

// unit is that of the lengths in a table, and bare a length without it.
func (p *page) unit() string {
	d := p.report.Design
	for _, size := range []casewright.Dimension{d.Tube.Outside, d.Tube.Inside, d.Tube.Wall} {
		if size.IsSet() {
			return size.Unit().Symbol()
		}
	}
	return "mm"
}

func bare(text string) string {
	if i := strings.LastIndexByte(text, ' '); i > 0 {
		return text[:i]
	}
	return text
}

// between is the least and the greatest of a pair of checks; the second pair
// stands in where the first was not asked.
func (p *page) between(r *casewright.Report, pairs ...*margin.Method) string {
	var ends []string
	for i, side := range []rounding{down, up} {
		for j := i; j < len(pairs); j += 2 {
			if result := find(r, pairs[j]); result != nil {
				ends = append(ends, digits(result.Value*100, 0, side))
				break
			}
		}
	}
	if len(ends) < 2 {
		return ""
	}
	return strings.Join(ends, "-") + " %"
}

func (p *page) seen(r *casewright.Report, m *margin.Method, side rounding) string {
	result := find(r, m)
	if result == nil {
		return ""
	}
	return p.units.value(m, result.Value, side)
}

// find is the first result of a method; nil where it was not asked.
func find(r *casewright.Report, m *margin.Method) *casewright.Result {
	for i := range r.Results {
		if r.Results[i].Method == m {
			return &r.Results[i]
		}
	}
	return nil
}

// budget writes what each tolerance costs in squeeze.
func (p *page) budget(a *sizing.Answer) error {
	if len(a.Budget) == 0 {
		return nil
	}
	rows := []row{{cells: []string{"  points of squeeze that a tolerance costs", "", "least", "greatest"}}}
	for _, c := range a.Budget {
		rows = append(rows, row{cells: []string{"  " + short(c.Key), p.signs(c.Text), digits(c.Least*100, 1, up), digits(c.Most*100, 1, up)}})
	}
	p.line("")
	return p.fit(rows, []tw.Align{tw.AlignLeft, tw.AlignLeft, tw.AlignRight, tw.AlignRight})
}
