package margin_test

import (
	"slices"
	"testing"

	"casewright/margin"
)

// TestKeys: the keys of a term begin with its own and name none twice; what
// follows from other terms alone has none.
func TestKeys(t *testing.T) {
	for term := range margin.NumTerms {
		keys, info := term.Keys(), term.Info()
		if info.Key != "" && (len(keys) == 0 || keys[0] != info.Key) {
			t.Errorf("%s: %q, want %q first", info.Symbol, keys, info.Key)
		}
		for i, key := range keys {
			if key == "" || slices.Index(keys, key) != i {
				t.Errorf("%s: %q stands in vain", info.Symbol, key)
			}
		}
	}
	if keys := margin.EndLoad.Keys(); keys != nil {
		t.Errorf("the end load has keys of its own: %q", keys)
	}
	if keys := margin.HeatOpening.Keys(); !slices.Contains(keys, "tube.temperature") || !slices.Contains(keys, "end.temperature") {
		t.Errorf("growth by heat does not come from the temperatures: %q", keys)
	}
	if keys := margin.Section.Keys(); !slices.Equal(keys, []string{"end.seal.size", "end.seal.section"}) {
		t.Errorf("the section comes from %q", keys)
	}
}
