package formula_test

import (
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"math"
	"reflect"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"casewright"
	"casewright/margin"
	"casewright/margin/formula"
)

// The shear load of eight screws with numbers in place of the symbols.
func ExampleNode_PrintWith() {
	n, err := formula.Parse("2 t_b (e_min − h_max/2) F_su")
	if err != nil {
		fmt.Println(err)
		return
	}
	values := map[string]string{"t_b": "3.05 mm", "e_min": "14 mm", "h_max": "5.6 mm", "F_su": "186 MPa"}
	fmt.Println(n.Print())
	fmt.Println(n.PrintWith(func(name string) string { return values[name] }))
	// Output:
	// 2 t_b (e_min − h_max/2) F_su
	// 2 × 3.05 mm × (14 mm − 5.6 mm/2) × 186 MPa
}

// A quotient is a fraction, a power is raised, an index lowered.
func ExampleNode_MathML() {
	n, err := formula.Parse("p/k²")
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(n.MathML(nil))
	// Output: <mfrac><mi>p</mi><msup><mi>k</mi><mn>2</mn></msup></mfrac>
}

// printed are the formulas of all methods: demand and capacity, value and
// limit, and other readings.
func printed(t *testing.T) map[string]*formula.Node {
	t.Helper()
	all := map[string]*formula.Node{}
	for _, m := range casewright.Methods() {
		texts := []string{m.Demand, m.Capacity, m.Value, m.Limit}
		for _, r := range m.Readings {
			texts = append(texts, r.Formula)
		}
		for _, text := range texts {
			if text == "" {
				continue
			}
			n, err := formula.Parse(text)
			if err != nil {
				t.Fatalf("%s: %v", m.ID, err)
			}
			all[text] = n
		}
	}
	if len(all) < 40 {
		t.Fatalf("only %d formulas", len(all))
	}
	return all
}

// TestMethodsPrintAsTheyAre: the formulas of the methods are written as an
// engineer writes them, so that printing them changes nothing.
func TestMethodsPrintAsTheyAre(t *testing.T) {
	for text, n := range printed(t) {
		if got := n.Print(); got != text {
			t.Errorf("%q is printed as %q", text, got)
		}
	}
}

// TestPrint: parentheses where a formula needs them and nowhere else. Expected:
// the rules of writing, common practice, no source.
func TestPrint(t *testing.T) {
	for text, want := range map[string]string{
		"((a))":           "a",
		"(a b) c":         "a b c",
		"a (b c)":         "a (b c)",
		"a/(b c)":         "a/(b c)",
		"(a/b) c":         "a/b c",
		"(a + b) + c":     "a + b + c",
		"a − (b − c)":     "a − (b − c)",
		"a + (b c)":       "a + b c",
		"(a b)²":          "(a b)²",
		"a^2":             "a²",
		"b^(a + 1)":       "b^(a + 1)",
		"(a^b)^c":         "a^b^c",
		"a^(b^c)":         "a^(b^c)",
		"√(a)":            "√a",
		"(√a)²":           "√a²",
		"√(a²)":           "√(a²)",
		"ln k":            "ln(k)",
		"c − −a":          "c − (−a)",
		"−(a b)":          "−a b",
		"(−a) b":          "(−a) b",
		"max(0, (a − b))": "max(0, a − b)",
		"2a":              "2 a",
	} {
		n, err := formula.Parse(text)
		if err != nil {
			t.Errorf("%q: %v", text, err)
		} else if got := n.Print(); got != want {
			t.Errorf("%q is printed as %q, want %q", text, got, want)
		}
	}
}

