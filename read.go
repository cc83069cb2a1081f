package casewright

import (
	"cmp"
	"crypto/sha256"
	"errors"
	"fmt"
	"io"
	"os"
	"slices"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/BurntSushi/toml"
	"github.com/shopspring/decimal"

	"casewright/margin"
	"casewright/materials"
	"casewright/quantity"
	"casewright/quantity/near"
	"casewright/quantity/where"
)

// An Error is one fault of a design file. Line and Column count from 1, the
// column in runes; both are 0 where the place is not known.
type Error struct {
	File         string
	Line, Column int
	Key          string // as in "end.screws.edge"; empty where it is none
	Message      string // what is wrong
	Write        string // what to write instead; empty where that is not known
}

// Error gives file, line, what is wrong and what to write instead.
func (e *Error) Error() string {
	place := e.File
	if e.Line > 0 {
		place += ":" + strconv.Itoa(e.Line)
	}
	if place == "" {
		return e.Text()
	}
	return place + ": " + e.Text()
}

// Text gives what is wrong and what to write instead, without the place.
func (e *Error) Text() string {
	if e.Write == "" {
		return e.Message
	}
	return e.Message + "; write " + e.Write
}

// Errors are all faults of one design file, in the order of their lines.
type Errors []*Error

// Error gives one fault a line.
func (e Errors) Error() string {
	lines := make([]string, len(e))
	for i, one := range e {
		lines[i] = one.Error()
	}
	return strings.Join(lines, "\n")
}

// Unwrap gives the faults one by one.
func (e Errors) Unwrap() []error {
	list := make([]error, len(e))
	for i, one := range e {
		list[i] = one
	}
	return list
}

// ReadFile reads a design file of at most 1 MiB. The error is an [Errors]; it
// wraps the system's own where the file cannot be read.
func ReadFile(path string) (*Design, error) {
	text, err := ReadText(path)
	if err != nil {
		return nil, err
	}
	return Read(path, text)
}

// ReadText reads the text of a file of at most 1 MiB. The error is an
// [Errors], or the system's own where the file cannot be read.
func ReadText(path string) ([]byte, error) {
	info, err := os.Stat(path)
	switch {
	case err != nil:
		return nil, err
	case info.IsDir():
		return nil, Errors{{File: path, Message: "is a directory", Write: "the name of a design file"}}
	case info.Size() > where.MostBytes:
		return nil, Errors{{File: path, Message: fmt.Sprintf("is larger than 1 MiB (%d bytes): this is no design file", info.Size())}}
	}
	f, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	// A device tells no size and may never end.
	return io.ReadAll(io.LimitReader(f, where.MostBytes+1))
}

// Read reads the text of a design file (TOML, format = 1). file is the name
// that errors give. The error is an [Errors] with every fault that was found;
// nothing is computed from a file with a fault.
func Read(file string, text []byte) (*Design, error) {
	r := &reader{design: &Design{File: file, SHA256: sha256.Sum256(text)}, places: map[string]where.Key{}}
	return r.read(text)
}

// read reads the text into the reader's design.
func (r *reader) read(text []byte) (*Design, error) {
	if !r.decode(text) {
		return nil, r.errors
	}
	r.top()
	r.design.complete(r.fail)
	if len(r.errors) > 0 {
		r.sort()
		return nil, r.errors
	}
	return r.design, nil
}

type reader struct {
	design *Design
	root   map[string]any
	places map[string]where.Key // by address, as in "end#1.seal.size"
	errors Errors

	open     bool // values may be wanted
	unknowns []Unknown
}

// sort puts the errors in the order of their lines.
func (r *reader) sort() {
	slices.SortStableFunc(r.errors, func(a, b *Error) int { return cmp.Or(cmp.Compare(a.Line, b.Line), cmp.Compare(a.Column, b.Column)) })
}

func (r *reader) fail(at Place, message, write string) {
	r.errors = append(r.errors, &Error{
		File: r.design.File, Line: at.Line, Column: at.Column, Key: at.Key, Message: message, Write: write,
	})
}

func (r *reader) decode(text []byte) bool {
	root, list, err := Decode(r.design.File, text)
	if err != nil {
		r.errors = append(r.errors, err)
		return false
	}
	r.root = root
	for _, p := range list {
		var b strings.Builder
		for i, part := range p.Key {
			if i > 0 {
				b.WriteByte('.')
			}
			b.WriteString(part)
			if p.Entry[i] >= 0 {
				b.WriteByte('#')
				b.WriteString(strconv.Itoa(p.Entry[i]))
			}
		}
		r.places[b.String()] = p
	}
	return true
}

// Decode decodes a text of at most 1 MiB as TOML, and tells where its keys
// stand, in the order of the text; the places are nil where they cannot be told
// for certain. It judges no names and no values. file is the name that the error
// gives, which is nil where all is well.
func Decode(file string, text []byte) (map[string]any, []where.Key, *Error) {
	if err := where.Check(text); err != nil {
		var t *where.Fault
		if errors.As(err, &t) {
			return nil, nil, &Error{File: file, Line: t.Line, Column: t.Column, Message: t.Message + "; " + t.Write}
		}
		return nil, nil, &Error{File: file, Message: err.Error()}
	}
	var root map[string]any
	meta, err := toml.Decode(string(text), &root)
	if err != nil {
		e := &Error{File: file, Message: strings.TrimPrefix(err.Error(), "toml: ")}
		var p toml.ParseError
		if errors.As(err, &p) {
			e.Line, e.Column = where.Position(text, min(p.Position.Start, len(text)))
			e.Key, e.Message = clean(p.LastKey), "this is not TOML: "+p.Message
			if strings.Contains(p.Message, "but got") {
				e.Write = quoted(text, e.Line)
			}
			if e.Message == "this is not TOML: " {
				e.Message = "this is not TOML: " + err.Error()
			}
		}
		e.Message = printable(e.Message)
		return nil, nil, e
	}
	return root, where.Keys(text, meta), nil
}

