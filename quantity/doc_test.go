package quantity_test

import (
	"go/parser"
	"go/token"
	"regexp"
	"strings"
	"testing"

	"casewright/quantity"
)

// Every example in the package comment is accepted.
func TestPackageCommentIsTrue(t *testing.T) {
	f, err := parser.ParseFile(token.NewFileSet(), "doc.go", nil, parser.ParseComments)
	if err != nil {
		t.Fatal(err)
	}
	examples := 0
	for line := range strings.Lines(f.Doc.Text()) {
		if !strings.HasPrefix(line, "\t") {
			continue
		}
		for _, text := range regexp.MustCompile(`\s{2,}`).Split(strings.TrimSpace(line), -1) {
			examples++
			accepted := false
			if _, err := quantity.ParseDimension(text); err == nil {
				accepted = true
			}
			for _, k := range everyKind() {
				if _, err := quantity.Parse(k, text); err == nil {
					accepted = true
				}
			}
			if !accepted {
				t.Errorf("%q is refused", text)
			}
		}
	}
	if examples != 12 {
		t.Errorf("%d examples", examples)
	}
}
