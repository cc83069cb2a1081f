package editor

import (
	"strings"
	"testing"

	"casewright/cmd/casewright/internal/findings"
)

func TestWrite(t *testing.T) {
	var b strings.Builder
	err := Write(&b, []findings.Finding{
		{File: "a b.toml", Line: 7, Column: 3, Kind: findings.Failed, Part: "nozzle", ID: "hole.edge", Text: "too near", Write: "Write edge = 1"},
		{File: "-", Kind: findings.Fault, ID: findings.FaultID, Text: "there is\nno file\x1b", Write: "a name"},
	})
	want := "a b.toml:7:3: error: nozzle/hole.edge: too near; write edge = 1\n-:1:1: error: there is\uFFFDno file\uFFFD; write a name\n"
	if err != nil || b.String() != want {
		t.Errorf("%v, %q, want %q", err, b.String(), want)
	}
}
