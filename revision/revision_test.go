package revision

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/shopspring/decimal"
	"pgregory.net/rapid"

	"casewright"
	"casewright/margin"
	"casewright/quantity"
)

func read(t testing.TB, name string) *casewright.Report {
	t.Helper()
	d, err := casewright.ReadFile("../testdata/designs/" + name + ".toml")
	if err != nil {
		t.Fatal(err)
	}
	return casewright.Check(d)
}

var designs = []string{"basalt64", "basalt64-short-edge", "basalt64-bought-tube", "basalt64-hot", "slate2in"}

// A design differs in nothing from itself.
func TestSame(t *testing.T) {
	for _, name := range designs {
		if r := Compare(read(t, name), read(t, name)); !r.Same() {
			t.Errorf("%s: %+v %+v", name, r.Changes, r.Moves)
		}
	}
}

// The way back changes the same values, each the other way, and the same checks.
func TestThereAndBack(t *testing.T) {
	for _, a := range designs {
		for _, b := range designs {
			there, back := Compare(read(t, a), read(t, b)), Compare(read(t, b), read(t, a))
			values := func(list []Change, was func(*Change) ([]string, []string)) []string {
				var texts []string
				for i := range list {
					from, to := was(&list[i])
					texts = append(texts, strings.Join(list[i].Keys, " ")+": "+strings.Join(from, " ")+" > "+strings.Join(to, " "))
				}
				slices.Sort(texts)
				return texts
			}
			if diff := cmp.Diff(
				values(there.Changes, func(c *Change) ([]string, []string) { return c.Was, c.Is }),
				values(back.Changes, func(c *Change) ([]string, []string) { return c.Is, c.Was }),
			); diff != "" {
				t.Errorf("%s, %s: %s", a, b, diff)
			}
			ids := func(list []Move) []string {
				var names []string
				for _, m := range list {
					if m.New != nil {
						names = append(names, m.New.Method.ID)
					} else {
						names = append(names, m.Old.Method.ID)
					}
				}
				slices.Sort(names)
				return names
			}
			if diff := cmp.Diff(ids(there.Moves), ids(back.Moves)); diff != "" {
				t.Errorf("%s, %s: %s", a, b, diff)
			}
		}
	}
}

// stepped is a design of which one number is another by a share; false where
// the key of that part is no number that is set, or it cannot be built so.
func stepped(d *casewright.Design, k *casewright.Key, part int, share float64) (*casewright.Design, bool) {
	c := d.Clone()
	by := decimal.NewFromFloat(1 + share)
	switch f := k.Field(c, part).(type) {
	case *casewright.Dimension:
		if !f.IsSet() || f.Nominal().IsZero() {
			return nil, false
		}
		f.Dimension = f.WithNominal(f.Nominal().Mul(by).Round(9))
	case *casewright.Amount:
		if !f.IsSet() || f.Sign() == 0 || f.Kind() == quantity.KindAngle {
			return nil, false
		}
		a, err := quantity.Parse(f.Kind(), strings.TrimSpace(f.Value().Mul(by).Round(9).String()+" "+f.Unit().Symbol()))
		if err != nil {
			return nil, false
		}
		f.Amount = a
	case *casewright.Count:
		if f.Value == 0 {
			return nil, false
		}
		f.Value++
	default:
		return nil, false
	}
	return c, c.Faults() == nil
}

