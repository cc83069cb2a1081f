package formula_test

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"
	"unicode/utf8"

	"casewright/margin/formula"
)

// The hoop stress at the bore of a tube with outside over inside radius 2.
func ExampleParse() {
	n, err := formula.Parse("p (k² + 1)/(k² − 1)")
	if err != nil {
		fmt.Println(err)
		return
	}
	values := map[string]float64{"p": 100, "k": 2}
	fmt.Println(n.Names())
	fmt.Printf("%.1f\n", n.Eval(func(name string) float64 { return values[name] }))
	// Output:
	// [p k]
	// 166.7
}

func ExampleParse_error() {
	_, err := formula.Parse("p (k + 1")
	fmt.Println(err)
	// Output: formula "p (k + 1" at byte 8: ")" is missing
}

// The symbols of the table below.
var symbols = map[string]float64{
	"a": 2, "b": 3, "c": 5, "t_min": 0.25, "D_b,max": 8, "D_b,min": 7, "h_max": 4,
	"α_v": 0.5, "ν": 0.25, "δ": 1.5, "ΔT": 30, "CS_e": 1.25, "min_x": 9, "lnx": 11, "x2": 13, "F_ty": 240,
}

func lookup(name string) float64 {
	if x, ok := symbols[name]; ok {
		return x
	}
	return math.NaN()
}

// TestEval: the values are arithmetic, worked by hand.
func TestEval(t *testing.T) {
	for text, want := range map[string]float64{
		"1":     1,
		"2.5":   2.5,
		"a":     2,
		"π":     math.Pi,
		"t_min": 0.25,
		// A blank multiplies; products and quotients go from left to right.
		"a b":         6,
		"2 a b":       12,
		"2a":          4,
		"a/b c":       2.0 / 3 * 5,
		"a/b/c":       2.0 / 3 / 5,
		"a/(b c)":     2.0 / 15,
		"π/4 a²":      math.Pi,
		"2 π (a + b)": 10 * math.Pi,
		"(a + b)(c)":  25,
		// Sums after products, from left to right.
		"a + b c":       17,
		"a b + c":       11,
		"c − b − a":     0,
		"c − (b − a)":   4,
		"c − b + a":     4,
		"1 − a/b":       1 - 2.0/3,
		"1 − (a + b)/c": 0,
		// Powers before products, a sign after them.
		"a b²":       18,
		"(a b)²":     36,
		"a³":         8,
		"b^a":        9,
		"2 b^a":      18,
		"a²²":        16,
		"b^(a + 1)":  27,
		"(1 + a)²/b": 3,
		"−a":         -2,
		"−a²":        -4,
		"−a b":       -6,
		"−(a − b)":   1,
		"c − −a":     7,
		"(−a)²":      4,
		"π²":         math.Pi * math.Pi,
		// Functions bind to the next factor.
		"√(a + 2)":          2,
		"√3 a":              math.Sqrt(3) * 2,
		"√a b":              math.Sqrt(2) * 3,
		"2/√(1 + b)":        1,
		"√3 a c²/(c² − 1)":  math.Sqrt(3) * 2 * 25 / 24,
		"ln(a)":             math.Ln2,
		"2 ln(a) b":         6 * math.Ln2,
		"ln a":              math.Ln2,
		"tan(π/4)":          1,
		"min(a, b)":         2,
		"min(c, b, a + 2)":  3,
		"min(a)":            2,
		"2 min(b, a)²":      8,
		"a min(2 b, c) + 1": 11,
		"c/min(a, b)":       2.5,
		"max(a, b)":         3,
		"max(a, c, b)":      5,
		"max(0, a − b)":     0,
		"2 max(a, b)²":      18,
		"max(min(a, b), 1)": 2,
		// Names: subscripts, ends, Greek letters, names that begin as others.
		"D_b,max":               8,
		"D_b,max − D_b,min":     1,
		"(D_b,max + t_min)/2":   4.125,
		"min(D_b,max, D_b,min)": 7,
		"min(h_max, D_b,max)":   4,
		"α_v a":                 1,
		"3 (3 + ν)/8":           3 * 3.25 / 8,
		"δ ΔT":                  45,
		"CS_e²":                 1.5625,
		"min_x":                 9,
		"lnx":                   11,
		"x2":                    13,
		"2/√3 F_ty ln(a) (2 − F_ty/h_max/100)": 2 / math.Sqrt(3) * 240 * math.Ln2 * (2 - 0.6),
	} {
		n, err := formula.Parse(text)
		if err != nil {
			t.Errorf("%q: %v", text, err)
			continue
		}
		if got := n.Eval(lookup); !(math.Abs(got-want) <= 1e-12*math.Max(1, math.Abs(want))) {
			t.Errorf("%q = %g, want %g", text, got, want)
		}
	}
}

func TestNames(t *testing.T) {
	for text, want := range map[string][]string{
		"1":                       nil,
		"π":                       nil,
		"b a b":                   {"b", "a"},
		"min(D_b,max, t_min, h)":  {"D_b,max", "t_min", "h"},
		"ln(k) √x tan θ":          {"k", "x", "θ"},
		"minimum":                 {"minimum"},
		"x0 x9 9 x90":             {"x0", "x9", "x90"},
		"α_v R_m A/(2 t_max)²":    {"α_v", "R_m", "A", "t_max"},
		"D_b,max D_b,min D_b":     {"D_b,max", "D_b,min", "D_b"},
		"w_min (D_b,min − D_g)/2": {"w_min", "D_b,min", "D_g"},
	} {
		n, err := formula.Parse(text)
		if err != nil {
			t.Errorf("%q: %v", text, err)
		} else if got := n.Names(); !slices.Equal(got, want) {
			t.Errorf("%q: names %q, want %q", text, got, want)
		}
	}
}

