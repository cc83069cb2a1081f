// Package sarif writes findings as a log in the Static Analysis Results
// Interchange Format, version 2.1.0, by which code hosts mark lines.
//
// Source: OASIS, SARIF Version 2.1.0 Plus Errata 01 (2023-08-28); numbers in
// comments are its sections.
package sarif

import (
	"bytes"
	"crypto/sha256"
	"encoding/json"
	"fmt"
	"io"
	"net/url"
	"path/filepath"
	"strings"

	"casewright"
	"casewright/cmd/casewright/internal/findings"
)

// result is one finding (3.27).
type result struct {
	RuleID       string            `json:"ruleId"`
	RuleIndex    int               `json:"ruleIndex"`
	Kind         string            `json:"kind"`
	Level        string            `json:"level"`
	Message      text              `json:"message"`
	Locations    []location        `json:"locations"`
	Fingerprints map[string]string `json:"partialFingerprints"`
}

type location struct {
	Physical physical `json:"physicalLocation"`
}

type physical struct {
	Artifact artifact `json:"artifactLocation"`
	Region   region   `json:"region"`
}

type artifact struct {
	URI string `json:"uri"`
}

type region struct {
	Line   int `json:"startLine"`
	Column int `json:"startColumn,omitempty"`
}

// tool is what made the log (3.18).
type tool struct {
	Driver driver `json:"driver"`
}

type driver struct {
	Name     string `json:"name"`
	Version  string `json:"version"`
	Semantic string `json:"semanticVersion"`
	Rules    []rule `json:"rules"`
}

// A Log is one log for all files. It is written as its results come in, so
// that none of them is kept.
type Log struct {
	index map[string]int // of a rule
	tool  tool
}

// New makes an empty log.
func New() *Log {
	l := &Log{map[string]int{}, tool{driver{"casewright", casewright.Version, casewright.Version, rules()}}}
	for i, r := range l.tool.Driver.Rules {
		l.index[r.ID] = i
	}
	return l
}

// Between stands between the results of two files that have any.
const Between = ",\n"

// Begin writes what stands before the first result.
func (l *Log) Begin(w io.Writer) error {
	text, err := encoded(l.tool)
	if err != nil {
		return err
	}
	// Columns are counted as Go counts runes (3.14.17).
	_, err = fmt.Fprintf(w, `{"$schema":"https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json","version":"2.1.0","runs":[{"tool":%s,"columnKind":"unicodeCodePoints","results":[`+"\n", text)
	return err
}

// End writes what stands after the last result, with the exit status. Of a
// file that is bad no check was made: such a run has not succeeded, lest a host
// takes for mended what was not looked at (3.20.14).
func (l *Log) End(w io.Writer, exit int) error {
	_, err := fmt.Fprintf(w, "\n"+`],"invocations":[{"executionSuccessful":%t,"exitCode":%d}]}]}`+"\n", exit <= 1, exit)
	return err
}

// Write writes the results of one file, one a line; nothing where it has none.
func (l *Log) Write(w io.Writer, list []findings.Finding) error {
	seen := map[string]int{}
	var lines [][]byte
	for i := range list {
		f := &list[i]
		print := fingerprint(f)
		seen[print]++
		line, err := encoded(l.result(f, print, seen[print]))
		if err != nil {
			return err
		}
		lines = append(lines, line)
	}
	_, err := w.Write(bytes.Join(lines, []byte(Between)))
	return err
}

// result is a finding that is the n-th of its file with that fingerprint.
func (l *Log) result(f *findings.Finding, print string, n int) result {
	sum := sha256.Sum256([]byte(print))
	r := result{
		RuleID: f.ID, RuleIndex: l.index[f.ID], Kind: "fail", Level: "error", Message: text{message(f)},
		Locations: []location{{physical{artifact{uri(f.File)}, region{max(1, f.Line), f.Column}}}},
		// The second is the one by which GitHub knows a finding again; it may
		// be anything that stays when lines move.
		Fingerprints: map[string]string{
			"casewright/v1":           fmt.Sprintf("%s:%d", print, n),
			"primaryLocationLineHash": fmt.Sprintf("%x:%d", sum[:8], n),
		},
	}
	if f.Kind == findings.Noted {
		// The kind stays "fail": any other must have the level "none", with
		// which a host shows nothing (SARIF 2.1.0, 3.27.10).
		r.Level = "note"
	}
	return r
}

// fingerprint stays when lines move: part and id of a check, the key and what
// is wrong with it of a fault.
func fingerprint(f *findings.Finding) string {
	if f.Kind == findings.Fault {
		return f.Name() + "/" + f.Key + ": " + f.Text
	}
	return f.Name()
}

// message is the finding as a sentence that stands by itself.
func message(f *findings.Finding) string {
	text := strings.TrimSuffix(f.Sentence(), ".") + "."
	switch f.Kind {
	case findings.Fault:
		return text
	case findings.Noted:
		return f.Note + ": " + text
	case findings.Failed, findings.Refused:
	}
	return f.Name() + ": " + text
}

// uri is a file as a relative reference, percent-encoded; one with a full path
// as a file URI (RFC 3986; RFC 8089). Standard input gets a name.
func uri(file string) string {
	if file == "-" {
		return "standard-input"
	}
	u := url.URL{Path: filepath.ToSlash(filepath.Clean(file))}
	if filepath.IsAbs(file) {
		u.Scheme, u.Path = "file", "/"+strings.TrimPrefix(u.Path, "/") // a volume has no slash of its own
	}
	return u.String()
}

func encoded(doc any) ([]byte, error) {
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	err := e.Encode(doc)
	return bytes.TrimSuffix(b.Bytes(), []byte("\n")), err
}
