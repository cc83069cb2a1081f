package quantity

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/shopspring/decimal"
)

// MaxText is the longest text that is read, in bytes: three numbers of the greatest length and a unit fit.
const MaxText = 128

// written is what a text says, in its unit. The two deviations stand in either order.
type written struct {
	nominal, first, second decimal.Decimal
	unit                   Unit
}

// parse reads a text and, where it is wrong, looks for a text that is right.
func parse(k Kind, text string, tolerances bool) (written, error) {
	w, fault := read(k, text, tolerances)
	if fault == nil {
		return w, nil
	}
	return written{}, &SyntaxError{Text: excerpt(text), Message: fault.Message, Write: correct(k, fault.Write, tolerances)}
}

// correct follows the guesses from one fault of a text to the next, and returns the first that is accepted, "" if none is.
func correct(k Kind, guess string, tolerances bool) string {
	for range 4 {
		if guess == "" {
			break
		}
		_, fault := read(k, guess, tolerances)
		if fault == nil {
			return guess
		}
		guess = fault.Write
	}
	return ""
}

// read reads a text. The Write of a fault is a guess that has yet to be tried.
func read(k Kind, text string, tolerances bool) (written, *SyntaxError) {
	s, fault := clean(k, text)
	if fault != nil {
		return written{}, fault
	}
	if _, ok := k.Unit(s); ok && k != KindRatio { // 1/K would be read as 1 per kelvin
		return written{}, faulty("has no number before the unit")
	}
	var w written
	negative, rest := sign(s)
	if w.nominal, rest, fault = number(rest); fault != nil {
		return written{}, noNumber(s, fault)
	}
	if negative {
		w.nominal = w.nominal.Neg()
	}
	if second, ok := strings.CutPrefix(trim(rest), "/"); ok && tolerance(trim(second)) == 0 {
		return written{}, faulty("is a tolerance without a size")
	}

	unit, tol := rest, ""
	if i := tolerance(rest); i >= 0 {
		unit, tol = rest[:i], rest[i:]
	}
	size := strings.TrimSuffix(s, tol)
	unit = trim(unit)
	reciprocal, _ := strings.CutPrefix(unit, "1/") // 1/K is a unit
	if digit(unit) && digit(reciprocal) || strings.HasPrefix(unit, ".") {
		return written{}, brokenNumber(s, size, unit, tol)
	}
	if tol == "" {
		if w.unit, fault = findUnit(k, s, unit); fault == nil {
			fault = belowZero(w)
		}
		return w, fault
	}

	if !tolerances {
		if k == KindLength {
			return written{}, faulty("has a tolerance, which is not taken here: write the one length that counts")
		}
		return written{}, faulty("has a tolerance, which only a length takes: write the one value that hurts")
	}
	var last string
	if w.first, w.second, last, fault = deviations(size, tol); fault != nil {
		return written{}, fault
	}
	if w.unit, fault = findUnit(k, s, last); fault != nil {
		if last == "" && unit != "" {
			size = trim(strings.TrimSuffix(trim(size), unit))
			return written{}, faulty("has a tolerance without a unit").write(size + " " + tol + " " + unit)
		}
		return written{}, fault
	}
	if unit == "" {
		return w, nil
	}
	u, fault := findUnit(k, s, unit)
	if fault == nil && u != w.unit {
		fault = faulty("has two units, %s and %s", u.Symbol(), w.unit.Symbol())
	}
	return w, fault
}

// Blanks are the characters that count as a space in an amount.
const Blanks = "\t \u00a0\u2007\u2009\u202f"

// alike gives one form to the spaces, minus signs and ± that are accepted.
var alike = func() *strings.Replacer {
	pairs := []string{"−", "-", "+-", "±", "+−", "±"}
	for _, blank := range Blanks {
		pairs = append(pairs, string(blank), " ")
	}
	return strings.NewReplacer(pairs...)
}()

// tidy gives a text one form for all that looks alike, with single spaces inside and none around.
func tidy(text string) string {
	s := text
	if strings.ContainsFunc(s, func(r rune) bool { return r > unicode.MaxASCII || r == '\t' }) || strings.Contains(s, "+-") {
		s = alike.Replace(s)
	}
	for strings.Contains(s, "  ") {
		s = strings.ReplaceAll(s, "  ", " ")
	}
	return trim(s)
}

