package main

import (
	"os"
	"path/filepath"
	"slices"
	"strings"

	"github.com/alecthomas/kong"

	"casewright"
	"casewright/cmd/casewright/internal/shell"
	"casewright/fastener"
	"casewright/materials"
	"casewright/seal"
)

// completeCmd is what the scripts of completion ask. The program answers, and
// not a list in the script, since the names stand in its tables and in the
// design file on the line; it takes some milliseconds.
type completeCmd struct {
	Shell  string   `help:"Whose quotes to use." enum:"bash,zsh,fish" default:"bash"`
	Breaks string   `help:"Where bash begins a word anew: COMP_WORDBREAKS."`
	List   int      `help:"Columns of a list with help, of bash; 0 for none."`
	Words  []string `arg:"" optional:"" help:"The words before the cursor, that under it last; of bash the whole line as one word."`
}

// Help is seen by none but whoever asks for it.
func (completeCmd) Help() string {
	return `Examples:
  casewright complete --shell fish -- casewright ch
  casewright complete --shell bash -- "casewright materials 6061"`
}

// Run writes what may stand under the cursor, a line each. Whatever is wrong
// is passed over: a shell is waiting.
func (c *completeCmd) Run(io *streams, ctx *kong.Context) error {
	words, typed := c.Words, shell.Word{}
	if c.Shell == "bash" {
		words, typed = shell.Bash(strings.Join(c.Words, " "), c.Breaks)
	}
	if len(words) < 2 {
		return nil
	}
	last := len(words) - 1
	if c.Shell == "fish" { // which leaves the quotes round the last
		words[last] = shell.Unquoted(words[last])
	}
	l := understand(ctx.Model, words[1:last])
	if l.lost {
		return nil
	}
	o := offering{line: l, io: io}.at(words[last])
	var err error
	switch {
	case o.files != "":
		_, err = io.out.WriteString(":files " + o.files + "\n")
	case c.Shell == "bash":
		err = typed.Write(io.out, o.full(), c.List)
	case c.Shell == "zsh":
		err = shell.Zsh(io.out, o.list)
	default:
		err = shell.Fish(io.out, o.full(), words[last])
	}
	return err
}

// An offer is what may stand under the cursor.
type offer struct {
	before string // what stands before a value in the same word, as "--format="
	list   []shell.Candidate
	files  string // the end of the files' names, "*" for any; empty for none
}

// full are the candidates as whole words.
func (o *offer) full() []shell.Candidate {
	list := slices.Clone(o.list)
	for i := range list {
		list[i].Text = o.before + list[i].Text
	}
	return list
}

// offering finds what to offer.
type offering struct {
	*line
	io *streams
}

func (o offering) at(word string) *offer {
	name, value, given := strings.Cut(word, "=")
	switch {
	case o.open != nil:
		return o.of(o.open.Value, word)
	case !o.plain && given && strings.HasPrefix(word, "--"):
		for _, f := range o.flags() {
			if name == "--"+f.Name {
				found := o.of(f.Value, value)
				found.before = name + "="
				return found
			}
		}
		return &offer{}
	case !o.plain && strings.HasPrefix(word, "-"):
		return o.ofFlags()
	case len(o.node.Children) > 0:
		return &offer{list: commands(o.node)}
	}
	if v := o.positional(); v != nil {
		return o.of(v, word)
	}
	return o.ofFlags()
}

func (o offering) ofFlags() *offer {
	found := &offer{}
	for _, f := range o.flags() {
		if _, given := o.values[f]; !given && !f.Hidden {
			found.list = append(found.list, shell.Candidate{Text: "--" + f.Name, Help: f.Help})
		}
	}
	return found
}

func commands(n *kong.Node) (list []shell.Candidate) {
	for _, c := range n.Children {
		if !c.Hidden {
			list = append(list, shell.Candidate{Text: c.Name, Help: c.Help})
		}
	}
	return list
}

