package jsonout

import (
	"encoding/hex"
	"io"

	"casewright"
	"casewright/margin/formula"
	"casewright/quantity"
	"casewright/sizing"
	"casewright/verification"
	"casewright/working"
)

// explained is the document of `explain --format json`.
type explained struct {
	Format       int           `json:"format"`
	Kind         string        `json:"kind"`
	Casewright   string        `json:"casewright"`
	File         string        `json:"file"`
	SHA256       string        `json:"sha256,omitempty"`
	Motor        string        `json:"motor,omitempty"`
	Pressure     *Quantity     `json:"pressure,omitempty"`
	AsBuilt      bool          `json:"as_built,omitempty"`
	Verdict      string        `json:"verdict"` // of the whole motor
	Calculations []calculation `json:"calculations"`
}

// calculation is a check, worked out.
type calculation struct {
	check
	Why      string    `json:"why"`
	Range    string    `json:"range"`
	Sums     []sum     `json:"sums"`
	Symbols  []symbol  `json:"symbols"`
	Readings []reading `json:"readings"`
	Effects  []effect  `json:"effects"`
	// Changes are single changes that make it pass, the smallest first.
	Changes  []change `json:"changes"`
	Evidence evidence `json:"verified"`
}

type sum struct {
	Name    string    `json:"name"` // demand, capacity, value, min or max
	Formula string    `json:"formula,omitempty"`
	Value   *Quantity `json:"value,omitempty"`
}

type symbol struct {
	Symbol  string    `json:"symbol"`
	Meaning string    `json:"meaning"`
	Value   *Quantity `json:"value,omitempty"`
	End     string    `json:"end,omitempty"` // least or greatest, of a tolerance
	From    string    `json:"from,omitempty"`
	Told    string    `json:"told,omitempty"`
	Inputs  []input   `json:"inputs,omitempty"`
	Entries []entry   `json:"entries,omitempty"`
}

type input struct {
	Key  string `json:"key"`
	Text string `json:"text"`
	Line int    `json:"line,omitempty"`
}

type entry struct {
	What   string `json:"what"`
	Value  string `json:"value,omitempty"`
	Basis  string `json:"basis,omitempty"`
	Source string `json:"source,omitempty"`
	Status string `json:"status,omitempty"`
}

type reading struct {
	Name    string    `json:"name"`
	Of      string    `json:"of"`
	Formula string    `json:"formula"`
	Value   *Quantity `json:"value,omitempty"`
	Over    *float64  `json:"over,omitempty"`
	Source  string    `json:"source"`
}

type effect struct {
	Part   string  `json:"part"`
	Key    string  `json:"key"`
	Text   string  `json:"text"`
	Step   string  `json:"step"`
	Margin float64 `json:"margin"`
}

type change struct {
	Key   string   `json:"key"`
	Text  string   `json:"text"`
	Bound string   `json:"bound,omitempty"`
	Also  string   `json:"also,omitempty"`
	Fails []string `json:"fails,omitempty"`
}

var partNames = [...]string{"demand", "capacity", "value"}

// Explain writes checks worked out as one line.
func Explain(w io.Writer, r *casewright.Report, list []working.Calculation) error {
	d := r.Design
	doc := explained{
		Format: 1, Kind: "explain", Casewright: casewright.Version,
		File: d.File, SHA256: hex.EncodeToString(d.SHA256[:]), Motor: d.Name.Value, AsBuilt: d.Drawn != nil,
		Pressure: number(d.Pressure.SI(), quantity.KindPressure), Verdict: r.Verdict.String(), Calculations: make([]calculation, len(list)),
	}
	for i := range list {
		doc.Calculations[i] = calculationOf(r, &list[i])
	}
	return write(w, doc)
}

func calculationOf(r *casewright.Report, c *working.Calculation) calculation {
	m := c.Result.Method
	out := calculation{
		check: checkOf(c.Result, r.Design.Factors()), Why: m.Why, Range: m.Range,
		Sums: []sum{}, Symbols: []symbol{}, Readings: []reading{}, Effects: []effect{}, Changes: []change{},
		Evidence: evidenceOf(verification.For(m.ID)),
	}
	for _, s := range c.Sums {
		name := partNames[s.Part]
		if s.Limit {
			name = map[bool]string{true: "max", false: "min"}[s.Most]
		}
		out.Sums = append(out.Sums, sum{name, formulaText(s.Formula), number(s.Value, s.Kind)})
	}
	for _, s := range c.Symbols {
		out.Symbols = append(out.Symbols, symbolOf(s))
	}
	for _, o := range c.Others {
		out.Readings = append(out.Readings, reading{o.Name, partNames[o.Of], o.Reading.Formula, number(o.Value, m.Unit), plain(o.Over), o.Source})
	}
	for _, e := range c.Effects {
		part := "tube"
		if e.Part > 0 {
			part = r.Design.Ends[e.Part-1].Name.Value
		}
		out.Effects = append(out.Effects, effect{part, e.Key, e.Text, e.Step, e.By})
	}
	for _, f := range append(append([]sizing.Fix{}, c.Changes...), c.Advice...) {
		out.Changes = append(out.Changes, change{f.Key, f.Text, f.Bound, f.Also, f.Fails})
	}
	return out
}

func symbolOf(s working.Symbol) symbol {
	one := symbol{
		Symbol: s.Name, Meaning: s.Meaning, Value: number(s.Value, s.Kind),
		End: [...]string{"", "least", "greatest", ""}[s.End], From: formulaText(s.From), Told: s.Told,
	}
	for _, in := range s.Inputs {
		one.Inputs = append(one.Inputs, input(in))
	}
	for _, e := range s.Entries {
		one.Entries = append(one.Entries, entry(e))
	}
	return one
}

func formulaText(n *formula.Node) string {
	if n == nil {
		return ""
	}
	return n.Print()
}
