package canonical

import (
	"bytes"
	"errors"
	"math"
	"reflect"
	"regexp"
	"slices"
	"strings"
	"unicode"

	"github.com/BurntSushi/toml"
	peer "github.com/pelletier/go-toml/v2"
	"pgregory.net/rapid"

	"casewright"
	"casewright/quantity"
)

// hold holds what is true of the layout of any text that decodes.
func hold(t rapid.TB, text []byte) {
	t.Helper()
	out, err := Text("test.toml", text)
	var refused casewright.Errors
	if errors.As(err, &refused) {
		return
	}
	if err != nil {
		t.Fatalf("%v:\n%s", err, text)
	}
	if again, err := Text("test.toml", out); err != nil || !bytes.Equal(again, out) {
		t.Errorf("twice is not as once: %v\n%s\nonce:\n%s\ntwice:\n%s", err, text, out, again)
	}
	var was, is map[string]any
	if _, err := toml.Decode(string(text), &was); err != nil {
		t.Fatal(err)
	}
	if _, err := toml.Decode(string(out), &is); err != nil {
		t.Fatalf("%v:\n%s\nlaid out:\n%s", err, text, out)
	}
	if !alike(was, is) {
		t.Errorf("another document:\n%s\nlaid out:\n%s", text, out)
	}
	holdPeer(t, text, out)
	if a, b := comments(text), comments(out); !slices.Equal(a, b) {
		t.Errorf("comments %q, then %q:\n%s\nlaid out:\n%s", a, b, text, out)
	}
	holdReader(t, text, out)
	holdLines(t, out)
}

// holdPeer holds that another decoder reads the same before and after, where it
// reads the text at all: it knows less of TOML 1.1.
func holdPeer(t rapid.TB, text, out []byte) (reads bool) {
	t.Helper()
	var was, is map[string]any
	if peer.Unmarshal(text, &was) != nil {
		return false
	}
	if err := peer.Unmarshal(out, &is); err != nil {
		t.Fatalf("the peer: %v:\n%s\nlaid out:\n%s", err, text, out)
	}
	if !alike(was, is) {
		t.Errorf("another document to the peer:\n%s\nlaid out:\n%s", text, out)
	}
	return true
}

// alike compares two documents; strings may differ where both are the same
// quantity with the same digits.
func alike(a, b any) bool {
	switch a := a.(type) {
	case string:
		b, ok := b.(string)
		return ok && (a == b || sameQuantity(a, b))
	case float64:
		b, ok := b.(float64)
		return ok && (a == b || math.IsNaN(a) && math.IsNaN(b))
	}
	x, y := reflect.ValueOf(a), reflect.ValueOf(b)
	if !x.IsValid() || !y.IsValid() || x.Type() != y.Type() {
		return x.IsValid() == y.IsValid()
	}
	switch x.Kind() {
	case reflect.Map:
		for _, key := range x.MapKeys() {
			if other := y.MapIndex(key); !other.IsValid() || !alike(x.MapIndex(key).Interface(), other.Interface()) {
				return false
			}
		}
		return x.Len() == y.Len()
	case reflect.Slice:
		for i := range x.Len() {
			if i >= y.Len() || !alike(x.Index(i).Interface(), y.Index(i).Interface()) {
				return false
			}
		}
		return x.Len() == y.Len()
	}
	return reflect.DeepEqual(a, b)
}

var number = regexp.MustCompile(`[0-9]*\.?[0-9]+`)

// numbers are those of a text, digit for digit, with a zero before a point.
func numbers(text string) (list []string) {
	for _, n := range number.FindAllString(text, -1) {
		if n[0] == '.' {
			n = "0" + n
		}
		list = append(list, n)
	}
	return list
}

// sameQuantity tells whether two texts are the same length or amount of one
// kind, in the same unit and with the same digits.
func sameQuantity(a, b string) bool {
	x, errX := quantity.ParseDimension(a)
	y, errY := quantity.ParseDimension(b)
	if errX == nil && errY == nil {
		return x.Equal(y) && x.Unit() == y.Unit() && slices.Equal(numbers(a), numbers(b))
	}
	for kind := quantity.KindRatio; kind <= quantity.KindViscosity; kind++ {
		x, errX := quantity.Parse(kind, a)
		y, errY := quantity.Parse(kind, b)
		// Units have digits too, hence the exponents.
		if errX == nil && errY == nil && x.Equal(y) && x.Unit() == y.Unit() && x.Value().Exponent() == y.Value().Exponent() {
			return true
		}
	}
	return false
}

