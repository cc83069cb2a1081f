package near

import (
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// The usual textbook pairs: kitten and sitting (Levenshtein 3), Saturday and Sunday (3); CA and ABC tell the unrestricted distance (2)
// from the restricted one (3). From memory.
func TestDistance(t *testing.T) {
	for _, c := range []struct {
		a, b string
		want int
	}{
		{"", "", 0},
		{"abc", "", 3},
		{"kitten", "sitting", 3},
		{"Saturday", "Sunday", 3},
		{"CA", "ABC", 2},
		{"edge", "egde", 1},
		{"größe", "grösse", 2},
	} {
		if got := distance([]rune(c.a), []rune(c.b)); got != c.want {
			t.Errorf("%s to %s: %d, want %d", c.a, c.b, got, c.want)
		}
	}
}

func TestMatch(t *testing.T) {
	keys := []string{"edge", "hole", "thread", "from_face", "engagement", "groove_width", "groove_spacing"}
	for _, c := range []struct {
		word, want string
	}{
		{"egde", "edge"},
		{"edgge", "edge"},
		{"Edge", "edge"},
		{"EDGE", "edge"},
		{"edg", "edge"},
		{"hoel", "hole"},
		{"tread", "thread"},
		{"fromface", "from_face"},
		{"engagemnet", "engagement"},
		{"groove_with", "groove_width"},
		{"groovewith", "groove_width"}, // 2
		{"goovewith", ""},              // 3
		{"ed", ""},                     // 2, but a third of two letters is 1
		{"ege", "edge"},                // 1, a third of three letters
		{"edxx", "edge"},               // 2, a third of four letters rounded up
		{"eg", ""},                     // 2
		{"wedges", "edge"},             // 2, a third of six letters
		{"wedge", "edge"},
		{"pressure", ""},
		{"", ""},
	} {
		got, ok := Match(c.word, keys)
		if got != c.want || ok != (c.want != "") {
			t.Errorf("%q: %q, want %q", c.word, got, c.want)
		}
	}
	if got, _ := Match("bolt", []string{"belt", "bolts", "colt"}); got != "belt" {
		t.Errorf("of equals %q is taken", got)
	}
	if got, _ := Match("bolts", []string{"belt", "bolts"}); got != "bolts" {
		t.Errorf("%q is nearer than the word itself", got)
	}
	if _, ok := Match("bolt", nil); ok {
		t.Error("a match among none")
	}
	if _, ok := Match("a", []string{""}); ok {
		t.Error("the empty word matches")
	}
}

func TestLongWordsAreRefused(t *testing.T) {
	longest := strings.Repeat("ä", 64)
	if _, ok := Match(longest, []string{longest + "b", longest}); !ok {
		t.Error("64 letters are refused")
	}
	if _, ok := Match(longest, []string{longest + "b"}); ok {
		t.Error("65 known letters match")
	}
	if four := strings.Repeat("𐍈", 64); len(four) != 256 {
		t.Errorf("64 letters of four bytes are %d", len(four))
	} else if _, ok := Match(four, []string{four}); !ok {
		t.Error("64 letters of four bytes are refused")
	}
	for _, word := range []string{longest + "b", strings.Repeat("b", 65), strings.Repeat("x", 10_000_000)} {
		if _, ok := Match(word, []string{longest, word}); ok {
			t.Errorf("%d bytes match", len(word))
		}
	}
}

// A distance is zero between equals only, the same both ways, and never longer than by way of a third word.
func TestDistanceIsAMetric(t *testing.T) {
	word := rapid.SliceOfN(rapid.SampledFrom([]rune("abcä")), 0, 8)
	rapid.Check(t, func(t *rapid.T) {
		a, b, c := word.Draw(t, "a"), word.Draw(t, "b"), word.Draw(t, "c")
		ab := distance(a, b)
		if ab != distance(b, a) || (ab == 0) != (string(a) == string(b)) {
			t.Fatalf("%s and %s: %d", string(a), string(b), ab)
		}
		if ab > distance(a, c)+distance(c, b) {
			t.Fatalf("%s to %s is shorter by way of %s", string(a), string(b), string(c))
		}
		if ab < max(len(a)-len(b), len(b)-len(a)) || ab > max(len(a), len(b)) {
			t.Fatalf("%s and %s: %d", string(a), string(b), ab)
		}
		if len(a) > 1 {
			i := rapid.IntRange(0, len(a)-2).Draw(t, "i")
			swapped := append([]rune(nil), a...)
			swapped[i], swapped[i+1] = swapped[i+1], swapped[i]
			if d := distance(a, swapped); d > 1 {
				t.Fatalf("%s and %s: %d", string(a), string(swapped), d)
			}
		}
	})
}

func FuzzMatch(f *testing.F) {
	f.Add("egde", "edge")
	f.Add("\xff", "İ")
	f.Fuzz(func(t *testing.T, word, known string) {
		if got, ok := Match(word, []string{known}); ok && got != known || !ok && got != "" {
			t.Fatalf("%q, %t", got, ok)
		}
	})
}
