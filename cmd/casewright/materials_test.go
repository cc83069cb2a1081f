package main

import (
	"encoding/csv"
	"fmt"
	"maps"
	"math"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"

	"casewright/fastener"
	"casewright/margin"
	"casewright/materials"
	"casewright/quantity"
	"casewright/seal"
)

// materialsJSON returns the document of materials --format json.
func materialsJSON(t *testing.T, args ...string) object {
	t.Helper()
	code, out, errs := casewrightRun("", append([]string{"materials", "--format", "json"}, args...)...)
	if code != exitPass || errs != "" {
		t.Fatalf("exit status %d, %q", code, errs)
	}
	docs := parsed(t, out)
	if len(docs) != 1 {
		t.Fatalf("%d documents", len(docs))
	}
	doc := docs[0].(object)
	wantKeys(t, "document", doc, "format kind casewright materials curves compounds classes layers washers exposures", "")
	return doc
}

// named finds the object of a name in a list.
func named(t *testing.T, list any, name string) object {
	t.Helper()
	for _, o := range list.([]any) {
		if o.(object)["name"] == name {
			return o.(object)
		}
	}
	t.Fatalf("no %q", name)
	return nil
}

// csvRows are the rows of a table of this project, by the names of its
// columns.
func csvRows(t *testing.T, path string) (rows []map[string]string) {
	t.Helper()
	f, err := os.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	all, err := r.ReadAll()
	if err != nil || len(all) < 2 {
		t.Fatalf("%s: %v", path, err)
	}
	for _, cells := range all[1:] {
		row := map[string]string{}
		for i, name := range all[0] {
			row[name] = cells[i]
		}
		rows = append(rows, row)
	}
	return rows
}

