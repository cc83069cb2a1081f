package table

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"github.com/olekukonko/tablewriter/tw"

	"casewright/fastener"
	"casewright/materials"
	"casewright/quantity"
	"casewright/seal"
)

// Materials writes all names that a design file may use, with what a person
// chooses by.
func Materials(w io.Writer, o Options) error {
	p := newListing(o)
	p.metals()
	p.compounds()
	p.classes()
	p.layers()
	p.washers()
	p.sizes()
	return p.write(w)
}

// Metal writes one metal with every value and its source.
func Metal(w io.Writer, m *materials.Material, o Options) error {
	p := newListing(o)
	p.metal(m)
	return p.write(w)
}

// Compound writes one O-ring compound with every value and its source.
func Compound(w io.Writer, c seal.Compound, o Options) error {
	p := newListing(o)
	p.compound(c)
	return p.write(w)
}

// Class writes one screw class with every value and its source.
func Class(w io.Writer, c fastener.Class, o Options) error {
	p := newListing(o)
	p.class(c)
	return p.write(w)
}

// listing is a page of tables.
type listing struct {
	page
	imperial bool
	wide     bool // there is room for more columns
	err      error
}

func newListing(o Options) *listing {
	return &listing{page: page{options: o}, imperial: o.Units == "imperial", wide: o.Width >= 120}
}

func (p *listing) write(w io.Writer) error {
	if p.err != nil {
		return p.err
	}
	_, err := io.WriteString(w, p.finish())
	return err
}

// grid writes rows with these columns. What rests on memory stands out.
func (p *listing) grid(rows []row, columns ...tw.Align) {
	for _, r := range rows {
		for i := range r.cells {
			r.cells[i] = p.plain(r.cells[i]) // before the columns are measured
		}
	}
	lines, err := aligned(rows, columns)
	if err != nil {
		p.err = err
		return
	}
	for i, line := range lines {
		if p.options.Colour && rows[i].free == "" {
			for _, word := range []string{"memory", "none", "part"} {
				if rest, ok := strings.CutSuffix(line, "  "+word); ok {
					line = rest + "  " + yellow + word + plain
				}
			}
		}
		p.line("%s", line)
	}
}

// plain is the text in plain ASCII where that is asked for: some signs are
// longer so.
func (p *listing) plain(text string) string {
	if p.options.ASCII {
		return ASCII(greek.Replace(text))
	}
	return text
}

// greek are the letters of the physical properties.
var greek = strings.NewReplacer("ν", "nu", "ρ", "rho", "λ", "lambda")

// say writes a text behind a label, wrapped.
func (p *listing) say(label string, indent int, text string) {
	p.wrapped(label, indent, p.plain(text))
}

// free adds a text below a row, wrapped and indented.
func (p *listing) free(rows []row, text string) []row { return p.freeAt(rows, "    ", 6, text) }

// freeAt is free with these indents, of the first line and the others.
func (p *listing) freeAt(rows []row, first string, others int, text string) []row {
	b := listing{page: page{options: p.options}}
	b.say(first, others, text)
	for line := range strings.Lines(b.text.String()) {
		rows = append(rows, row{free: strings.TrimRight(line, "\n")})
	}
	return rows
}

const (
	left  = tw.AlignLeft
	right = tw.AlignRight
)

func (p *listing) metals() {
	stress, heat := "MPa", "°C"
	if p.imperial {
		stress, heat = "ksi", "°F"
	}
	head := []string{"Metals, at 20 °C", "yield", "ultimate", "shear", "elong", "basis", "up to"}
	units := []string{"", stress, stress, stress, "%", "", heat}
	columns := []tw.Align{left, right, right, right, right, left, right}
	if p.wide {
		head, units, columns = append(head, "form", "source of yield"), append(units, "", ""), append(columns, left, left)
	}
	rows := []row{{cells: append(head, "seen")}, {cells: units}}
	for _, m := range materials.All() {
		cells := []string{m.Name}
		var from []string
		for _, k := range []materials.Property{materials.Yield, materials.Ultimate, materials.Shear, materials.Elongation} {
			v, ok := m.Value(k)
			if !ok {
				cells = append(cells, "-")
				continue
			}
			if k.IsStrength() {
				from = append(from, v.Status)
			}
			number, _, _ := strings.Cut(p.value(v.SI, k), " ")
			cells = append(cells, number)
		}
		yield, _ := m.Value(materials.Yield)
		end, _, _ := strings.Cut(p.temperature(m.StrongTo(), down), " ")
		cells = append(cells, short4(yield.Basis), end)
		if p.wide {
			cells = append(cells, string(m.Form), yield.Source)
		}
		rows = append(rows, row{cells: append(cells, seen(from))})
	}
	p.grid(rows, append(columns, left)...)
	p.line("")
	p.say("  elong: ", 4, "elongation after fracture.")
	p.say("  basis: ", 4, "of the yield strength. A, B: above it lies 99 or 90 % of all material; S, min: minimum of a specification or a standard; char: of a European design standard; typ: half of all material is weaker; est: computed.")
	p.say("  up to: ", 4, "hotter, a strength is not known and checks are refused.")
	p.say("  seen: ", 4, "how many of the three strengths were read in a copy of their source: all, part or none; the rest is from memory.")
}

