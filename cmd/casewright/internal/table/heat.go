package table

import (
	"fmt"
	"io"
	"math"
	"strconv"

	"github.com/olekukonko/tablewriter/tw"

	"casewright/quantity"
	"casewright/sizing"
)

// Heat writes how hot a motor gets: a table by part, the tube's strength while
// it burns, each seal, what would cool it, and how long to wait.
func Heat(w io.Writer, a *sizing.HeatAnswer, o Options) error {
	p := &page{options: o, units: unitsFor(o.Units, a.Design)}
	p.wrapped("", 2, p.signs(fmt.Sprintf("%s: heat, from ignition to %s after it", a.Design.Name.Value, p.time(a.History.Time[len(a.History.Time)-1]))))
	p.line("")
	if err := p.heatPlaces(a); err != nil {
		return err
	}
	p.line("")
	if err := p.hotTubes(a); err != nil {
		return err
	}
	for i := range a.Seals {
		p.line("")
		p.hotSeal(&a.Seals[i])
	}
	p.line("")
	p.wrapped("", 2, p.signs(p.wait(a)))
	p.wrapped("", 2, "Properties are constant, the liner does not char, heat along the tube half-way is left out: calibrate with labels or thermocouples. A pass is not permission to fire: see SAFETY.md.")
	_, err := io.WriteString(w, p.finish())
	return err
}

// degrees is a temperature as a person reads it.
func (p *page) degrees(t quantity.Temperature, r rounding) string {
	switch {
	case math.IsNaN(float64(t)) || math.IsInf(float64(t), 0) || t == 0:
		return ""
	case p.units.inches:
		return digits(quantity.MustUnit("°F").FromSI(float64(t)), 0, r) + " °F"
	}
	return digits(t.Celsius(), 0, r) + " °C"
}

// time is a time after ignition, in s or min.
func (p *page) time(s float64) string {
	switch {
	case s < 10:
		return strconv.FormatFloat(s, 'f', 1, 64) + " s"
	case s < 600:
		return strconv.FormatFloat(s, 'f', 0, 64) + " s"
	}
	return strconv.FormatFloat(s/60, 'f', 0, 64) + " min"
}

func (p *page) heatPlaces(a *sizing.HeatAnswer) error {
	rows := []row{{cells: []string{"part", "place", "peak", "after", "at burnout", "limit", ""}}}
	part := ""
	for i := range a.Places {
		h := &a.Places[i]
		name := h.Part
		if name == part {
			name = ""
		}
		part = h.Part
		word := ""
		if h.Over() {
			word = "OVER"
		}
		limit := p.degrees(h.Limit, down)
		if limit != "" {
			limit += ", " + h.Why
		}
		rows = append(rows, row{cells: []string{name, h.Title, p.degrees(h.Peak.Temperature, up), p.time(float64(h.Peak.Time)), p.degrees(h.At, up), word, limit}})
	}
	lines, err := aligned(rows, []tw.Align{tw.AlignLeft, tw.AlignLeft, tw.AlignRight, tw.AlignRight, tw.AlignRight, tw.AlignLeft, tw.AlignLeft})
	if err != nil {
		return err
	}
	for _, line := range lines {
		p.line("%s", p.signs(line))
	}
	return nil
}

func (p *page) hotTubes(a *sizing.HeatAnswer) error {
	rows := []row{{cells: []string{"tube at", "after", "mean", "bore side", "F_ty", "F_tu", "tube.yield", "tube.burst"}}}
	strength := func(si float64) string { return p.units.text(si, quantity.KindPressure, down) }
	margin := func(x float64) string {
		if math.IsNaN(x) {
			return "refused"
		}
		return digits(x, 2, down)
	}
	for _, t := range a.Tube {
		rows = append(rows, row{cells: []string{
			t.Title, p.time(float64(t.Time)), p.degrees(t.Mean, up), p.degrees(t.Inside, up), strength(t.Yield.SI), strength(t.Ultimate.SI), margin(t.Swells), margin(t.Bursts),
		}})
	}
	right := tw.AlignRight
	lines, err := aligned(rows, []tw.Align{tw.AlignLeft, right, right, right, right, right, right, right})
	if err != nil {
		return err
	}
	for _, line := range lines {
		p.line("%s", p.signs(line))
	}
	p.wrapped("", 2, "Margins are at the full design pressure, the whole wall taken as hot as its bore side.")
	return nil
}

func (p *page) hotSeal(s *sizing.HotSeal) {
	limit := p.degrees(s.Compound.Limit, down)
	what := fmt.Sprintf("%s: gland at %s until burnout, %s at its peak %s after ignition; %s bears %s", s.End, p.degrees(s.Burning.Temperature, up),
		p.degrees(s.Soaking.Temperature, up), p.time(float64(s.Soaking.Time)), s.Compound.Name, limit)
	if s.Spare >= 0 {
		p.wrapped("", 2, p.signs(fmt.Sprintf("%s. It has %s to spare.", what, p.units.text(float64(s.Spare), quantity.KindTemperatureDifference, down))))
		return
	}
	p.wrapped("", 2, p.signs(fmt.Sprintf("%s. THE SEAL OVERHEATS, from %s after ignition on. One of these would do:", what, p.time(s.Over))))
	for _, r := range s.Remedies {
		p.wrapped("  - ", 4, p.signs(p.remedy(&r)))
	}
	p.wrapped("  - ", 4, fmt.Sprintf("cooling the end, or taking it out, before %s after ignition, where your rules let anybody near by then", p.time(s.Over)))
	p.wrapped("  - ", 4, "a compound that bears more")
}

func (p *page) remedy(r *sizing.Remedy) string {
	change := fmt.Sprintf("%s of %s in place of %s", r.Key, p.changed(r.To, r.Unit), p.changed(r.From, r.Unit))
	if r.Cover != "" {
		change = fmt.Sprintf("a cover of %s, %s = %s", r.Cover, r.Key, p.changed(r.To, r.Unit))
	}
	if !r.Enough {
		return fmt.Sprintf("not %s alone: %s leaves the gland at %s", r.Key, change, p.degrees(r.Peak, up))
	}
	return fmt.Sprintf("%s: the gland then peaks at %s", change, p.degrees(r.Peak, up))
}

// changed is a value that a remedy changes.
func (p *page) changed(x float64, k quantity.Kind) string {
	switch {
	case k == quantity.KindMass:
		return p.mass(quantity.Mass(x))
	case p.units.inches:
		return digits(x/float64(quantity.Inch), 3, up) + " in"
	}
	return strconv.FormatFloat(1e3*x, 'f', -1, 64) + " mm"
}

// wait says when the motor may be touched.
func (p *page) wait(a *sizing.HeatAnswer) string {
	touch := p.degrees(a.Touch, down)
	if !a.History.Cooled {
		return fmt.Sprintf("Within %s not everything falls below %s: do not touch it until you have measured.", p.time(a.History.Time[len(a.History.Time)-1]), touch)
	}
	return fmt.Sprintf("Everything is below %s from %s after ignition on. Measure before you touch, and wait longer where your rules ask for it.", touch, p.time(a.History.Safe))
}