// TestMaterialsComplete holds that every row of the tables is told, with all
// that it says.
func TestMaterialsComplete(t *testing.T) {
	doc := materialsJSON(t)
	text := func(o object, key string) string { s, _ := o[key].(string); return s }

	properties := map[string]object{}
	points := map[string]object{}
	for _, m := range doc["materials"].([]any) {
		metal := m.(object)
		wantKeys(t, "metal", metal, "name form size_range properties", "curve up_to")
		if (metal["curve"] == nil) == (metal["up_to"] == nil) {
			t.Errorf("%v: curve %v and up_to %v", metal["name"], metal["curve"], metal["up_to"])
		}
		for _, p := range metal["properties"].([]any) {
			property := p.(object)
			wantKeys(t, "property", property, "key value text basis size source where status", "note")
			properties[text(metal, "name")+"/"+text(property, "key")] = property
		}
	}
	for _, c := range doc["curves"].([]any) {
		curve := c.(object)
		wantKeys(t, "curve", curve, "name points", "")
		for _, p := range curve["points"].([]any) {
			point := p.(object)
			wantKeys(t, "point", point, "property temperature ratio source where status", "note")
			celsius := math.Round((number(t, "temperature", point["temperature"])-273.15)*1e6) / 1e6
			points[fmt.Sprintf("%v/%v/%v °C", curve["name"], point["property"], celsius)] = point
		}
	}
	for _, row := range csvRows(t, "../../materials/materials.csv") {
		id := row["material"] + "/" + row["property"]
		p, ok := properties[id]
		delete(properties, id)
		for key, column := range map[string]string{"text": "value", "basis": "basis", "size": "size", "source": "source", "where": "where", "status": "status", "note": "note"} {
			if text(p, key) != row[column] {
				t.Errorf("%s: %s is %q, not %q", id, key, text(p, key), row[column])
			}
		}
		if m := named(t, doc["materials"], row["material"]); text(m, "form") != row["form"] || row["curve"] != "" && text(m, "curve") != row["curve"] {
			t.Errorf("%s: form %v, curve %v", id, m["form"], m["curve"])
		}
		if !ok {
			t.Errorf("%s is missing", id)
		}
	}
	for _, row := range csvRows(t, "../../materials/curves.csv") {
		id := row["curve"] + "/" + row["property"] + "/" + row["temperature"]
		p, ok := points[id]
		delete(points, id)
		if ratio, _ := strconv.ParseFloat(row["ratio"], 64); !ok || p["ratio"] != ratio {
			t.Errorf("%s: ratio %v, not %s", id, p["ratio"], row["ratio"])
		}
		for _, key := range []string{"source", "where", "status", "note"} {
			if text(p, key) != row[key] {
				t.Errorf("%s: %s is %q, not %q", id, key, text(p, key), row[key])
			}
		}
	}
	if len(properties)+len(points) > 0 {
		t.Errorf("in no table: %v %v", slices.Collect(maps.Keys(properties)), slices.Collect(maps.Keys(points)))
	}

	for _, row := range csvRows(t, "../../seal/compounds.csv") {
		compound := named(t, doc["compounds"], row["compound"])
		wantKeys(t, "compound", compound, "name common properties", "")
		if row["property"] == "common" {
			continue
		}
		i := slices.IndexFunc(compound["properties"].([]any), func(p any) bool { return p.(object)["key"] == row["property"] })
		if i < 0 {
			t.Errorf("%s has no %s", row["compound"], row["property"])
			continue
		}
		p := compound["properties"].([]any)[i].(object)
		wantKeys(t, "property", p, "key value source status", "")
		if p["source"] != row["source"] || p["status"] != row["status"] {
			t.Errorf("%s: %s from %v, %v", row["compound"], row["property"], p["source"], p["status"])
		}
	}
	for _, row := range csvRows(t, "../../fastener/classes.csv") {
		class := named(t, doc["classes"], row["name"])
		wantKeys(t, "class", class, "name ultimate yield shear_threads shear_shank by_analogy low_ductility min_diameter max_diameter standard source status shear_source shear_status", "proof curve")
		if (class["proof"] != nil) != (row["proof"] != "") || class["by_analogy"] != (row["by_analogy"] == "yes") || class["low_ductility"] != (row["low_ductility"] == "yes") {
			t.Errorf("%s: %v", row["name"], class)
		}
		for key, column := range map[string]string{"standard": "standard", "source": "source", "status": "status", "shear_source": "shear_source", "shear_status": "shear_status", "curve": "curve"} {
			if text(class, key) != row[column] {
				t.Errorf("%s: %s is %q, not %q", row["name"], key, text(class, key), row[column])
			}
		}
	}
	if m, c, s := len(doc["materials"].([]any)), len(doc["compounds"].([]any)), len(doc["classes"].([]any)); m != len(materials.Names()) || c != len(seal.CompoundNames()) || s != len(fastener.ClassNames()) {
		t.Errorf("%d metals, %d compounds, %d classes", m, c, s)
	}
}

