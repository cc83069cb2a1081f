package sarif

import (
	"strings"

	"casewright"
	"casewright/cmd/casewright/internal/findings"
	"casewright/cmd/casewright/internal/page"
	"casewright/cmd/casewright/internal/table"
	"casewright/margin"
)

// rule is a reportingDescriptor (3.49).
type rule struct {
	ID            string        `json:"id"`
	Name          string        `json:"name"`
	Short         text          `json:"shortDescription"`
	Full          text          `json:"fullDescription"`
	Help          help          `json:"help"`
	Configuration configuration `json:"defaultConfiguration"`
	Properties    properties    `json:"properties"`
}

type text struct {
	Text string `json:"text"`
}

type help struct {
	Text     string `json:"text"`
	Markdown string `json:"markdown"`
}

type configuration struct {
	Level string `json:"level"`
}

type properties struct {
	Tags []string `json:"tags"`
}

// rules are all checks, then what is said of a file and of a motor.
func rules() []rule {
	var list []rule
	for _, m := range casewright.Methods() {
		list = append(list, ruleOf(m))
	}
	return append(
		list,
		plainRule(findings.FaultID, "error", "The file is no whole design", "A key of the design file is unknown, missing or wrong, or what it describes cannot be built. Nothing is computed from such a file."),
		plainRule(findings.LostID, "error", "Less than was kept", "A margin is lower than the baseline of the repository allows, a check of it is no longer done, or a factor or a limit asks less. If that is meant, the baseline is renewed with --write-baseline."),
		plainRule(findings.NoteID, "note", "Something to keep in mind", "A remark on the motor that asks something of the reader. It is not part of the verdict."),
	)
}

func ruleOf(m *margin.Method) rule {
	level := "error"
	if m.NoteOnly {
		level = "note"
	}
	formula := table.Formula(m)
	from := "Source: " + m.Source + ". Holds for: " + m.Range + "."
	room, _, _ := strings.Cut(m.ID, ".")
	tags := []string{room}
	if mode := m.Mode.String(); mode != "" {
		tags = append(tags, mode)
	}
	return rule{
		ID: m.ID, Name: nameOf(m.ID), Short: text{m.Title + "."}, Full: text{m.Title + ": " + formula + ". " + m.Why},
		Help: help{
			Text:     m.Why + "\n\n" + formula + "\n\n" + from,
			Markdown: page.Plain(m.Why) + "\n\n    " + formula + "\n\n" + page.Plain(from),
		},
		Configuration: configuration{level}, Properties: properties{tags},
	}
}

func plainRule(id, level, title, why string) rule {
	return rule{
		ID: id, Name: nameOf(id), Short: text{title + "."}, Full: text{title + ". " + why}, Help: help{why, page.Plain(why)},
		Configuration: configuration{level}, Properties: properties{[]string{"design"}},
	}
}

// nameOf makes hole.tear_out HoleTearOut.
func nameOf(id string) string {
	var b strings.Builder
	for _, word := range strings.FieldsFunc(id, func(c rune) bool { return c == '.' || c == '_' }) {
		b.WriteString(strings.ToUpper(word[:1]) + word[1:])
	}
	return b.String()
}
