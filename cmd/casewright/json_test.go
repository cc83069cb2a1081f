package main

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"maps"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// object is a JSON object.
type object = map[string]any

// oneEnd is a design with one end, cold, with an own limit and a material of
// the user's own: it bears every kind of note.
const oneEnd = `format = 1
[motor]
name = "One end"
pressure = "4.5 MPa"
[factors]
yield = 1.2
ultimate = 1.4
[limits]
"hole.edge" = "2.2"
[tube]
inside_diameter = "57.10 ±0.03 mm"
wall = "3.20 ±0.15 mm"
length = "420 mm"
material = "6061-T6 drawn tube"
lead_in = "4.5 mm"
[[material]]
name = "own bar"
source = "certificate 1"
form = "bar"
yield = "250 MPa"
ultimate = "290 MPa"
shear = "170 MPa"
modulus = "68 GPa"
poisson = 0.33
expansion = "23.6e-6 /K"
at = "100 °C"
[[end]]
name = "bulkhead"
kind = "bulkhead"
material = "own bar"
outside_diameter = "57.00 +0/-0.05 mm"
length = "36 mm"
plate = "12 mm"
  [end.seal]
  size = "AS568-137"
  compound = "FKM"
  hardness = 75
  count = 2
  groove_diameter = "53.10 ±0.03 mm"
  groove_width = "3.60 +0.15/-0 mm"
  groove_from_face = "4 mm"
  groove_spacing = "6 mm"
  [end.screws]
  thread = "M5x0.8"
  class = "12.9"
  count = 8
  hole = "5.5 ±0.1 mm"
  edge = "14 ±0.2 mm"
  from_face = "22 mm"
  engagement = "9 mm"
  edge_break = "0.3 mm"
`

// checkJSON checks a text and returns the one document of it.
func checkJSON(t *testing.T, text string) object {
	t.Helper()
	_, out, errs := casewrightRun(text, "check", "--format", "json", "-")
	if errs != "" {
		t.Fatal(errs)
	}
	docs := parsed(t, out)
	if len(docs) != 1 {
		t.Fatalf("%d documents of one file", len(docs))
	}
	return docs[0].(object)
}

// designTexts are the examples, and some made from them: hot ones, which are
// refused, a casting, and one end.
func designTexts(t *testing.T) map[string]string {
	t.Helper()
	texts := map[string]string{"one end": oneEnd}
	files, err := filepath.Glob("../../testdata/designs/*.toml")
	if err != nil || len(files) < 4 {
		t.Fatalf("the designs are missing: %v %v", files, err)
	}
	for _, file := range files {
		text, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		texts[filepath.Base(file)] = string(text)
	}
	texts["hot"] = strings.ReplaceAll(oneEnd, "lead_in =", "temperature = \"300 °C\"\nlead_in =")
	texts["casting"] = strings.ReplaceAll(oneEnd, `form = "bar"`, `form = "casting"`)
	texts["no end"], _, _ = strings.Cut(oneEnd, "[[end]]")
	return texts
}

func keysOf(o object) []string { return slices.Sorted(maps.Keys(o)) }

// wantKeys holds that an object has all of one list of keys, perhaps those of
// another, and no others.
func wantKeys(t *testing.T, what string, o object, must, may string) {
	t.Helper()
	for key := range strings.FieldsSeq(must) {
		if _, ok := o[key]; !ok {
			t.Errorf("%s: no %q, only %v", what, key, keysOf(o))
		}
	}
	for key, v := range o {
		if !slices.Contains(strings.Fields(must+" "+may), key) {
			t.Errorf("%s: %q should not be there", what, key)
		}
		if v == nil || v == "" {
			t.Errorf("%s: %q is empty", what, key)
		}
	}
}

// number is the value of a quantity, whose unit must be one of SI.
func number(t *testing.T, what string, v any) float64 {
	t.Helper()
	q, ok := v.(object)
	if !ok {
		t.Fatalf("%s: %v is no quantity", what, v)
	}
	wantKeys(t, what, q, "value unit", "")
	if unit := q["unit"]; !slices.Contains([]any{"Pa", "m", "N", "m²", "K", "s", "kg/m³", "W/(m K)", "J/(kg K)", "1"}, unit) {
		t.Errorf("%s: the unit %v is not SI", what, unit)
	}
	return q["value"].(float64)
}

func wantNotes(t *testing.T, what string, v any) (ids []string) {
	t.Helper()
	list, ok := v.([]any)
	if !ok {
		t.Fatalf("%s: notes are %v, not a list", what, v)
	}
	for _, n := range list {
		wantKeys(t, what+": note", n.(object), "id text", "")
		ids = append(ids, n.(object)["id"].(string))
	}
	return ids
}