// quoted is a line of the text with its value in quotes, where a value stands
// without: the commonest slip.
func quoted(text []byte, line int) string {
	lines := strings.Split(string(text), "\n")
	if line < 1 || line > len(lines) {
		return ""
	}
	key, value, ok := strings.Cut(lines[line-1], "=")
	value, _, _ = strings.Cut(value, "#")
	key, value = strings.TrimSpace(key), strings.TrimSpace(value)
	if !ok || key == "" || value == "" || strings.ContainsAny(key+value, "\"'[]{}=") || printable(key+value) != key+value || len(key) > 60 || len(value) > 60 {
		return ""
	}
	return fmt.Sprintf("%s = %q", key, strings.ReplaceAll(value, ",", "."))
}

// table is one table of the file while it is read.
type table struct {
	path    string   // as in "end.seal"
	address string   // as in "end#1.seal"
	title   string   // as in `[end.seal] of "nozzle"`
	label   string   // in place of title and name, of a key that is given by itself
	only    []string // the names that may stand in it; nil for all keys of the path
	need    []string // those of them that must; nil for what the keys say
	values  map[string]any
	place   Place
}

func (r *reader) at(address, key string) Place {
	p, ok := r.places[address]
	if !ok {
		// A dotted key makes tables that have no place of their own.
		for below, place := range r.places {
			if strings.HasPrefix(below, address+".") && (p.Line == 0 || place.Offset < p.Offset) {
				p = place
			}
		}
	}
	return Place{Key: clean(key), Line: p.Line, Column: p.Column}
}

// tableAt is where a table stands, or the first of several.
func (r *reader) tableAt(name string) Place {
	if at := r.at(name, name); at.Line > 0 {
		return at
	}
	return r.at(name+"#0", name)
}

func (t *table) key(name string) (address, key string) {
	return t.address + "." + name, t.path + "." + name
}

// names returns the names in a table in the order of the file.
func (r *reader) names(prefix string, values map[string]any) []string {
	names := make([]string, 0, len(values))
	for name := range values {
		names = append(names, name)
	}
	slices.SortFunc(names, func(a, b string) int {
		return cmp.Or(cmp.Compare(r.places[prefix+a].Offset, r.places[prefix+b].Offset), strings.Compare(a, b))
	})
	return names
}

var topNames = []string{"format", "motor", "factors", "limits", "tube", "end", "heat", "measured", "material"}

// Tables returns the names that may stand at the top of a design file, then
// those of a stock file alone, in the order in which a file is best written.
func Tables() []string {
	list := slices.Clone(topNames)
	for _, name := range stockNames {
		if !slices.Contains(list, name) {
			list = append(list, name)
		}
	}
	return list
}

func (r *reader) top() {
	r.tables(topNames)
	r.materials()
	r.single("motor", true)
	r.single("factors", false)
	r.limits()
	r.single("tube", true)
	r.ends()
	r.heat()
	r.measured()
}

// tables holds the names at the top of a file against those that may stand
// there, the format among them.
func (r *reader) tables(known []string) {
	for _, name := range r.names("", r.root) {
		at := r.tableAt(name)
		switch {
		case !slices.Contains(known, name):
			r.unknownTable(at, name, known)
		case name == "format":
			if v, ok := r.root[name].(int64); !ok || v != 1 {
				r.fail(at, fmt.Sprintf("casewright %s reads format 1 only", Version), "format = 1")
			}
		}
	}
	if _, ok := r.root["format"]; !ok && !hasNear(r.root, "format", known) {
		r.fail(Place{Key: "format", Line: 1, Column: 1}, "the format of the file is missing", "format = 1 as the first line")
	}
}

func (r *reader) unknownTable(at Place, name string, known []string) {
	shown := clean(name)
	if slices.Equal(known, stockNames) {
		write := "one of [[" + strings.Join(stockNames[1:], "]], [[") + "]]"
		if match, ok := near.Match(name, known[1:]); ok {
			write = "[[" + match + "]]"
		}
		r.fail(at, fmt.Sprintf("%q is not a table of a stock file", shown), write)
		return
	}
	if name == "seal" || name == "screws" {
		r.fail(at, fmt.Sprintf("%q stands outside its table", shown), "[end."+name+"]")
		return
	}
	if below := tablesOf(name); below != "" {
		r.fail(at, fmt.Sprintf("%q stands outside its table", shown), "it below "+below)
		return
	}
	if match, ok := near.Match(name, topNames); ok {
		r.fail(at, fmt.Sprintf("%q is not a table of a design file", shown), quoteTable(match))
		return
	}
	r.fail(at, fmt.Sprintf("%q is not a table that casewright %s knows", shown, Version), "one of "+strings.Join(topNames[1:], ", "))
}

