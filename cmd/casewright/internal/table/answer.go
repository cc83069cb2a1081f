package table

import (
	"fmt"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"

	"github.com/olekukonko/tablewriter/tw"

	"casewright"
	"casewright/casing"
	"casewright/fastener"
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
		p.found(a)
	} else {
		p.values(a)
	}
	if err := p.choices(a); err != nil {
		return err
	}
	if err := p.budget(a); err != nil {
		return err
	}
	if len(a.Report.Results) > 0 && a.Problem == "" {
		p.line("")
		if err := p.parts(); err != nil {
			return err
		}
		p.refusals()
		p.advice()
		p.notes()
		p.sources(a)
		p.verdict()
	} else {
		p.line("FAIL: no answer")
		p.line("%s", Caution)
	}
	_, err := io.WriteString(w, p.finish())
	return err
}

// sources names where the checks that were asked come from, and what the sizes
// are drawn after. Those of a whole motor stand in its file's own check.
func (p *page) sources(a *sizing.Answer) {
	if !a.Design.Open {
		return
	}
	var list []string
	add := func(source string) {
		if !slices.Contains(list, source) {
			list = append(list, source)
		}
	}
	for i := range a.Report.Results {
		add(a.Report.Results[i].Method.Source)
	}
	for _, drawn := range a.Drawn() {
		add(drawn)
	}
	p.line("")
	p.wrapped("Sources: ", 2, strings.Join(list, "; ")+".")
}

// titles say what is asked.
var titles = map[string]string{
	"wall":     "Least wall of the tube",
	"pressure": "Greatest pressure of the tube",
	"edge":     "Least distance of the holes from the tube end",
	"screws":   "Rows of screws that hold the end",
	"groove":   "Ring and groove for the bore",
	"size":     "Values for what is wanted",
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
		if text := p.exactly(&a.Values[i]); text != "" {
			p.wrapped("  ", 4, text)
		}
	}
	p.wrapped("  ", 4, "Write "+p.writes(a)+"."+p.weighs(a))
	for i := range a.Values {
		p.ignored(&a.Values[i])
	}
	switch {
	case a.Holds():
	case a.Question == "pressure":
		p.wrapped("  ", 4, fmt.Sprintf("At %s it fails: below stands what, and by how much.", a.Design.Pressure.String()))
	default:
		p.wrapped("  ", 4, "That alone is not enough: below stands what fails all the same, and by how much.")
	}
	for _, remark := range a.Remarks {
		p.wrapped("  ", 4, remark)
	}
	for _, l := range a.Lacks {
		var keys []string
		for _, key := range l.Keys {
			keys = append(keys, strings.TrimPrefix(strings.TrimPrefix(key, "motor."), "end.seal."))
		}
		p.wrapped("  ", 4, fmt.Sprintf("NOT CHECKED: %s; it needs %s.", l.Method.ID, strings.Join(keys, ", ")))
	}
}

// weighs tells the mass of a tube, and the next wall in stock.
func (p *page) weighs(a *sizing.Answer) string {
	if a.Question != "wall" || a.Mass <= 0 {
		return ""
	}
	text := fmt.Sprintf(" Such a tube weighs %s.", p.perLength(a.Mass))
	if len(a.Options) > 0 {
		next := &a.Options[0]
		text += fmt.Sprintf(" The next wall in stock is %s, %s.", next.Sets[0].Text, p.perLength(next.Mass))
	}
	return text
}

// perLength is a mass per length, given in kg/m.
func (p *page) perLength(m quantity.Mass) string {
	if p.units.inches {
		return digits(float64(m)*0.3048/0.45359237, 2, up) + " lb/ft"
	}
	return digits(float64(m), 2, up) + " kg/m"
}

// found writes the values of a design file, with what governs them.
func (p *page) found(a *sizing.Answer) {
	switch {
	case a.Problem != "":
		p.wrapped("  ", 4, a.Problem+".")
		return
	case a.Nearest:
		p.wrapped("  ", 4, "Not all that is wanted can pass. Nearest comes what stands here; below stands what fails, and by how much.")
	}
	for i := range a.Values {
		v := &a.Values[i]
		text := fmt.Sprintf("%s: %s", v.Part, assignment(v.Key, v.Drawing))
		if v.Exact.IsSet() {
			text += fmt.Sprintf("; %s %s", side(v), p.exact(v.Exact, v.AtMost))
		}
		if why := v.Governs.ID(); why != "" {
			text += ", for " + why
		} else if v.Governs.Text != "" {
			text += ", for " + v.Governs.Text
		}
		p.wrapped("  ", 4, text)
	}
	if a.Mass > 0 {
		p.wrapped("  ", 4, "Tube, screws and plate weigh "+p.mass(a.Mass)+".")
	}
}

// mass is a mass as a person reads it, rounded up.
func (p *page) mass(m quantity.Mass) string {
	if p.units.inches {
		return digits(float64(m)/0.45359237, 2, up) + " lb"
	}
	return digits(float64(m), 2, up) + " kg"
}

func side(v *sizing.Value) string {
	if v.AtMost {
		return "at most"
	}
	return "at least"
}

