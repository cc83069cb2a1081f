package jsonout

import (
	"bytes"
	"errors"
	"math"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"casewright"
	"casewright/revision"
)

const designs = "../../../../testdata/designs"

func report(t testing.TB, file string) *casewright.Report {
	t.Helper()
	d, err := casewright.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	return casewright.Check(d)
}

// What is written is read again: every check with its margin and its limits, as
// in the report; a design is found from wherever it is named, and one that is
// taken in anew stands once.
func TestBaselineKept(t *testing.T) {
	files, err := filepath.Glob(designs + "/*.toml")
	if err != nil || len(files) < 5 {
		t.Fatal(files, err)
	}
	name := filepath.Join(t.TempDir(), "margins.json")
	b := NewBaseline(name)
	for range 2 {
		for _, file := range files {
			if err := b.Renew(report(t, file)); err != nil {
				t.Fatal(err)
			}
		}
	}
	var text bytes.Buffer
	if err := b.Write(&text); err != nil {
		t.Fatal(err)
	}
	again, err := ReadBaseline(name, text.Bytes())
	if err != nil {
		t.Fatal(err)
	}
	if len(again.docs) != len(files) {
		t.Errorf("%d reports of %d files", len(again.docs), len(files))
	}
	checks := 0
	for _, file := range files {
		r := report(t, file)
		want := revision.OfMotor(r.Design.Pressure.SI(), r.Has("cold"))
		for i := range r.Results {
			c := &r.Results[i]
			one := revision.Kept{Part: c.Part, Item: int(c.Item), ID: c.Method.ID, Margin: c.Margin, Min: c.Min, Max: c.Max}
			if !math.IsNaN(c.Demand) || c.Method.Kind == 0 {
				one.Factor = c.Factor
			}
			want = append(want, one)
		}
		if diff := cmp.Diff(want, again.Of(r), cmpopts.EquateNaNs()); diff != "" {
			t.Errorf("%s: %s", file, diff)
		}
		checks += len(r.Results)
		if list := revision.Losses(r, again.Of(r), 0); list != nil {
			t.Errorf("%s: %+v", file, list)
		}
	}
	if lines := strings.Count(text.String(), "\n"); lines != checks+len(files) {
		t.Errorf("%d lines, want one for each of %d checks and %d heads", lines, checks, len(files))
	}
	var once bytes.Buffer
	if err := again.Write(&once); err != nil || once.String() != text.String() {
		t.Errorf("written again it is another text (%v)", err)
	}
}

// Output of check --format json is a baseline as it is.
func TestBaselineOfCheck(t *testing.T) {
	r := report(t, designs+"/basalt64.toml")
	var text bytes.Buffer
	if err := Check(&text, r); err != nil {
		t.Fatal(err)
	}
	b, err := ReadBaseline("margins.json", text.Bytes())
	if err != nil {
		t.Fatal(err)
	}
	if got := b.Of(r); len(got) != len(r.Results)+2 {
		t.Errorf("%d checks of %d", len(got), len(r.Results))
	}
	other := *r.Design
	other.File = "another.toml"
	if b.Of(&casewright.Report{Design: &other}) != nil {
		t.Error("another file has the margins of the first")
	}
	built := *r.Design
	built.Drawn = r.Design
	if b.Of(&casewright.Report{Design: &built}) != nil {
		t.Error("the motor as built has the margins of the drawing")
	}
}

