package materials

import (
	_ "embed" // the table
	"fmt"
	"strings"
	"sync"

	"casewright/quantity"
)

//go:embed layers.csv
var layersCSV string

const layersHeader = "layer,conductivity,least,most,density,specific_heat,source,status,note"

// A Layer is what liners and covers are made of. It bears no load.
type Layer struct {
	Name         string
	Conductivity quantity.Conductivity // across the layer, W/(m K), near 20 °C
	Least, Most  quantity.Conductivity // between which such material is met, W/(m K)
	Density      quantity.Density      // kg/m³
	SpecificHeat quantity.SpecificHeat // J/(kg K)
	Source       string                // of all four
	Status       string                // Seen or Memory
	Note         string
}

// layers reads the table once; a test holds that every row can be read.
var layers = sync.OnceValues(func() (list []*Layer, err error) {
	err = rows("layers.csv", layersHeader, layersCSV, func(row []string) error {
		l := &Layer{Name: strings.Clone(row[0]), Source: strings.Clone(row[6]), Status: strings.Clone(row[7]), Note: strings.Clone(row[8])}
		kinds := []quantity.Kind{quantity.KindConductivity, quantity.KindConductivity, quantity.KindConductivity, quantity.KindDensity, quantity.KindSpecificHeat}
		var si [5]float64
		for i, kind := range kinds {
			a, err := quantity.Parse(kind, row[i+1])
			if err != nil {
				return err
			}
			si[i] = a.SI()
		}
		if !(0 < si[1] && si[1] <= si[0] && si[0] <= si[2] && si[3] > 0 && si[4] > 0) {
			return fmt.Errorf("%s: values out of order", row[0])
		}
		if l.Status != Seen && l.Status != Memory {
			return fmt.Errorf("%s: unknown status %q", row[0], l.Status)
		}
		l.Conductivity, l.Least, l.Most = quantity.Conductivity(si[0]), quantity.Conductivity(si[1]), quantity.Conductivity(si[2])
		l.Density, l.SpecificHeat = quantity.Density(si[3]), quantity.SpecificHeat(si[4])
		list = append(list, l)
		return nil
	})
	return list, err
})

// Layers returns the materials of liners and covers, in the order of their
// table.
func Layers() []*Layer {
	list, _ := layers()
	return list
}

// LookupLayer finds a material of liners and covers by its name, without regard
// to case and extra blanks.
func LookupLayer(name string) (*Layer, bool) {
	for _, l := range Layers() {
		if fold(l.Name) == fold(name) {
			return l, true
		}
	}
	return nil, false
}