// nothing says that nothing passes, and what came nearest.
func nothing(a *sizing.Answer) string {
	if a.Problem != "" {
		return "Nothing can be tried: " + a.Problem + "."
	}
	if !a.Nearest {
		return "Nothing passes, whatever the size: below stands what fails, and by how much."
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
func (p *page) writes(a *sizing.Answer) string {
	var list []string
	for _, v := range a.Values {
		list = append(list, assignment(v.Key, v.Drawing))
		if v.Key == "tube.lead_in" && !a.Design.Tube.LeadInAngle.IsSet() {
			list[len(list)-1] += " at 15° to the axis"
		}
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
	var size string
	switch {
	case v.Exact.IsSet():
		size = p.exact(v.Exact, v.AtMost)
	case v.Amount.IsSet():
		size = v.Amount.String()
	default:
		return ""
	}
	text := fmt.Sprintf("%s: %s %s", name(v.Key), side(v), size)
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
		id, what := l.Method.ID, l.Method.Part
		if l.Part != "tube" && v.Part == "tube" {
			id = l.ID()
		}
		if l.Text != "" {
			what = "refused: " + l.Text
		}
		list = append(list, fmt.Sprintf("%s %s %s (%s)", word, p.exact(l.Size, v.AtMost), id, what))
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
	if err := p.fit(rows, columns); err != nil {
		return err
	}
	p.legend(a)
	return nil
}

// fit writes rows, closer together where the screen is narrow, and on a very
// narrow one without the tolerances, which stand with what to write.
func (p *page) fit(rows []row, columns []tw.Align) error {
	var lines []string
	for i, blanks := range []int{2, 1, 1, 1} {
		switch i {
		case 2:
			rows = nominals(rows)
		case 3:
			rows = shortLast(rows)
		}
		var err error
		if lines, err = alignedApart(rows, columns, blanks); err != nil {
			return err
		}
		if widest(lines) <= p.options.Width {
			break
		}
	}
	p.lines(lines)
	return nil
}

// shortLast are the rows with one word in the last column.
func shortLast(rows []row) []row {
	list := slices.Clone(rows)
	for i := range list {
		list[i].cells = slices.Clone(rows[i].cells)
		last := len(list[i].cells) - 1
		list[i].cells[last], _, _ = strings.Cut(list[i].cells[last], " ")
	}
	return list
}

// nominals are the rows without the tolerances of their sizes.
func nominals(rows []row) []row {
	list := slices.Clone(rows)
	for i := range list {
		list[i].cells = slices.Clone(rows[i].cells)
		for j, cell := range list[i].cells {
			if at := strings.IndexAny(cell, "±+"); at > 0 && cell[at-1] == ' ' {
				list[i].cells[j] = strings.TrimRight(cell[:at], " ")
			}
		}
	}
	return list
}

func (p *page) heads(a *sizing.Answer) []string {
	switch a.Question {
	case "wall":
		return []string{"  in stock", "mass", "least margin"}
	case "screws":
		return []string{"  thread", "class", "count", "fit", "pitch", "hole " + p.unit(), "edge " + p.unit(), "net", "g", "least strength"}
	}
	return []string{"  ring", "groove " + p.unit(), "width " + p.unit(), "end " + p.unit(), "squeeze", "stretch", "fill", "gap"}
}

// legend says how to read the table of options.
func (p *page) legend(a *sizing.Answer) {
	switch a.Question {
	case "screws":
		p.wrapped("  ", 2, "By number of holes, then mass; fewer than six come last, for an end on few screws rests on points. fit: so many of them fit round the tube. pitch: hole to hole, in holes. net: margin of the section between the holes. g: mass of the screws. least: margin of the weakest strength at this end.")
	case "groove":
		p.wrapped("  ", 2, "By the room that the squeeze leaves to its limits. Squeeze with the end pushed aside, under pressure and hot where that is known.")
	}
}

func (p *page) choice(a *sizing.Answer, o *sizing.Option) []string {
	text := map[string]string{}
	for _, s := range o.Sets {
		text[s.Key] = p.signs(s.Text)
	}
	worst := ""
	if o.Least != nil {
		worst = Margin(o.Least.Margin) + " " + o.Least.Method.ID
	}
	switch a.Question {
	case "wall":
		return []string{"  " + text["tube.wall"], p.perLength(o.Mass), worst}
	case "screws":
		mass := ""
		if o.Mass > 0 {
			mass = digits(float64(o.Mass)*1000, 0, up)
		}
		net, pitch := "", ""
		if one := find(a, o, &casing.NetSection); one != nil {
			net = Margin(one.Margin)
		}
		if one := find(a, o, &fastener.Pitch); one != nil {
			pitch = digits(one.Value, 1, down)
		}
		return []string{
			"  " + text["end.screws.thread"], text["end.screws.class"], text["end.screws.count"], fmt.Sprint(o.Most), pitch,
			bare(text["end.screws.hole"]), bare(text["end.screws.edge"]), net, mass, worst,
		}
	}
	return []string{
		"  " + text["end.seal.size"], bare(text["end.seal.groove_diameter"]), bare(text["end.seal.groove_width"]), bare(text["end.outside_diameter"]),
		p.between(a, o, &seal.SqueezeLeastOffset, &seal.SqueezeMostOffset, &seal.SqueezeLeast, &seal.SqueezeMost),
		p.between(a, o, &seal.StretchLeast, &seal.StretchMost), p.seen(a, o, &seal.GrooveFill, up), p.seen(a, o, &seal.Gap, up),
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
func (p *page) between(a *sizing.Answer, o *sizing.Option, pairs ...*margin.Method) string {
	var ends []string
	for i, side := range []rounding{down, up} {
		for j := i; j < len(pairs); j += 2 {
			if result := find(a, o, pairs[j]); result != nil {
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

func (p *page) seen(a *sizing.Answer, o *sizing.Option, m *margin.Method, side rounding) string {
	result := find(a, o, m)
	if result == nil {
		return ""
	}
	return p.units.value(m, result.Value, side)
}

// find is the result of a method at the end that is asked about; nil where it
// was not asked.
func find(a *sizing.Answer, o *sizing.Option, m *margin.Method) *casewright.Result {
	for i := range o.Report.Results {
		if r := &o.Report.Results[i]; r.Method == m && r.Part == a.Part {
			return r
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
