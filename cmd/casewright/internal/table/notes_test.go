package table

import (
	"slices"
	"testing"

	"casewright"
)

// TestPlace holds that a key is named with its table, as in a design file.
func TestPlace(t *testing.T) {
	for _, c := range []struct {
		key   string
		parts []string
		want  string
	}{
		{"tube.inside_diameter", []string{"bulkhead"}, "[tube] inside_diameter"},
		{"motor.pressure", nil, "[motor] pressure"},
		{"end.plate", []string{"bulkhead"}, `[[end]] "bulkhead": plate`},
		{"end.seal.groove_diameter", []string{"nozzle"}, `[end.seal] of "nozzle": groove_diameter`},
		{"end.screws.edge", []string{"fore", "aft"}, `[end.screws] of "fore" and "aft": edge`},
	} {
		if got := place(c.key, c.parts); got != c.want {
			t.Errorf("%s of %q is named %q, not %q", c.key, c.parts, got, c.want)
		}
	}
}

// TestStanding holds that every note taken as standing is one that a report
// bears, so that a renamed id does not go unnoticed.
func TestStanding(t *testing.T) {
	design, err := casewright.Read("example", []byte(casewright.Example))
	if err != nil {
		t.Fatal(err)
	}
	p := &page{report: casewright.Check(design)}
	for _, id := range standing {
		if !slices.ContainsFunc(remarks(p.report), func(n remark) bool { return n.id == id }) {
			t.Errorf("the example bears no note %q", id)
		}
	}
}
