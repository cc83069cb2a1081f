package quantity

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
)

// A Pattern tells those who cannot call [Parse], as an editor, which texts it takes. Both are regular expressions, for a whole text, in
// what ECMAScript, Python, Rust and Go have in common. They do not know how many digits an exponent leaves, what is below absolute
// zero, and that no text has more than 128 bytes.
type Pattern struct {
	Form string // which the text matches
	But  string // which it does not; "" where Form is enough
}

// PatternOf returns the pattern of the amounts of a kind. [Improper] mixed numbers match it too.
func PatternOf(k Kind) Pattern {
	unit, whole := k.patterns()
	p := Pattern{Form: strings.TrimSuffix(NumberPattern(), "$") + unit + blank + "*$"}
	if whole != nil { // 1/K would be read as 1 per kelvin
		p.But = "^" + blank + "*" + either(whole) + blank + "*$"
	}
	return p
}

// NumberPattern returns the form of a number alone, of which a unit is still to be told.
func NumberPattern() string { return "^" + blank + "*" + signs + "?" + numberPattern + "$" }

// DimensionPattern returns the pattern of lengths with or without a tolerance, as [ParseDimension] takes them. [Improper] mixed numbers
// match it too.
func DimensionPattern() Pattern {
	unit, _ := KindLength.patterns()
	equal := "(±|[+][-−])" + blank + "*"
	two := signs + blank + "*" + numberPattern + blank + "*/" + blank + "*" + signs + blank + "*"
	p := Pattern{Form: strings.TrimSuffix(NumberPattern(), "$") + "((" + unit + ")?" + blank + "*(" + equal + "|" + two + ")" + numberPattern + ")?" + unit + blank + "*$"}
	// Where there are two units, they are the same.
	var apart []string
	for _, u := range Units(KindLength) {
		var others []string
		for _, other := range Units(KindLength) {
			if other != u {
				others = append(others, unitPattern(other.ASCII()))
			}
		}
		apart = append(apart, unitPattern(u.ASCII())+blank+"*[-−+±][-−+±0-9./eE"+Blanks+"]*"+either(others))
	}
	p.But = "[0-9]" + blank + "*" + either(apart) + blank + "*$"
	return p
}

// Improper returns a regular expression of the texts with a mixed number whose fraction is not below 1, as "2 5/4 in": neither [Parse]
// nor [ParseDimension] takes them.
func Improper() string {
	var list []string
	for _, n := range denominators() {
		list = append(list, "0*"+notBelow(n)+"/0*"+strconv.Itoa(n))
	}
	return "([1-9]|[0-9]{2})" + blank + "+" + either(list) + "([^0-9]|$)"
}

const (
	blank = "[" + Blanks + "]"
	signs = "[-−+]"
)

// numberPattern is of what number reads: a fraction or a mixed number, a decimal, or one with an exponent.
var numberPattern = func() string {
	byDigits := map[int][]string{}
	for _, n := range denominators() {
		digits := strconv.Itoa(n)
		byDigits[len(digits)] = append(byDigits[len(digits)], digits)
	}
	var below []string
	for digits := 1; digits <= 4; digits++ {
		zeros := ""
		if digits < 4 {
			zeros = fmt.Sprintf("0{0,%d}", 4-digits)
		}
		below = append(below, zeros+either(byDigits[digits]))
	}
	return either([]string{
		fmt.Sprintf("([0-9]{1,%d}%s+)?[0-9]{1,%d}/%s", maxDigits, blank, maxDigits, either(below)),
		fmt.Sprintf("0*[0-9]{1,%d}([.][0-9]{1,%d})?", maxDigits, maxPlaces),
		fmt.Sprintf("[.][0-9]{1,%d}", maxPlaces),
		"([0-9]+([.][0-9]+)?|[.][0-9]+)[eE]" + signs + "?[0-9]{1,2}",
	})
}()

// denominators are those of fractions that end as a decimal.
func denominators() []int {
	var list []int
	for n := 1; n <= maxDenominator; n++ {
		if _, _, fault := fraction("0", "1", strconv.Itoa(n)); fault == nil {
			list = append(list, n)
		}
	}
	return list
}

// notBelow is a pattern of the whole numbers from n on, without zeros before them.
func notBelow(n int) string {
	digits := strconv.Itoa(n)
	list := []string{digits, fmt.Sprintf("[1-9][0-9]{%d,}", len(digits))}
	for i, d := range digits {
		if d < '9' {
			more := digits[:i] + "[" + string(d+1) + "-9]"
			if rest := len(digits) - i - 1; rest > 0 {
				more += fmt.Sprintf("[0-9]{%d}", rest)
			}
			list = append(list, more)
		}
	}
	return either(list)
}

// patterns returns the pattern of what may follow a number, and those of the units that by themselves look like a number with its unit.
func (k Kind) patterns() (after string, whole []string) {
	var plain, spaced []string
	seen := map[string]bool{"1": true} // never written
	for _, e := range table {
		if e.kind != k {
			continue
		}
		for _, text := range append([]string{e.symbol}, e.more...) {
			text = ascii(text)
			switch p := unitPattern(text); {
			case seen[text]:
			case digit(text): // right after a number it would be part of it
				spaced = append(spaced, p)
			default:
				plain = append(plain, p)
			}
			seen[text] = true
		}
	}
	after = blank + "*" + either(plain)
	switch {
	case k == KindRatio:
		after = "(" + after + ")?"
	case spaced != nil:
		after = "(" + after + "|" + blank + "+" + either(spaced) + ")"
	}
	return after, spaced
}

// unitPattern is a pattern of all that is read as a unit, which is given in ASCII.
func unitPattern(text string) string {
	var b strings.Builder
	for text != "" {
		plain, ways := text[:1], []string(nil)
		for i := 0; i < len(inASCII); i += 2 {
			if strings.HasPrefix(text, inASCII[i+1]) {
				plain, ways = inASCII[i+1], append(ways, regexp.QuoteMeta(inASCII[i]))
			}
		}
		text = text[len(plain):]
		own := regexp.QuoteMeta(plain)
		if plain == " " {
			own = blank + "+"
		}
		if ways == nil {
			b.WriteString(own)
		} else {
			b.WriteString(either(append([]string{own}, ways...)))
		}
	}
	return b.String()
}

// either is a pattern of what matches one of several.
func either(patterns []string) string {
	if len(patterns) == 1 {
		return patterns[0]
	}
	return "(" + strings.Join(patterns, "|") + ")"
}
