package jsonout

import (
	"io"

	"casewright"
	"casewright/margin"
	"casewright/verification"
)

// methods is the document of `methods --format json`.
type methods struct {
	Format     int      `json:"format"`
	Kind       string   `json:"kind"`
	Casewright string   `json:"casewright"`
	Methods    []method `json:"methods"`
}

type method struct {
	ID       string         `json:"id"`
	Title    string         `json:"title"`
	Why      string         `json:"why"`
	Mode     string         `json:"mode,omitempty"`
	Unit     string         `json:"unit"`
	Demand   string         `json:"demand,omitempty"`
	Capacity string         `json:"capacity,omitempty"`
	Value    string         `json:"value,omitempty"`
	Limit    string         `json:"limit,omitempty"`
	Settable bool           `json:"settable,omitempty"` // a design file may set another limit
	Told     bool           `json:"told,omitempty"`     // there is no verdict, only a note
	Factors  []string       `json:"factors"`
	Symbols  []methodSymbol `json:"symbols"`
	Readings []reading      `json:"readings"`
	Key      string         `json:"key"`
	Source   string         `json:"source"`
	Range    string         `json:"range"`
	Evidence evidence       `json:"verified"`
}

type methodSymbol struct {
	Symbol  string   `json:"symbol"`
	Meaning string   `json:"meaning"`
	Unit    string   `json:"unit"`
	Keys    []string `json:"keys"`
}

// Methods writes the definitions of checks as one line.
func Methods(w io.Writer, list []*margin.Method) error {
	doc := methods{Format: 1, Kind: "methods", Casewright: casewright.Version, Methods: make([]method, len(list))}
	for i, m := range list {
		doc.Methods[i] = methodOf(m)
	}
	return write(w, doc)
}

func methodOf(m *margin.Method) method {
	out := method{
		ID: m.ID, Title: m.Title, Why: m.Why, Mode: m.Mode.String(), Unit: m.Unit.SI(),
		Demand: m.Demand, Capacity: m.Capacity, Value: m.Value, Limit: m.Limit,
		Settable: m.Settable, Told: m.NoteOnly,
		Factors: []string{}, Symbols: []methodSymbol{}, Readings: []reading{}, Key: m.Key, Source: m.Source, Range: m.Range, Evidence: evidenceOf(verification.For(m.ID)),
	}
	if out.Limit == "" {
		out.Limit = m.Default
	}
	if m.DefaultMost != "" {
		out.Limit += " to " + m.DefaultMost
	}
	switch m.Factor {
	case margin.YieldFactor:
		out.Factors = append(out.Factors, "yield")
	case margin.UltimateFactor:
		out.Factors = append(out.Factors, "ultimate")
	case margin.NoFactor:
	}
	if m.Joint {
		out.Factors = append(out.Factors, "fitting")
	}
	for _, s := range m.Symbols {
		info := s.Term.Info()
		out.Symbols = append(out.Symbols, methodSymbol{s.Name(), info.Meaning, info.Kind.SI(), s.Term.Keys()})
	}
	for _, o := range m.Readings {
		out.Readings = append(out.Readings, reading{Name: o.Name, Of: partNames[o.Of], Formula: o.Formula, Source: o.Source})
	}
	return out
}
