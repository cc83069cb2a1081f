package main

import (
	"bytes"
	"encoding/json"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"net/url"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"unicode/utf8"

	"pgregory.net/rapid"

	"casewright"
	"casewright/cmd/casewright/internal/findings"
	"casewright/margin"
)

// written is what a format makes of outcomes, as the command writes it.
func written(t interface{ Fatal(...any) }, name string, exit int, list ...*findings.Outcome) string {
	c := &checkCmd{Format: name, screen: screen{Units: "auto", Color: "never"}}
	f := c.format(&streams{width: 80})
	var out bytes.Buffer
	if f.begin != nil {
		if err := f.begin(&out); err != nil {
			t.Fatal(err)
		}
	}
	some := false
	for _, o := range list {
		var one bytes.Buffer
		if err := f.file(&one, io.Discard, o); err != nil {
			t.Fatal(err)
		}
		if some && one.Len() > 0 {
			out.WriteString(f.between)
		}
		some = some || one.Len() > 0
		out.Write(one.Bytes())
	}
	if f.end != nil {
		if err := f.end(&out, exit); err != nil {
			t.Fatal(err)
		}
	}
	return out.String()
}

// suites is JUnit XML as a reader of it sees it.
type suites struct {
	XMLName xml.Name `xml:"testsuites"`
	Suites  []struct {
		Name     string `xml:"name,attr"`
		Tests    int    `xml:"tests,attr"`
		Failures int    `xml:"failures,attr"`
		Errors   int    `xml:"errors,attr"`
		Skipped  int    `xml:"skipped,attr"`
		Cases    []struct {
			Class   string   `xml:"classname,attr"`
			Name    string   `xml:"name,attr"`
			Failure *problem `xml:"failure"`
			Error   *problem `xml:"error"`
			Out     *string  `xml:"system-out"`
		} `xml:"testcase"`
	} `xml:"testsuite"`
}

type problem struct {
	Message string `xml:"message,attr"`
	Type    string `xml:"type,attr"`
	Text    string `xml:",chardata"`
}

// readJUnit reads JUnit XML, which must have no more than that.
func readJUnit(text string) (s suites, err error) {
	d := xml.NewDecoder(strings.NewReader(text))
	if err = d.Decode(&s); err == nil {
		if _, more := d.Token(); !errors.Is(more, io.EOF) {
			_, more = d.Token()
			if !errors.Is(more, io.EOF) {
				err = fmt.Errorf("more after the end: %w", more)
			}
		}
	}
	return s, err
}

// sarifLog is SARIF as a reader of it sees it.
type sarifLog struct {
	Version string `json:"version"`
	Runs    []struct {
		Tool struct {
			Driver struct {
				Version string `json:"semanticVersion"`
				Rules   []struct {
					ID            string `json:"id"`
					Name          string `json:"name"`
					Configuration struct {
						Level string `json:"level"`
					} `json:"defaultConfiguration"`
				} `json:"rules"`
			} `json:"driver"`
		} `json:"tool"`
		ColumnKind string `json:"columnKind"`
		Results    []struct {
			RuleID    string `json:"ruleId"`
			RuleIndex int    `json:"ruleIndex"`
			Kind      string `json:"kind"`
			Level     string `json:"level"`
			Message   struct {
				Text string `json:"text"`
			} `json:"message"`
			Locations []struct {
				Physical struct {
					Artifact struct {
						URI string `json:"uri"`
					} `json:"artifactLocation"`
					Region struct {
						Line   int `json:"startLine"`
						Column int `json:"startColumn"`
					} `json:"region"`
				} `json:"physicalLocation"`
			} `json:"locations"`
			Fingerprints map[string]string `json:"partialFingerprints"`
		} `json:"results"`
		Invocations []struct {
			Successful bool `json:"executionSuccessful"`
			Exit       int  `json:"exitCode"`
		} `json:"invocations"`
	} `json:"runs"`
}

