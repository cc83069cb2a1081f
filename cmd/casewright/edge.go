package main

import "casewright/sizing"

type edgeCmd struct{ question }

// Help follows the flags in edge --help.
func (edgeCmd) Help() string {
	return `Examples:
  casewright edge --outside-diameter "63.5 mm" --wall "3.2 ±0.15 mm" \
    --material "6061-T6 drawn tube" --pressure "4.5 MPa" \
    --thread M5x0.8 --class 12.9 --count 8 --hole "5.5 ±0.1 mm"
  casewright edge --file my.toml --end nozzle --thread M6

Without --hole it takes the usual clearance hole of the thread.`
}

// Run answers how far the holes must stay from the tube end.
func (c *edgeCmd) Run(io *streams) error {
	return c.ask(io, "edge", true, func(q asking) (*sizing.Answer, error) { return sizing.Edge(q.design, q.part, q.options) }, "end.screws.edge")
}