func wantClose(t *testing.T, what string, got, want float64) {
	t.Helper()
	if !(math.Abs(got-want) <= 1e-9*math.Max(1, math.Abs(want))) {
		t.Errorf("%s is %v, not %v", what, got, want)
	}
}

// isLimit tells whether a check is one against a limit: all of the seals, and
// some of holes and ends. All else is a strength.
func isLimit(id string) bool {
	return strings.HasPrefix(id, "seal.") || slices.Contains([]string{
		"hole.edge", "hole.pitch", "hole.outside_seal", "hole.clearance", "hole.fit", "hole.peak", "tube.end_bending", "tube.heat_stress", "tube.temper", "end.temper", "screw.washer", "screw.preload", "joint.first_contact", "thread.outlasts",
		"end.port_wall", "end.port_thread", "end.port_floor", "end.lip_reach", "end.insert_wall", "joint.redistributes", "end.engagement", "end.clearance",
	}, id)
}

// lineOf is the line, from 1, of the first place in a text.
func lineOf(text, place string) float64 {
	before, _, _ := strings.Cut(text, place)
	return float64(strings.Count(before, "\n") + 1)
}

// TestCheckContract holds the fields of a report that others' scripts read:
// which are there, which are not, and that they agree with one another.
func TestCheckContract(t *testing.T) {
	seen := map[string]int{} // what has occurred, so that each rule is tried
	for name, text := range designTexts(t) {
		doc := checkJSON(t, text)
		wantKeys(t, name, doc, "format kind casewright file sha256 motor pressure verdict notes checks gives_way_first", "")
		if doc["format"] != 1.0 || doc["kind"] != "check" || doc["file"] != "-" {
			t.Errorf("%s: format %v, kind %v, file %v", name, doc["format"], doc["kind"], doc["file"])
		}
		if sum := sha256.Sum256([]byte(text)); doc["sha256"] != hex.EncodeToString(sum[:]) {
			t.Errorf("%s: sha256 %v", name, doc["sha256"])
		}
		for _, id := range wantNotes(t, name, doc["notes"]) {
			seen["note "+id]++
		}
		events := map[string]object{}
		last := math.Inf(-1)
		for _, e := range doc["gives_way_first"].([]any) {
			event := e.(object)
			wantKeys(t, name+": event", event, "check at mode", "")
			at := number(t, name+": event", event["at"])
			if at < last {
				t.Errorf("%s: %v gives way at %v, after %v", name, event["check"], at, last)
			}
			last, events[event["check"].(string)] = at, event
		}
		fails, refused := 0, 0
		for _, c := range doc["checks"].([]any) {
			check := c.(object)
			id := fmt.Sprintf("%v/%v", check["part"], check["id"])
			wantCheck(t, name+": "+id, check)
			seen[fmt.Sprintf("verdict %v", check["verdict"])]++
			seen[fmt.Sprintf("mode %v", check["mode"])]++
			for _, id := range wantNotes(t, id, check["notes"]) {
				seen["check note "+id]++
			}
			switch check["verdict"] {
			case "fail":
				fails++
			case "refused":
				refused++
				seen["reason "+check["reason"].(object)["id"].(string)]++
			}
			event, listed := events[id]
			if _, ok := check["gives_way_at"]; ok != listed {
				t.Errorf("%s: %s: gives_way_at %v, listed %v", name, id, check["gives_way_at"], listed)
			} else if ok && (number(t, id, check["gives_way_at"]) != number(t, id, event["at"]) || check["mode"] != event["mode"]) {
				t.Errorf("%s: %s gives way as %v, listed as %v", name, id, check, event)
			}
			delete(events, id)
		}
		if len(events) > 0 {
			t.Errorf("%s: listed as giving way, but no checks: %v", name, events)
		}
		want := "pass"
		if fails > 0 {
			want = "fail"
		} else if refused > 0 {
			want = "refused"
		}
		if doc["verdict"] != want {
			t.Errorf("%s: verdict %v with %d failing and %d refused", name, doc["verdict"], fails, refused)
		}
		seen["whole "+want]++
	}
	for _, what := range []string{
		"verdict pass", "verdict fail", "verdict refused", "verdict note",
		"mode yields", "mode breaks", "mode leaks", "mode rule", "mode <nil>",
		"whole pass", "whole fail", "whole refused",
		"note cold", "note ends_missing", "note reduced_factors", "note limit_changed", "note user_material",
		"reason temperature", "reason form", "check note limit_changed", "check note user_material",
	} {
		if seen[what] == 0 {
			t.Errorf("nothing tried has a %s; there are %v", what, slices.Sorted(maps.Keys(seen)))
		}
	}
}

