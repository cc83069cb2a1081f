package chart

import (
	"cmp"
	"slices"
)

// Spread moves labels on a line as little as needed to stand so far apart, and
// none before the first place or beyond the last: least squares, by pooling
// those that would meet. Of labels at the same place the first named comes
// first. Where the line is too short, the last ones stand beyond it.
func Spread(wanted []float64, apart, first, last float64) []float64 {
	order := make([]int, len(wanted))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(wanted[a], wanted[b]) })
	// Less the room of those before it, each place may not fall.
	type pool struct {
		mean  float64
		count int
	}
	var pools []pool
	for k, i := range order {
		pools = append(pools, pool{wanted[i] - apart*float64(k), 1})
		for n := len(pools) - 1; n > 0 && pools[n-1].mean > pools[n].mean; n-- {
			a, b := pools[n-1], pools[n]
			count := a.count + b.count
			pools = append(pools[:n-1], pool{(a.mean*float64(a.count) + b.mean*float64(b.count)) / float64(count), count})
		}
	}
	places := make([]float64, len(wanted))
	last -= apart * float64(len(wanted)-1)
	k := 0
	for _, p := range pools {
		for range p.count {
			places[order[k]] = max(first, min(last, p.mean)) + apart*float64(k)
			k++
		}
	}
	return places
}
