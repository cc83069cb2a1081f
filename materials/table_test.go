package materials

import (
	"encoding/csv"
	"slices"
	"strings"
	"testing"
)

// TestTablesRead holds that every row of the two tables can be read: a row
// that cannot would leave the program without materials.
func TestTablesRead(t *testing.T) {
	if err := read(materialsCSV, curvesCSV).err; err != nil {
		t.Fatal(err)
	}
	if len(read(materialsCSV, curvesCSV).materials) == 0 || len(read(materialsCSV, curvesCSV).curves) == 0 {
		t.Fatal("a table is empty")
	}
}

// TestEveryRowHasItsSource holds that every number says where it comes from,
// and how it was come by, in the words of the package.
func TestEveryRowHasItsSource(t *testing.T) {
	bases := []string{BasisA, BasisB, BasisS, BasisSpecified, BasisCharacteristic, BasisTypical, BasisEstimate}
	for _, m := range All() {
		if m.SizeRange == "" || m.User {
			t.Errorf("%s: size range %q, user's %v", m.Name, m.SizeRange, m.User)
		}
		for _, p := range m.Properties() {
			v, _ := m.Value(p)
			if v.Source == "" || v.Where == "" || v.Size == "" || v.Text == "" {
				t.Errorf("%s %s: no source, place, size or text: %+v", m.Name, p.Key(), v)
			}
			if v.Status != Seen && v.Status != Memory {
				t.Errorf("%s %s: status %q", m.Name, p.Key(), v.Status)
			}
			if !slices.Contains(bases, v.Basis) {
				t.Errorf("%s %s: basis %q", m.Name, p.Key(), v.Basis)
			}
			if v.Basis == BasisEstimate && v.Status == Seen {
				t.Errorf("%s %s: an estimate cannot have been seen", m.Name, p.Key())
			}
			if p.IsStrength() && v.Size != m.SizeRange {
				t.Errorf("%s %s: for %q, the material for %q", m.Name, p.Key(), v.Size, m.SizeRange)
			}
		}
	}
	for _, r := range Curves() {
		for _, p := range r.Properties() {
			for _, q := range r.Points(p) {
				if q.Source == "" || q.Where == "" || q.Status != Seen && q.Status != Memory {
					t.Errorf("%s %s at %.0f °C: source %q, %q, status %q", r.Name, p.Key(), q.T.Celsius(), q.Source, q.Where, q.Status)
				}
			}
		}
	}
}

// TestMaterialsAreWhole holds what every material of the table must have, and
// that its numbers lie where those of metals do.
func TestMaterialsAreWhole(t *testing.T) {
	ranges := map[Property][2]float64{ // of the metals in the table, SI
		Yield: {100e6, 1300e6}, Ultimate: {150e6, 1500e6}, Shear: {100e6, 900e6},
		BearingUltimate15: {300e6, 2500e6}, BearingUltimate2: {300e6, 3500e6},
		BearingYield15: {200e6, 2500e6}, BearingYield2: {200e6, 3000e6},
		Modulus: {65e9, 215e9}, Poisson: {0.25, 0.36}, Density: {2600, 8900}, Expansion: {10e-6, 25e-6},
		Elongation: {0.05, 0.6}, UniformElongation: {0.01, 0.5}, Conductivity: {10, 240}, SpecificHeat: {350, 1000},
	}
	for _, m := range All() {
		for _, p := range []Property{Yield, Ultimate, Shear, Modulus, Poisson, Density, Expansion, Elongation, Conductivity, SpecificHeat} {
			if _, ok := m.Value(p); !ok {
				t.Errorf("%s has no %s", m.Name, p.Key())
			}
		}
		at := func(p Property) float64 { v, _ := m.Value(p); return v.SI }
		for _, p := range m.Properties() {
			if limit := ranges[p]; !(at(p) >= limit[0] && at(p) <= limit[1]) {
				t.Errorf("%s %s is %g, not from %g to %g", m.Name, p.Key(), at(p), limit[0], limit[1])
			}
		}
		if !(at(Ultimate) > at(Yield)) {
			t.Errorf("%s: ultimate strength not above yield", m.Name)
		}
		// Von Mises: F_tu/√3; the handbooks' wrought metals reach 0.65.
		if s := at(Shear) / at(Ultimate); !(s > 0.57 && s < 0.65) {
			t.Errorf("%s: shear strength is %.3f of the ultimate strength", m.Name, s)
		}
		pairs := [][2]Property{{BearingUltimate15, BearingUltimate2}, {BearingYield15, BearingYield2}, {BearingYield15, BearingUltimate15}, {BearingYield2, BearingUltimate2}}
		for _, pair := range pairs {
			if m.known[pair[0]] != m.known[pair[1]] {
				t.Errorf("%s has %s without %s", m.Name, pair[0].Key(), pair[1].Key())
			}
			if m.known[pair[0]] && !(at(pair[0]) < at(pair[1])) {
				t.Errorf("%s: %s not below %s", m.Name, pair[0].Key(), pair[1].Key())
			}
		}
		if m.known[BearingYield15] && !(at(BearingYield15) > at(Yield) && at(BearingUltimate15) > at(Ultimate)) {
			t.Errorf("%s: bears less round a hole than in tension", m.Name)
		}
	}
}