// Where one value changes, it is told alone, with a word for it, and alone it
// moves what all changes together move.
func TestOneChange(t *testing.T) {
	told := 0
	for _, name := range []string{"basalt64-short-edge", "basalt64-hot", "slate2in"} {
		before := read(t, name)
		d := before.Design
		for part := range len(d.Ends) + 1 {
			for _, k := range casewright.Keys() {
				if (part > 0) != strings.HasPrefix(k.Path, "end.") || strings.HasPrefix(k.Path, "heat.layer.") {
					continue
				}
				for _, share := range []float64{0.03, -0.03} {
					after, ok := stepped(d, k, part, share)
					if !ok {
						continue
					}
					r := Compare(before, casewright.Check(after))
					if len(r.Changes) != 1 || len(r.Changes[0].Keys) != 1 || r.Changes[0].Keys[0] != k.Path {
						t.Errorf("%s, %s of part %d: %+v", name, k.Path, part, r.Changes)
						continue
					}
					c := &r.Changes[0]
					s := saying(k)
					up := share > 0
					if _, counted := k.Field(d, part).(*casewright.Count); counted {
						up = true
					}
					if want := map[bool]string{true: s.more, false: s.less}[up]; !strings.Contains(c.Words, want) && !strings.Contains(c.Words, " in place of ") {
						t.Errorf("%s: %q does not say %q", k.Path, c.Words, want)
					}
					if len(c.Alone) != len(r.Moves) {
						t.Errorf("%s: alone %d moves, together %d", k.Path, len(c.Alone), len(r.Moves))
					}
					for _, m := range r.Moves {
						same := func(o Move) bool {
							return m.Old == o.Old && (m.New == nil) == (o.New == nil) && (m.New == nil || m.New.ID() == o.New.ID() && m.New.Margin == o.New.Margin || math.IsNaN(m.New.Margin))
						}
						if !slices.ContainsFunc(c.Alone, same) {
							t.Errorf("%s: %+v is not among what it moves alone", k.Path, m)
						}
					}
					told++
				}
			}
		}
	}
	if told < 200 {
		t.Errorf("%d changes were tried", told)
	}
}

// Every size has its words.
func TestSayings(t *testing.T) {
	d := casewright.Design{Ends: make([]casewright.End, 1)}
	for _, k := range casewright.Keys() {
		part := 0
		if strings.HasPrefix(k.Path, "end.") {
			part = 1
		}
		if _, ok := k.Field(&d, part).(*casewright.Dimension); ok && !strings.HasPrefix(k.Path, "heat.layer.") {
			if _, ok := sayings[k.Path]; !ok {
				t.Errorf("%s has no words", k.Path)
			}
		}
	}
	for path := range sayings {
		if casewright.FindKey(path) == nil {
			t.Errorf("%s is no key", path)
		}
	}
}

// The words, the checks and the order of the two designs of the README.
func TestWords(t *testing.T) {
	r := Compare(read(t, "basalt64-short-edge"), read(t, "basalt64"))
	var words []string
	for _, c := range r.Changes {
		words = append(words, c.Part+": "+c.Words)
	}
	if diff := cmp.Diff([]string{": name Basalt 64 in place of Basalt 64, short edge", "nozzle: holes 7.5 mm further from the tube end"}, words); diff != "" {
		t.Error(diff)
	}
	if m := r.Moves[0]; m.New.ID() != "nozzle/hole.edge" || m.Old.Verdict != margin.Fail || m.New.Verdict != margin.Pass || m.Worse() {
		t.Errorf("%+v", m)
	}
	for i, m := range Compare(read(t, "basalt64"), read(t, "basalt64-short-edge")).Moves {
		if want := m.New.Verdict == margin.Fail; want != (i < 2) || want && !m.Worse() {
			t.Errorf("move %d: %s %v", i, m.New.ID(), m.New.Verdict)
		}
	}
}

// Of what has lost without failing the least margin comes first, and what gives
// no verdict last.
func TestLeastMarginFirst(t *testing.T) {
	list := Compare(read(t, "basalt64"), edited(t, "basalt64", `"3.20 ±0.15 mm"`, `"3.00 ±0.15 mm"`)).Moves
	if first := list[0].New.ID(); first != "bulkhead/seal.gap" {
		t.Errorf("%s comes first", first)
	}
	lost := slices.DeleteFunc(list, func(m Move) bool { return !m.Worse() })
	if !slices.IsSortedFunc(lost, func(a, b Move) int {
		if noted := a.New.Verdict == margin.Noted; noted != (b.New.Verdict == margin.Noted) {
			if noted {
				return 1
			}
			return -1
		}
		return int(math.Floor(100*a.New.Margin) - math.Floor(100*b.New.Margin))
	}) {
		t.Errorf("%+v", lost)
	}
}

