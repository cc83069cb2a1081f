package materials

import "testing"

// TestLayersTable holds that the whole table can be read, and that what it
// says can be: a solid's density times its specific heat lies between those of
// cork board and copper.
func TestLayersTable(t *testing.T) {
	list, err := layers()
	if err != nil {
		t.Fatal(err)
	}
	if len(list) < 8 {
		t.Fatalf("%d layers", len(list))
	}
	for _, l := range list {
		if found, ok := LookupLayer("  " + l.Name + " "); !ok || found != l {
			t.Errorf("%s is not found by its name", l.Name)
		}
		if held := float64(l.Density) * float64(l.SpecificHeat); held < 1e5 || held > 4e6 {
			t.Errorf("%s holds %g J/(m³ K)", l.Name, held)
		}
	}
	if _, ok := LookupLayer("paper"); ok {
		t.Error("half a name is found")
	}
}