// TestPrintWith: numbers with units keep together. Expected: worked by hand.
func TestPrintWith(t *testing.T) {
	values := map[string]string{
		"p": "4.5 MPa", "k": "1.1099", "N": "8", "D_b,max": "57.13 mm", "h_min": "11.9 mm", "T_k": "0 K", "T_l": "−15 K",
		"α_r": "2.36·10⁻⁵ 1/K", "c_p": "1", "ν": "0.33", "w": "1/4 in",
	}
	for text, want := range map[string]string{
		"√3 p k²/(k² − 1)":                  "√3 × 4.5 MPa × 1.1099²/(1.1099² − 1)",
		"p π/4 D_b,max²":                    "4.5 MPa × π/4 × (57.13 mm)²",
		"c_p 3 (3 + ν)/8 (D_b,max/2/h_min)": "1 × 3 × (3 + 0.33)/8 × (57.13 mm/2/(11.9 mm))",
		"T_k − T_l":                         "0 K − (−15 K)",
		"T_l − T_k":                         "−15 K − 0 K",
		"T_l T_k":                           "(−15 K) × 0 K",
		"−T_l":                              "−(−15 K)",
		"2 T_l":                             "2 × (−15 K)",
		"1 + 3 α_r T_k":                     "1 + 3 × 2.36·10⁻⁵ 1/K × 0 K",
		"p/p":                               "4.5 MPa/(4.5 MPa)",
		"p/N":                               "4.5 MPa/8",
		"1/w":                               "1/(1/4 in)",
		"√p":                                "√(4.5 MPa)",
		"ln(k) + ln(p/p)":                   "ln(1.1099) + ln(4.5 MPa/(4.5 MPa))",
		"2^p":                               "2^(4.5 MPa)",
		"max(T_l, p, unknown)":              "max(−15 K, 4.5 MPa, unknown)",
	} {
		n, err := formula.Parse(text)
		if err != nil {
			t.Errorf("%q: %v", text, err)
		} else if got := n.PrintWith(func(name string) string { return values[name] }); got != want {
			t.Errorf("%q with numbers is %q, want %q", text, got, want)
		}
	}
}

// drawTree draws a formula of any shape.
func drawTree(t *rapid.T, depth int) *formula.Node {
	ops := []string{"name", "number"}
	if depth > 0 {
		ops = append(ops, "+", "−", "·", "/", "^", "neg", "√", "ln", "tan", "min", "max", "·", "/")
	}
	arity := map[string]int{"+": 2, "−": 2, "·": 2, "/": 2, "^": 2, "neg": 1, "√": 1, "ln": 1, "tan": 1}
	n := &formula.Node{Op: rapid.SampledFrom(ops).Draw(t, "op")}
	count := arity[n.Op]
	switch n.Op {
	case "name":
		n.Name = rapid.SampledFrom([]string{"a", "b", "D_b,max", "h_min", "share", "ν", "ΔT"}).Draw(t, "name")
	case "number":
		n.Text = rapid.SampledFrom([]string{"1", "2", "3", "0.25", "π", "1.50"}).Draw(t, "number")
		n.Num, _ = strconv.ParseFloat(n.Text, 64)
		if n.Text == "π" {
			n.Num = math.Pi
		}
	case "min", "max":
		count = rapid.IntRange(1, 3).Draw(t, "arguments")
	}
	for range count {
		n.Args = append(n.Args, drawTree(t, depth-1))
	}
	return n
}

// TestPropertyPrintIsRead: what is printed is read as the same tree.
func TestPropertyPrintIsRead(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := drawTree(t, 4)
		text := n.Print()
		again, err := formula.Parse(text)
		if len(text) > 1000 {
			t.Skip("longer than a formula may be")
		}
		if err != nil || !reflect.DeepEqual(n, again) {
			t.Fatalf("%q is read as %q, %v", text, again.Print(), err)
		}
	})
}

// value is a number for each symbol of drawTree, with its text: with a sign,
// with a unit of 0.5, with both, or bare.
var value = map[string]struct {
	text string
	x    float64
}{
	"a": {"3", 3}, "b": {"−7", -7}, "D_b,max": {"57.13 u", 57.13 / 2}, "h_min": {"−5.5 u", -5.5 / 2},
	"share": {"1.25", 1.25}, "ν": {"0.33", 0.33}, "ΔT": {"2.5 u u", 2.5 / 4},
}

func valueOf(name string) float64 {
	if name == "u" {
		return 0.5
	}
	return value[name].x
}

func same(a, b float64) bool {
	return a == b || math.IsNaN(a) && math.IsNaN(b) || math.Abs(a-b) <= 1e-9*math.Max(math.Abs(a), math.Abs(b))
}

// TestPropertyNumbersGiveTheResult: done as written, the line with numbers and
// units comes to what the formula gives.
func TestPropertyNumbersGiveTheResult(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := drawTree(t, 4)
		text := n.PrintWith(func(name string) string { return value[name].text })
		again, err := formula.Parse(strings.ReplaceAll(text, " × ", " "))
		if len(text) > 900 {
			t.Skip("longer than a formula may be")
		}
		if err != nil {
			t.Fatal(err)
		}
		if got, want := again.Eval(valueOf), n.Eval(valueOf); !same(got, want) {
			t.Fatalf("%q comes to %v, %q to %v", text, got, n.Print(), want)
		}
	})
}