// TestHeatedComplete holds the same for liners, washers and what heat takes.
func TestHeatedComplete(t *testing.T) {
	doc := materialsJSON(t)
	from := func(id string, o any, row map[string]string) {
		for _, key := range []string{"source", "where", "status", "note"} {
			if said, _ := o.(object)[key].(string); said != row[key] {
				t.Errorf("%s: %s is %q, not %q", id, key, said, row[key])
			}
		}
	}
	si := func(k quantity.Kind, text string) float64 {
		a, err := quantity.Parse(k, text)
		if err != nil {
			t.Fatal(err)
		}
		return a.SI()
	}
	for _, row := range csvRows(t, "../../materials/layers.csv") {
		id := row["layer"] + " " + row["property"]
		layer := named(t, doc["layers"], row["layer"])
		wantKeys(t, "layer", layer, "name least_conductivity most_conductivity properties", "")
		i := slices.IndexFunc(layer["properties"].([]any), func(p any) bool { return p.(object)["key"] == row["property"] })
		if i < 0 {
			t.Errorf("%s is missing", id)
			continue
		}
		p := layer["properties"].([]any)[i].(object)
		wantKeys(t, "property", p, "key value source where status", "note")
		from(id, p, row)
		if row["property"] == "conductivity" {
			wantClose(t, id, number(t, id, p["value"]), si(quantity.KindConductivity, row["value"]))
			wantClose(t, id, number(t, id, layer["least_conductivity"]), si(quantity.KindConductivity, row["least"]))
			wantClose(t, id, number(t, id, layer["most_conductivity"]), si(quantity.KindConductivity, row["most"]))
		}
	}
	for _, row := range csvRows(t, "../../materials/washers.csv") {
		id := row["washer"] + " " + row["property"]
		washer := named(t, doc["washers"], row["washer"])
		wantKeys(t, "washer", washer, "name others consumable consumable_from", "softens softens_from")
		switch row["property"] {
		case "softens":
			from(id, washer["softens_from"], row)
			wantClose(t, id, number(t, id, washer["softens"]), si(quantity.KindTemperature, row["value"]))
		case "consumable":
			from(id, washer["consumable_from"], row)
			if washer["consumable"] != (row["value"] == "yes") {
				t.Errorf("%s: %v", id, washer["consumable"])
			}
		}
	}
	next := map[string]int{}
	for _, row := range csvRows(t, "../../materials/exposure.csv") {
		name := row["exposure"]
		id := name + " " + row["property"]
		x := named(t, doc["exposures"], name)
		wantKeys(t, "exposure", x, "name unharmed unharmed_from hottest activation activation_from losses", "hottest_from")
		switch row["property"] {
		case "unharmed", "hottest":
			from(id, x[row["property"]+"_from"], row)
			wantClose(t, id, number(t, id, x[row["property"]]), si(quantity.KindTemperature, row["value"]))
		case "least_activation":
			from(id, x["activation_from"].([]any)[0], row)
		case "most_activation":
			from(id, x["activation_from"].([]any)[1], row)
		default:
			loss := x["losses"].([]any)[next[name]].(object)
			next[name]++
			wantKeys(t, "loss", loss, "property temperature time share source where status", "note")
			from(id, loss, row)
			if share, _ := strconv.ParseFloat(row["value"], 64); loss["property"] != row["property"] || loss["share"] != share {
				t.Errorf("%s: %v of %v", id, loss["share"], loss["property"])
			}
			wantClose(t, id, number(t, id, loss["temperature"]), si(quantity.KindTemperature, row["temperature"]))
			wantClose(t, id, number(t, id, loss["time"]), si(quantity.KindTime, row["time"]))
		}
	}
}

// TestMaterialsSI compares numbers with conversions worked out by hand. The
// factors are those of NIST SP 811 appendix B.8, from memory: 1 ksi is
// 6.894757 MPa, 1 lb/in³ is 27 679.90 kg/m³, 0 °C is 273.15 K.
func TestMaterialsSI(t *testing.T) {
	doc := materialsJSON(t)
	for _, c := range []struct {
		metal, key, text string
		want             float64
		unit             string
	}{
		{"6061-T6 drawn tube", "yield", "240 MPa", 240e6, "Pa"},
		{"6061-T6 drawn tube", "modulus", "9900 ksi", 9900 * 6.894757e6, "Pa"},
		{"6061-T6 drawn tube", "density", "0.098 lb/in3", 0.098 * 27679.90, "kg/m³"},
		{"6061-T6 drawn tube", "elongation", "8 %", 0.08, "1"},
		{"6061-T6 drawn tube", "expansion", "23.6e-6 /K", 23.6e-6, "1/K"},
	} {
		for _, p := range named(t, doc["materials"], c.metal)["properties"].([]any) {
			property := p.(object)
			if property["key"] != c.key {
				continue
			}
			value := property["value"].(object)
			if got := value["value"].(float64); property["text"] != c.text || math.Abs(got-c.want) > 5e-7*c.want || value["unit"] != c.unit {
				t.Errorf("%s: %s is %v, written %v; want %g %s", c.metal, c.key, value, property["text"], c.want, c.unit)
			}
		}
	}
	fkm := named(t, doc["compounds"], "FKM")["properties"].([]any)[0].(object)
	if v := number(t, "limit", fkm["value"]); fkm["key"] != "limit" || math.Abs(v-473.15) > 1e-9 {
		t.Errorf("FKM: %v", fkm)
	}
	class := named(t, doc["classes"], "12.9")
	wantClose(t, "R_m of 12.9", number(t, "12.9", class["ultimate"]), 1220e6)
	wantClose(t, "least diameter", number(t, "12.9", class["min_diameter"]), 1.6e-3)
}

