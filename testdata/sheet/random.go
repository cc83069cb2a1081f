package sheet

import (
	"fmt"
	"math"

	"github.com/shopspring/decimal"
	"pgregory.net/rapid"

	"casewright/fastener"
	"casewright/seal"
)

// drawing is how sheets are drawn.
type drawing struct {
	t        *rapid.T
	s        *Sheet
	unit     string
	step     decimal.Decimal // of the drawing, in its unit
	perMM    float64         // steps
	sameSign bool            // the nominal size may lie outside its tolerance

	groove, engagement int // of the end at hand, in steps
}

// An Option changes how sheets are drawn.
type Option func(*drawing)

// InUnit draws all sizes in one unit.
func InUnit(unit string) Option { return func(g *drawing) { g.unit = unit } }

// SameSign lets nominal sizes lie outside their tolerance.
func SameSign(g *drawing) { g.sameSign = true }

// Draw draws a motor that can be built: two ends as a rule, in
// millimetres or in inches, the tube by any two of its sizes.
func Draw(t *rapid.T, options ...Option) *Sheet {
	g := &drawing{t: t, s: &Sheet{}}
	g.unit = rapid.SampledFrom([]string{"mm", "in"}).Draw(t, "unit")
	for _, o := range options {
		o(g)
	}
	g.step, g.perMM = decimal.RequireFromString("0.01"), 100
	if g.unit == "in" {
		g.step, g.perMM = decimal.RequireFromString("0.0005"), 2000/25.4
	}
	g.motor()
	return g.s
}

func (g *drawing) text(table, key, text string) { g.s.Set(Cell{Table: table, Key: key, Text: text}) }

func (g *drawing) quoted(table, key, text string) { g.text(table, key, `"`+text+`"`) }

// steps draws a length in steps of the drawing, its bounds in millimetres.
func (g *drawing) steps(label string, least, most float64) int {
	low := int(math.Ceil(least * g.perMM))
	return rapid.IntRange(low, max(low, int(most*g.perMM))).Draw(g.t, label)
}

func (g *drawing) maybe(label string) bool { return rapid.Bool().Draw(g.t, label) }

func (g *drawing) one(label string, list ...string) string {
	return rapid.SampledFrom(list).Draw(g.t, label)
}

// size writes a length with a tolerance of at most so many millimetres.
func (g *drawing) size(table, key string, steps int, most float64) {
	z := Size{Nominal: g.step.Mul(decimal.NewFromInt(int64(steps))), Unit: g.unit}
	count := func(label string) decimal.Decimal {
		return g.step.Mul(decimal.NewFromInt(int64(rapid.IntRange(0, max(0, min(int(most*g.perMM), steps/4))).Draw(g.t, label))))
	}
	switch kind := rapid.IntRange(0, 9).Draw(g.t, key+" tolerance"); {
	case kind < 3:
	case kind < 6:
		z.Upper = count("±")
		z.Lower = z.Upper.Neg()
	case kind < 9 || !g.sameSign:
		z.Upper, z.Lower = count("+"), count("-").Neg()
	default:
		z.Lower, z.Upper = count("a"), count("b")
		if z.Lower.Cmp(z.Upper) > 0 {
			z.Lower, z.Upper = z.Upper, z.Lower
		}
		if g.maybe("below") {
			z.Lower, z.Upper = z.Upper.Neg(), z.Lower.Neg()
		}
	}
	g.s.Set(Cell{Table: table, Key: key, Text: `"` + z.String() + `"`, Size: &z})
}

func (g *drawing) temperature(table string) {
	if at := g.one(table+" temperature", "", "", "20 °C", "60 °C", "90 °C", "120 °C", "160 °C", "-15 °C", "-30 °C", "194 °F", "363.15 K"); at != "" {
		g.quoted(table, "temperature", at)
	}
}

