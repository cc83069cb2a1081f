// Package verification holds what casewright computes against numbers from
// outside the project: published tables and worked examples, and what general
// solvers give. The numbers stand in tables, a row each with its source; to add
// one is to add a row.
package verification

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"sync"

	"github.com/shopspring/decimal"

	"casewright"
	"casewright/margin"
	"casewright/margin/formula"
	"casewright/margin/reference"
	"casewright/quantity"
)

// A Number is one that casewright computes, by the name that a row has under
// "quantity".
type Number struct {
	Methods []string // the ids of the checks of whose sums it is a part; tables of strengths and sizes count for none
	Compute func(r *reference.Row) float64
}

// numbers are all that rows may name, a file for each subject.
var numbers = sync.OnceValue(func() map[string]Number {
	joined := map[string]Number{}
	for _, m := range []map[string]Number{
		quantityNumbers, casingNumbers, edgeNumbers, fastenerNumbers, tighteningNumbers, fitNumbers, closureNumbers, portNumbers, sealNumbers,
		sizingNumbers, heatNumbers, heatedNumbers, methodNumbers(),
	} {
		for name, n := range m {
			if _, twice := joined[name]; twice {
				panic(fmt.Sprintf("verification: %q stands twice", name)) // a test meets it first
			}
			joined[name] = n
		}
	}
	return joined
})

// Names returns the names that a row may have under "quantity", sorted; rows
// about a property of a material may be called anything.
func Names() []string {
	var list []string
	for name := range numbers() {
		list = append(list, name)
	}
	slices.Sort(list)
	return list
}

// sums are what a row may ask of a check by its id.
var sums = []string{"demand of ", "capacity of ", "value of ", "limit of "}

func sumsOf(m *margin.Method) []string {
	if m.Kind == margin.Strength {
		return sums[:2]
	}
	return sums[2:]
}

// methodNumbers are the sums of every check by their id: "demand of tube.hoop",
// "capacity of …", "value of …", "limit of …". The inputs of such a row are the
// symbols of the printed formula with their units: "p_MPa=5; D_b,max_mm=57".
func methodNumbers() map[string]Number {
	all := map[string]Number{}
	for _, m := range casewright.Methods() {
		texts := []string{m.Value, m.Limit}
		if m.Kind == margin.Strength {
			texts = []string{m.Demand, m.Capacity}
		}
		for i, name := range sumsOf(m) {
			all[name+m.ID] = Number{[]string{m.ID}, func(r *reference.Row) float64 { return sumOf(m, texts[i], r, i) }}
		}
	}
	return all
}

// kindOf is what a sum of a check is measured in.
func kindOf(name string) (quantity.Kind, bool) {
	for _, sum := range sums {
		id, ok := strings.CutPrefix(name, sum)
		if m := casewright.FindMethod(id); ok && m != nil {
			return m.Unit, true
		}
	}
	return 0, false
}

// sumOf is the first or the second sum of a method at a row's symbols; refused
// where they lie outside the method's range. Those that are not in its text may
// be left out.
func sumOf(m *margin.Method, text string, r *reference.Row, which int) float64 {
	if text == "" {
		return defaultOf(m)
	}
	n, err := formula.Parse(text)
	if err != nil {
		return math.NaN()
	}
	used := n.Names()
	var v margin.Values
	for i, name := range m.Names() {
		v[i] = math.NaN()
		if r.Has(name) || slices.Contains(used, name) {
			v[i] = r.Of(name)
		}
	}
	if outside(m, v) {
		return r.Refuse()
	}
	sums := [2]float64{}
	sums[0], sums[1] = m.Eval(&v)
	return sums[which]
}

// outside tells whether values lie outside a method's range. A bound on a value
// that is not given, and is NaN, is not asked: such a value is taken at either
// extreme, and one of them keeps the bound.
func outside(m *margin.Method, v margin.Values) bool {
	if m.Valid == nil {
		return false
	}
	for _, extreme := range []float64{0, math.MaxFloat64} {
		whole := v
		for i := range m.Symbols {
			if math.IsNaN(v[i]) {
				whole[i] = extreme
			}
		}
		if m.Valid(&whole) == margin.None {
			return false
		}
	}
	return true
}

// capacityOf is the capacity of a method where the strength is 1 Pa.
func capacityOf(m *margin.Method) float64 {
	v := margin.Values{}
	for i := range v {
		v[i] = 1
	}
	_, c := m.Eval(&v)
	return c
}

// defaultOf is the limit that a method is defined with, SI.
func defaultOf(m *margin.Method) float64 {
	a, err := quantity.Parse(m.Unit, m.Default)
	if err != nil {
		return math.NaN()
	}
	return a.SI()
}

// decimalOf is a number of a row as a decimal; 0 where it is none.
func decimalOf(x float64) decimal.Decimal {
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return decimal.Zero
	}
	return decimal.NewFromFloat(x)
}

func metres(d decimal.Decimal) float64 { return float64(quantity.LengthOf(d)) }

// name is an input that is a name, though it may look like a number, as the
// class 8.8.
func name(r *reference.Row, input string) string {
	if r.Has(input) {
		return strconv.FormatFloat(r.Of(input), 'f', -1, 64)
	}
	return r.Text(input)
}