// tablesOf names the tables in which a key of that name may stand.
func tablesOf(name string) string {
	var list []string
	for _, k := range keys {
		if k.Name() == name {
			list = append(list, quoteTable(k.Table()))
		}
	}
	return strings.Join(list, " or ")
}

func quoteTable(name string) string {
	switch name {
	case "format":
		return "format = 1"
	case "end", "material":
		return "[[" + name + "]]"
	}
	return "[" + name + "]"
}

// single reads a table that stands once.
func (r *reader) single(name string, required bool) {
	v, ok := r.root[name]
	if !ok {
		if required && !hasNear(r.root, name, topNames) {
			r.fail(Place{Key: name}, fmt.Sprintf("the table [%s] is missing", name), fmt.Sprintf("[%s]", name))
		}
		return
	}
	values, ok := v.(map[string]any)
	if !ok {
		r.fail(r.tableAt(name), fmt.Sprintf("%q must be a table that stands once", name), fmt.Sprintf("[%s]", name))
		return
	}
	t := &table{path: name, address: name, title: "[" + name + "]", values: values, place: r.at(name, name)}
	if name == "tube" {
		r.design.Tube.Place = t.place
	}
	r.table(t, nil, nil)
}

// endTables are the tables that stand in [[end]].
var endTables = []string{"seal", "screws", "heat"}

// namesOf are the names of the keys of a table.
func namesOf(table string) []string {
	var list []string
	for _, k := range keys {
		if k.Table() == table {
			list = append(list, k.Name())
		}
	}
	return list
}

// hasNear tells whether a table holds an unknown name that is nearly the given
// one, so that the missing one need not be told as well.
func hasNear(values map[string]any, name string, known []string) bool {
	for other := range values {
		if slices.Contains(known, other) {
			continue
		}
		if other != name && strings.EqualFold(other, name) {
			return true
		}
		if match, ok := near.Match(other, []string{name}); ok && match == name && other != name {
			return true
		}
	}
	return false
}

// table reads the keys of one table. inner names the tables that stand in it.
func (r *reader) table(t *table, e *End, inner []string) {
	known := map[string]*Key{}
	var list []string
	for _, k := range keys {
		if k.Table() == t.path && (t.only == nil || slices.Contains(t.only, k.Name())) {
			known[k.Name()] = k
			list = append(list, k.Name())
		}
	}
	list = append(list, inner...)
	for _, name := range r.names(t.address+".", t.values) {
		address, path := t.key(name)
		k := known[name]
		switch {
		case k != nil:
			r.value(t, k, e, t.values[name], address)
		case !slices.Contains(inner, name):
			r.unknownKey(t, e, list, name, r.at(address, path))
		}
	}
	for _, k := range keys {
		required := k.Required
		if t.only != nil {
			required = slices.Contains(t.need, k.Name())
		}
		if _, ok := t.values[k.Name()]; known[k.Name()] == k && required && !ok && !hasNear(t.values, k.Name(), list) {
			r.missing(t.title, t.place, k)
		}
	}
}

func (r *reader) missing(title string, at Place, k *Key) {
	r.fail(Place{Key: k.Path, Line: at.Line, Column: at.Column},
		fmt.Sprintf("%s: %q is missing (%s)", title, k.Name(), k.Meaning), k.Name()+" = "+k.Sample)
}

func (r *reader) unknownKey(t *table, e *End, list []string, name string, at Place) {
	message := fmt.Sprintf("%s: %q is not a key", t.title, clean(name))
	if match, ok := near.Match(name, list); ok {
		write := strconv.Quote(match)
		for _, k := range keys {
			if k.Table() == t.path && k.Name() == match {
				write += " (" + k.Meaning + ")"
				mark(k.field(r.design, e), at)
			}
		}
		if t.path == "end" && slices.Contains(endTables, match) {
			write = "[end." + match + "]"
		}
		r.fail(at, message, write)
		return
	}
	if below := tablesOf(name); below != "" && t.only == nil {
		r.fail(at, message+" of this table", "it below "+below)
		return
	}
	r.fail(at, message, "one of "+strings.Join(list, ", "))
}

// clean makes a text of the file fit to be printed: one short line without
// control characters.
func clean(text string) string {
	text = printable(text)
	if utf8.RuneCountInString(text) > 60 {
		text = string([]rune(text)[:59]) + "…"
	}
	return text
}

// printable is a text without control characters.
func printable(text string) string {
	return strings.Map(func(c rune) rune {
		if !unicode.IsPrint(c) {
			return '�'
		}
		return c
	}, text)
}

