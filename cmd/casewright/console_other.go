//go:build !windows

package main

// aloneOnConsole is a matter of Windows: elsewhere a program started from a
// desktop has no terminal.
func aloneOnConsole() bool { return false }

// understandsColour is a matter of Windows too.
func understandsColour(uintptr) bool { return true }
