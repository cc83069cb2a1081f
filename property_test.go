package casewright

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/shopspring/decimal"
	"pgregory.net/rapid"

	"casewright/casing"
	"casewright/closure"
	"casewright/fastener"
	"casewright/margin"
	"casewright/quantity"
	"casewright/seal"
)

// The tests of this file draw motors at random, write each as a design file,
// read it, and hold what must be true of every motor. No expected value comes
// from the project's own numbers: each property compares two motors, or a
// motor with the definition of the margin.

// A sheet is a design file as tests make it and change it.
type sheet struct{ cells []cell }

// A cell is one key of a sheet. Of the two ends the tables are end1, end1.seal
// and so on.
type cell struct {
	table, key string
	text       string // the value as written, quotes included
	size       *size  // where it is a length
}

// A size is a length with its tolerance, in its unit.
type size struct {
	nominal, lower, upper decimal.Decimal
	unit                  string
}

func (z size) String() string {
	switch {
	case z.lower.IsZero() && z.upper.IsZero():
		return z.nominal.String() + " " + z.unit
	case z.lower.Neg().Equal(z.upper):
		return z.nominal.String() + " ±" + z.upper.String() + " " + z.unit
	}
	signed := func(d decimal.Decimal) string {
		if d.Sign() < 0 {
			return d.String()
		}
		return "+" + d.String()
	}
	return fmt.Sprintf("%s %s/%s %s", z.nominal, signed(z.upper), signed(z.lower), z.unit)
}

var sheetTables = []string{
	"motor", "factors", "limits", "tube", "material",
	"end1", "end1.seal", "end1.screws", "end2", "end2.seal", "end2.screws",
}

// String is the text of the design file.
func (s *sheet) String() string {
	var b strings.Builder
	b.WriteString("format = 1\n")
	for _, table := range sheetTables {
		headed := false
		for _, c := range s.cells {
			if c.table != table {
				continue
			}
			if !headed {
				headed = true
				header := strings.NewReplacer("end1", "end", "end2", "end").Replace(table)
				if header == "end" || header == "material" {
					header = "[" + header + "]"
				}
				fmt.Fprintf(&b, "[%s]\n", header)
			}
			fmt.Fprintf(&b, "%s = %s\n", c.key, c.text)
		}
	}
	return b.String()
}

// sheetOf makes a sheet of lines such as `end1.screws.count = 8`.
func sheetOf(lines string) *sheet {
	s := &sheet{}
	return s.with(strings.Split(strings.TrimSpace(lines), "\n")...)
}

// with returns a copy with other values; a line without a value deletes its key.
func (s *sheet) with(lines ...string) *sheet {
	c := &sheet{slices.Clone(s.cells)}
	for _, line := range lines {
		path, text, ok := strings.Cut(strings.TrimSpace(line), " =")
		table, key := "limits", strings.TrimPrefix(path, "limits.")
		if key == path {
			dot := strings.LastIndexByte(path, '.')
			table, key = path[:dot], path[dot+1:]
		}
		if !ok {
			panic("no value: " + line)
		}
		c.set(cell{table: table, key: key, text: strings.TrimSpace(text)})
	}
	return c
}

func (s *sheet) set(c cell) {
	i := slices.IndexFunc(s.cells, func(other cell) bool { return other.table == c.table && other.key == c.key })
	switch {
	case i < 0 && c.text != "":
		s.cells = append(s.cells, c)
	case i >= 0 && c.text == "":
		s.cells = slices.Delete(s.cells, i, i+1)
	case i >= 0:
		s.cells[i] = c
	}
}

// read reads the sheet, which must be a sound design.
func (s *sheet) read(t rapid.TB) *Design {
	t.Helper()
	d, err := Read("motor.toml", []byte(s.String()))
	if err != nil {
		t.Fatalf("%v\n%s", err, s)
	}
	return d
}

