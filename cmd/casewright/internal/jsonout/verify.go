package jsonout

import (
	"io"
	"math"

	"casewright"
	"casewright/verification"
)

// verified is the document of `verify --format json`.
type verified struct {
	Format     int       `json:"format"`
	Kind       string    `json:"kind"`
	Casewright string    `json:"casewright"`
	Verdict    string    `json:"verdict"`
	Counts     evidence  `json:"counts"`
	Rows       []rowHeld `json:"rows"`
}

// rowHeld is a row and what casewright computes for it. Numbers are in SI; off
// is computed over expected, less 1, to 1e-9, or computed where 0 is expected.
// Where nothing is computed, neither is there; refused says that the sizes lie
// outside what is computed.
type rowHeld struct {
	ID        string    `json:"id"`
	Table     string    `json:"table"`
	Quantity  string    `json:"quantity"`
	Checks    []string  `json:"checks"`
	Expected  *Quantity `json:"expected"`
	Computed  *Quantity `json:"computed,omitempty"`
	Refused   bool      `json:"refused,omitempty"`
	Off       *float64  `json:"off,omitempty"`
	Tolerance *float64  `json:"tolerance,omitempty"`
	Low       *float64  `json:"low,omitempty"`
	High      *float64  `json:"high,omitempty"`
	Pass      bool      `json:"pass"`
	Source    string    `json:"source"`
	Where     string    `json:"where"`
	Status    string    `json:"status"`
}

// evidence is against how many numbers from outside a check was verified.
type evidence struct {
	Rows   int     `json:"rows"`
	Seen   int     `json:"seen"`
	Solver int     `json:"solver"`
	Memory int     `json:"memory"`
	Failed int     `json:"failed"`
	Agree  int     `json:"must_agree"`
	Worst  float64 `json:"largest_deviation"` // of those that must agree
}

func evidenceOf(sum verification.Evidence) evidence {
	e := evidence(sum)
	e.Worst = rounded(e.Worst)
	return e
}

// rounded is a relative deviation to 1e-9. What is finer differs from one
// processor to another.
func rounded(x float64) float64 {
	switch {
	case math.Abs(x) < 0.5e-9:
		return 0 // and not -0
	case math.Abs(x) > 1e6:
		return x // has no digit as fine as that
	}
	return math.Round(x*1e9) / 1e9
}

// Verify writes the rows as one line.
func Verify(w io.Writer, list []verification.Case) error {
	e := evidenceOf(verification.Sum(list))
	doc := verified{Format: 1, Kind: "verify", Casewright: casewright.Version, Verdict: "pass", Counts: e, Rows: make([]rowHeld, len(list))}
	if e.Failed > 0 || e.Rows == 0 {
		doc.Verdict = "fail"
	}
	for i := range list {
		c := &list[i]
		k, off := c.Unit.Kind(), c.Off
		if c.Value != 0 {
			off = rounded(off)
		}
		one := rowHeld{
			ID: c.ID, Table: c.Table, Quantity: c.Quantity, Checks: append([]string{}, c.Methods...),
			Expected: number(c.Value, k), Computed: number(c.Got, k), Refused: c.Refused(), Off: plain(off), Pass: c.Pass, Source: c.Source, Where: c.Where, Status: c.Status,
		}
		if low, high, ok := c.Band(); ok {
			one.Low, one.High = &low, &high
		} else {
			one.Tolerance = &c.Tolerance
		}
		doc.Rows[i] = one
	}
	return write(w, doc)
}
