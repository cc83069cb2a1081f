package main

type materialsCmd struct {
	Name   string `arg:"" optional:"" help:"One material, whole."`
	Format string `help:"table or json." enum:"table,json" default:"table"`
	screen
}

func (m *materialsCmd) Run(io *streams) error { return nil }
