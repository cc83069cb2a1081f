package lettering_test

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"casewright/cmd/casewright/internal/lettering"
)

// TestLevels holds the levels of embedding, worked out by hand by the rules of
// Unicode's annex 9 that are named.
func TestLevels(t *testing.T) {
	for _, c := range []struct {
		text, want string
		base       int
		why        string
	}{
		{"abc", "000", 0, "P2: the first strong rune is L"},
		{"", "", 0, "P3"},
		{"12 +", "0000", 0, "P3: no strong rune; W7 makes numbers L, N1 the rest"},
		{"אבג", "111", 1, "P3: the first strong rune is R; I2"},
		{"אב 12", "11122", 1, "N1: a number is R to a blank; I2: a number in R is one up"},
		{"אב ab", "11122", 1, "N2: a blank between R and L takes the paragraph's; I2: L in R"},
		{"ab אב", "00011", 0, "N2; I1"},
		{"ab אב 12", "00011122", 0, "W7 does not hold after R; N1; I1: a number in L is two up"},
		{"ab 12", "00000", 0, "W7: a number after L is L"},
		{"מ 1,2", "11222", 1, "W4: one comma between two numbers is theirs"},
		{"מ 1,,2", "112112", 1, "W6: two commas are not; N1: between numbers they are R"},
		{"מ 1-2", "11222", 1, "W4: a hyphen-minus is a separator ES"},
		{"د 1-2", "11212", 1, "W2: after an Arabic letter the numbers are AN, between which W4 takes no ES"},
		{"د 1.2", "11222", 1, "W2 and W4: but a point, CS, it does"},
		{"א $12%", "112222", 1, "W5: signs beside a number are its own"},
		{"د 12%", "11221", 1, "W2 before W5: not beside AN, where W6 and N1 leave it R"},
		{"א ±12", "11222", 1, "W5: ± is ET"},
		{"א\u05B0", "11", 1, "W1: a mark takes the class of its letter"},
		{"a (א) b", "0001000", 0, "N0 c: inside is against the paragraph; before it stands L, so L"},
		{"א (a) ב", "1112111", 1, "N0 c: inside is against the paragraph; before it stands R, so R"},
		{"א (12) a", "11122112", 1, "N0 b: a number is R, as the paragraph"},
		{"אב a (b) ג", "1112222211", 1, "N0 c: inside is against the paragraph; before it stands L, so L"},
		{"a (ב c", "000100", 0, "BD16: no pair; N2"},
		{"a [א) b", "0001000", 0, "BD16: no pair; N2"},
		{"א ", "11", 1, "N1"},
	} {
		got, base := lettering.Levels([]rune(c.text))
		var b strings.Builder
		for _, l := range got {
			b.WriteByte('0' + byte(l))
		}
		if b.String() != c.want || base != c.base {
			t.Errorf("%q has the levels %s of base %d, want %s of %d (%s)", c.text, b.String(), base, c.want, c.base, c.why)
		}
	}
}

// TestVisual holds the order on paper, by the rules L1 and L2.
func TestVisual(t *testing.T) {
	for text, want := range map[string]string{
		"abc 12":   "abc 12",
		"אב 12":    "12 בא",
		"אב 12 ab": "ab 12 בא",
		"ab אב 12": "ab 12 בא",
		"ab אב  ":  "ab בא  ",
		"אב ab ":   " ab בא",
	} {
		if got := lettering.Visual(text); got != want {
			t.Errorf("%q stands as %q, want %q", text, got, want)
		}
	}
}

// TestJoin holds the shapes of Arabic letters, by the names that Unicode gives
// to the presentation forms B.
func TestJoin(t *testing.T) {
	for text, want := range map[string]string{
		"محمد":           "\uFEE3\uFEA4\uFEE4\uFEAA", // initial, medial, medial, final
		"دد":             "\uFEA9\uFEA9",             // dal joins none after it
		"لا":             "\uFEFB",
		"بلا":            "\uFE91\uFEFC",
		"ب\u064Eب":       "\uFE91\u064E\uFE90", // a vowel between
		"م\u200Cب":       "\uFEE1\u200C\uFE8F",
		"م\u200D":        "\uFEE3\u200D",
		"بـ":             "\uFE91ـ",
		"tube 63.5 שלום": "tube 63.5 שלום",
	} {
		if got := lettering.Join(text); got != want {
			t.Errorf("%q joins as %+q, want %+q", text, got, want)
		}
	}
}

// TestClean holds what is left of hostile texts.
func TestClean(t *testing.T) {
	for text, want := range map[string]string{
		"a\x00b\nc\td\u2028e":  "a b c d e",
		"a\xff\xfeb":           "a\uFFFDb",
		"😀 \U00010000":         "\uFFFD \uFFFD",
		"\u202Ea\u2066b\uFEFF": "ab",
		"e\u0301":              "é",
		"\u200C\u200D":         "\u200C\u200D",
		"⌀63.5 ±0.05 ≥ <b>&":   "⌀63.5 ±0.05 ≥ <b>&",
	} {
		if diff := cmp.Diff(want, lettering.Clean(text)); diff != "" {
			t.Errorf("%+q (-want +got):\n%s", text, diff)
		}
	}
}
