package pdf_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"casewright/cmd/casewright/internal/pdf"
)

// TestWrap holds that no line is too wide or too short, and that none of the
// words is lost.
func TestWrap(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		words := rapid.SliceOfN(rapid.StringMatching(`[a-zA-Z.,é⌀±]{1,30}`), 1, 30).Draw(t, "words")
		width := rapid.Float64Range(2, 40).Draw(t, "width")
		lines := pdf.Wrap(strings.Join(words, " "), width)
		if got, want := strings.ReplaceAll(strings.Join(lines, ""), " ", ""), strings.Join(words, ""); got != want {
			t.Fatalf("the lines hold %q, want %q", got, want)
		}
		rest := words
		for i, line := range lines {
			if pdf.Width(line) > width+1e-9 {
				t.Fatalf("line %q is %g mm wide, more than %g", line, pdf.Width(line), width)
			}
			whole := 0 // words that the line ends with or before
			for n := range rest {
				if strings.Join(rest[:n+1], " ") == line {
					whole = n + 1
				}
			}
			if whole == 0 { // a word in parts, of which the first line has no other
				return
			}
			rest = rest[whole:]
			if i+1 < len(lines) && pdf.Width(line+" "+rest[0]) <= width-1e-9 {
				t.Fatalf("%q has room for %q", line, rest[0])
			}
		}
		if len(rest) > 0 {
			t.Fatalf("%q is left", rest)
		}
	})
}

// TestWrapLong holds that a word wider than a line is broken, not between a
// letter and its mark, and that a line is never without a letter.
func TestWrapLong(t *testing.T) {
	for _, c := range []struct {
		text  string
		width float64
		want  []string
	}{
		{"", 1, []string{""}},
		{"   ", 1, []string{""}},
		{"abc", 0, []string{"a", "b", "c"}},
		{"x\u0302x\u0302", 0.7, []string{"x\u0302", "x\u0302"}},
		{"a  b", 0.7, []string{"a", "b"}},
		{"אב גד", 1.5, []string{"בא", "דג"}},
	} {
		if diff := cmp.Diff(c.want, pdf.Wrap(c.text, c.width)); diff != "" {
			t.Errorf("%q in %g (-want +got):\n%s", c.text, c.width, diff)
		}
	}
}

// TestShares holds that columns have what they need where that can be.
func TestShares(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		need := rapid.SliceOfN(rapid.Float64Range(1, 100), 1, 12).Draw(t, "need")
		want := slices.Clone(need)
		wanted, needed := 0.0, 0.0
		for i := range want {
			want[i] += rapid.Float64Range(0, 200).Draw(t, "more")
			wanted, needed = wanted+want[i], needed+need[i]
		}
		const width = 170
		got := pdf.Shares(need, want, width)
		total, fair := 0.0, width/float64(len(need))
		for i, x := range got {
			total += x
			if x > want[i]+1e-9 {
				t.Fatalf("column %d has %g, wants %g", i, x, want[i])
			}
			if needed <= width && x < need[i]-1e-9 || x < min(need[i], fair)-1e-9 {
				t.Fatalf("column %d has %g, needs %g of %g", i, x, need[i], needed)
			}
		}
		if math.Abs(total-min(wanted, width)) > 1e-6 {
			t.Fatalf("the columns have %g, want %g", total, min(wanted, width))
		}
	})
}
