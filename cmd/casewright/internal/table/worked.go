package table

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"casewright"
	"casewright/margin"
	"casewright/margin/formula"
	"casewright/quantity"
	"casewright/sizing"
	"casewright/verification"
	"casewright/working"
)

// Worked is one check worked out, in the words and units of a reader: what
// every way of showing it reads from.
type Worked struct {
	ID, Title, Verdict, Word string
	Part, Why                string
	Sums                     []WorkedSum
	Symbols                  []WorkedSymbol
	Outcome                  []string // how the margin follows, and where the part gives way
	Readings                 []WorkedReading
	Effects                  []WorkedEffect
	Change                   string   // the smallest change that makes it pass; empty where none is needed or known
	Changes                  []string // others that do
	Source, Range            string
	Notes                    []string
	Evidence                 []string // what it was verified against

	verdict margin.Verdict
}

// Line is the sum with its symbols, with numbers put in, and what comes out.
func (s *WorkedSum) Line() (symbols, numbers, result string) {
	if s.Formula == nil {
		return "", "", s.Result
	}
	symbols = printed(s.Formula, nil)
	if s.Result == "" {
		return symbols, "", ""
	}
	return symbols, printed(s.Formula, s.Values), s.Result
}

// Text is the sum on one line.
func (s *WorkedSum) Text() string {
	text := s.Name
	symbols, numbers, result := s.Line()
	for _, part := range []string{symbols, numbers, result} {
		if part != "" {
			text += " = " + part
		}
	}
	return text
}

// Plain tells that the sum is one symbol, whose number is the result.
func (s *WorkedSum) Plain() bool { return s.Formula != nil && s.Formula.Op == "name" }

// FromText is how the symbol follows from others; empty where it does not.
func (s *WorkedSymbol) FromText() string {
	if s.From == nil {
		return ""
	}
	return printed(s.From, nil)
}

// WorkedSum is a formula, with numbers put in, and what comes out.
type WorkedSum struct {
	Name    string        // "demand", "capacity", "value", "limit"
	Formula *formula.Node // nil for a constant
	Result  string
	Values  map[string]string // of its symbols, with units that go together
}

// WorkedSymbol is one line of what the symbols mean.
type WorkedSymbol struct {
	Name, Value, Meaning string
	From                 *formula.Node // nil where it follows from no others
	Values               map[string]string
	Origins              []string // where it comes from
}

// WorkedReading is another formula and what it gives.
type WorkedReading struct {
	Name, Result, Over, Source string
	Formula                    *formula.Node
}

// WorkedEffect is what a small step of a value does to the margin.
type WorkedEffect struct{ Key, Written, Step, By string }

// Work puts a calculation in the reader's words and units.
func Work(r *casewright.Report, c *working.Calculation, o Options) Worked {
	u := unitsFor(o.Units, r.Design)
	result := c.Result
	m := result.Method
	w := Worked{
		ID: result.ID(), Title: m.Title, Verdict: result.Verdict.String(), Word: words[result.Verdict],
		verdict: result.Verdict, Part: m.Part, Why: m.Why, Source: m.Source, Range: m.Range,
	}
	values := map[string]string{}
	for _, s := range c.Symbols {
		if _, known := values[s.Name]; !known {
			values[s.Name] = u.coherent(s.Value, s.Kind)
		}
	}
	for _, s := range c.Sums {
		one := WorkedSum{Name: sumName(s), Formula: s.Formula, Result: u.coherent(s.Value, s.Kind), Values: values}
		if math.IsNaN(s.Value) {
			one.Result = ""
		}
		w.Sums = append(w.Sums, one)
	}
	for _, s := range c.Symbols {
		w.Symbols = append(w.Symbols, u.symbol(s, values))
	}
	w.Outcome = u.outcome(r, result)
	for _, o := range c.Others {
		one := WorkedReading{Name: o.Name, Result: u.coherent(o.Value, m.Unit), Source: o.Source, Formula: o.Formula}
		if !math.IsNaN(o.Over) && !math.IsInf(o.Over, 0) && math.Abs(o.Over) < 10 && !(result.Value <= 0) {
			one.Over = strings.Replace(fmt.Sprintf("%+.1f %%", 100*o.Over), "-", "−", 1)
		}
		w.Readings = append(w.Readings, one)
	}
	for _, e := range c.Effects {
		w.Effects = append(w.Effects, WorkedEffect{e.Key, e.Text, e.Step, signed(e.By)})
	}
	w.changes(c)
	w.Evidence = evidenceLines(verification.For(m.ID))
	for _, n := range result.Notes.List() {
		w.Notes = append(w.Notes, n.Text())
	}
	return w
}

