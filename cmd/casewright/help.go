package main

import (
	"fmt"
	"slices"
	"strings"

	"github.com/alecthomas/kong"
)

// The groups of commands, in the order of casewright --help. A command names
// its own by the tag group.
var groups = []kong.Group{
	{Key: "design", Title: "Work on a design file"},
	{Key: "ask", Title: "Answers before there is a file"},
	{Key: "bench", Title: "Papers for the bench and the machine shop"},
	{Key: "known", Title: "What it knows, and how far to trust it"},
	{Key: "program", Title: "The program itself"},
}

// inGroups visits the visible commands by group, those of none first.
func inGroups(app *kong.Application, visit func(title string, commands []*kong.Node)) {
	for _, g := range slices.Concat([]kong.Group{{Title: "Commands"}}, groups) {
		var list []*kong.Node
		for _, n := range app.Leaves(true) {
			if n.Group == nil && g.Key == "" || n.Group != nil && n.Group.Key == g.Key {
				list = append(list, n)
			}
		}
		if list != nil {
			visit(g.Title, list)
		}
	}
}

// printHelp prints the help of the whole program with a line for each command,
// and that of a command as the parser does.
func printHelp(options kong.HelpOptions, ctx *kong.Context) error {
	if ctx.Selected() != nil {
		return kong.DefaultHelpPrinter(options, ctx)
	}
	var b strings.Builder
	app := ctx.Model
	fmt.Fprintf(&b, "Usage: %s <command> [flags]\n\n%s\n", app.Name, app.Help)
	row := func(name, help string) { fmt.Fprintf(&b, "  %-12s%s\n", name, help) }
	inGroups(app, func(title string, commands []*kong.Node) {
		fmt.Fprintf(&b, "\n%s:\n", title)
		for _, n := range commands {
			row(n.Name, n.Help)
		}
	})
	fmt.Fprint(&b, "\nFlags:\n")
	for _, f := range app.Flags {
		name := "--" + f.Name
		if f.Short != 0 {
			name = fmt.Sprintf("-%c, %s", f.Short, name)
		}
		row(name, f.Help)
	}
	fmt.Fprintf(&b, "\n%s help check shows the flags of a command, with examples.\n", app.Name)
	_, err := ctx.Stdout.Write([]byte(b.String()))
	return err
}

type helpCmd struct {
	Command string `arg:"" optional:"" help:"The command; all where none is named."`
}

// Help follows the arguments in help --help.
func (helpCmd) Help() string {
	return `Examples:
  casewright help
  casewright help check

The same as casewright --help and casewright check --help.`
}

// Run prints the help as the flag --help does.
func (c *helpCmd) Run(ctx *kong.Context) error {
	words := []string{"--help"}
	if c.Command != "" {
		words = []string{c.Command, "--help"}
	}
	if l := understand(ctx.Model, words); l.fault != "" {
		return status{exitInput, l.fault}
	}
	_, err := ctx.Kong.Parse(words)
	return err
}
