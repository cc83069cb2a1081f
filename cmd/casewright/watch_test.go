package main

import (
	"bufio"
	"bytes"
	"context"
	"errors"
	"fmt"
	"html"
	"io"
	"net/http"
	"os"
	"os/exec"
	"regexp"
	"runtime"
	"strings"
	"sync"
	"syscall"
	"testing"
	"time"

	"github.com/alecthomas/kong"

	"casewright"
	"casewright/cmd/casewright/internal/table"
)

// comes is how long a test waits for what must come.
const comes = 60 * time.Second

// A record is what was written, read while more is.
type record struct {
	mu sync.Mutex
	b  bytes.Buffer
}

func (r *record) Write(p []byte) (int, error) {
	r.mu.Lock()
	defer r.mu.Unlock()
	return r.b.Write(p)
}

func (r *record) String() string {
	r.mu.Lock()
	defer r.mu.Unlock()
	return r.b.String()
}

// until waits for what must come.
func until(t *testing.T, what string, so func() bool) {
	t.Helper()
	for end := time.Now().Add(comes); !so(); time.Sleep(5 * time.Millisecond) {
		if time.Now().After(end) {
			t.Fatalf("%s: it never comes", what)
		}
	}
}

// watching watches my.toml in a folder of its own, and tells how to end it.
func watching(t *testing.T, terminal bool, flags ...string) (out *record, end func() error) {
	t.Helper()
	c := newCLI()
	parser, err := kong.New(c, kong.Vars{"version": "x"})
	if err != nil {
		t.Fatal(err)
	}
	if _, err := parser.Parse(append([]string{"watch", "my.toml"}, flags...)); err != nil {
		t.Fatal(err)
	}
	t.Setenv("NO_COLOR", "")
	ctx, stop := context.WithCancel(t.Context())
	ended := make(chan error, 1)
	out = &record{}
	go func() {
		ended <- c.Watch.watch(ctx, &streams{out: bufio.NewWriter(out), err: io.Discard, terminal: terminal, width: 80})
	}()
	end = sync.OnceValue(func() error { stop(); return <-ended })
	t.Cleanup(func() { _ = end() })
	return out, end
}

// saved writes my.toml as some editors do.
func saved(t *testing.T, text string) {
	t.Helper()
	if err := errors.Join(os.WriteFile("my.toml~", []byte(text), 0o600), os.Rename("my.toml~", "my.toml")); err != nil {
		t.Fatal(err)
	}
}

var (
	broken    = strings.Replace(casewright.Example, `wall = "3.20 ±0.15 mm"`, `wall = "3.20 ±0.15"`, 1)
	otherwise = strings.Replace(casewright.Example, "4.5 MPa", "4.6 MPa", 1)
)