// TestCurvesAreWhole holds that each curve has its three sets of points and is
// used, and that the ultimate strength falls no slower than the yield strength
// where aluminium over-ages.
func TestCurvesAreWhole(t *testing.T) {
	used := map[string]bool{}
	for _, m := range All() {
		used[m.Curve] = true
		if m.Curve == "" {
			if m.UpTo != warmest {
				t.Errorf("%s: without a curve, up to %v K", m.Name, m.UpTo)
			}
			continue
		}
		if r, ok := Curve(m.Curve); !ok || r != m.retention || m.UpTo != 0 {
			t.Errorf("%s: curve %q is not tied to it", m.Name, m.Curve)
		}
	}
	for _, r := range Curves() {
		if !used[r.Name] {
			t.Errorf("no material follows %q", r.Name)
		}
		if got := r.Properties(); !slices.Equal(got, []Property{Yield, Ultimate, Modulus}) {
			t.Errorf("%s has points of %v", r.Name, got)
		}
		for _, p := range r.Properties() {
			if len(r.Points(p)) < 2 {
				t.Errorf("%s %s: one point is no curve", r.Name, p.Key())
			}
		}
		if strings.Contains(r.Name, "T6") || strings.Contains(r.Name, "aluminium") {
			for _, q := range r.Points(Ultimate) {
				if y := r.At(Yield, q.T); !(q.Ratio <= y.SI) {
					t.Errorf("%s at %.0f °C: ultimate ratio %g above yield ratio %g", r.Name, q.T.Celsius(), q.Ratio, y.SI)
				}
			}
		}
	}
}

// TestOneRowALine holds that the tables can be read and compared line by line:
// no field goes over a line end, no field has blanks around it.
func TestOneRowALine(t *testing.T) {
	for name, text := range map[string]string{"materials.csv": materialsCSV, "curves.csv": curvesCSV, "layers.csv": layersCSV, "washers.csv": washersCSV, "exposure.csv": exposureCSV} {
		all, err := csv.NewReader(strings.NewReader(text)).ReadAll()
		if err != nil {
			t.Fatal(err)
		}
		if lines := strings.Count(text, "\n"); len(all) != lines {
			t.Errorf("%s: %d rows on %d lines", name, len(all), lines)
		}
		for i, row := range all {
			for _, field := range row {
				if field != strings.TrimSpace(field) {
					t.Errorf("%s:%d: blanks around %q", name, i+1, field)
				}
			}
		}
	}
}

