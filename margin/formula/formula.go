// Package formula reads the printed formulas of methods, such as
//
//	√3 p k²/(k² − 1)
//
// and evaluates them, so that a printed formula can be proved equal to the
// function beside it. A blank between two factors multiplies; products and
// quotients are taken from left to right; ², ³ and ^ raise to a power before
// that; √, ln, tan, min and max are the only functions.
package formula

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// A Node is one piece of a formula.
type Node struct {
	Op   string  // "+", "−", "·", "/", "^", "neg", "√", "ln", "tan", "min", "max", "name", "number"
	Name string  // of a symbol
	Num  float64 // of a number
	Text string  // of a number, as printed
	Args []*Node
}

// Parse reads a printed formula. It returns an error that names the place of
// the first thing it cannot read; it never panics.
func Parse(text string) (*Node, error) {
	if len(text) > 1000 {
		return nil, fmt.Errorf("formula of %d bytes is too long", len(text))
	}
	p := &parser{text: text}
	p.next()
	n := p.sum()
	if p.err == nil && p.tok != "" {
		p.fail("unexpected %q", p.tok)
	}
	return n, p.err
}

// Eval computes the formula in SI with the value of each symbol. Unknown
// symbols and impossible operations give NaN.
func (n *Node) Eval(value func(name string) float64) float64 {
	arg := func(i int) float64 { return n.Args[i].Eval(value) }
	switch n.Op {
	case "number":
		return n.Num
	case "name":
		return value(n.Name)
	case "+":
		return arg(0) + arg(1)
	case "−":
		return arg(0) - arg(1)
	case "·":
		return arg(0) * arg(1)
	case "/":
		return arg(0) / arg(1)
	case "^":
		return math.Pow(arg(0), arg(1))
	case "neg":
		return -arg(0)
	case "√":
		return math.Sqrt(arg(0))
	case "ln":
		return math.Log(arg(0))
	case "tan":
		return math.Tan(arg(0))
	case "min":
		least := math.Inf(1)
		for i := range n.Args {
			least = math.Min(least, arg(i))
		}
		return least
	case "max":
		greatest := math.Inf(-1)
		for i := range n.Args {
			greatest = math.Max(greatest, arg(i))
		}
		return greatest
	}
	return math.NaN()
}

// Names returns the symbols of the formula in the order of their first use.
func (n *Node) Names() []string {
	var names []string
	seen := map[string]bool{}
	var walk func(*Node)
	walk = func(n *Node) {
		if n.Op == "name" && !seen[n.Name] {
			seen[n.Name] = true
			names = append(names, n.Name)
		}
		for _, a := range n.Args {
			walk(a)
		}
	}
	walk(n)
	return names
}

type parser struct {
	text  string
	pos   int    // after tok
	tok   string // "" at the end
	depth int
	err   error
}

func (p *parser) fail(format string, args ...any) *Node {
	if p.err == nil {
		p.err = fmt.Errorf("formula %q at byte %d: %s", p.text, p.pos-len(p.tok), fmt.Sprintf(format, args...))
	}
	p.tok, p.pos = "", len(p.text)
	return &Node{Op: "number", Num: math.NaN()}
}

// next reads one token: a name with its subscript, a number, or one rune.
func (p *parser) next() {
	rest := strings.TrimLeft(p.text[p.pos:], " ")
	p.pos = len(p.text) - len(rest)
	n := 0
	r, size := utf8.DecodeRuneInString(rest)
	switch {
	case rest == "":
	case unicode.IsDigit(r):
		n = strings.IndexFunc(rest+" ", func(r rune) bool { return !unicode.IsDigit(r) && r != '.' })
	case unicode.IsLetter(r) && r != 'π':
		n = nameLength(rest)
	default:
		n = size
	}
	p.tok = rest[:n]
	p.pos += n
}

// nameLength measures a name: letters and digits, a subscript after "_", and
// ",min" or ",max" behind the subscript.
func nameLength(s string) int {
	n := strings.IndexFunc(s+" ", func(r rune) bool { return !unicode.IsLetter(r) && !isPlainDigit(r) && r != '_' })
	if after := s[n:]; strings.HasPrefix(after, ",min") || strings.HasPrefix(after, ",max") {
		n += len(",min")
	}
	return n
}

func isPlainDigit(r rune) bool { return r >= '0' && r <= '9' }

func (p *parser) sum() *Node {
	p.depth++
	defer func() { p.depth-- }()
	if p.depth > 50 {
		return p.fail("nested too deeply")
	}
	n := p.product()
	for p.tok == "+" || p.tok == "−" {
		op := p.tok
		p.next()
		n = &Node{Op: op, Args: []*Node{n, p.product()}}
	}
	return n
}

func (p *parser) product() *Node {
	if p.tok == "−" {
		p.next()
		return &Node{Op: "neg", Args: []*Node{p.product()}}
	}
	n := p.power()
	for {
		switch {
		case p.tok == "/":
			p.next()
			n = &Node{Op: "/", Args: []*Node{n, p.power()}}
		case p.starts():
			n = &Node{Op: "·", Args: []*Node{n, p.power()}}
		default:
			return n
		}
	}
}

// starts tells whether the token begins a factor.
func (p *parser) starts() bool {
	r, _ := utf8.DecodeRuneInString(p.tok)
	return p.tok != "" && (unicode.IsLetter(r) || unicode.IsDigit(r) || r == '(' || r == '√')
}

func (p *parser) power() *Node {
	n := p.factor()
	for {
		switch p.tok {
		case "²", "³":
			exponent := 2.0
			if p.tok == "³" {
				exponent = 3
			}
			n = &Node{Op: "^", Args: []*Node{n, {Op: "number", Num: exponent, Text: strconv.Itoa(int(exponent))}}}
			p.next()
		case "^":
			p.next()
			n = &Node{Op: "^", Args: []*Node{n, p.factor()}}
		default:
			return n
		}
	}
}

func (p *parser) factor() *Node {
	tok := p.tok
	r, _ := utf8.DecodeRuneInString(tok)
	switch {
	case tok == "":
		return p.fail("ends too early")
	case tok == "(":
		p.next()
		n := p.sum()
		p.expect(")")
		return n
	case tok == "π":
		p.next()
		return &Node{Op: "number", Num: math.Pi, Text: "π"}
	case tok == "√":
		p.next()
		return &Node{Op: "√", Args: []*Node{p.factor()}}
	case tok == "ln", tok == "tan":
		p.next()
		return &Node{Op: tok, Args: []*Node{p.factor()}}
	case tok == "min", tok == "max":
		p.next()
		p.expect("(")
		n := &Node{Op: tok, Args: []*Node{p.sum()}}
		for p.tok == "," {
			p.next()
			n.Args = append(n.Args, p.sum())
		}
		p.expect(")")
		return n
	case unicode.IsDigit(r):
		x, err := strconv.ParseFloat(tok, 64)
		if err != nil {
			return p.fail("%q is no number", tok)
		}
		p.next()
		return &Node{Op: "number", Num: x, Text: tok}
	case unicode.IsLetter(r):
		p.next()
		return &Node{Op: "name", Name: tok}
	}
	return p.fail("unexpected %q", tok)
}

func (p *parser) expect(tok string) {
	if p.tok != tok {
		p.fail("%q is missing", tok)
		return
	}
	p.next()
}
