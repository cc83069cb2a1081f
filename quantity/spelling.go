package quantity

import "strings"

// Spelling returns the text of the dimension as a drawing has it: the numbers digit for digit as they were written, single blanks
// before tolerance and unit, the signs ± and °, and the unit once, at the end: "57.0+0/-.05mm" gives "57.0 +0/-0.05 mm". Where that
// text would not be read as the same dimension it is the text as written, and where nothing was written that of String.
func (d Dimension) Spelling() string {
	if d.text == "" {
		return d.String()
	}
	s := spell(d.text, d.unit)
	if b, err := ParseDimension(s); err != nil || b.unit != d.unit || !b.Equal(d) {
		return d.text
	}
	return s
}

// Spelling returns the text of the amount in the same way: "120degC" gives "120 °C".
func (a Amount) Spelling() string {
	if a.text == "" {
		return a.String()
	}
	s := spell(a.text, a.unit)
	if b, err := Parse(a.Kind(), s); err != nil || b.unit != a.unit || !b.Equal(a) {
		return a.text
	}
	return s
}

// spell writes the numbers of a text that has been read, and its unit; "" for what it does not know.
func spell(text string, u Unit) string {
	s, rest := numeral(tidy(text))
	i := tolerance(rest)
	if i < 0 {
		return attach(s, u)
	}
	if equal, ok := strings.CutPrefix(rest[i:], "±"); ok {
		deviation, _ := numeral(trim(equal))
		return attach(s+" ±"+deviation, u)
	}
	first, rest := numeral(rest[i:])
	second, ok := strings.CutPrefix(trim(rest), "/")
	if !ok {
		return ""
	}
	second, _ = numeral(trim(second))
	return attach(s+" "+first+"/"+second, u)
}

// numeral splits the number at the start of a text from the rest, with its sign, and with a zero before a leading point.
func numeral(s string) (written, rest string) {
	_, unsigned := sign(s)
	written, unsigned = s[:len(s)-len(unsigned)], trim(unsigned)
	_, rest, fault := number(unsigned)
	if fault != nil {
		return "", s
	}
	if strings.HasPrefix(unsigned, ".") {
		written += "0"
	}
	return written + unsigned[:len(unsigned)-len(rest)], rest
}