// TestBadRows holds that a wrong row is told with its line, and what is wrong.
func TestBadRows(t *testing.T) {
	const (
		curveHead = curvesHeader + "\n"
		head      = materialsHeader + "\n"
		curve     = curveHead + "c,yield,20 °C,1,s,w,memory,\n"
		material  = head + "m,bar,yield,240 MPa,S,all,20 °C,c,s,w,seen,\n"
	)
	for _, c := range []struct{ name, materials, curves, want string }{
		{"header", "material\n", curve, "materials.csv: the first row is not"},
		{"empty", head, "", "curves.csv: the first row is not"},
		{"too few fields", head + "m,bar\n", curve, "materials.csv: record on line 2: wrong number of fields"},
		{"quotes", head + "m,\"bar\n", curve, "materials.csv: "},
		{"form", head + "m,tin,yield,240 MPa,S,all,20 °C,,s,w,seen,\n", curve, `materials.csv:2: no form "tin"`},
		{"property", head + "m,bar,yeld,240 MPa,S,all,20 °C,,s,w,seen,\n", curve, `materials.csv:2: no property "yeld"`},
		{"kind of unit", head + "m,bar,yield,240 mm,S,all,20 °C,,s,w,seen,\n", curve, "materials.csv:2: "},
		{"no unit", head + "m,bar,yield,240,S,all,20 °C,,s,w,seen,\n", curve, "materials.csv:2: "},
		{"sign", head + "m,bar,yield,-240 MPa,S,all,20 °C,,s,w,seen,\n", curve, `materials.csv:2: yield of "-240 MPa"`},
		{"temperature", head + "m,bar,yield,240 MPa,S,all,24 °C,,s,w,seen,\n", curve, `materials.csv:2: at "24 °C", not at 20 °C`},
		{"twice", material + "m,bar,yield,250 MPa,S,all,20 °C,c,s,w,seen,\n", curve, "materials.csv:3: m has yield twice"},
		{"two forms", material + "M,plate,ultimate,250 MPa,S,all,20 °C,c,s,w,seen,\n", curve, "materials.csv:3: M has two forms"},
		{"two curves", material + "m,bar,ultimate,250 MPa,S,all,20 °C,,s,w,seen,\n", curve, "materials.csv:3: m follows two curves"},
		{"curve of a constant", material + "m,bar,poisson,0.33,S,all,20 °C,c,s,w,seen,\n", curve, "materials.csv:3: poisson follows no curve"},
		{"no curve", material, curveHead, `materials.csv:2: no curve "c"`},
		{"first point hot", head, curveHead + "c,yield,100 °C,1,s,w,memory,\n", "curves.csv:2: the first point is not 1 at 20 °C"},
		{"first point not 1", head, curveHead + "c,yield,20 °C,0.9,s,w,memory,\n", "curves.csv:2: the first point is not 1 at 20 °C"},
		{"order", head, curve + "c,yield,20 °C,0.9,s,w,memory,\n", "curves.csv:3: not hotter"},
		{"rises", head, curve + "c,yield,100 °C,0.9,s,w,memory,\nc,yield,150 °C,0.95,s,w,memory,\n", "curves.csv:4: not hotter"},
		{"ratio above 1", head, curve + "c,yield,100 °C,1.1,s,w,memory,\n", "curves.csv:3: ratio 1.1 is not from 0 to 1"},
		{"ratio NaN", head, curve + "c,yield,100 °C,NaN,s,w,memory,\n", "curves.csv:3: ratio NaN is not from 0 to 1"},
		{"ratio text", head, curve + "c,yield,100 °C,much,s,w,memory,\n", "curves.csv:3: "},
		{"point of shear", head, curveHead + "c,shear,20 °C,1,s,w,memory,\n", `curves.csv:2: "shear" is not yield, ultimate or modulus`},
		{"point of a constant", head, curveHead + "c,poisson,20 °C,1,s,w,memory,\n", `curves.csv:2: "poisson" is not yield, ultimate or modulus`},
		{"point of nothing", head, curveHead + "c,,20 °C,1,s,w,memory,\n", `curves.csv:2: "" is not yield, ultimate or modulus`},
		{"point without unit", head, curveHead + "c,yield,20,1,s,w,memory,\n", "curves.csv:2: "},
	} {
		t.Run(c.name, func(t *testing.T) {
			err := read(c.materials, c.curves).err
			if err == nil || !strings.Contains(err.Error(), c.want) {
				t.Errorf("got %v, want %q", err, c.want)
			}
		})
	}
	if err := read(material, curve).err; err != nil {
		t.Errorf("the good rows: %v", err)
	}
	if err := read(material, curve+"c,yield,600 °C,0,s,w,memory,\n").err; err != nil {
		t.Errorf("nothing left in much heat: %v", err)
	}
}

func BenchmarkRead(b *testing.B) {
	for b.Loop() {
		read(materialsCSV, curvesCSV)
	}
}
