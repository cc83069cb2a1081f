package schema_test

import (
	"fmt"
	"testing"

	"casewright"
)

// outcome is what is found of a design, or its faults.
func outcome(text []byte) string {
	d, err := casewright.Read("design.toml", text)
	if err != nil {
		return "faulty" // at other lines, and in other words
	}
	r := casewright.Check(d)
	found := fmt.Sprint(r.Verdict, r.Notes)
	if m, err := d.HeatMotor(); err == nil {
		found += fmt.Sprint(m.Touch) // decides no check
	}
	for i := range r.Results {
		found += fmt.Sprintln(r.Results[i].ID(), r.Results[i].Verdict, r.Results[i].Margin, r.Results[i].Nominal)
	}
	return found
}

// A design with a default in it is the design without.
func TestDefaults(t *testing.T) {
	told := map[string]bool{}
	for file, text := range bases(t) {
		for number, p := range places(decoded(t, text), "") {
			k := casewright.FindKey(p.path)
			if k == nil || k.Default == "" {
				continue
			}
			values := decoded(t, text)
			p := places(values, "")[number]
			delete(p.table, p.name)
			without := outcome(encoded(t, values))
			p.table[p.name] = decoded(t, []byte("v = "+k.Default))["v"]
			if with := outcome(encoded(t, values)); with != without {
				t.Errorf("%s: %s = %s:\n%s\nwithout:\n%s", file, k.Path, k.Default, with, without)
			}
			told[k.Path] = true
		}
	}
	for _, k := range casewright.Keys() {
		if k.Default != "" && !told[k.Path] {
			t.Errorf("the default of %s was not tried", k.Path)
		}
	}
}
