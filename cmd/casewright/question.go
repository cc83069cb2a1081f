package main

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"github.com/alecthomas/kong"

	"casewright"
	"casewright/cmd/casewright/internal/jsonout"
	"casewright/cmd/casewright/internal/table"
	"casewright/quantity"
	"casewright/sizing"
)

// question is what all questions have: the keys as flags, or a design file
// that gives the rest.
type question struct {
	kong.Plugins
	File      string `help:"A design file that gives the rest; - is standard input." placeholder:"FILE"`
	End       string `help:"The end of that file that is asked about, by its name." placeholder:"NAME"`
	Tolerance string `help:"Tolerance to draw the answer with; else the usual one." placeholder:"\"±0.2 mm\""`
	Format    string `help:"table or json." enum:"table,json" default:"table"`
	All       bool   `help:"Show the passing checks and the standing notes too."`
	screen

	keys *keyFlags
}

// The keys that questions take.
var (
	tubeKeys  = []string{"motor.pressure", "factors", "tube.outside_diameter", "tube.inside_diameter", "tube.wall", "tube.wall_variation", "tube.material", "tube.temperature"}
	screwKeys = append([]string{"tube.lead_in", "tube.lead_in_angle", "end.screws", "end.temperature"}, tubeKeys...)
	edgeKeys  = append([]string{
		"end.screws.thread", "end.screws.class", "end.screws.count", "end.screws.hole", "end.screws.threads_in_shear", "end.screws.share",
		"end.screws.edge_break", "end.screws.head", "end.screws.head_depth", "tube.lead_in", "tube.lead_in_angle", "end.temperature",
	}, tubeKeys...)
	sealKeys = append([]string{
		"tube.lead_in", "tube.lead_in_angle", "end.material", "end.temperature", "end.outside_diameter",
		"end.seal.size", "end.seal.section", "end.seal.inside_diameter", "end.seal.compound", "end.seal.hardness", "end.seal.groove_diameter", "end.seal.groove_width",
	}, tubeKeys...)
)

func newQuestion(keys []string) question {
	flags, plugins := newKeyFlags(keys...)
	return question{Plugins: plugins, keys: flags}
}

// asked is the open design of file and flags, and the number of its end, from
// 1; 0 where the question is about the tube. drop names keys of the file that
// are asked for and so do not count.
func (q *question) asked(io *streams, ofEnd bool, drop ...string) (*casewright.Design, int, error) {
	var base *casewright.Design
	part := 0
	if ofEnd {
		part = 1
	}
	if q.File != "" {
		var err error
		if base, err = readDesign(q.File, io); err != nil {
			return nil, 0, err
		}
		if part, err = q.endOf(base, ofEnd); err != nil {
			return nil, 0, err
		}
		base = base.Clone()
		if q.gives("end.screws.thread") && !q.gives("end.screws.hole") {
			drop = append(slices.Clone(drop), "end.screws.hole") // that of another screw
		}
		for _, path := range drop {
			if part <= len(base.Ends) {
				base.Clear(path, part)
			}
		}
	} else if q.End != "" {
		return nil, 0, status{exitInput, "--end goes with --file"}
	}
	d, err := casewright.Assemble(base, part, q.keys.settings())
	return d, part, err
}

// endOf finds the end of a file that is asked about.
func (q *question) endOf(d *casewright.Design, ofEnd bool) (int, error) {
	var names []string
	for i, e := range d.Ends {
		if strings.EqualFold(e.Name.Value, q.End) {
			return i + 1, nil
		}
		names = append(names, fmt.Sprintf("--end %q", e.Name.Value))
	}
	switch {
	case !ofEnd && q.End == "":
		return 0, nil
	case q.End == "" && len(d.Ends) < 2:
		return 1, nil
	case q.End == "":
		return 0, status{exitInput, fmt.Sprintf("%s has several ends; write %s", q.File, strings.Join(names, " or "))}
	}
	if names == nil {
		return 0, status{exitInput, fmt.Sprintf("%s has no ends; leave --end out", q.File)}
	}
	return 0, status{exitInput, fmt.Sprintf("%s has no end %q; write %s", q.File, q.End, strings.Join(names, " or "))}
}

func (q *question) options() (sizing.Options, error) {
	var o sizing.Options
	if q.Tolerance == "" {
		return o, nil
	}
	// A tolerance is that of a size: any will do.
	unit := quantity.MustUnit("m")
	text := strings.TrimSpace(q.Tolerance)
	if u, ok := quantity.KindLength.Unit(strings.TrimLeft(text, "±+-0123456789./ ")); ok {
		unit = u
	}
	d, err := quantity.ParseDimension("1000 " + unit.Symbol() + " " + text)
	if err != nil || !d.HasTolerance() {
		return o, status{exitInput, fmt.Sprintf("--tolerance: %q is no tolerance; write \"±0.2 mm\" or \"+0/-0.05 mm\"", q.Tolerance)}
	}
	o.Tolerance = &d
	return o, nil
}

// gives tells whether a key is given by a flag.
func (q *question) gives(key string) bool {
	return slices.ContainsFunc(q.keys.settings(), func(s casewright.Setting) bool { return s.Key == key })
}

// asking is a question that has been understood.
type asking struct {
	design  *casewright.Design
	part    int
	options sizing.Options
}

// ask puts the question of a command. What is asked for does not count where a
// file gives it; a flag that gives it holds it.
func (q *question) ask(io *streams, name string, ofEnd bool, answer func(asking) (*sizing.Answer, error), wanted ...string) error {
	o, err := q.options()
	if err != nil {
		return err
	}
	d, part, err := q.asked(io, ofEnd, wanted...)
	if err != nil {
		return q.tell(io, name, nil, err)
	}
	a, err := answer(asking{d, part, o})
	return q.tell(io, name, a, err)
}

// tell writes an answer, or what is wrong with the question.
func (q *question) tell(io *streams, name string, a *sizing.Answer, err error) error {
	var found casewright.Errors
	switch {
	case errors.As(err, &found):
		found = inFlags(found)
		if q.Format == "json" {
			if err := jsonout.NoAnswer(io.out, name, found); err != nil {
				return err
			}
		} else {
			io.out.Flush()
			fmt.Fprintln(io.err, found.Error())
		}
		return status{code: exitInput}
	case err != nil:
		return err
	}
	if q.Format == "json" {
		err = jsonout.Answer(io.out, a)
	} else {
		err = table.Answer(io.out, a, table.Options{All: q.All, Units: q.Units, Colour: q.coloured(io), ASCII: q.ASCII, Width: io.width})
	}
	if err == nil && !a.Holds() {
		return status{code: exitVerdict}
	}
	return err
}