// edited is a report of a design of which pieces of the text are others.
func edited(t testing.TB, name string, pieces ...string) *casewright.Report {
	t.Helper()
	text, err := casewright.ReadText("../testdata/designs/" + name + ".toml")
	if err != nil {
		t.Fatal(err)
	}
	for i := 0; i < len(pieces); i += 2 {
		if !strings.Contains(string(text), pieces[i]) {
			t.Fatalf("%s has no %q", name, pieces[i])
		}
		text = []byte(strings.Replace(string(text), pieces[i], pieces[i+1], 1))
	}
	d, err := casewright.Read(name+".toml", text)
	if err != nil {
		t.Fatal(err)
	}
	return casewright.Check(d)
}

// What is no number changes too: each in its own words.
func TestWordsOfOthers(t *testing.T) {
	for _, test := range []struct {
		pieces []string
		want   []string
	}{
		{[]string{`"FKM"`, `"NBR"`}, []string{"bulkhead: compound NBR in place of FKM"}},
		{[]string{`"3.20 ±0.15 mm"`, `"3.20 ±0.10 mm"`}, []string{"tube: wall held tighter: ±0.10 mm in place of ±0.15 mm"}},
		{[]string{`"57.00 +0/-0.05 mm"`, `"57.00 ±0.025 mm"`}, []string{"bulkhead: end held otherwise: ±0.025 mm in place of +0/-0.05 mm"}},
		{[]string{`"57.00 +0/-0.05 mm"`, `"57.00 +0.05/-0.05 mm"`}, []string{"bulkhead: end held wider: ±0.05 mm in place of +0/-0.05 mm"}},
		{[]string{`"57.00 +0/-0.05 mm"`, `"57.00 mm"`}, []string{"bulkhead: end held tighter: no tolerance in place of +0/-0.05 mm"}},
		{[]string{`"420 ±0.5 mm"`, `"16.53543307 ±0.02 in"`}, []string{"tube: length 16.53543307 ±0.02 in in place of 420 ±0.5 mm"}},
		{[]string{"count = 2 ", "# ", "groove_spacing", "# "}, []string{"bulkhead: no longer given, was count 2, groove_spacing 6 mm"}},
		{[]string{"edge_break", "head = \"countersunk\"\nhead_depth = \"1.5 mm\"\nedge_break"}, []string{"bulkhead: head countersunk, head_depth 1.5 mm, which was not given"}},
		{[]string{"[tube]", "[limits]\n\"hole.edge\" = \"1.5\"\n[tube]"}, []string{": limit of hole.edge 1.5, which was not given"}},
		{[]string{`name = "nozzle"`, `name = "aft"`}, []string{"aft: name aft in place of nozzle"}},
		{[]string{`temperature = "90 °C"`, `temperature = "110 °C"`}, []string{"tube: tube 20 °C hotter"}},
		{[]string{`count = 8`, `count = 9`}, []string{"bulkhead: 1 more screw"}},
	} {
		r := Compare(read(t, "basalt64"), edited(t, "basalt64", test.pieces...))
		var words []string
		for _, c := range r.Changes {
			words = append(words, c.Part+": "+c.Words)
			if c.Line == 0 && c.Is[0] != "" {
				t.Errorf("%s has no line", c.Words)
			}
		}
		if diff := cmp.Diff(test.want, words); diff != "" {
			t.Error(diff)
		}
	}
}

