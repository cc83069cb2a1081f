package materials

import (
	_ "embed" // the table
	"errors"
	"fmt"
	"slices"
	"strings"
	"sync"

	"casewright/quantity"
)

//go:embed washers.csv
var washersCSV string

const washersHeader = "washer,property,value,source,where,status,note"

// A Washer is what soft washers and gaskets under screw heads are made of.
type Washer struct {
	Name       string
	Others     []string             // other names: "nylon"
	Softens    quantity.Temperature // K; above it a washer under load gives way; 0 where there is none
	Consumable bool                 // a new one is taken at each assembly

	SoftensFrom, ConsumableFrom Provenance
}

// washers reads the table once; a test holds that every row can be read.
var washers = sync.OnceValues(func() ([]*Washer, error) { return readWashers(washersCSV) })

func readWashers(text string) (list []*Washer, err error) {
	err = rows("washers.csv", washersHeader, text, func(row []string) error {
		from, err := provenance(row[3:])
		if err != nil {
			return err
		}
		w := last(list)
		if w == nil || w.Name != row[0] {
			w = &Washer{Name: row[0]}
			list = append(list, w)
		}
		switch row[1] {
		case "other":
			w.Others = strings.Split(row[2], "; ")
		case "softens":
			a, err := quantity.Parse(quantity.KindTemperature, row[2])
			if err != nil {
				return err
			}
			w.Softens, w.SoftensFrom = quantity.Temperature(a.SI()), from
		case "consumable":
			if row[2] != "yes" && row[2] != "no" {
				return fmt.Errorf("consumable is yes or no, not %q", row[2])
			}
			w.Consumable, w.ConsumableFrom = row[2] == "yes", from
		default:
			return fmt.Errorf("%q is not other, softens or consumable", row[1])
		}
		return nil
	})
	names := map[string]bool{}
	for _, w := range list {
		for _, name := range append([]string{w.Name}, w.Others...) {
			if names[fold(name)] {
				err = errors.Join(err, fmt.Errorf("washers.csv: two washers are called %s", name))
			}
			names[fold(name)] = true
		}
	}
	return list, err
}

// Washers returns the materials of soft washers, "none" first. They are shared
// by everybody: do not change them.
func Washers() []*Washer {
	list, _ := washers()
	return slices.Clone(list)
}

// WasherNames returns their names, in the order of [Washers].
func WasherNames() []string {
	var names []string
	for _, w := range Washers() {
		names = append(names, w.Name)
	}
	return names
}

// LookupWasher finds a material of soft washers by its name or another that it
// goes by, "nylon" or "fiber", without regard to case and extra blanks.
func LookupWasher(name string) (*Washer, bool) {
	list, _ := washers()
	i := slices.IndexFunc(list, func(w *Washer) bool {
		return fold(w.Name) == fold(name) || slices.ContainsFunc(w.Others, func(other string) bool { return fold(other) == fold(name) })
	})
	if i < 0 {
		return nil, false
	}
	return list[i], true
}
