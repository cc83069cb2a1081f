package materials

import (
	_ "embed" // the tables
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"strconv"
	"strings"
	"sync"

	"casewright/quantity"
)

//go:embed materials.csv
var materialsCSV string

//go:embed curves.csv
var curvesCSV string

// The columns of the two tables.
const (
	materialsHeader = "material,form,property,value,basis,size,temperature,curve,source,where,status,note"
	curvesHeader    = "curve,property,temperature,ratio,source,where,status,note"
)

// tables is what the two files say.
type tables struct {
	materials []*Material
	byName    map[string]*Material
	curves    []*Retention
	byCurve   map[string]*Retention
	curve     func(name string) (*Retention, bool) // finds a curve
	err       error
}

// found keeps each material and curve that has been read, so that one name is
// always one value. Reading one reads its own rows only: a program that looks
// up two materials should not wait for twenty.
var found, foundCurves sync.Map

// lookup reads the rows of one material, and of the curve that they name. If
// one of them cannot be read there is no such material: a curve that lacks a
// point would be wrong. A test holds that every row can be read.
func lookup(name string) *Material {
	key := fold(name)
	if m, ok := found.Load(key); ok {
		return m.(*Material)
	}
	t := &tables{byName: map[string]*Material{}, byCurve: map[string]*Retention{}}
	t.curve = func(name string) (*Retention, bool) { r := lookupCurve(name); return r, r != nil }
	if err := rows("materials.csv", materialsHeader, rowsOf(materialsCSV, key), t.value); err != nil || len(t.materials) != 1 {
		return nil
	}
	m, _ := found.LoadOrStore(key, t.materials[0])
	return m.(*Material)
}

// lookupCurve reads the rows of one curve.
func lookupCurve(name string) *Retention {
	key := fold(name)
	if r, ok := foundCurves.Load(key); ok {
		return r.(*Retention)
	}
	t := &tables{byCurve: map[string]*Retention{}}
	if err := rows("curves.csv", curvesHeader, rowsOf(curvesCSV, key), t.point); err != nil || len(t.curves) != 1 {
		return nil
	}
	r, _ := foundCurves.LoadOrStore(key, t.curves[0])
	return r.(*Retention)
}

// rowsOf returns the header (names hold no comma) and the rows whose first field is that name.
func rowsOf(text, key string) string {
	var b strings.Builder
	header, rest, _ := strings.Cut(text, "\n")
	b.WriteString(header + "\n")
	for line := range strings.Lines(rest) {
		if name, _, _ := strings.Cut(line, ","); strings.EqualFold(name, key) {
			b.WriteString(line)
		}
	}
	return b.String()
}

// firsts returns the first fields of a table, each once, in its order.
func firsts(text string) []string {
	var names []string
	_, rest, _ := strings.Cut(text, "\n")
	for line := range strings.Lines(rest) {
		name, _, _ := strings.Cut(line, ",")
		if len(names) == 0 || names[len(names)-1] != name {
			names = append(names, name)
		}
	}
	return names
}

// read reads both tables and tells all rows that are wrong.
func read(materials, curves string) *tables {
	t := &tables{byName: map[string]*Material{}, byCurve: map[string]*Retention{}}
	t.curve = func(name string) (*Retention, bool) { r, ok := t.byCurve[fold(name)]; return r, ok }
	t.err = errors.Join(
		rows("curves.csv", curvesHeader, curves, t.point),
		rows("materials.csv", materialsHeader, materials, t.value),
	)
	return t
}

// rows calls add for each row of a file below its header and joins the errors.
func rows(file, header, text string, add func(row []string) error) error {
	r := csv.NewReader(strings.NewReader(text))
	r.ReuseRecord = true
	first, err := r.Read()
	if err != nil || strings.Join(first, ",") != header {
		return fmt.Errorf("%s: the first row is not %q", file, header)
	}
	var all []error
	for {
		row, err := r.Read()
		if err == io.EOF {
			return errors.Join(all...)
		}
		if err != nil {
			all = append(all, fmt.Errorf("%s: %w", file, err))
			continue
		}
		if err := add(row); err != nil {
			line, _ := r.FieldPos(0)
			all = append(all, fmt.Errorf("%s:%d: %w", file, line, err))
		}
	}
}

// value takes a row of materials.csv.
func (t *tables) value(row []string) error {
	name, size, curve := row[0], row[5], row[7]
	form, ok := ParseForm(row[1])
	if !ok {
		return fmt.Errorf("no form %q", row[1])
	}
	p, ok := propertyOf(row[2])
	if !ok {
		return fmt.Errorf("no property %q", row[2])
	}
	amount, err := quantity.Parse(p.Kind(), row[3])
	if err != nil {
		return err
	}
	if row[6] != "20 °C" {
		return fmt.Errorf("at %q, not at 20 °C", row[6])
	}
	if !plausible(p, amount.SI()) {
		return fmt.Errorf("%s of %q", p.Key(), row[3])
	}
	m := t.byName[fold(name)]
	if m == nil {
		m = &Material{Name: name, Form: form, SizeRange: size, UpTo: warmest}
		t.byName[fold(name)] = m
		t.materials = append(t.materials, m)
		if err := t.follow(m, curve); err != nil {
			return err
		}
	}
	_, changes := p.Follows()
	switch {
	case m.Form != form:
		return fmt.Errorf("%s has two forms", name)
	case m.known[p]:
		return fmt.Errorf("%s has %s twice", name, p.Key())
	case changes && fold(curve) != fold(m.Curve):
		return fmt.Errorf("%s follows two curves", name)
	case !changes && curve != "":
		return fmt.Errorf("%s follows no curve", p.Key())
	}
	m.set(p, Value{amount.SI(), row[3], row[4], size, row[8], row[9], row[10], row[11]})
	return nil
}

// follow ties a material to its curve. The first row of a material is that of
// a strength and names it, or none.
func (t *tables) follow(m *Material, curve string) error {
	if curve == "" {
		return nil
	}
	r, ok := t.curve(curve)
	if !ok {
		return fmt.Errorf("no curve %q", curve)
	}
	m.Curve, m.retention, m.UpTo = r.Name, r, 0
	return nil
}

// point takes a row of curves.csv.
func (t *tables) point(row []string) error {
	p, ok := propertyOf(row[1])
	if f, follows := p.Follows(); !ok || !follows || f != p {
		return fmt.Errorf("%q is not yield, ultimate or modulus", row[1])
	}
	at, err := quantity.Parse(quantity.KindTemperature, row[2])
	if err != nil {
		return err
	}
	ratio, err := strconv.ParseFloat(row[3], 64)
	if err != nil {
		return err
	}
	q := Point{quantity.Temperature(at.SI()), ratio, row[4], row[5], row[6], row[7]}
	r := t.byCurve[fold(row[0])]
	if r == nil {
		r = &Retention{Name: row[0]}
		t.byCurve[fold(row[0])] = r
		t.curves = append(t.curves, r)
	}
	points := r.points[p]
	switch {
	case !(ratio >= 0 && ratio <= 1):
		return fmt.Errorf("ratio %s is not from 0 to 1", row[3])
	case len(points) == 0 && (row[2] != "20 °C" || row[3] != "1"):
		return errors.New("the first point is not 1 at 20 °C")
	case len(points) > 0 && (q.T <= points[len(points)-1].T || ratio > points[len(points)-1].Ratio):
		return errors.New("not hotter, or stronger, than the point before")
	}
	r.points[p] = append(points, q)
	return nil
}
