package page

import (
	"fmt"
	"io"
	"strings"

	"casewright"
	"casewright/cmd/casewright/internal/table"
)

// Markdown writes the checks as Markdown, formulas as code.
func Markdown(w io.Writer, r *casewright.Report, list []table.Worked) error {
	d := documentOf(r, list)
	var b strings.Builder
	say := func(format string, args ...any) { fmt.Fprintf(&b, format+"\n", args...) }
	say("# %s, %s\n", plain(d.Motor), plain(d.Pressure))
	if d.File != "" {
		say("%s. Worst case of tolerances.\n", plain(d.File))
	}
	say("SHA-256 of the design file: `%s`\n", d.SHA256)
	say("The whole motor: **%s**. %s\n", d.Word, d.Caution)
	for _, n := range d.Notes {
		say("- %s", plain(n.Text))
	}
	for i := range list {
		markdownOf(say, &list[i])
	}
	say("\n%s", d.Caution)
	_, err := io.WriteString(w, b.String())
	return err
}

func markdownOf(say func(string, ...any), c *table.Worked) {
	say("\n## %s: %s\n\n**%s**", plain(c.ID), plain(c.Title), c.Word)
	if c.Why != "" {
		say("\n%s", plain(c.Why))
	}
	say("\n### Formula, and the numbers in it\n")
	for i := range c.Sums {
		s := &c.Sums[i]
		symbols, numbers, result := s.Line()
		text := s.Name
		for _, part := range []string{symbols, numbers, result} {
			if part != "" {
				text += " = " + part
			}
		}
		say("- `%s`", text)
	}
	for _, line := range c.Outcome {
		say("- %s", plain(line))
	}
	say("\n### Symbols\n\n| symbol | value | meaning, and where it comes from |\n| --- | ---: | --- |")
	for i := range c.Symbols {
		s := &c.Symbols[i]
		told := append([]string{s.Meaning}, s.Origins...)
		if from := s.FromText(); from != "" {
			told = append(told, "= "+from)
		}
		say("| `%s` | %s | %s |", s.Name, cell(s.Value), cell(strings.Join(told, "; ")))
	}
	if len(c.Readings) > 0 {
		say("\n### Other readings, for comparison\n")
		for i := range c.Readings {
			say("- %s", plain(c.Readings[i].Text()))
		}
	}
	if len(c.Effects) > 0 {
		say("\n### What changes the margin\n\n| value | as written | a step of | margin |\n| --- | --- | --- | ---: |")
		for _, e := range c.Effects {
			say("| %s | %s | %s | %s |", cell(e.Key), cell(e.Written), e.Step, e.By)
		}
	}
	if c.Change != "" || len(c.Changes) > 0 {
		say("\n### What makes it pass\n")
		if c.Change != "" {
			say("- The smallest single change, to a round size: write %s.", plain(c.Change))
		}
		for _, one := range c.Changes {
			say("- Or write %s.", plain(one))
		}
	}
	if len(c.Notes) > 0 {
		say("\n### Notes\n")
		for _, n := range c.Notes {
			say("- %s", plain(n))
		}
	}
	say("\n### Source\n\n%s. Holds for: %s. %s", plain(c.Source), plain(c.Range), plain(strings.Join(c.Evidence, " ")))
}

// plain keeps a text from being read as Markdown.
func plain(text string) string {
	return strings.NewReplacer("\\", "\\\\", "*", "\\*", "_", "\\_", "`", "\\`", "<", "\\<", "[", "\\[", "]", "\\]", "|", "\\|").Replace(text)
}

// cell is a text as a cell of a table.
func cell(text string) string { return plain(strings.ReplaceAll(text, "\n", " ")) }
