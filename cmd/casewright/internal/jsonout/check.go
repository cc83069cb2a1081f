// Package jsonout writes reports as JSON. Its field names are a contract with
// the scripts that read them: fields may be added, none changes meaning.
package jsonout

import (
	"encoding/hex"
	"encoding/json"
	"io"
	"math"

	"casewright"
	"casewright/margin"
	"casewright/quantity"
	"casewright/revision"
)

// Quantity is a number in SI with its unit.
type Quantity struct {
	Value float64 `json:"value"`
	Unit  string  `json:"unit"`
}

// Note is a remark; its id is stable.
type Note struct {
	ID   string `json:"id"`
	Text string `json:"text"`
}

// document is one report of `check --format json`, one a line.
type document struct {
	Format     int       `json:"format"`
	Kind       string    `json:"kind"`
	Casewright string    `json:"casewright"`
	File       string    `json:"file"`
	SHA256     string    `json:"sha256,omitempty"`
	Motor      string    `json:"motor,omitempty"`
	Pressure   *Quantity `json:"pressure,omitempty"`
	AsBuilt    bool      `json:"as_built,omitempty"`
	Verdict    string    `json:"verdict"`
	Notes      []Note    `json:"notes"`
	Checks     []check   `json:"checks"`
	First      []event   `json:"gives_way_first"`
	Baseline   *against  `json:"baseline,omitempty"`
}

// against is what a report was held against. Where anything is lost the verdict
// of the whole is "fail".
type against struct {
	File string    `json:"file"`
	Kept bool      `json:"kept"` // it has margins of this design
	Lost []setback `json:"lost"`
}

// setback is what one check has lost; the part alone where nothing is left of it.
type setback struct {
	Check string   `json:"check"`
	Was   *float64 `json:"was,omitempty"`
	Is    *float64 `json:"is,omitempty"`
	Text  string   `json:"text"`
}

type check struct {
	Part          string             `json:"part"`
	Item          int                `json:"item,omitempty"`
	ID            string             `json:"id"`
	Title         string             `json:"title"`
	Key           string             `json:"key"`
	Line          int                `json:"line,omitempty"`
	Mode          string             `json:"mode,omitempty"`
	Demand        *Quantity          `json:"demand,omitempty"`
	Capacity      *Quantity          `json:"capacity,omitempty"`
	Factor        float64            `json:"factor,omitempty"`
	Factors       map[string]float64 `json:"factors,omitempty"`
	Value         *Quantity          `json:"value,omitempty"`
	Min           *Quantity          `json:"min,omitempty"`
	Max           *Quantity          `json:"max,omitempty"`
	Margin        *float64           `json:"margin,omitempty"`
	MarginNominal *float64           `json:"margin_nominal,omitempty"`
	GivesWayAt    *Quantity          `json:"gives_way_at,omitempty"`
	Verdict       string             `json:"verdict"`
	Reason        *reason            `json:"reason,omitempty"`
	Source        string             `json:"source"`
	Notes         []Note             `json:"notes"`
}

// reason is why a check is refused, and what to write instead.
type reason struct {
	Note
	Write string `json:"write"`
}

type event struct {
	Check string    `json:"check"`
	At    *Quantity `json:"at"`
	Mode  string    `json:"mode"`
}

// invalid is a file that cannot be checked.
type invalid struct {
	Format     int     `json:"format"`
	Kind       string  `json:"kind"`
	Casewright string  `json:"casewright"`
	File       string  `json:"file"`
	Verdict    string  `json:"verdict"`
	Errors     []fault `json:"errors"`
}

type fault struct {
	Line    int    `json:"line,omitempty"`
	Column  int    `json:"column,omitempty"`
	Key     string `json:"key,omitempty"`
	Message string `json:"message"`
	Write   string `json:"write,omitempty"`
}

// Check writes a report as one line.
func Check(w io.Writer, r *casewright.Report) error { return write(w, documentOf(r)) }