// any text, with what breaks formats more often than chance has it.
func anyText() *rapid.Generator[string] {
	return rapid.OneOf(
		rapid.String(),
		rapid.SampledFrom([]string{
			"", "-", "a|b", "a&b<c>\"'", "]]>", "<!-- -->", "</failure>", "\x00\x01\x1b[31m", "\xff\xfe", "\uFFFE\uFFFF", "%41 %", "a:3:4: error: b",
			"a\nb\r\nc", "\u2028\u2029", "ü ß 密", "# x", "- x", "1. x", "```", "$x$", "&lt;", "C:\\x", "//x", "/x y", "../x", "http://x", "\\", "\U0001F600",
		}),
		rapid.Map(rapid.SliceOf(rapid.Byte()), func(b []byte) string { return string(b) }),
	)
}

// outcome draws what came of a file: faults of any text, or a report of a
// design of any name.
func outcome() *rapid.Generator[*findings.Outcome] {
	report := casewright.Check(mustRead(casewright.Example))
	return rapid.Custom(func(t *rapid.T) *findings.Outcome {
		o := &findings.Outcome{File: anyText().Draw(t, "file")}
		if rapid.Bool().Draw(t, "faulty") {
			for range rapid.IntRange(1, 4).Draw(t, "faults") {
				o.Faults = append(o.Faults, &casewright.Error{
					File: o.File, Line: rapid.IntRange(0, 90).Draw(t, "line"), Column: rapid.IntRange(0, 90).Draw(t, "column"),
					Key: anyText().Draw(t, "key"), Message: anyText().Draw(t, "message"), Write: anyText().Draw(t, "write"),
				})
			}
			return o
		}
		r := *report
		r.Design = report.Design.Clone()
		r.Design.File, r.Design.Name.Value = o.File, anyText().Draw(t, "name")
		r.Results = slices.Clone(report.Results)
		part := anyText().Draw(t, "part")
		for i := range r.Results {
			one := &r.Results[i]
			if one.Part == "nozzle" {
				one.Part = part
			}
			// To find a remedy takes long, and none is there for a refusal.
			if i%9 == 0 && one.Verdict == margin.Pass {
				one.Verdict, one.Reason = margin.Refused, margin.NotANumber
			}
		}
		r.Verdict = margin.Refused
		r.Notes = append(slices.Clone(r.Notes), casewright.Note{ID: "own_limits", Text: anyText().Draw(t, "note")})
		o.Report = &r
		return o
	})
}

func mustRead(text string) *casewright.Design {
	d, err := casewright.Read("example", []byte(text))
	if err != nil {
		panic(err)
	}
	return d
}

// counts are how many checks of an outcome are refused or fail, and how many
// there are.
func counts(o *findings.Outcome) (bad, all int) {
	if o.Report == nil {
		return 0, 1
	}
	for i := range o.Report.Results {
		if v := o.Report.Results[i].Verdict; v == margin.Fail || v == margin.Refused {
			bad++
		}
	}
	return bad, len(o.Report.Results)
}

// TestJUnitOfAnyText: whatever names and texts are, the document is well-formed
// and counts are right.
func TestJUnitOfAnyText(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		list := rapid.SliceOfN(outcome(), 0, 3).Draw(t, "outcomes")
		text := written(t, "junit", 0, list...)
		s, err := readJUnit(text)
		if err != nil {
			t.Fatalf("%v:\n%s", err, text)
		}
		if len(s.Suites) != len(list) {
			t.Fatalf("%d suites of %d files", len(s.Suites), len(list))
		}
		for i, o := range list {
			one, errs, fails := s.Suites[i], 0, 0
			for _, c := range one.Cases {
				if c.Error != nil {
					errs++
				}
				if c.Failure != nil {
					fails++
				}
			}
			bad, all := counts(o)
			wantErrors := 0
			if o.Report == nil {
				wantErrors = 1
			}
			if one.Tests != all || len(one.Cases) != all || one.Failures != bad || fails != bad || one.Errors != wantErrors || errs != wantErrors || one.Skipped != 0 {
				t.Fatalf("suite %d: %d tests (%d), %d failures (%d), %d errors (%d); want %d, %d, %d", i, one.Tests, len(one.Cases), one.Failures, fails, one.Errors, errs, all, bad, wantErrors)
			}
		}
	})
}