// drawing is how sheets are drawn.
type drawing struct {
	t        *rapid.T
	s        *sheet
	unit     string
	step     decimal.Decimal // of the drawing, in its unit
	perMM    float64         // steps
	sameSign bool            // the nominal size may lie outside its tolerance

	groove, engagement int // of the end at hand, in steps
}

// option changes how sheets are drawn.
type option func(*drawing)

func inUnit(unit string) option { return func(g *drawing) { g.unit = unit } }

func sameSign(g *drawing) { g.sameSign = true }

// drawSheet draws a motor that can be built: two ends as a rule, in
// millimetres or in inches, the tube by any two of its sizes.
func drawSheet(t *rapid.T, options ...option) *sheet {
	g := &drawing{t: t, s: &sheet{}}
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

func (g *drawing) text(table, key, text string) { g.s.set(cell{table: table, key: key, text: text}) }

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
	z := size{nominal: g.step.Mul(decimal.NewFromInt(int64(steps))), unit: g.unit}
	count := func(label string) decimal.Decimal {
		return g.step.Mul(decimal.NewFromInt(int64(rapid.IntRange(0, max(0, min(int(most*g.perMM), steps/4))).Draw(g.t, label))))
	}
	switch kind := rapid.IntRange(0, 9).Draw(g.t, key+" tolerance"); {
	case kind < 3:
	case kind < 6:
		z.upper = count("±")
		z.lower = z.upper.Neg()
	case kind < 9 || !g.sameSign:
		z.upper, z.lower = count("+"), count("-").Neg()
	default:
		z.lower, z.upper = count("a"), count("b")
		if z.lower.Cmp(z.upper) > 0 {
			z.lower, z.upper = z.upper, z.lower
		}
		if g.maybe("below") {
			z.lower, z.upper = z.upper.Neg(), z.lower.Neg()
		}
	}
	g.s.set(cell{table: table, key: key, text: `"` + z.String() + `"`, size: &z})
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

// alike tells whether two numbers are equal but for rounding.
func alike(a, b, tolerance float64) bool {
	return a == b || math.IsNaN(a) && math.IsNaN(b) || math.Abs(a-b) <= tolerance*max(1, math.Abs(a), math.Abs(b))
}

// lower tells whether a margin is lower than another by more than rounding. At
// -1 nothing is left of a strength; that it is not below is held elsewhere.
func lower(a, b float64) bool { return a < b && b > -1 && !alike(a, b, 1e-12) }

func copied(d *Design) *Design {
	c := *d
	c.Ends = slices.Clone(d.Ends)
	return &c
}

// loose returns the design with each O-ring as its two sizes, so that these
// can be changed.
func loose(d *Design) *Design {
	c := copied(d)
	for i := range c.Ends {
		s := &c.Ends[i].Seal
		s.Section.Dimension, s.Inside.Dimension, s.Ring = s.section(), s.inside(), Ring{}
	}
	return c
}

// dimensions lists the lengths that a design gives, by their key.
func dimensions(d *Design) (list []*Dimension, names []string) {
	add := func(field any, name string) {
		if f, ok := field.(*Dimension); ok && f.IsSet() {
			list, names = append(list, f), append(names, name)
		}
	}
	for _, k := range keys {
		if !strings.HasPrefix(k.Path, "end.") {
			add(k.field(d, nil), k.Path)
			continue
		}
		for i := range d.Ends {
			add(k.field(d, &d.Ends[i]), fmt.Sprintf("%s of end %d", k.Path, i+1))
		}
	}
	return list, names
}

func evaluate(d *Design) []margin.Check { return NewMotor(d).Evaluate(nil) }

func pascals(p float64) Amount {
	return Amount{quantity.NewAmount(decimal.NewFromFloat(p), quantity.MustUnit("Pa")), Place{Key: "motor.pressure"}}
}

func checkID(c *margin.Check) string { return fmt.Sprintf("part %d %s", c.Part, c.Method.ID) }

// better finds a check that stands better in b than in a: its margin is
// higher, or it is no longer refused. A check that is only noted may be out of
// its range in a and not in b: its verdict is the same.
func better(a, b []margin.Check) string {
	for i := range a {
		x, y := a[i], b[i]
		if x.Method == &seal.Gap && !(y.Value > 0) {
			continue // an end that is wider than the bore has no gap, however much the limit falls
		}
		allowed := x.Verdict == margin.Refused && !math.IsNaN(y.Margin)
		if lower(x.Margin, y.Margin) || allowed {
			return fmt.Sprintf("%s: margin %v (%s), then %v (%s)", checkID(&x), x.Margin, x.Reason.ID(), y.Margin, y.Reason.ID())
		}
	}
	return ""
}

// often holds a property for three times as many motors as is usual.
func often(t *testing.T, property func(*rapid.T)) {
	for range 3 {
		rapid.Check(t, property)
	}
}

func TestPropertyNoMarginRisesWithPressure(t *testing.T) {
	often(t, func(t *rapid.T) {
		s := drawSheet(t, sameSign)
		d := s.read(t)
		more := copied(d)
		more.Pressure = pascals(d.Pressure.SI() * rapid.Float64Range(1.0001, 4).Draw(t, "rise"))
		if found := better(evaluate(d), evaluate(more)); found != "" {
			t.Fatalf("%s\n%s", found, s)
		}
	})
}

func TestPropertyThickerWallNeverLowersTube(t *testing.T) {
	often(t, func(t *rapid.T) {
		s := drawSheet(t, sameSign)
		d := s.read(t)
		thicker := copied(d)
		wall := decimal.New(int64(rapid.IntRange(1, 300).Draw(t, "by")), -5) // 0.01 mm and more
		tube := &thicker.Tube
		// The bore stays: with the outside diameter grows the wall.
		if tube.Outside.IsSet() {
			tube.Outside.Dimension = tube.Outside.WithNominal(tube.Outside.Nominal().Add(wall.Mul(two)))
		}
		if tube.Wall.IsSet() {
			tube.Wall.Dimension = tube.Wall.WithNominal(tube.Wall.Nominal().Add(wall))
		}
		before, after := evaluate(d), evaluate(thicker)
		for i, m := range casing.Methods() {
			if lower(after[i].Margin, before[i].Margin) {
				t.Fatalf("%s: margin %v, with a thicker wall %v\n%s", m.ID, before[i].Margin, after[i].Margin, s)
			}
		}
	})
}

// Lengths times a power of two and forces times its square are exact in
// binary, so the stresses must be the very same. A screw's stress area cannot
// scale, for its thread does not; its shear load is held by the area.
func TestPropertyScaleLeavesStresses(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := math.Ldexp(1, rapid.IntRange(-6, 6).Draw(t, "scale"))
		one := func(label string, least, most float64) float64 { return rapid.Float64Range(least, most).Draw(t, label) }
		mm := func(label string, least, most float64) quantity.Length {
			return quantity.Length(one(label, least, most)) * quantity.Millimetre
		}
		p := quantity.Pressure(one("p", 0.1, 20)) * quantity.Megapascal
		strength := quantity.Pressure(one("strength", 50, 1500)) * quantity.Megapascal
		bore, wall, hole := mm("bore", 10, 200), mm("wall", 0.5, 10), mm("hole", 2, 12)
		d, length, edge := mm("d", 2, 12), mm("length", 1, 30), mm("edge", 8, 40)
		sink, broken := mm("sink", 0, 2), mm("edge break", 0, 1)
		section, groove, inside := mm("section", 1, 7), mm("groove", 10, 190), mm("inside", 10, 190)
		n, nu := float64(rapid.IntRange(1, 12).Draw(t, "n")), one("nu", 0, 0.5)
		f := casing.EndLoad(p, bore)
		load := fastener.ScrewLoad(f, 1.25, n)
		at := func(x quantity.Length) quantity.Length { return x * quantity.Length(s) }
		k := func(s float64) float64 {
			b, w := float64(bore)*s, float64(wall)*s
			return casing.Ratio(margin.Exactly(b), margin.Exactly(w))[margin.Only]
		}
		force := quantity.Force(s * s)
		angle := quantity.Angle(one("angle", 0.1, 1))
		for _, pair := range []struct {
			name      string
			one, many float64 // many: scaled, and put back where it is a length or a force
		}{
			{"ratio", k(1), k(s)},
			{"hoop", float64(casing.BoreHoop(p, k(1))), float64(casing.BoreHoop(p, k(s)))},
			{"von Mises", float64(casing.BoreVonMises(p, k(1))), float64(casing.BoreVonMises(p, k(s)))},
			{"growth", float64(casing.Growth(p, bore, k(1), 70e9, nu)), float64(casing.Growth(p, at(bore), k(s), 70e9, nu)) / s},
			{"end load", float64(f), float64(casing.EndLoad(p, at(bore)) / force)},
			{"net stress", float64(casing.NetStress(p, bore, wall, n, hole, sink)), float64(casing.NetStress(p, at(bore), at(wall), n, at(hole), at(sink)))},
			{"bearing stress", float64(fastener.BearingStress(load, d, length)), float64(fastener.BearingStress(load*force, at(d), at(length)))},
			{"tear-out", float64(fastener.TearOut(wall, edge, hole, strength)), float64(fastener.TearOut(at(wall), at(edge), at(hole), strength) / force)},
			{"bearing thickness", float64(fastener.BearingThickness(wall, broken, sink)), float64(fastener.BearingThickness(at(wall), at(broken), at(sink))) / s},
			{"chamfer", float64(fastener.Chamfer(length, angle)), float64(fastener.Chamfer(at(length), angle)) / s / s},
			{"arc", float64(fastener.Arc(bore, wall, n)), float64(fastener.Arc(at(bore), at(wall), n)) / s},
			{"shear", float64(fastener.Shear(0.6, strength, 1e-5)), float64(fastener.Shear(0.6, strength, quantity.Area(1e-5*s*s)) / force)},
			{
				"redistribution", fastener.Redistribution(load, strength, strength, d, wall, edge, hole),
				fastener.Redistribution(load*force, strength, strength, at(d), at(wall), at(edge), at(hole)),
			},
			{"plate", float64(closure.PlateStress(p, bore, length, nu, 2)), float64(closure.PlateStress(p, at(bore), at(length), nu, 2))},
			{"lip bending", float64(closure.LipBending(p, bore, bore, groove, length)), float64(closure.LipBending(p, at(bore), at(bore), at(groove), at(length)))},
			{"lip shear", float64(closure.LipShear(bore, length, strength)), float64(closure.LipShear(at(bore), at(length), strength) / force)},
			{"land", float64(closure.LandLoad(p, bore, groove)), float64(closure.LandLoad(p, at(bore), at(groove)) / force)},
			{"land bending", float64(closure.LandBendingStress(p, bore, groove, length)), float64(closure.LandBendingStress(p, at(bore), at(groove), at(length)))},
			{"squeeze", seal.Squeeze(bore, groove, section), seal.Squeeze(at(bore), at(groove), at(section))},
			{"squeeze aside", seal.SqueezeOffset(bore, groove, sink, section), seal.SqueezeOffset(at(bore), at(groove), at(sink), at(section))},
			{"stretched", float64(seal.Stretched(section, groove, inside)), float64(seal.Stretched(at(section), at(groove), at(inside))) / s},
			{"stretch", seal.Stretch(groove, inside), seal.Stretch(at(groove), at(inside))},
			{"fill", seal.Fill(section, 0.05, 0.01, length, bore, groove), seal.Fill(at(section), 0.05, 0.01, at(length), at(bore), at(groove))},
			{"heat", float64(seal.HeatOpening(0.002, 0.001, bore, groove)), float64(seal.HeatOpening(0.002, 0.001, at(bore), at(groove))) / s},
			{"mouth", float64(seal.Mouth(bore, length, angle)), float64(seal.Mouth(at(bore), at(length), angle)) / s},
		} {
			if pair.one != pair.many {
				t.Fatalf("%s: %v, at scale %v %v", pair.name, pair.one, s, pair.many)
			}
		}
	})
}

