package page

import (
	"fmt"
	"io"
	"strings"
	"unicode"

	"casewright"
	"casewright/cmd/casewright/internal/table"
)

// Markdown writes the checks as Markdown, formulas as code.
func Markdown(w io.Writer, r *casewright.Report, list []table.Worked) error {
	d := documentOf(r, list)
	var b strings.Builder
	say := func(format string, args ...any) { fmt.Fprintf(&b, format+"\n", args...) }
	say("# %s, %s\n", Plain(d.Motor), Plain(d.Pressure))
	if d.File != "" {
		say("%s. Worst case of tolerances.\n", Plain(d.File))
	}
	say("SHA-256 of the design file: `%s`\n", d.SHA256)
	say("The whole motor: **%s**. %s\n", d.Word, d.Caution)
	for _, n := range d.Notes {
		say("- %s", Plain(n.Text))
	}
	for i := range list {
		c := &list[i]
		say("\n## %s: %s\n\n**%s**", Plain(c.ID), Plain(c.Title), c.Word)
		b.WriteString(CheckMarkdown(c, 3) + "\n")
	}
	say("\n%s", d.Caution)
	_, err := io.WriteString(w, b.String())
	return err
}

// CheckMarkdown returns one check worked out, without its title; level is that
// of its headings.
func CheckMarkdown(c *table.Worked, level int) string {
	var b strings.Builder
	say := func(format string, args ...any) { fmt.Fprintf(&b, format+"\n", args...) }
	hashes := strings.Repeat("#", level)
	if c.Why != "" {
		say("\n%s", Plain(c.Why))
	}
	say("\n%s Formula, and the numbers in it\n", hashes)
	for i := range c.Sums {
		s := &c.Sums[i]
		say("- `%s`", s.Text())
	}
	for _, line := range c.Outcome {
		say("- %s", Plain(line))
	}
	say("\n%s Symbols\n\n| symbol | value | meaning, and where it comes from |\n| --- | ---: | --- |", hashes)
	for i := range c.Symbols {
		s := &c.Symbols[i]
		told := append([]string{s.Meaning}, s.Origins...)
		if from := s.FromText(); from != "" {
			told = append(told, "= "+from)
		}
		say("| `%s` | %s | %s |", s.Name, Plain(s.Value), Plain(strings.Join(told, "; ")))
	}
	if len(c.Readings) > 0 {
		say("\n%s Other readings, for comparison\n", hashes)
		for i := range c.Readings {
			say("- %s", Plain(c.Readings[i].Text()))
		}
	}
	if len(c.Effects) > 0 {
		say("\n%s What changes the margin\n\n| value | as written | a step of | margin |\n| --- | --- | --- | ---: |", hashes)
		for _, e := range c.Effects {
			say("| %s | %s | %s | %s |", Plain(e.Key), Plain(e.Written), e.Step, e.By)
		}
	}
	if c.Change != "" || len(c.Changes) > 0 {
		say("\n%s What makes it pass\n", hashes)
		if c.Change != "" {
			say("- The smallest single change, to a round size: write %s.", Plain(c.Change))
		}
		for _, one := range c.Changes {
			say("- Or write %s.", Plain(one))
		}
	}
	if len(c.Notes) > 0 {
		say("\n%s Notes\n", hashes)
		for _, n := range c.Notes {
			say("- %s", Plain(n))
		}
	}
	say("\n%s Source\n\n%s. Holds for: %s. %s", hashes, Plain(c.Source), Plain(c.Range), Plain(strings.Join(c.Evidence, " ")))
	return strings.TrimSuffix(b.String(), "\n")
}

var marks = strings.NewReplacer("\\", "\\\\", "*", "\\*", "_", "\\_", "`", "\\`", "<", "\\<", "[", "\\[", "]", "\\]", "|", "\\|", "#", "\\#", "&", "\\&", "~", "\\~", "$", "\\$", "\n", " ", "\r", " ", "\t", " ")

// Plain keeps a text from being read as Markdown, and on one line.
func Plain(text string) string {
	return strings.Map(func(c rune) rune {
		if unicode.IsControl(c) {
			return unicode.ReplacementChar
		}
		return c
	}, marks.Replace(strings.ToValidUTF8(text, "\uFFFD")))
}
