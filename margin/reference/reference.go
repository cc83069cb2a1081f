// Package reference reads the tables of published and solved numbers against
// which the formulas are held.
//
// A table is a CSV file with the columns
//
//	id,quantity,inputs,value,unit,tolerance_rel,source,where_in_source,status,note
//
// inputs are "name=value" pairs parted by "; ". A name ends in the unit of its
// value, "p_MPa=5", and is then asked for without it, "p"; without a unit the
// value is a ratio, a count or a word. tolerance_rel is relative, as a rule
// half of the last printed digit; 0 stands for an exact entry. status is
// "seen" (read in a copy of the source), "memory" (remembered, not looked up)
// or "solver" (computed with a general solver).
//
// Two inputs say how far the row and what is computed may be apart where they
// need not agree: "low" and "high", shares of the value between which the
// computed number lies. "table" says what the row is to ours in a word: "at
// most" (ours is half of it or more, and not above), "at least", "near", or
// "refused" (there must be no number).
package reference

import (
	"maps"
	"math"
	"slices"

	"casewright/quantity"
)

// A Row is one number from outside the project, and where it comes from.
type Row struct {
	ID       string
	Quantity string // what the number is
	Value    float64
	Unit     quantity.Unit // in which Value is printed; Value itself is in SI
	// Tolerance is the relative difference that passes; 0 for an exact entry.
	Tolerance float64

	Source, Where, Status, Note string

	Line int // of the table, from 1

	numbers map[string]float64 // in SI, by name without unit
	words   map[string]string
	missing []string
	refused bool
}

// Of returns an input in SI, by its name without the unit. Where the row has no
// such number it is NaN, and [Row.Missing] names it.
func (r *Row) Of(name string) float64 {
	x, ok := r.numbers[name]
	if !ok {
		r.missing = append(r.missing, name)
		return math.NaN()
	}
	return x
}

// Text returns an input that is a name or a word. Where the row has none it is
// empty, and [Row.Missing] names it.
func (r *Row) Text(name string) string {
	w, ok := r.words[name]
	if !ok {
		r.missing = append(r.missing, name)
	}
	return w
}

// Missing names the inputs that were asked for in vain.
func (r *Row) Missing() []string { return r.missing }

// Refuse notes that there is rightly no number at the row's sizes, which
// [Row.Refused] then tells. It returns NaN.
func (r *Row) Refuse() float64 {
	r.refused = true
	return math.NaN()
}

// Refused tells that there is rightly no number: the sizes lie outside what is
// computed.
func (r *Row) Refused() bool { return r.refused }

// Inputs returns the names of all inputs, without their units, sorted.
func (r *Row) Inputs() []string {
	names := slices.AppendSeq(slices.Collect(maps.Keys(r.numbers)), maps.Keys(r.words))
	slices.Sort(names)
	return names
}

// HasText reports whether the row has a word of this name among its inputs.
func (r Row) HasText(name string) bool {
	_, ok := r.words[name]
	return ok
}

// Band returns what a computed number may be of the row's, where the two need
// not agree: the inputs "low" and "high", or what "table" says the row is to
// ours: "at most", "at least" or "near".
func (r Row) Band() (low, high float64, ok bool) {
	switch r.words["table"] {
	case "at most":
		return 0.5, 1, true
	case "at least":
		return 1, 2, true
	case "near":
		return 1 - r.Tolerance, 1.003, true
	}
	low, ok = r.numbers["low"]
	return low, r.numbers["high"], ok
}

// Agrees tells that a computed number must be the row's, within its tolerance.
func (r Row) Agrees() bool {
	_, _, ok := r.Band()
	return !ok
}

// Off is a computed number over the row's, less 1; the difference where the
// row's is 0.
func (r Row) Off(got float64) float64 {
	if r.Value == 0 {
		return got
	}
	return got/r.Value - 1
}

// MustRefuse tells that there must be no number.
func (r Row) MustRefuse() bool { return r.words["table"] == "refused" }

// Holds tells whether a computed number, in SI, is the row's within its
// tolerance or lies in its band; 0 is met to 1e-12.
func (r Row) Holds(got float64) bool {
	if low, high, ok := r.Band(); ok {
		share := got / r.Value
		return share >= low-rounding && share <= high+rounding
	}
	if r.Value == 0 {
		return math.Abs(got) <= rounding
	}
	return math.Abs(got-r.Value) <= max(r.Tolerance, rounding)*math.Abs(r.Value)
}

// Has reports whether the row has a number of this name among its inputs.
func (r Row) Has(name string) bool {
	_, ok := r.numbers[name]
	return ok
}

// rounding is the relative difference that an exact entry may have from a
// computed number.
const rounding = 1e-12
