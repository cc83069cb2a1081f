package main

import (
	"os/exec"
	"path/filepath"
	"testing"
	"time"
)

// BenchmarkProcess runs `check --format json` of one file as a process, in
// turn with the peer that only decodes the file, and reports the ratio of
// their wall times.
func BenchmarkProcess(b *testing.B) {
	dir := b.TempDir()
	build := func(name, pkg string) string {
		path := filepath.Join(dir, name)
		if out, err := exec.Command("go", "build", "-o", path, pkg).CombinedOutput(); err != nil {
			b.Fatalf("%v\n%s", err, out)
		}
		return path
	}
	check, peer := build("casewright", "."), build("decode", "./testdata/decode")
	const file = "../../testdata/designs/basalt64.toml"
	timed := func(args ...string) time.Duration {
		start := time.Now()
		if out, err := exec.Command(args[0], args[1:]...).CombinedOutput(); err != nil {
			b.Fatalf("%v\n%s", err, out)
		}
		return time.Since(start)
	}
	var ours, theirs time.Duration
	for b.Loop() {
		ours += timed(check, "check", "--format", "json", file)
		theirs += timed(peer, file)
	}
	b.ReportMetric(float64(ours)/float64(theirs), "x-of-decoding")
}