// comments lists the comments of a valid text, sorted, blanks at their ends
// aside. It knows the four kinds of strings and nothing else of TOML.
func comments(text []byte) (list []string) {
	s := string(text)
	for s != "" {
		switch {
		case s[0] == '#':
			comment, rest, _ := strings.Cut(s, "\n")
			list = append(list, strings.TrimRight(comment, " \t\r"))
			s = rest
		case strings.HasPrefix(s, `"""`), strings.HasPrefix(s, "'''"):
			s = afterLong(s[3:], s[:3])
		case s[0] == '"', s[0] == '\'':
			quote := s[0]
			i := 1
			for ; i < len(s) && s[i] != quote; i++ {
				if s[i] == '\\' && quote == '"' {
					i++
				}
			}
			s = s[min(i+1, len(s)):]
		default:
			s = s[1:]
		}
	}
	slices.Sort(list)
	return list
}

// afterLong is what follows the end of a string in three quotes, of which up to
// two more may stand before the last three.
func afterLong(s, quotes string) string {
	for i := 0; i < len(s); i++ {
		switch {
		case s[i] == '\\' && quotes[0] == '"':
			i++
		case strings.HasPrefix(s[i:], quotes):
			end := i + 3
			for end < len(s) && end < i+5 && s[end] == quotes[0] {
				end++
			}
			return s[end:]
		}
	}
	return ""
}

// holdReader holds that the reader has the same to say of the design, places
// aside: the same faults, or the same values.
func holdReader(t rapid.TB, text, out []byte) {
	t.Helper()
	was, errWas := casewright.Read("test.toml", text)
	is, errIs := casewright.Read("test.toml", out)
	if (errWas == nil) != (errIs == nil) {
		t.Fatalf("read: %v, then %v:\n%s\nlaid out:\n%s", errWas, errIs, text, out)
	}
	if errWas != nil {
		if a, b := faults(errWas), faults(errIs); !slices.Equal(a, b) {
			t.Errorf("faults %q, then %q:\n%s\nlaid out:\n%s", a, b, text, out)
		}
		return
	}
	for _, k := range casewright.Keys() {
		for part := range len(was.Ends) + 1 {
			if part == 0 && strings.HasPrefix(k.Path, "end.") {
				continue
			}
			if a, b := k.Text(was, part), k.Text(is, part); a != b {
				t.Errorf("%s of part %d: %q, then %q", k.Path, part, a, b)
			}
		}
	}
	if len(was.Ends) != len(is.Ends) || len(was.Measured) != len(is.Measured) || len(was.Heat.Layers) != len(is.Heat.Layers) {
		t.Error("other ends, layers or measurements")
	}
	a, b := casewright.Check(was), casewright.Check(is)
	if len(a.Results) != len(b.Results) || a.Verdict != b.Verdict || !reflect.DeepEqual(a.Notes, b.Notes) {
		t.Errorf("%v and %d checks, then %v and %d", a.Verdict, len(a.Results), b.Verdict, len(b.Results))
		return
	}
	for i := range a.Results {
		x, y := a.Results[i].Margin, b.Results[i].Margin
		if a.Results[i].ID() != b.Results[i].ID() || x != y && !(math.IsNaN(x) && math.IsNaN(y)) {
			t.Errorf("%s: margin %v, then %s: %v", a.Results[i].ID(), x, b.Results[i].ID(), y)
		}
	}
}

// faults are the faults of a design, sorted. A quantity may be quoted in another
// spelling.
func faults(err error) (list []string) {
	var all casewright.Errors
	errors.As(err, &all)
	for _, e := range all {
		list = append(list, e.Key+": "+strings.Map(func(r rune) rune {
			if unicode.IsSpace(r) || r == '0' || r == '…' {
				return -1
			}
			return r
		}, ascii.Replace(e.Text())))
	}
	slices.Sort(list)
	return list
}

var ascii = strings.NewReplacer("±", "+-", "°", "deg", "²", "2", "³", "3", "µ", "u")

// holdLines holds what a person sees of any layout.
func holdLines(t rapid.TB, out []byte) {
	t.Helper()
	if len(out) > 0 && (out[0] == '\n' || !bytes.HasSuffix(out, []byte("\n")) || bytes.HasSuffix(out, []byte("\n\n"))) {
		t.Errorf("blank lines at an end, or no line end:\n%q", out)
	}
	if bytes.Contains(out, []byte(`"""`)) || bytes.Contains(out, []byte("'''")) {
		return
	}
	if bytes.Contains(out, []byte("\r")) || bytes.Contains(out, []byte(" \n")) || bytes.Contains(out, []byte("\t\n")) {
		t.Errorf("blanks at the end of a line:\n%q", out)
	}
}