func sumName(s working.Sum) string {
	switch {
	case s.Limit && s.Most:
		return "limit, at most,"
	case s.Limit:
		return "limit, at least,"
	case s.Part == margin.OfDemand:
		return "demand"
	case s.Part == margin.OfCapacity:
		return "capacity"
	}
	return "value"
}

// changes are what to write instead.
func (w *Worked) changes(c *working.Calculation) {
	tell := func(f sizing.Fix) string {
		text := fmt.Sprintf("%s = %s", place(f.Key, []string{c.Result.Part}), f.Text)
		if f.Bound != "" {
			text += " " + f.Bound
		}
		if f.Also != "" {
			text += " with " + f.Also
		}
		return text + after(f.Fails)
	}
	for i, f := range append(c.Changes, c.Advice...) {
		if i == 0 && len(c.Changes) > 0 {
			w.Change = tell(f)
			continue
		}
		w.Changes = append(w.Changes, tell(f))
	}
}

// symbol tells one symbol and where it comes from.
func (u units) symbol(s working.Symbol, values map[string]string) WorkedSymbol {
	w := WorkedSymbol{Name: s.Name, Value: u.coherent(s.Value, s.Kind), Meaning: s.Meaning, From: s.From, Values: values}
	if math.IsNaN(s.Value) && len(s.Inputs) == 0 {
		w.Origins = append(w.Origins, "not known: the design file does not give all that it takes")
	} else if s.Told != "" {
		w.Origins = append(w.Origins, s.Told)
	}
	for _, in := range s.Inputs {
		text := fmt.Sprintf("%s = %q", in.Key, in.Text)
		if in.Line > 0 {
			text = fmt.Sprintf("line %d, %s", in.Line, text)
		}
		if len(s.Inputs) == 1 && s.From == nil {
			switch s.End {
			case margin.Least:
				text += ", at its least"
			case margin.Greatest:
				text += ", at its greatest"
			case margin.Only, margin.Either:
			}
		}
		w.Origins = append(w.Origins, text)
	}
	for _, e := range s.Entries {
		w.Origins = append(w.Origins, entryText(e))
	}
	return w
}

// entryText is an entry of a table with its source.
func entryText(e working.Entry) string {
	text := e.What
	if e.Value != "" {
		text += " " + e.Value
	}
	if e.Basis != "" {
		text += ", " + e.Basis
	}
	if e.Source != "" {
		text += "; " + e.Source
	}
	if e.Status != "" {
		text += " (" + e.Status + ")"
	}
	return text
}

// outcome says how the margin follows from the sums.
func (u units) outcome(r *casewright.Report, result *casewright.Result) []string {
	m := result.Method
	if result.Reason != margin.None { // a check that is only told may be refused too
		return []string{"refused: " + result.Reason.Text(), "to mend it: " + result.Reason.Write()}
	}
	if math.IsNaN(result.Margin) {
		return []string{"told, not judged"}
	}
	var lines []string
	is := Margin(result.Margin)
	switch {
	case m.Kind == margin.Strength:
		lines = append(lines,
			fmt.Sprintf("needs = %s × demand = %s", factors(r, m), u.coherent(result.Factor*result.Demand, m.Unit)),
			fmt.Sprintf("margin = capacity/needs − 1 = %s", is))
	case m.Kind == margin.AtMost && result.Max != 0:
		lines = append(lines, "margin = 1 − value/limit = "+is)
	case m.Kind == margin.AtLeast && result.Min != 0:
		lines = append(lines, "margin = value/limit − 1 = "+is)
	case m.Kind == margin.Between:
		lines = append(lines, "margin = the lesser of value/least − 1 and 1 − value/greatest = "+is)
	default:
		scale := "1"
		if m.Scale != 0 {
			scale = u.coherent(m.Scale, m.Unit)
		}
		lines = append(lines, fmt.Sprintf("margin = value/%s = %s (the limit is 0)", scale, is))
	}
	if !math.IsNaN(result.Nominal) {
		lines = append(lines, "at nominal sizes the margin is "+Margin(result.Nominal))
	}
	if at := result.GivesWayAt; !math.IsNaN(at) && !math.IsInf(at, 0) {
		lines = append(lines, fmt.Sprintf("gives way at %s, %s x the design pressure: %s",
			u.text(at, quantity.KindPressure, down), digits(at/r.Design.Pressure.SI(), 1, down), m.Part))
	}
	if result.Notes.Has(margin.LimitChanged) {
		lines = append(lines, "the limit is the design file's own, [limits]; the source is that of casewright's")
	}
	if result.ByTolerance() {
		lines = append(lines, "nominal sizes pass: measure, or draw tighter, before changing a size; casewright check says what")
	}
	if m.NoteOnly {
		lines = append(lines, "only told, never a verdict")
	}
	return lines
}

