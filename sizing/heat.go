package sizing

import (
	"math"

	"casewright"
	"casewright/casing"
	"casewright/casing/heat"
	"casewright/margin"
	"casewright/materials"
	"casewright/quantity"
	"casewright/seal"
)

// A HeatAnswer is how hot a motor gets, what that does to it, and what would
// cool its seals.
type HeatAnswer struct {
	Design  *casewright.Design
	History *heat.History
	Touch   quantity.Temperature // below which it may be touched
	Places  []HeatPlace
	Tube    []HotTube // at the peak of pressure where that is told, and at burnout
	Seals   []HotSeal
	Fit     *heat.Fitted // to what was measured; nil where nothing was
}

// A HeatPlace is a place whose temperature is followed.
type HeatPlace struct {
	Part  string // "tube", or the end's name
	Name  string // as in "wall_outside", or "gland"
	Title string // what it is, in a few words
	Trace heat.Trace
	Peak  heat.Reading
	At    quantity.Temperature // at burnout
	Limit quantity.Temperature // what it bears; NaN where nothing is told
	Hot   quantity.Temperature // what is held against the limit: the peak, or that until burnout where pressure matters
}

// Over tells whether the place gets hotter than it bears.
func (p *HeatPlace) Over() bool { return p.Hot > p.Limit }

// Unfollowed are the names of the ends that are no part of the computation: how
// hot they get is not told.
func (a *HeatAnswer) Unfollowed() []string {
	var list []string
	for i := range a.Design.Ends {
		if !a.Design.IsHeated(i) {
			list = append(list, a.Design.Ends[i].Name.Value)
		}
	}
	return list
}

// Holds tells whether nothing gets hotter than it bears.
func (a *HeatAnswer) Holds() bool {
	for i := range a.Places {
		if a.Places[i].Over() {
			return false
		}
	}
	return true
}

// A HotTube is the tube at a moment while it burns.
type HotTube struct {
	Title           string // "burnout"
	Time            quantity.Time
	Mean, Inside    quantity.Temperature
	Yield, Ultimate materials.Reading // at the temperature of the bore side
	Swells, Bursts  float64           // margins of tube.yield and tube.burst; NaN where refused
}

// A HotSeal is the gland of an end against what its rubber bears.
type HotSeal struct {
	End      string
	Compound seal.Compound
	Burning  heat.Reading // the hottest until burnout
	Soaking  heat.Reading // and afterwards
	Spare    quantity.TemperatureDifference
	Over     float64 // s after ignition at which it passes the limit; NaN where it does not
	Remedies []Remedy
}

// A Remedy is one change that would keep a gland below the limit of its
// compound, all else as it is.
type Remedy struct {
	Key      string // that one would change
	From, To float64
	Unit     quantity.Kind
	Peak     quantity.Temperature // of the gland, with it
	Enough   bool                 // false where the most that can be done is too little
	Cover    string               // material of a cover that is not there yet
}

// AnswerHeat computes how hot a motor gets. The error tells what the design
// lacks, or that the computation did not settle.
func AnswerHeat(d *casewright.Design) (*HeatAnswer, error) {
	h, err := d.Heated()
	if err != nil {
		return nil, err
	}
	m, err := d.HeatMotor()
	if err != nil {
		return nil, err
	}
	a := &HeatAnswer{Design: d, History: h, Touch: m.Touch}
	a.places()
	a.tube()
	for n, i := range d.HeatedEnds() {
		a.seal(n, &d.Ends[i])
	}
	return a, nil
}

func (a *HeatAnswer) add(part, name, title string, t heat.Trace, limit float64) {
	h := a.History
	p := HeatPlace{part, name, title, t, h.Peak(t), h.AtBurnout(t), quantity.Temperature(limit), h.PeakBurning(t).Temperature}
	if name == "gland" || name == "bolts" {
		p.Hot = p.Peak.Temperature
	}
	a.Places = append(a.Places, p)
}

// Find returns a place by part and name; nil where there is none.
func (a *HeatAnswer) Find(part, name string) *HeatPlace {
	for i := range a.Places {
		if p := &a.Places[i]; p.Part == part && p.Name == name {
			return p
		}
	}
	return nil
}