// twin is the same motor with every length in millimetres, exactly: the inch
// is 25.4 mm (agreement of 1959).
func (s *sheet) twin() *sheet {
	c := &sheet{slices.Clone(s.cells)}
	inch := decimal.RequireFromString("25.4")
	for i := range c.cells {
		if z := c.cells[i].size; z != nil {
			twin := size{z.nominal.Mul(inch), z.lower.Mul(inch), z.upper.Mul(inch), "mm"}
			c.cells[i].size, c.cells[i].text = &twin, `"`+twin.String()+`"`
		}
	}
	return c
}

func TestPropertyInchesAndMillimetresAgree(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawSheet(t, sameSign, inUnit("in"))
		a, b := Check(s.read(t)), Check(s.twin().read(t))
		if a.Verdict != b.Verdict || len(a.Results) != len(b.Results) || len(a.Order) != len(b.Order) {
			t.Fatalf("verdict %v in inches, %v in millimetres\n%s", a.Verdict, b.Verdict, s)
		}
		for i := range a.Results {
			x, y := a.Results[i], b.Results[i]
			if x.Verdict != y.Verdict || x.Reason != y.Reason || x.Notes != y.Notes || x.ID() != y.ID() || x.Line != y.Line {
				t.Fatalf("%s: %v in inches, %v in millimetres\n%s", x.ID(), x.Verdict, y.Verdict, s)
			}
			for _, pair := range [][2]float64{
				{x.Demand, y.Demand},
				{x.Capacity, y.Capacity},
				{x.Value, y.Value},
				{x.Min, y.Min},
				{x.Max, y.Max},
				{x.Margin, y.Margin},
				{x.Nominal, y.Nominal},
				{x.GivesWayAt, y.GivesWayAt},
				{x.Factor, y.Factor},
			} {
				if !alike(pair[0], pair[1], 1e-9) {
					t.Fatalf("%s: %v in inches, %v in millimetres\n%s", x.ID(), pair[0], pair[1], s)
				}
			}
		}
		for i := range a.Order {
			if a.Order[i].Result.ID() != b.Order[i].Result.ID() {
				t.Fatalf("order %d: %s in inches, %s in millimetres\n%s", i, a.Order[i].Result.ID(), b.Order[i].Result.ID(), s)
			}
		}
	})
}

