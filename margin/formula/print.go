package formula

import (
	"html"
	"strings"
	"unicode/utf8"
)

// The strength with which a piece binds, as the parser has it. What binds less
// than its place asks for stands in parentheses.
const (
	bindsSum      = iota
	bindsSign     // what begins with a minus
	bindsProduct  // also a quotient
	bindsQuantity // a number with its unit, in place of a symbol
	bindsPower
	bindsAll
)

func (n *Node) binds() int {
	switch n.Op {
	case "+", "−":
		return bindsSum
	case "neg":
		return bindsSign
	case "·", "/":
		return bindsProduct
	case "^":
		return bindsPower
	}
	return bindsAll
}

// Print writes the formula as it is read: the tree of what it prints is that
// of n.
func (n *Node) Print() string { return n.print(nil) }

// PrintWith writes the formula with a text for each symbol, as a number with its
// unit, and a sign between factors: "2 × 3.05 mm × (14 mm − 5.6 mm/2)". Where
// the text is empty the symbol stays.
func (n *Node) PrintWith(text func(name string) string) string { return n.print(text) }

// inPlace is what stands for a symbol, and how it binds.
func inPlace(name string, text func(string) string) (string, int) {
	said := ""
	if text != nil {
		said = text(name)
	}
	switch {
	case said == "":
		return name, bindsAll
	case signed(said):
		return said, bindsSign
	case strings.ContainsAny(said, " ·/×"):
		return said, bindsQuantity
	}
	return said, bindsAll
}

func signed(text string) bool { return strings.HasPrefix(text, "−") || strings.HasPrefix(text, "-") }

func (n *Node) print(text func(string) string) string {
	arg := func(i, least int) string {
		a := n.Args[i]
		said, binds := "", a.binds()
		if a.Op == "name" {
			said, binds = inPlace(a.Name, text)
		} else {
			said = a.print(text)
		}
		if binds < least {
			return "(" + said + ")"
		}
		return said
	}
	switch n.Op {
	case "number":
		return n.Text
	case "name":
		said, _ := inPlace(n.Name, text)
		return said
	case "+", "−":
		return arg(0, bindsSum) + " " + n.Op + " " + arg(1, bindsProduct)
	case "·":
		by := " "
		if text != nil {
			by = " × "
		}
		return arg(0, bindsProduct) + by + arg(1, bindsQuantity)
	case "/":
		return arg(0, bindsProduct) + "/" + arg(1, bindsPower)
	case "^":
		base, exponent := arg(0, bindsPower), n.Args[1]
		switch {
		case exponent.Op == "number" && exponent.Text == "2":
			return base + "²"
		case exponent.Op == "number" && exponent.Text == "3":
			return base + "³"
		}
		return base + "^" + arg(1, bindsAll)
	case "neg":
		return "−" + arg(0, bindsProduct)
	case "√":
		return "√" + arg(0, bindsAll)
	case "ln", "tan", "min", "max":
		list := make([]string, len(n.Args))
		for i := range n.Args {
			list[i] = arg(i, bindsSum)
		}
		return n.Op + "(" + strings.Join(list, ", ") + ")"
	}
	return "?"
}

// MathML writes the formula as presentation MathML, without the <math> around
// it: quotients as fractions, powers and indices raised and lowered. value may
// give MathML to stand for a symbol, as a number with its unit; where it is nil
// or gives nothing the symbol stays.
func (n *Node) MathML(value func(name string) string) string {
	said, _ := n.mathml(value)
	return said
}

