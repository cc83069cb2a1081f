package main

import (
	"bufio"
	"fmt"
	"path/filepath"
	"strings"
)

// clicked runs the program as run does; started by a double click, or by design
// files that were dropped on it, it checks those and then waits, since its
// window goes with it. The function alone tells whether nobody else is on the
// console; it is asked only where the arguments are such.
func clicked(args []string, io *streams, alone func() bool) int {
	for _, arg := range args {
		if !strings.EqualFold(filepath.Ext(arg), ".toml") {
			return run(args, io)
		}
	}
	if !alone() {
		return run(args, io)
	}
	if len(args) > 0 {
		args = append([]string{"check", "--"}, args...)
	}
	code := run(args, io)
	if len(args) == 0 {
		fmt.Fprintln(io.err, "\ncasewright is for a command line: open a terminal in this folder, or drop design\nfiles on its icon to check them.")
	}
	fmt.Fprint(io.err, "\nPress Enter to close this window. ")
	// Whatever comes, an end of input too, is as good as Enter.
	_, _ = bufio.NewReader(io.in).ReadString('\n')
	return code
}
