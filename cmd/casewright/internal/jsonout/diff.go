package jsonout

import (
	"encoding/hex"
	"io"

	"casewright"
	"casewright/quantity"
	"casewright/revision"
)

// comparison is what `diff --format json` writes.
type comparison struct {
	Format     int       `json:"format"`
	Kind       string    `json:"kind"`
	Casewright string    `json:"casewright"`
	Old        side      `json:"old"`
	New        side      `json:"new"`
	Changes    []revised `json:"changes"`
	Checks     []move    `json:"checks"`
}

// side is one of the two designs.
type side struct {
	File    string  `json:"file"`
	SHA256  string  `json:"sha256"`
	Motor   string  `json:"motor"`
	AsBuilt bool    `json:"as_built,omitempty"`
	Verdict string  `json:"verdict"`
	First   []event `json:"gives_way_first"`
}

// revised is a value that is another one; was and is are as written, and absent
// where the design does not give it.
type revised struct {
	Part   string  `json:"part,omitempty"`
	Values []value `json:"values"`
	Line   int     `json:"line,omitempty"`
	Words  string  `json:"words"`
	// Alone are the checks that this change alone moves; null where the motor
	// cannot be built with it alone.
	Alone []move `json:"alone"`
}

type value struct {
	Key string `json:"key"`
	Was string `json:"was,omitempty"`
	Is  string `json:"is,omitempty"`
}

// move is a check before and after; absent where there is no such check.
type move struct {
	Check string `json:"check"`
	Item  int    `json:"item,omitempty"`
	Was   *state `json:"was,omitempty"`
	Is    *state `json:"is,omitempty"`
}

type state struct {
	Verdict    string    `json:"verdict"`
	Margin     *float64  `json:"margin,omitempty"`
	GivesWayAt *Quantity `json:"gives_way_at,omitempty"`
}

// Diff writes what has changed between two revisions, as one line.
func Diff(w io.Writer, r *revision.Revision) error {
	doc := comparison{Format: 1, Kind: "diff", Casewright: casewright.Version, Old: sideOf(r.Old), New: sideOf(r.New), Changes: []revised{}, Checks: movesOf(r.Moves)}
	for i := range r.Changes {
		c := &r.Changes[i]
		one := revised{Part: c.Part, Line: c.Line, Words: c.Words}
		for j, key := range c.Keys {
			one.Values = append(one.Values, value{key, c.Was[j], c.Is[j]})
		}
		if !c.Together {
			one.Alone = movesOf(c.Alone)
		}
		doc.Changes = append(doc.Changes, one)
	}
	return write(w, doc)
}

func sideOf(r *casewright.Report) side {
	d := r.Design
	s := side{d.File, hex.EncodeToString(d.SHA256[:]), d.Name.Value, d.Drawn != nil, r.Verdict.String(), []event{}}
	for _, e := range r.Order {
		s.First = append(s.First, event{e.Result.ID(), number(e.At, quantity.KindPressure), e.Result.Method.Mode.String()})
	}
	return s
}

func movesOf(list []revision.Move) []move {
	moves := make([]move, len(list))
	for i, m := range list {
		of := m.New
		if of == nil {
			of = m.Old
		}
		moves[i] = move{of.ID(), int(of.Item), stateOf(m.Old), stateOf(m.New)}
	}
	return moves
}

func stateOf(r *casewright.Result) *state {
	if r == nil {
		return nil
	}
	return &state{r.Verdict.String(), plain(r.Margin), number(r.GivesWayAt, quantity.KindPressure)}
}
