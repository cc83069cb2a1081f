package quantity

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"
)

// A SyntaxError says why a text is not an amount or a dimension. Error joins the three: `"14" has no unit; write "14 mm"`.
type SyntaxError struct {
	Text    string // as written, cut where it is too long
	Message string // what is wrong, to be read after the text: "has no unit"
	Write   string // what to write instead, itself accepted; "" if unknown
}

// Error gives the text, what is wrong with it and what to write instead.
func (e *SyntaxError) Error() string {
	if e.Write == "" {
		return fmt.Sprintf("%q %s", e.Text, e.Message)
	}
	return fmt.Sprintf("%q %s; write %q", e.Text, e.Message, e.Write)
}

func faulty(format string, args ...any) *SyntaxError {
	return &SyntaxError{Message: fmt.Sprintf(format, args...)}
}

func (e *SyntaxError) write(text string) *SyntaxError {
	e.Write = text
	return e
}

func outOfRange() *SyntaxError {
	return faulty("has a number out of range: at most %d digits before the point and %d after it", maxDigits, maxPlaces)
}

// excerpt returns a text that is short enough for a message.
func excerpt(text string) string {
	if len(text) <= MaxText {
		return text
	}
	end := MaxText
	for end > MaxText-utf8.UTFMax && !utf8.RuneStart(text[end]) {
		end--
	}
	return text[:end] + "…"
}

// lookalikes are characters that a word processor puts in place of the ones that are meant.
var lookalikes = strings.NewReplacer("‐", "-", "‑", "-", "–", "-", "—", "-", "⁄", "/", "∕", "/",
	"½", " 1/2", "¼", " 1/4", "¾", " 3/4", "⅛", " 1/8", "⅜", " 3/8", "⅝", " 5/8", "⅞", " 7/8")

// foreign finds characters that no number and no unit holds.
func foreign(s string) *SyntaxError {
	for _, r := range s {
		if r <= unicode.MaxASCII {
			continue
		}
		if unicode.IsDigit(r) {
			return faulty("has digits other than 0 to 9")
		}
		if meant := lookalikes.Replace(string(r)); meant != string(r) {
			return faulty("has %q where %q is due", r, trim(meant)).write(trim(lookalikes.Replace(s)))
		}
	}
	_, unsigned := sign(s)
	switch {
	case len(unsigned) > 1 && unsigned[0] == '0' && (unsigned[1] == 'x' || unsigned[1] == 'X'):
		return faulty("is not a decimal number")
	case strings.Contains(s, ","):
		return comma(s)
	case strings.Contains(s, "_"):
		return faulty("has a separator in a number").write(strings.ReplaceAll(s, "_", ""))
	}
	return nil
}

// comma tells a decimal comma from a thousands separator where only one of the two can be meant.
func comma(s string) *SyntaxError {
	var corrected strings.Builder
	message := ""
	for s != "" {
		end := len(s) - len(strings.TrimLeft(s, "0123456789.,"))
		if end == 0 {
			_, end = utf8.DecodeRuneInString(s)
		}
		token, meant, what := s[:end], s[:end], ""
		s = s[end:]
		if strings.Contains(token, ",") {
			groups := strings.Split(token, ",")
			last := groups[len(groups)-1]
			switch {
			case len(groups) == 2 && !strings.Contains(token, ".") && last != "" && !thousands(groups...):
				meant, what = strings.Replace(token, ",", ".", 1), "has a decimal comma"
			case thousands(groups...) && (len(groups) > 2 || strings.Contains(token, ".")):
				meant, what = strings.ReplaceAll(token, ",", ""), "has thousands separators"
			case thousands(groups...):
				return faulty("has a comma that may mean %s or %s", strings.Replace(token, ",", ".", 1), strings.Replace(token, ",", "", 1))
			default:
				return faulty("has a comma out of place")
			}
			if message == "" {
				message = what
			}
		}
		corrected.WriteString(meant)
	}
	return faulty("%s", message).write(corrected.String())
}

// thousands reports whether the groups can be those of one number: one to three digits first, three in each that follows.
func thousands(groups ...string) bool {
	last := len(groups) - 1
	if first := groups[0]; first == "" || len(first) > 3 || first[0] == '0' {
		return false
	}
	for i, g := range groups {
		if i == last {
			g, _, _ = strings.Cut(g, ".")
		}
		if strings.Contains(g, ".") || i > 0 && len(g) != 3 {
			return false
		}
	}
	return true
}

