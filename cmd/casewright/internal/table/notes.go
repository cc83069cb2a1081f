package table

import (
	"fmt"
	"slices"
	"strings"

	"casewright/margin"
)

// standing are the notes that say where numbers come from and ask nothing of
// the reader; all others do.
var standing = []string{"size_range", margin.RememberedStrength.ID(), margin.DryPins.ID(), margin.ByAnalogy.ID(), margin.BendingApart.ID(), margin.Transferred.ID()}

// remark is a note with the number of checks that it stands beside; 0 for one
// on the whole motor.
type remark struct {
	id, text string
	checks   int
}

// remarks lists each note once, those on the whole motor first.
func (p *page) remarks() []remark {
	var list []remark
	for _, n := range p.report.Notes {
		list = append(list, remark{n.ID, n.Text, 0})
	}
	count := map[margin.Note]int{}
	for i := range p.report.Results {
		for _, n := range p.report.Results[i].Notes.List() {
			count[n]++
		}
	}
	for n := range margin.NumNotes {
		if count[n] > 0 && !p.report.Has(n.ID()) {
			list = append(list, remark{n.ID(), n.Text(), count[n]})
		}
	}
	return list
}

// notes writes the notes that ask something of the reader, and then those that
// stand: whole with --all, else by their ids.
func (p *page) notes() {
	var acts, stands []remark
	var ids []string
	for _, n := range p.remarks() {
		if !slices.Contains(standing, n.id) {
			acts = append(acts, n)
			continue
		}
		stands = append(stands, n)
		if !slices.Contains(ids, n.id) {
			ids = append(ids, n.id)
		}
	}
	p.section("Notes to act on", acts)
	if p.options.All {
		p.section("Standing notes", stands)
	} else if ids != nil {
		p.line("")
		p.wrapped("", 2, fmt.Sprintf("Standing notes (--all shows them): %s", strings.Join(ids, ", ")))
	}
}

func (p *page) section(title string, list []remark) {
	if len(list) == 0 {
		return
	}
	p.line("")
	p.line("%s", title)
	for _, n := range list {
		text := n.text
		if n.checks > 0 {
			text += fmt.Sprintf(" (%d %s)", n.checks, plural("check", n.checks))
		}
		p.wrapped("  "+n.id+": ", 4, text)
	}
}
