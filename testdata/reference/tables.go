// Package tables carries the tables of numbers from outside, a row each with
// its source, so that a built program can be held against them.
package tables

import "embed"

// Files are the tables.
//
//go:embed *.csv
var Files embed.FS
