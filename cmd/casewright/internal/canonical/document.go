package canonical

import (
	"slices"

	"github.com/BurntSushi/toml"
)

// A document is a file in its sections.
type document struct {
	head []paragraph // before the first header
	list []section
	tail []paragraph // comments at the end
}

// A section is a header and what stands below it, up to the next.
type section struct {
	lead   []paragraph // comments before it, apart from it
	above  []string    // comment right above the header
	header line
	body   []paragraph
}

// A paragraph is a run of lines between blank ones. A comment that stands by
// itself is one without pairs.
type paragraph struct {
	pairs []pair
	below []string // comment below the last pair
}

// A pair is a key with its value, and the comment right above it.
type pair struct {
	above []string
	line
}

// arrange finds what belongs together.
func arrange(lines []line) *document {
	d := &document{}
	own := &d.head
	for {
		body, rest, joined := paragraphs(lines)
		var next section
		if len(rest) > 0 {
			next.header = rest[0]
		}
		if joined {
			// What stands right above a header is its own.
			last := &body[len(body)-1]
			next.above, last.below = last.below, nil
			if len(last.pairs) == 0 {
				body = body[:len(body)-1]
			}
		}
		keep := len(body)
		for keep > 0 && len(body[keep-1].pairs) == 0 {
			keep--
		}
		switch {
		case keep > 0:
		case len(d.list) == 0: // the head of the file
			keep = len(body)
		case len(body) > 0 && lines[0].kind == commentLine: // right below its header
			keep = 1
		}
		*own, next.lead = body[:keep], body[keep:]
		if len(rest) == 0 {
			d.tail = next.lead
			return d
		}
		d.list = append(d.list, next)
		own = &d.list[len(d.list)-1].body
		lines = rest[1:]
	}
}

// paragraphs takes lines up to the next header, and tells whether the last
// paragraph is joined to it, without a blank line.
func paragraphs(lines []line) (list []paragraph, rest []line, joined bool) {
	var p paragraph
	for i, l := range lines {
		switch l.kind {
		case commentLine:
			p.below = append(p.below, l.text)
			continue
		case pairLine:
			p.pairs = append(p.pairs, pair{p.below, l})
			p.below = nil
			continue
		}
		joined = len(p.pairs) > 0 || len(p.below) > 0
		if joined {
			list = append(list, p)
			p = paragraph{}
		}
		if l.kind == headerLine {
			return list, lines[i:], joined
		}
	}
	if len(p.pairs) > 0 || len(p.below) > 0 {
		list = append(list, p)
	}
	return list, nil, false
}

// depth is by how many entries of arrays the section is set in.
func (s *section) depth() (n int) {
	for _, entry := range s.header.entry[:len(s.header.entry)-1] {
		if entry >= 0 {
			n++
		}
	}
	return n
}

// isEntry tells whether the section begins another entry of a root array.
func (s *section) isEntry() bool { return len(s.header.key) == 1 && s.header.entry[0] >= 0 }

// isFlat tells whether no pair of a section has a dotted key.
func isFlat(table toml.Key, body []paragraph) bool {
	return !slices.ContainsFunc(body, func(p paragraph) bool {
		return slices.ContainsFunc(p.pairs, func(one pair) bool { return len(one.key) != len(table)+1 })
	})
}
