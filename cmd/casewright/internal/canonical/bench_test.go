package canonical

import (
	"testing"
	"time"

	"github.com/BurntSushi/toml"

	"casewright"
)

// BenchmarkText lays out the example, in turn with the peer that only decodes
// it, and reports the ratio of their times. Laying out decodes twice, before and
// after.
func BenchmarkText(b *testing.B) {
	text := []byte(casewright.Example)
	var ours, theirs time.Duration
	for b.Loop() {
		start := time.Now()
		if _, err := Text("example", text); err != nil {
			b.Fatal(err)
		}
		between := time.Now()
		var values map[string]any
		if _, err := toml.Decode(casewright.Example, &values); err != nil {
			b.Fatal(err)
		}
		ours += between.Sub(start)
		theirs += time.Since(between)
	}
	b.ReportMetric(float64(ours)/float64(theirs), "x-of-decoding")
}
