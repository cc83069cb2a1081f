package closure_test

import (
	"encoding/csv"
	"fmt"
	"os"
	"strings"
	"testing"
	"unicode"

	"github.com/shopspring/decimal"
	"pgregory.net/rapid"

	"casewright/closure"
	"casewright/quantity"
	"casewright/verification/held"
)

func ExampleLookupPipeThread() {
	t, ok := closure.LookupPipeThread("1/8 npt")
	fmt.Println(t.Name, ok)
	fmt.Printf("L_2 = %.4f in, drill %.3f in\n", quantity.LengthOf(t.EffectiveLength())/quantity.Inch, quantity.LengthOf(t.TapDrill)/quantity.Inch)
	// Output:
	// 1/8-27 NPT true
	// L_2 = 0.2639 in, drill 0.332 in
}

func ExamplePipeThread_CouplingWall() {
	t, _ := closure.LookupPipeThread("1/4-18 NPT")
	fmt.Printf("%.2f mm\n", quantity.LengthOf(t.CouplingWall())/quantity.Millimetre)
	// Output: 2.64 mm
}

func ExamplePipeThread_EndPitchDiameter() {
	t, _ := closure.LookupPipeThread("1/8-27 NPT")
	fmt.Printf("E_0 = %.5f in, E_1 = %.5f in\n", t.EndPitchDiameter()/quantity.Inch, t.MouthPitchDiameter()/quantity.Inch)
	// Output: E_0 = 0.36351 in, E_1 = 0.37360 in
}

func ExamplePipeThreadNames() {
	fmt.Println(strings.Join(closure.PipeThreadNames(), ", "))
	// Output: 1/16-27 NPT, 1/8-27 NPT, 1/4-18 NPT, 3/8-18 NPT, 1/2-14 NPT
}

// TestPipeThreadsPublished holds the table and its formulas against copies of
// the standards; the source of each number stands in its row.
func TestPipeThreadsPublished(t *testing.T) { held.Table(t, "pipe_threads.csv", nil) }

// TestPipeThreadTable holds the table against slips.
func TestPipeThreadTable(t *testing.T) {
	list, names := closure.PipeThreads(), closure.PipeThreadNames()
	if len(list) != 5 || len(names) != 5 {
		t.Fatalf("%d threads, %d names", len(list), len(names))
	}
	for i, p := range list {
		if p.Name != names[i] || !strings.HasSuffix(p.Name, fmt.Sprintf("-%d NPT", p.ThreadsPerInch)) {
			t.Errorf("%s is called %s, %d threads an inch", names[i], p.Name, p.ThreadsPerInch)
		}
		if i > 0 && list[i-1].Diameter.Cmp(p.Diameter) >= 0 {
			t.Errorf("%s after %s", p.Name, list[i-1].Name)
		}
		// The drill goes through the root at the small end and leaves thread at
		// the mouth: 0.8 of the pitch is the height of a thread, and makers list
		// drills a little smaller.
		height := quantity.Length(0.8) * quantity.Inch / quantity.Length(p.ThreadsPerInch)
		drill := quantity.LengthOf(p.TapDrill)
		if !(drill < p.EndPitchDiameter() && drill > p.EndPitchDiameter()-1.15*height) {
			t.Errorf("%s: drill %g m, pitch diameter %g m", p.Name, drill, p.EndPitchDiameter())
		}
		if !p.HandTight.LessThan(p.EffectiveLength()) {
			t.Errorf("%s: hand-tight longer than effective", p.Name)
		}
		if wall := quantity.LengthOf(p.CouplingWall()); !(wall > 0.0023 && wall < 0.0037) {
			t.Errorf("%s: wall %g m", p.Name, wall)
		}
		if p.Coupling.IsZero() != (p.Name == "1/16-27 NPT") {
			t.Errorf("%s: coupling %s", p.Name, p.Coupling)
		}
	}
	// 1/16 has no coupling of its own: (16 − 10.287)/2, that of 1/8.
	for i, want := range []string{"0.0028565", "0.0028565", "0.002642", "0.0024275", "0.003332"} {
		if got := list[i].CouplingWall(); !got.Equal(decimal.RequireFromString(want)) {
			t.Errorf("%s: wall %s m, want %s m", list[i].Name, got, want)
		}
	}
	var none closure.PipeThread
	if !none.EffectiveLength().IsZero() || none.EndPitchDiameter() != 0 || none.MouthPitchDiameter() != 0 || !none.CouplingWall().IsZero() {
		t.Error("the zero thread has sizes")
	}
}

