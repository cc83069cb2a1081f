package main

import (
	"fmt"
	"strings"

	"github.com/alecthomas/kong"
)

// The groups of commands, in the order of casewright --help. A command names
// its own by the tag group.
var groups = kong.Groups{
	"ask":     "Answers before there is a file",
	"design":  "Work on a design file",
	"bench":   "Papers for the bench and the machine shop",
	"known":   "What it knows, and how far to trust it",
	"program": "The program itself",
}

var groupOrder = []string{"", "design", "ask", "bench", "known", "program"}

// inGroups are the visible commands by group, in the order of the help.
func inGroups(app *kong.Application, visit func(title string, commands []*kong.Node)) {
	for _, key := range groupOrder {
		title, list := groups[key], []*kong.Node(nil)
		for _, n := range app.Leaves(true) {
			if n.Group == nil && key == "" || n.Group != nil && n.Group.Key == key {
				list = append(list, n)
			}
		}
		if key == "" {
			title = "Commands"
		}
		if list != nil {
			visit(title, list)
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
