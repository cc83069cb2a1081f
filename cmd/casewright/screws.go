package main

import "casewright/sizing"

type screwsCmd struct{ question }

// Help follows the flags in screws --help.
func (screwsCmd) Help() string {
	return `Examples:
  casewright screws --outside-diameter "63.5 mm" --wall "3.2 ±0.15 mm" \
    --material "6061-T6 drawn tube" --pressure "4.5 MPa"
  casewright screws --file my.toml --end nozzle --class 8.8

It tries every coarse thread and the usual classes, or those that are given, and
ranks what passes by the number of holes and then by mass.`
}

// Run answers which rows of screws hold an end.
func (c *screwsCmd) Run(io *streams) error {
	return c.ask(io, "screws", true, func(q asking) (*sizing.Answer, error) { return sizing.Screws(q.design, q.part, q.options) },
		"end.screws.thread", "end.screws.class", "end.screws.count", "end.screws.hole", "end.screws.edge")
}
