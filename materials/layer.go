package materials

import (
	_ "embed" // the table
	"errors"
	"fmt"
	"slices"
	"sync"

	"casewright/quantity"
)

//go:embed layers.csv
var layersCSV string

const layersHeader = "layer,property,value,least,most,source,where,status,note"

// A Layer is what liners and covers are made of. It bears no load.
type Layer struct {
	Name         string
	Conductivity quantity.Conductivity // across the layer, W/(m K), near 20 °C unless the note says else
	Least, Most  quantity.Conductivity // between which such material is met, W/(m K)
	Density      quantity.Density      // kg/m³
	SpecificHeat quantity.SpecificHeat // J/(kg K)

	ConductivityFrom, DensityFrom, SpecificHeatFrom Provenance
}

// layers reads the table once; a test holds that every row can be read.
var layers = sync.OnceValues(func() ([]*Layer, error) { return readLayers(layersCSV) })

func readLayers(text string) (list []*Layer, err error) {
	err = rows("layers.csv", layersHeader, text, func(row []string) error {
		l := last(list)
		if l == nil || l.Name != row[0] {
			if slices.ContainsFunc(list, func(l *Layer) bool { return fold(l.Name) == fold(row[0]) }) {
				return fmt.Errorf("%s stands in two places", row[0])
			}
			l = &Layer{Name: row[0]}
			list = append(list, l)
		}
		return l.value(row)
	})
	for _, l := range list {
		if l.Conductivity == 0 || l.Density == 0 || l.SpecificHeat == 0 {
			err = errors.Join(err, fmt.Errorf("layers.csv: %s lacks a value", l.Name))
		}
	}
	return list, err
}

// last returns the last of a list, nil if it is empty.
func last[T any](list []*T) *T {
	if len(list) == 0 {
		return nil
	}
	return list[len(list)-1]
}

// value takes a row of layers.csv.
func (l *Layer) value(row []string) error {
	from, err := provenance(row[5:])
	if err != nil {
		return err
	}
	p, _ := propertyOf(row[1])
	si := [3]float64{}
	for i, text := range row[2:5] {
		if i > 0 && p != Conductivity {
			if text != "" {
				return fmt.Errorf("%s has no range", row[1])
			}
			continue
		}
		a, err := quantity.Parse(p.Kind(), text)
		if err != nil {
			return err
		}
		si[i] = a.SI()
	}
	if !(si[0] > 0) {
		return fmt.Errorf("%s of %q", row[1], row[2])
	}
	switch p {
	case Conductivity:
		if !(0 < si[1] && si[1] <= si[0] && si[0] <= si[2]) {
			return errors.New("the value is not between the least and the most")
		}
		l.Conductivity, l.Least, l.Most = quantity.Conductivity(si[0]), quantity.Conductivity(si[1]), quantity.Conductivity(si[2])
		l.ConductivityFrom = from
	case Density:
		l.Density, l.DensityFrom = quantity.Density(si[0]), from
	case SpecificHeat:
		l.SpecificHeat, l.SpecificHeatFrom = quantity.SpecificHeat(si[0]), from
	default:
		return fmt.Errorf("%q is not conductivity, density or specific_heat", row[1])
	}
	return nil
}

// Layers returns the materials of liners and covers, in the order of their
// table. They are shared by everybody: do not change them.
func Layers() []*Layer {
	list, _ := layers()
	return slices.Clone(list)
}

// LayerNames returns their names, in the order of [Layers].
func LayerNames() []string {
	var names []string
	for _, l := range Layers() {
		names = append(names, l.Name)
	}
	return names
}

// Greatest returns the greatest conductivity that such material is met with, as
// a worst case takes it; the usual one where no bounds are known.
func (l *Layer) Greatest() quantity.Conductivity { return max(l.Conductivity, l.Most) }

// LookupLayer finds a material of liners and covers by its name, without regard
// to case and extra blanks.
func LookupLayer(name string) (*Layer, bool) {
	list, _ := layers()
	i := slices.IndexFunc(list, func(l *Layer) bool { return fold(l.Name) == fold(name) })
	if i < 0 {
		return nil, false
	}
	return list[i], true
}
