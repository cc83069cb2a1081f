package casewright

import (
	"crypto/sha256"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"casewright/quantity/where"
)

// Wanted is what a design file has in place of a value that is to be found.
const Wanted = "?"

// An Unknown is a value that a design file leaves to be found.
type Unknown struct {
	Place
	Part       int // 0 the tube, then the ends
	Start, End int // of the value in the text, in bytes
}

// ReadOpen reads a design file in which values may be "?". It returns them in
// the order of the file; the design is open where there are any. The error is
// an [Errors], as that of [Read]: keys may be open, but not missing.
func ReadOpen(file string, text []byte) (*Design, []Unknown, error) {
	r := &reader{design: &Design{File: file, SHA256: sha256.Sum256(text)}, places: map[string]where.Key{}, open: true}
	design, err := r.read(text)
	if err != nil {
		return nil, nil, err
	}
	slices.SortStableFunc(r.unknowns, func(a, b Unknown) int { return a.Start - b.Start })
	design.Open = len(r.unknowns) > 0
	return design, r.unknowns, nil
}

// A Setting is a key given by itself, as on a command line.
type Setting struct {
	Key  string // as in "end.screws.edge"
	Text string // the value, as a design file would have it
	Name string // what to call it in an error, as in "--edge"
}

// Assemble returns an open design of settings, over those of a base, which may
// be nil and is not changed. Settings of an end are those of the end numbered
// part, from 1. The error is an [Errors]: every setting that cannot be read,
// and what does not go together or cannot be built.
func Assemble(base *Design, part int, list []Setting) (*Design, error) {
	d := &Design{}
	if base != nil {
		d = base.Clone()
	}
	d.Open = true
	for len(d.Ends) < part {
		d.Ends = append(d.Ends, End{Name: Text{Value: "end"}})
	}
	r := &reader{design: d, places: map[string]where.Key{}}
	for _, s := range list {
		k := FindKey(s.Key)
		if k == nil || part == 0 && strings.HasPrefix(s.Key, "end") {
			r.fail(Place{Key: clean(s.Key)}, fmt.Sprintf("%s: %q is not a key that can be given here", clean(s.Name), clean(s.Key)), "")
			continue
		}
		e := &End{}
		if part > 0 {
			e = &d.Ends[part-1]
		}
		var v any = s.Text
		if _, ok := k.field(d, e).(*Flag); ok {
			if b, err := strconv.ParseBool(s.Text); err == nil {
				v = b
			}
		}
		r.value(&table{label: s.Name}, k, e, v, "")
	}
	d.complete(r.fail)
	if len(r.errors) > 0 {
		return nil, r.errors
	}
	return d, nil
}

// about is what stands before an error on a key of a table.
func (t *table) about(k *Key) string {
	if t.label != "" {
		return t.label
	}
	return fmt.Sprintf("%s: %s", t.title, k.Name())
}

// wanted notes that the value of a key is to be found, where that may be.
func (r *reader) wanted(k *Key, e *End, address string, at Place) {
	if !k.MayBeWanted() {
		mark(k.field(r.design, e), at)
		r.fail(at, fmt.Sprintf("%s: %q: no check decides this value", k.Path, Wanted), k.Name()+" = "+k.Sample)
		return
	}
	part := 0
	for i := range r.design.Ends {
		if &r.design.Ends[i] == e {
			part = i + 1
		}
	}
	mark(k.field(r.design, e), at)
	p := r.places[address]
	r.unknowns = append(r.unknowns, Unknown{Place: at, Part: part, Start: p.ValueOffset, End: p.ValueOffset + len(p.Value)})
}

// A Stock is what lies in the workshop, ready to be used.
type Stock struct {
	Tubes  []Tube   // two of three sizes, and the material
	Screws []Screws // thread and class, and how many there are; 0 for enough
	Rings  []Seal   // the ring of a standard, and its compound and hardness where they are told
}

var stockNames = []string{"format", "tube", "screws", "ring"}

// StockTable returns the table of a design file of which a table of a stock
// file has keys: that of "ring" is "end.seal". It returns any other name as it
// is.
func StockTable(name string) string {
	switch name {
	case "screws":
		return "end.screws"
	case "ring":
		return "end.seal"
	}
	return name
}

// ReadStock reads a stock file (TOML, format = 1): [[tube]], [[screws]] and
// [[ring]], with the keys of a design file. The error is an [Errors] with every
// fault that was found.
func ReadStock(file string, text []byte) (*Stock, error) {
	r := &reader{design: &Design{File: file}, places: map[string]where.Key{}}
	if !r.decode(text) {
		return nil, r.errors
	}
	r.tables(stockNames)
	s := &Stock{}
	r.each("tube", &table{
		path: StockTable("tube"), only: []string{"outside_diameter", "inside_diameter", "wall", "wall_variation", "material"}, need: []string{"material"},
	}, func(*End) {
		r.design.completeTube(r.fail)
		s.Tubes = append(s.Tubes, r.design.Tube)
	})
	r.each("screws", &table{path: StockTable("screws"), only: []string{"thread", "class", "count"}, need: []string{"thread", "class"}}, func(e *End) {
		s.Screws = append(s.Screws, e.Screws)
	})
	r.each("ring", &table{path: StockTable("ring"), only: []string{"size", "compound", "hardness"}, need: []string{"size"}}, func(e *End) {
		s.Rings = append(s.Rings, e.Seal)
	})
	if len(r.errors) > 0 {
		r.sort()
		return nil, r.errors
	}
	return s, nil
}

// each reads the entries of one table of a stock file, each into a design and
// an end of its own, and passes them on.
func (r *reader) each(name string, form *table, done func(*End)) {
	v, ok := r.root[name]
	if !ok {
		return
	}
	title := "[[" + name + "]]"
	if _, isTable := v.(map[string]any); isTable {
		r.fail(r.at(name, name), "["+name+"] is one of several", title)
		return
	}
	list, ok := v.([]map[string]any)
	if !ok {
		r.fail(r.at(name, name), fmt.Sprintf("%q must be a table", name), title)
		return
	}
	for i, values := range list {
		t := *form
		t.address, t.values = name+"#"+strconv.Itoa(i), values
		t.title = fmt.Sprintf("%s %d", title, i+1)
		t.place = r.at(t.address, name)
		e := &End{Seal: Seal{Place: t.place}}
		r.design.Tube = Tube{Place: t.place}
		r.table(&t, e, nil)
		done(e)
	}
}
