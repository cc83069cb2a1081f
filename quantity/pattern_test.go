package quantity_test

import (
	"regexp"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"casewright/quantity"
)

// matcher tells whether a text matches a pattern, as one would without Parse.
func matcher(p quantity.Pattern) func(string) bool {
	form, improper := regexp.MustCompile(p.Form), regexp.MustCompile(quantity.Improper())
	but := regexp.MustCompile(p.But)
	return func(text string) bool {
		return form.MatchString(text) && !improper.MatchString(text) && (p.But == "" || !but.MatchString(text))
	}
}

var dimensions = matcher(quantity.DimensionPattern())

var amounts = func() map[quantity.Kind]func(string) bool {
	all := map[quantity.Kind]func(string) bool{}
	for _, k := range everyKind() {
		all[k] = matcher(quantity.PatternOf(k))
	}
	return all
}()

// holdPattern holds a pattern against what the parser says.
func holdPattern(t rapid.TB, text string, matches bool, err error) {
	t.Helper()
	switch {
	case matches == (err == nil):
	case !matches:
		t.Fatalf("%q is taken, and matches no pattern", text)
	case len(text) > 128: // bytes: a pattern counts characters at best
	case strings.ContainsAny(text, "eE") && strings.Contains(err.Error(), "a number out of range"): // what an exponent makes of digits
	default:
		t.Fatalf("%q matches the pattern: %v", text, err)
	}
}

// parseForm parses an amount, be it below absolute zero or not: differences
// have the units of temperatures.
func parseForm(k quantity.Kind, text string) error {
	if k == quantity.KindTemperature {
		k = quantity.KindTemperatureDifference
	}
	_, err := quantity.Parse(k, text)
	return err
}

// pieces are what texts are made of, right and wrong ones.
var pieces = rapid.OneOf(
	rapid.SampledFrom([]string{
		"0", "1", "5", "12", "63.5", ".5", "5.", "1/2", "1/3", "5/4", "2 1/2", "2  3/2", "0 3/2", "00 3/2", "1/08", "1/0", "1/64", "7/1000", "1/00002",
		"1e3", "1E-6", "e5", "1e+22", "1e-22", "1e99", "1e100", "000000000000000012", "1234567890123456", ".1234567890123456789012", ".12345678901234567890123",
		" ", "  ", "\t", "\u00a0", "\u2007", "\u2009", "\u202f", "\u2003", "\n", "+", "-", "−", "±", "+-", "+−", "/", "±0.1", "+0/-0.05", "+ 0.1 / - .2", "·", "⋅", "^2",
		"1/K", "1/°C", "1", ",", "_", "x", "?", "μ", "º", "10 ", "1 1/K", "²", "Mm", "MM", "kelvin",
	}),
	rapid.Custom(func(t *rapid.T) string {
		u := rapid.SampledFrom(quantity.Units(rapid.SampledFrom(everyKind()).Draw(t, "kind"))).Draw(t, "unit")
		return rapid.SampledFrom([]string{u.Symbol(), u.ASCII(), strings.ToUpper(u.Symbol()), strings.ReplaceAll(u.Symbol(), " ", "·")}).Draw(t, "spelling")
	}),
)

// A text matches the pattern of a kind just where it is read as one.
func TestPropertyPattern(t *testing.T) {
	taken, refused := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		var text string
		k := rapid.SampledFrom(everyKind()).Draw(t, "kind")
		if rapid.Bool().Draw(t, "orderly") { // else hardly any text of many pieces is right
			number := func() string {
				return pieces.Filter(func(s string) bool { return strings.ContainsAny(s, "0123456789") }).Draw(t, "number")
			}
			unit := rapid.SampledFrom(quantity.Units(k)).Draw(t, "unit").Symbol()
			text = rapid.SampledFrom([]string{"", "", "-", " +", "−", "+-"}).Draw(t, "sign") + number()
			switch rapid.IntRange(0, 5).Draw(t, "tolerance") {
			case 0:
				text += rapid.SampledFrom([]string{"", " " + unit, "mm", " µm"}).Draw(t, "unit too") + rapid.SampledFrom([]string{"±", " +- ", " ± "}).Draw(t, "±") + number()
			case 1:
				text += rapid.SampledFrom([]string{"", " " + unit, "in "}).Draw(t, "unit too") + "+" + number() + " /" + rapid.SampledFrom([]string{"+", "-", "− "}).Draw(t, "second") + number()
			}
			text += rapid.SampledFrom([]string{"", " ", "\u00a0 "}).Draw(t, "blank") + unit + rapid.SampledFrom([]string{"", "", " ", "\n"}).Draw(t, "end")
		} else {
			text = strings.Join(rapid.SliceOfN(pieces, 0, 6).Draw(t, "pieces"), "")
		}
		err := parseForm(k, text)
		holdPattern(t, text, amounts[k](text), err)
		_, wrong := quantity.ParseDimension(text)
		holdPattern(t, text, dimensions(text), wrong)
		if err == nil || wrong == nil {
			taken++
		} else {
			refused++
		}
	})
	if taken == 0 || refused == 0 {
		t.Errorf("%d texts were taken, %d refused: the pattern was hardly tried", taken, refused)
	}
}

// Any text at all: as an amount of a kind, and as a dimension.
func FuzzPattern(f *testing.F) {
	for _, s := range seeds {
		for _, k := range everyKind() {
			f.Add(uint8(k), s)
		}
	}
	f.Fuzz(func(t *testing.T, kind uint8, text string) {
		k := everyKind()[int(kind)%len(everyKind())]
		holdPattern(t, text, amounts[k](text), parseForm(k, text))
		_, err := quantity.ParseDimension(text)
		holdPattern(t, text, dimensions(text), err)
	})
}

// Every symbol and spelling in the table makes an amount that matches.
func TestPatternOfEveryUnit(t *testing.T) {
	for _, k := range everyKind() {
		for _, u := range quantity.Units(k) {
			for _, symbol := range []string{u.Symbol(), u.ASCII()} {
				if text := "5 " + symbol; symbol != "1" && !amounts[k](text) {
					t.Errorf("%q matches no pattern of a %v", text, k)
				}
			}
		}
	}
}