// A design is known by where it is, however it is named: one of the same name
// in another folder is another, neither held against the first nor put in its
// place.
func TestBaselineNames(t *testing.T) {
	r := report(t, designs+"/basalt64.toml")
	at := func(file string) *casewright.Report {
		d := *r.Design
		d.File = file
		named := *r
		named.Design = &d
		return &named
	}
	full, err := filepath.Abs("sub/a.toml")
	if err != nil {
		t.Fatal(err)
	}
	b := NewBaseline("sub/margins.json")
	for _, file := range []string{"sub/a.toml", "./sub/../sub/a.toml", full} {
		if err := b.Renew(at(file)); err != nil {
			t.Fatal(err)
		}
		if len(b.docs) != 1 || b.docs[0].name != "a.toml" {
			t.Errorf("%s: %+v", file, b.docs)
		}
	}
	if b.Of(at("a.toml")) != nil {
		t.Error("a.toml has the margins of sub/a.toml")
	}
	was := b.Copy()
	if err := b.Renew(at("a.toml")); err != nil {
		t.Fatal(err)
	}
	if len(b.docs) != 2 || b.Of(at("sub/a.toml")) == nil || b.Of(at("a.toml")) == nil {
		t.Errorf("%d designs where two are kept", len(b.docs))
	}
	if len(was.docs) != 1 {
		t.Error("a copy has changed with the other")
	}
	if err := b.Renew(at("-")); err != nil || b.Of(at("-")) == nil || b.docs[2].name != "-" {
		t.Errorf("standard input is %q (%v)", b.docs[2].name, err)
	}
	// As written elsewhere.
	for _, name := range []string{"./a.toml", `..\sub\a.toml`, full} {
		var text bytes.Buffer
		if err := Check(&text, at(name)); err != nil {
			t.Fatal(err)
		}
		read, err := ReadBaseline("sub/margins.json", text.Bytes())
		if err != nil {
			t.Fatal(err)
		}
		if read.Of(at("sub/a.toml")) == nil || read.Of(at("a.toml")) != nil {
			t.Errorf("%s is not sub/a.toml alone", name)
		}
		if _, err := ReadBaseline("sub/margins.json", append(text.Bytes(), strings.ReplaceAll(text.String(), name, "a.toml")...)); name == "./a.toml" && err == nil {
			t.Errorf("%s and a.toml may both stand", name)
		}
	}
}

// Every report that is none is told, with its line.
func TestBaselineFaults(t *testing.T) {
	var good bytes.Buffer
	if err := Check(&good, report(t, designs+"/basalt64.toml")); err != nil {
		t.Fatal(err)
	}
	text := "\n" + good.String() +
		`{"format": 2, "kind": "check", "file": "a", "checks": []}` + "\n" +
		`{"format": 1, "kind": "check", "file": "b.toml", "verdict": "invalid", "errors": []}` + "\n" +
		`[]` + "\n" + `{"format": 1, "kind": "check", "file": "c", "verdict": "pass", "checks": [{"part": "tube"}]}` + "\n" +
		good.String() +
		strings.Replace(good.String(), `"kind":"check"`, `"kind":"diff"`, 1) +
		`{"format": 1, "kind": "check", "verdict": "pass", "checks": [{"part": "tube", "id": "x"}]}` + "\n" +
		`{"format": 1, "kind": "check", "file": "d", "verdict": "pass", "checks": []}` + "\n" +
		`{"format": 1, "kind": "check", "file": "e", "verdict": "pass", "checks": [{"id": "x"}]}` + "\n" +
		`{"format": 1,`
	_, err := ReadBaseline("margins.json", []byte(text))
	var faults casewright.Errors
	if !errors.As(err, &faults) {
		t.Fatal(err)
	}
	var got []string
	for _, e := range faults {
		got = append(got, e.Error())
	}
	want := []string{
		"margins.json:3: this is no report of a check of format 1; write it anew: remove the file, then --write-baseline",
		`margins.json:4: "b.toml" was no design that can be checked; write it anew: remove the file, then --write-baseline`,
		"margins.json:5: this is no report of a check: json: cannot unmarshal array into Go value of type",
		"margins.json:6: a check of this report has no part or no id; write it anew: remove the file, then --write-baseline",
		`margins.json:7: "../../../../testdata/designs/basalt64.toml" stands twice; write it anew: remove the file, then --write-baseline`,
		"margins.json:8: this is no report of a check of format 1; write it anew: remove the file, then --write-baseline",
		"margins.json:9: this report has no file or no checks; write it anew: remove the file, then --write-baseline",
		"margins.json:10: this report has no file or no checks; write it anew: remove the file, then --write-baseline",
		"margins.json:11: a check of this report has no part or no id; write it anew: remove the file, then --write-baseline",
		"margins.json:12: this is no JSON: unexpected EOF; write it anew: remove the file, then --write-baseline",
	}
	if len(got) != len(want) {
		t.Fatalf("%q", got)
	}
	for i := range want {
		if !strings.HasPrefix(got[i], want[i]) {
			t.Errorf("%q\nis not %q", got[i], want[i])
		}
	}
}