// TestSARIFOfAnyText: the log is JSON, refers to rules that are there, and its
// addresses lead back to the files.
func TestSARIFOfAnyText(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		list := rapid.SliceOfN(outcome(), 0, 3).Draw(t, "outcomes")
		exit := rapid.IntRange(0, 2).Draw(t, "exit")
		var log sarifLog
		text := written(t, "sarif", exit, list...)
		if !utf8.ValidString(text) {
			t.Fatal("not UTF-8")
		}
		if err := json.Unmarshal([]byte(text), &log); err != nil {
			t.Fatalf("%v:\n%s", err, text)
		}
		run := log.Runs[0]
		if len(log.Runs) != 1 || log.Version != "2.1.0" || run.ColumnKind != "unicodeCodePoints" || len(run.Invocations) != 1 ||
			run.Invocations[0].Exit != exit || run.Invocations[0].Successful != (exit < 2) {
			t.Fatalf("%d runs, %+v", len(log.Runs), run.Invocations)
		}
		want := map[string]int{} // by file
		for _, o := range list {
			bad, _ := counts(o)
			want[o.File] += bad + len(o.Faults)
		}
		got := map[string]int{}
		for _, r := range run.Results {
			if run.Tool.Driver.Rules[r.RuleIndex].ID != r.RuleID || r.Message.Text == "" {
				t.Fatalf("%+v", r)
			}
			at := r.Locations[0].Physical
			u, err := url.Parse(at.Artifact.URI)
			if err != nil || at.Region.Line < 1 {
				t.Fatalf("%+v: %v", at, err)
			}
			// SARIF 2.1.0, 3.27.10: a kind other than "fail" has the level "none".
			if r.Kind != "fail" && r.Level != "none" {
				t.Fatalf("kind %s with level %s", r.Kind, r.Level)
			}
			if r.Level != "error" {
				continue
			}
			for file := range want {
				if p := filepath.Clean(file); u.Path == p || "./"+p == u.Path || file == "-" && u.Path == "standard-input" {
					got[file]++
				}
			}
		}
		for file, n := range want {
			// Two names may be one file, as "a" and "./a".
			if got[file] < n {
				t.Fatalf("%q has %d results, not %d", file, got[file], n)
			}
		}
	})
}

var message = regexp.MustCompile(`^.*:([1-9]\d*):([1-9]\d*): error: .*$`)

// TestLinesOfAnyText: one finding, one line.
func TestLinesOfAnyText(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		o := outcome().Draw(t, "outcome")
		list := findings.Of(o, "auto")
		lines := strings.Split(strings.TrimSuffix(written(t, "line", 0, o), "\n"), "\n")
		if len(list) == 0 {
			lines = nil
		}
		if len(lines) != len(list) {
			t.Fatalf("%d lines of %d findings", len(lines), len(list))
		}
		for i, line := range lines {
			if !message.MatchString(line) || !strings.HasPrefix(line, plainName(o.File)+fmt.Sprintf(":%d:%d:", max(1, list[i].Line), max(1, list[i].Column))) {
				t.Fatalf("%q of %+v", line, list[i])
			}
		}
	})
}

// plainName is a name as a line has it.
func plainName(name string) string {
	return regexp.MustCompile(`[\p{Cc}\x{2028}\x{2029}]`).ReplaceAllString(string([]rune(name)), "\uFFFD")
}

