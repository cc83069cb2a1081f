// Package casewright checks, before metal is cut, whether the case of a small
// reusable motor will hold: an aluminium tube, a bulkhead and a nozzle, each
// sealed by O-rings and held by radial screws through the wall.
//
// [Read] turns a design file into a [Design], [Check] a Design into a
// [Report]: every margin at the worst of all tolerances, and what gives way
// first. The formulas stand in the packages casing, fastener, closure and seal
// and can be used without a design file; all are in SI units.
//
// A pass is no permission to fire; SAFETY.md says what is left out.
package casewright

import (
	_ "embed"
	"fmt"
	"math"
	"slices"
	"strings"

	"casewright/margin"
	"casewright/materials"
)

// Version is the version of the library and of the command.
const Version = "0.1.0"

// Example is the text of a commented design file that passes.
//
//go:embed testdata/designs/basalt64.toml
var Example string

// A Report is what casewright has to say of a design: every check at the
// worst of all tolerances, what gives way first, and what is to be kept in
// mind.
type Report struct {
	Design  *Design
	Results []Result
	Notes   []Note // of the whole motor
	// Verdict is Fail if any check fails, else Refused if any is, else Pass.
	Verdict margin.Verdict
	Order   []Event // by the pressure at which they give way
}

// A Result is the outcome of one check in a motor.
type Result struct {
	margin.Check
	Nominal float64 // margin at nominal sizes; NaN where there is none
	Part    string  // "tube", or the end's name
	Key     string  // of the dimension that one would change first
	Line    int     // of that key in the file; 0 where the file does not give it
	Column  int     // of its value, in runes; 0 as with Line
	Looser  bool    // the design file asks less than the method's own limit
}

// A Note is a remark on the whole motor.
type Note struct{ ID, Text string }

// An Event is a check that gives way at a pressure, gauge, in Pa.
type Event struct {
	Result *Result
	At     float64
}

// ID names the check in its motor, as in "nozzle/hole.edge".
func (r *Result) ID() string { return r.Part + "/" + r.Method.ID }

// ByTolerance tells that the check fails only by tolerance: nominal sizes
// pass.
func (r *Result) ByTolerance() bool { return r.Verdict == margin.Fail && r.Nominal >= 0 }

// Factors are the factors of safety of a design.
type Factors struct{ Yield, Ultimate, Fitting float64 }

// Factors returns the design's factors of safety, the defaults where the file
// gives none; unit 1.
func (d *Design) Factors() Factors {
	return Factors{orDefault(d.Yield, defaultYield), orDefault(d.Ultimate, defaultUltimate), orDefault(d.Fitting, defaultFitting)}
}

// Check computes every check of a design that [Read] has given.
func Check(d *Design) *Report {
	m := NewMotor(d)
	worst, nominal := m.Evaluate(nil), m.EvaluateNominal(nil)
	r := &Report{Design: d, Results: make([]Result, len(worst)), Verdict: margin.Pass}
	for i := range worst {
		c := &worst[i]
		at := d.place(int(c.Part), c.Method.Key)
		r.Results[i] = Result{Check: *c, Looser: m.looser(c), Nominal: nominal[i].Margin, Part: d.partName(int(c.Part)), Key: c.Method.Key, Line: at.Line, Column: at.Column}
		switch {
		case c.Verdict == margin.Fail:
			r.Verdict = margin.Fail
		case c.Verdict == margin.Refused && r.Verdict != margin.Fail:
			r.Verdict = margin.Refused
		}
	}
	for i := range r.Results {
		if result := &r.Results[i]; !math.IsNaN(result.GivesWayAt) && !math.IsInf(result.GivesWayAt, 0) {
			r.Order = append(r.Order, Event{result, result.GivesWayAt})
		}
	}
	slices.SortStableFunc(r.Order, func(a, b Event) int {
		switch {
		case a.At < b.At:
			return -1
		case a.At > b.At:
			return 1
		}
		return rank(a.Result.Method) - rank(b.Result.Method)
	})
	r.Notes = d.notes(r.Results)
	return r
}

// rank is where a method stands in the fixed order of all.
func rank(m *margin.Method) int { return slices.Index(allMethods(), m) }

// FindMethod returns the definition of the check of that id, as "hole.edge";
// nil where there is none.
func FindMethod(id string) *margin.Method {
	list := allMethods()
	if i := slices.IndexFunc(list, func(m *margin.Method) bool { return m.ID == id }); i >= 0 {
		return list[i]
	}
	return nil
}

