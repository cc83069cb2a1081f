package margin_test

import (
	"fmt"
	"math"
	"math/rand"
	"reflect"
	"regexp"
	"slices"
	"strings"
	"testing"
	"testing/quick"

	"casewright"
	"casewright/margin"
	"casewright/margin/formula"
	"casewright/quantity"
)

const draws = 200

// besideText are the symbols of a method that its printed formulas do not
// use, and why it needs them.
var besideText = map[string]map[string]string{
	"seal.squeeze_least_offset": {"p": "gives way: the growth u is that at p"},
	"tube.end_bending":          {"ν": "another reading uses it"},
	"seal.gap": {
		"p":   "gives way: the growth u is that at p",
		"H":   "gives way: the limit of each step of pressure depends on it",
		"c_g": "gives way: the limit of each step of pressure depends on it",
	},
	"hole.peak": {"e_min": "range: the peak is known from 1.5 holes of the end", "h_max": "range: the largest hole is nearest the end"},
}

// texts are the printed formulas of a method, in the order of what Eval
// returns; empty where Eval's number counts for nothing.
func texts(m *margin.Method) [2]string {
	if m.Kind == margin.Strength {
		return [2]string{m.Demand, m.Capacity}
	}
	return [2]string{m.Value, m.Limit}
}

// ranges are those of terms that must keep an order or a limit for the
// formulas to mean anything: bore above end above groove, ultimate
// above yield strength, holes that leave some section. All other terms are drawn from 0.1 to 10. Units cancel out.
var ranges = map[margin.Term][2]float64{
	margin.DiameterRatio: {1.01, 3}, margin.TubeYield: {1, 5}, margin.TubeUltimate: {5, 10},
	margin.Bore: {8, 10}, margin.EndDiameter: {7, 8}, margin.GrooveDiameter: {5, 7},
	margin.InsertDiameter: {5, 7}, margin.LipDiameter: {2, 4}, margin.RingInside: {3, 5},
	margin.Wall: {0.1, 1}, margin.Count: {1, 8}, margin.Hole: {0.2, 0.5}, margin.Sink: {0.01, 0.1},
	margin.Edge: {0.3, 3}, margin.BearingThickness: {0.3, 1}, margin.ChamferArea: {0.001, 0.01}, margin.ToGroove: {0.3, 3}, margin.ScrewDiameter: {0.2, 0.5},
	margin.Packing: {0.01, 0.5}, margin.CoreDiameter: {0.2, 0.5}, margin.Position: {0.01, 0.1}, margin.Engagement: {5, 10}, margin.ThreadPitch: {0.5, 5},
	margin.FirstLoad: {0.1, 10}, margin.Friction: {0.05, 0.5}, margin.PitchDiameter: {0.3, 0.6}, margin.StressDiameter: {0.2, 0.5},
	margin.EndPoisson: {0.05, 0.5}, margin.Port: {0.1, 4.8}, margin.PortFactor: {1, 2}, margin.EngagedLength: {5, 10}, margin.LeadInAngle: {0.05, 1.2},
}

// inputs are values of a method's symbols, drawn at random.
type inputs struct{ v margin.Values }

func draw(m *margin.Method, r *rand.Rand) margin.Values {
	var v margin.Values
	for i, s := range m.Symbols {
		span, ok := ranges[s.Term]
		if !ok {
			span = [2]float64{0.1, 10}
		}
		v[i] = span[0] + r.Float64()*(span[1]-span[0])
	}
	return v
}

// agree evaluates texts and Eval at random inputs and returns an error where
// they differ, or where too few draws could be compared. A draw is left out
// only where Eval gives NaN or Inf, as each function documents outside its
// domain: holes that leave no section or no strength.
func agree(m *margin.Method, printed [2]string) error {
	var parsed [2]*formula.Node
	for i, text := range printed {
		if text == "" {
			continue
		}
		n, err := formula.Parse(text)
		if err != nil {
			return err
		}
		parsed[i] = n
	}
	names := m.Names()
	used := 0
	var different error
	same := func(in inputs) bool {
		x, y := m.Eval(&in.v)
		for _, z := range []float64{x, y} {
			if math.IsNaN(z) || math.IsInf(z, 0) {
				return true
			}
		}
		used++
		for i, want := range []float64{x, y} {
			if parsed[i] == nil {
				continue
			}
			got := parsed[i].Eval(func(name string) float64 {
				if j := slices.Index(names, name); j >= 0 {
					return in.v[j]
				}
				return math.NaN()
			})
			if !(math.Abs(got-want) <= 1e-9*math.Abs(want)) {
				different = fmt.Errorf("%s: %q is %.12g, the function gives %.12g at %v", m.ID, printed[i], got, want, in.v[:len(names)])
				return false
			}
		}
		return true
	}
	config := &quick.Config{
		MaxCount: draws,
		Rand:     rand.New(rand.NewSource(1)),
		Values: func(args []reflect.Value, r *rand.Rand) {
			args[0] = reflect.ValueOf(inputs{draw(m, r)})
		},
	}
	if err := quick.Check(same, config); err != nil {
		return different
	}
	if used < draws*3/4 {
		return fmt.Errorf("%s: only %d of %d draws could be compared", m.ID, used, draws)
	}
	return nil
}