// TestMarkdownOfAnyText: rows of tables have the cells of their heads, and no
// text begins a block of its own.
func TestMarkdownOfAnyText(t *testing.T) {
	unescaped := regexp.MustCompile(`\\.`)
	rapid.Check(t, func(t *rapid.T) {
		text := written(t, "markdown", 0, outcome().Draw(t, "outcome"))
		cells := 0
		for _, line := range strings.Split(text, "\n") {
			bare := unescaped.ReplaceAllString(line, "")
			switch {
			case strings.HasPrefix(line, "| "):
				if n := strings.Count(bare, "|"); cells != 0 && n != cells {
					t.Fatalf("%d bars, not %d: %s", n, cells, line)
				} else {
					cells = n
				}
				continue
			case line == "", strings.HasPrefix(line, "#"), strings.HasPrefix(line, "**") && strings.HasSuffix(line, "**"):
			default:
				t.Fatalf("a line of its own: %q", line)
			}
			cells = 0
			if strings.ContainsAny(bare, "<`&[") {
				t.Fatalf("marks that are not escaped: %q", line)
			}
		}
	})
}

// allFiles lays the designs and the bad files, without the marks of where they
// are bad, into a folder of their own, makes it the current one and names them.
func allFiles(t *testing.T) (files []string) {
	paths, err := filepath.Glob("../../testdata/*/*.toml")
	if err != nil || len(paths) < 100 {
		t.Fatal(len(paths), err)
	}
	dir := t.TempDir()
	for _, path := range paths {
		text, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(filepath.Join(dir, filepath.Base(path)), bytes.ReplaceAll(text, []byte("¶"), nil), 0o666); err != nil {
			t.Fatal(err)
		}
		files = append(files, filepath.Base(path))
	}
	t.Chdir(dir)
	return files
}

// TestFormatsAgree: over all files that there are, each format tells the same
// findings as JSON does.
func TestFormatsAgree(t *testing.T) {
	files := allFiles(t)
	run := func(format string) string {
		code, out, errs := casewrightRun("", append([]string{"check", "--format", format}, files...)...)
		if code != exitInput || errs != "" {
			t.Fatalf("%s: exit status %d, %q", format, code, errs)
		}
		return out
	}
	s, err := readJUnit(run("junit"))
	if err != nil {
		t.Fatal(err)
	}
	var log sarifLog
	if err := json.Unmarshal([]byte(run("sarif")), &log); err != nil {
		t.Fatal(err)
	}
	lines := strings.Split(strings.TrimSpace(run("line")), "\n")
	markdown := strings.Split("\n"+run("markdown"), "\n## ")[1:]
	docs := strings.Split(strings.TrimSpace(run("json")), "\n")
	if len(s.Suites) != len(files) || len(markdown) != len(files) || len(docs) != len(files) {
		t.Fatalf("%d files: %d suites, %d summaries, %d documents", len(files), len(s.Suites), len(markdown), len(docs))
	}
	results := 0
	for i, file := range files {
		var d struct {
			Verdict string           `json:"verdict"`
			Checks  []map[string]any `json:"checks"`
			Errors  []map[string]any `json:"errors"`
		}
		if err := json.Unmarshal([]byte(docs[i]), &d); err != nil {
			t.Fatal(err)
		}
		bad := len(d.Errors)
		for _, c := range d.Checks {
			if v := c["verdict"]; v == "fail" || v == "refused" {
				bad++
			}
		}
		one := s.Suites[i]
		if one.Name != file || one.Failures+one.Errors != min(bad, 1)*map[bool]int{true: 1, false: bad}[d.Errors != nil] {
			t.Errorf("JUnit of %s: %d failures, %d errors of %d", one.Name, one.Failures, one.Errors, bad)
		}
		for _, e := range d.Errors {
			if text := one.Cases[0].Error.Text; !strings.Contains(text, strings.TrimSuffix(e["message"].(string), ".")) || e["line"] != nil && !strings.Contains(text, fmt.Sprintf("%s:%v: ", file, e["line"])) {
				t.Errorf("JUnit of %s: %v is not told", file, e)
			}
		}
		n := 0
		for _, line := range lines {
			if strings.HasPrefix(line, file+":") {
				n++
			}
		}
		if n != bad {
			t.Errorf("%s: %d lines of %d findings", file, n, bad)
		}
		n = 0
		for _, r := range log.Runs[0].Results {
			if r.Level == "error" && r.Locations[0].Physical.Artifact.URI == file {
				n++
			}
		}
		results += n
		if n != bad {
			t.Errorf("%s: %d results of %d findings", file, n, bad)
		}
		if passes := strings.Contains(markdown[i], "**✓ PASS"); passes != (d.Verdict == "pass") {
			t.Errorf("%s is %s in JSON, and in Markdown:\n%s", file, d.Verdict, markdown[i])
		}
	}
	if results < len(files)-3 || log.Runs[0].Invocations[0].Exit != exitInput {
		t.Errorf("%d results of %d files", results, len(files))
	}
	seen := map[string]bool{}
	for i := range lines {
		if seen[lines[i]] {
			t.Errorf("a line stands twice: %s", lines[i])
		}
		seen[lines[i]] = true
	}
}