func TestPropertyWiderToleranceNeverHelps(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawSheet(t)
		d := loose(s.read(t))
		before := evaluate(d)
		_, names := dimensions(d)
		for i, name := range names {
			if rapid.IntRange(0, 3).Draw(t, "this one") != 0 {
				continue
			}
			by := decimal.New(int64(rapid.IntRange(1, 30).Draw(t, "by")), -5) // of 0.01 mm
			for _, up := range []bool{false, true} {
				wider := copied(d)
				list, _ := dimensions(wider)
				f := list[i]
				if up {
					f.Dimension = f.WithDeviations(f.Lower(), f.Upper().Add(by))
				} else {
					f.Dimension = f.WithDeviations(f.Lower().Sub(by), f.Upper())
				}
				if f.Least().Sign() <= 0 {
					continue
				}
				if found := better(before, evaluate(wider)); found != "" {
					t.Fatalf("%s widened to %s: %s\n%s", name, f.String(), found, s)
				}
			}
		}
	})
}

// A part is at one corner of the tolerance box where each size lies at its
// least or its greatest, without a tolerance. Two rules go by the number before
// the tolerance: the variation of the wall that is assumed between two
// diameters, and the squeeze that a section of up to 1.80 mm may have. There
// the number stays, and two equal deviations say where the size lies.
func TestPropertyNoCornerIsWorse(t *testing.T) {
	often(t, func(t *rapid.T) {
		s := drawSheet(t, sameSign)
		d := loose(s.read(t))
		worst := evaluate(d)
		assumed := !d.Tube.Wall.IsSet() && !d.Tube.Variation.IsSet()
		sizes, names := dimensions(d)
		for range 10 {
			corner := copied(d)
			list, _ := dimensions(corner)
			for i, f := range list {
				at := sizes[i].Lower()
				if rapid.Bool().Draw(t, "greatest") {
					at = sizes[i].Upper()
				}
				if assumed && strings.HasPrefix(names[i], "tube.") || strings.HasPrefix(names[i], "end.seal.section") {
					f.Dimension = f.WithDeviations(at, at)
				} else {
					f.Dimension = f.WithNominal(f.Nominal().Add(at)).Exact()
				}
			}
			if found := better(evaluate(corner), worst); found != "" {
				t.Fatalf("a corner, then the worst: %s\n%s", found, s)
			}
		}
	})
}