// TestPipeThreadSources reads the table as it stands.
func TestPipeThreadSources(t *testing.T) {
	f, err := os.Open("pipe.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	if _, err := r.ReadAll(); err != nil {
		t.Fatal(err)
	}
	for _, p := range closure.PipeThreads() {
		for _, pair := range [][2]string{{p.Source, p.Status}, {p.DrillSource, p.DrillStatus}, {p.CouplingSource, p.CouplingStatus}} {
			if pair[0] == "" || pair[1] != "seen" && pair[1] != "memory" {
				t.Errorf("%s: source %q, %q", p.Name, pair[0], pair[1])
			}
		}
	}
}

func TestLookupPipeThread(t *testing.T) {
	for text, want := range map[string]string{
		"1/8-27 NPT": "1/8-27 NPT", "1/8 NPT": "1/8-27 NPT", "1/8-27": "1/8-27 NPT", "1/8-27NPT": "1/8-27 NPT", "NPT 1/8": "1/8-27 NPT",
		"NPT 1/8-27": "1/8-27 NPT", `1/8" NPT`: "1/8-27 NPT", `1/8"-27 npt`: "1/8-27 NPT", "1/8–27 NPT": "1/8-27 NPT", "1/8″ NPT": "1/8-27 NPT", "1/8” NPT": "1/8-27 NPT",
		"1/16 NPT": "1/16-27 NPT", "1/4 npt": "1/4-18 NPT", "3/8-18 NPT": "3/8-18 NPT", "1/2-14": "1/2-14 NPT",

		"": "", "NPT": "", "1/8": "", "1/8-28 NPT": "", "1/8-18 NPT": "", "3/4-14 NPT": "", "1/8 NPTF": "", "1/8-27 NPSM": "", "-27 NPT": "", "G 1/8": "", "npt 1/8 npt": "", "1/4-20 UNC": "",
	} {
		got, ok := closure.LookupPipeThread(text)
		if got.Name != want || ok != (want != "") {
			t.Errorf("LookupPipeThread(%q) = %q, %v; want %q", text, got.Name, ok, want)
		}
	}
}

// TestLookupPipeThreadAnyhow spells every thread with other case and blanks.
func TestLookupPipeThreadAnyhow(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		name := rapid.SampledFrom(closure.PipeThreadNames()).Draw(t, "thread")
		var b strings.Builder
		for _, r := range name {
			if rapid.Bool().Draw(t, "blank") {
				b.WriteString(rapid.SampledFrom([]string{" ", "\t", "\u00a0"}).Draw(t, "which"))
			}
			if rapid.Bool().Draw(t, "lower") {
				r = unicode.ToLower(r)
			}
			b.WriteRune(r)
		}
		if got, ok := closure.LookupPipeThread(b.String()); !ok || got.Name != name {
			t.Fatalf("LookupPipeThread(%q) = %q, %v; want %q", b.String(), got.Name, ok, name)
		}
	})
}

func FuzzLookupPipeThread(f *testing.F) {
	for _, name := range append(closure.PipeThreadNames(), "NPT 1/8", `1/8" NPT`, "1/8 NPTF", "", "-", "npt", "½ NPT") {
		f.Add(name)
	}
	f.Fuzz(func(t *testing.T, text string) {
		p, ok := closure.LookupPipeThread(text)
		if ok != (p.Name != "") {
			t.Fatalf("%q: %q, %v", text, p.Name, ok)
		}
		if ok {
			if again, _ := closure.LookupPipeThread(p.Name); again.Name != p.Name {
				t.Fatalf("%q is %q, which is %q", text, p.Name, again.Name)
			}
		}
	})
}