// TestRules: each check has its rule, once, with a level.
func TestRules(t *testing.T) {
	var log sarifLog
	if err := json.Unmarshal([]byte(written(t, "sarif", 0)), &log); err != nil {
		t.Fatal(err)
	}
	rules := log.Runs[0].Tool.Driver.Rules
	if len(rules) != len(casewright.Methods())+3 || log.Runs[0].Tool.Driver.Version != casewright.Version || len(log.Runs[0].Results) != 0 {
		t.Errorf("%d rules of %d checks", len(rules), len(casewright.Methods()))
	}
	ids, names := map[string]bool{}, map[string]bool{}
	for _, r := range rules {
		if ids[r.ID] || names[r.Name] || r.Configuration.Level == "" {
			t.Errorf("%+v", r)
		}
		ids[r.ID], names[r.Name] = true, true
	}
	for _, m := range casewright.Methods() {
		if !ids[m.ID] {
			t.Errorf("%s has no rule", m.ID)
		}
	}
	if !ids[findings.FaultID] || !ids[findings.NoteID] {
		t.Error("faults or notes have no rule")
	}
}

// TestFingerprints: lines may move, and a finding is known again; no two
// findings of a file are taken for one.
func TestFingerprints(t *testing.T) {
	dir := t.TempDir()
	prints := func(text string) (list []string) {
		file := filepath.Join(dir, "x.toml")
		if err := os.WriteFile(file, []byte(text), 0o666); err != nil {
			t.Fatal(err)
		}
		_, out, _ := casewrightRun("", "check", "--format", "sarif", file)
		var log sarifLog
		if err := json.Unmarshal([]byte(out), &log); err != nil {
			t.Fatal(err)
		}
		for _, r := range log.Runs[0].Results {
			for _, key := range []string{"casewright/v1", "primaryLocationLineHash"} {
				if slices.Contains(list, r.Fingerprints[key]) || r.Fingerprints[key] == "" {
					t.Errorf("%s %q stands twice or is empty", key, r.Fingerprints[key])
				}
				list = append(list, r.Fingerprints[key])
			}
		}
		return list
	}
	for _, name := range []string{"designs/basalt64-short-edge.toml", "invalid/end-many-faults.toml", "invalid/material-values.toml"} {
		text, err := os.ReadFile("../../testdata/" + name)
		if err != nil {
			t.Fatal(err)
		}
		plain := strings.ReplaceAll(string(text), "¶", "")
		before, after := prints(plain), prints("# one line more\n"+plain)
		if len(before) < 4 || !slices.Equal(before, after) {
			t.Errorf("%s: %q, moved %q", name, before, after)
		}
	}
}
