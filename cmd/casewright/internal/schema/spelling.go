package schema

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"unicode"

	"casewright/closure"
	"casewright/fastener"
	"casewright/materials"
	"casewright/seal"
)

// The patterns of this file are regular expressions for a whole text, in what
// ECMAScript, Python, Rust and Go have in common: sets of characters are
// spelt out, since \s and \d differ.

// spaces are the characters that Go takes for a space.
var spaces = set(unicode.White_Space)

// space is a pattern of one of them.
var space = "[" + spaces + "]"

// set writes the characters of a table as the inside of a set, a hyphen first.
func set(table *unicode.RangeTable) string {
	var b strings.Builder
	add := func(low, high, stride rune) {
		if stride == 1 && high > low {
			fmt.Fprintf(&b, "%c-%c", low, high)
			return
		}
		for c := low; c <= high; c += stride {
			b.WriteRune(c)
		}
	}
	for _, r := range table.R16 {
		add(rune(r.Lo), rune(r.Hi), rune(r.Stride))
	}
	for _, r := range table.R32 {
		add(rune(r.Lo), rune(r.Hi), rune(r.Stride))
	}
	return b.String()
}

// whole is a pattern of a whole text.
func whole(pattern string) string { return "^" + pattern + "$" }

// trimmed is one of a whole text with spaces around it.
func trimmed(pattern string) string { return whole(space + "*" + pattern + space + "*") }

// either is a pattern of what matches one of several.
func either(patterns []string) string {
	if len(patterns) == 1 {
		return patterns[0]
	}
	return "(" + strings.Join(patterns, "|") + ")"
}

// word is a pattern of a text in capitals or not.
func word(text string) string {
	var b strings.Builder
	for _, c := range text {
		b.WriteString(letter(c))
	}
	return b.String()
}

// letter is a pattern of all that has the same small letter.
func letter(c rune) string {
	small := unicode.ToLower(c)
	if !unicode.IsLetter(c) {
		return regexp.QuoteMeta(string(c))
	}
	list := []rune{small}
	for other := unicode.SimpleFold(small); other != small; other = unicode.SimpleFold(other) {
		list = append(list, other)
	}
	if small == 'i' {
		list = append(list, 'İ')
	}
	slices.Sort(list)
	return "[" + string(list) + "]"
}

// words is a pattern of names of which case and the blanks between words do not
// matter.
func words(names []string) string {
	var list []string
	for _, name := range names {
		var parts []string
		for part := range strings.FieldsSeq(name) {
			parts = append(parts, word(part))
		}
		list = append(list, strings.Join(parts, space+"+"))
	}
	return trimmed(either(list))
}

// A code is how a designation may be written: what may stand between any two of
// its characters, as a blank. For a blank it takes whatever is no sign of ASCII and no usual
// dash.
type code struct{ between string }

var (
	blanks        = code{"[^!-~×‐-―−]*"}
	orHyphens     = code{"[^!-,.-~×]*"}
	orSignsOfInch = code{"[^!#-~×‐-―−]*"}
	dash          = "[-−" + strings.TrimPrefix(set(unicode.Pd), "-") + "]"
)

// spelt is a pattern of a designation.
func (c code) spelt(text string) string {
	var list []string
	for _, r := range text {
		switch r {
		case '-':
			list = append(list, dash)
		default:
			list = append(list, letter(r))
		}
	}
	return strings.Join(list, c.between)
}

// one is a pattern of one of several designations.
func (c code) one(texts []string) string {
	var list []string
	for _, text := range texts {
		list = append(list, c.spelt(text))
	}
	return whole(c.between + either(list) + c.between)
}

// classes, compounds, washers and pipe threads as they may be written.
func classPattern() string      { return blanks.one(fastener.ClassSpellings()) }
func compoundPattern() string   { return orHyphens.one(seal.CompoundSpellings()) }
func pipeThreadPattern() string { return orSignsOfInch.one(closure.PipeThreadSpellings()) }

func washerPattern() string {
	var list []string
	for _, w := range materials.Washers() {
		list = append(append(list, w.Name), w.Others...)
	}
	return words(list)
}

// threadPattern is of threads, metric ones with zeros at the end of a decimal.
func threadPattern() string {
	var list []string
	for _, text := range fastener.ThreadSpellings() {
		size, isMetric := strings.CutPrefix(text, "m")
		if !isMetric {
			list = append(list, blanks.spelt(text))
			continue
		}
		diameter, pitch, hasPitch := strings.Cut(size, "x")
		text := letter('m') + blanks.between + blanks.number(diameter)
		if hasPitch {
			text += blanks.between + "[Xx×]" + blanks.between + blanks.number(pitch)
		}
		list = append(list, text)
	}
	return whole(blanks.between + "(#" + blanks.between + ")?" + either(list) + blanks.between)
}

// number is a pattern of a decimal with zeros after it, without one before it,
// and with a point at its end.
func (c code) number(text string) string {
	before, after, hasPoint := strings.Cut(text, ".")
	zeros := "(" + c.between + "0)*"
	if !hasPoint {
		return c.spelt(before) + "(" + c.between + "[.]" + zeros + ")?"
	}
	start := c.spelt(before) + c.between
	if before == "0" {
		start = "(" + start + ")?"
	}
	return start + "[.]" + c.between + c.spelt(after) + "(" + c.between + "[.])?" + zeros
}

// ringPattern is of rings: the dash number, after the name of the standard or
// not.
func ringPattern() string {
	const standard = "AS568-"
	last := map[string]string{} // digits of the numbers, by those before them
	var order []string
	for _, name := range seal.RingNames() {
		number := strings.TrimPrefix(name, standard)
		start := number[:len(number)-1]
		if last[start] == "" {
			order = append(order, start)
		}
		last[start] += number[len(number)-1:]
	}
	var list []string
	for _, start := range order {
		list = append(list, blanks.spelt(start)+blanks.between+"["+last[start]+"]")
	}
	between := blanks.between
	return whole(between + "(" + blanks.spelt(strings.TrimSuffix(standard, "-")) + between + ")?(" + dash + between + ")?" + either(list) + between)
}

// wholes is a pattern of the whole numbers from one to another, above 0.
func wholes(from, to int) string {
	var list []string
	for n := from; n <= to; {
		size, places := 1, 0 // of the hundreds, say, that begin here
		for n%(size*10) == 0 && n+size*10-1 <= to {
			size, places = size*10, places+1
		}
		first := n / size % 10
		last := first
		for last < 9 && n+(last-first+2)*size-1 <= to {
			last++
		}
		text := ""
		if before := n / size / 10; before > 0 {
			text = strconv.Itoa(before)
		}
		if first == last {
			text += strconv.Itoa(first)
		} else {
			text += fmt.Sprintf("[%d-%d]", first, last)
		}
		text += strings.Repeat("[0-9]", places)
		list = append(list, text)
		n += (last - first + 1) * size
	}
	return either(list)
}