func (g *drawing) motor() {
	g.quoted("motor", "name", "Random")
	if pressure := rapid.IntRange(100, 4000).Draw(g.t, "pressure"); g.maybe("in psi") {
		g.quoted("motor", "pressure", fmt.Sprintf("%d psi", pressure))
	} else {
		g.quoted("motor", "pressure", fmt.Sprintf("%.2f MPa", float64(pressure)/200))
	}
	for _, factor := range []string{"yield", "ultimate", "fitting"} {
		if g.maybe("factor " + factor) {
			g.quoted("factors", factor, fmt.Sprintf("%.2f", float64(rapid.IntRange(100, 300).Draw(g.t, factor))/100))
		}
	}
	for _, limit := range []struct {
		id, unit    string
		least, most int
	}{
		{"hole.edge", "", 1, 3},
		{"end.engagement", "", 0, 2},
		{"seal.stretch", " %", 0, 9},
		{"seal.squeeze_most", " %", 15, 40},
		{"seal.squeeze_least_offset", " %", 0, 10},
		{"hole.outside_seal", " mm", 0, 4},
		{"seal.gap", " mm", 0, 1},
	} {
		if rapid.IntRange(0, 4).Draw(g.t, "limit") == 0 {
			g.quoted("limits", `"`+limit.id+`"`, fmt.Sprintf("%d.%d%s", rapid.IntRange(limit.least, limit.most).Draw(g.t, limit.id),
				rapid.IntRange(1, 9).Draw(g.t, "tenths"), limit.unit))
		}
	}

	bore := g.steps("bore", 25, 140)
	wall := g.steps("wall", 1, 8)
	g.tube(bore, wall)
	length := 0
	for i, kind := range []string{"bulkhead", "nozzle"} {
		if i == 1 && rapid.IntRange(0, 9).Draw(g.t, "one end only") == 0 {
			continue
		}
		length += g.end(fmt.Sprintf("end%d", i+1), kind, bore, wall)
	}
	g.size("tube", "length", length+g.steps("length", 60, 500), 1)
}

func (g *drawing) tube(bore, wall int) {
	// Not so much that the groove could come out wider than the bore.
	tolerance := min(0.4, float64(wall)/g.perMM/8)
	switch g.one("tube by", "bore and wall", "outside and wall", "two diameters") {
	case "bore and wall":
		g.size("tube", "inside_diameter", bore, tolerance)
		g.size("tube", "wall", wall, tolerance)
	case "outside and wall":
		g.size("tube", "outside_diameter", bore+2*wall, tolerance)
		g.size("tube", "wall", wall, tolerance)
	case "two diameters":
		g.size("tube", "outside_diameter", bore+2*wall, tolerance)
		g.size("tube", "inside_diameter", bore, tolerance)
		if g.maybe("wall variation") {
			g.size("tube", "wall_variation", g.steps("variation", 0, tolerance*2), tolerance)
		}
	}
	material := g.one("tube material", "6061-T6 drawn tube", "6061-T6 extruded tube", "6063-T6 extruded tube",
		"EN AW-6082-T6 extruded tube", "2024-T3 drawn tube", "304 annealed tube", "own")
	g.quoted("tube", "material", material)
	if material == "own" {
		g.material(material)
	}
	g.temperature("tube")
	if g.maybe("lead-in") {
		g.size("tube", "lead_in", g.steps("lead-in", 0.3, 3*float64(wall)/g.perMM), 0.3)
		if g.maybe("lead-in angle") {
			g.quoted("tube", "lead_in_angle", fmt.Sprintf("%d°", rapid.IntRange(5, 18).Draw(g.t, "angle")))
		}
	}
}

