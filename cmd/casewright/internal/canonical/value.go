package canonical

import (
	"strings"
	"sync"

	"casewright"
	"casewright/materials"
	"casewright/quantity"
)

// spelt is a value of one line as it is best written: a string in double quotes
// where that needs no escape, with its quantity as on a drawing; all else as it
// stands.
func spelt(table, name, value string) string {
	quote := value[:1]
	if quote != `"` && quote != "'" || strings.HasPrefix(value, `"""`) || strings.HasPrefix(value, "'''") {
		return value
	}
	text := value[1 : len(value)-1]
	if strings.ContainsAny(text, "\\\"\t") {
		return value
	}
	return `"` + spelling(table, name, text) + `"`
}

// spelling is the text of a key as it is best written.
func spelling(table, name, text string) string {
	if read := quantities()[casewright.StockTable(table)+"."+name]; read != nil {
		return read(text)
	}
	if table == "measured" {
		return length(text)
	}
	return text
}

// quantities has, for each key that takes a quantity, how its text is spelt.
var quantities = sync.OnceValue(func() map[string]func(string) string {
	list := map[string]func(string) string{"material.at": amount(quantity.KindTemperature)}
	for p := range materials.NumProperties {
		list["material."+p.Key()] = amount(p.Kind())
	}
	for _, k := range casewright.Keys() {
		switch k.Field(&casewright.Design{}, 0).(type) {
		case *casewright.Dimension:
			list[k.Path] = length
		case *casewright.Amount, *casewright.Film:
			list[k.Path] = amount(k.Kind)
		}
	}
	return list
})

func length(text string) string {
	d, err := quantity.ParseDimension(text)
	if err != nil {
		return text
	}
	return d.Spelling()
}

func amount(kind quantity.Kind) func(string) string {
	return func(text string) string {
		a, err := quantity.Parse(kind, text)
		if err != nil {
			return text
		}
		return a.Spelling()
	}
}
