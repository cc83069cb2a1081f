package heat

import "math"

// graded divides a length into n parts, each q times the one before, and
// returns the places of their borders, the first at 0.
func graded(length float64, n int, q float64) []float64 {
	places := make([]float64, n+1)
	sum := float64(n)
	if q != 1 {
		sum = (math.Pow(q, float64(n)) - 1) / (q - 1)
	}
	part := length / sum
	for i := 1; i < n; i++ {
		places[i] = places[i-1] + part
		part *= q
	}
	places[n] = length
	return places
}

// through divides a length into about n equal parts so that some places of it
// are borders.
func through(length float64, n int, places ...float64) []float64 {
	all := []float64{0}
	for {
		next := length
		last := all[len(all)-1]
		for _, p := range places {
			// Places that nearly meet are one.
			if p > last+1e-6*length && p < next-1e-6*length {
				next = p
			}
		}
		parts := max(1, int(math.Ceil(float64(n)*(next-last)/length-1e-9)))
		for i := 1; i < parts; i++ {
			all = append(all, last+(next-last)*float64(i)/float64(parts))
		}
		if all = append(all, next); next == length {
			return all
		}
	}
}

// nearest returns the border that lies at a place.
func nearest(borders []float64, place float64) int {
	best := 0
	for i, b := range borders {
		if math.Abs(b-place) < math.Abs(borders[best]-place) {
			best = i
		}
	}
	return best
}

// half-widths of what belongs to each border of a division.
func shares(borders []float64) []float64 {
	w := make([]float64, len(borders))
	for i := 1; i < len(borders); i++ {
		half := (borders[i] - borders[i-1]) / 2
		w[i-1] += half
		w[i] += half
	}
	return w
}