// material draws a material of the file's own.
func (g *drawing) material(name string) {
	g.quoted("material", "name", name)
	g.quoted("material", "source", "certificate")
	g.quoted("material", "form", g.one("form", "drawn tube", "extruded tube", "bar"))
	strength := func(key string, least, most int) int {
		x := rapid.IntRange(least, most).Draw(g.t, key)
		g.quoted("material", key, fmt.Sprintf("%d MPa", x))
		return x
	}
	yield := strength("yield", 50, 500)
	ultimate := strength("ultimate", yield, 600)
	if g.maybe("shear strength") {
		strength("shear", ultimate/2, ultimate)
	}
	for _, pair := range [][2]string{{"bearing_ultimate_1_5", "bearing_ultimate_2"}, {"bearing_yield_1_5", "bearing_yield_2"}} {
		if g.maybe(pair[1]) {
			strength(pair[1], strength(pair[0], yield, 2*yield), 3*yield)
		}
	}
	g.quoted("material", "modulus", "70 GPa")
	g.quoted("material", "poisson", "0.33")
	g.quoted("material", "elongation", fmt.Sprintf("%d %%", rapid.IntRange(4, 30).Draw(g.t, "elongation")))
	if g.maybe("expansion") {
		g.quoted("material", "expansion", "23e-6 /K")
	}
	if g.maybe("at") {
		g.quoted("material", "at", "150 °C")
	}
}

// end draws an end and returns the length of tube that it takes.
func (g *drawing) end(table, kind string, bore, wall int) int {
	g.quoted(table, "name", kind)
	g.quoted(table, "kind", kind)
	g.quoted(table, "material", g.one("end material", "6061-T6 bar", "EN AW-6082-T6 bar", "7075-T6 bar", "304 annealed bar"))
	outside := bore - g.steps("clearance", 0, 0.4)
	g.size(table, "outside_diameter", outside, 0.2)
	g.temperature(table)
	grooveEnd := g.seal(table+".seal", bore)
	least, length := g.screws(table+".screws", grooveEnd, outside, wall)
	least += g.steps("behind the screws", 0.5, 10)
	if kind == "bulkhead" {
		plate := g.steps("plate", 3, 25)
		least = max(least, plate)
		g.size(table, "plate", plate, 0.3)
		if g.maybe("port") {
			g.size(table, "port", g.steps("port size", 2, float64(outside)/g.perMM/2.5), 0.3)
		}
	} else {
		switch g.one("insert", "none", "one piece", "lip") {
		case "one piece":
			g.text(table, "one_piece", "true")
		case "lip":
			most := min(float64(g.groove-2), float64(outside-2*g.engagement-2)) / g.perMM
			insert := g.steps("insert", min(most, float64(outside)/g.perMM/3), min(most, float64(outside)/g.perMM*0.85))
			lip := g.steps("lip", 1, 8)
			least = max(least, lip+1)
			g.size(table, "insert_diameter", insert, 0.2)
			g.size(table, "lip_diameter", insert-g.steps("lip reach", min(1, float64(insert)/g.perMM/4), float64(insert)/g.perMM/3), 0.2)
			g.size(table, "lip", lip, 0.3)
		}
	}
	g.size(table, "length", least, 0.5)
	return length
}

