package table

import "strconv"

// evidence is against how many numbers from outside a check was verified.
type evidence struct {
	rows, seen, solver, memory int
	worst                      float64 // largest relative deviation
}

func evidenceOf(string) evidence { return evidence{} }

func (e evidence) cells() []string {
	return []string{strconv.Itoa(e.rows), strconv.Itoa(e.seen), strconv.Itoa(e.solver), strconv.Itoa(e.memory), ""}
}

func (e evidence) lines() []string { return nil }
