package seal

import (
	_ "embed"
	"maps"
	"slices"
	"strings"
	"sync"

	"casewright/quantity"
	"casewright/quantity/rows"
)

//go:embed compounds.csv
var compoundsCSV string

// A Compound is a family of rubber, with values that hold for its ordinary
// grades. Where sources differ it has the one that hurts; a ring's own data
// sheet is better.
type Compound struct {
	Name   string // NBR, FKM, VMQ, EPDM (ISO 1629)
	Common string // "nitrile", "fluorocarbon", "silicone", "ethylene propylene"

	Limit     quantity.Temperature // greatest continuous temperature, K
	Least     quantity.Temperature // least temperature as a static seal, K
	Expansion float64              // linear thermal expansion, 1/K
	Swell     float64              // allowance for swell, by volume; a ratio
	GapShare  float64              // of the tabulated gap; a ratio: 0.5 of VMQ, else 1

	LimitFrom, LeastFrom, ExpansionFrom, SwellFrom, GapShareFrom Provenance
}

// Provenance says where a value comes from.
type Provenance struct {
	Source string
	Status string // "seen" in the page named, or "memory": remembered, not looked up
}

// Compounds returns all compounds. Sources: seal makers' tables, named with
// each value. Swell is an allowance of our own, for a ring greased with what
// suits it and in hot gas for seconds, not soaked in oil or fuel.
func Compounds() []Compound { return slices.Clone(compounds().list) }

// CompoundNames returns the names of all compounds, in the order of
// [Compounds].
func CompoundNames() []string {
	list := compounds().list
	names := make([]string, len(list))
	for i, c := range list {
		names[i] = c.Name
	}
	return names
}

// CompoundSpellings returns all that [LookupCompound] knows a compound by,
// without blanks, hyphens and capitals, which are left to it.
func CompoundSpellings() []string { return slices.Sorted(maps.Keys(compounds().byKey)) }

// LookupCompound returns the compound of a name: "FKM", or a common one,
// "nitrile", "Buna-N", "fluorocarbon", "silicone", "ethylene propylene". Case,
// blanks and hyphens do not matter.
func LookupCompound(name string) (Compound, bool) {
	table := compounds()
	i, ok := table.byKey[compoundKey(name)]
	if !ok {
		return Compound{}, false
	}
	return table.list[i], true
}

// compoundTable is the parsed table, and the place of each name in it.
type compoundTable struct {
	list  []Compound
	byKey map[string]int
}

var compounds = sync.OnceValue(func() compoundTable {
	table := compoundTable{byKey: map[string]int{}}
	value := func(k quantity.Kind, text string) float64 { return rows.Must(quantity.Parse(k, text)).SI() }
	for _, row := range rows.Of(compoundsCSV, 5) {
		name, text, from := row[0], row[2], Provenance{row[3], row[4]}
		key := compoundKey(name)
		if _, ok := table.byKey[key]; !ok {
			table.byKey[key] = len(table.list)
			table.list = append(table.list, Compound{Name: name})
		}
		i := table.byKey[key]
		c := &table.list[i]
		switch row[1] {
		case "common":
			names := strings.Split(text, "; ")
			c.Common = names[0]
			for _, n := range names {
				table.byKey[compoundKey(n)] = i
			}
		case "limit":
			c.Limit, c.LimitFrom = quantity.Temperature(value(quantity.KindTemperature, text)), from
		case "least":
			c.Least, c.LeastFrom = quantity.Temperature(value(quantity.KindTemperature, text)), from
		case "expansion":
			c.Expansion, c.ExpansionFrom = value(quantity.KindExpansion, text), from
		case "swell":
			c.Swell, c.SwellFrom = value(quantity.KindRatio, text), from
		case "gap_share":
			c.GapShare, c.GapShareFrom = value(quantity.KindRatio, text), from
		default:
			panic("seal: compounds.csv: no property " + row[1])
		}
	}
	return table
})

// compoundKey reduces a name to one spelling: "Buna-N" to "bunan".
func compoundKey(name string) string { return strings.ReplaceAll(rows.Fold(name), "-", "") }
