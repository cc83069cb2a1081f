package casewright

import (
	"errors"
	"os"
	"path/filepath"
	"testing"
)

// Any bytes are either refused with errors, or a design of which every check
// is computed and nothing passes that is not a number.
func FuzzRead(f *testing.F) {
	designs, err := filepath.Glob("testdata/designs/*.toml")
	if err != nil || len(designs) == 0 {
		f.Fatal(designs, err)
	}
	for _, path := range designs {
		text, err := os.ReadFile(path)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(text)
	}
	for _, file := range readInvalid(f) {
		f.Add(file.text)
	}
	f.Add([]byte(plainSheet().String()))
	f.Add([]byte(Example + "\n[measured]\n\"tube.wall\" = \"3.1 ±0.01 mm\"\n\"Nozzle.seal.groove_width\" = \"3.7 mm\"\n\"nozzle.lip\" = \"6 mm\"\n"))
	f.Fuzz(func(t *testing.T, text []byte) {
		d, err := Read("fuzz.toml", text)
		if err != nil {
			var all Errors
			if d != nil || !errors.As(err, &all) || len(all) == 0 {
				t.Fatalf("design %v, error %T: %v", d != nil, err, err)
			}
			for i, e := range all {
				if e.Message == "" || e.Line < 0 || e.Column < 0 || (e.Line == 0) != (e.Column == 0) || i > 0 && e.Line < all[i-1].Line {
					t.Errorf("error %d: %#v", i, e)
				}
			}
			faultsOf(t, err)
			return
		}
		holdReport(t, Check(d), string(text))
		if built, err := d.AsBuilt(); err == nil {
			holdReport(t, Check(built), string(text))
		} else {
			faultsOf(t, err)
		}
	})
}
