package findings

import (
	"bytes"
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
		text = bytes.ReplaceAll(text, []byte("¶"), nil) // which marks where a file is bad
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
			if f.Line <= len(lines) && strings.HasPrefix(strings.TrimSpace(lines[f.Line-1]), "["+strings.TrimSuffix(f.Key, "."+name)+"]") {
				continue // the table that the key is missing from
			}
			if f.Line > len(lines) || !strings.Contains(lines[f.Line-1], name) || f.Column < 1 || f.Column > len([]rune(lines[f.Line-1])) {
				t.Errorf("%s: %s: line %d, column %d holds no %s", file, f.Name(), f.Line, f.Column, name)
			}
		}
	}
	if placed < 15 {
		t.Errorf("%d findings of checks have a place", placed)
	}
}

// What a default was taken for stands at its table, and what is noted at the
// first check that bears the note; each note that asks for something once.
func TestPlaces(t *testing.T) {
	text := strings.Replace(casewright.Example, "\n", "\n\n", 1)
	text = strings.Replace(text, `temperature = "90 °C"`, "", 1)
	text = strings.Replace(text, `temperature = "60 °C"`, "", 1)
	design, err := casewright.Read("x.toml", []byte(text))
	if err != nil {
		t.Fatal(err)
	}
	o := &Outcome{File: "x.toml", Report: casewright.Check(design)}
	lines, seen, placed := strings.Split(text, "\n"), map[string]bool{}, 0
	for _, f := range Notes(o) {
		if seen[f.Name()] || f.Kind != Noted || f.ID != NoteID || f.Note == "" || f.Text == "" || f.Name() != "note/"+f.Note {
			t.Errorf("%+v", f)
		}
		seen[f.Name()] = true
		if f.Line == 0 {
			continue
		}
		placed++
		name := f.Key[strings.LastIndexByte(f.Key, '.')+1:]
		if line := lines[f.Line-1]; !strings.Contains(line, name) && !strings.Contains(line, "["+strings.TrimSuffix(f.Key, "."+name)+"]") {
			t.Errorf("%s: line %d holds neither %s nor its table: %s", f.Name(), f.Line, f.Key, line)
		}
	}
	if !seen["note/cold"] || seen["note/size_range"] || placed < 3 {
		t.Errorf("%d placed of %v", placed, seen)
	}
	if Notes(&Outcome{Faults: casewright.Errors{{Message: "x"}}}) != nil {
		t.Error("a bad file has notes")
	}
	for key, want := range map[string]string{
		"tube.temperature": "[tube]", "end.port": "[[end]]", "end.seal.hardness": "[end.seal]", "end.screws.torque": "[end.screws]", "motor.burn_time": "", "end.heat.cover": "",
	} {
		at := placeOf(design, casewright.Place{Key: key}, 2)
		switch {
		case at.Line == 0 && want != "":
			t.Errorf("%s has no place", key)
		case at.Line > 0 && !strings.HasPrefix(strings.TrimSpace(lines[at.Line-1]), want) || at.Line > 0 && want == "":
			t.Errorf("%s stands at %q, not at %s", key, lines[at.Line-1], want)
		}
	}
	if at := placeOf(design, casewright.Place{Key: "end.seal.hardness"}, 0); at.Line != 0 {
		t.Errorf("a key of an end is placed in the tube: %+v", at)
	}
}