// tableOf is the table of check, in colour as it is drawn on a terminal.
func tableOf(t *testing.T, text string, o table.Options) string {
	t.Helper()
	d, err := casewright.Read("my.toml", []byte(text))
	if err != nil {
		t.Fatal(err)
	}
	var b strings.Builder
	if err := table.Check(&b, casewright.Check(d), o); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// TestWatchTerminal holds what is drawn on a terminal: the table of check, then
// the fault with the table dimmed below it, then the new table; and that the
// screen is given back.
func TestWatchTerminal(t *testing.T) {
	t.Chdir(t.TempDir())
	saved(t, casewright.Example)
	out, end := watching(t, true, "--terminal")
	drawn := func(text string) string { return strings.ReplaceAll(strings.TrimRight(text, "\n"), "\n", "\x1b[K\r\n") }
	good := drawn(tableOf(t, casewright.Example, table.Options{Units: "auto", Colour: true, Width: 80}))
	until(t, "the table", func() bool { return strings.Contains(out.String(), good) })
	if !strings.HasPrefix(out.String(), "\x1b[?1049h\x1b[?25l\x1b[H") {
		t.Errorf("it begins with %.20q", out.String())
	}
	saved(t, broken)
	until(t, "the fault", func() bool { return strings.Contains(out.String(), "As it last read well:") })
	screens := strings.Split(out.String(), "\x1b[H")
	fault, last, _ := strings.Cut(screens[len(screens)-1], "As it last read well:")
	for _, want := range []string{"my.toml: 1 fault", ` | wall = "3.20 ±0.15"`, ` | length =`, "has no unit; write"} {
		if !strings.Contains(fault, want) {
			t.Errorf("the fault lacks %q: %q", want, fault)
		}
	}
	for i, line := range strings.Split(strings.TrimRight(tableOf(t, casewright.Example, table.Options{Units: "auto", Width: 80}), "\n"), "\n") {
		if !strings.Contains(last, "\r\n\x1b[2m"+line+"\x1b[0m\x1b[K") {
			t.Errorf("line %d of the last table is not dimmed: %q", i+1, line)
		}
	}
	if strings.Contains(last, "\x1b[31m") || strings.Contains(last, "\x1b[32m") {
		t.Error("the last table still has colour")
	}
	saved(t, otherwise)
	until(t, "the new table", func() bool {
		return strings.Contains(out.String(), drawn(tableOf(t, otherwise, table.Options{Units: "auto", Colour: true, Width: 80})))
	})
	if err := end(); err != nil {
		t.Error(err)
	}
	if !strings.HasSuffix(out.String(), "\x1b[?25h\x1b[?1049l") {
		t.Errorf("the screen is not given back: %q", out.String()[len(out.String())-20:])
	}
}

// TestWatchAppended holds that what is no terminal gets one table after the
// other, without any sign for a terminal, and in ASCII where that is asked for.
func TestWatchAppended(t *testing.T) {
	t.Chdir(t.TempDir())
	saved(t, casewright.Example)
	out, end := watching(t, false, "--terminal", "--ascii", "--all", "--units", "imperial")
	o := table.Options{Units: "imperial", All: true, ASCII: true, Width: 80}
	first := tableOf(t, casewright.Example, o)
	until(t, "the table", func() bool { return out.String() == first })
	saved(t, broken)
	until(t, "the fault", func() bool { return strings.Contains(out.String(), "has no unit") })
	saved(t, otherwise)
	second := tableOf(t, otherwise, o)
	until(t, "the new table", func() bool { return strings.HasSuffix(out.String(), "\n\n"+second) })
	if err := end(); err != nil {
		t.Error(err)
	}
	if fault := strings.TrimSuffix(strings.TrimPrefix(out.String(), first), second); strings.Contains(fault, "margin") {
		t.Errorf("beside the fault: %q", fault)
	}
	if i := strings.IndexFunc(out.String(), func(c rune) bool { return c > 126 || c == 0x1b }); i >= 0 {
		t.Errorf("not plain ASCII: %.20q", out.String()[i:])
	}
}

// got is what the page has.
func got(t *testing.T, address string) string {
	t.Helper()
	answer, err := http.Get(address) //nolint:gosec // ours
	if err != nil {
		t.Fatal(err)
	}
	defer answer.Body.Close()
	text, err := io.ReadAll(answer.Body)
	if err != nil || answer.StatusCode != 200 {
		t.Fatalf("%d, %v", answer.StatusCode, err)
	}
	return string(text)
}

var body = regexp.MustCompile(`(?s)<main.*</main>\n<footer>.*</footer>`)

// TestWatchPage holds that the page is what report writes; that what is wrong is
// told with its lines while the last picture stays, stale; and that it comes back.
func TestWatchPage(t *testing.T) {
	t.Chdir(t.TempDir())
	saved(t, casewright.Example)
	for _, flags := range [][]string{{"--units", "imperial"}} {
		out, end := watching(t, false, flags...)
		until(t, "the address", func() bool { return strings.HasSuffix(out.String(), "/\n") })
		address := strings.TrimSpace(out.String())
		_, report, errs := casewrightRun("", append([]string{"report", "--format", "html", "my.toml"}, flags...)...)
		whole := body.FindString(report)
		if errs != "" || len(whole) < 10000 || body.FindString(got(t, address)) != whole {
			t.Errorf("%v: the page is not the report: %q", flags, errs)
		}
		saved(t, broken)
		until(t, "the fault", func() bool { return strings.Contains(got(t, address+"picture"), `class="stale"`) })
		page := got(t, address+"picture")
		for _, want := range []string{"✗ my.toml: 1 fault", `wall = "3.20 ±0.15"`, `has no unit</span>. Write "3.20 ±0.15 mm".`, `length = "420`, "inside_diameter ="} {
			if !strings.Contains(html.UnescapeString(page), want) {
				t.Errorf("%v: the fault lacks %q", flags, want)
			}
		}
		if body.FindString(page) != whole {
			t.Errorf("%v: the last picture is gone", flags)
		}
		saved(t, otherwise)
		until(t, "the new picture", func() bool { return strings.Contains(got(t, address+"picture"), ", 4.6 MPa</h1>") })
		if page := got(t, address); strings.Contains(page, `class="stale"`) || strings.Contains(page, "fault</h2>") {
			t.Errorf("%v: mended, and still stale", flags)
		}
		if err := end(); err != nil {
			t.Error(err)
		}
		if _, err := http.Get(address); err == nil { //nolint:gosec,bodyclose // ended
			t.Errorf("%v: it still answers", flags)
		}
	}
}

// TestWatchBrokenFirst holds that a file that never read well has its faults
// told, and no picture.
func TestWatchBrokenFirst(t *testing.T) {
	t.Chdir(t.TempDir())
	saved(t, broken)
	out, _ := watching(t, false)
	until(t, "the address", func() bool { return strings.HasSuffix(out.String(), "/\n") })
	page := got(t, strings.TrimSpace(out.String()))
	if !strings.Contains(page, "has no unit") || !strings.Contains(page, "It has not read well yet.") || strings.Contains(page, "<main") {
		t.Errorf("%.3000s", page)
	}
}

// TestWatchCourses holds that the file of courses that a design names is
// followed too; the report does not need it and keeps its colour.
func TestWatchCourses(t *testing.T) {
	hot := string(must(t, func() ([]byte, error) { return os.ReadFile("../../testdata/designs/basalt64-hot.toml") }))
	hot = strings.Replace(hot, "[heat.measured]", "", 1)
	t.Chdir(t.TempDir())
	saved(t, hot+"\n[heat.measured]\ncsv = \"run.csv\"\n")
	out, _ := watching(t, true, "--terminal")
	until(t, "the lack of it", func() bool { return strings.Contains(out.String(), "cannot read run.csv: no such file") })
	if err := os.WriteFile("run.csv", []byte("time (s),tube/nowhere (°C)\n0,20\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	until(t, "its fault", func() bool { return strings.Contains(out.String(), "run.csv: 1 fault") })
	if strings.Contains(out.String(), "As it last read well") {
		t.Error("the table is dimmed")
	}
	if err := os.WriteFile("run.csv", []byte("time (s),wall_outside (°C)\n0,20\n1,21\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	until(t, "the table alone", func() bool {
		screens := strings.Split(out.String(), "\x1b[H")
		return strings.HasPrefix(screens[len(screens)-1], "Basalt 64, hot")
	})
}

// TestWatchBurst saves a thousand times as fast as it goes. The last state
// stands, and neither memory nor goroutines grow.
func TestWatchBurst(t *testing.T) {
	t.Chdir(t.TempDir())
	saved(t, casewright.Example)
	out, _ := watching(t, false)
	until(t, "the address", func() bool { return strings.HasSuffix(out.String(), "/\n") })
	address := strings.TrimSpace(out.String())
	burst := func(round int) (inUse uint64, routines int) {
		for i := range 1000 {
			switch i % 3 {
			case 0:
				saved(t, strings.Replace(casewright.Example, "4.5 MPa", fmt.Sprintf("4.%d MPa", i+1), 1))
			case 1:
				saved(t, broken)
			case 2:
				if err := os.Remove("my.toml"); err != nil {
					t.Fatal(err)
				}
			}
		}
		last := fmt.Sprintf(", 5.%d1 MPa</h1>", round)
		saved(t, strings.Replace(casewright.Example, "4.5 MPa", fmt.Sprintf("5.%d1 MPa", round), 1))
		until(t, "the last state", func() bool {
			page := got(t, address+"picture")
			return strings.Contains(page, last) && !strings.Contains(page, "stale")
		})
		http.DefaultClient.CloseIdleConnections()
		var m runtime.MemStats
		runtime.GC()
		runtime.GC()
		runtime.ReadMemStats(&m)
		return m.HeapAlloc, runtime.NumGoroutine()
	}
	before, routines := burst(0)
	after, now := burst(1)
	t.Logf("%d kB in use after 1000 saves, %d kB after 2000", before>>10, after>>10)
	if after > before+4<<20 || now > routines+4 {
		t.Errorf("memory in use grows from %d to %d bytes, goroutines from %d to %d", before, after, routines, now)
	}
}

// TestWatch holds that the program ends with 0 at the signals that end it, and
// says where the page is and nothing else.
func TestWatch(t *testing.T) {
	t.Chdir(t.TempDir())
	saved(t, casewright.Example)
	for _, c := range []struct {
		signal os.Signal
		flags  []string
		said   string // how the output ends
	}{
		{os.Interrupt, nil, "/\n"},
		{syscall.SIGTERM, []string{"--terminal"}, table.Caution + "\n"},
	} {
		cmd := exec.Command("casewright", append([]string{"watch", "my.toml"}, c.flags...)...)
		out, errs := &record{}, &record{}
		cmd.Stdout, cmd.Stderr = out, errs
		if err := cmd.Start(); err != nil {
			t.Fatal(err)
		}
		until(t, "what it says", func() bool { return strings.HasSuffix(out.String(), c.said) })
		if err := cmd.Process.Signal(c.signal); err != nil {
			t.Fatal(err)
		}
		if err := cmd.Wait(); err != nil || errs.String() != "" {
			t.Errorf("%v: %v, %q", c.signal, err, errs.String())
		}
		if address := regexp.MustCompile(`^http://127\.0\.0\.1:\d+/[A-Z2-7]{26}/\n$`); c.flags == nil && !address.MatchString(out.String()) {
			t.Errorf("it says %q", out.String())
		}
	}
}
