package main

import (
	"casewright/sizing"
)

type wallCmd struct{ question }

// Help follows the flags in wall --help.
func (wallCmd) Help() string {
	return `Examples:
  casewright wall --outside-diameter "63.5 mm" --pressure "4.5 MPa" \
    --material "6061-T6 drawn tube" --temperature "90 °C"
  casewright wall --inside-diameter "57.10 ±0.03 mm" --wall "3.20 ±0.15 mm" \
    --material "6061-T6 drawn tube"
  casewright wall --file my.toml --pressure "6 MPa"

With --wall it says the other way round which pressure the tube bears.`
}

// Run answers which wall a tube needs, or which pressure a wall bears.
func (c *wallCmd) Run(io *streams) error {
	if c.gives("tube.wall") {
		return c.ask(io, "pressure", false, func(q asking) (*sizing.Answer, error) { return sizing.Pressure(q.design, q.options) })
	}
	return c.ask(io, "wall", false, func(q asking) (*sizing.Answer, error) { return sizing.Wall(q.design, q.options) }, "tube.wall")
}
