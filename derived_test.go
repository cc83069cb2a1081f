package casewright_test

import (
	"math"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"casewright"
	"casewright/margin"
	"casewright/margin/formula"
	"casewright/materials"
	"casewright/quantity"
	"casewright/testdata/sheet"
)

// The tests of this file hold that what is told of a term is how it is
// computed: each formula is evaluated beside the value in use.

// worst is the end of its tolerance at which methods take a term.
func worst(t rapid.TB, term margin.Term) margin.End {
	end := margin.Only
	for _, m := range casewright.Methods() {
		for _, s := range m.Symbols {
			if s.Term != term {
				continue
			}
			if end != margin.Only && end != s.End {
				t.Fatalf("%s takes %s at another end", m.ID, s.Name())
			}
			end = s.End
		}
	}
	return end
}

// TestDerivationsAreWhole: every term that follows from others says how; a
// formula can be read, uses what it lists and explains the rest in words.
func TestDerivationsAreWhole(t *testing.T) {
	formulas := 0
	for term := range margin.NumTerms {
		info := term.Info()
		if info.Derived && info.From == "" && info.Told == "" {
			t.Errorf("%s (%s): nothing tells how it comes about", info.Symbol, info.Meaning)
		}
		if info.Told != strings.TrimSpace(info.Told) || strings.HasSuffix(info.Told, ".") {
			t.Errorf("%s: told %q", info.Symbol, info.Told)
		}
		if info.From == "" {
			if info.Uses != nil {
				t.Errorf("%s: uses without a formula", info.Symbol)
			}
			continue
		}
		formulas++
		n, err := formula.Parse(info.From)
		if err != nil {
			t.Errorf("%s: %v", info.Symbol, err)
			continue
		}
		if n.Print() != info.From {
			t.Errorf("%s: %q is printed as %q", info.Symbol, info.From, n.Print())
		}
		var used []string
		for _, s := range info.Uses {
			if s.Term == term || slices.Contains(used, s.Name()) || !slices.Contains(n.Names(), s.Name()) {
				t.Errorf("%s: uses %s", info.Symbol, s.Name())
			}
			used = append(used, s.Name())
		}
		for _, name := range n.Names() {
			explained := regexp.MustCompile(`(^|[ ,;])` + regexp.QuoteMeta(name) + `(, \S+)?: `).MatchString(info.Told)
			if slices.Contains(used, name) == explained {
				t.Errorf("%s: %s is used: %v, explained: %v", info.Symbol, name, !explained, explained)
			}
		}
	}
	if formulas < 15 {
		t.Errorf("only %d formulas", formulas)
	}
}

// beside gives what formulas name that is no term: of a part's design file and
// materials, at nominal size and at the end that hurts.
func beside(d *casewright.Design, part int) map[string][2]float64 {
	const room = 293.15
	kelvin := func(a casewright.Amount) float64 {
		if !a.IsSet() {
			return room
		}
		return a.SI()
	}
	strain := func(m *materials.Material, at float64) float64 {
		if at == room {
			return 0
		}
		return m.At(materials.Expansion, quantity.Temperature(at)).SI * (at - room)
	}
	e := &d.Ends[part-1]
	tube, end, tubeAt, endAt := d.Tube.Material.Material, e.Material.Material, kelvin(d.Temperature(0)), kelvin(d.Temperature(part))
	same := func(x float64) [2]float64 { return [2]float64{x, x} }
	modulus := func(m *materials.Material, at float64) [2]float64 {
		return same(m.At(materials.Modulus, quantity.Temperature(at)).SI)
	}
	values := map[string][2]float64{
		"E": modulus(tube, tubeAt), "E_t": modulus(tube, tubeAt), "E_e": modulus(end, endAt), "E_s": same(205e9),
		"ε_t": same(strain(tube, tubeAt)), "ε_b": same(strain(tube, kelvin(d.TemperatureBeside(part)))), "ε_e": same(strain(end, endAt)),
		"M": same(math.NaN()),
	}
	if broken := e.Screws.EdgeBreak; broken.IsSet() {
		values["b"] = [2]float64{broken.Nominal().InexactFloat64(), broken.Greatest().InexactFloat64()}
	} else {
		values["b"] = same(0)
	}
	if torque := e.Screws.Torque; torque.IsSet() {
		values["M"] = same(torque.SI())
	}
	return values
}