// TestMaterialsOne holds that with a name there is that entry only, and the
// curve that it follows.
func TestMaterialsOne(t *testing.T) {
	for _, c := range []struct{ name, counts string }{
		{"6061-T6 drawn tube", "1 1 0 0"},
		{"17-4PH H900 bar", "1 0 0 0"},
		{"silicone", "0 0 1 0"},
		{"12.9", "0 0 0 1"},
		{"A2-70", "0 1 0 1"},
	} {
		doc := materialsJSON(t, c.name)
		var counts []string
		for _, key := range []string{"materials", "curves", "compounds", "classes"} {
			counts = append(counts, strconv.Itoa(len(doc[key].([]any))))
		}
		if got := strings.Join(counts, " "); got != c.counts {
			t.Errorf("%s: %s metals, curves, compounds and classes, not %s", c.name, got, c.counts)
		}
	}
}

// TestMaterialsTable compares the numbers of the table with the materials: what
// it shows is what is computed with, rounded down.
func TestMaterialsTable(t *testing.T) {
	_, out, _ := casewrightRun("", "materials")
	for _, m := range materials.All() {
		var fields []string
		for line := range strings.Lines(out) {
			if rest, ok := strings.CutPrefix(line, m.Name+"  "); ok {
				fields = strings.Fields(rest)
			}
		}
		if len(fields) != 7 {
			t.Errorf("%s: %q is not yield, ultimate, shear, elong, basis, up to, seen", m.Name, fields)
			continue
		}
		for i, p := range []materials.Property{materials.Yield, materials.Ultimate, materials.Shear, materials.Elongation} {
			v, _ := m.Value(p)
			unit := 1e6
			if p == materials.Elongation {
				unit = 0.01
			}
			if got, err := strconv.ParseFloat(fields[i], 64); err != nil || got*unit > v.SI*(1+1e-9) || got*unit < v.SI-unit {
				t.Errorf("%s: %s is shown as %s, and is %g", m.Name, p.Key(), fields[i], v.SI/unit)
			}
		}
		celsius, err := strconv.ParseFloat(fields[5], 64)
		if err != nil {
			t.Errorf("%s: up to %q", m.Name, fields[5])
			continue
		}
		refused := func(above float64) bool {
			at := quantity.Celsius(celsius + above)
			return m.At(materials.Yield, at).Reason != margin.None || m.At(materials.Ultimate, at).Reason != margin.None
		}
		if refused(0) || !refused(1) {
			t.Errorf("%s: its strengths end elsewhere than at %g °C", m.Name, celsius)
		}
	}
}

// TestMaterialsNames holds that every name that is listed can be asked for, and
// that what is told stands in the tables.
func TestMaterialsNames(t *testing.T) {
	for _, name := range slices.Concat(materials.Names(), seal.CompoundNames(), fastener.ClassNames(), materials.LayerNames(), materials.WasherNames()) {
		code, out, errs := casewrightRun("", "materials", strings.ToUpper(name))
		first, _, _ := strings.Cut(out, "\n")
		if code != exitPass || errs != "" || !strings.HasPrefix(first, name) {
			t.Errorf("%s: exit status %d, %q, stderr %q", name, code, first, errs)
		}
	}
	_, out, _ := casewrightRun("", "materials", "6061-T6", "bar")
	m, _ := materials.Lookup("6061-T6 bar")
	flat := strings.Join(strings.Fields(out), " ")
	for _, p := range m.Properties() {
		v, _ := m.Value(p)
		for _, said := range []string{p.Key(), v.Text, v.Basis, v.Source, v.Where, v.Status, v.Note} {
			if !strings.Contains(flat, strings.Join(strings.Fields(said), " ")) {
				t.Errorf("%s: %q is not told", p.Key(), said)
			}
		}
	}
}
