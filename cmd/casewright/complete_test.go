package main

import (
	"io"
	"os"
	"slices"
	"strings"
	"testing"

	"github.com/alecthomas/kong"

	"casewright"
	"casewright/fastener"
	"casewright/materials"
	"casewright/seal"
)

// offered are the words that fish is offered; the last word is under the
// cursor.
func offered(t *testing.T, words ...string) []string {
	t.Helper()
	code, out, errs := casewrightRun("", append([]string{"complete", "--shell", "fish", "--", "casewright"}, words...)...)
	if code != exitPass || errs != "" {
		t.Errorf("complete %q: exit status %d, %q", words, code, errs)
	}
	var list []string
	for line := range strings.Lines(out) {
		word, _, _ := strings.Cut(strings.TrimSuffix(line, "\n"), "\t")
		list = append(list, word)
	}
	return list
}

// model is the grammar as the parser has it.
func model(t *testing.T) *kong.Application {
	t.Helper()
	parser, err := kong.New(newCLI(), kong.ExplicitGroups(groups), kong.Vars{"version": "x"})
	if err != nil {
		t.Fatal(err)
	}
	return parser.Model
}

// TestCompleteGrammar holds that every command and every flag is offered with
// its help, and every value of a flag that has few.
func TestCompleteGrammar(t *testing.T) {
	app := model(t)
	commands := offered(t, "")
	for _, n := range app.Leaves(true) {
		if !slices.Contains(commands, n.Name) {
			t.Errorf("%s is not offered", n.Name)
		}
		flags := offered(t, n.Name, "--")
		for _, f := range slices.Concat(n.AllFlags(true)...) {
			if !slices.Contains(flags, "--"+f.Name) {
				t.Errorf("%s --%s is not offered", n.Name, f.Name)
			}
			if f.Enum == "" {
				continue
			}
			if got := offered(t, n.Name, "--"+f.Name, ""); !slices.Equal(got, f.EnumSlice()) {
				t.Errorf("%s --%s: %q, not %q", n.Name, f.Name, got, f.EnumSlice())
			}
			for i, got := range offered(t, n.Name, "--"+f.Name+"=") {
				if want := "--" + f.Name + "=" + f.EnumSlice()[i]; got != want {
					t.Errorf("%s: %s, not %s", n.Name, got, want)
				}
			}
		}
	}
	if slices.Contains(commands, "complete") {
		t.Error("the command for shells is offered to people")
	}
}

// TestComplete holds what is offered where names are taken.
func TestComplete(t *testing.T) {
	inDesigns(t)
	var ids []string
	for _, m := range casewright.Methods() {
		ids = append(ids, m.ID)
	}
	for _, c := range []struct {
		line string
		want []string
	}{
		{"chec", []string{"check", "checklist"}},
		{"help scr", []string{"screws"}},
		{"methods|", ids},
		{"verify --method|", ids},
		{"edge --thread|", fastener.ThreadNames()},
		{"edge --thread|#10-", []string{"#10-24 UNC", "#10-32 UNF"}},
		{"new a.toml --class|", fastener.ClassNames()},
		{"groove --size|", seal.RingNames()},
		{"groove --compound|", seal.CompoundNames()},
		{"new a.toml --washer|", materials.WasherNames()},
		{"wall --material|", materials.Names()},
		{"wall --material|\"6061-T6 d", []string{"6061-T6 drawn tube"}},
		{"edge --threads-in-shear|", []string{"true", "false"}},
		{"edge --head|", []string{"cap", "button", "countersunk"}},
		{"wall --pressure|", nil}, // a number is nobody's guess
		{"materials|fluoro", []string{"fluorocarbon"}},
		{"materials|12.", []string{"12.9"}},
		{"materials 6061-T6 dr", []string{"drawn tube"}},
		{"screws --file basalt64.toml --end|", []string{"bulkhead", "nozzle"}},
		{"screws --end|", nil},
		{"jig basalt64.toml noz", []string{"nozzle"}},
		{"explain basalt64.toml bulkhead/hole.ed", []string{"bulkhead/hole.edge"}},
		{"explain basalt64.toml tube nozz", func() []string {
			return append([]string{"nozzle"}, offered(t, "explain", "basalt64.toml", "nozzle/")...)
		}()},
		{"explain nowhere.toml|", nil},
		{"check|", []string{":files .toml"}},
		{"check --all a.toml|", []string{":files .toml"}},
		{"check --|", []string{":files .toml"}},
		{"wall --file|", []string{":files .toml"}},
		{"wall --file=", []string{":files .toml"}},
		{"size a.toml --stock|", []string{":files .toml"}},
		{"size a.toml --out|", []string{":files *"}},
		{"check a.toml --baseline|", []string{":files *"}},
		{"draw a.toml -o|", []string{":files *"}},
		{"verify|", []string{":files .csv"}},
		{"check --format json --form", nil}, // not twice
		{"chekc|", nil},
		{"check --bogus|", nil},
		{"check --format jsn|", nil},
		{"methods hole.edge --fo", []string{"--format"}},
		{"completion|", []string{"bash", "zsh", "fish"}},
	} {
		words := strings.Fields(strings.ReplaceAll(c.line, "|", " "))
		if before, after, ok := strings.Cut(c.line, "|"); ok {
			words = append(strings.Fields(before), after)
		}
		if got := offered(t, words...); !slices.Equal(got, c.want) {
			t.Errorf("%s: %.300q, not %.300q", c.line, got, c.want)
		}
	}
}