// clean tidies a text and refuses characters that no number and no unit holds.
func clean(k Kind, text string) (string, *SyntaxError) {
	if k >= kindCount {
		return "", faulty("is of an unknown kind")
	}
	if len(text) > MaxText {
		return "", faulty("is longer than %d bytes", MaxText)
	}
	if !utf8.ValidString(text) {
		return "", faulty("is not UTF-8")
	}
	s := tidy(text)
	if s == "" {
		if k == KindRatio {
			return "", faulty("is empty; a ratio needs a number")
		}
		return "", faulty("is empty; %s needs a number and a unit: %s", k.indefinite(), k.usual())
	}
	return s, foreign(s)
}

// belowZero refuses what is colder than absolute zero.
func belowZero(w written) *SyntaxError {
	zero := w.unit.entry().offset.Neg()
	if w.unit.Kind() != KindTemperature || w.nominal.Cmp(zero) >= 0 {
		return nil
	}
	return faulty("is below absolute zero, %s", attach(zero.String(), w.unit))
}

// tolerance returns where the tolerance starts in what follows a number, -1 if there is none. A dash inside a unit starts none.
func tolerance(s string) int {
	for i, r := range s {
		switch r {
		case '±':
			return i
		case '+', '-':
			next := trim(s[i+1:])
			if digit(next) || strings.HasPrefix(next, ".") || strings.HasPrefix(next, "/") {
				return i
			}
		}
	}
	return -1
}

// deviations reads a tolerance and returns the two deviations, as they stand, and the unit that follows.
func deviations(size, s string) (first, second decimal.Decimal, unit string, fault *SyntaxError) {
	if equal, ok := strings.CutPrefix(s, "±"); ok {
		equal = trim(equal)
		if unsigned := strings.TrimLeft(equal, "+-± "); unsigned != equal {
			return first, second, "", faulty("has a sign after ±").write(size + "±" + unsigned)
		}
		if second, unit, fault = number(equal); fault != nil {
			return first, second, "", fault
		}
		return second.Neg(), second, trim(unit), trailing(unit)
	}
	if equal, ok := strings.CutPrefix(s, "+/-"); ok {
		return first, second, "", faulty("has +/- for ±").write(size + "±" + trim(equal))
	}
	first, rest, fault := deviation(s)
	if fault != nil {
		return first, second, "", fault
	}
	rest, ok := strings.CutPrefix(trim(rest), "/")
	if !ok {
		if !strings.ContainsAny(size, " /.") && strings.HasPrefix(s, "-") && strings.Contains(s, "/") { // 2-1/2
			return first, second, "", faulty("is a mixed number, or a size with one deviation").write(size + " " + s[1:])
		}
		return first, second, "", faulty("has one deviation; a tolerance needs both, as in +0.2/-0")
	}
	rest = trim(rest)
	if !strings.HasPrefix(rest, "+") && !strings.HasPrefix(rest, "-") {
		fault = faulty("has a deviation without a sign")
		if d, _, err := number(rest); err == nil && d.IsZero() {
			opposite := map[byte]string{'+': "-", '-': "+"}[s[0]]
			fault.Write = size + strings.TrimSuffix(s, rest) + opposite + rest
		}
		return first, second, "", fault
	}
	if second, unit, fault = deviation(rest); fault == nil {
		fault = trailing(unit)
	}
	return first, second, trim(unit), fault
}

// deviation reads a number with its sign.
func deviation(s string) (decimal.Decimal, string, *SyntaxError) {
	negative, rest := sign(s)
	d, rest, fault := number(trim(rest))
	if negative {
		d = d.Neg()
	}
	return d, rest, fault
}

// trailing refuses what cannot be a unit after a tolerance.
func trailing(unit string) *SyntaxError {
	switch {
	case tolerance(unit) >= 0 || strings.HasPrefix(trim(unit), "/"):
		return faulty("has more than one tolerance")
	case digit(trim(unit)) || strings.HasPrefix(unit, "."):
		return faulty("has a tolerance that is no plain number")
	}
	return nil
}

func trim(s string) string { return strings.Trim(s, " ") }

func sign(s string) (negative bool, rest string) {
	if strings.HasPrefix(s, "-") || strings.HasPrefix(s, "+") {
		return s[0] == '-', s[1:]
	}
	return false, s
}

func digit(s string) bool { return s != "" && '0' <= s[0] && s[0] <= '9' }
