package formula

import (
	"html"
	"strings"
)

// The strength with which an operation binds, as the parser has it.
const (
	bindsSum = iota
	bindsProduct
	bindsPower
	bindsAll
)

func (n *Node) binds() int {
	switch n.Op {
	case "+", "−":
		return bindsSum
	case "·", "/", "neg":
		return bindsProduct
	case "^":
		return bindsPower
	}
	return bindsAll
}

// Print writes the formula as it is read: the tree of what it prints is that
// of n.
func (n *Node) Print() string { return n.print(printer{}) }

// PrintWith writes the formula with a text for each symbol, as a number with its
// unit: "2 × 3.05 mm × (14 mm − 5.6 mm/2)". Where the text is empty the symbol
// stays.
func (n *Node) PrintWith(text func(name string) string) string {
	return n.print(printer{text: text})
}

type printer struct{ text func(string) string }

// name is the text for a symbol, and whether it is more than one word or
// begins with a sign, so that it needs parentheses inside a term.
func (p printer) name(name string) (text string, loose bool) {
	if p.text != nil {
		text = p.text(name)
	}
	if text == "" {
		return name, false
	}
	return text, strings.ContainsAny(text, " ·") || strings.HasPrefix(text, "−") || strings.HasPrefix(text, "-")
}

func (n *Node) print(p printer) string {
	arg := func(i, least int) string {
		a := n.Args[i]
		text := a.print(p)
		loose := a.binds() < least
		if a.Op == "name" && least == bindsAll {
			_, loose = p.name(a.Name)
		}
		if a.Op == "neg" && i == 0 && least == bindsProduct {
			loose = true // a sign covers all that follows it
		}
		if loose {
			return "(" + text + ")"
		}
		return text
	}
	switch n.Op {
	case "number":
		return n.Text
	case "name":
		text, _ := p.name(n.Name)
		return text
	case "+", "−":
		right := bindsProduct
		text := arg(1, right)
		if a := n.Args[1]; a.Op == "name" {
			if said, _ := p.name(a.Name); strings.HasPrefix(said, "−") {
				text = "(" + text + ")"
			}
		}
		return arg(0, bindsSum) + " " + n.Op + " " + text
	case "·":
		by := " "
		if p.text != nil {
			by = " × "
		}
		return arg(0, bindsProduct) + by + arg(1, bindsPower)
	case "/":
		right := arg(1, bindsPower)
		if a := n.Args[1]; a.Op == "name" {
			if _, loose := p.name(a.Name); loose {
				right = "(" + right + ")"
			}
		}
		return arg(0, bindsProduct) + "/" + right
	case "^":
		base := arg(0, bindsPower)
		if a := n.Args[0]; a.Op == "name" {
			base = arg(0, bindsAll)
		}
		switch exponent := n.Args[1]; {
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
	case "ln", "tan":
		return n.Op + "(" + n.Args[0].print(p) + ")"
	case "min":
		list := make([]string, len(n.Args))
		for i, a := range n.Args {
			list[i] = a.print(p)
		}
		return "min(" + strings.Join(list, ", ") + ")"
	}
	return "?"
}

// MathML writes the formula as presentation MathML, without the <math> around
// it: quotients as fractions, powers and indices raised and lowered. value may
// give MathML to stand for a symbol, as a number with its unit; where it is nil
// or gives nothing the symbol stays.
func (n *Node) MathML(value func(name string) string) string {
	return n.mathml(value)
}

func (n *Node) mathml(value func(string) string) string {
	arg := func(i int) string { return n.Args[i].mathml(value) }
	// inside is an argument with parentheses where it binds less.
	inside := func(i, least int) string {
		a := n.Args[i]
		replaced := a.Op == "name" && value != nil && value(a.Name) != ""
		if a.binds() < least || least == bindsAll && (replaced || a.Op == "^" || a.Op == "ln" || a.Op == "tan" || a.Op == "√" || a.Op == "min") {
			return row(op("(") + arg(i) + op(")"))
		}
		return arg(i)
	}
	switch n.Op {
	case "number":
		return number(n.Text)
	case "name":
		if value != nil {
			if text := value(n.Name); text != "" {
				return text
			}
		}
		return Symbol(n.Name)
	case "+", "−":
		return row(arg(0) + op(n.Op) + inside(1, bindsProduct))
	case "·":
		by := `<mo>&#x2062;</mo>` // invisible times
		if value != nil {
			by = op("×")
		}
		left := inside(0, bindsProduct)
		if n.Args[0].Op == "neg" {
			left = row(op("(") + arg(0) + op(")"))
		}
		right := inside(1, bindsProduct)
		if n.Args[1].Op == "neg" {
			right = row(op("(") + arg(1) + op(")"))
		}
		return row(left + by + right)
	case "/":
		return "<mfrac>" + row(arg(0)) + row(arg(1)) + "</mfrac>"
	case "^":
		return "<msup>" + inside(0, bindsAll) + row(arg(1)) + "</msup>"
	case "neg":
		return row(op("−") + inside(0, bindsProduct))
	case "√":
		return "<msqrt>" + arg(0) + "</msqrt>"
	case "ln", "tan":
		return row("<mi>" + n.Op + "</mi>" + op("(") + arg(0) + op(")"))
	case "min":
		list := make([]string, len(n.Args))
		for i := range n.Args {
			list[i] = arg(i)
		}
		return row("<mi>min</mi>" + op("(") + strings.Join(list, op(",")) + op(")"))
	}
	return "<mtext>?</mtext>"
}

func row(inner string) string { return "<mrow>" + inner + "</mrow>" }

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