// of is what a flag's value or an argument may be. The tag complete tells it;
// else what it is called, and an argument of any other name is a design file.
func (o offering) of(v *kong.Value, word string) *offer {
	if v.Enum != "" {
		return choice("", v.EnumSlice())
	}
	if v.Flag != nil && isSwitch(v.Flag) {
		return choice("", []string{"true", "false"})
	}
	if k := keyOf(v.Flag); k != nil {
		return choice("", spelt(word, k.Choices(o.design())))
	}
	kind := v.Tag.Get("complete")
	if kind == "" {
		kind = v.Name
	}
	switch kind {
	case "command":
		return &offer{list: commands(root(o.node))}
	case "id", "method":
		found := &offer{}
		for _, m := range casewright.Methods() {
			found.list = append(found.list, shell.Candidate{Text: m.ID, Help: m.Title})
		}
		return found
	case "name":
		return o.entries()
	case "end":
		return o.ends()
	case "check":
		return o.checks()
	case "output", "out", "baseline":
		return &offer{files: "*"}
	case "csv":
		return &offer{files: ".csv"}
	}
	if v.Flag == nil || v.Flag.PlaceHolder == "FILE" {
		return &offer{files: ".toml"}
	}
	return &offer{}
}

func choice(help string, names []string) *offer {
	found := &offer{}
	for _, n := range names {
		found.list = append(found.list, shell.Candidate{Text: n, Help: help})
	}
	return found
}

// spelt are the names as one who has begun so writes them: screws by number
// with their sign, as "#10-24 UNC".
func spelt(word string, names []string) []string {
	if !strings.HasPrefix(word, "#") {
		return names
	}
	var list []string
	for _, n := range names {
		if _, ok := fastener.LookupThread("#" + n); ok {
			list = append(list, "#"+n)
		}
	}
	return list
}

func root(n *kong.Node) *kong.Node {
	for n.Parent != nil {
		n = n.Parent
	}
	return n
}

// keyOf is the key that a flag sets; nil where it sets none.
func keyOf(f *kong.Flag) *casewright.Key {
	if f == nil || f.Group == nil {
		return nil
	}
	for _, k := range casewright.Keys() {
		if f.Group.Key == "["+k.Table()+"]" && f.Name == flagName(k) {
			return k
		}
	}
	return nil
}

// design is the design file on the line; nil where there is none that can be
// read.
func (o offering) design() *casewright.Design {
	file := ""
	for f, value := range o.values {
		if f.Name == "file" {
			file = value
		}
	}
	for i, v := range o.node.Positional {
		if v.Name == "file" && !v.IsCumulative() && i < len(o.args) {
			file = o.args[i]
		}
	}
	if rest, ok := strings.CutPrefix(file, "~/"); ok { // bash and zsh leave it to the program that is run
		if home, err := os.UserHomeDir(); err == nil {
			file = filepath.Join(home, rest)
		}
	}
	if file == "" || file == "-" {
		return nil
	}
	d, err := readDesign(file, o.io)
	if err != nil {
		return nil
	}
	return d
}

// entries are all names that materials knows; the words before the cursor may
// be the first part of one.
func (o offering) entries() *offer {
	first := ""
	for _, word := range o.args {
		first += word + " "
	}
	found := &offer{}
	for _, e := range entries() {
		if len(first) <= len(e.Text) && strings.EqualFold(e.Text[:len(first)], first) {
			e.Text = e.Text[len(first):]
			found.list = append(found.list, e)
		}
	}
	return found
}

// entries are the names of all that materials shows.
func entries() []shell.Candidate {
	compounds := choice("O-ring compound", seal.CompoundNames())
	for _, c := range seal.Compounds() {
		compounds.list = append(compounds.list, shell.Candidate{Text: c.Common, Help: "O-ring compound"})
	}
	return slices.Concat(
		choice("metal", materials.Names()).list, compounds.list, choice("screw class", fastener.ClassNames()).list,
		choice("liner", materials.LayerNames()).list, choice("washer", materials.WasherNames()).list,
	)
}

func (o offering) ends() *offer {
	found := &offer{}
	if d := o.design(); d != nil {
		for _, e := range d.Ends {
			found.list = append(found.list, shell.Candidate{Text: e.Name.Value, Help: e.Kind.Value})
		}
	}
	return found
}

// checks are the parts of a design, its checks, and those by id alone.
func (o offering) checks() *offer {
	d := o.design()
	if d == nil {
		return &offer{}
	}
	var parts, whole, ids []shell.Candidate
	add := func(list *[]shell.Candidate, text, help string) {
		c := shell.Candidate{Text: text, Help: help}
		if !slices.Contains(*list, c) && !slices.Contains(o.args[1:], text) {
			*list = append(*list, c)
		}
	}
	r := casewright.Check(d)
	for i := range r.Results {
		one := &r.Results[i]
		add(&parts, one.Part, "all of it")
		add(&whole, one.ID(), one.Method.Title)
		add(&ids, one.Method.ID, one.Method.Title)
	}
	return &offer{list: slices.Concat(parts, whole, ids)}
}
