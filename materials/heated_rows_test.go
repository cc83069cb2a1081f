package materials

import (
	"strings"
	"testing"
)

// TestHeatedTablesRead holds that every row of the three tables can be read: a
// row that cannot would leave a hole.
func TestHeatedTablesRead(t *testing.T) {
	for name, read := range map[string]func(string) error{"layers": layersOf, "washers": washersOf, "exposure": exposureOf} {
		text := map[string]string{"layers": layersCSV, "washers": washersCSV, "exposure": exposureCSV}[name]
		if err := read(text); err != nil {
			t.Error(err)
		}
	}
}

func layersOf(text string) error   { _, err := readLayers(text); return err }
func washersOf(text string) error  { _, err := readWashers(text); return err }
func exposureOf(text string) error { _, err := readExposures(text); return err }

// TestBadHeatedRows holds that a wrong row is told, with what is wrong.
func TestBadHeatedRows(t *testing.T) {
	const (
		layer = layersHeader + "\nl,conductivity,1 W/(m K),0.5 W/(m K),2 W/(m K),s,w,seen,\nl,density,1 kg/m³,,,s,w,seen,\nl,specific_heat,1 J/(kg K),,,s,w,seen,\n"
		wash  = washersHeader + "\nw,softens,50 °C,s,w,seen,\n"
		heat  = exposureHeader + "\nx,unharmed,100 °C,,,s,w,seen,\n"
		full  = heat + "x,hottest,400 °C,,,s,w,seen,\nx,least_activation,100 kJ/mol,,,s,w,seen,\nx,most_activation,150 kJ/mol,,,s,w,seen,\nx,yield,1,150 °C,60 min,s,w,seen,\nx,ultimate,1,150 °C,60 min,s,w,seen,\n"
	)
	for _, c := range []struct {
		read       func(string) error
		text, want string
	}{
		{layersOf, "layer\n", "the first row is not"},
		{layersOf, layer + "m,density,1 kg/m³,,,s,w,seen,\n", "m lacks a value"},
		{layersOf, layer + "m,yield,1 MPa,,,s,w,seen,\n", `"yield" is not conductivity`},
		{layersOf, layer + "l,density,-1 kg/m³,,,s,w,seen,\n", `density of "-1 kg/m³"`},
		{layersOf, layer + "l,density,1 mm,,,s,w,seen,\n", "is a length"},
		{layersOf, layer + "l,density,1 kg/m³,1 kg/m³,,s,w,seen,\n", "density has no range"},
		{layersOf, layer + "l,conductivity,3 W/(m K),0.5 W/(m K),2 W/(m K),s,w,seen,\n", "not between"},
		{layersOf, layer + "l,density,1 kg/m³,,,s,w,heard,\n", `unknown status "heard"`},
		{layersOf, layer + "l,density,1 kg/m³,,,,w,seen,\n", "no source"},
		{layersOf, strings.Replace(layer, "l,specific", "m,specific", 1) + "L,density,1 kg/m³,,,s,w,seen,\n", "L stands in two places"},
		{washersOf, wash + "w,hardens,50 °C,s,w,seen,\n", `"hardens" is not`},
		{washersOf, wash + "w,softens,50,s,w,seen,\n", "has no unit"},
		{washersOf, wash + "w,consumable,perhaps,s,w,seen,\n", `not "perhaps"`},
		{washersOf, wash + "v,other,W,s,w,seen,\n", "two washers are called W"},
		{exposureOf, exposureHeader + "\nx,hottest,100 °C,,,s,w,seen,\n", "not told up to what"},
		{exposureOf, heat + "x,yield,1,150 °C,60 min,s,w,seen,\n", "go together"},
		{exposureOf, heat + "x,hottest,400 °C,,,s,w,seen,\n", "go together"},
		{exposureOf, heat + "x,yield,2,150 °C,60 min,s,w,seen,\n", "share 2 is not"},
		{exposureOf, heat + "x,yield,1,150 mm,60 min,s,w,seen,\n", "is a length"},
		{exposureOf, heat + "x,yield,1,150 °C,0 min,s,w,seen,\n", "no time above 0"},
		{exposureOf, heat + "x,shear,1,150 °C,60 min,s,w,seen,\n", `"shear" is not`},
		{exposureOf, heat + "x,least_activation,100,,,s,w,seen,\n", `"100" is no energy`},
		{exposureOf, full + "x,yield,0.9,90 °C,60 min,s,w,seen,\n", "a loss at 90 °C"},
		{exposureOf, full + "x,yield,0.9,450 °C,60 min,s,w,seen,\n", "a loss at 450 °C"},
		{exposureOf, full + "x,yield,0.9,140 °C,60 min,s,w,seen,\n", "yield is lost in less"},
		{exposureOf, strings.Replace(full, "150 kJ", "90 kJ", 1), "out of order"},
		{exposureOf, strings.Replace(full, "400 °C", "90 °C", 1), "out of order"},
	} {
		if err := c.read(c.text); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%q: got %v, want %q", c.text[strings.LastIndex(c.text[:len(c.text)-1], "\n")+1:], err, c.want)
		}
	}
	for _, good := range []error{layersOf(layer), washersOf(wash), exposureOf(heat), exposureOf(full), exposureOf(full + "x,yield,0.9,160 °C,60 min,s,w,seen,\n")} {
		if good != nil {
			t.Errorf("the good rows: %v", good)
		}
	}
}
