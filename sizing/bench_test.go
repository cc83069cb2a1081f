package sizing_test

import (
	"os"
	"strings"
	"testing"

	"casewright"
	"casewright/sizing"
)

// settings makes settings of pairs of a key and its text.
func settings(pairs ...string) []casewright.Setting {
	var list []casewright.Setting
	for i := 0; i < len(pairs); i += 2 {
		list = append(list, casewright.Setting{Key: pairs[i], Text: pairs[i+1], Name: pairs[i]})
	}
	return list
}

func open(t testing.TB, part int, pairs ...string) *casewright.Design {
	t.Helper()
	d, err := casewright.Assemble(nil, part, settings(pairs...))
	if err != nil {
		t.Fatal(err)
	}
	return d
}

// asking is the example with so much of it wanted.
func asking(t testing.TB, keys ...string) (*casewright.Design, []casewright.Unknown, []byte) {
	t.Helper()
	text, err := os.ReadFile("../testdata/designs/basalt64.toml")
	if err != nil {
		t.Fatal(err)
	}
	lines := strings.Split(string(text), "\n")
	for i, line := range lines {
		key, value, ok := strings.Cut(line, " = ")
		for _, wanted := range keys {
			if rings := wanted == "count" && strings.HasPrefix(value, "2"); ok && strings.TrimSpace(key) == wanted && !rings {
				comment := ""
				if _, after, ok := strings.Cut(value, "#"); ok {
					comment = "    #" + after
				}
				lines[i] = key + ` = "?"` + comment
			}
		}
	}
	text = []byte(strings.Join(lines, "\n"))
	d, unknowns, err := casewright.ReadOpen("wanted.toml", text)
	if err != nil {
		t.Fatal(err)
	}
	return d, unknowns, text
}

// BenchmarkGroove tries all ring sizes; the peer checks one motor.
func BenchmarkGroove(b *testing.B) {
	d := open(b, 1, "tube.inside_diameter", "57.10 ±0.03 mm", "tube.wall", "3.2 ±0.15 mm", "motor.pressure", "4.5 MPa",
		"tube.material", "6061-T6 drawn tube", "end.seal.compound", "FKM", "end.seal.hardness", "75")
	b.Run("all rings", func(b *testing.B) {
		for b.Loop() {
			if a, err := sizing.Groove(d, 1, sizing.Options{}); err != nil || !a.Found() {
				b.Fatal(err)
			}
		}
	})
	benchmarkPeer(b)
}

// BenchmarkFill finds ten values of the example; the peer checks one motor.
func BenchmarkFill(b *testing.B) {
	d, unknowns, _ := asking(b, "wall", "outside_diameter", "plate", "groove_diameter", "count", "edge")
	b.Run("ten values", func(b *testing.B) {
		for b.Loop() {
			if a, err := sizing.Fill(d, unknowns, nil, sizing.LeastMass); err != nil || a.Nearest {
				b.Fatal(err)
			}
		}
	})
	benchmarkPeer(b)
}

func benchmarkPeer(b *testing.B) {
	d, err := casewright.ReadFile("../testdata/designs/basalt64.toml")
	if err != nil {
		b.Fatal(err)
	}
	b.Run("one check", func(b *testing.B) {
		for b.Loop() {
			casewright.Check(d)
		}
	})
}