// Of a material of the file's own everything that is written may change.
func TestWordsOfOwnMaterial(t *testing.T) {
	own := []string{`material = "6061-T6 bar"`, `material = "lot 7"`, "format = 1", `format = 1
[[material]]
name = "lot 7"
source = "certificate 4711"
form = "bar"
yield = "260 MPa"
ultimate = "310 MPa"
at = "100 °C"`}
	before := edited(t, "basalt64", own...)
	for _, test := range [][3]string{
		{`"certificate 4711"`, `"certificate 4712"`, "lot 7: source certificate 4712 in place of certificate 4711"},
		{`form = "bar"`, `form = "casting"`, "lot 7: form casting in place of bar"},
		{`"260 MPa"`, `"240 MPa"`, "lot 7: yield 240 MPa in place of 260 MPa"},
		{`at = "100 °C"`, `at = "50 °C"`, "lot 7: at 50 °C in place of 100 °C"},
	} {
		now := slices.Clone(own)
		now[3] = strings.Replace(now[3], test[0], test[1], 1)
		changes := Compare(before, edited(t, "basalt64", now...)).Changes
		if len(changes) != 1 || changes[0].Words != test[2] {
			t.Errorf("%s: %+v", test[2], changes)
		}
	}
}

// kept are the checks of a report, as a baseline has them.
func kept(r *casewright.Report) []Kept {
	list := OfMotor(r.Design.Pressure.SI(), r.Has("cold"))
	for i := range r.Results {
		c := &r.Results[i]
		list = append(list, Kept{c.Part, int(c.Item), c.Method.ID, c.Margin, c.Factor, c.Min, c.Max, c.Notes.Has(margin.LimitChanged)})
	}
	return list
}

// Nothing is lost against itself, whatever may be lost.
func TestNoLoss(t *testing.T) {
	for _, name := range designs {
		r := read(t, name)
		if list := Losses(r, kept(r), 0); list != nil {
			t.Errorf("%s: %+v", name, list)
		}
	}
}

// A margin is lost where it is lower by more than may be, and only there.
func TestLosses(t *testing.T) {
	r := read(t, "basalt64")
	rapid.Check(t, func(t *rapid.T) {
		most, by := rapid.Float64Range(0, 1).Draw(t, "most"), rapid.Float64Range(-1, 2).Draw(t, "by")
		i := rapid.IntRange(0, len(r.Results)-1).Draw(t, "check")
		before := kept(r)
		k := &before[len(before)-len(r.Results)+i]
		k.Margin += by
		list := Losses(r, before, most)
		want := by > most+grain && !math.IsNaN(k.Margin)
		if got := len(list) == 1 && list[0].Kept == k && list[0].Now == &r.Results[i]; got != want || len(list) > 1 {
			t.Fatalf("lower by %g of at most %g: %+v", by, most, list)
		}
	})
}

// What is lost beside a margin.
func TestLossesOfOthers(t *testing.T) {
	before := kept(read(t, "basalt64"))
	for _, test := range []struct {
		name string
		now  *casewright.Report
		want string
	}{
		{"an end", edited(t, "basalt64", `name = "nozzle"`, `name = "aft"`), "is no longer there: none of its checks is done"},
		{"a check", edited(t, "basalt64", `lead_in = "3 mm"`, ``), "seal.insertion has no margin any more: it is only told"},
		{"factors", edited(t, "basalt64", "[tube]", "[factors]\nultimate = 1.5\n[tube]"), "asks less than was kept: factor 1.725, was 2.3"},
		{"a limit", edited(t, "basalt64", "[tube]", "[limits]\n\"hole.edge\" = 1.5\n[tube]"), "asks less than was kept: least 1.5, was 2"},
		{"a pressure", edited(t, "basalt64", `pressure = "4.5 MPa"`, `pressure = "4.0 MPa"`), "pressure asks less than was kept: 4 MPa, was 4.5 MPa"},
		{"a temperature", edited(t, "basalt64", `temperature = "90 °C"`, ``), "temperature asks less than was kept: a temperature is no longer given, and 20 °C is taken"},
		{"refused", edited(t, "basalt64", `temperature = "90 °C"`, `temperature = "400 °C"`), "has no margin any more: it is refused"},
	} {
		list := Losses(test.now, before, 100)
		var texts []string
		for _, l := range list {
			texts = append(texts, l.Text, l.Kept.ID+" "+l.Text)
		}
		if !slices.Contains(texts, test.want) {
			t.Errorf("%s: %q", test.name, texts)
		}
	}
}

