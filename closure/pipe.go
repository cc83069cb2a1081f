package closure

import (
	_ "embed"
	"slices"
	"strconv"
	"strings"
	"sync"

	"github.com/shopspring/decimal"

	"casewright/quantity"
	"casewright/quantity/rows"
)

//go:embed pipe.csv
var pipeCSV string

// A PipeThread is a taper pipe thread, 1 in 16 on the diameter, with its basic
// sizes.
type PipeThread struct {
	Name string // "1/8-27 NPT"

	Diameter       decimal.Decimal // outside diameter D of the pipe, m, exact
	ThreadsPerInch int             // n
	HandTight      decimal.Decimal // length L_1 that goes in by hand, m, exact
	TapDrill       decimal.Decimal // drill that a tap maker lists for it, m, exact
	// Coupling is the outside diameter of the forged class 3000 coupling, m,
	// exact; 0 where there is none of this size.
	Coupling decimal.Decimal

	Source, Status                 string // of diameter, pitch and L_1; "seen" in the copy named, or "memory"
	DrillSource, DrillStatus       string // of the tap drill
	CouplingSource, CouplingStatus string // of the coupling
}

// PipeThreads returns all pipe threads, from 1/16 to 1/2 in, by rising
// diameter. Sources: ASME B1.20.1 table 2 for the threads, ASME B16.11 for the
// couplings, a tap maker's catalogue for the drills.
func PipeThreads() []PipeThread {
	list := make([]PipeThread, len(pipeRows()))
	for i, row := range pipeRows() {
		list[i] = readPipe(row)
	}
	return list
}

// PipeThreadNames returns the names of all pipe threads, in the order of
// [PipeThreads].
func PipeThreadNames() []string {
	list := make([]string, len(pipeRows()))
	for i, row := range pipeRows() {
		list[i] = row[0]
	}
	return list
}

// PipeThreadSpellings returns all that [LookupPipeThread] knows a thread by,
// without blanks, capitals and the sign of an inch, which are left to it.
func PipeThreadSpellings() []string {
	var list []string
	for _, row := range pipeRows() {
		list = append(list, pipeKeys(row)...)
	}
	return list
}

// LookupPipeThread returns the thread of a designation: "1/8-27 NPT", "1/8
// NPT", "NPT 1/8" or "1/8-27". Case, blanks and the sign of an inch do not
// matter. The size alone is not enough: parallel threads have the same.
func LookupPipeThread(text string) (PipeThread, bool) {
	key := pipeKey(text)
	for _, row := range pipeRows() {
		if slices.Contains(pipeKeys(row), key) {
			return readPipe(row), true
		}
	}
	return PipeThread{}, false
}

// pipeKeys are the spellings of a thread.
func pipeKeys(row []string) []string {
	whole := pipeKey(row[0])                      // "1/8-27npt"
	pitched, _ := strings.CutSuffix(whole, "npt") // "1/8-27"
	size, _, _ := strings.Cut(pitched, "-")
	return []string{whole, pitched, size + "npt", "npt" + size, "npt" + pitched}
}

func pipeKey(text string) string {
	return strings.NewReplacer(`"`, "", "″", "", "”", "").Replace(rows.Fold(text))
}

var pipeRows = sync.OnceValue(func() [][]string { return rows.Of(pipeCSV, 12) })

// readPipe reads one row of the table.
func readPipe(row []string) PipeThread {
	size := func(text string) decimal.Decimal { return rows.Must(quantity.ParseDimension(text)).Nominal() }
	t := PipeThread{
		Name: row[0], Diameter: size(row[1]), ThreadsPerInch: rows.Must(strconv.Atoi(row[2])), HandTight: size(row[3]), TapDrill: size(row[4]),
		Source: row[6], Status: row[7], DrillSource: row[8], DrillStatus: row[9], CouplingSource: row[10], CouplingStatus: row[11],
	}
	if row[5] != "" {
		t.Coupling = size(row[5])
	}
	return t
}

// Of the formula for the effective length: 0.80 D + 6.8 turns.
var (
	inch  = decimal.RequireFromString("0.0254")
	two   = decimal.NewFromInt(2)
	share = decimal.RequireFromString("0.80")
	turns = decimal.RequireFromString("6.8")
)

// EffectiveLength returns the length of effective thread of the pipe, in m,
// exact, as the standard prints it: to 0.0001 in. The zero thread has none.
//
//	L_2 = (0.80 D + 6.8)/n, in inches
//
// Source: ASME B1.20.1.
func (t PipeThread) EffectiveLength() decimal.Decimal {
	if t.ThreadsPerInch == 0 {
		return decimal.Zero
	}
	perInch := inch.Mul(decimal.NewFromInt(int64(t.ThreadsPerInch)))
	return share.Mul(t.Diameter).Add(turns.Mul(inch)).DivRound(perInch, 4).Mul(inch)
}

// EndPitchDiameter returns the pitch diameter at the end of the pipe, m; in
// the hole it is met a hand-tight length deep. The zero thread has none.
//
//	E_0 = D − (0.05 D + 1.1)/n, in inches
//
// Source: ASME B1.20.1.
func (t PipeThread) EndPitchDiameter() quantity.Length {
	if t.ThreadsPerInch == 0 {
		return 0
	}
	d := float64(quantity.LengthOf(t.Diameter) / quantity.Inch)
	return quantity.Length(d-(0.05*d+1.1)/float64(t.ThreadsPerInch)) * quantity.Inch
}

// MouthPitchDiameter returns the pitch diameter at the mouth of the hole, m.
//
//	E_1 = E_0 + L_1/16
//
// Source: ASME B1.20.1.
func (t PipeThread) MouthPitchDiameter() quantity.Length {
	return t.EndPitchDiameter() + quantity.LengthOf(t.HandTight)/16
}

// CouplingWall returns the wall of a forged class 3000 coupling beside its
// thread, in m, exact: (outside diameter − D)/2. That of 1/16 in, which has no
// coupling, is taken as that of 1/8. Source: ASME B16.11; for 1/16 in ours.
func (t PipeThread) CouplingWall() decimal.Decimal {
	if t.Coupling.IsZero() && t.ThreadsPerInch != 0 {
		t = readPipe(pipeRows()[1])
	}
	return t.Coupling.Sub(t.Diameter).Div(two)
}