func (a *HeatAnswer) places() {
	d, h, none := a.Design, a.History, math.NaN()
	hot, bond := "hot face of the tube", "bore side"
	if n := len(d.Heat.Layers); n > 0 {
		hot = "hot face of " + d.Heat.Layers[0].Name.Value
		bond = "outer face of " + d.Heat.Layers[n-1].Name.Value
	}
	strong := float64(d.Tube.Material.StrongTo())
	a.add("tube", "hot_face", hot, h.HotFace, none)
	a.add("tube", "bond", bond, h.Bond, none)
	a.add("tube", "wall_inside", "wall, bore side", h.WallInside, strong)
	a.add("tube", "wall_mean", "wall, mean", h.WallMean, strong)
	a.add("tube", "wall_outside", "wall, outside", h.WallOutside, none)
	for n, i := range d.HeatedEnds() {
		e, t, washers := &d.Ends[i], &h.Ends[n], none
		if w := e.Screws.Washer.Washer; w != nil && w.Softens > 0 {
			washers = float64(w.Softens)
		}
		a.add(e.Name.Value, "face", "where heat enters", t.Face, none)
		a.add(e.Name.Value, "gland", "gland", t.Gland, float64(e.Seal.Compound.Limit))
		a.add(e.Name.Value, "bolts", "screws", t.Bolts, washers)
		a.add(e.Name.Value, "metal", "hottest metal", t.Metal, float64(e.Material.StrongTo()))
		a.add(e.Name.Value, "tube", "tube round it", t.Tube, strong)
		a.add(e.Name.Value, "rear", "outer face", t.Rear, none)
	}
}

func (a *HeatAnswer) tube() {
	d, h := a.Design, a.History
	if d.PeakTime.IsSet() {
		a.hotTube("peak of pressure", quantity.Time(d.PeakTime.SI()))
	}
	a.hotTube("burnout", quantity.Time(h.Burnout))
}

// hotTube checks the tube as if it were as hot all through as its bore side is
// at a time.
func (a *HeatAnswer) hotTube(title string, at quantity.Time) {
	h := a.History
	t := HotTube{Title: title, Time: at, Mean: h.At(h.WallMean, at), Inside: h.At(h.WallInside, at), Swells: math.NaN(), Bursts: math.NaN()}
	m := a.Design.Tube.Material
	t.Yield, t.Ultimate = m.At(materials.Yield, t.Inside), m.At(materials.Ultimate, t.Inside)
	warm := a.Design.Clone()
	warm.Ends, warm.Tube.Temperature = nil, casewright.Kelvins(t.Inside)
	r := casewright.Check(warm)
	for i := range r.Results {
		if c := &r.Results[i]; c.Verdict != margin.Refused {
			switch c.Method {
			case &casing.Yield:
				t.Swells = c.Margin
			case &casing.BurstPressure:
				t.Bursts = c.Margin
			}
		}
	}
	a.Tube = append(a.Tube, t)
}

func (a *HeatAnswer) seal(n int, e *casewright.End) {
	h := a.History
	trace := h.Ends[n].Gland
	s := HotSeal{End: e.Name.Value, Compound: e.Seal.Compound.Compound, Burning: h.PeakBurning(trace), Soaking: h.PeakAfter(trace), Over: math.NaN()}
	limit := float64(s.Compound.Limit)
	s.Spare = quantity.TemperatureDifference(limit - float64(h.Peak(trace).Temperature))
	if s.Spare < 0 {
		for i, t := range trace {
			if t > limit {
				s.Over = h.Time[i]
				if i > 0 {
					s.Over -= (h.Time[i] - h.Time[i-1]) * (t - limit) / (t - trace[i-1])
				}
				break
			}
		}
		s.Remedies = a.remedies(n, e, limit)
	}
	a.Seals = append(a.Seals, s)
}

// newCover is what a bare hot face is advised: common practice, no source.
const newCover = "phenolic paper tube"