// TestParseErrors: each error tells the place, in bytes, of what it cannot
// read.
func TestParseErrors(t *testing.T) {
	for _, c := range []struct {
		text, want string
	}{
		{"", "ends too early"},
		{"   ", "ends too early"},
		{"a +", "byte 3: ends too early"},
		{"a −", "ends too early"},
		{"−", "ends too early"},
		{"a/", "byte 2: ends too early"},
		{"a^", "ends too early"},
		{"√", "ends too early"},
		{"ln", "ends too early"},
		{"(a", `")" is missing`},
		{"a)", `byte 1: unexpected ")"`},
		{"()", `unexpected ")"`},
		{"a, b", `unexpected ","`},
		{"min a", `"(" is missing`},
		{"min()", `unexpected ")"`},
		{"max a", `"(" is missing`},
		{"max()", `unexpected ")"`},
		{"min(a,)", `unexpected ")"`},
		{"min(a b", `")" is missing`},
		{"a - b", `byte 2: unexpected "-"`}, // the minus sign is −
		{"a * b", `unexpected "*"`},
		{"a + + b", `unexpected "+"`},
		{"/a", `unexpected "/"`},
		{"²", `unexpected "²"`},
		{"a = b", `unexpected "="`},
		{"1.2.3", "is no number"},
		{"½ a", "unexpected"},
		{"a\nb", "unexpected"},
		{"a \xff", "unexpected"},
		{strings.Repeat("(", 60) + "a" + strings.Repeat(")", 60), "too deeply"},
		{strings.Repeat("a ", 600), "too long"},
	} {
		n, err := formula.Parse(c.text)
		if err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%q: %v, error %v, want one with %q", c.text, n, err, c.want)
		}
	}
}

// TestBounds: a formula of 1000 bytes or 49 parentheses within each other is
// read, a greater one is not. Parentheses side by side are not within each
// other.
func TestBounds(t *testing.T) {
	nested := func(n int) string { return strings.Repeat("(", n) + "a" + strings.Repeat(")", n) }
	for _, c := range []struct {
		text string
		read bool
	}{
		{strings.Repeat("a ", 500), true},
		{strings.Repeat("a ", 500) + "a", false},
		{nested(49), true},
		{nested(50), false},
		{strings.Repeat("(a)", 60), true},
		{nested(49) + nested(49), true},
		{nested(49) + nested(50), false},
	} {
		if n, err := formula.Parse(c.text); (err == nil) != c.read {
			t.Errorf("%d bytes, %.60q: %v", len(c.text), c.text, err)
		} else if c.read && !slices.Equal(n.Names(), []string{"a"}) {
			t.Errorf("%d bytes, %.60q: names %q", len(c.text), c.text, n.Names())
		}
	}
}

// TestNotANumber: what is impossible or unknown is NaN or infinite, never a
// number that looks right.
func TestNotANumber(t *testing.T) {
	for _, text := range []string{"√(a − b)", "ln(a − b)", "unknown", "2 unknown", "min(a, unknown)", "max(a, unknown)", "(a − 2)/(b − 3)", "1/(a − 2)", "ln(a − 2)"} {
		n, err := formula.Parse(text)
		if err != nil {
			t.Errorf("%q: %v", text, err)
			continue
		}
		if got := n.Eval(lookup); !math.IsNaN(got) && !math.IsInf(got, 0) {
			t.Errorf("%q = %g", text, got)
		}
	}
	if got := (&formula.Node{Op: "?"}).Eval(lookup); !math.IsNaN(got) {
		t.Errorf("unknown operation: %g", got)
	}
}

// TestNumberText: a number keeps how it was printed.
func TestNumberText(t *testing.T) {
	for _, text := range []string{"0.9", "1.50", "2", "π"} {
		n, err := formula.Parse(text)
		if err != nil || n.Op != "number" || n.Text != text {
			t.Errorf("%q: %+v, %v", text, n, err)
		}
	}
}

// FuzzParse: no text makes the parser panic; what it reads can be evaluated,
// and its names stand in the text.
func FuzzParse(f *testing.F) {
	for _, seed := range []string{
		"", "p", "√3 p k²/(k² − 1)", "min(2/√3 F_ty ln(k) (2 − F_ty/F_tu), F_tu ln(k))", "−a", "((((", "a^b^c", "max(0, a)", "max(", "D_b,max,min", "min(", "ln",
		"1.2.3", "²", "\xff", "٣", strings.Repeat("(", 200), strings.Repeat("−", 900), strings.Repeat("√", 333), strings.Repeat("ln ", 333), "1 − ((D_b,max − D_g,min)/2 + δ)/CS_e",
	} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, text string) {
		n, err := formula.Parse(text)
		if err != nil {
			if len(err.Error()) == 0 {
				t.Error("an error without words")
			}
			return
		}
		if !utf8.ValidString(text) {
			t.Errorf("%q was read", text)
		}
		for _, name := range n.Names() {
			if !strings.Contains(text, name) {
				t.Errorf("%q: name %q is not in it", text, name)
			}
		}
		calls := 0
		n.Eval(func(string) float64 { calls++; return 1.5 })
		if len(n.Names()) > calls {
			t.Errorf("%q: %d names, %d looked up", text, len(n.Names()), calls)
		}
		again, err := formula.Parse(" " + text + " ")
		if len(text) < 990 && (err != nil || !slices.Equal(again.Names(), n.Names())) {
			t.Errorf("%q with blanks round it: %v", text, err)
		}
	})
}
