package jsonout

// evidence is against how many numbers from outside a check was verified.
type evidence struct {
	Rows   int `json:"rows"`
	Seen   int `json:"seen"`
	Solver int `json:"solver"`
	Memory int `json:"memory"`
}

func evidenceOf(string) evidence { return evidence{} }
