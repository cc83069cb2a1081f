package drawing

import "slices"

// A span is what takes room along a lane, mm.
type span struct{ from, to float64 }

// lanes puts spans into lanes so that none meets another in its lane: each into
// the first that has room, the shorter before the longer. It returns the lane
// of each and how many there are.
func lanes(spans []span, apart float64) (lane []int, count int) {
	order := make([]int, len(spans))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int {
		x, y := spans[a].to-spans[a].from, spans[b].to-spans[b].from
		switch {
		case x < y:
			return -1
		case x > y:
			return 1
		}
		return 0
	})
	lane = make([]int, len(spans))
	var taken [][]span
	for _, i := range order {
		free := slices.IndexFunc(taken, func(list []span) bool {
			return !slices.ContainsFunc(list, func(s span) bool { return spans[i].from < s.to+apart && s.from < spans[i].to+apart })
		})
		if free < 0 {
			taken = append(taken, nil)
			free = len(taken) - 1
		}
		taken[free] = append(taken[free], spans[i])
		lane[i] = free
	}
	return lane, len(taken)
}
