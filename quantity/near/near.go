// Package near finds the word that somebody most likely meant.
package near

import "strings"

// maxRunes is the longest word that is compared; the work grows with its square.
const maxRunes = 64

// Match returns the known word nearest to word, for a "did you mean". It counts the letters inserted, left out, changed or swapped
// with their neighbour (Damerau-Levenshtein distance), without regard to case: at most 2, and at most a third of the letters of word,
// rounded up. Of several equally near the first in the list is taken. Words of more than 64 letters match nothing.
func Match(word string, known []string) (string, bool) {
	w, ok := fold(word)
	if !ok || len(w) == 0 {
		return "", false
	}
	least, match := min(2, (len(w)+2)/3)+1, ""
	for _, k := range known {
		r, ok := fold(k)
		if !ok || len(r) == 0 {
			continue
		}
		if d := distance(w, r); d < least {
			least, match = d, k
		}
	}
	return match, match != ""
}

// fold returns the letters of a word in lower case, and false where there are too many.
func fold(word string) ([]rune, bool) {
	if len(word) > 4*maxRunes { // a rune has at most four bytes
		return nil, false
	}
	r := []rune(strings.ToLower(word))
	return r, len(r) <= maxRunes
}

// distance is the Damerau-Levenshtein distance without restriction: letters may be inserted between two that were swapped. See R.
// Lowrance and R. A. Wagner, An extension of the string-to-string correction problem, J. ACM 22 (1975).
func distance(a, b []rune) int {
	// d[i+1][j+1] is the distance of the first i letters of a and the first j of b; row and column 0 are a border that no path crosses.
	d := make([][]int, len(a)+2)
	border := len(a) + len(b)
	for i := range d {
		d[i] = make([]int, len(b)+2)
		d[i][0] = border
		d[i][1] = i - 1
	}
	for j := range d[0] {
		d[0][j] = border
		d[1][j] = max(j-1, 0)
	}
	d[0][0], d[1][0] = border, border

	rowOf := make(map[rune]int) // where each letter stood last in a
	for i := 1; i <= len(a); i++ {
		column := 0 // where a[i-1] stood last in b
		for j := 1; j <= len(b); j++ {
			k, l := rowOf[b[j-1]], column
			change := 1
			if a[i-1] == b[j-1] {
				change, column = 0, j
			}
			swap := d[k][l] + (i - k - 1) + 1 + (j - l - 1)
			d[i+1][j+1] = min(d[i][j]+change, d[i+1][j]+1, d[i][j+1]+1, swap)
		}
		rowOf[a[i-1]] = i
	}
	return d[len(a)+1][len(b)+1]
}
