package margin

import (
	"github.com/shopspring/decimal"

	"casewright/quantity"
)

// Kind says how a method compares.
type Kind uint8

// The kinds: a strength compares a demand with a capacity; a limit compares a
// value with a least value, a greatest one, or both.
const (
	Strength Kind = iota
	AtLeast
	AtMost
	Between
)

// Mode says what happens when a check gives way.
type Mode uint8

// The modes. Unordered is for a margin that is no event of its own.
const (
	Unordered Mode = iota
	Yields         // permanent deformation, nothing leaves
	Breaks         // something lets go
	Leaks          // a seal
	Rule           // a rule of good practice
)

// String returns the mode in lower case, empty for Unordered.
func (m Mode) String() string { return [...]string{"", "yields", "breaks", "leaks", "rule"}[m] }

// Factor says which factor of safety multiplies the demand of a strength.
type Factor uint8

// The factors.
const (
	NoFactor Factor = iota
	YieldFactor
	UltimateFactor
)

// MaxSymbols is the largest number of symbols in one method.
const MaxSymbols = 10

// Values are the numbers of a method's symbols, in SI and in their order.
type Values [MaxSymbols]float64

// Exact looks up the exact value of a term, in metres for a length and as it
// stands for a count or a ratio, and the limit that the check has.
type Exact struct {
	At    func(Term, End) decimal.Decimal
	Limit decimal.Decimal // of the design file, else the method's Default; metres or 1
	Own   bool            // the limit is the design file's own
}

// A Method is the definition of one check. Table, worked calculation, list of
// methods and tests read this one value.
type Method struct {
	ID     string // stable, as in "hole.tear_out"
	Title  string // what is checked, in a few words
	Part   string // what gives way, in a few words: "the end leaves"
	Key    string // of the dimension that a person would change first
	Source string // standard, clause or table
	Range  string // where the formula holds, in words
	// Why says why the check matters at the bench, in a sentence or two.
	Why string
	// Readings are other ways to read the same numbers, for comparison; none
	// of them decides.
	Readings []Reading

	Kind   Kind
	Mode   Mode
	Factor Factor
	Joint  bool          // the load passes through a joint: times the fitting factor
	Unit   quantity.Kind // of demand and capacity, or of the value

	// Demand and Capacity are the printed formulas of a strength; Value and
	// Limit those of a limit check. Limit is empty where the limit is the
	// constant Default.
	Demand, Capacity string
	Value, Limit     string

	// Default is the limit where it is a constant, as written in the source;
	// a second one is the greatest of a Between.
	Default, DefaultMost string
	// Settable says that a design file may set another limit.
	Settable bool
	// NoteOnly says that the verdict is always a note.
	NoteOnly bool
	// Scale divides the value for a margin where the limit is 0; 1 if zero.
	Scale float64

	Symbols []Symbol
	// Eval computes demand and capacity, or value and limit (any number where
	// the limit is a constant), from the values of Symbols.
	Eval func(*Values) (float64, float64)
	// Valid tells why the values lie outside the formula's range; nil or None
	// where they lie inside.
	Valid func(*Values) Reason
	// Remark tells the notes that depend on the values and the outcome.
	Remark func(v *Values, value float64) Notes
	// Slack is at least 0 where the limit is kept, computed exactly from
	// dimensions; nil where the formula is not one between dimensions.
	Slack func(Exact) decimal.Decimal
	// GivesWay finds the pressure, in Pa, at which the value reaches its
	// limit; nil where pressure does not drive the value. own tells that the
	// limit is the design file's.
	GivesWay func(v *Values, limit float64, own bool) float64
}

// A Reading is a printed formula beside that of a method, in the same symbols.
type Reading struct {
	Name    string // of whom or what it is: "Faupel", "thin wall on the bore"
	Formula string
	Of      Part // what of the check it reads
	Source  string
}

// Part is a part of a check's sum.
type Part uint8

// The parts.
const (
	OfDemand Part = iota
	OfCapacity
	OfValue
)

// Names returns the printed names of the method's symbols, in order.
func (m *Method) Names() []string {
	names := make([]string, len(m.Symbols))
	for i, s := range m.Symbols {
		names[i] = s.Name()
	}
	return names
}