// TestCompleteKeys holds that every name that a key may have is read where a
// flag gives it: what is offered is also taken.
func TestCompleteKeys(t *testing.T) {
	for _, k := range casewright.Keys() {
		if !strings.HasPrefix(k.Path, "end.") && !strings.HasPrefix(k.Path, "tube.") {
			continue
		}
		for _, name := range k.Choices(nil) {
			settings := []casewright.Setting{{Key: k.Path, Text: name, Name: k.Name()}}
			if name == "countersunk" { // asks for its depth
				settings = append(settings, casewright.Setting{Key: "end.screws.head_depth", Text: "1.5 mm", Name: "head_depth"})
			}
			if _, err := casewright.Assemble(nil, 1, settings); err != nil {
				t.Errorf("%s = %q: %v", k.Path, name, err)
			}
		}
	}
}

// TestCompleteMaterials holds that materials knows every name that is offered
// to it.
func TestCompleteMaterials(t *testing.T) {
	names := offered(t, "materials", "")
	for _, name := range names {
		if code, out, errs := casewrightRun("", "materials", name); code != exitPass || out == "" {
			t.Errorf("materials %q: exit status %d, %q", name, code, errs)
		}
	}
	if len(names) < 40 {
		t.Errorf("only %d names", len(names))
	}
}

// TestCompleteOwn holds that a design file's own materials are offered with it,
// from a folder named from home too.
func TestCompleteOwn(t *testing.T) {
	t.Setenv("HOME", t.TempDir())
	design := casewright.Example + "\n[[material]]\nname = \"mine #7 (bar)\"\nsource = \"invented\"\nform = \"bar\"\nyield = \"240 MPa\"\nultimate = \"260 MPa\"\n"
	if err := os.WriteFile(os.Getenv("HOME")+"/own.toml", []byte(design), 0o666); err != nil {
		t.Fatal(err)
	}
	for _, file := range []string{"~/own.toml", os.Getenv("HOME") + "/own.toml"} {
		if got := offered(t, "wall", "--file", file, "--material", "mine"); !slices.Equal(got, []string{"mine #7 (bar)"}) {
			t.Errorf("%s: %q", file, got)
		}
	}
	_, out, _ := casewrightRun("", "complete", "--shell", "bash", "--breaks", " \"'=", "--", "casewright wall --file ~/own.toml --material=mi")
	if want := `mine\ \#7\ \(bar\)` + "\n"; out != want {
		t.Errorf("bash: %q, not %q", out, want)
	}
}

// FuzzUnderstand holds that no command line upsets its reader, and that what
// it calls wrong is no whole command line to the parser.
func FuzzUnderstand(f *testing.F) {
	for _, line := range []string{"check --all a.toml", "draw -oa.svg a.toml", "edge --thread\x00M5", "check -- --all", "--help", "jig -o - x -", "-\x800"} {
		f.Add(line)
	}
	parser, err := kong.New(newCLI(), kong.ExplicitGroups(groups), kong.Vars{"version": "x"}, kong.Exit(func(int) { panic(exit(0)) }), kong.Writers(io.Discard, io.Discard))
	if err != nil {
		f.Fatal(err)
	}
	f.Fuzz(func(t *testing.T, text string) {
		words := strings.Fields(text)
		l := understand(parser.Model, words)
		if l.fault == "" || strings.Contains(l.fault, "is given twice") {
			return
		}
		defer func() {
			if fault := recover(); fault != nil {
				if _, helped := fault.(exit); !helped {
					panic(fault)
				}
			}
		}()
		if _, err := parser.Parse(words); err == nil {
			t.Errorf("%q is taken by the parser, but: %s", words, l.fault)
		}
	})
}
