// Package editor writes findings as the lines of a compiler's messages, which
// editors find their way by.
package editor

import (
	"fmt"
	"io"
	"strings"
	"unicode"

	"casewright/cmd/casewright/internal/findings"
)

// Write writes one finding a line, as "file:line:column: error: text". What has
// no place stands at the first line.
func Write(w io.Writer, list []findings.Finding) error {
	var b strings.Builder
	for i := range list {
		f := &list[i]
		text := f.Sentence()
		if f.Part != "" || f.Kind == findings.Lost {
			text = f.Name() + ": " + text
		}
		fmt.Fprintf(&b, "%s:%d:%d: error: %s\n", line(f.File), max(1, f.Line), max(1, f.Column), line(text))
	}
	_, err := io.WriteString(w, b.String())
	return err
}

// line keeps a text on one line, and from steering a terminal.
func line(text string) string {
	return strings.Map(func(c rune) rune {
		if unicode.IsControl(c) || c == '\u2028' || c == '\u2029' {
			return unicode.ReplacementChar
		}
		return c
	}, text)
}