// bases are what stands in a narrow column.
var bases = map[string]string{
	materials.BasisSpecified: "min", materials.BasisCharacteristic: "char",
	materials.BasisTypical: "typ", materials.BasisEstimate: "est",
}

func short4(basis string) string {
	if s, ok := bases[basis]; ok {
		return s
	}
	return basis
}

// seen tells how many of several values were read in their source.
func seen(statuses []string) string {
	n := 0
	for _, s := range statuses {
		if s == materials.Seen {
			n++
		}
	}
	switch n {
	case 0:
		return "none"
	case len(statuses):
		return "all"
	}
	return "part"
}

func (p *listing) compounds() {
	p.line("")
	head := []string{"O-ring compounds", "hottest", "coldest", "expansion", "swell"}
	columns := []tw.Align{left, right, right, right, right}
	if p.wide {
		head, columns = append(head, "source of hottest"), append(columns, left)
	}
	rows := []row{{cells: append(head, "seen")}}
	for _, c := range seal.Compounds() {
		cells := []string{
			fmt.Sprintf("%-4s  %s", c.Name, c.Common), p.temperature(c.Limit, down), p.temperature(c.Least, up), p.expansion(c.Expansion),
			percent(c.Swell, nearest),
		}
		if p.wide {
			cells = append(cells, brief(c.LimitFrom.Source))
		}
		from := []string{c.LimitFrom.Status, c.LeastFrom.Status, c.ExpansionFrom.Status, c.SwellFrom.Status}
		rows = append(rows, row{cells: append(cells, seen(from))})
	}
	p.grid(rows, append(columns, left)...)
	p.say("  ", 2, "Hottest: continuous. Coldest: as a static seal. Expansion: linear. Swell: by volume, an allowance of our own. Seen: of the four.")
}

// brief is a source without what follows its name.
func brief(source string) string {
	if i := strings.IndexAny(source, "(;,"); i > 0 {
		source = source[:i]
	}
	return strings.TrimSpace(source)
}

func (p *listing) classes() {
	p.line("")
	rows := []row{{cells: []string{"Screw classes", "R_m", "threads", "shank", "diameters", "standard", "seen"}}}
	for _, c := range fastener.Classes() {
		rows = append(rows, row{cells: []string{
			c.Name, p.stress(float64(c.Ultimate)), ratio(c.ShearThreads), ratio(c.ShearShank),
			p.diameters(c), c.Standard, seen([]string{c.Status}),
		}})
	}
	p.grid(rows, left, right, right, right, left, left, left)
	p.say("  ", 2, "R_m: least tensile strength; seen: of R_m. Diameters: nominal, for which it holds. Threads, shank: shear over tensile strength (α_v) with the threads or the plain shank in the shear plane.")
}

func (p *listing) sizes() {
	threads, rings := fastener.ThreadNames(), seal.RingNames()
	p.line("")
	p.say("", 2, fmt.Sprintf(`%d threads, %s to %s: written "M5x0.8", "M5" (coarse), "10-32 UNF".`, len(threads), threads[0], threads[len(threads)-1]))
	p.say("", 2, fmt.Sprintf(`%d O-rings, %s to %s: written "AS568-137" or "137".`, len(rings), rings[0], rings[len(rings)-1]))
	p.say("", 2, "Every value and its source: casewright materials NAME")
}

// title writes the name of an entry and, at the right, what it is.
func (p *listing) title(name, what string) {
	width := min(80, p.options.Width)
	if gap := width - len(name) - len(what); gap >= 2 {
		p.line("%s%s%s", name, strings.Repeat(" ", gap), what)
		return
	}
	p.line("%s", name)
	p.line("%*s", width, what)
}