// A limit of the file's own that is taken back or asks less is lost, also where
// casewright's own limit is computed and asks less still.
func TestLossOfOwnLimit(t *testing.T) {
	own := func(limit string) *casewright.Report {
		return edited(t, "basalt64", "[tube]", "[limits]\n"+limit+"\n[tube]")
	}
	plain := read(t, "basalt64")
	for _, test := range []struct {
		was, is *casewright.Report
		want    string // of the first loss
	}{
		{own(`"seal.gap" = "0.30 mm"`), plain, "asks less than was kept: most 0.3429 mm, was 0.3 mm"},
		{own(`"seal.gap" = "0.30 mm"`), own(`"seal.gap" = "0.33 mm"`), "asks less than was kept: most 0.33 mm, was 0.3 mm"},
		{own(`"seal.squeeze_most" = "29 %"`), plain, "asks less than was kept: most 0.3, was 0.29"},
		{own(`"hole.edge" = "2.2"`), plain, "asks less than was kept: least 2, was 2.2"},
		{plain, own(`"seal.gap" = "0.40 mm"`), "asks less than was kept: most 0.4 mm, was 0.3429 mm"},
		{plain, own(`"seal.gap" = "0.33 mm"`), ""},
		{own(`"seal.gap" = "0.40 mm"`), plain, ""},
		{own(`"seal.gap" = "0.30 mm"`), own(`"seal.gap" = "0.30 mm"`), ""},
	} {
		got := ""
		if list := Losses(test.is, kept(test.was), 100); list != nil {
			got = list[0].Text
		}
		if got != test.want {
			t.Errorf("%q, want %q", got, test.want)
		}
	}
}

// A layer that is another one is one change, of all layers together.
func TestLayerChanges(t *testing.T) {
	r := Compare(read(t, "basalt64-hot"), edited(t, "basalt64-hot", `thickness = "1.6 ±0.1 mm"`, `thickness = "1.2 ±0.1 mm"`))
	if len(r.Changes) != 1 || r.Changes[0].Keys[0] != "heat.layer" || len(r.Changes[0].Alone) == 0 {
		t.Errorf("%+v", r.Changes)
	}
}

