package verification

import (
	"fmt"
	"math"

	"casewright"
	"casewright/fastener"
	"casewright/margin/reference"
	"casewright/materials"
	"casewright/quantity"
	"casewright/sizing"
)

var sizingNumbers = map[string]Number{
	"least wall, greatest strain, closed ends": {[]string{"tube.hoop"}, leastWall},
	"least wall, greatest strain, open ends":   {[]string{"tube.hoop"}, leastWall},
	"least wall, greatest hoop stress":         {[]string{"tube.hoop"}, leastWall},
	"least wall, vessel code":                  {[]string{"tube.hoop"}, leastWall},
	"least wall, thin tube":                    {[]string{"tube.hoop"}, leastWall},
	"general tolerance": {nil, func(r *reference.Row) float64 {
		nominal := decimalOf(r.Of("nominal") / float64(quantity.Millimetre)).Round(3).Shift(-3)
		class := r.Text("class")
		if len(class) != 1 {
			return math.NaN()
		}
		got, ok := sizing.GeneralClass(class[0]).Tolerance(nominal)
		if !ok {
			return math.NaN()
		}
		return metres(got)
	}},
	// Ours is two holes; a rule in screws is less, for the hole is wider.
	"least edge distance": {[]string{"hole.edge"}, func(*reference.Row) float64 { return defaultOf(&fastener.EdgeDistance) }},
	"least spacing":       {[]string{"hole.pitch"}, func(*reference.Row) float64 { return defaultOf(&fastener.Pitch) }},
}

// leastWall is the wall that the check of the bore's hoop stress asks for, of a
// tube of an ultimate strength with a factor of 1.
func leastWall(r *reference.Row) float64 {
	strength := r.Of("S") * r.Of("E")
	base := &casewright.Design{Materials: []*materials.Material{
		materials.New("of the example", "example", materials.DrawnTube, 400, map[materials.Property]float64{
			materials.Yield: strength, materials.Ultimate: strength, materials.Elongation: 0.2,
		}),
	}}
	var settings []casewright.Setting
	for _, s := range [][2]string{
		{"motor.pressure", fmt.Sprintf("%.9g Pa", r.Of("p"))},
		{"tube.inside_diameter", fmt.Sprintf("%.9f m", 2*r.Of("R"))},
		{"tube.material", "of the example"},
		{"factors.yield", "1"},
		{"factors.ultimate", "1"},
		{"factors.fitting", "1"},
	} {
		settings = append(settings, casewright.Setting{Key: s[0], Text: s[1]})
	}
	d, err := casewright.Assemble(base, 0, settings)
	if err != nil {
		return math.NaN()
	}
	a, err := sizing.Wall(d, sizing.Options{})
	if err != nil {
		return math.NaN()
	}
	for _, l := range a.Values[0].Each {
		if l.ID() == "tube/tube.hoop" {
			return metres(l.Size.Nominal())
		}
	}
	return math.NaN()
}
