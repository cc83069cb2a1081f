package working

import (
	"math"
	"slices"

	"casewright"
	"casewright/margin"
)

// symbols collects the symbols of one check.
type symbols struct {
	design *casewright.Design
	motor  *casewright.Motor
	result *casewright.Result
	list   []Symbol
	seen   []margin.Symbol
}

// all are the symbols of the method, each followed sooner or later by those
// that it follows from itself.
func (s *symbols) all() []Symbol {
	m := s.result.Method
	for i, sym := range m.Symbols {
		value := s.result.In[i]
		if sym.End == margin.Either {
			// Which end was taken shows in the number.
			if sym.End = margin.Greatest; value != s.value(sym) {
				sym.End = margin.Least
			}
		}
		s.add(sym, m.Symbols[i].Name(), value)
	}
	for i := 0; i < len(s.list); i++ {
		from := s.list[i].From
		if from == nil {
			continue
		}
		for _, name := range from.Names() {
			if sym, ok := named(s.seen[i].Term, name); ok && !slices.Contains(s.seen, sym) {
				s.add(sym, name, s.value(sym))
			}
		}
	}
	return s.list
}

func (s *symbols) value(sym margin.Symbol) float64 {
	return s.motor.Value(int(s.result.Check.Part), sym)
}

func (s *symbols) add(sym margin.Symbol, name string, value float64) {
	info := sym.Term.Info()
	one := Symbol{Name: name, Meaning: info.Meaning, Kind: info.Kind, Value: value, End: sym.End}
	from, told := derivation(sym.Term)
	one.From, one.Told = node(from), told
	if info.Derived {
		one.End = margin.Only
	}
	for _, key := range sym.Term.Keys() {
		k := casewright.FindKey(key)
		if k == nil {
			continue
		}
		part := int(s.result.Check.Part)
		if text := k.Text(s.design, part); text != "" {
			one.Inputs = append(one.Inputs, Input{key, text, k.Line(s.design, part)})
		}
	}
	one.Entries = s.entries(sym.Term)
	s.list, s.seen = append(s.list, one), append(s.seen, sym)
}

// named finds the symbol that a formula for a term means by a name: of those
// that are printed so, the one that stands nearest in the list of terms.
func named(of margin.Term, name string) (margin.Symbol, bool) {
	best, found := margin.Symbol{}, false
	distance := math.MaxInt
	for t := range margin.NumTerms {
		if t == of {
			continue
		}
		for _, end := range []margin.End{margin.Only, margin.Least, margin.Greatest} {
			sym := t.At(end)
			if t.Info().Derived && end != margin.Greatest {
				continue // the worst end is implied
			}
			if away := max(int(t)-int(of), int(of)-int(t)); sym.Name() == name && away < distance {
				best, found, distance = sym, true, away
			}
		}
	}
	return best, found
}

// derivation is how a term follows from others: a formula, or words.
func derivation(margin.Term) (from, told string) { return "", "" }