func TestPropertyGivesWayAtThatPressure(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawSheet(t, sameSign)
		d := s.read(t)
		part := rapid.Float64Range(0.01, 0.99).Draw(t, "below")
		for i, c := range evaluate(d) {
			// A fraction of a pascal is what rounding leaves of a gap at its limit.
			if !(c.GivesWayAt > 1) || math.IsInf(c.GivesWayAt, 0) {
				continue
			}
			at := func(p float64) margin.Check {
				changed := copied(d)
				changed.Pressure = pascals(p)
				return evaluate(changed)[i]
			}
			there := at(c.GivesWayAt)
			switch {
			case c.Method.Kind == margin.Strength:
				if !alike(there.Demand/there.Capacity, 1, 1e-9) {
					t.Fatalf("%s at %v Pa: demand %v, capacity %v\n%s", checkID(&c), c.GivesWayAt, there.Demand, there.Capacity, s)
				}
			case c.Method == &seal.SqueezeLeastOffset:
				if math.Abs(there.Value-there.Min) > 1e-9 {
					t.Fatalf("%s at %v Pa: value %v, limit %v\n%s", checkID(&c), c.GivesWayAt, there.Value, there.Min, s)
				}
			case c.Method == &seal.Gap:
				for _, p := range []float64{c.GivesWayAt * part, c.GivesWayAt * (1 - 1e-9)} {
					if below := at(p); !(below.Margin >= 0) {
						t.Fatalf("%s gives way at %v Pa, but at %v Pa: %v\n%s", checkID(&c), c.GivesWayAt, p, below.Margin, s)
					}
				}
				if above := at(c.GivesWayAt * (1 + 1e-9)); above.Margin >= 0 {
					t.Fatalf("%s gives way at %v Pa, but above: %v\n%s", checkID(&c), c.GivesWayAt, above.Margin, s)
				}
			default:
				t.Fatalf("%s gives way at %v Pa: not expected", checkID(&c), c.GivesWayAt)
			}
		}
	})
}

