package table

import (
	"fmt"
	"slices"
	"strings"

	"casewright"
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
	first    *casewright.Result // of them
}

// stands tells that the note only says where numbers come from.
func (n *remark) stands() bool { return slices.Contains(standing, n.id) }

// remarks lists each note once, those on the whole motor first.
func remarks(r *casewright.Report) []remark {
	var list []remark
	for _, n := range r.Notes {
		list = append(list, remark{n.ID, n.Text, 0, nil})
	}
	count, first := map[margin.Note]int{}, map[margin.Note]*casewright.Result{}
	for i := range r.Results {
		for _, n := range r.Results[i].Notes.List() {
			if count[n]++; first[n] == nil {
				first[n] = &r.Results[i]
			}
		}
	}
	for n := range margin.NumNotes {
		if count[n] > 0 && !r.Has(n.ID()) {
			list = append(list, remark{n.ID(), n.Text(), count[n], first[n]})
		}
	}
	return list
}

// A Remark is a note that asks something of the reader.
type Remark struct {
	ID, Text string
	First    *casewright.Result // of the checks that bear it; nil for one on the whole motor
}

// Remarks lists the notes that ask something of the reader, each once.
func Remarks(r *casewright.Report) []Remark {
	var list []Remark
	for _, n := range remarks(r) {
		if !n.stands() {
			list = append(list, Remark{n.id, n.text, n.first})
		}
	}
	return list
}

// notes writes the notes that ask something of the reader, and then those that
// stand: whole with --all, else by their ids.
func (p *page) notes() {
	var acts, stands []remark
	var ids []string
	for _, n := range remarks(p.report) {
		if !n.stands() {
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
