package main

import (
	"bufio"
	"bytes"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	"pgregory.net/rapid"
)

// TestInOrder: what was worked on in any order is used in the order given, and
// work never runs far ahead of use.
func TestInOrder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(0, 60).Draw(t, "n")
		end := rapid.IntRange(0, 80).Draw(t, "end") // where use ends it
		var begun atomic.Int64
		used := 0
		most := int64(2*runtime.GOMAXPROCS(0) + 2)
		stop := errors.New("stop")
		err := inOrder(
			n,
			func(i int) int { begun.Add(1); runtime.Gosched(); return i * i },
			func(i, square int) error {
				if i != used || square != i*i {
					t.Fatalf("%d came with %d in place of %d", i, square, used)
				}
				if ahead := begun.Load() - int64(used); ahead > most {
					t.Fatalf("%d run ahead, more than %d", ahead, most)
				}
				if used == end {
					return stop
				}
				used++
				return nil
			},
		)
		if want := min(n, end); used != want || (err != nil) != (end < n) || err != nil && !errors.Is(err, stop) {
			t.Fatalf("%d of %d used, want %d: %v", used, n, want, err)
		}
	})
}

// TestInOrderTogether: two are worked on at a time, each waiting for the other.
func TestInOrderTogether(t *testing.T) {
	meet := make(chan int)
	err := inOrder(2, func(i int) int {
		if i == 0 {
			return <-meet
		}
		meet <- 7
		return 7
	}, func(_, x int) error {
		if x != 7 {
			return fmt.Errorf("%d, not 7", x)
		}
		return nil
	})
	if err != nil {
		t.Error(err)
	}
}

// TestInOrderPanics: what fails at work fails the whole, in its turn.
func TestInOrderPanics(t *testing.T) {
	used := 0
	defer func() {
		if fault := recover(); fault != "at 3" || used != 3 {
			t.Errorf("%v after %d", fault, used)
		}
	}()
	inOrder(9, func(i int) int {
		if i >= 3 {
			panic(fmt.Sprintf("at %d", i))
		}
		return i
	}, func(int, int) error { used++; return nil })
}

// many makes files of all kinds: designs that pass and fail, and bad ones.
func many(t testing.TB, n int) (files []string) {
	t.Helper()
	var texts [][]byte
	for _, name := range []string{"designs/basalt64.toml", "invalid/end-many-faults.toml", "designs/slate2in.toml", "designs/basalt64-short-edge.toml", "invalid/name-twice.toml"} {
		text, err := os.ReadFile("../../testdata/" + name)
		if err != nil {
			t.Fatal(err)
		}
		texts = append(texts, text)
	}
	dir := t.TempDir()
	for i := range n {
		file := filepath.Join(dir, fmt.Sprintf("%03d.toml", i))
		if err := os.WriteFile(file, bytes.ReplaceAll(texts[i*i%len(texts)], []byte("¶"), nil), 0o666); err != nil {
			t.Fatal(err)
		}
		files = append(files, file)
	}
	return files
}

// checkFiles runs check on files, without a command line.
func checkFiles(t testing.TB, format string, files ...string) (code int, out, errs string) {
	t.Helper()
	var o, e bytes.Buffer
	s := &streams{out: bufio.NewWriter(&o), err: &e, width: 80}
	c := &checkCmd{Files: files, Format: format, screen: screen{Units: "auto", Color: "never"}}
	end := status{}
	if err := c.Run(s); !errors.As(err, &end) {
		t.Fatal(err)
	}
	s.out.Flush()
	return end.code, o.String(), e.String()
}

// TestMany: 200 files at once give what they give one by one, in their order.
func TestMany(t *testing.T) {
	files := many(t, 200)
	for _, format := range []string{"table", "json", "line", "markdown"} {
		code, out, errs := checkFiles(t, format, files...)
		var outs, messages []string
		worst := 0
		for _, file := range files {
			c, o, e := checkFiles(t, format, file)
			worst = max(worst, c)
			messages = append(messages, e)
			if o != "" {
				outs = append(outs, o)
			}
		}
		between := ""
		if format == "table" {
			between = "\n"
		}
		if want := strings.Join(outs, between); out != want || len(out) < 10_000 {
			t.Errorf("%s: %d bytes at once, %d one by one", format, len(out), len(want))
		}
		if want := strings.Join(messages, ""); errs != want || code != worst || code != exitInput {
			t.Errorf("%s: exit status %d, want %d; %d bytes of messages, want %d", format, code, worst, len(errs), len(want))
		}
	}
	for _, format := range []string{"junit", "sarif"} {
		_, first, _ := checkFiles(t, format, files...)
		if _, again, _ := checkFiles(t, format, files...); first != again || len(first) < 10_000 {
			t.Errorf("%s differs from run to run", format)
		}
	}
}

// BenchmarkCores checks 100 files on all cores and, in turn, on one, and
// reports how many times as long one takes.
func BenchmarkCores(b *testing.B) {
	files := many(b, 100)
	timed := func(cores int) time.Duration {
		defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(cores))
		start := time.Now()
		if code, out, _ := checkFiles(b, "sarif", files...); code != exitInput || out == "" {
			b.Fatalf("exit status %d", code)
		}
		return time.Since(start)
	}
	var all, one time.Duration
	for b.Loop() {
		all += timed(runtime.NumCPU())
		one += timed(1)
	}
	b.ReportMetric(float64(one)/float64(all), "one-core-of-all")
	b.ReportMetric(float64(runtime.NumCPU()), "cores")
}