// mathml also tells how what is written binds. A fraction holds together by its
// bar and a root by its line.
func (n *Node) mathml(value func(string) string) (said string, binds int) {
	arg := func(i, least int) string {
		said, binds := n.Args[i].mathml(value)
		if binds < least {
			return fenced(said)
		}
		return said
	}
	switch n.Op {
	case "number":
		return number(n.Text), bindsAll
	case "name":
		if value != nil {
			if said := value(n.Name); said != "" {
				return said, mathmlBinds(said)
			}
		}
		return Symbol(n.Name), bindsAll
	case "+", "−":
		return row(arg(0, bindsSum) + op(n.Op) + arg(1, bindsProduct)), bindsSum
	case "·":
		return row(arg(0, bindsProduct) + times(n.Args[0], n.Args[1], value != nil) + arg(1, bindsProduct)), bindsProduct
	case "/":
		return n.fraction(value), bindsQuantity
	case "^":
		base, exponent := arg(0, bindsAll), arg(1, bindsSum)
		if indexed, ok := strings.CutSuffix(base, "</msub>"); ok && n.Args[0].Op == "name" {
			// The power stands above the index, not behind it.
			return "<msubsup>" + strings.TrimPrefix(indexed, "<msub>") + exponent + "</msubsup>", bindsPower
		}
		return "<msup>" + base + exponent + "</msup>", bindsPower
	case "neg":
		return row(op("−") + arg(0, bindsProduct)), bindsSign
	case "√":
		return "<msqrt>" + arg(0, bindsSum) + "</msqrt>", bindsAll
	case "ln", "tan", "min", "max":
		list := make([]string, len(n.Args))
		for i := range n.Args {
			list[i] = arg(i, bindsSum)
		}
		name := "<mi>" + n.Op + "</mi>" + op("\u2061") // function application
		return row(name + fenced(strings.Join(list, op(",")))), bindsPower
	}
	return "<mtext>?</mtext>", bindsAll
}

// fraction writes one bar for a quotient of quotients: a/b/c as a over b c.
func (n *Node) fraction(value func(string) string) string {
	above, below := n.Args[0], []*Node{n.Args[1]}
	for above.Op == "/" {
		above, below = above.Args[0], append([]*Node{above.Args[1]}, below...)
	}
	under := below[0]
	for _, d := range below[1:] {
		under = &Node{Op: "·", Args: []*Node{under, d}}
	}
	over, _ := above.mathml(value)
	denominator, _ := under.mathml(value)
	return "<mfrac>" + over + denominator + "</mfrac>"
}

// times is the sign between two factors: none where symbols stand side by side
// as handbooks write them, a point where they would run together.
func times(left, right *Node, numbers bool) string {
	for left.Op == "·" {
		left = left.Args[1]
	}
	for right.Op == "·" || right.Op == "^" {
		right = right.Args[0]
	}
	word := func(n *Node) bool {
		letter, _, _ := strings.Cut(n.Name, "_")
		return n.Op == "name" && utf8.RuneCountInString(letter) > 1
	}
	switch {
	case numbers:
		return op("×")
	case right.Op == "number" && right.Text != "π", word(left), word(right):
		return op("⋅")
	}
	return op("\u2062") // invisible times
}

// mathmlBinds tells how a given piece of MathML binds: all of it if it is a
// bare number.
func mathmlBinds(said string) int {
	var text strings.Builder
	for piece := range strings.SplitSeq(said, "<") {
		_, after, inTag := strings.Cut(piece, ">")
		if !inTag {
			after = piece
		}
		text.WriteString(after)
	}
	switch plain := html.UnescapeString(text.String()); {
	case signed(plain):
		return bindsSign
	case strings.Trim(plain, "0123456789.") != "":
		return bindsQuantity
	}
	return bindsAll
}

func row(inner string) string { return "<mrow>" + inner + "</mrow>" }

func fenced(inner string) string { return row(op("(") + inner + op(")")) }

func op(sign string) string { return "<mo>" + html.EscapeString(sign) + "</mo>" }

func number(text string) string {
	if text == "π" {
		return "<mi>π</mi>"
	}
	return "<mn>" + html.EscapeString(text) + "</mn>"
}

// Symbol writes a symbol as MathML: "D_b,max" as D with the index b,max.
func Symbol(name string) string {
	letter, index, ok := strings.Cut(name, "_")
	base := "<mi>" + html.EscapeString(letter) + "</mi>"
	if !ok {
		return base
	}
	return "<msub>" + base + `<mtext>` + html.EscapeString(index) + "</mtext></msub>"
}