// linear reads MathML back as a formula. Only what the eye sees groups: the
// bar of a fraction, the line of a root and what is raised; no row does.
func linear(text string) (string, error) {
	d := xml.NewDecoder(strings.NewReader("<math>" + text + "</math>"))
	var element func(name string) (string, error)
	element = func(name string) (string, error) {
		var parts []string
		for {
			token, err := d.Token()
			if err != nil {
				return "", err
			}
			switch token := token.(type) {
			case xml.StartElement:
				part, err := element(token.Name.Local)
				if err != nil {
					return "", err
				}
				parts = append(parts, part)
			case xml.CharData:
				parts = append(parts, string(token))
			case xml.EndElement:
				switch {
				case name == "mfrac" && len(parts) == 2:
					return "((" + parts[0] + ")/(" + parts[1] + "))", nil
				case name == "msup" && len(parts) == 2:
					return parts[0] + "^(" + parts[1] + ")", nil
				case name == "msub" && len(parts) == 2:
					return parts[0] + "_" + parts[1], nil
				case name == "msubsup" && len(parts) == 3:
					return parts[0] + "_" + parts[1] + "^(" + parts[2] + ")", nil
				case name == "msqrt" && len(parts) == 1:
					return "√(" + parts[0] + ")", nil
				case name == "mrow", name == "math", (name == "mi" || name == "mn" || name == "mtext" || name == "mo") && len(parts) < 2:
					text := strings.Join(parts, " ")
					if name == "mo" {
						text = strings.NewReplacer("\u2062", " ", "\u2061", " ", "⋅", " ", "×", " ").Replace(text)
					}
					return text, nil
				}
				return "", fmt.Errorf("<%s> of %d parts", name, len(parts))
			}
		}
	}
	if token, err := d.Token(); err != nil {
		return "", fmt.Errorf("%v, %w", token, err)
	}
	out, err := element("math")
	if err != nil {
		return "", err
	}
	if _, err := d.Token(); !errors.Is(err, io.EOF) {
		return "", fmt.Errorf("more follows: %w", err)
	}
	return out, nil
}

// TestPropertyMathMLIsTheFormula: what MathML shows is worth what the formula
// is, with symbols and with numbers in their place.
func TestPropertyMathMLIsTheFormula(t *testing.T) {
	quantity := func(name string) string {
		number, unit, _ := strings.Cut(value[name].text, " ")
		return "<mrow><mn>" + number + "</mn><mtext>" + unit + "</mtext></mrow>"
	}
	rapid.Check(t, func(t *rapid.T) {
		n := drawTree(t, 4)
		for _, with := range []func(string) string{nil, quantity, func(name string) string {
			if name == "b" {
				return "<mn>−7</mn>"
			}
			return ""
		}} {
			ml := n.MathML(with)
			text, err := linear(ml)
			if err != nil {
				t.Fatalf("%s: %v", ml, err)
			}
			if len(text) > 1000 {
				t.Skip("longer than a formula may be")
			}
			again, err := formula.Parse(text)
			if err != nil {
				t.Fatalf("%s: %v", ml, err)
			}
			if got, want := again.Eval(valueOf), n.Eval(valueOf); !same(got, want) {
				t.Fatalf("%s shows %v, %q is %v", ml, got, n.Print(), want)
			}
		}
	})
}