// value reads the value of one key into its field.
func (r *reader) value(t *table, k *Key, e *End, v any, address string) {
	at := r.at(address, k.Path)
	fault := func(message, write string) {
		mark(k.field(r.design, e), at)
		r.fail(at, t.about(k)+": "+message, write)
	}
	text, isText := v.(string)
	if strings.TrimSpace(text) == Wanted {
		if r.open {
			r.wanted(k, e, address, at)
		} else {
			fault(`"?" is a value that is still to be found`, "a value, or let casewright size find it")
		}
		return
	}
	switch field := k.field(r.design, e).(type) {
	case *Dimension:
		d, message, write := r.length(k, v, address)
		if message != "" {
			fault(message, write)
			return
		}
		*field = Dimension{d, at}
	case *Amount:
		raw, ok := r.text(v, address)
		if a, message, write := r.amount(k, raw, ok, v); message != "" {
			fault(message, write)
		} else {
			*field = Amount{a, at}
		}
	case *Film:
		raw, ok := r.text(v, address)
		if ok && slices.Contains(k.options, strings.TrimSpace(raw)) {
			*field = Film{Named: strings.TrimSpace(raw), Place: at}
			return
		}
		if a, message, write := r.amount(k, raw, ok, v); isText && strings.ContainsAny(raw, letters) && !strings.ContainsAny(raw, "0123456789") {
			fault(fmt.Sprintf("%q is neither a number with its unit nor %q", clean(raw), k.options[0]), k.Sample+" or "+strconv.Quote(k.options[0]))
		} else if message != "" {
			fault(message, write)
		} else {
			*field = Film{Amount: a, Place: at}
		}
	case *Count:
		n, ok := v.(int64)
		if isText {
			var err error
			n, err = strconv.ParseInt(strings.TrimSpace(text), 10, 64)
			ok = err == nil
		}
		switch {
		case !ok:
			fault("needs a whole number", k.Sample)
		case n < int64(k.from) || n > int64(k.to):
			fault(fmt.Sprintf("%d is out of range: it must lie from %d to %d", n, k.from, k.to), k.Sample)
		default:
			*field = Count{int(n), at}
		}
	case *Flag:
		b, ok := v.(bool)
		if !ok {
			fault("needs true or false, without quotes", k.Sample)
			return
		}
		*field = Flag{b, at}
	case *Text:
		if !isText {
			fault("needs a text in quotes", k.Sample)
			return
		}
		if message, write := r.checkText(k, text); message != "" {
			fault(message, write)
			return
		}
		*field = Text{text, at}
	case chooser:
		if !isText {
			fault("needs a text in quotes", k.Sample)
			return
		}
		if !field.choose(text, r.design, at) {
			known := field.names(r.design)
			write := "another, for example " + k.Sample
			if match, ok := near.Match(text, known); ok && field.alike(match, text) {
				write = strconv.Quote(match)
			} else if some := cmp.Or(sameDiameter(field, known, text), holding(known, text)); some != "" {
				write = "one of " + some
			} else if all := strings.Join(known, ", "); len(all) <= 140 {
				write = "one of " + all
			}
			fault(fmt.Sprintf("%q is not known", clean(text)), write+field.orElse())
		}
	}
}

const letters = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ"

// amount reads a number with its unit, as the key takes it, from its text; the
// message is empty if all is well.
func (r *reader) amount(k *Key, raw string, isText bool, v any) (amount quantity.Amount, message, write string) {
	if !isText {
		return amount, fmt.Sprintf("needs %s, not %s", a(k.Kind), kindOf(v)), k.Sample
	}
	amount, err := quantity.Parse(k.Kind, raw)
	if err != nil {
		message, write = explain(err)
		return amount, message, write
	}
	if !within(amount, k.least, k.most) {
		return amount, fmt.Sprintf("%q is out of range: it must lie from %s to %s", clean(raw), k.least, k.most), k.Sample
	}
	return amount, "", ""
}

var largest = decimal.NewFromInt(10) // m

// length reads a length with its tolerance, as the key takes it; the message
// is empty if all is well.
func (r *reader) length(k *Key, v any, address string) (d quantity.Dimension, message, write string) {
	raw, ok := r.text(v, address)
	if !ok {
		return d, fmt.Sprintf("needs a length with its unit, not %s", kindOf(v)), k.Sample
	}
	d, err := quantity.ParseDimension(raw)
	if err != nil {
		message, write = explain(err)
		return d, message, write
	}
	if least := d.Least(); least.Sign() < 0 || !k.zero && least.Sign() == 0 || d.Greatest().Cmp(largest) > 0 {
		return d, fmt.Sprintf("%q is out of range: a size lies above 0 mm, its tolerance included, and at most at 10 m", clean(raw)), k.Sample
	}
	return d, "", ""
}

// sameDiameter lists the threads of the diameter that a text begins with.
func sameDiameter(field chooser, names []string, text string) string {
	thread, ok := field.(*Thread)
	if !ok {
		return ""
	}
	var list []string
	for _, name := range names {
		if thread.alike(name, text) {
			list = append(list, name)
		}
	}
	return strings.Join(list, ", ")
}

// holding lists the names that hold a text of some length, as the alloy of a
// material.
func holding(names []string, text string) string {
	part := strings.ToLower(strings.TrimSpace(text))
	if len(part) < 3 {
		return ""
	}
	var list []string
	for _, name := range names {
		if strings.Contains(strings.ToLower(name), part) {
			list = append(list, name)
		}
	}
	return strings.Join(list, ", ")
}

// text is a value as its text: a string, or a bare number as it was written.
func (r *reader) text(v any, address string) (string, bool) {
	switch v := v.(type) {
	case string:
		return v, true
	case int64, float64:
		if raw := r.places[address].Value; raw != "" {
			return raw, true
		}
		return fmt.Sprint(v), true
	}
	return "", false
}

func explain(err error) (message, write string) {
	var s *quantity.SyntaxError
	if errors.As(err, &s) {
		if s.Write != "" {
			write = strconv.Quote(s.Write)
		}
		return fmt.Sprintf("%q %s", clean(s.Text), s.Message), write
	}
	return err.Error(), ""
}

