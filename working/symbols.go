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
		for _, sym := range s.seen[i].Term.Info().Uses {
			if !slices.Contains(s.seen, sym) {
				s.add(sym, sym.Name(), s.value(sym))
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
	one.From, one.Told = node(info.From), info.Told
	if one.From != nil && !s.follows(sym) {
		one.From = nil // as the area of a lead-in that is not there
	}
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
			one.Inputs = append(one.Inputs, Input{key, text, k.Place(s.design, part).Line})
		}
	}
	one.Entries = s.entries(sym.Term)
	s.list, s.seen = append(s.list, one), append(s.seen, sym)
}

// follows tells whether the terms that a formula uses are there at all.
func (s *symbols) follows(sym margin.Symbol) bool {
	uses := sym.Term.Info().Uses
	return !slices.ContainsFunc(uses, func(of margin.Symbol) bool { return math.IsNaN(s.value(of)) })
}