// factors are the factors of safety of a method, as a product.
func factors(r *casewright.Report, m *margin.Method) string {
	f := r.Design.Factors()
	text := "1"
	switch m.Factor {
	case margin.YieldFactor:
		text = fmt.Sprintf("%g (yield)", f.Yield)
	case margin.UltimateFactor:
		text = fmt.Sprintf("%g (ultimate)", f.Ultimate)
	case margin.NoFactor:
	}
	if m.Joint {
		text += fmt.Sprintf(" × %g (fitting)", f.Fitting)
	}
	return text
}

// coherent is a number in units that go together, so that the sums can be done
// on a calculator: N, mm and MPa, or lbf, in and psi.
func (u units) coherent(si float64, k quantity.Kind) string {
	if k == quantity.KindLength && math.Abs(si) < 1e-13 {
		si = 0 // a difference of sizes that are equal
	}
	metric, imperial := coherentUnits(k)
	symbol := metric
	if k == quantity.KindTorque && !u.inches {
		return figures(1e3*si) + " N mm"
	}
	if u.inches {
		symbol = imperial
	}
	unit, ok := k.Unit(symbol)
	if !ok || symbol == "" {
		return figures(si)
	}
	return figures(unit.FromSI(si)) + " " + symbol
}

func coherentUnits(k quantity.Kind) (metric, imperial string) {
	switch k {
	case quantity.KindLength:
		return "mm", "in"
	case quantity.KindArea:
		return "mm²", "in²"
	case quantity.KindPressure:
		return "MPa", "psi"
	case quantity.KindForce:
		return "N", "lbf"
	case quantity.KindTorque:
		return "N m", "lbf in"
	case quantity.KindTemperatureDifference:
		return "K", "°F"
	case quantity.KindExpansion:
		return "1/K", "1/°F"
	case quantity.KindAngle:
		return "°", "°"
	}
	return "", ""
}

// figures is a number in five figures.
func figures(x float64) string {
	switch {
	case math.IsNaN(x):
		return "?"
	case math.IsInf(x, 0):
		return "infinite"
	}
	text := strconv.FormatFloat(x, 'g', 5, 64)
	mantissa, exponent, ok := strings.Cut(text, "e")
	if !ok {
		return strings.Replace(text, "-", "−", 1)
	}
	n, _ := strconv.Atoi(exponent)
	if n > 0 && n < 9 {
		return strings.Replace(strconv.FormatFloat(x, 'f', 0, 64), "-", "−", 1)
	}
	return strings.Replace(mantissa+"·10"+superscript.Replace(strconv.Itoa(n)), "-", "−", 1)
}

var superscript = strings.NewReplacer("-", "⁻", "0", "⁰", "1", "¹", "2", "²", "3", "³", "4", "⁴", "5", "⁵", "6", "⁶", "7", "⁷", "8", "⁸", "9", "⁹")

// signed is a change of a margin.
func signed(x float64) string {
	text := strconv.FormatFloat(math.Abs(x), 'f', 3, 64)
	if math.Abs(x) < 0.0005 {
		text = "< 0.001"
	}
	if x < 0 {
		return "−" + text
	}
	return "+" + text
}