func within(a quantity.Amount, least, most string) bool {
	for i, bound := range []string{least, most} {
		if bound == "" {
			continue
		}
		b, err := quantity.Parse(a.Kind(), bound)
		if err != nil {
			return false
		}
		if side := a.Cmp(b); i == 0 && side < 0 || i == 1 && side > 0 {
			return false
		}
	}
	return true
}

func a(k quantity.Kind) string {
	switch k {
	case quantity.KindRatio:
		return "a plain number"
	case quantity.KindAngle, quantity.KindArea:
		return "an " + k.String() + " with its unit"
	}
	return "a " + k.String() + " with its unit"
}

func kindOf(v any) string {
	switch v.(type) {
	case string:
		return "a text"
	case bool:
		return "true or false"
	case int64, float64:
		return "a number"
	case []any, []map[string]any:
		return "a list"
	case map[string]any:
		return "a table"
	}
	return "a date or time"
}

const motorName = "a name of at most 60 letters, digits and signs"

// isEndName tells whether a name has letters, digits, space, - and _ only, and
// begins with a letter or digit.
func isEndName(name string) bool {
	for i, c := range name {
		plain := unicode.IsLetter(c) || c >= '0' && c <= '9'
		if !plain && (i == 0 || !strings.ContainsRune(" -_", c)) {
			return false
		}
	}
	return name != "" && strings.TrimSpace(name) == name
}

// checkText tells what is wrong with a name or a choice; nothing if all is
// well.
func (r *reader) checkText(k *Key, text string) (message, write string) {
	if k.options != nil {
		if slices.Contains(k.options, text) {
			return "", ""
		}
		write = "one of " + strings.Join(k.options, ", ")
		if match, ok := near.Match(text, k.options); ok {
			write = strconv.Quote(match)
		}
		return fmt.Sprintf("%q is not known", clean(text)), write
	}
	if strings.TrimSpace(text) == "" || text != clean(text) {
		return fmt.Sprintf("%q is not %s", clean(text), motorName), k.Sample
	}
	if k.Path != "end.name" {
		return "", ""
	}
	lower := strings.ToLower(text)
	if !isEndName(text) || lower == "tube" || lower == "motor" {
		return fmt.Sprintf("%q does not do as the name of an end: letters, digits, space, - and _, not \"tube\" or \"motor\"", text), k.Sample
	}
	return "", ""
}

// limits reads [limits].
func (r *reader) limits() {
	v, ok := r.root["limits"]
	if !ok {
		return
	}
	values, ok := v.(map[string]any)
	if !ok {
		r.fail(r.tableAt("limits"), `"limits" must be a table that stands once`, "[limits]")
		return
	}
	settable := map[string]*margin.Method{}
	var ids []string
	for _, m := range allMethods() {
		if m.Settable {
			settable[m.ID] = m
			ids = append(ids, m.ID)
		}
	}
	for _, id := range r.names("limits.", values) {
		address := "limits." + id
		at := r.at(address, "limits."+id)
		if inner, isTable := values[id].(map[string]any); isTable && len(inner) > 0 {
			for _, rest := range r.names(address+".", inner) {
				r.fail(r.at(address+"."+rest, address+"."+rest), "[limits]: the id of a check stands in quotes", fmt.Sprintf("%q = …", clean(id+"."+rest)))
			}
			continue
		}
		m := settable[id]
		if m == nil {
			write := "one of " + strings.Join(ids, ", ")
			if match, ok := near.Match(id, ids); ok {
				write = strconv.Quote(match)
			}
			r.fail(at, fmt.Sprintf("[limits]: %q is not a check whose limit may be set", clean(id)), write)
			continue
		}
		sample := fmt.Sprintf("%q = %q", id, limitSample(m))
		raw, ok := r.text(values[id], address)
		if !ok {
			r.fail(at, fmt.Sprintf("[limits]: %s needs %s, not %s", id, a(m.Unit), kindOf(values[id])), sample)
			continue
		}
		limit, err := quantity.Parse(m.Unit, raw)
		if err != nil {
			message, write := explain(err)
			r.fail(at, fmt.Sprintf("[limits]: %s: %s", id, message), write)
			continue
		}
		if most := mostLimit(m); limit.Sign() <= 0 || !within(limit, "0"+unitOf(m), most) {
			r.fail(at, fmt.Sprintf("[limits]: %s: %q is out of range: it must lie above 0, and at most at %s", id, clean(raw), most), sample)
			continue
		}
		r.design.Limits = append(r.design.Limits, Limit{id, Amount{limit, at}})
	}
}

// measurable is a length of a part that may be measured.
type measurable struct {
	part int
	key  *Key
}

// measurables returns the lengths of all parts whose names are known, by the
// names that they have in [measured], and these names in the order of the keys;
// all keys of a part in place of lengths alone where others is true.
func (r *reader) measurables(others bool) (all map[string]measurable, names []string) {
	all = map[string]measurable{}
	for part := range len(r.design.Ends) + 1 {
		for _, k := range keys {
			table, _, _ := strings.Cut(k.Path, ".")
			if part == 0 && table != "tube" || part > 0 && (table != "end" || r.design.partName(part) == "") {
				continue
			}
			if _, ok := k.Field(r.design, part).(*Dimension); !ok && !others {
				continue
			}
			name := r.design.measuredName(part, k.Path)
			if _, twice := all[name]; !twice {
				all[name] = measurable{part, k}
				names = append(names, name)
			}
		}
	}
	return all, names
}

