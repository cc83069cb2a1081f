package findings

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"casewright"
	"casewright/margin"
)

// Every fault of a file is a finding, and every check that fails or is refused;
// each of a file stands at a line of it that holds its key.
func TestOf(t *testing.T) {
	files, err := filepath.Glob("../../../../testdata/*/*.toml")
	if err != nil || len(files) < 100 {
		t.Fatal(len(files), err)
	}
	placed := 0
	for _, file := range files {
		text, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		lines := strings.Split(string(text), "\n")
		o := &Outcome{File: file}
		design, err := casewright.Read(file, text)
		want := 0
		if err != nil {
			if !errors.As(err, &o.Faults) {
				t.Fatal(err)
			}
			want = len(o.Faults)
		} else {
			o.Report = casewright.Check(design)
			for i := range o.Report.Results {
				if v := o.Report.Results[i].Verdict; v == margin.Fail || v == margin.Refused {
					want++
				}
			}
		}
		list := Of(o, "auto")
		if len(list) != want {
			t.Errorf("%s: %d findings, not %d", file, len(list), want)
		}
		for i := range list {
			f := &list[i]
			if f.File != file || f.Text == "" || f.Kind != Fault && (f.Write == "" || f.Part == "") {
				t.Errorf("%s: %+v", file, f)
			}
			if strings.Contains(f.Sentence(), "\n") || strings.HasSuffix(f.Text, ".") || strings.Contains(f.Sentence(), "write write") {
				t.Errorf("%s: %s", file, f.Sentence())
			}
			name := f.Key[strings.LastIndexByte(f.Key, '.')+1:]
			if f.Kind == Fault || f.Line == 0 {
				continue
			}
			placed++
			if f.Line > len(lines) || !strings.Contains(lines[f.Line-1], name) || f.Column < 1 || f.Column > len([]rune(lines[f.Line-1])) {
				t.Errorf("%s: %s: line %d, column %d holds no %s", file, f.Name(), f.Line, f.Column, name)
			}
		}
	}
	if placed < 15 {
		t.Errorf("%d findings of checks have a place", placed)
	}
}
