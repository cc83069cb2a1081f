package heat

import "math"

// The numbers of TR-BDF2: its first stage reaches γ of the step; all three
// rates are weighed in the end. Source: Hosea and Shampine (1996), section 2
// (from memory).
var (
	gamma    = 2 - math.Sqrt2
	outer    = math.Sqrt2 / 4 // of the rates at the start and at the first stage
	diagonal = gamma / 2      // of the rate at the end
)

// begin sets the rates anew, as where the films change.
func (n *network) begin(d drive) { n.brought[0] = n.flow(d) }

// first goes γ of a step of h seconds on.
func (n *network) first(h float64, d drive) (err error) {
	copy(n.saved, n.rate)
	for i, c := range n.capacity {
		n.start[i] = c * n.now[i]
		n.known[i] = n.start[i] + h*diagonal*n.rate[i]
	}
	n.brought[1], err = n.stage(h*diagonal, d)
	return err
}

// second goes on to the end of the step.
func (n *network) second(h float64, d drive) error {
	for i := range n.known {
		n.known[i] = n.start[i] + h*outer*(n.saved[i]+n.rate[i])
	}
	in, err := n.stage(h*diagonal, d)
	if err != nil {
		return err
	}
	n.inflow += h * (outer*(n.brought[0]+n.brought[1]) + diagonal*in)
	n.turnover += h * (outer*(math.Abs(n.brought[0])+math.Abs(n.brought[1])) + diagonal*math.Abs(in))
	n.brought[0] = in
	return nil
}
