package table

import (
	"slices"
	"strings"

	"github.com/olekukonko/tablewriter"
	"github.com/olekukonko/tablewriter/renderer"
	"github.com/olekukonko/tablewriter/tw"
)

// row is one line of a table: cells, or a text of its own.
type row struct {
	cells []string
	free  string
}

// aligned gives one line for each row: cells stand in columns, two blanks
// apart, as far as there are columns for them; a text of its own stays as it
// is. Cells must not hold colour.
func aligned(rows []row, columns []tw.Align) ([]string, error) {
	return alignedApart(rows, columns, 2)
}

// alignedApart is aligned with so many blanks between columns.
func alignedApart(rows []row, columns []tw.Align, blanks int) ([]string, error) {
	var text strings.Builder
	t := tablewriter.NewTable(
		&text,
		tablewriter.WithRenderer(renderer.NewBlueprint(tw.Rendition{
			Borders:  tw.BorderNone,
			Settings: tw.Settings{Separators: tw.SeparatorsNone, Lines: tw.LinesNone},
		})),
		tablewriter.WithTrimSpace(tw.Off),
		tablewriter.WithRowAutoWrap(tw.WrapNone),
		tablewriter.WithRowAlignmentConfig(tw.CellAlignment{PerColumn: columns}),
		tablewriter.WithPadding(tw.Padding{Right: strings.Repeat(" ", blanks), Overwrite: true}),
	)
	for _, r := range rows {
		if r.free == "" {
			if err := t.Append(slices.Concat(r.cells, make([]string, len(columns)))[:len(columns)]); err != nil {
				return nil, err
			}
		}
	}
	if err := t.Render(); err != nil {
		return nil, err
	}
	cells := strings.Split(text.String(), "\n")
	lines := make([]string, len(rows))
	for i, r := range rows {
		if r.free != "" {
			lines[i] = r.free
			continue
		}
		lines[i], cells = strings.TrimRight(cells[0], " "), cells[1:]
	}
	return lines, nil
}