// CheckAgainst writes a report as one line, with what it has lost against a
// baseline; kept tells whether that has margins of this design.
func CheckAgainst(w io.Writer, r *casewright.Report, baseline string, kept bool, losses []revision.Loss) error {
	doc := documentOf(r)
	doc.Baseline = &against{baseline, kept, []setback{}}
	for _, l := range losses {
		one := setback{Check: l.Kept.Name(), Was: plain(l.Kept.Margin), Text: l.Text}
		if l.Whole {
			one = setback{Check: l.Kept.Part, Text: l.Text}
		}
		if l.Now != nil {
			one.Is = plain(l.Now.Margin)
		}
		doc.Baseline.Lost = append(doc.Baseline.Lost, one)
	}
	if len(losses) > 0 || !kept {
		doc.Verdict = margin.Fail.String()
	}
	return write(w, doc)
}

func documentOf(r *casewright.Report) document {
	d := r.Design
	doc := document{
		Format: 1, Kind: "check", Casewright: casewright.Version,
		File: d.File, SHA256: hex.EncodeToString(d.SHA256[:]), Motor: d.Name.Value,
		Pressure: number(d.Pressure.SI(), quantity.KindPressure),
		AsBuilt:  d.Drawn != nil,
		Verdict:  r.Verdict.String(),
		Notes:    make([]Note, 0, len(r.Notes)), Checks: make([]check, len(r.Results)), First: make([]event, len(r.Order)),
	}
	for _, n := range r.Notes {
		doc.Notes = append(doc.Notes, Note(n))
	}
	factors := d.Factors()
	for i := range r.Results {
		doc.Checks[i] = checkOf(&r.Results[i], factors)
	}
	for i, e := range r.Order {
		doc.First[i] = event{e.Result.ID(), number(e.At, quantity.KindPressure), e.Result.Method.Mode.String()}
	}
	return doc
}

// Invalid writes the faults of a file as one line, in place of a document of
// that kind.
func Invalid(w io.Writer, kind, file string, found casewright.Errors) error {
	doc := invalid{Format: 1, Kind: kind, Casewright: casewright.Version, File: file, Verdict: "invalid", Errors: make([]fault, len(found))}
	for i, e := range found {
		doc.Errors[i] = faultOf(e)
	}
	return write(w, doc)
}

func faultOf(e *casewright.Error) fault { return fault{e.Line, e.Column, e.Key, e.Message, e.Write} }

func write(w io.Writer, doc any) error {
	e := json.NewEncoder(w)
	e.SetEscapeHTML(false)
	return e.Encode(doc)
}

func checkOf(r *casewright.Result, factors casewright.Factors) check {
	m := r.Method
	c := check{
		Part: r.Part, Item: int(r.Item), ID: m.ID, Title: m.Title, Key: r.Key, Line: r.Line, Mode: m.Mode.String(),
		Demand: number(r.Demand, m.Unit), Capacity: number(r.Capacity, m.Unit),
		Value: number(r.Value, m.Unit), Min: number(r.Min, m.Unit), Max: number(r.Max, m.Unit),
		Margin: plain(r.Margin), MarginNominal: plain(r.Nominal),
		GivesWayAt: number(r.GivesWayAt, quantity.KindPressure),
		Verdict:    r.Verdict.String(), Source: m.Source, Notes: []Note{},
	}
	if m.Kind == margin.Strength {
		c.Factor, c.Factors = r.Factor, map[string]float64{}
		switch m.Factor {
		case margin.YieldFactor:
			c.Factors["yield"] = factors.Yield
		case margin.UltimateFactor:
			c.Factors["ultimate"] = factors.Ultimate
		case margin.NoFactor:
		}
		if m.Joint {
			c.Factors["fitting"] = factors.Fitting
		}
	}
	if r.Reason != margin.None {
		c.Reason = &reason{Note{r.Reason.ID(), r.Reason.Text()}, r.Reason.Write()}
		c.MarginNominal = nil
	}
	for _, n := range r.Notes.List() {
		c.Notes = append(c.Notes, Note{n.ID(), n.Text()})
	}
	return c
}

// number is a quantity, or nil where there is none.
func number(x float64, k quantity.Kind) *Quantity {
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return nil
	}
	return &Quantity{x, k.SI()}
}

func plain(x float64) *float64 {
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return nil
	}
	return &x
}
