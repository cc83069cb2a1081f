package quantity

import (
	"strconv"
	"strings"

	"github.com/shopspring/decimal"
)

// The limits of a number. They are checked on its text, before anything is computed from it.
const (
	maxDigits      = 15 // before the point
	maxPlaces      = 22 // after the point; the shortest text of any float64 from 1e-5 on has no more
	maxDenominator = 1000
)

// number reads an unsigned number at the start of s: a decimal, a fraction or a mixed number. It returns what follows.
func number(s string) (d decimal.Decimal, rest string, fault *SyntaxError) {
	whole, rest := digits(s)
	if whole != "" {
		if strings.HasPrefix(rest, "/") && digit(rest[1:]) {
			return fraction("0", whole, rest[1:])
		}
		if numerator, after := digits(strings.TrimLeft(rest, " ")); strings.HasPrefix(rest, " ") && numerator != "" && strings.HasPrefix(after, "/") && digit(after[1:]) {
			return fraction(whole, numerator, after[1:])
		}
	}
	var places string
	if after, ok := strings.CutPrefix(rest, "."); ok {
		if places, rest = digits(after); places == "" {
			return d, rest, faulty("has no digit after a point")
		}
	}
	if whole+places == "" {
		return d, rest, faulty("does not begin with a number")
	}
	exponent, rest, fault := exponent(rest)
	if fault != nil {
		return d, rest, fault
	}
	after := len(places) - exponent
	significant := strings.TrimLeft(whole+places, "0")
	if after > maxPlaces || len(significant)-after > maxDigits {
		return d, rest, outOfRange()
	}
	d, err := decimal.NewFromString(whole + places)
	if err != nil {
		return d, rest, outOfRange() // cannot happen: only digits are left
	}
	return d.Shift(int32(-after)), rest, nil
}

// exponent reads e and an integer of one or two digits, if they are there.
func exponent(s string) (int, string, *SyntaxError) {
	if s == "" || s[0] != 'e' && s[0] != 'E' {
		return 0, s, nil
	}
	negative, after := sign(s[1:])
	power, rest := digits(after)
	if power == "" {
		return 0, s, nil // a unit that begins with e
	}
	n, err := strconv.Atoi(power)
	if err != nil || len(power) > 2 {
		return 0, s, outOfRange()
	}
	if negative {
		n = -n
	}
	return n, rest, nil
}

// fraction reads a denominator and returns whole + numerator/denominator, which must end as a decimal.
func fraction(whole, numerator, s string) (d decimal.Decimal, rest string, fault *SyntaxError) {
	denominator, rest := digits(s)
	if len(whole) > maxDigits || len(numerator) > maxDigits {
		return d, rest, outOfRange()
	}
	text := numerator + "/" + denominator
	n, err := strconv.Atoi(denominator)
	if err != nil || len(denominator) > 4 || n > maxDenominator {
		return d, rest, faulty("has a denominator above %d: write a decimal", maxDenominator)
	}
	if n == 0 {
		return d, rest, faulty("divides by zero")
	}
	// 1/(2^a 5^b) = 2^(m-a) 5^(m-b) / 10^m, with m the greater of a and b.
	places, scale := 0, 1
	for ; scale%n != 0; places++ {
		if places == 9 { // 2^9 and 5^4 are the greatest powers up to the limit
			return d, rest, faulty("has the fraction %s, which does not end as a decimal: write a decimal", text)
		}
		scale *= 10
	}
	a, errA := decimal.NewFromString(whole)
	b, errB := decimal.NewFromString(numerator)
	if errA != nil || errB != nil {
		return d, rest, outOfRange() // cannot happen: only digits are left
	}
	if whole != "0" && b.Cmp(decimal.NewFromInt(int64(n))) >= 0 {
		return d, rest, faulty("has the fraction %s after a whole number, where it must be below 1", text)
	}
	return a.Add(b.Mul(decimal.New(int64(scale/n), int32(-places)))), rest, nil
}

// digits splits the leading decimal digits from s.
func digits(s string) (leading, rest string) {
	rest = strings.TrimLeft(s, "0123456789")
	return s[:len(s)-len(rest)], rest
}