// TestMathML: golden samples, each looked at as Chromium draws it.
func TestMathML(t *testing.T) {
	const times = "<mo>\u2062</mo>"
	for text, want := range map[string]string{
		"D_b,max":         "<msub><mi>D</mi><mtext>b,max</mtext></msub>",
		"D_b,max²":        "<msubsup><mi>D</mi><mtext>b,max</mtext><mn>2</mn></msubsup>",
		"2 a":             "<mrow><mn>2</mn>" + times + "<mi>a</mi></mrow>",
		"F share":         "<mrow><mi>F</mi><mo>⋅</mo><mi>share</mi></mrow>",
		"a 3":             "<mrow><mi>a</mi><mo>⋅</mo><mn>3</mn></mrow>",
		"a 3²":            "<mrow><mi>a</mi><mo>⋅</mo><msup><mn>3</mn><mn>2</mn></msup></mrow>",
		"a (3 b)":         "<mrow><mi>a</mi><mo>⋅</mo><mrow><mn>3</mn>" + times + "<mi>b</mi></mrow></mrow>",
		"a (3² b)":        "<mrow><mi>a</mi><mo>⋅</mo><mrow><msup><mn>3</mn><mn>2</mn></msup>" + times + "<mi>b</mi></mrow></mrow>",
		"a π":             "<mrow><mi>a</mi>" + times + "<mi>π</mi></mrow>",
		"a share b":       "<mrow><mrow><mi>a</mi><mo>⋅</mo><mi>share</mi></mrow><mo>⋅</mo><mi>b</mi></mrow>",
		"a share²":        "<mrow><mi>a</mi><mo>⋅</mo><msup><mi>share</mi><mn>2</mn></msup></mrow>",
		"a ΔT":            "<mrow><mi>a</mi><mo>⋅</mo><mi>ΔT</mi></mrow>",
		"a ν_long":        "<mrow><mi>a</mi>" + times + "<msub><mi>ν</mi><mtext>long</mtext></msub></mrow>",
		"a/b/c":           "<mfrac><mi>a</mi><mrow><mi>b</mi>" + times + "<mi>c</mi></mrow></mfrac>",
		"(a/b)²":          "<msup><mrow><mo>(</mo><mfrac><mi>a</mi><mi>b</mi></mfrac><mo>)</mo></mrow><mn>2</mn></msup>",
		"√3":              "<msqrt><mn>3</mn></msqrt>",
		"ln(k)":           "<mrow><mi>ln</mi><mo>\u2061</mo><mrow><mo>(</mo><mi>k</mi><mo>)</mo></mrow></mrow>",
		"π/4":             "<mfrac><mi>π</mi><mn>4</mn></mfrac>",
		"(a + b) c":       "<mrow><mrow><mo>(</mo><mrow><mi>a</mi><mo>+</mo><mi>b</mi></mrow><mo>)</mo></mrow>" + times + "<mi>c</mi></mrow>",
		"α_v":             "<msub><mi>α</mi><mtext>v</mtext></msub>",
		"min(a, b)":       "<mrow><mi>min</mi><mo>\u2061</mo><mrow><mo>(</mo><mi>a</mi><mo>,</mo><mi>b</mi><mo>)</mo></mrow></mrow>",
		"a − (b − c)":     "<mrow><mi>a</mi><mo>−</mo><mrow><mo>(</mo><mrow><mi>b</mi><mo>−</mo><mi>c</mi></mrow><mo>)</mo></mrow></mrow>",
		"ln(k)²":          "<msup><mrow><mo>(</mo><mrow><mi>ln</mi><mo>\u2061</mo><mrow><mo>(</mo><mi>k</mi><mo>)</mo></mrow></mrow><mo>)</mo></mrow><mn>2</mn></msup>",
		"c − −a":          "<mrow><mi>c</mi><mo>−</mo><mrow><mo>(</mo><mrow><mo>−</mo><mi>a</mi></mrow><mo>)</mo></mrow></mrow>",
		"−−a":             "<mrow><mo>−</mo><mrow><mo>(</mo><mrow><mo>−</mo><mi>a</mi></mrow><mo>)</mo></mrow></mrow>",
		"−(a/b)":          "<mrow><mo>−</mo><mfrac><mi>a</mi><mi>b</mi></mfrac></mrow>",
		"a (b/c)":         "<mrow><mi>a</mi>" + times + "<mfrac><mi>b</mi><mi>c</mi></mfrac></mrow>",
		"a/b c":           "<mrow><mfrac><mi>a</mi><mi>b</mi></mfrac>" + times + "<mi>c</mi></mrow>",
		"a b c":           "<mrow><mrow><mi>a</mi>" + times + "<mi>b</mi></mrow>" + times + "<mi>c</mi></mrow>",
		"a (b c)":         "<mrow><mi>a</mi>" + times + "<mrow><mi>b</mi>" + times + "<mi>c</mi></mrow></mrow>",
		"−a b":            "<mrow><mo>−</mo><mrow><mi>a</mi>" + times + "<mi>b</mi></mrow></mrow>",
		"−a + b":          "<mrow><mrow><mo>−</mo><mi>a</mi></mrow><mo>+</mo><mi>b</mi></mrow>",
		"a + b − c":       "<mrow><mrow><mi>a</mi><mo>+</mo><mi>b</mi></mrow><mo>−</mo><mi>c</mi></mrow>",
		"a + b/c":         "<mrow><mi>a</mi><mo>+</mo><mfrac><mi>b</mi><mi>c</mi></mfrac></mrow>",
		"a + b c":         "<mrow><mi>a</mi><mo>+</mo><mrow><mi>b</mi>" + times + "<mi>c</mi></mrow></mrow>",
		"√(a + b)":        "<msqrt><mrow><mi>a</mi><mo>+</mo><mi>b</mi></mrow></msqrt>",
		"a^(b + c)":       "<msup><mi>a</mi><mrow><mi>b</mi><mo>+</mo><mi>c</mi></mrow></msup>",
		"−a":              "<mrow><mo>−</mo><mi>a</mi></mrow>",
		"max(0, D_g,min)": "<mrow><mi>max</mi><mo>\u2061</mo><mrow><mo>(</mo><mn>0</mn><mo>,</mo><msub><mi>D</mi><mtext>g,min</mtext></msub><mo>)</mo></mrow></mrow>",
	} {
		n, err := formula.Parse(text)
		if err != nil {
			t.Errorf("%q: %v", text, err)
		} else if got := n.MathML(nil); got != want {
			t.Errorf("%q: %s\nwant %s", text, got, want)
		}
	}
}

