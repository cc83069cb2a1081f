package bench

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"github.com/shopspring/decimal"

	"casewright"
	"casewright/margin"
	"casewright/quantity"
)

// An Item is one dimension to measure on receipt.
type Item struct {
	Part   string // where it is measured: "tube", an end's name, or "O-rings of the" end
	What   string
	Key    string // of the design file, as in "end.screws.edge"
	Number int    // part of the design that the key belongs to: 0 the tube, then the ends

	// Least and Greatest are the exact limits that the margins rest on, in Unit.
	// They are equal where the file gives no tolerance; see Exact.
	Least, Greatest, Unit string
	// Exact says that the file gives no tolerance: the margins hold for this
	// very size, so what is measured goes into the file and is checked again.
	Exact bool

	Instrument string // that suits it; common practice, no source

	// Loss is the margin that the tolerance costs the check that it costs most,
	// unit 1, at least 0: 0.02 of a margin is 2 % of what the part needs. Check
	// names it, as in "nozzle/hole.edge"; empty where nothing is lost.
	Loss  float64
	Check string
	First bool // one of the three that cost most
}

// considered is the margin below which a loss counts: a check with more holds
// twice what it needs.
const considered = 1

// firsts is how many dimensions are to be measured before all others.
const firsts = 3

// Inspection returns every dimension of a design with its limits, those first
// whose tolerance costs most margin. The loss of a dimension is the most that
// any check whose margin is below 1, and that is no note, gains when the
// tolerance is taken away: the size is then its nominal one, or the nearest to
// it within the tolerance; what is a tolerance itself, as the position of the
// holes, is then 0. Checks that are refused on either side do not count. Where the
// limit of a check is 0 its margin is in millimetres, as everywhere.
func Inspection(r *casewright.Report) []Item {
	var list []Item
	var without []margin.Check
	for number := range len(r.Design.Ends) + 1 {
		for _, f := range features {
			if strings.HasPrefix(f.key, "end.") != (number > 0) {
				continue
			}
			size := dimensionOf(r.Design, number, f.key)
			if !size.IsSet() || size.Greatest().IsZero() {
				continue // a solid plate has no port to measure
			}
			item := measured(r.Design, number, f, size)
			if !item.Exact {
				d := r.Design.Clone()
				casewright.FindKey(f.key).Field(d, number).(*casewright.Dimension).Dimension = settled(size, f.key)
				without = casewright.NewMotor(d).Evaluate(without[:0])
				item.Loss, item.Check = lostMargin(r.Results, without)
			}
			list = append(list, item)
		}
	}
	slices.SortStableFunc(list, func(a, b Item) int { return cmp.Compare(b.Loss, a.Loss) })
	for i := range min(firsts, len(list)) {
		list[i].First = list[i].Loss > 0
	}
	return list
}

// measured is the item of a dimension, without its loss.
func measured(d *casewright.Design, number int, f feature, size quantity.Dimension) Item {
	least := size.Least()
	if allowances[f.key] {
		least = decimal.Zero
	}
	item := Item{
		Part: "tube", What: f.what, Key: f.key, Number: number,
		Least: inUnit(size, least), Greatest: inUnit(size, size.Greatest()), Unit: size.Unit().Symbol(),
		Exact: !size.HasTolerance() && !allowances[f.key], Instrument: f.instrument,
	}
	switch name := ""; {
	case number == 0:
	default:
		name = d.Ends[number-1].Name.Value
		switch {
		case inTube[f.key]:
			item.What += ", at the " + name
		case f.key == "end.seal.section", f.key == "end.seal.inside_diameter":
			item.Part = "O-rings of the " + name
		default:
			item.Part = name
		}
	}
	return item
}

// inTube are the keys of an end that are cut into the tube.
var inTube = map[string]bool{
	"end.screws.hole": true, "end.screws.edge": true, "end.screws.position": true,
	"end.screws.edge_break": true, "end.screws.head_depth": true,
}

// inUnit writes metres in the unit of a dimension, without the unit.
func inUnit(d quantity.Dimension, metres decimal.Decimal) string {
	return strings.TrimSuffix(d.WithNominal(metres).Exact().String(), " "+d.Unit().Symbol())
}

// settled is a dimension whose tolerance is taken away.
func settled(d quantity.Dimension, key string) quantity.Dimension {
	if allowances[key] {
		return d.WithNominal(decimal.Zero).Exact()
	}
	return d.WithNominal(decimal.Max(d.Least(), decimal.Min(d.Nominal(), d.Greatest()))).Exact()
}

// lostMargin is the most margin that any check has lost against those without the
// tolerance, and which one has.
func lostMargin(with []casewright.Result, without []margin.Check) (most float64, check string) {
	for i := range with {
		w := &with[i]
		if w.Verdict == margin.Noted || !(w.Margin < considered) || math.IsNaN(without[i].Margin) {
			continue
		}
		if lost := without[i].Margin - w.Margin; lost > most+bendingNoise {
			most, check = lost, w.ID()
		}
	}
	return most, check
}

// bendingNoise is what a computed margin may differ by for no reason: the bending
// of the wall beside an end is found to 1e-5 (see casing.EndBending).
const bendingNoise = 1e-5
