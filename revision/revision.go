// Package revision compares two revisions of a design, and a design with the
// margins that are kept of it.
package revision

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"casewright"
	"casewright/margin"
)

// A Revision is what has changed from an old report of a motor to a new one.
type Revision struct {
	Old, New *casewright.Report
	Changes  []Change // of values, in the order in which a file is best written
	Moves    []Move   // checks of which verdict or margin has changed, those that call for attention first
}

// A Move is one check before and after.
type Move struct {
	Old, New *casewright.Result // nil where there is no such check
}

// Same tells that neither a value nor a check has changed.
func (r *Revision) Same() bool { return len(r.Changes) == 0 && len(r.Moves) == 0 }

// Compare compares two reports. Ends belong together that have the same name,
// or else the same kind.
func Compare(before, after *casewright.Report) *Revision {
	r := &Revision{Old: before, New: after}
	ends := pairs(before.Design, after.Design)
	r.Moves = moves(before, after, ends)
	r.Changes = changes(before, after.Design, ends)
	return r
}

// pair is an end of the old design and one of the new, from 1; 0 where there is
// none.
type pair struct{ old, new int }

// pairs finds the ends that belong together, in the order of the new design;
// those that are gone come last.
func pairs(before, after *casewright.Design) []pair {
	taken := map[int]bool{}
	list := make([]pair, len(after.Ends))
	for _, alike := range []func(a, b *casewright.End) bool{
		func(a, b *casewright.End) bool { return strings.EqualFold(a.Name.Value, b.Name.Value) },
		func(a, b *casewright.End) bool { return a.Kind.Value == b.Kind.Value },
	} {
		for j := range after.Ends {
			list[j].new = j + 1
			for i := range before.Ends {
				if list[j].old == 0 && !taken[i+1] && alike(&before.Ends[i], &after.Ends[j]) {
					list[j].old, taken[i+1] = i+1, true
				}
			}
		}
	}
	for i := range before.Ends {
		if !taken[i+1] {
			list = append(list, pair{old: i + 1})
		}
	}
	return list
}

// moves lists the checks that have changed: verdicts first, then those that have
// lost, the least margins first.
func moves(before, after *casewright.Report, ends []pair) []Move {
	var list []Move
	found := map[*casewright.Result]bool{}
	for i := range after.Results {
		now := &after.Results[i]
		was := counterpart(before, now, ends)
		if was != nil {
			found[was] = true
		}
		if m := (Move{was, now}); m.changed() {
			list = append(list, m)
		}
	}
	for i := range before.Results {
		if was := &before.Results[i]; !found[was] {
			list = append(list, Move{Old: was})
		}
	}
	slices.SortStableFunc(list, func(a, b Move) int {
		return cmp.Or(cmp.Compare(a.rank(), b.rank()), cmp.Compare(a.weight(), b.weight()), cmp.Compare(a.gain(), b.gain()))
	})
	return list
}

// counterpart is the same check of the old motor.
func counterpart(before *casewright.Report, now *casewright.Result, ends []pair) *casewright.Result {
	part := 0
	if now.Check.Part > 0 {
		if part = ends[now.Check.Part-1].old; part == 0 {
			return nil
		}
	}
	for i := range before.Results {
		if was := &before.Results[i]; was.Method == now.Method && int(was.Check.Part) == part && was.Item == now.Item {
			return was
		}
	}
	return nil
}

// least is the change of a margin that is told of: half of the last digit that
// is printed.
const least = 0.005

// changed tells whether the verdict is another, or the margin by so much that a
// person sees it.
func (m Move) changed() bool {
	if m.Old == nil || m.New == nil || m.Old.Verdict != m.New.Verdict {
		return true
	}
	if math.IsNaN(m.Old.Margin) || math.IsNaN(m.New.Margin) {
		return math.IsNaN(m.Old.Margin) != math.IsNaN(m.New.Margin)
	}
	return math.Abs(m.gain()) >= least
}

// gain is what the margin has gained; NaN where there is none of two.
func (m Move) gain() float64 {
	if m.Old == nil || m.New == nil {
		return math.NaN()
	}
	return m.New.Margin - m.Old.Margin
}

// Worse tells whether a check passes no longer, or by less.
func (m Move) Worse() bool { return m.New != nil && m.Old != nil && (m.rank() == 0 || m.gain() < 0) }

// rank orders moves: what passes no longer, what is no longer checked, what
// passes now, what has lost, what has gained or is new.
func (m Move) rank() int {
	bad := func(r *casewright.Result) bool { return r.Verdict == margin.Fail || r.Verdict == margin.Refused }
	switch {
	case m.New == nil:
		return 1
	case m.Old == nil && bad(m.New):
		return 0
	case m.Old == nil:
		return 4
	case bad(m.New) && !bad(m.Old):
		return 0
	case bad(m.Old) && !bad(m.New):
		return 2
	case m.gain() < 0:
		return 3
	}
	return 4
}
