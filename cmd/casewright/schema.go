package main

import (
	"fmt"
	"path/filepath"
	"strings"

	"casewright/cmd/casewright/internal/schema"
)

type schemaCmd struct {
	Output string `name:"output" short:"o" help:"File to write. Standard output where none is named."`
}

// Help follows the flags in schema --help.
func (schemaCmd) Help() string {
	return `Examples:
  casewright schema -o casewright.schema.json

The JSON Schema of design files, whole ones and those with "?" in them, for
editors: they complete keys and names and mark what is wrong while you write.
Where a TOML language server is at work, as in VS Code with Even Better TOML,
this as the first line of a design file is enough:

  #:schema ./casewright.schema.json

What an editor accepts need not be a motor: geometry, amounts out of range and
names of your own are held by casewright check.`
}

// Run writes the schema.
func (c *schemaCmd) Run(io *streams) error {
	if c.Output != "" && !strings.EqualFold(filepath.Ext(c.Output), ".json") { // it may be the design file
		return status{exitInput, fmt.Sprintf("-o %s does not end in .json; write another name", c.Output)}
	}
	return put(io, c.Output, "", schema.Write)
}
