package table

import (
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"

	"github.com/olekukonko/tablewriter/tw"

	"casewright/casing/heat"
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
		p.hotSeal(&a.Seals[i], a.History.Burnout)
	}
	if a.Fit != nil {
		p.line("")
		if err := p.heatFit(a); err != nil {
			return err
		}
	}
	p.line("")
	p.wrapped("", 2, p.signs(p.wait(a)))
	p.wrapped("", 2, "Layers and covers conduct the most that their material is met with; other properties are typical, all are constant, the liner does not char, heat along the tube half-way is left out: calibrate with labels or thermocouples. A pass is not permission to fire: see SAFETY.md.")
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
func (p *page) time(s float64) string { return p.timeTo(s, nearest) }

// timeTo is time, rounded to a side: a wait is told too long rather than too
// short.
func (p *page) timeTo(s float64, r rounding) string {
	switch {
	case s < 10:
		return strconv.FormatFloat(whole(10*s, r)/10, 'f', 1, 64) + " s"
	case s < 600:
		return digits(s, 0, r) + " s"
	}
	return digits(s/60, 0, r) + " min"
}

// whole is a number without its fraction.
func whole(x float64, r rounding) float64 {
	switch r {
	case down:
		return math.Floor(x)
	case up:
		return math.Ceil(x)
	}
	return math.Round(x)
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
		rows = append(rows, row{cells: []string{name, h.Title, p.degrees(h.Peak.Temperature, up), p.time(float64(h.Peak.Time)), p.degrees(h.At, up), p.degrees(h.Limit, down), word}})
	}
	lines, err := aligned(rows, []tw.Align{tw.AlignLeft, tw.AlignLeft, tw.AlignRight, tw.AlignRight, tw.AlignRight, tw.AlignRight, tw.AlignLeft})
	if err != nil {
		return err
	}
	for _, line := range lines {
		p.line("%s", p.signs(line))
	}
	p.wrapped("", 2, "Limit: of metal, to which its strength is known, and held until burnout; of a gland, what its compound bears, and of screws, what their washers bear, held throughout. Gland and screws: the hotter of end and tube there.")
	return nil
}

func (p *page) hotTubes(a *sizing.HeatAnswer) error {
	rows := []row{{cells: []string{"tube at", "after", "mean", "bore side", "F_ty", "F_tu", "yields", "bursts"}}}
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
	p.wrapped("", 2, "The last two are the margins of tube.yield and tube.burst, at the full design pressure, the whole wall taken as hot as its bore side.")
	return nil
}

// approach is how long after burnout nobody goes near, s: the least of SAFETY.md
// (common practice, no source).
const approach = 60

func (p *page) hotSeal(s *sizing.HotSeal, burnout float64) {
	limit := p.degrees(s.Compound.Limit, down)
	what := fmt.Sprintf("%s: gland at %s until burnout, %s at its peak %s after ignition; %s bears %s", s.End, p.degrees(s.Burning.Temperature, up),
		p.degrees(s.Soaking.Temperature, up), p.time(float64(s.Soaking.Time)), s.Compound.Name, limit)
	if s.Spare >= 0 {
		p.wrapped("", 2, p.signs(fmt.Sprintf("%s. It has %s to spare.", what, p.units.text(float64(s.Spare), quantity.KindTemperatureDifference, down))))
		return
	}
	p.wrapped("", 2, p.signs(fmt.Sprintf("%s. THE SEAL OVERHEATS, from %s after ignition on. What each change alone would do:", what, p.timeTo(s.Over, down))))
	for _, r := range s.Remedies {
		p.wrapped("  - ", 4, p.signs(p.remedy(&r)))
	}
	if s.Over >= burnout+approach {
		p.wrapped("  - ", 4, fmt.Sprintf("cooling the end, or taking it out, before %s after ignition, where your rules let anybody near by then", p.timeTo(s.Over, down)))
	} else {
		p.wrapped("  - ", 4, "no cooling or taking it out: it overheats before anybody may go near")
	}
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
	return strconv.FormatFloat(math.Round(1e5*x)/100, 'f', -1, 64) + " mm"
}

