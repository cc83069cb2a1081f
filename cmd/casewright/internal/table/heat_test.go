package table

import (
	"os"
	"strings"
	"testing"

	"casewright"
	"casewright/sizing"
)

// heatText is the page of the example with heat, some of its text replaced.
func heatText(t *testing.T, pairs ...string) string {
	t.Helper()
	text, err := os.ReadFile("../../../../testdata/designs/basalt64-hot.toml")
	if err != nil {
		t.Fatal(err)
	}
	for i := 0; i < len(pairs); i += 2 {
		if !strings.Contains(string(text), pairs[i]) {
			t.Fatalf("the design has no %q", pairs[i])
		}
	}
	d, err := casewright.Read("hot.toml", []byte(strings.NewReplacer(pairs...).Replace(string(text))))
	if err != nil {
		t.Fatal(err)
	}
	a, err := sizing.AnswerHeat(d)
	if err != nil {
		t.Fatal(err)
	}
	var b strings.Builder
	if err := Heat(&b, a, Options{Units: "metric", Width: 100}); err != nil {
		t.Fatal(err)
	}
	return strings.Join(strings.Fields(b.String()), " ")
}

// Nobody is sent to a motor that burns, or that burnt out less than a minute
// ago: SAFETY.md, Misfire (common practice).
func TestNobodyIsSentNear(t *testing.T) {
	early := heatText(t, `compound = "FKM"`, `compound = "NBR"`, `burn_time = "2.5 s"`, `burn_time = "8 s"`)
	if strings.Contains(early, "taking it out, before") || !strings.Contains(early, "before anybody may go near") {
		t.Error(early)
	}
	late := heatText(t, `compound = "FKM"`, `compound = "NBR"`)
	if !strings.Contains(late, "taking it out, before") {
		t.Error(late)
	}
}

// Ends that are not computed are not among what may be touched.
func TestWaitTellsUnfollowed(t *testing.T) {
	text := heatText(t, "[end.heat]\n  film_coefficient = \"300 W/(m² K)\"", "#", "  cover = \"phenolic paper tube\"\n", "", "  cover_thickness = \"3 mm\"\n", "")
	if strings.Contains(text, "Everything is below") || !strings.Contains(text, "bulkhead has no [end.heat] and is not computed") {
		t.Error(text)
	}
}

// A wait of 15.3 min is not over at 15 min; a seal that fails at 18.9 s has not
// until 19 s.
func TestWaitIsRoundedUp(t *testing.T) {
	p := &page{}
	for _, one := range []struct {
		s        float64
		up, down string
	}{
		{917, "16 min", "15 min"}, {900, "15 min", "15 min"}, {18.2, "19 s", "18 s"}, {599.5, "600 s", "599 s"}, {2.51, "2.6 s", "2.5 s"}, {0.6, "0.6 s", "0.6 s"}, {0, "0.0 s", "0.0 s"},
	} {
		if got := p.timeTo(one.s, up); got != one.up {
			t.Errorf("%g s up: %s", one.s, got)
		}
		if got := p.timeTo(one.s, down); got != one.down {
			t.Errorf("%g s down: %s", one.s, got)
		}
	}
	if text := heatText(t); !strings.Contains(text, "below 48 °C from 18 min") {
		t.Error(text)
	}
}