func (p *listing) metal(m *materials.Material) {
	p.title(m.Name, "metal, "+string(m.Form))
	p.say("  size: ", 4, m.SizeRange)
	to := p.temperature(m.StrongTo(), down)
	curve, ok := materials.Curve(m.Curve)
	if ok {
		p.say("  hot: ", 4, fmt.Sprintf("strengths are known to %s, by the curve %s below", to, curve.Name))
	} else {
		p.say("  hot: ", 4, fmt.Sprintf("strengths are taken as at 20 °C up to %s and not known above", to))
	}
	p.line("")
	rows := []row{{cells: []string{"at 20 °C", "value", "as written", "basis", ""}}}
	for _, k := range m.Properties() {
		v, _ := m.Value(k)
		rows = append(rows, row{cells: []string{k.Key(), p.value(v.SI, k), v.Text, v.Basis, v.Status}})
		of := ""
		switch v.Size {
		case m.SizeRange:
		case "all":
			of = ", of all products"
		default:
			of = ", of " + v.Size
		}
		rows = p.free(rows, fmt.Sprintf("%s, %s%s", k.Symbol(), k.Meaning(), of))
		rows = p.free(rows, sentence(v.Source, v.Where))
		if v.Note != "" {
			rows = p.free(rows, "note: "+v.Note)
		}
	}
	p.grid(rows, left, right, right, left, left)
	if ok {
		p.curve(curve, curve.Properties())
	}
	if x := m.Exposure(); x != nil {
		p.exposure(x)
	}
}

// sentence joins what is not empty.
func sentence(parts ...string) string {
	return strings.Join(slices.DeleteFunc(parts, func(s string) bool { return s == "" }), ", ")
}

// curve writes the points of a curve, the source below the last of those that
// share it.
func (p *listing) curve(r *materials.Retention, of []materials.Property) {
	p.line("")
	p.line("Curve %s: ratio to the value at 20 °C, straight lines between the points", r.Name)
	var rows []row
	for _, k := range of {
		rows = append(rows, row{free: "  " + follow(k)})
		points := r.Points(k)
		for i, q := range points {
			rows = append(rows, row{cells: []string{"", p.temperature(q.T, down), ratio(q.Ratio), q.Status}})
			last := i == len(points)-1
			if !last {
				next := points[i+1]
				// At 20 °C the ratio is 1 by definition: that point has no note.
				last = q.Source != next.Source || q.Where != next.Where || q.Note != next.Note && i > 0
			}
			if last {
				rows = p.free(rows, sentence(q.Source, q.Where))
				if q.Note != "" {
					rows = p.free(rows, "note: "+q.Note)
				}
			}
		}
	}
	p.grid(rows, left, right, left, left)
}

// follow names a property of a curve with those that follow it.
func follow(k materials.Property) string {
	switch k {
	case materials.Yield:
		return "yield strength, bearing yield strength"
	case materials.Ultimate:
		return "ultimate, shear and ultimate bearing strength"
	}
	return k.Meaning()
}

func (p *listing) compound(c seal.Compound) {
	p.title(c.Name+", "+c.Common, "O-ring compound")
	p.line("")
	var rows []row
	add := func(what, value string, from seal.Provenance) {
		rows = append(rows, row{cells: []string{what, value, from.Status}})
		rows = p.free(rows, from.Source)
	}
	add("hottest, continuous", p.temperature(c.Limit, down), c.LimitFrom)
	add("coldest, as a static seal", p.temperature(c.Least, up), c.LeastFrom)
	add("linear thermal expansion", p.expansion(c.Expansion), c.ExpansionFrom)
	add("allowance for swell, by volume", percent(c.Swell, nearest), c.SwellFrom)
	add("share of the tabulated gap", ratio(c.GapShare), c.GapShareFrom)
	p.grid(rows, left, right, left)
}