// First returns what gives way first in a mode; nil where nothing does.
func (r *Report) First(m margin.Mode) *Event {
	for i := range r.Order {
		if r.Order[i].Result.Method.Mode == m {
			return &r.Order[i]
		}
	}
	return nil
}

// Has tells whether the report bears the note of that id.
func (r *Report) Has(id string) bool {
	return slices.ContainsFunc(r.Notes, func(n Note) bool { return n.ID == id })
}

func (d *Design) partName(number int) string {
	if number == 0 {
		return "tube"
	}
	return d.Ends[number-1].Name.Value
}

// place finds where a key of a part stands in the file.
func (d *Design) place(number int, path string) Place {
	if k := FindKey(path); k != nil {
		return k.Place(d, number)
	}
	return Place{}
}

// Place returns where the key's value stands in the design file for a part of
// a design; the zero Place where the file does not give it.
func (k *Key) Place(d *Design, part int) Place {
	switch f := k.Field(d, part).(type) {
	case *Dimension:
		return f.Place
	case *Amount:
		return f.Place
	case *Text:
		return f.Place
	case *Count:
		return f.Place
	case *Flag:
		return f.Place
	case *Material:
		return f.Place
	case *Thread:
		return f.Place
	case *Class:
		return f.Place
	case *Ring:
		return f.Place
	case *Compound:
		return f.Place
	case *PipeThread:
		return f.Place
	case *Film:
		return f.Place
	case *Insulation:
		return f.Place
	case *Washer:
		return f.Place
	}
	return Place{}
}

// TablePlace returns where the table that a key belongs to stands for a part of
// a design, 0 the tube, then the ends: the place of a key that the file does not
// give. It is the zero Place where the file has no such table either.
func (d *Design) TablePlace(key string, part int) Place {
	switch name, _, _ := strings.Cut(key, "."); {
	case name == "tube":
		return d.Tube.Place
	case name == "heat":
		return d.Heat.Place
	case name != "end" || part < 1 || part > len(d.Ends):
		return Place{}
	}
	e := &d.Ends[part-1]
	for table, at := range map[string]Place{"end.seal.": e.Seal.Place, "end.screws.": e.Screws.Place, "end.heat.": e.Heat.Place} {
		if strings.HasPrefix(key, table) {
			return at
		}
	}
	return e.Place
}

// notes are the remarks on the whole motor.
func (d *Design) notes(results []Result) []Note {
	var list []Note
	say := func(id, format string, args ...any) { list = append(list, Note{id, fmt.Sprintf(format, args...)}) }
	var cold []string
	if !d.Tube.Temperature.IsSet() && !d.heated() {
		cold = append(cold, "tube")
	}
	for i, e := range d.Ends {
		if !e.Temperature.IsSet() && !d.IsHeated(i) {
			cold = append(cold, e.Name.Value)
		}
	}
	d.notesOfHeat(say)
	if cold != nil {
		say("cold", "no temperature is given for %s: 20 °C (68 °F) is taken, and hot metal and hot seals are weaker", strings.Join(cold, ", "))
	}
	if f := d.Factors(); f.Yield < 1.25 || f.Ultimate < 1.5 || f.Fitting < defaultFitting {
		say("reduced_factors", "factors %g on yield, %g on ultimate and %g on fittings: below 1.25 and 1.5, which the least demanding pressure-vessel standards ask for beside proof test and inspection, or below 1.15 of 14 CFR 25.625", f.Yield, f.Ultimate, f.Fitting)
	}
	for _, e := range d.Ends {
		if e.Kind.Value == "nozzle" && !e.Insert.IsSet() && !e.OnePiece.Value {
			say("not_checked_insert", "%s: what holds the nozzle insert is not checked; write insert_diameter, lip_diameter and lip, or one_piece = true", e.Name.Value)
		}
	}
	switch missing := 2 - len(d.Ends); {
	case d.Open:
	case missing == 2:
		say("ends_missing", "no end is described: neither ends, nor seals, nor screws are checked")
	case missing == 1:
		say("ends_missing", "one end is described: the other is not checked")
	}
	if ids := looser(results); ids != nil {
		say("own_limits", "the design file asks less than casewright does of %s: what passes there has not passed here", strings.Join(ids, ", "))
	}
	for _, l := range d.Limits {
		say("limit_changed", "%s is held against the design file's own limit, %s", l.ID, l.String())
	}
	d.notesOfMeasured(say)
	for _, m := range d.usedMaterials() {
		if m.User {
			say("user_material", "%s is described in the design file itself: casewright has not checked its numbers", m.Name)
		} else if m.SizeRange != "" {
			say("size_range", "%s: its strengths are for %s", m.Name, m.SizeRange)
		}
	}
	for _, note := range []margin.Note{margin.TypicalStrength, margin.RememberedStrength} {
		var names []string
		for i := range results {
			r := &results[i]
			if !r.Notes.Has(note) {
				continue
			}
			m := d.Tube.Material.Material
			if strings.HasPrefix(r.Method.ID, "end.") {
				m = d.Ends[r.Check.Part-1].Material.Material
			}
			if m != nil && !slices.Contains(names, m.Name) {
				names = append(names, m.Name)
			}
		}
		if names != nil {
			say(note.ID(), "%s: a strength %s", strings.Join(names, ", "), note.Text())
		}
	}
	return list
}