// What is no key of a part is told alone too, and alone it moves what both
// revisions differ by, in either direction.
func TestAloneOfOthers(t *testing.T) {
	limit := func(to string) *casewright.Report {
		return edited(t, "basalt64", "[tube]", "[limits]\n\"hole.edge\" = "+to+"\n[tube]")
	}
	// Both the tube and an end have materials of the file's own.
	own := func(tube, end string) *casewright.Report {
		material := func(name, yield string) string {
			return `[[material]]
name = "` + name + `"
source = "certificate 4711"
form = "drawn tube"
yield = "` + yield + `"
ultimate = "350 MPa"
shear = "200 MPa"
modulus = "70 GPa"
poisson = 0.33
expansion = "23.4e-6 /K"
elongation = "9 %"
bearing_ultimate_1_5 = "500 MPa"
bearing_ultimate_2 = "700 MPa"
bearing_yield_1_5 = "400 MPa"
bearing_yield_2 = "450 MPa"
at = "100 °C"
`
		}
		return edited(
			t, "basalt64", `material = "6061-T6 drawn tube"`, `material = "A"`, `material = "6061-T6 bar"`, `material = "B"`,
			"[tube]", material("A", tube)+material("B", end)+"[tube]",
		)
	}
	hot := read(t, "basalt64-hot")
	unheated := hot.Design.Clone()
	setHeat(unheated, read(t, "basalt64").Design, []pair{{1, 1}, {2, 2}})
	if unheated.Faults() != nil {
		t.Fatal(unheated.Faults())
	}
	for _, test := range []struct {
		before, after *casewright.Report
		key           string
	}{
		{read(t, "basalt64"), limit("1.5"), "limits.hole.edge"},
		{limit("1.5"), limit("2.5"), "limits.hole.edge"},
		{own("200 MPa", "280 MPa"), own("250 MPa", "280 MPa"), "material.A"},
		{own("280 MPa", "200 MPa"), own("280 MPa", "250 MPa"), "material.B"},
		{hot, casewright.Check(unheated), "heat"},
	} {
		for _, pair := range [][2]*casewright.Report{{test.before, test.after}, {test.after, test.before}} {
			r := Compare(pair[0], pair[1])
			if len(r.Changes) != 1 || r.Changes[0].Keys[0] != test.key || r.Changes[0].Together {
				t.Errorf("%s: %+v", test.key, r.Changes)
				continue
			}
			c := &r.Changes[0]
			if own := strings.HasPrefix(test.key, "material."); !own && (c.Line > 0) != (c.Is[0] != "") {
				t.Errorf("%s: %s at line %d", test.key, c.Words, c.Line)
			}
			told := func(list []Move) (texts []string) {
				for _, m := range list {
					text := stood(m.Old) + " → " + stood(m.New)
					texts = append(texts, text)
				}
				slices.Sort(texts)
				return texts
			}
			if diff := cmp.Diff(told(r.Moves), told(c.Alone)); diff != "" || len(c.Alone) == 0 {
				t.Errorf("%s alone moves %d checks, not what both do: %s", test.key, len(c.Alone), diff)
			}
		}
	}
}

// stood is how a check stood.
func stood(r *casewright.Result) string {
	if r == nil {
		return "none"
	}
	return fmt.Sprintf("%s %v %.9g", r.ID(), r.Verdict, r.Margin)
}

// Measured sizes are told in the order of their names, those that are new, gone
// and other.
func TestMeasured(t *testing.T) {
	with := func(text string) *casewright.Report {
		return edited(t, "basalt64", "[tube]", "[measured]\n"+text+"\n[tube]")
	}
	before, after := with("\"tube.wall\" = \"3.21 mm\"\n\"tube.inside_diameter\" = \"63.05 mm\""), with("\"tube.wall\" = \"3.22 mm\"\n\"tube.length\" = \"300.1 mm\"")
	var words []string
	for _, c := range Compare(before, after).Changes {
		words = append(words, c.Words)
	}
	want := []string{
		"tube.inside_diameter measured: no longer given, was 63.05 mm", "tube.length measured: 300.1 mm, which was not given", "tube.wall measured: 3.22 mm in place of 3.21 mm",
	}
	if diff := cmp.Diff(want, words); diff != "" {
		t.Error(diff)
	}
}