// remedies are the least changes that keep a gland below a limit, each alone.
func (a *HeatAnswer) remedies(n int, e *casewright.End, limit float64) []Remedy {
	base, err := a.Design.HeatMotor()
	if err != nil {
		return nil
	}
	var list []Remedy
	// More is what a drawing's size has over the least that is computed.
	try := func(r Remedy, from, most, step, more float64, set func(end *heat.End, m *heat.Motor, x float64)) {
		if !(most > from+step) {
			return
		}
		peak := func(x float64) float64 {
			m := *base
			m.Layers, m.Ends = append([]heat.Layer(nil), base.Layers...), append([]heat.End(nil), base.Ends...)
			set(&m.Ends[n], &m, x)
			h, err := m.Run(heat.Usual)
			if err != nil {
				return math.Inf(1)
			}
			return float64(h.Peak(h.Ends[n].Gland).Temperature)
		}
		r.From = from + more
		steps := int(math.Floor((most-from)/step + 1e-9))
		at := func(i int) float64 { return math.Floor(from/step+1e-9)*step + float64(i)*step }
		switch top := peak(at(steps)); {
		case math.IsInf(top, 1):
			return
		case top > limit:
			r.To, r.Peak = at(steps)+more, quantity.Temperature(top)
			list = append(list, r)
			return
		}
		low, high := 0, steps // high keeps the limit, low does not
		for high-low > 1 {
			if mid := (low + high) / 2; peak(at(mid)) <= limit {
				high = mid
			} else {
				low = mid
			}
		}
		r.To, r.Peak, r.Enough = at(high)+more, quantity.Temperature(peak(at(high))), true
		list = append(list, r)
	}
	end := &base.Ends[n]
	// The rings stay before the holes of the screws, where the tube is whole: half a
	// screw's diameter of land is left, common practice, no source.
	grooves, screw := end.GlandEnd-end.Gland, quantity.LengthOf(e.Screws.Thread.Diameter)
	try(Remedy{Key: "end.seal.groove_from_face", Unit: quantity.KindLength}, float64(end.Gland), float64(end.Bolts-screw-grooves), 0.5e-3, overLeast(e.Seal.GrooveFromFace),
		func(e *heat.End, _ *heat.Motor, x float64) {
			e.Gland, e.GlandEnd = quantity.Length(x), quantity.Length(x)+grooves
		})
	cover, thick := Remedy{Key: "end.heat.cover_thickness", Unit: quantity.KindLength}, 0.0
	if end.Cover != nil {
		thick = float64(end.Cover.Thickness)
	} else {
		cover.Cover = newCover
	}
	try(cover, thick, thick+20e-3, 0.5e-3, overLeast(e.Heat.CoverThickness), func(e *heat.End, _ *heat.Motor, x float64) {
		slab := heat.Layer{}
		if e.Cover != nil {
			slab = *e.Cover
		} else if l, ok := materials.LookupLayer(newCover); ok {
			slab.Solid = heat.Solid{Conductivity: l.Greatest(), Density: l.Density, SpecificHeat: l.SpecificHeat}
		}
		slab.Thickness = quantity.Length(x)
		e.Cover = &slab
	})
	full := math.Pi / 4 * float64(base.Bore*base.Bore) * float64(end.Length) * float64(end.Body.Density)
	try(Remedy{Key: "end.heat.mass", Unit: quantity.KindMass}, float64(end.Mass), full, 5e-3, 0,
		func(e *heat.End, _ *heat.Motor, x float64) { e.Mass = quantity.Mass(x) })
	if len(base.Layers) > 0 {
		thickness, room := float64(base.Layers[0].Thickness), float64(base.Bore)/2
		for _, l := range base.Layers {
			room -= float64(l.Thickness)
		}
		try(Remedy{Key: "heat.layer.thickness", Unit: quantity.KindLength}, thickness, thickness+min(8e-3, room/2), 0.25e-3, overLeast(a.Design.Heat.Layers[0].Thickness),
			func(_ *heat.End, m *heat.Motor, x float64) { m.Layers[0].Thickness = quantity.Length(x) })
	}
	return list
}

// overLeast is what the nominal size has over the least, m.
func overLeast(d casewright.Dimension) float64 {
	if !d.IsSet() {
		return 0
	}
	return d.Nominal().Sub(d.Least()).InexactFloat64()
}