// seal draws a seal and returns where its last groove ends.
func (g *drawing) seal(table string, bore int) int {
	squeeze := rapid.Float64Range(0.08, 0.33).Draw(g.t, "squeeze")
	inMM := func(d decimal.Decimal) float64 { return d.InexactFloat64() * 1e3 }
	var fitting []seal.Ring
	for _, r := range seal.Rings() {
		groove := float64(bore)/g.perMM - 2*(1-squeeze)*inMM(r.Section)
		if stretched := groove / inMM(r.Inside); stretched > 1.001 && stretched < 1.07 {
			fitting = append(fitting, r)
		}
	}
	var section, groove int
	if len(fitting) > 0 && g.maybe("ring by size") {
		ring := rapid.SampledFrom(fitting).Draw(g.t, "ring")
		g.quoted(table, "size", ring.Name)
		section = int(math.Ceil(inMM(ring.Section) * g.perMM))
		groove = int(float64(bore) - 2*(1-squeeze)*inMM(ring.Section)*g.perMM)
	} else {
		section = g.steps("section", 1.5, min(7, float64(bore)/g.perMM/10))
		groove = bore - int(2*(1-squeeze)*float64(section))
		inside := int(float64(groove) / rapid.Float64Range(1, 1.07).Draw(g.t, "stretch"))
		g.size(table, "section", section, 0.15)
		g.size(table, "inside_diameter", inside, 0.6)
	}
	g.quoted(table, "compound", g.one("compound", seal.CompoundNames()...))
	g.text(table, "hardness", fmt.Sprint(rapid.IntRange(65, 95).Draw(g.t, "hardness")))
	g.groove = groove
	g.size(table, "groove_diameter", groove, 0.1)
	width := section + g.steps("room in the groove", 0.1, 4)
	g.size(table, "groove_width", width, 0.2)
	end := g.steps("groove from face", 1, 8)
	g.size(table, "groove_from_face", end, 0.3)
	end += width
	count := rapid.IntRange(1, 3).Draw(g.t, "grooves")
	if count > 1 || g.maybe("count of one") {
		g.text(table, "count", fmt.Sprint(count))
	}
	if count > 1 {
		spacing := width + g.steps("land", 0.5, 5)
		g.size(table, "groove_spacing", spacing, 0.3)
		end += (count - 1) * spacing
	}
	return end
}

// screws draws a row of screws; it returns where the screws end, and the
// length of tube that the end takes.
func (g *drawing) screws(table string, grooveEnd, outside, wall int) (end, length int) {
	var fitting []fastener.Thread
	for _, thread := range fastener.Threads() {
		if d := thread.Diameter.InexactFloat64() * 1e3; d < float64(outside)/g.perMM/5 {
			fitting = append(fitting, thread)
		}
	}
	thread := rapid.SampledFrom(fitting).Draw(g.t, "thread")
	d := thread.Diameter.InexactFloat64() * 1e3
	g.quoted(table, "thread", thread.Name)
	g.quoted(table, "class", g.one("class", fastener.ClassNames()...))
	count := rapid.IntRange(4, 12).Draw(g.t, "screws")
	g.text(table, "count", fmt.Sprint(count))
	hole := g.steps("hole", d+0.01, d*1.15+0.3)
	g.size(table, "hole", hole, 0.15)
	edge := g.steps("edge", float64(hole)/g.perMM*0.8, float64(hole)/g.perMM*3.5)
	g.size(table, "edge", edge, 0.3)
	fromFace := grooveEnd + g.steps("from face", d/2, d/2+12)
	g.size(table, "from_face", fromFace, 0.3)
	// The tips of the screws must not meet.
	deepest := float64(outside)/g.perMM/2 - d/2/math.Sin(math.Pi/float64(count)) - 0.1
	g.engagement = g.steps("engagement", min(deepest, d*0.8), min(deepest, d*2.5))
	g.size(table, "engagement", g.engagement, 0.3)
	if g.maybe("drilled") {
		g.size(table, "drilled", g.engagement+g.steps("beyond the thread", 0.1, d), 0.3)
	}
	if g.maybe("shear plane") {
		g.text(table, "threads_in_shear", fmt.Sprint(g.maybe("threads")))
	}
	if g.maybe("share") {
		g.quoted(table, "share", fmt.Sprintf("%.2f", rapid.Float64Range(1, 2).Draw(g.t, "share of one")))
	}
	wide := float64(wall) / g.perMM
	if g.maybe("edge break") {
		g.size(table, "edge_break", g.steps("edge break", 0.1, wide*0.5), 0.1)
	}
	switch head := g.one("head", "", "cap", "button", "countersunk"); head {
	case "":
	case "countersunk":
		g.size(table, "head_depth", g.steps("head depth", 0.3, wide*0.8), 0.1)
		fallthrough
	default:
		g.quoted(table, "head", head)
	}
	return fromFace + int(math.Ceil(d/2*g.perMM)), fromFace + edge
}