// measured reads [measured], after the tube and the ends.
func (r *reader) measured() {
	v, ok := r.root["measured"]
	if !ok {
		return
	}
	values, ok := v.(map[string]any)
	if !ok {
		r.fail(r.tableAt("measured"), `"measured" must be a table that stands once`, "[measured]")
		return
	}
	lengths, names := r.measurables(false)
	seen := map[string]bool{}
	for _, id := range r.names("measured.", values) {
		address := "measured." + id
		at := r.at(address, address)
		if inner, isTable := values[id].(map[string]any); isTable && len(inner) > 0 {
			r.unquoted(address, id, inner)
			continue
		}
		name := id
		if part, key, ok := strings.Cut(id, "."); ok {
			name = r.partAsNamed(part) + "." + key
		}
		m, ok := lengths[name]
		if !ok {
			r.notMeasurable(at, name, id, names)
			continue
		}
		if seen[name] {
			r.fail(at, fmt.Sprintf("[measured]: %s stands twice", clean(id)), "it once")
			continue
		}
		seen[name] = true
		switch field := m.key.Field(r.design, m.part).(*Dimension); {
		case !field.given() || r.isWanted(m):
			r.fail(at, fmt.Sprintf("[measured]: %s is not drawn, and what is not drawn cannot be measured in its place", clean(id)), r.instead(m))
			continue
		case !field.IsSet():
			continue // The drawing's value is faulty, and told as such.
		}
		d, message, write := r.length(m.key, values[id], address)
		if message != "" {
			if write == m.key.Sample {
				write = fmt.Sprintf("%q = %s", clean(id), write)
			}
			r.fail(at, fmt.Sprintf("[measured]: %s: %s", clean(id), message), write)
			continue
		}
		r.design.Measured = append(r.design.Measured, Measurement{m.part, m.key.Path, Dimension{d, at}})
	}
}

// unquoted tells of names in [measured] that stand without quotes, and so have
// become tables.
func (r *reader) unquoted(address, id string, values map[string]any) {
	for _, rest := range r.names(address+".", values) {
		below, name := address+"."+rest, id+"."+rest
		if inner, isTable := values[rest].(map[string]any); isTable && len(inner) > 0 {
			r.unquoted(below, name, inner)
			continue
		}
		r.fail(r.at(below, below), "[measured]: the name of a size stands in quotes", fmt.Sprintf("%q = …", clean(name)))
	}
}

// partAsNamed is the name of a part as the file has it, of one that is written
// with other capitals; else it stays as it is.
func (r *reader) partAsNamed(name string) string {
	for part := range len(r.design.Ends) + 1 {
		if own := r.design.partName(part); strings.EqualFold(own, name) {
			return own
		}
	}
	return name
}

// isWanted tells whether the file leaves the value to be found.
func (r *reader) isWanted(m measurable) bool {
	return slices.ContainsFunc(r.unknowns, func(u Unknown) bool { return u.Part == m.part && u.Key == m.key.Path })
}

// instead is what to write in place of a measurement of what is not drawn.
func (r *reader) instead(m measurable) string {
	switch m.key.Path {
	case "tube.outside_diameter", "tube.inside_diameter", "tube.wall":
		return "one of the two sizes that [tube] gives"
	}
	table := "[" + m.key.Table() + "]"
	if m.key.Table() == "end" {
		table = "[[end]]"
	}
	return fmt.Sprintf("%s in %s too, or leave the measurement out", m.key.Name(), table)
}

// notMeasurable tells of a name in [measured] that is no length of a part.
func (r *reader) notMeasurable(at Place, name, id string, names []string) {
	all, _ := r.measurables(true)
	if _, ok := all[name]; ok {
		r.fail(at, fmt.Sprintf("[measured]: %s is no length, and lengths alone are measured here", clean(id)), "a length with its tolerance, as in "+sampleMeasurement)
		return
	}
	part, key, _ := strings.Cut(name, ".")
	message := fmt.Sprintf("[measured]: %q is no size of this motor", clean(id))
	if rest, ok := strings.CutPrefix(key, "end."); ok && slices.Contains(names, part+"."+rest) {
		r.fail(at, message, strconv.Quote(part+"."+rest))
		return
	}
	if match, ok := near.Match(name, names); ok {
		r.fail(at, message, strconv.Quote(match))
		return
	}
	var parts, own []string
	for number := range len(r.design.Ends) + 1 {
		other := r.design.partName(number)
		if other == "" {
			return // It may be of the end whose name is faulty, and told as such.
		}
		parts = append(parts, other)
	}
	for _, other := range names {
		if rest, ok := strings.CutPrefix(other, part+"."); ok {
			own = append(own, rest)
		}
	}
	switch {
	case own != nil:
		r.fail(at, message, fmt.Sprintf("%q and one of %s", clean(part)+".", strings.Join(own, ", ")))
	default:
		r.fail(at, message, "a part, one of "+strings.Join(parts, ", ")+", and its key, as in "+sampleMeasurement)
	}
}

const sampleMeasurement = `"tube.inside_diameter" = "57.12 ±0.01 mm"`

func unitOf(m *margin.Method) string {
	if m.Unit == quantity.KindLength {
		return " mm"
	}
	return ""
}