// The thin-wall formulas come to Lamé's as the wall goes to nothing: by the
// inside or outside diameter with the first power of t/R, by the mean one with
// the second. Source: series of the formulas.
func TestPropertyThinWallComesToLame(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := quantity.Pressure(rapid.Float64Range(1e5, 2e7).Draw(t, "p"))
		r := rapid.Float64Range(0.005, 0.2).Draw(t, "R_i")
		thin := math.Pow(10, rapid.Float64Range(-6, -2).Draw(t, "log t/R"))
		wall := thin * r
		lame := float64(casing.BoreHoop(p, casing.Ratio(margin.Exactly(2*r), margin.Exactly(wall))[margin.Only]))
		vonMises := float64(casing.BoreVonMises(p, casing.Ratio(margin.Exactly(2*r), margin.Exactly(wall))[margin.Only]))
		for _, way := range []struct {
			name     string
			stress   float64
			want     float64
			constant float64 // bounds the relative error over thin
		}{
			{"inside", float64(p) * 2 * r / 2 / wall, lame, 0.51 * thin},
			{"outside", float64(p) * 2 * (r + wall) / 2 / wall, lame, 0.51 * thin},
			{"mean", float64(p) * 2 * (r + wall/2) / 2 / wall, lame, 0.26*thin*thin + 1e-9},
			{"von Mises", math.Sqrt(3) / 2 * float64(p) * r / wall, vonMises, 1.51 * thin},
		} {
			if e := math.Abs(way.stress/way.want - 1); !(e <= way.constant) {
				t.Fatalf("%s diameter, t/R %v: error %v", way.name, thin, e)
			}
		}
	})
}

