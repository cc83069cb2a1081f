// Decode is the peer of the benchmark of the whole command: it decodes the
// same file with the same TOML library and prints nothing.
package main

import (
	"os"

	"github.com/BurntSushi/toml"
)

func main() {
	text, err := os.ReadFile(os.Args[1])
	if err != nil {
		panic(err)
	}
	var values map[string]any
	if _, err := toml.Decode(string(text), &values); err != nil {
		panic(err)
	}
}