func (p *listing) class(c fastener.Class) {
	p.title(c.Name, "screw class, "+c.Standard)
	p.say("  diameters: ", 4, p.diameters(c))
	if c.LowDuctility {
		p.say("  ductility: ", 4, "low; it breaks before it gives way much")
	}
	p.line("")
	proof := "-"
	if c.Proof > 0 {
		proof = p.stress(float64(c.Proof))
	}
	rows := []row{
		{cells: []string{"least tensile strength R_m", p.stress(float64(c.Ultimate)), c.Status}},
		{cells: []string{"least yield strength", p.stress(float64(c.Yield)), c.Status}},
		{cells: []string{"proof stress", proof, c.Status}},
	}
	rows = p.free(rows, c.Source)
	rows = append(rows,
		row{cells: []string{"shear over tensile strength α_v, threads", ratio(c.ShearThreads), c.ShearStatus}},
		row{cells: []string{"shear over tensile strength α_v, shank", ratio(c.ShearShank), c.ShearStatus}},
	)
	rows = p.free(rows, c.ShearSource)
	p.grid(rows, left, right, left)
	if curve, ok := materials.Curve(c.Curve); ok {
		p.curve(curve, []materials.Property{materials.Ultimate})
		return
	}
	p.line("")
	var hot []string
	for _, t := range []quantity.Temperature{quantity.Celsius(100), quantity.Celsius(200), quantity.Celsius(300)} {
		left, _ := fastener.SteelStrengthRatio(t)
		hot = append(hot, ratio(left)+" at "+p.temperature(t, down))
	}
	p.say("", 2, "Hot, of R_m: "+strings.Join(hot, ", ")+", straight lines between, not known above (EN 1993-1-2 table D.1, from memory).")
}

// diameters are the nominal diameters for which a class holds, in the unit of
// its standard: the sizes are exact there.
func (p *listing) diameters(c fastener.Class) string {
	unit, decimals := quantity.MustUnit("mm"), 1
	if inch := quantity.MustUnit("in"); strings.HasPrefix(c.Name, "SAE") || strings.HasPrefix(c.Name, "ASTM") {
		unit, decimals = inch, 2
	}
	return fmt.Sprintf("%s to %s %s", trimmed(unit.FromSI(float64(c.MinDiameter)), decimals), trimmed(unit.FromSI(float64(c.MaxDiameter)), decimals), unit.Symbol())
}

// trimmed rounds to so many decimals and drops the zeros that do not count.
func trimmed(x float64, decimals int) string {
	return strings.TrimSuffix(strings.TrimRight(fmt.Sprintf("%.*f", decimals, x), "0"), ".")
}

// ratio writes a plain number with the digits it has.
func ratio(x float64) string { return fmt.Sprintf("%.4g", x) }

// value is a property in the units asked for: strengths and elongations are
// rounded down, the others to the nearest.
func (p *listing) value(si float64, k materials.Property) string {
	switch {
	case k.IsStrength():
		return p.stress(si)
	case k == materials.Modulus && p.imperial:
		return in("ksi", si, k.Kind(), 0, nearest)
	case k == materials.Modulus:
		return in("GPa", si, k.Kind(), 1, nearest)
	case k == materials.Elongation, k == materials.UniformElongation:
		return in("%", si, k.Kind(), 0, down)
	}
	switch k.Kind() {
	case quantity.KindDensity:
		if p.imperial {
			return in("lb/in³", si, k.Kind(), 2, nearest)
		}
		return in("kg/m³", si, k.Kind(), 0, nearest)
	case quantity.KindExpansion:
		return p.expansion(si)
	case quantity.KindConductivity:
		return in("W/(m K)", si, k.Kind(), 1, nearest)
	case quantity.KindSpecificHeat:
		return in("J/(kg K)", si, k.Kind(), 0, nearest)
	}
	return ratio(si)
}

func (p *listing) stress(si float64) string {
	if p.imperial {
		return in("ksi", si, quantity.KindPressure, 1, down)
	}
	return in("MPa", si, quantity.KindPressure, 0, down)
}

func (p *listing) temperature(t quantity.Temperature, r rounding) string {
	if p.imperial {
		return in("°F", float64(t), quantity.KindTemperature, 0, r)
	}
	return in("°C", float64(t), quantity.KindTemperature, 0, r)
}

func (p *listing) expansion(si float64) string {
	unit := "/K"
	if p.imperial {
		unit = "/°F"
	}
	known, _ := quantity.KindExpansion.Unit(unit)
	return digits(known.FromSI(si)*1e6, 1, nearest) + "e-6 " + unit
}

// in writes a number of SI in a unit.
func in(symbol string, si float64, k quantity.Kind, decimals int, r rounding) string {
	unit, _ := k.Unit(symbol)
	return digits(unit.FromSI(si), decimals, r) + " " + symbol
}
