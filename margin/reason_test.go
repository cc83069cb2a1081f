package margin_test

import (
	"strings"
	"testing"

	"casewright/margin"
)

// TestReasons holds that every reason has an id of its own, says why, and says
// what to do, each as the middle of a sentence.
func TestReasons(t *testing.T) {
	seen := map[string]bool{}
	for r := margin.None + 1; r <= margin.NotANumber; r++ {
		if id := r.ID(); id == "" || seen[id] {
			t.Errorf("reason %d has the id %q", r, id)
		} else {
			seen[id] = true
		}
		for _, text := range []string{r.Text(), r.Write()} {
			if text == "" || strings.HasSuffix(text, ".") || strings.ToLower(text[:1]) != text[:1] {
				t.Errorf("%s: %q", r.ID(), text)
			}
		}
	}
	if none := margin.None; none.ID()+none.Text()+none.Write() != "" {
		t.Error("no reason has something to say")
	}
}
