// Package junit writes what came of design files as JUnit XML, which servers
// that build and test show check by check.
//
// There is no standard. This is what the schema of the Jenkins xUnit plugin
// allows; no clock is read, so that the same files give the same bytes.
package junit

import (
	"encoding/xml"
	"fmt"
	"io"
	"strings"

	"casewright"
	"casewright/cmd/casewright/internal/findings"
	"casewright/cmd/casewright/internal/table"
)

// suite is one file.
type suite struct {
	XMLName  xml.Name `xml:"testsuite"`
	Name     string   `xml:"name,attr"`
	Tests    int      `xml:"tests,attr"`
	Failures int      `xml:"failures,attr"`
	Errors   int      `xml:"errors,attr"`
	Skipped  int      `xml:"skipped,attr"`
	Time     int      `xml:"time,attr"` // 0: nothing is timed
	Cases    []test   `xml:"testcase"`
}

// test is one check, or the reading of a file that cannot be checked.
type test struct {
	Class   string   `xml:"classname,attr"`
	Name    string   `xml:"name,attr"`
	Time    int      `xml:"time,attr"`
	Error   *problem `xml:"error"`
	Failure *problem `xml:"failure"`
	Out     string   `xml:"system-out,omitempty"`
}

// problem is why a test does not pass.
type problem struct {
	Message string `xml:"message,attr"`
	Type    string `xml:"type,attr"`
	Text    string `xml:",chardata"`
}

// types are the kinds of findings as the type of a problem.
var types = map[findings.Kind]string{findings.Fault: "fault", findings.Failed: "fail", findings.Refused: "refused", findings.Lost: "lost"}

// Begin and End stand before the first file and after the last.
const (
	Begin = xml.Header + "<testsuites name=\"casewright\">\n"
	End   = "</testsuites>\n"
)

// Write writes one file as a suite of tests: each check a test of its part. A
// file with faults is one test, its error has them all.
func Write(w io.Writer, o *findings.Outcome, list []findings.Finding, units string) error {
	s := suite{Name: findings.Title(o.File)}
	if o.Report == nil {
		s.Cases = []test{{Class: findings.Title(o.File), Name: findings.FaultID, Error: faults(list)}}
		s.Errors = 1
	} else {
		for i := range o.Report.Results {
			r := &o.Report.Results[i]
			one := test{Class: r.Part, Name: r.Method.ID}
			// The findings stand in the order of the checks.
			if len(list) > 0 && list[0].Part == r.Part && list[0].ID == r.Method.ID {
				f := &list[0]
				one.Failure = &problem{f.Sentence(), types[f.Kind], body(f)}
				s.Failures++
				list = list[1:]
			} else {
				one.Out = passing(o.Report, r, units)
			}
			s.Cases = append(s.Cases, one)
		}
		for i := range list {
			f := &list[i]
			s.Cases = append(s.Cases, test{Class: f.ID, Name: f.Note, Failure: &problem{f.Sentence(), types[f.Kind], body(f)}})
			s.Failures++
		}
		if o.Baseline != "" && len(list) == 0 {
			s.Cases = append(s.Cases, test{Class: findings.LostID, Name: "all", Out: "nothing is lost against " + o.Baseline})
		}
	}
	s.Tests = len(s.Cases)
	text, err := xml.MarshalIndent(s, "  ", "  ")
	if err != nil {
		return err
	}
	_, err = w.Write(append(text, '\n'))
	return err
}

// faults is the problem of a file that cannot be checked: the first fault, and
// all of them.
func faults(list []findings.Finding) *problem {
	p := &problem{Type: types[findings.Fault]}
	var lines []string
	for i := range list {
		lines = append(lines, body(&list[i]))
	}
	if len(list) > 0 {
		p.Message = list[0].Sentence()
	}
	if more := len(list) - 1; more > 0 {
		p.Message += fmt.Sprintf(" (and %d more)", more)
	}
	p.Text = strings.Join(lines, "\n")
	return p
}

// body is a finding with its place.
func body(f *findings.Finding) string {
	if f.Line == 0 {
		return findings.Title(f.File) + ": " + f.Sentence()
	}
	return fmt.Sprintf("%s:%d: %s", findings.Title(f.File), f.Line, f.Sentence())
}

// passing is what a check that passes or is only told has to say.
func passing(report *casewright.Report, r *casewright.Result, units string) string {
	lines := []string{table.Stands(report, r, table.Options{Units: units})}
	for _, n := range r.Notes.List() {
		lines = append(lines, n.ID()+": "+n.Text())
	}
	return strings.Join(lines, "\n")
}
