package jsonout

import (
	"io"

	"casewright"
	"casewright/margin"
	"casewright/quantity"
	"casewright/sizing"
)

// answer is the answer to a question, one a line.
type answer struct {
	Format     int                `json:"format"`
	Question   string             `json:"question"`
	Casewright string             `json:"casewright"`
	Verdict    string             `json:"verdict"`
	Answer     *found             `json:"answer,omitempty"`
	Answers    []found            `json:"answers"`
	GovernedBy string             `json:"governed_by,omitempty"`
	Factors    map[string]float64 `json:"factors"`
	Notes      []Note             `json:"notes"`
	Checks     []check            `json:"checks"`
	Options    []option           `json:"options"`
	Budget     []cost             `json:"budget,omitempty"`
	Remarks    []string           `json:"remarks,omitempty"`
	NotChecked []lack             `json:"not_checked,omitempty"`
	Problem    string             `json:"problem,omitempty"`
	Mass       *Quantity          `json:"mass,omitempty"`
	DrawnAfter []string           `json:"drawn_after,omitempty"`
	Caution    string             `json:"caution"`
	Text       string             `json:"text,omitempty"` // of the design file, filled in
}

// found is one key that has been found.
type found struct {
	Key        string    `json:"key"`
	Part       string    `json:"part"`
	Value      *Quantity `json:"value,omitempty"` // exact, without a tolerance
	Drawing    drawing   `json:"drawing"`
	GovernedBy string    `json:"governed_by,omitempty"`
	Source     string    `json:"source,omitempty"`  // of what governs
	Because    string    `json:"because,omitempty"` // where no check governs
	Limits     []limit   `json:"limits,omitempty"`
}

// lack is a check that was not asked, and the keys that it needs.
type lack struct {
	Check string   `json:"check"`
	Needs []string `json:"needs"`
}

// drawing is what to write in a design file.
type drawing struct {
	Text string `json:"text"`
}

// limit is the size that one check asks for itself.
type limit struct {
	Check string    `json:"check"`
	Value *Quantity `json:"value"`
}

const caution = "A pass is not permission to fire: see SAFETY.md."

type option struct {
	Sets      []set     `json:"sets"`
	Mass      *Quantity `json:"mass,omitempty"`
	Least     *worst    `json:"least_margin,omitempty"`
	FitsRound int       `json:"fits_round,omitempty"`
	Checks    []brief   `json:"checks"`
}

// brief is a check of an option: the numbers by which options differ.
type brief struct {
	Check   string    `json:"check"`
	Verdict string    `json:"verdict"`
	Margin  *float64  `json:"margin,omitempty"`
	Value   *Quantity `json:"value,omitempty"`
}

type set struct {
	Key     string  `json:"key"`
	Drawing drawing `json:"drawing"`
}

type worst struct {
	Check  string   `json:"check"`
	Margin *float64 `json:"margin"`
}

// cost is what a tolerance costs in squeeze, in parts of the section.
type cost struct {
	Key     string  `json:"key"`
	Drawing drawing `json:"drawing"`
	Least   float64 `json:"least_squeeze"`
	Most    float64 `json:"greatest_squeeze"`
}

// Answer writes an answer as one line.
func Answer(w io.Writer, a *sizing.Answer) error { return Filled(w, a, "") }

// Filled is Answer with the text of the design file in which it stands.
func Filled(w io.Writer, a *sizing.Answer, text string) error {
	f := a.Design.Factors()
	doc := answer{
		Format: 1, Question: a.Question, Casewright: casewright.Version, Verdict: a.Report.Verdict.String(),
		Answers: []found{}, Notes: []Note{}, Checks: []check{}, Options: []option{},
		Factors: map[string]float64{"yield": f.Yield, "ultimate": f.Ultimate, "fitting": f.Fitting},
	}
	if doc.Verdict == margin.Pass.String() && !a.Holds() {
		doc.Verdict = margin.Fail.String()
	}
	doc.DrawnAfter = a.Drawn()
	doc.Caution, doc.Problem, doc.Remarks = caution, a.Problem, a.Remarks
	if a.Mass > 0 && a.Holds() {
		doc.Mass = massOf(a.Question, a.Mass)
	}
	for _, l := range a.Lacks {
		doc.NotChecked = append(doc.NotChecked, lack{l.Method.ID, l.Keys})
	}
	for i := range a.Values {
		doc.Answers = append(doc.Answers, foundOf(&a.Values[i]))
	}
	if a.Found() && len(doc.Answers) > 0 {
		doc.Answer, doc.GovernedBy = &doc.Answers[0], doc.Answers[0].GovernedBy
	}
	for _, n := range a.Report.Notes {
		doc.Notes = append(doc.Notes, Note(n))
	}
	for i := range a.Report.Results {
		doc.Checks = append(doc.Checks, checkOf(&a.Report.Results[i], f))
	}
	for _, o := range a.Options {
		doc.Options = append(doc.Options, optionOf(a.Question, &o))
	}
	for _, c := range a.Budget {
		doc.Budget = append(doc.Budget, cost{c.Key, drawing{c.Text}, c.Least, c.Most})
	}
	doc.Text = text
	return write(w, doc)
}

func foundOf(v *sizing.Value) found {
	f := found{Key: v.Key, Part: v.Part, Drawing: drawing{v.Drawing}, GovernedBy: v.Governs.ID(), Because: v.Governs.Text}
	if v.Governs.Method != nil {
		f.Source = v.Governs.Method.Source
	}
	switch {
	case v.Exact.IsSet():
		f.Value = lengthOf(v.Exact)
	case v.Amount.IsSet():
		f.Value = number(v.Amount.SI(), v.Amount.Kind())
	}
	for _, l := range v.Each {
		f.Limits = append(f.Limits, limit{l.ID(), lengthOf(l.Size)})
	}
	return f
}

func lengthOf(d quantity.Dimension) *Quantity {
	return number(float64(quantity.LengthOf(d.Nominal())), quantity.KindLength)
}

func optionOf(question string, o *sizing.Option) option {
	out := option{FitsRound: o.Most}
	for _, s := range o.Sets {
		out.Sets = append(out.Sets, set{s.Key, drawing{s.Text}})
	}
	for i := range o.Report.Results {
		r := &o.Report.Results[i]
		out.Checks = append(out.Checks, brief{r.ID(), r.Verdict.String(), plain(r.Margin), number(r.Value, r.Method.Unit)})
	}
	if o.Mass > 0 {
		out.Mass = massOf(question, o.Mass)
	}
	if o.Least != nil {
		out.Least = &worst{o.Least.ID(), plain(o.Least.Margin)}
	}
	return out
}

// massOf is a mass; of a tube alone it is per metre.
func massOf(question string, m quantity.Mass) *Quantity {
	if question == "wall" {
		return &Quantity{float64(m), "kg/m"}
	}
	return &Quantity{float64(m), "kg"}
}

// NoAnswer writes what is wrong with a question as one line.
func NoAnswer(w io.Writer, question string, list casewright.Errors) error {
	doc := struct {
		Format     int     `json:"format"`
		Question   string  `json:"question"`
		Casewright string  `json:"casewright"`
		Verdict    string  `json:"verdict"`
		Errors     []fault `json:"errors"`
	}{1, question, casewright.Version, "invalid", nil}
	for _, e := range list {
		doc.Errors = append(doc.Errors, faultOf(e))
	}
	return write(w, doc)
}
