package lettering

import (
	"slices"

	"golang.org/x/text/unicode/bidi"
)

// levels gives each rune of one paragraph its level of embedding by the rules
// P, W, N and I of Unicode's annex 9: 0 from left to right, 1 from right to
// left, 2 a number or words from left to right within right to left; and the
// level of the paragraph. text holds no marks of direction, so that the rules
// X have nothing to do. Package bidi knows the classes of runes; the order
// that it gives does not tell a number within right to left from words from
// left to right that follow it.
func levels(text []rune) (levels []int, base int) {
	p := paragraphOf(text)
	p.weak()
	p.brackets()
	p.neutral()
	levels = make([]int, len(text))
	for i, c := range p.class { // I1, I2
		switch {
		case c == bidi.R:
			levels[i] = 1
		case c != bidi.L || p.base == 1:
			levels[i] = 2
		}
	}
	return levels, p.base
}

// reorder puts one line into the order of paper by the rules L1 and L2. L3 is
// left out: the marks of the Hebrew letters in the fonts used are drawn for
// the order that L2 leaves.
func reorder(line []rune, levels []int, base int) {
	for i := len(line) - 1; i >= 0 && class(line[i]) == bidi.WS; i-- { // L1
		levels[i] = base
	}
	for level := 2; level >= 1; level-- { // L2
		each(levels, func(l int) bool { return l >= level }, func(i, j int) {
			slices.Reverse(line[i:j])
			slices.Reverse(levels[i:j])
		})
	}
}

// mirror holds the runes that look the other way from right to left, those of
// them that a design may hold.
var mirror = mirrors("()", "[]", "{}", "<>", "«»", "‹›", "≤≥")

func mirrors(pairs ...string) map[rune]rune {
	m := map[rune]rune{}
	for _, p := range pairs {
		r := []rune(p)
		m[r[0]], m[r[1]] = r[1], r[0]
	}
	return m
}

func class(r rune) bidi.Class { p, _ := bidi.LookupRune(r); return p.Class() }

func rightToLeft(r rune) bool { c := class(r); return c == bidi.R || c == bidi.AL }

func strong(c bidi.Class) bool { return c == bidi.L || c == bidi.R || c == bidi.AL }

// A paragraph is a text and the classes of its runes.
type paragraph struct {
	text      []rune
	found     []bidi.Class // as the tables have them
	class     []bidi.Class // as far as resolved
	base      int          // level
	direction bidi.Class   // L or R, by the base
}

func paragraphOf(text []rune) *paragraph {
	p := &paragraph{text: text, direction: bidi.L}
	for _, r := range text {
		p.found = append(p.found, class(r))
	}
	p.class = slices.Clone(p.found)
	if i := slices.IndexFunc(p.found, strong); i >= 0 && p.found[i] != bidi.L { // P2, P3
		p.base, p.direction = 1, bidi.R
	}
	return p
}

// weak resolves numbers, their signs and marks on letters: the rules W.
func (p *paragraph) weak() {
	to := p.class
	last := p.direction
	for i := range to { // W1
		if to[i] == bidi.NSM {
			to[i] = last
		}
		last = to[i]
	}
	last = p.direction
	for i := range to { // W2
		if strong(to[i]) {
			last = to[i]
		} else if to[i] == bidi.EN && last == bidi.AL {
			to[i] = bidi.AN
		}
	}
	for i := 1; i+1 < len(to); i++ { // W4
		a := to[i-1]
		if a == to[i+1] && (a == bidi.EN && (to[i] == bidi.ES || to[i] == bidi.CS) || a == bidi.AN && to[i] == bidi.CS) {
			to[i] = a
		}
	}
	each(to, func(c bidi.Class) bool { return c == bidi.ET }, func(i, j int) { // W5
		if i > 0 && to[i-1] == bidi.EN || j < len(to) && to[j] == bidi.EN {
			fill(to[i:j], bidi.EN)
		}
	})
	last = p.direction
	for i := range to { // W3, W6, W7
		switch to[i] {
		case bidi.AL:
			to[i], last = bidi.R, bidi.R
		case bidi.L, bidi.R:
			last = to[i]
		case bidi.EN:
			if last == bidi.L {
				to[i] = bidi.L
			}
		case bidi.AN:
		default:
			to[i] = bidi.ON
		}
	}
}

// side is the direction that a rune gives to the neutral ones beside it, and
// ON for a neutral one.
func (p *paragraph) side(i int) bidi.Class {
	switch {
	case i < 0 || i >= len(p.class):
		return p.direction
	case p.class[i] == bidi.EN || p.class[i] == bidi.AN:
		return bidi.R
	}
	return p.class[i]
}

// brackets gives a pair of brackets the direction of what it holds, or of what
// stands before it: the rule N0.
func (p *paragraph) brackets() {
	for _, pair := range p.pairs() {
		inside, other := false, false
		for i := pair.from + 1; i < pair.to; i++ {
			s := p.side(i)
			inside = inside || s == p.direction
			other = other || s != p.direction && s != bidi.ON
		}
		if !inside && !other {
			continue
		}
		to := p.direction
		if !inside {
			i := pair.from - 1
			for p.side(i) == bidi.ON {
				i--
			}
			to = p.side(i)
		}
		for _, at := range []int{pair.from, pair.to} {
			p.class[at] = to
			for i := at + 1; i < len(p.found) && p.found[i] == bidi.NSM; i++ {
				p.class[i] = to
			}
		}
	}
}

// depth is how deep brackets may stand in each other by the definition BD16.
const depth = 63

// A span is the places of two brackets.
type span struct{ from, to int }

// pairs gives the places of brackets that belong together, by the place of the
// opening one: the definition BD16.
func (p *paragraph) pairs() (out []span) {
	type open struct {
		closing rune
		at      int
	}
	var stack []open
	for i, r := range p.text {
		props, _ := bidi.LookupRune(r)
		if !props.IsBracket() || p.class[i] != bidi.ON {
			continue
		}
		if props.IsOpeningBracket() {
			if len(stack) == depth {
				break
			}
			stack = append(stack, open{[]rune(bidi.ReverseString(string(r)))[0], i})
			continue
		}
		for k := len(stack) - 1; k >= 0; k-- {
			if stack[k].closing == r {
				out = append(out, span{stack[k].at, i})
				stack = stack[:k]
				break
			}
		}
	}
	slices.SortFunc(out, func(a, b span) int { return a.from - b.from })
	return out
}

// neutral gives what stands between its direction: the rules N1 and N2.
func (p *paragraph) neutral() {
	each(p.class, func(c bidi.Class) bool { return c == bidi.ON }, func(i, j int) {
		to := p.direction
		if p.side(i-1) == p.side(j) {
			to = p.side(j)
		}
		fill(p.class[i:j], to)
	})
}

func fill(s []bidi.Class, c bidi.Class) {
	for i := range s {
		s[i] = c
	}
}

// each calls do with the bounds of every longest stretch of which all are in.
func each[T any](s []T, in func(T) bool, do func(i, j int)) {
	for i := 0; i < len(s); i++ {
		j := i
		for j < len(s) && in(s[j]) {
			j++
		}
		if j > i {
			do(i, j)
			i = j
		}
	}
}