// wantCheck holds the rules of one check.
func wantCheck(t *testing.T, what string, c object) {
	t.Helper()
	const always = "part id title key verdict source notes"
	// The line is absent where a default was taken, the mode where the check
	// is no event, the margin at nominal sizes where there is none.
	const sometimes = "line mode gives_way_at margin_nominal"
	if key, _ := c["key"].(string); !strings.Contains(key, ".") {
		t.Errorf("%s: the key is %v", what, c["key"])
	}
	if line, ok := c["line"]; ok && line.(float64) < 1 {
		t.Errorf("%s: line %v", what, line)
	}
	limit := isLimit(c["id"].(string))
	switch c["verdict"] {
	case "refused":
		must, may := always+" reason", "line mode factor factors"
		if limit {
			may = "line mode"
		}
		wantKeys(t, what, c, must, may)
		wantKeys(t, what+": reason", c["reason"].(object), "id text write", "")
		return
	case "note":
		_, refused := c["reason"] // a note that could not be computed
		if _, ok := c["margin"]; ok && refused {
			t.Errorf("%s: a margin beside the reason why there is none", what)
		}
		wantKeys(t, what, c, always, "reason value min max margin "+sometimes)
		return
	case "pass", "fail":
	default:
		t.Errorf("%s: verdict %v", what, c["verdict"])
		return
	}
	if !limit {
		wantKeys(t, what, c, always+" demand capacity factor factors margin", sometimes)
		demand, capacity, factor := number(t, what, c["demand"]), number(t, what, c["capacity"]), c["factor"].(float64)
		wantClose(t, what+": margin", c["margin"].(float64), capacity/(factor*demand)-1)
		product := 1.0
		for name, f := range c["factors"].(object) {
			if !slices.Contains([]string{"yield", "ultimate", "fitting"}, name) {
				t.Errorf("%s: the factor %q", what, name)
			}
			product *= f.(float64)
		}
		wantClose(t, what+": factor", factor, product)
		if c["demand"].(object)["unit"] != c["capacity"].(object)["unit"] {
			t.Errorf("%s: demand in %v, capacity in %v", what, c["demand"], c["capacity"])
		}
	} else {
		wantKeys(t, what, c, always+" value margin", sometimes+" min max")
		want := math.Inf(1)
		value := number(t, what, c["value"])
		if least, ok := c["min"]; ok {
			if x := number(t, what, least); x != 0 {
				want = min(want, value/x-1)
			} else if (value >= 0) != (c["margin"].(float64) >= 0) {
				t.Errorf("%s: value %v, margin %v", what, value, c["margin"])
			}
		}
		if most, ok := c["max"]; ok {
			want = min(want, 1-value/number(t, what, most))
		} else if _, ok := c["min"]; !ok {
			t.Errorf("%s: a limit without min and max: %v", what, c)
		}
		if !math.IsInf(want, 0) {
			wantClose(t, what+": margin", c["margin"].(float64), want)
		}
	}
	if pass := c["margin"].(float64) >= 0; pass != (c["verdict"] == "pass") {
		t.Errorf("%s: verdict %v with a margin of %v", what, c["verdict"], c["margin"])
	}
}

// find returns one check of a document.
func find(t *testing.T, doc object, part, id string) object {
	t.Helper()
	for _, c := range doc["checks"].([]any) {
		if check := c.(object); check["part"] == part && check["id"] == id {
			return check
		}
	}
	t.Fatalf("no %s/%s", part, id)
	return nil
}

