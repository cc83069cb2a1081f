package sizing

import (
	"testing"

	"casewright"
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

// BenchmarkGroove tries all ring sizes; the peer checks one motor.
func BenchmarkGroove(b *testing.B) {
	d := open(b, 1, "tube.inside_diameter", "57.10 ±0.03 mm", "tube.wall", "3.2 ±0.15 mm", "motor.pressure", "4.5 MPa",
		"tube.material", "6061-T6 drawn tube", "end.seal.compound", "FKM", "end.seal.hardness", "75")
	b.Run("all rings", func(b *testing.B) {
		for b.Loop() {
			if a, err := Groove(d, 1, Options{}); err != nil || !a.Found() {
				b.Fatal(err)
			}
		}
	})
	benchmarkPeer(b)
}

// BenchmarkFill finds ten values of the example; the peer checks one motor.
func BenchmarkFill(b *testing.B) {
	d, unknowns, err := casewright.ReadOpen("wanted.toml", wantedText(b, "wall", "outside_diameter", "plate", "groove_diameter", "count", "edge"))
	if err != nil {
		b.Fatal(err)
	}
	b.Run("ten values", func(b *testing.B) {
		for b.Loop() {
			if a, err := Fill(d, unknowns, nil, LeastMass); err != nil || a.Nearest {
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