// mostLimit bounds a limit: shares stay below 1, the others below any use.
func mostLimit(m *margin.Method) string {
	switch {
	case m.Unit == quantity.KindLength:
		return "100 mm"
	case strings.HasPrefix(m.ID, "seal."):
		return "99 %"
	}
	return "100"
}

func limitSample(m *margin.Method) string {
	if m.Default != "" {
		return m.Default
	}
	if m.Unit == quantity.KindLength {
		return "0.3 mm"
	}
	return "30 %"
}

// mostOf bounds a property of a user's material, in SI, far above any metal.
func mostOf(p materials.Property) float64 {
	switch p {
	case materials.Poisson:
		return 0.5
	case materials.Elongation, materials.UniformElongation:
		return 1
	case materials.Density:
		return 25e3
	case materials.Expansion:
		return 1e-3
	case materials.Modulus:
		return 1e12
	case materials.Conductivity, materials.SpecificHeat:
		return 1e4
	}
	return 1e10
}

// list returns the entries of an array of tables; single tells that one table
// in its place is accepted too.
func (r *reader) list(name, address, title string, v any, single bool) []map[string]any {
	switch v := v.(type) {
	case []map[string]any:
		return v
	case map[string]any:
		if single {
			return []map[string]any{v}
		}
	case []any:
		var list []map[string]any
		for _, one := range v {
			m, ok := one.(map[string]any)
			if !ok {
				list = nil
				break
			}
			list = append(list, m)
		}
		if list != nil || len(v) == 0 {
			return list
		}
	}
	r.fail(r.at(address, name), fmt.Sprintf("%s must be a table", title), quoteTable(name))
	return nil
}

func (r *reader) ends() {
	v, ok := r.root["end"]
	if !ok {
		return
	}
	if _, isTable := v.(map[string]any); isTable {
		r.fail(r.at("end", "end"), "[end] is one of several", "[[end]]")
		return
	}
	list := r.list("end", "end", `"end"`, v, false)
	r.design.Ends = make([]End, len(list))
	seen := map[string]bool{}
	for i, values := range list {
		address := "end#" + strconv.Itoa(i)
		e := &r.design.Ends[i]
		e.Place = r.at(address, "end")
		if i == 2 {
			r.fail(e.Place, "a motor has at most two ends", "")
		}
		title := fmt.Sprintf("[[end]] %d", i+1)
		of := title
		if name, ok := values["name"].(string); ok && clean(name) != "" {
			title = fmt.Sprintf("[[end]] %q", clean(name))
			of = strconv.Quote(clean(name))
			if lower := strings.ToLower(name); seen[lower] {
				r.fail(r.at(address+".name", "end.name"), fmt.Sprintf("%s: the name stands twice", title), "another name")
			} else {
				seen[lower] = true
			}
		}
		r.table(&table{path: "end", address: address, title: title, values: values, place: e.Place}, e, endTables)
		r.inner(e, values, address, of, "seal", &e.Seal.Place)
		r.inner(e, values, address, of, "screws", &e.Screws.Place)
		if _, ok := values["heat"]; ok {
			r.inner(e, values, address, of, "heat", &e.Heat.Place)
		}
	}
}

// inner reads [end.seal], [end.screws] or [end.heat].
func (r *reader) inner(e *End, values map[string]any, outer, of, name string, at *Place) {
	path := "end." + name
	address := outer + "." + name
	title := fmt.Sprintf("[%s] of %s", path, of)
	v, ok := values[name]
	if !ok {
		if _, outside := r.root[name]; !outside && !hasNear(values, name, append(namesOf("end"), endTables...)) {
			r.fail(Place{Key: path, Line: e.Line, Column: e.Column}, fmt.Sprintf("%s is missing", title), fmt.Sprintf("[%s]", path))
		}
		return
	}
	list := r.list(path, address, title, v, true)
	if _, isTable := v.(map[string]any); !isTable {
		address += "#0"
	}
	switch {
	case len(list) > 1:
		second := r.at(strings.TrimSuffix(address, "#0")+"#1", path)
		r.fail(second, fmt.Sprintf("%s: a second one is not yet known to casewright %s", title, Version), map[string]string{"seal": "one of them; equal grooves are counted with count", "screws": "one of them; screws are counted with count", "heat": "one of them"}[name])
	case len(list) == 0:
		if _, isList := v.([]any); isList { // else told as no table
			r.fail(r.at(strings.TrimSuffix(address, "#0"), path), title+" is empty", fmt.Sprintf("[%s]", path))
		}
		return
	}
	*at = r.at(address, path)
	r.table(&table{path: path, address: address, title: title, values: list[0], place: *at}, e, nil)
}

// materials reads [[material]].
func (r *reader) materials() {
	v, ok := r.root["material"]
	if !ok {
		return
	}
	if _, isTable := v.(map[string]any); isTable {
		r.fail(r.at("material", "material"), "[material] is one of several", "[[material]]")
		return
	}
	for i, values := range r.list("material", "material", `"material"`, v, false) {
		r.material("material#"+strconv.Itoa(i), i, values)
	}
}

