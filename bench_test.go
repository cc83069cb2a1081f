package casewright_test

import (
	"testing"

	"github.com/BurntSushi/toml"

	"casewright"
)

func design(b *testing.B) *casewright.Design {
	b.Helper()
	d, err := casewright.Read("example", []byte(casewright.Example))
	if err != nil {
		b.Fatal(err)
	}
	return d
}

// BenchmarkEvaluate computes every check of one motor in memory.
func BenchmarkEvaluate(b *testing.B) {
	m := casewright.NewMotor(design(b))
	checks := m.Evaluate(nil)
	b.ReportAllocs()
	for b.Loop() {
		checks = m.Evaluate(checks[:0])
	}
	b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/float64(len(checks)), "ns/check")
}

// BenchmarkNewMotor derives all terms of a motor from its exact dimensions.
func BenchmarkNewMotor(b *testing.B) {
	d := design(b)
	b.ReportAllocs()
	for b.Loop() {
		casewright.NewMotor(d)
	}
}

// BenchmarkRead reads a design file; its peer only decodes the same text.
func BenchmarkRead(b *testing.B) {
	b.Run("casewright", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			design(b)
		}
	})
	b.Run("decoding alone", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			var values map[string]any
			if _, err := toml.Decode(casewright.Example, &values); err != nil {
				b.Fatal(err)
			}
		}
	})
}