// TestCheckByHand compares two checks of oneEnd with numbers worked out by
// hand, so that the fields hold what their names say.
func TestCheckByHand(t *testing.T) {
	doc := checkJSON(t, oneEnd)
	wantClose(t, "pressure", number(t, "pressure", doc["pressure"]), 4.5e6)
	if doc["motor"] != "One end" {
		t.Errorf("motor %v", doc["motor"])
	}

	// Lamé, thick wall: p (k² + 1)/(k² − 1), with the thinnest wall 3.05 mm on
	// the largest bore 57.13 mm: k = 1 + 3.05/28.565. Ultimate strength of
	// 6061-T6 drawn tube at 20 °C: 260 MPa (EN 1999-1-1 table 3.2b, seen in a
	// copy). Factor on ultimate of this file: 1.4.
	k := 1 + 3.05/28.565
	hoop := find(t, doc, "tube", "tube.hoop")
	wantClose(t, "demand", number(t, "demand", hoop["demand"]), 4.5e6*(k*k+1)/(k*k-1))
	wantClose(t, "capacity", number(t, "capacity", hoop["capacity"]), 260e6)
	wantClose(t, "factor", hoop["factor"].(float64), 1.4)
	wantClose(t, "ultimate", hoop["factors"].(object)["ultimate"].(float64), 1.4)
	if len(hoop["factors"].(object)) != 1 {
		t.Errorf("tube.hoop: factors %v", hoop["factors"])
	}
	kn := 1 + 3.2/28.55
	wantClose(t, "margin_nominal", hoop["margin_nominal"].(float64), 260e6/(1.4*4.5e6*(kn*kn+1)/(kn*kn-1))-1)
	if _, ok := hoop["gives_way_at"]; ok || hoop["mode"] != nil {
		t.Errorf("tube.hoop is no event, but %v", hoop)
	}

	// Edge distance in holes, by the file's own limit: (14 − 0.2)/(5.5 + 0.1).
	edge := find(t, doc, "bulkhead", "hole.edge")
	wantClose(t, "value", number(t, "value", edge["value"]), 13.8/5.6)
	wantClose(t, "min", number(t, "min", edge["min"]), 2.2)
	wantClose(t, "margin", edge["margin"].(float64), 13.8/5.6/2.2-1)
	wantClose(t, "margin_nominal", edge["margin_nominal"].(float64), 14/5.5/2.2-1)
	if edge["mode"] != "rule" || edge["key"] != "end.screws.edge" || edge["line"] != lineOf(oneEnd, "edge =") {
		t.Errorf("hole.edge: mode %v, key %v, line %v", edge["mode"], edge["key"], edge["line"])
	}
	if !slices.Contains(wantNotes(t, "hole.edge", edge["notes"]), "limit_changed") {
		t.Errorf("hole.edge does not say that its limit is the file's own: %v", edge["notes"])
	}

	// A joint bears the fitting factor too: 1.15 (the default), times 1.4.
	shear := find(t, doc, "bulkhead", "screw.shear")
	wantClose(t, "factor", shear["factor"].(float64), 1.4*1.15)
	wantClose(t, "fitting", shear["factors"].(object)["fitting"].(float64), 1.15)
	if shear["mode"] != "breaks" || shear["key"] != "end.screws.thread" {
		t.Errorf("screw.shear: mode %v, key %v", shear["mode"], shear["key"])
	}
}

// TestCheckOrder holds the order of the checks: the tube, the ends as in the
// file, the methods in one order.
func TestCheckOrder(t *testing.T) {
	order := func(doc object) (parts []string, ids map[string][]string) {
		ids = map[string][]string{}
		for _, c := range doc["checks"].([]any) {
			part := c.(object)["part"].(string)
			if len(parts) == 0 || parts[len(parts)-1] != part {
				parts = append(parts, part)
			}
			ids[part] = append(ids[part], c.(object)["id"].(string))
		}
		return parts, ids
	}
	texts := designTexts(t)
	parts, ids := order(checkJSON(t, texts["basalt64.toml"]))
	if !slices.Equal(parts, []string{"tube", "bulkhead", "nozzle"}) {
		t.Errorf("the parts stand as %v", parts)
	}
	_, others := order(checkJSON(t, texts["basalt64-short-edge.toml"]))
	for part, list := range ids {
		if !slices.Equal(list, others[part]) {
			t.Errorf("%s: the checks stand as %v and as %v", part, list, others[part])
		}
	}
	// The nozzle first: swap the two ends of the file.
	head, ends, _ := strings.Cut(texts["basalt64.toml"], "[[end]]")
	first, second, ok := strings.Cut(ends, "[[end]]")
	if !ok {
		t.Fatal("basalt64.toml has not two ends")
	}
	parts, _ = order(checkJSON(t, head+"[[end]]"+second+"\n[[end]]"+first))
	if !slices.Equal(parts, []string{"tube", "nozzle", "bulkhead"}) {
		t.Errorf("with the nozzle first the parts stand as %v", parts)
	}
}