// What is no JSON is told where it stands.
func TestBaselineSyntax(t *testing.T) {
	for text, place := range map[string][2]int{"x": {1, 1}, "\n  [1,\n 2,, 3]": {3, 4}} {
		_, err := ReadBaseline("margins.json", []byte(text))
		var faults casewright.Errors
		if !errors.As(err, &faults) || len(faults) != 1 || faults[0].Line != place[0] || faults[0].Column != place[1] {
			t.Errorf("%q: %v, want one at %v", text, err, place)
		}
	}
}

// A motor with a part that has no temperature is kept as such.
func TestBaselineCold(t *testing.T) {
	text, err := casewright.ReadText(designs + "/basalt64.toml")
	if err != nil {
		t.Fatal(err)
	}
	for _, cold := range []bool{false, true} {
		if cold {
			text = bytes.Replace(text, []byte(`temperature = "90 °C"`), nil, 1)
		}
		d, err := casewright.Read("a.toml", text)
		if err != nil {
			t.Fatal(err)
		}
		b := NewBaseline("margins.json")
		r := casewright.Check(d)
		if err := b.Renew(r); err != nil {
			t.Fatal(err)
		}
		given := slices.ContainsFunc(b.Of(r), func(k revision.Kept) bool { return k.Part == revision.Motor && k.ID == revision.Temperature })
		if given == cold {
			t.Errorf("cold: %t, temperatures given: %t", cold, given)
		}
	}
}

// No text makes the reader panic; what it reads, it writes so that it reads the
// same.
func FuzzBaseline(f *testing.F) {
	for _, name := range []string{"basalt64", "basalt64-bought-tube"} {
		var text bytes.Buffer
		if err := Check(&text, report(f, designs+"/"+name+".toml")); err != nil {
			f.Fatal(err)
		}
		f.Add(text.Bytes())
	}
	f.Add([]byte(`{"format":1,"kind":"check","file":"a","verdict":"pass","checks":[{"part":"tube","id":"tube.hoop","margin":1.5,"min":{"value":1,"unit":"1"}}]}`))
	f.Add([]byte("[]{}1 null \"\\u0000\""))
	f.Fuzz(func(t *testing.T, text []byte) {
		b, err := ReadBaseline("margins.json", text)
		if err != nil {
			var faults casewright.Errors
			if !errors.As(err, &faults) || len(faults) == 0 {
				t.Fatalf("%T", err)
			}
			return
		}
		var written bytes.Buffer
		if err := b.Write(&written); err != nil {
			t.Fatal(err)
		}
		again, err := ReadBaseline("margins.json", written.Bytes())
		if err != nil || len(again.docs) != len(b.docs) {
			t.Fatalf("%v\n%s", err, written.Bytes())
		}
		for i := range b.docs {
			if diff := cmp.Diff(b.docs[i].checks, again.docs[i].checks, cmpopts.EquateNaNs()); diff != "" {
				t.Error(diff)
			}
		}
	})
}

// What is kept of a limit tells whether it was the file's own.
func TestBaselineKeepsOwnLimit(t *testing.T) {
	text, err := casewright.ReadText(designs + "/basalt64.toml")
	if err != nil {
		t.Fatal(err)
	}
	d, err := casewright.Read("basalt64.toml", bytes.Replace(text, []byte("[tube]"), []byte("[limits]\n\"seal.gap\" = \"0.3 mm\"\n\n[tube]"), 1))
	if err != nil {
		t.Fatal(err)
	}
	r := casewright.Check(d)
	b := NewBaseline("margins.json")
	if err := b.Renew(r); err != nil {
		t.Fatal(err)
	}
	for _, k := range b.Of(r) {
		if want := k.ID == "seal.gap"; k.Own != want {
			t.Errorf("%s: own %v", k.Name(), k.Own)
		}
	}
}