// TestTextIsTheFunction: the printed formulas of every method and the function
// that computes it give the same numbers.
func TestTextIsTheFunction(t *testing.T) {
	for _, m := range casewright.Methods() {
		if err := agree(m, texts(m)); err != nil {
			t.Error(err)
		}
	}
}

// TestWrongTextIsCaught changes one sign, number, power, root, quotient or
// symbol of each text at a time, and each change must be noticed.
func TestWrongTextIsCaught(t *testing.T) {
	wrong := 0
	for _, m := range casewright.Methods() {
		for i, text := range texts(m) {
			for _, mutant := range mutants(text, m.Names()) {
				printed := texts(m)
				printed[i] = mutant
				if err := agree(m, printed); err == nil {
					t.Errorf("%s: %q passes for %q", m.ID, mutant, text)
				}
				wrong++
			}
		}
	}
	if wrong < 500 {
		t.Errorf("only %d wrong texts were tried", wrong)
	}
}

var (
	sign     = regexp.MustCompile(`[+−]`)
	power    = regexp.MustCompile(`[²³]`)
	root     = regexp.MustCompile(`√`)
	quotient = regexp.MustCompile(`/`)
	numeral  = regexp.MustCompile(`(?:^|[^\pL\d_.,])(\d[\d.]*)`)
	constant = regexp.MustCompile(`π`)
	word     = regexp.MustCompile(`\pL[\pL\d]*(?:_[\pL\d]+(?:,(?:min|max))?)?`)
)

// mutants returns all texts that differ from a printed formula by one change.
func mutants(text string, names []string) []string {
	var list []string
	change := func(where []int, to string) {
		list = append(list, text[:where[0]]+to+text[where[1]:])
	}
	for _, w := range sign.FindAllStringIndex(text, -1) {
		change(w, map[string]string{"+": "−", "−": "+"}[text[w[0]:w[1]]])
	}
	for _, w := range power.FindAllStringIndex(text, -1) {
		change(w, "")
		change(w, "^4")
	}
	for _, w := range root.FindAllStringIndex(text, -1) {
		change(w, "")
	}
	for _, w := range quotient.FindAllStringIndex(text, -1) {
		change(w, " ")
	}
	for _, w := range constant.FindAllStringIndex(text, -1) {
		change(w, "3")
	}
	for _, w := range numeral.FindAllStringSubmatchIndex(text, -1) {
		change(w[2:4], "1.01 "+text[w[2]:w[3]])
	}
	for _, w := range word.FindAllStringIndex(text, -1) {
		name := text[w[0]:w[1]]
		if !slices.Contains(names, name) {
			continue
		}
		change(w, "1")
		change(w, name+"_x")
		for _, other := range names {
			if other != name {
				change(w, other)
			}
		}
	}
	return list
}

// TestSymbolsAreThoseOfTheText: what a text names is listed, and what is
// listed stands in a text, but for the few of besideText.
func TestSymbolsAreThoseOfTheText(t *testing.T) {
	methods := casewright.Methods()
	for _, m := range methods {
		var inText []string
		for _, text := range texts(m) {
			if text == "" {
				continue
			}
			n, err := formula.Parse(text)
			if err != nil {
				t.Errorf("%s: %v", m.ID, err)
				continue
			}
			inText = append(inText, n.Names()...)
		}
		names := m.Names()
		for _, name := range inText {
			if !slices.Contains(names, name) {
				t.Errorf("%s: %q stands in the text and is no symbol", m.ID, name)
			}
		}
		for i, name := range names {
			_, beside := besideText[m.ID][name]
			if slices.Contains(inText, name) == beside {
				t.Errorf("%s: symbol %q in the text: %v, beside it: %v", m.ID, name, !beside, beside)
			}
			if beside && m.GivesWay == nil && m.Valid == nil {
				t.Errorf("%s: nothing needs %q", m.ID, name)
			}
			if slices.Contains(names[:i], name) {
				t.Errorf("%s: symbol %q stands twice", m.ID, name)
			}
		}
	}
	for id := range besideText {
		if !slices.ContainsFunc(methods, func(m *margin.Method) bool { return m.ID == id }) {
			t.Errorf("no method %s", id)
		}
	}
}

