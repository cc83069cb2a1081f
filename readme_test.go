package casewright_test

import (
	"fmt"
	"os"
	"strings"
	"testing"

	"casewright"
	"casewright/margin"
)

// keysTable is the README's table of keys, from the reader's own list.
func keysTable() string {
	var b strings.Builder
	last := ""
	for _, k := range casewright.Keys() {
		table := "`[" + k.Table() + "]`"
		if k.Table() == "end" {
			table = "`[[end]]`"
		}
		if table == last {
			table = ""
		} else {
			last = table
		}
		required := ""
		if k.Required {
			required = "yes"
		}
		fmt.Fprintf(&b, "| %s | `%s = %s` | %s | %s |\n", table, k.Name(), k.Sample, required, k.Meaning)
	}
	return b.String()
}

// checksTable is the README's table of checks, from their definitions.
func checksTable() string {
	var b strings.Builder
	for _, m := range casewright.Methods() {
		what, limit := m.Demand, m.Capacity
		if m.Kind != margin.Strength {
			what, limit = m.Value, m.Limit
			if limit == "" {
				limit = m.Default
			}
			switch m.Kind {
			case margin.AtLeast:
				limit = "≥ " + limit
			case margin.AtMost:
				limit = "≤ " + limit
			case margin.Between:
				limit += " to " + m.DefaultMost
			case margin.Strength:
			}
		}
		factor := map[margin.Factor]string{margin.YieldFactor: " (yield", margin.UltimateFactor: " (ultimate"}[m.Factor]
		if factor != "" {
			if m.Joint {
				factor += " × fitting"
			}
			limit += factor + ")"
		}
		fmt.Fprintf(&b, "| `%s` | %s: %s | %s | %s |\n", m.ID, m.Title, what, limit, m.Source)
	}
	return b.String()
}

// TestReadme keeps the README's tables in step with the definitions.
func TestReadme(t *testing.T) {
	text, err := os.ReadFile("README.md")
	if err != nil {
		t.Fatal(err)
	}
	for name, table := range map[string]string{"keys": keysTable(), "checks": checksTable()} {
		if !strings.Contains(string(text), table) {
			t.Errorf("the README's table of %s should be\n%s", name, table)
		}
	}
}