// holdDerivations compares every formula with the value in use, at the worst
// of its tolerances and at nominal sizes, and counts what it could compare.
func holdDerivations(t rapid.TB, d *casewright.Design, compared map[margin.Term]int) {
	t.Helper()
	motor := casewright.NewMotor(d)
	for part := 1; part <= len(d.Ends); part++ {
		others := beside(d, part)
		for term := range margin.NumTerms {
			info := term.Info()
			if info.From == "" || term == margin.ChamferArea && !d.Tube.LeadIn.IsSet() || term == margin.PortWall && d.Ends[part-1].PortThread.Name == "" {
				continue
			}
			n, err := formula.Parse(info.From)
			if err != nil {
				t.Fatal(err)
			}
			for i, nominal := range []bool{true, false} {
				end := worst(t, term)
				if nominal {
					end = margin.Only
				}
				got := n.Eval(func(name string) float64 {
					if x, ok := others[name]; ok {
						return x[i]
					}
					j := slices.IndexFunc(info.Uses, func(s margin.Symbol) bool { return s.Name() == name })
					if j < 0 {
						t.Fatalf("%s: no value of %s", info.Symbol, name)
					}
					s := info.Uses[j]
					if nominal {
						s.End = margin.Only
					}
					return motor.Value(part, s)
				})
				want := motor.Value(part, term.At(end))
				if math.IsNaN(got) && math.IsNaN(want) {
					continue
				}
				scale := math.Max(math.Abs(got), math.Abs(want))
				if info.Kind == quantity.KindLength || info.Kind == quantity.KindTemperatureDifference {
					scale = math.Max(scale, 1e-3) // differences of larger numbers
				}
				if !(math.Abs(got-want) <= 1e-9*scale) {
					t.Fatalf("%s of part %d, nominal %v: %s gives %v, in use is %v", info.Symbol, part, nominal, info.From, got, want)
				}
				if got != 0 {
					compared[term]++
				}
			}
		}
	}
}

func holdAllCompared(t *testing.T, compared map[margin.Term]int, least int) {
	t.Helper()
	for term := range margin.NumTerms {
		if info := term.Info(); info.From != "" && compared[term] < least {
			t.Errorf("%s = %s: compared %d times only", info.Symbol, info.From, compared[term])
		}
	}
}

// TestDerivationsOfExamples: the example designs, with a place of the holes and
// a torque where they give none.
func TestDerivationsOfExamples(t *testing.T) {
	files, err := filepath.Glob("testdata/designs/*.toml")
	if err != nil {
		t.Fatal(err)
	}
	compared := map[margin.Term]int{}
	for _, file := range files {
		text, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		plain := string(text)
		more := regexp.MustCompile(`(?m)^(\s*\[+end\.screws\]+.*)$`).ReplaceAllString(plain, "$1\nposition = \"0.1 mm\"\ntorque = \"3 N m\"")
		piped := regexp.MustCompile(`(?m)^port = .*$`).ReplaceAllString(regexp.MustCompile(`(?m)^(plate = .*)$`).ReplaceAllString(plain, "$1\nport_thread = \"1/8-27 NPT\""), "")
		for i, text := range []string{plain, more, piped} {
			d, err := casewright.Read(filepath.Base(file), []byte(text))
			if err != nil {
				if i == 1 && (strings.Contains(plain, "position =") || strings.Contains(plain, "torque =")) || i == 2 && strings.Contains(plain, "port_thread =") {
					continue // it gives them itself
				}
				t.Fatal(err)
			}
			holdDerivations(t, d, compared)
		}
	}
	holdAllCompared(t, compared, 2)
}

// TestPropertyDerivations: motors drawn at random.
func TestPropertyDerivations(t *testing.T) {
	compared := map[margin.Term]int{}
	rapid.Check(t, func(t *rapid.T) {
		s := sheet.Draw(t, sheet.SameSign)
		if rapid.Bool().Draw(t, "tightened") {
			s = s.With(`end1.screws.position = "0.15 mm"`, `end1.screws.torque = "3 N m"`, `end1.screws.friction = "0.10"`)
		}
		if rapid.Bool().Draw(t, "pipe thread") {
			piped := s.With(`end1.port =`, `end1.port_thread = "1/16-27 NPT"`)
			if d, err := casewright.Read("motor.toml", []byte(piped.String())); err == nil { // it does not fit every end
				holdDerivations(t, d, compared)
				return
			}
		}
		d, err := casewright.Read("motor.toml", []byte(s.String()))
		if err != nil {
			t.Fatalf("%v\n%s", err, s)
		}
		holdDerivations(t, d, compared)
	})
	holdAllCompared(t, compared, 10)
}