// TestMethodsAreWhole: every method says what it is, where it holds, where it
// comes from and which dimension to change, and its limits can be read.
func TestMethodsAreWhole(t *testing.T) {
	ids := map[string]bool{}
	for _, m := range casewright.Methods() {
		for name, text := range map[string]string{
			"ID": m.ID, "Title": m.Title, "Part": m.Part, "Key": m.Key, "Source": m.Source, "Range": m.Range,
		} {
			if strings.TrimSpace(text) == "" || text != strings.TrimSpace(text) {
				t.Errorf("%s: %s is %q", m.ID, name, text)
			}
		}
		if ids[m.ID] {
			t.Errorf("%s stands twice", m.ID)
		}
		ids[m.ID] = true
		if m.Eval == nil || len(m.Symbols) == 0 || len(m.Symbols) > margin.MaxSymbols {
			t.Errorf("%s: no function, or %d symbols", m.ID, len(m.Symbols))
		}
		either := 0
		for _, s := range m.Symbols {
			if info := s.Term.Info(); info.Symbol == "" || info.Meaning == "" {
				t.Errorf("%s: term %d has no symbol or meaning", m.ID, s.Term)
			}
			if s.End == margin.Either {
				either++
			}
		}
		// The worse of two ends is that of one term, by what it bears of its
		// demand, and no range of values is looked at but the first's.
		if either > 1 || either == 1 && (m.Kind != margin.Strength || m.Valid != nil) {
			t.Errorf("%s: takes either end of %d terms", m.ID, either)
		}
		strength := m.Kind == margin.Strength
		if strength != (m.Demand != "") || strength != (m.Capacity != "") || strength != (m.Value == "") || strength != (m.Factor != margin.NoFactor) {
			t.Errorf("%s: demand %q, capacity %q, value %q, factor %d", m.ID, m.Demand, m.Capacity, m.Value, m.Factor)
		}
		if limits := (m.Default != "") != (m.Limit != ""); strength && (m.Limit != "" || m.Default != "" || m.Settable || m.Joint && m.Factor == margin.NoFactor) || !strength && !limits {
			t.Errorf("%s: default %q, limit %q", m.ID, m.Default, m.Limit)
		}
		if (m.DefaultMost != "") != (m.Kind == margin.Between) {
			t.Errorf("%s: greatest limit %q", m.ID, m.DefaultMost)
		}
		for _, text := range []string{m.Default, m.DefaultMost} {
			if text == "" {
				continue
			}
			a, err := quantity.Parse(m.Unit, text)
			if err != nil {
				t.Errorf("%s: limit %q: %v", m.ID, text, err)
			} else if x := a.SI(); !(x >= 0) || x == 0 && m.Scale == 0 && m.Unit != quantity.KindRatio {
				t.Errorf("%s: limit %q is %g, scale %g", m.ID, text, x, m.Scale)
			}
		}
	}
}

// dimension gives the powers of length, force and temperature in a kind.
var dimension = map[quantity.Kind][3]float64{
	quantity.KindRatio: {}, quantity.KindAngle: {},
	quantity.KindLength: {1, 0, 0}, quantity.KindArea: {2, 0, 0},
	quantity.KindForce: {0, 1, 0}, quantity.KindPressure: {-2, 1, 0},
	quantity.KindTemperatureDifference: {0, 0, 1}, quantity.KindExpansion: {0, 0, -1},
}

// TestMethodsAreHomogeneous: measured in other units of length, force and
// temperature, every method gives the same quantity.
func TestMethodsAreHomogeneous(t *testing.T) {
	units := [3]float64{1.7, 2.3, 1.3}
	scale := func(t *testing.T, k quantity.Kind) float64 {
		powers, ok := dimension[k]
		if !ok {
			t.Fatalf("no dimension of %s", k)
		}
		s := 1.0
		for i, p := range powers {
			s *= math.Pow(units[i], p)
		}
		return s
	}
	r := rand.New(rand.NewSource(2))
	for _, m := range casewright.Methods() {
		for range 20 {
			v := draw(m, r)
			w := v
			for i, s := range m.Symbols {
				w[i] *= scale(t, s.Term.Info().Kind)
			}
			x, y := m.Eval(&v)
			a, b := m.Eval(&w)
			for i, pair := range [][2]float64{{x, a}, {y, b}} {
				if texts(m)[i] == "" || math.IsNaN(pair[0]) || math.IsInf(pair[0], 0) {
					continue
				}
				if want := pair[0] * scale(t, m.Unit); !(math.Abs(pair[1]-want) <= 1e-9*math.Abs(want)) {
					t.Errorf("%s: %q is no %s", m.ID, texts(m)[i], m.Unit)
				}
			}
		}
	}
}

// TestEndsAreThoseThatHurt: where a method takes the least of a term, more of
// it never lowers the margin, and where it takes the greatest, more of it
// never raises the margin.
func TestEndsAreThoseThatHurt(t *testing.T) {
	r := rand.New(rand.NewSource(3))
	for _, m := range casewright.Methods() {
		good := func(v margin.Values) float64 {
			x, y := m.Eval(&v)
			switch {
			case m.Kind == margin.Strength:
				return y / x
			case m.Limit == "":
				y = 0
			case m.Kind == margin.AtMost:
				return -x / y
			default:
				return x / y
			}
			if m.Kind == margin.AtMost {
				return y - x
			}
			return x - y
		}
		for range draws {
			v := draw(m, r)
			before := good(v)
			if math.IsNaN(before) || math.IsInf(before, 0) {
				continue
			}
			for i, s := range m.Symbols {
				more := v
				more[i] *= 1.001
				after := good(more)
				slack := 1e-9 * math.Abs(before)
				if s.End == margin.Least && after < before-slack || s.End == margin.Greatest && after > before+slack {
					t.Errorf("%s: taken at the wrong end: %s, %g to %g", m.ID, s.Name(), before, after)
				}
			}
		}
	}
}