// wait says when the motor may be touched.
func (p *page) wait(a *sizing.HeatAnswer) string {
	touch := p.degrees(a.Touch, down)
	left := a.Unfollowed()
	all, rest := "Everything", ""
	if left != nil {
		all, rest = "What is computed", fmt.Sprintf(" %s has no [end.heat] and is not computed: it may be hotter, for longer.", strings.Join(left, ", "))
		if len(left) > 1 {
			rest = fmt.Sprintf(" %s have no [end.heat] and are not computed: they may be hotter, for longer.", strings.Join(left, ", "))
		}
	}
	if !a.History.Cooled {
		return fmt.Sprintf("Within %s not everything falls below %s: do not touch it until you have measured.", p.time(a.History.Time[len(a.History.Time)-1]), touch) + rest
	}
	return fmt.Sprintf("%s is below %s from %s after ignition on.%s Measure before you touch, and wait longer where your rules ask for it.", all, touch, p.timeTo(a.History.Safe, up), rest)
}

// heatFit tells the fit to what was measured, and what stays unexplained.
func (p *page) heatFit(a *sizing.HeatAnswer) error {
	f := a.Fit
	p.line("Fitted to [heat.measured]")
	p.wrapped("  ", 4, "All else here is computed with the design's own numbers, not with these.")
	say := func(key string, x float64, open [2]float64, unit string, edge heat.Bound) {
		text := fmt.Sprintf("%s = \"%s %s\"; the test leaves %s to %s open", key, significant(x), unit, significant(open[0]), significant(open[1]))
		if edge != heat.Inside {
			text += "; this is the edge of its range, and the test asks for more: look at what else is wrong"
		}
		p.wrapped("  ", 4, p.signs(text))
	}
	if math.IsNaN(f.FilmRange[0]) || f.FilmRange[0] != f.FilmRange[1] {
		say("film_coefficient", f.Film, f.FilmRange, "W/(m² K)", f.FilmBound)
	}
	if f.Conductivity > 0 {
		say("conductivity", f.Conductivity, f.ConductivityRange, "W/(m K)", f.ConductivityBound)
	}
	if !f.Determined && f.Conductivity > 0 {
		p.wrapped("  ", 4, p.signs(fmt.Sprintf("The test does not tell the two apart: only film^%.2f × conductivity^%.2f is told, to %.0f %% to %.0f %%.", f.Told.Film, f.Told.Conductivity, 100*f.Told.Range[0], 100*f.Told.Range[1])))
	}
	rows := []row{{cells: []string{"measured", "", "computed", "off", ""}}}
	for _, r := range f.Residuals {
		word := "explained"
		if !r.Explained {
			word = "NOT EXPLAINED"
		}
		measured := p.degrees(quantity.Temperature(r.Measured[0]), nearest)
		if r.Measured[0] != r.Measured[1] {
			measured = p.bounds(r.Measured)
		}
		rows = append(rows, row{cells: []string{sizing.PlaceName(a.Design, r.Place), measured, p.degrees(quantity.Temperature(r.Computed), nearest), fmt.Sprintf("%+.1f K", r.Difference), word}})
	}
	lines, err := aligned(rows, []tw.Align{tw.AlignLeft, tw.AlignRight, tw.AlignRight, tw.AlignRight, tw.AlignLeft})
	for _, line := range lines {
		p.line("  %s", p.signs(line))
	}
	return err
}

// bounds is a measured range, as [heat.measured] writes it.
func (p *page) bounds(x [2]float64) string {
	low, high := p.degrees(quantity.Temperature(x[0]), nearest), p.degrees(quantity.Temperature(x[1]), nearest)
	switch {
	case math.IsInf(x[1], 1):
		return "at least " + low
	case x[0] <= 0:
		return "at most " + high
	}
	return low + " to " + high
}

// significant is a number to three digits, without a power of ten.
func significant(x float64) string {
	if x >= 100 {
		return strconv.FormatFloat(x, 'f', 0, 64)
	}
	return strconv.FormatFloat(x, 'g', 3, 64)
}