func TestPropertyVerdict(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawSheet(t, sameSign)
		holdReport(t, Check(s.read(t)), s.String())
	})
}

// holdReport holds what must be true of every report.
func holdReport(t rapid.TB, r *Report, text string) {
	t.Helper()
	want := margin.Pass
	for i := range r.Results {
		c := &r.Results[i]
		switch c.Verdict {
		case margin.Pass:
			if !(c.Margin >= 0) || math.IsInf(c.Margin, 0) || c.Reason != margin.None {
				t.Fatalf("%s passes with margin %v\n%s", c.ID(), c.Margin, text)
			}
		case margin.Fail:
			if !(c.Margin < 0) || math.IsInf(c.Margin, 0) || c.Reason != margin.None {
				t.Fatalf("%s fails with margin %v\n%s", c.ID(), c.Margin, text)
			}
			want = margin.Fail
		case margin.Refused:
			if !math.IsNaN(c.Margin) || !math.IsNaN(c.GivesWayAt) || c.Reason == margin.None {
				t.Fatalf("%s is refused with margin %v\n%s", c.ID(), c.Margin, text)
			}
			if want == margin.Pass {
				want = margin.Refused
			}
		case margin.Noted:
		}
		// A person can check the margin by hand from what is printed.
		switch has := c.Capacity / (c.Factor * c.Demand); {
		case c.Method.Kind != margin.Strength || math.IsNaN(c.Margin):
		case !alike(c.Margin, has-1, 1e-12):
			t.Fatalf("%s: margin %v, capacity over factor times demand %v\n%s", c.ID(), c.Margin, has, text)
		}
	}
	if r.Verdict != want {
		t.Fatalf("verdict %v, want %v\n%s", r.Verdict, want, text)
	}
	for i, e := range r.Order {
		if !(e.At >= 0) || i > 0 && e.At < r.Order[i-1].At {
			t.Fatalf("order: %s at %v\n%s", e.Result.ID(), e.At, text)
		}
	}
}

func TestPropertyNominalIsNotWorse(t *testing.T) {
	often(t, func(t *rapid.T) {
		s := drawSheet(t)
		m := NewMotor(s.read(t))
		if found := better(m.EvaluateNominal(nil), m.Evaluate(nil)); found != "" {
			t.Fatalf("nominal, then worst: %s\n%s", found, s)
		}
	})
}

func TestReadingIsDeterministic(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		lines := strings.Split(drawSheet(t).String(), "\n")
		for range rapid.IntRange(1, 12).Draw(t, "faults") {
			i := rapid.IntRange(1, len(lines)-1).Draw(t, "line")
			switch rapid.IntRange(0, 3).Draw(t, "fault") {
			case 0:
				lines[i] = strings.Replace(lines[i], "e", "ee", 1)
			case 1:
				lines[i] = strings.Replace(lines[i], " = \"", " = \"x", 1)
			case 2:
				lines = slices.Delete(lines, i, i+1)
			case 3:
				lines[i] = strings.ToUpper(lines[i])
			}
		}
		text := []byte(strings.Join(lines, "\n"))
		_, first := Read("motor.toml", text)
		for range 10 {
			if _, err := Read("motor.toml", text); fmt.Sprint(err) != fmt.Sprint(first) {
				t.Fatalf("%v\nthen\n%v", first, err)
			}
		}
		var all Errors
		if first != nil && !errors.As(first, &all) {
			t.Fatalf("%T", first)
		}
	})
}
