package main

import "casewright/sizing"

type grooveCmd struct{ question }

// Help follows the flags in groove --help.
func (grooveCmd) Help() string {
	return `Examples:
  casewright groove --inside-diameter "57.10 ±0.03 mm" --section "2.62 mm"
  casewright groove --inside-diameter "57.10 ±0.03 mm" --wall "3.2 ±0.15 mm" \
    --material "6061-T6 drawn tube" --pressure "4.5 MPa" \
    --compound FKM --hardness 75
  casewright groove --file my.toml --end nozzle --size AS568-226

Without --size and --section it tries every ring. The more is given, the more is
checked: the compound for the fill; pressure, hardness, compound and the tube for
the gap; temperatures and materials of tube and end for heat.`
}

// Run answers which ring and groove seal a bore.
func (c *grooveCmd) Run(io *streams) error {
	return c.ask(io, "groove", true, func(q asking) (*sizing.Answer, error) { return sizing.Groove(q.design, q.part, q.options) },
		"end.seal.size", "end.seal.section", "end.seal.inside_diameter", "end.seal.groove_diameter", "end.seal.groove_width", "end.outside_diameter", "tube.lead_in")
}