func (r *reader) material(address string, i int, values map[string]any) {
	at := r.at(address, "material")
	title := fmt.Sprintf("[[material]] %d", i+1)
	if name, ok := values["name"].(string); ok {
		title = fmt.Sprintf("[[material]] %q", clean(name))
	}
	known := []string{"name", "source", "form", "at"}
	properties := map[string]materials.Property{}
	for p := range materials.NumProperties {
		properties[p.Key()] = p
		known = append(known, p.Key())
	}
	texts := map[string]string{}
	numbers := map[materials.Property]float64{}
	broken := false
	var upTo quantity.Temperature
	for _, name := range r.names(address+".", values) {
		keyAt := r.at(address+"."+name, "material."+name)
		fault := func(message, write string) {
			broken = true
			r.fail(keyAt, fmt.Sprintf("%s: %s: %s", title, clean(name), message), write)
		}
		property, isProperty := properties[name]
		text, isText := values[name].(string)
		switch {
		case isProperty || name == "at":
			kind := quantity.KindTemperature
			if isProperty {
				kind = property.Kind()
			}
			raw, ok := r.text(values[name], address+"."+name)
			if !ok {
				fault(fmt.Sprintf("needs %s, not %s", a(kind), kindOf(values[name])), "")
				continue
			}
			amount, err := quantity.Parse(kind, raw)
			if err != nil {
				fault(explain(err))
				continue
			}
			if name == "at" {
				if !within(amount, coldest, hottest) {
					fault(fmt.Sprintf("%q is out of range: it must lie from %s to %s", clean(raw), coldest, hottest), "")
					continue
				}
				upTo = quantity.Temperature(amount.SI())
				continue
			}
			if x, most := amount.SI(), mostOf(property); !(x > 0 && x <= most) {
				fault(fmt.Sprintf("%q is out of range: it must lie above 0 and at most at %s", clean(raw), strings.TrimSuffix(fmt.Sprintf("%g %s", most, kind.SI()), " 1")), "")
				continue
			}
			numbers[property] = amount.SI()
		case !slices.Contains(known, name):
			broken = true
			write := "one of " + strings.Join(known, ", ")
			if match, ok := near.Match(name, known); ok {
				write = strconv.Quote(match)
			}
			r.fail(keyAt, fmt.Sprintf("%s: %q is not a key", title, clean(name)), write)
		case !isText:
			fault("needs a text in quotes", "")
		case strings.TrimSpace(text) == "":
			fault(fmt.Sprintf("%q is empty", text), "")
		case clean(text) != text && name != "source":
			fault(fmt.Sprintf("%q is not %s", clean(text), motorName), "")
		default:
			texts[name] = text
		}
	}
	for _, name := range []string{"name", "source", "form", "yield", "ultimate"} {
		if _, ok := values[name]; !ok && !hasNear(values, name, known) {
			broken = true
			r.fail(Place{Key: "material." + name, Line: at.Line, Column: at.Column}, fmt.Sprintf("%s: %q is missing", title, name), name+" = …")
		}
	}
	for _, pair := range [][2]materials.Property{
		{materials.BearingUltimate15, materials.BearingUltimate2}, {materials.BearingYield15, materials.BearingYield2},
	} {
		_, first := values[pair[0].Key()]
		_, second := values[pair[1].Key()]
		missed := pair[0]
		if first {
			missed = pair[1]
		}
		if first != second && !hasNear(values, missed.Key(), known) {
			broken = true
			r.fail(at, fmt.Sprintf("%s: %s and %s go together", title, pair[0].Key(), pair[1].Key()), "both, or neither")
		}
	}
	for _, pair := range [][2]materials.Property{
		{materials.BearingUltimate15, materials.BearingUltimate2}, {materials.BearingYield15, materials.BearingYield2},
	} {
		near, far := pair[0], pair[1]
		if numbers[near] != 0 && numbers[far] != 0 && numbers[far] < numbers[near] {
			broken = true
			r.fail(r.at(address+"."+far.Key(), "material."+far.Key()), fmt.Sprintf("%s: %s is below %s", title, far.Key(), near.Key()), "the greater of the two as "+far.Key())
		}
	}
	if yield, ok := numbers[materials.Yield]; ok && numbers[materials.Ultimate] != 0 && yield > numbers[materials.Ultimate] {
		broken = true
		r.fail(r.at(address+".yield", "material.yield"), title+": yield is above ultimate", "the lower of the two as yield")
	}
	form, ok := materials.ParseForm(texts["form"])
	if _, given := texts["form"]; given && !ok {
		broken = true
		forms := materials.Forms()
		names := make([]string, len(forms))
		for i, f := range forms {
			names[i] = string(f)
		}
		r.fail(r.at(address+".form", "material.form"), fmt.Sprintf("%s: form: %q is not known", title, clean(texts["form"])), "one of "+strings.Join(names, ", "))
	}
	name := texts["name"]
	if _, taken := materials.Lookup(name); taken {
		broken = true
		r.fail(r.at(address+".name", "material.name"), fmt.Sprintf("%s: the name is taken by casewright's own table", title), "another name")
	}
	for _, other := range r.design.Materials {
		if name != "" && strings.EqualFold(other.Name, name) {
			broken = true
			r.fail(r.at(address+".name", "material.name"), fmt.Sprintf("%s: the name stands twice", title), "another name")
		}
	}
	if broken && name == "" {
		return
	}
	// A broken one is kept as well, so that its name is known to tube and ends.
	r.design.Materials = append(r.design.Materials, materials.New(name, texts["source"], form, upTo, numbers))
}