// TestMathMLOfMethods: the formulas of all methods and all symbols are
// well-formed and show what they are.
func TestMathMLOfMethods(t *testing.T) {
	for text, n := range printed(t) {
		ml := n.MathML(nil)
		shown, err := linear(ml)
		if err != nil {
			t.Errorf("%q: %v\n%s", text, err, ml)
			continue
		}
		again, err := formula.Parse(shown)
		if err != nil {
			t.Errorf("%q is shown as %q: %v", text, shown, err)
			continue
		}
		x := map[string]float64{}
		at := func(name string) float64 {
			if _, ok := x[name]; !ok {
				x[name] = 1.5 + 0.37*float64(len(x))
			}
			return x[name]
		}
		if want, got := n.Eval(at), again.Eval(at); !same(got, want) {
			t.Errorf("%q is %v, shown as %q, which is %v", text, want, shown, got)
		}
	}
	for term := range margin.NumTerms {
		name := term.Info().Symbol
		if shown, err := linear(formula.Symbol(name)); err != nil || shown != name {
			t.Errorf("%q is shown as %q: %v", name, shown, err)
		}
	}
}

// TestMathMLEscapes: what a caller's symbols hold never becomes markup.
func TestMathMLEscapes(t *testing.T) {
	n := &formula.Node{Op: "+", Args: []*formula.Node{{Op: "name", Name: "<b>&_\"x\">"}, {Op: "number", Text: "<1>"}}}
	text, err := linear(n.MathML(nil))
	if want := `<b>&_"x"> + <1>`; err != nil || text != want {
		t.Errorf("%q, %v", text, err)
	}
	if got := (&formula.Node{Op: "?"}).MathML(nil); got != "<mtext>?</mtext>" {
		t.Errorf("unknown operation: %s", got)
	}
	if got := (&formula.Node{Op: "√", Args: []*formula.Node{{Op: "?"}}}).Print(); got != "√?" {
		t.Errorf("unknown operation: %s", got)
	}
}

// FuzzPrint: whatever is read is printed so that it is read as the same tree,
// and its MathML is well formed.
func FuzzPrint(f *testing.F) {
	for _, seed := range []string{
		"p", "√3 p k²/(k² − 1)", "min(2/√3 F_ty ln(k) (2 − F_ty/F_tu), F_tu ln(k))", "−a", "a^b^c", "c − −a", "(−a) b", "√√a", "ln ln a", "2 3", "a^(b^c)²",
		"max(0, a)", "b/(c/a)", "−(a b)/c", "1.50", "a_2 2", "(a b)(c d)",
	} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, text string) {
		n, err := formula.Parse(text)
		if err != nil {
			return
		}
		out := n.Print()
		again, err := formula.Parse(out)
		switch {
		case err != nil && (strings.Contains(err.Error(), "too deeply") || strings.Contains(err.Error(), "too long")):
			// Parentheses of its own, as in ln(ln(a)) for "ln ln a".
		case err != nil || !reflect.DeepEqual(n, again):
			t.Errorf("%q is printed as %q: %v", text, out, err)
		case again.Print() != out:
			t.Errorf("%q, then %q", out, again.Print())
		}
		if _, err := linear(n.MathML(nil)); err != nil {
			t.Errorf("%q: %v", text, err)
		}
	})
}