// noNumber improves on the fault of a text that does not begin with a number.
func noNumber(s string, fault *SyntaxError) *SyntaxError {
	_, rest := sign(s)
	word, _, _ := strings.Cut(strings.ToLower(rest), " ")
	switch {
	case digit(rest) || strings.HasPrefix(rest, "."):
		return fault
	case strings.HasPrefix(s, "±"):
		return faulty("is a tolerance without a size")
	case word == "nan", word == "inf", word == "infinity":
		return faulty("is not a finite number")
	}
	if _, ok := LookupUnit(s); ok {
		return faulty("has no number before the unit")
	}
	return fault
}

// brokenNumber says what is wrong where digits or a point follow a number.
func brokenNumber(s, size, unit, tol string) *SyntaxError {
	if zero, ok := strings.CutSuffix(unit, "/"); ok && tol != "" && strings.Trim(zero, "0.") == "" {
		opposite := "+"
		if strings.HasPrefix(tol, "+") {
			opposite = "-"
		}
		return faulty("has a deviation without a sign").write(strings.TrimSuffix(size, unit) + opposite + unit + tol)
	}
	before, after, _ := strings.Cut(s, " ")
	_, first := sign(before)
	group, _ := digits(after)
	if _, other := digits(first); other == "" && len(first) <= 3 && len(group) == 3 {
		return faulty("has a space inside a number").write(before + after)
	}
	return faulty("is not a plain number and a unit")
}

// findUnit finds the unit of a kind by what is written. Only spellings that differ by letter case, spaces and marks, and a few habits
// are corrected: units are short, and one letter in them is a power of ten.
func findUnit(k Kind, s, text string) (Unit, *SyntaxError) {
	if text == "" {
		if k == KindRatio {
			return Unit{}, nil
		}
		usual := Units(k)[0]
		return usual, faulty("has no unit").write(attach(s, usual))
	}
	if u, ok := k.Unit(text); ok {
		return u, nil
	}
	if u, ok := LookupUnit(text); ok && u.Kind() != k {
		return u, faulty("is %s; %s needs %s", u.Kind().indefinite(), k.indefinite(), k.usual())
	}
	for _, u := range Units(k) {
		if strings.EqualFold(ascii(text), u.ASCII()) {
			return u, faulty("has the unit %q in the wrong case", text).write(respell(s, text, u))
		}
	}
	bare := squash(text)
	if absolute[bare] && k == KindPressure {
		return Unit{}, faulty("has the unit %q of an absolute pressure; write the gauge pressure in %s", text, k.usual())
	}
	if habit, ok := k.Unit(habits[bare]); ok {
		return habit, faulty("has the unknown unit %q", text).write(respell(s, text, habit))
	}
	for _, u := range Units(k) {
		if bare == squash(u.ASCII()) {
			return u, faulty("has the unknown unit %q", text).write(respell(s, text, u))
		}
	}
	return Unit{}, faulty("has the unknown unit %q; %s needs %s", text, k.indefinite(), k.usual())
}

// respell puts a unit in place of a wrong spelling.
func respell(s, wrong string, u Unit) string {
	return strings.ReplaceAll(strings.ReplaceAll(s, " "+wrong, wrong), wrong, attach("", u))
}

// squash reduces a unit to its letters, digits and slashes, in lower case.
func squash(text string) string { return strings.ToLower(marks.Replace(ascii(text))) }

var marks = strings.NewReplacer(" ", "", "-", "", ".", "", "*", "", "(", "", ")", "", "º", "")

// habits are other names by which units go.
var habits = map[string]string{
	"c": "°C", "celsius": "°C", "f": "°F", "fahrenheit": "°F", "kelvin": "K",
	`"`: "in", "″": "in", "''": "in", "inch": "in", "inches": "in", "micron": "µm", "microns": "µm",
	"millimetre": "mm", "millimetres": "mm", "millimeter": "mm", "millimeters": "mm",
	"n/mm2": "MPa", "psig": "psi", "barg": "bar", "lbf/in2": "psi",
	"inlb": "lbf in", "inlbf": "lbf in", "lbin": "lbf in", "ftlb": "lbf ft", "ftlbf": "lbf ft", "lbft": "lbf ft",
	"lbs": "lb", "sec": "s", "secs": "s", "seconds": "s", "minutes": "min",
	"degree": "°", "degrees": "°", "radians": "rad", "ppm/k": "µm/(m K)", "ppm/degc": "µm/(m K)",
}

// absolute are the names of absolute pressures.
var absolute = map[string]bool{"psia": true, "bara": true}

// usual lists the usual units of a kind: "mm, in or cm".
func (k Kind) usual() string {
	units := Units(k)
	var list strings.Builder
	for i, u := range units[:min(3, len(units))] {
		switch {
		case i == 0:
		case i == min(3, len(units))-1:
			list.WriteString(" or ")
		default:
			list.WriteString(", ")
		}
		list.WriteString(u.Symbol())
	}
	if k == KindRatio {
		return "no unit, or %"
	}
	return list.String()
}
