package jsonout

import (
	"io"
	"slices"

	"casewright"
	"casewright/fastener"
	"casewright/materials"
	"casewright/quantity"
	"casewright/seal"
)

// tables is the one document of `materials --format json`.
type tables struct {
	Format     int        `json:"format"`
	Kind       string     `json:"kind"`
	Casewright string     `json:"casewright"`
	Materials  []metal    `json:"materials"`
	Curves     []curve    `json:"curves"`
	Compounds  []compound `json:"compounds"`
	Classes    []class    `json:"classes"`
	Layers     []layer    `json:"layers"`
	Washers    []washer   `json:"washers"`
	Exposures  []exposure `json:"exposures"`
}

// Entries are what of the tables is to be told.
type Entries struct {
	Metals    []*materials.Material
	Compounds []seal.Compound
	Classes   []fastener.Class
	Layers    []*materials.Layer
	Washers   []*materials.Washer
}

// metal has a curve, or else a temperature up to which its values hold.
type metal struct {
	Name       string     `json:"name"`
	Form       string     `json:"form"`
	SizeRange  string     `json:"size_range"`
	Curve      string     `json:"curve,omitempty"`
	UpTo       *Quantity  `json:"up_to,omitempty"`
	Properties []property `json:"properties"`
}

type property struct {
	Key    string    `json:"key"`
	Value  *Quantity `json:"value"`
	Text   string    `json:"text"`
	Basis  string    `json:"basis"`
	Size   string    `json:"size"`
	Source string    `json:"source"`
	Where  string    `json:"where"`
	Status string    `json:"status"`
	Note   string    `json:"note,omitempty"`
}

type curve struct {
	Name   string  `json:"name"`
	Points []point `json:"points"`
}

// point is a ratio of the property to that at 20 °C.
type point struct {
	Property    string    `json:"property"`
	Temperature *Quantity `json:"temperature"`
	Ratio       float64   `json:"ratio"`
	Source      string    `json:"source"`
	Where       string    `json:"where"`
	Status      string    `json:"status"`
	Note        string    `json:"note,omitempty"`
}

type compound struct {
	Name       string           `json:"name"`
	Common     string           `json:"common"`
	Properties []rubberProperty `json:"properties"`
}

type rubberProperty struct {
	Key    string    `json:"key"`
	Value  *Quantity `json:"value"`
	Source string    `json:"source"`
	Status string    `json:"status"`
}

// class has no proof stress where the standard gives none, and no curve where
// the screws are of carbon or alloy steel.
type class struct {
	Name         string    `json:"name"`
	Ultimate     *Quantity `json:"ultimate"`
	Yield        *Quantity `json:"yield"`
	Proof        *Quantity `json:"proof,omitempty"`
	ShearThreads float64   `json:"shear_threads"`
	ShearShank   float64   `json:"shear_shank"`
	ByAnalogy    bool      `json:"by_analogy"`
	LowDuctility bool      `json:"low_ductility"`
	Curve        string    `json:"curve,omitempty"`
	MinDiameter  *Quantity `json:"min_diameter"`
	MaxDiameter  *Quantity `json:"max_diameter"`
	Standard     string    `json:"standard"`
	Source       string    `json:"source"`
	Status       string    `json:"status"`
	ShearSource  string    `json:"shear_source"`
	ShearStatus  string    `json:"shear_status"`
}

// Materials writes metals with the curves that they follow and with what heat
// takes from them, compounds, screw classes, liners and washers as one line.
func Materials(w io.Writer, e Entries) error {
	doc := tables{
		Format: 1, Kind: "materials", Casewright: casewright.Version,
		Materials: make([]metal, len(e.Metals)), Curves: []curve{},
		Compounds: make([]compound, len(e.Compounds)), Classes: make([]class, len(e.Classes)),
		Layers: make([]layer, len(e.Layers)), Washers: make([]washer, len(e.Washers)), Exposures: []exposure{},
	}
	follows := map[string]bool{}
	var loses []*materials.Exposure
	for i, m := range e.Metals {
		doc.Materials[i] = metalOf(m)
		follows[m.Curve] = true
		if x := m.Exposure(); x != nil && !slices.Contains(loses, x) {
			loses = append(loses, x)
			doc.Exposures = append(doc.Exposures, exposureOf(x))
		}
	}
	for i, l := range e.Layers {
		doc.Layers[i] = layerOf(l)
	}
	for i, s := range e.Washers {
		doc.Washers[i] = washerOf(s)
	}
	for i, c := range e.Compounds {
		doc.Compounds[i] = compoundOf(c)
	}
	for i, c := range e.Classes {
		doc.Classes[i] = classOf(c)
		follows[c.Curve] = true
	}
	for _, c := range materials.Curves() {
		if follows[c.Name] {
			doc.Curves = append(doc.Curves, curveOf(c))
		}
	}
	return write(w, doc)
}

func metalOf(m *materials.Material) metal {
	out := metal{Name: m.Name, Form: string(m.Form), SizeRange: m.SizeRange, Curve: m.Curve, Properties: []property{}}
	if m.Curve == "" {
		out.UpTo = number(float64(m.UpTo), quantity.KindTemperature)
	}
	for _, p := range m.Properties() {
		v, _ := m.Value(p)
		out.Properties = append(out.Properties, property{
			p.Key(), number(v.SI, p.Kind()), v.Text, v.Basis, v.Size, v.Source, v.Where, v.Status, v.Note,
		})
	}
	return out
}

func curveOf(r *materials.Retention) curve {
	out := curve{r.Name, []point{}}
	for _, p := range r.Properties() {
		for _, q := range r.Points(p) {
			out.Points = append(out.Points, point{
				p.Key(), number(float64(q.T), quantity.KindTemperature), q.Ratio, q.Source, q.Where, q.Status, q.Note,
			})
		}
	}
	return out
}

func compoundOf(c seal.Compound) compound {
	out := compound{Name: c.Name, Common: c.Common}
	add := func(key string, si float64, k quantity.Kind, from seal.Provenance) {
		out.Properties = append(out.Properties, rubberProperty{key, number(si, k), from.Source, from.Status})
	}
	add("limit", float64(c.Limit), quantity.KindTemperature, c.LimitFrom)
	add("least", float64(c.Least), quantity.KindTemperature, c.LeastFrom)
	add("expansion", c.Expansion, quantity.KindExpansion, c.ExpansionFrom)
	add("swell", c.Swell, quantity.KindRatio, c.SwellFrom)
	add("gap_share", c.GapShare, quantity.KindRatio, c.GapShareFrom)
	return out
}

func classOf(c fastener.Class) class {
	out := class{
		Name:     c.Name,
		Ultimate: number(float64(c.Ultimate), quantity.KindPressure), Yield: number(float64(c.Yield), quantity.KindPressure),
		ShearThreads: c.ShearThreads, ShearShank: c.ShearShank, ByAnalogy: c.ByAnalogy, LowDuctility: c.LowDuctility, Curve: c.Curve,
		MinDiameter: number(float64(c.MinDiameter), quantity.KindLength), MaxDiameter: number(float64(c.MaxDiameter), quantity.KindLength),
		Standard: c.Standard, Source: c.Source, Status: c.Status, ShearSource: c.ShearSource, ShearStatus: c.ShearStatus,
	}
	if c.Proof > 0 {
		out.Proof = number(float64(c.Proof), quantity.KindPressure)
	}
	return out
}