// What is lost of one check, by the contract of [Losses]: a limit that is not
// there asks less than any, one that casewright computes is the design's own
// matter, and numbers of another machine may differ in their last digits.
func TestLossesOfOne(t *testing.T) {
	none := math.NaN()
	settable := &margin.Method{ID: "hole.edge", Kind: margin.AtLeast, Settable: true}
	computed := &margin.Method{ID: "hole.edge", Kind: margin.AtLeast, Settable: true, Limit: "x"}
	strength := &margin.Method{ID: "hole.edge", Kind: margin.Strength}
	for _, test := range []struct {
		name string
		kept Kept
		now  margin.Check
		want string
	}{
		{"the same", Kept{Margin: 0.5, Min: 2, Max: 3}, margin.Check{Method: settable, Margin: 0.5, Min: 2, Max: 3}, ""},
		{"no least", Kept{Margin: 0.5, Min: 2, Max: none}, margin.Check{Method: settable, Margin: 0.5, Min: none, Max: none}, "asks less than was kept: least none, was 2"},
		{"no most", Kept{Margin: 0.5, Min: none, Max: 3}, margin.Check{Method: settable, Margin: 0.5, Min: none, Max: none}, "asks less than was kept: most none, was 3"},
		{"more is allowed", Kept{Margin: 0.5, Min: none, Max: 3}, margin.Check{Method: settable, Margin: 0.5, Min: none, Max: 3.1}, "asks less than was kept: most 3.1, was 3"},
		{"asks more", Kept{Margin: 0.5, Min: 2, Max: 3}, margin.Check{Method: settable, Margin: 0.5, Min: 2.1, Max: 2.9}, ""},
		{"another machine", Kept{Margin: 0.5, Min: 2, Max: 3}, margin.Check{Method: settable, Margin: 0.5 - 1e-12, Min: 2 - 1e-12, Max: 3 + 1e-12}, ""},
		{"computed", Kept{Margin: 0.5, Min: 2, Max: none}, margin.Check{Method: computed, Margin: 0.5, Min: 1, Max: none}, ""},
		{"not to be set", Kept{Margin: 0.5, Min: 2, Max: none}, margin.Check{Method: &margin.Method{Kind: margin.AtLeast}, Margin: 0.5, Min: 1, Max: none}, ""},
		{"factor", Kept{Margin: 0.5, Factor: 2.5, Min: none, Max: none}, margin.Check{Method: strength, Margin: 0.5, Factor: 2.4, Min: none, Max: none}, "asks less than was kept: factor 2.4, was 2.5"},
		{"factor of another machine", Kept{Margin: 0.5, Factor: 2.5, Min: none, Max: none}, margin.Check{Method: strength, Margin: 0.5, Factor: 2.5 - 1e-12, Min: none, Max: none}, ""},
		{"no strength", Kept{Margin: 0.5, Factor: 1, Min: none, Max: none}, margin.Check{Method: settable, Margin: 0.5, Min: none, Max: none}, ""},
		{"rounded down", Kept{Margin: 0.5, Min: none, Max: none}, margin.Check{Method: settable, Margin: 0.2329, Min: none, Max: none}, "margin 0.232, was 0.500"},
		{"rounded down to a figure", Kept{Margin: 0.57, Min: none, Max: none}, margin.Check{Method: settable, Margin: 0.29, Min: none, Max: none}, "margin 0.290, was 0.570"},
		{"below 0", Kept{Margin: 0.5, Min: none, Max: none}, margin.Check{Method: settable, Margin: -0.0001, Min: none, Max: none}, "margin -0.001, was 0.500"},
	} {
		if got := test.kept.lost(&casewright.Result{Check: test.now}, 0); got != test.want {
			t.Errorf("%s: %q, want %q", test.name, got, test.want)
		}
	}
}

// An end that is gone is told once, and a motor that was cold is lost nothing of
// when it still is.
func TestLossesOnce(t *testing.T) {
	r := read(t, "basalt64")
	if list := Losses(edited(t, "basalt64", `name = "nozzle"`, `name = "aft"`), kept(r), 100); len(list) != 1 || !list[0].Whole || list[0].Kept.Part != "nozzle" {
		t.Errorf("%+v", list)
	}
	cold := edited(t, "basalt64", `temperature = "90 °C"`, ``)
	if !cold.Has("cold") {
		t.Fatal("a temperature is taken from elsewhere")
	}
	for was, want := range map[bool]int{true: 0, false: 1} {
		if list := Losses(cold, OfMotor(r.Design.Pressure.SI(), was), 0); len(list) != want {
			t.Errorf("cold before: %t: %+v", was, list)
		}
	}
}

func BenchmarkCompare(b *testing.B) {
	before, after := read(b, "basalt64-bought-tube"), read(b, "basalt64")
	b.Run("compare", func(b *testing.B) {
		for b.Loop() {
			Compare(before, after)
		}
	})
	b.Run("check both, the peer", func(b *testing.B) {
		for b.Loop() {
			casewright.Check(before.Design)
			casewright.Check(after.Design)
		}
	})
}
