// Package casewright checks, before metal is cut, whether the case of a small
// reusable motor will hold: an aluminium tube, a bulkhead and a nozzle, each
// sealed by O-rings and held by radial screws through the wall.
//
// [Read] turns a design file into a [Design], [Check] a Design into a
// [Report]: every margin at the worst of all tolerances, and what gives way
// first. The formulas stand in the packages casing, fastener, closure and seal
// and can be used without a design file; all are in SI units.
//
// A pass is no permission to fire; SAFETY.md says what is left out.
package casewright

import _ "embed"

// Version is the version of the library and of the command.
const Version = "0.1.0"

// Example is the text of a commented design file that passes.
//
//go:embed testdata/designs/basalt64.toml
var Example string