// notesOfHeat are the remarks on temperatures that are computed.
func (d *Design) notesOfHeat(say func(id, format string, args ...any)) {
	if !d.heated() {
		return
	}
	t := d.hot()
	if t.failed {
		say("heat_failed", "the temperatures could not be computed: what depends on them is refused")
		return
	}
	var list []string
	tell := func(name string, given bool, a Amount) {
		if !given {
			list = append(list, fmt.Sprintf("%s %.0f °C", name, math.Ceil(a.SI()-273.15)))
		}
	}
	tell("tube", d.Tube.Temperature.IsSet(), t.tube)
	for _, i := range d.HeatedEnds() {
		tell(d.Ends[i].Name.Value, d.Ends[i].Temperature.IsSet(), t.end[i])
	}
	if list != nil {
		say("heated", "temperatures until burnout are computed, with layers that conduct the most that their material is met with: %s; casewright heat shows how", strings.Join(list, ", "))
	}
	if list := d.hotterInTest(); list != nil {
		say("hotter_in_test", "a test was hotter than what is computed (%s): the temperatures here are too low; casewright heat fits them, and what it finds belongs in [heat]", strings.Join(list, "; "))
	}
}

// notesOfMeasured are the remarks on what was measured, each size held against
// the drawing.
func (d *Design) notesOfMeasured(say func(id, format string, args ...any)) {
	drawn := d
	if d.Drawn != nil {
		drawn = d.Drawn
	}
	if drawn == d && len(d.Measured) > 0 {
		say("measured_unused", "[measured] is not used: these are the drawing's sizes; casewright check --as-built takes those that were measured")
	}
	var exact []string
	for _, m := range d.Measured {
		if m.Key == "tube.wall" {
			say("wall_measured", "tube.wall was measured: it must be the thinnest that was found all round and along the tube, less the gauge's uncertainty")
		}
		name := d.measuredName(m.Part, m.Key)
		if !m.HasTolerance() {
			exact = append(exact, name)
		}
		asked, ok := FindKey(m.Key).Field(drawn, m.Part).(*Dimension)
		switch {
		case !ok || !asked.IsSet():
		case !asked.HasTolerance() && (asked.Nominal().Cmp(m.Least()) < 0 || asked.Nominal().Cmp(m.Greatest()) > 0):
			say("not_as_drawn", "%s was measured at %s; the drawing says %s and gives no tolerance", name, m.Dimension.String(), asked.String())
		case asked.HasTolerance() && (m.Nominal().Cmp(asked.Least()) < 0 || m.Nominal().Cmp(asked.Greatest()) > 0):
			say("out_of_tolerance", "%s was measured at %s, outside the drawing's %s", name, m.Dimension.String(), asked.String())
		}
	}
	if exact != nil {
		say("measured_exact", "%s: taken as exact; write the gauge's uncertainty, as \"57.12 ±0.01 mm\"", strings.Join(exact, ", "))
	}
}

// looser lists the checks whose limit the design file has made easier.
func looser(results []Result) []string {
	var ids []string
	for i := range results {
		if r := &results[i]; r.Looser && !slices.Contains(ids, r.Method.ID) {
			ids = append(ids, r.Method.ID)
		}
	}
	return ids
}

func (d *Design) usedMaterials() []*materials.Material {
	all := []*materials.Material{d.Tube.Material.Material}
	for _, e := range d.Ends {
		all = append(all, e.Material.Material)
	}
	var list []*materials.Material
	for _, m := range all {
		if m != nil && !slices.Contains(list, m) {
			list = append(list, m)
		}
	}
	return list
}