// TestInvalidContract holds what is said of a bad file: no numbers, only what
// is wrong.
func TestInvalidContract(t *testing.T) {
	bad := strings.ReplaceAll(oneEnd, `edge = "14 ±0.2 mm"`, `egde = "14 ±0.2 mm"`)
	bad = strings.ReplaceAll(bad, `"57.10 ±0.03 mm"`, `57.1`)
	code, out, errs := casewrightRun(bad, "check", "--format", "json", "-")
	if code != exitInput || errs != "" {
		t.Errorf("exit status %d, stderr %q", code, errs)
	}
	docs := parsed(t, out)
	if len(docs) != 1 {
		t.Fatalf("%d documents", len(docs))
	}
	doc := docs[0].(object)
	wantKeys(t, "document", doc, "format kind casewright file verdict errors", "")
	if doc["format"] != 1.0 || doc["kind"] != "check" || doc["file"] != "-" || doc["verdict"] != "invalid" {
		t.Errorf("%v", doc)
	}
	list := doc["errors"].([]any)
	if len(list) != 2 {
		t.Fatalf("not two errors: %v", list)
	}
	for i, want := range []struct {
		line, column float64
		key, write   string
	}{{lineOf(bad, "inside_diameter"), 1, "tube.inside_diameter", "mm"}, {lineOf(bad, "egde"), 3, "end.screws.egde", `"edge"`}} {
		e := list[i].(object)
		wantKeys(t, "error", e, "line column key message write", "")
		if e["line"] != want.line || e["column"] != want.column || e["key"] != want.key || !strings.Contains(e["write"].(string), want.write) {
			t.Errorf("error %d is %v, want %v", i, e, want)
		}
	}
	// A file that is not there has no line.
	_, out, _ = casewrightRun("", "check", "--format", "json", "none.toml")
	e := parsed(t, out)[0].(object)["errors"].([]any)[0].(object)
	wantKeys(t, "error", e, "message write", "")
}

// TestVerifyContract holds the fields of verify that others' scripts read: each
// row has a source and what may be off, and the counts are those of the rows.
func TestVerifyContract(t *testing.T) {
	code, out, errs := casewrightRun("", "verify", "--format", "json")
	if code != 0 || errs != "" {
		t.Fatalf("exit status %d, stderr %q", code, errs)
	}
	doc := object(parsed(t, out)[0].(map[string]any))
	wantKeys(t, "verify", doc, "format kind casewright verdict counts rows", "")
	counts := object(doc["counts"].(map[string]any))
	wantKeys(t, "counts", counts, "rows seen solver memory failed must_agree largest_deviation", "")
	seen := map[string]float64{}
	for _, r := range doc["rows"].([]any) {
		row := object(r.(map[string]any))
		name := fmt.Sprintf("%v, %v", row["table"], row["id"])
		wantKeys(t, name, row, "id table quantity checks expected pass source where status", "computed refused off tolerance low high")
		_, computed := row["computed"]
		_, refused := row["refused"]
		_, off := row["off"]
		_, tolerance := row["tolerance"]
		_, low := row["low"]
		_, high := row["high"]
		if computed == refused || off != computed || low != high || tolerance == low || row["pass"] != true {
			t.Errorf("%s: %v", name, row)
		}
		seen[row["status"].(string)]++
		seen["rows"]++
		if refused {
			seen["refused"]++
		}
	}
	for _, what := range []string{"rows", "seen", "solver", "memory"} {
		if seen[what] == 0 || counts[what] != seen[what] {
			t.Errorf("%v %s, counted %v", seen[what], what, counts[what])
		}
	}
	if seen["refused"] == 0 || counts["failed"] != 0.0 || doc["verdict"] != "pass" {
		t.Errorf("%v refused, %v failed, verdict %v", seen["refused"], counts["failed"], doc["verdict"])
	}
}

// TestCompact holds that each document is one compact line, and readable by
// whoever reads lines.
func TestCompact(t *testing.T) {
	inDesigns(t)
	for _, args := range [][]string{
		{"check", "--format", "json", "basalt64.toml", "none.toml", "basalt64-bought-tube.toml"},
		{"materials", "--format", "json"},
		{"materials", "--format", "json", "12.9"},
	} {
		_, out, _ := casewrightRun("", args...)
		for line := range strings.Lines(out) {
			var compact bytes.Buffer
			if err := json.Compact(&compact, []byte(line)); err != nil || compact.String()+"\n" != line {
				t.Errorf("%q: not one compact line (%v): %.80q", args, err, line)
			}
			for _, escaped := range []string{`\u003c`, `\u003e`, `\u0026`} {
				if strings.Contains(line, escaped) {
					t.Errorf("%q: %s stands for a plain sign", args, escaped)
				}
			}
		}
	}
}
