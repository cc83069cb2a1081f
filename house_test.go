package casewright_test

import (
	"go/ast"
	"go/doc"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"os/exec"
	"path"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// mayImport is the house: each room, and the rooms of this module that it may
// import. A room stands below those it imports; the order is that of the list.
var mayImport = []struct {
	room  string
	rooms []string
}{
	{"quantity/near", nil},
	{"quantity/rows", nil},
	{"quantity/where", nil},
	{"quantity", []string{"quantity/near"}},
	{"margin/formula", nil},
	{"margin/reference", []string{"quantity", "quantity/near"}},
	{"margin", []string{"quantity"}},
	{"materials", []string{"quantity", "margin"}},
	{"casing", []string{"quantity", "quantity/rows", "margin", "materials"}},
	{"casing/heat", []string{"quantity"}},
	{"fastener", []string{"quantity", "quantity/rows", "margin", "materials", "casing"}},
	{"seal", []string{"quantity", "quantity/rows", "margin", "materials", "casing", "fastener"}},
	{"closure", []string{"quantity", "quantity/rows", "margin", "materials", "casing", "fastener", "seal"}},
	{".", []string{"quantity", "quantity/near", "quantity/where", "margin", "materials", "casing", "casing/heat", "fastener", "seal", "closure"}},
	{"sizing", []string{".", "casing/heat", "quantity", "quantity/rows", "margin", "materials", "casing", "fastener", "seal", "closure"}},
	{"revision", []string{".", "quantity", "margin", "materials"}},
	{"bench", []string{".", "sizing", "quantity", "margin", "materials", "casing", "fastener", "seal", "closure"}},
	{"verification", []string{
		".", "sizing", "margin", "margin/formula", "margin/reference", "quantity", "quantity/near", "materials", "casing", "casing/heat", "fastener", "seal", "closure", "testdata",
	}},
	{"verification/held", []string{"margin", "verification"}},
	{"working", []string{".", "sizing", "margin", "margin/formula", "quantity", "materials", "seal"}},
	{"cmd/casewright/internal/jsonout", []string{
		".", "casing/heat", "bench", "revision", "sizing", "verification", "working", "margin", "margin/formula", "quantity", "quantity/where", "materials", "fastener", "seal",
	}},
	{"cmd/casewright/internal/schema", []string{".", "casing/heat", "quantity", "materials", "fastener", "seal", "closure"}},
	{"cmd/casewright/internal/chart", nil},
	{"cmd/casewright/internal/lettering", nil},
	{"cmd/casewright/internal/table", []string{
		".", "casing/heat", "bench", "revision", "sizing", "verification", "working", "margin", "margin/formula", "quantity", "materials", "casing", "fastener", "seal",
		"cmd/casewright/internal/chart", "cmd/casewright/internal/lettering",
	}},
	{"cmd/casewright/internal/drawing", []string{
		".", "bench", "margin", "quantity", "casing", "fastener",
		"cmd/casewright/internal/chart", "cmd/casewright/internal/lettering", "cmd/casewright/internal/table",
	}},
	{"cmd/casewright/internal/findings", []string{".", "margin", "revision", "cmd/casewright/internal/table"}},
	{"cmd/casewright/internal/editor", []string{"cmd/casewright/internal/findings"}},
	{"cmd/casewright/internal/junit", []string{".", "cmd/casewright/internal/findings", "cmd/casewright/internal/table"}},
	{"cmd/casewright/internal/document", []string{"cmd/casewright/internal/drawing", "cmd/casewright/internal/page", "cmd/casewright/internal/table"}},
	{"cmd/casewright/internal/pdf", []string{"cmd/casewright/internal/document", "cmd/casewright/internal/drawing", "cmd/casewright/internal/lettering"}},
	{"cmd/casewright/internal/canonical", []string{".", "quantity", "quantity/where", "materials"}},
	{"cmd/casewright/internal/page", []string{".", "margin/formula", "cmd/casewright/internal/table"}},
	{"cmd/casewright/internal/sarif", []string{
		".", "margin", "cmd/casewright/internal/findings", "cmd/casewright/internal/page", "cmd/casewright/internal/table",
	}},
	{"cmd/casewright/internal/summary", []string{
		"margin", "cmd/casewright/internal/document", "cmd/casewright/internal/findings", "cmd/casewright/internal/table",
	}},
	{"cmd/casewright/internal/live", []string{"."}},
	{"cmd/casewright/internal/shell", nil},
	{"cmd/casewright", []string{
		".", "casing/heat", "bench", "cmd/casewright/internal/drawing", "cmd/casewright/internal/document", "cmd/casewright/internal/pdf", "revision", "sizing", "verification", "working", "margin", "margin/reference", "quantity", "quantity/near", "materials", "fastener", "seal",
		"cmd/casewright/internal/chart", "cmd/casewright/internal/jsonout", "cmd/casewright/internal/table", "cmd/casewright/internal/page",
		"cmd/casewright/internal/editor", "cmd/casewright/internal/findings", "cmd/casewright/internal/junit", "cmd/casewright/internal/sarif", "cmd/casewright/internal/summary",
		"cmd/casewright/internal/schema",
		"cmd/casewright/internal/live", "cmd/casewright/internal/shell", "cmd/casewright/internal/canonical",
	}},
}

// TestArrows holds that imports go one way and that no room is left out.
func TestArrows(t *testing.T) {
	seen := map[string]bool{}
	walkGo(t, func(file string) {
		if strings.HasSuffix(file, "_test.go") {
			return
		}
		room := filepath.ToSlash(filepath.Dir(file))
		seen[room] = true
		i := slices.IndexFunc(mayImport, func(r struct {
			room  string
			rooms []string
		},
		) bool {
			return r.room == room
		})
		if i < 0 {
			t.Errorf("%s is no room of the house", room)
			return
		}
		f, err := parser.ParseFile(token.NewFileSet(), file, nil, parser.ImportsOnly)
		if err != nil {
			t.Fatal(err)
		}
		for _, spec := range f.Imports {
			name, err := strconv.Unquote(spec.Path.Value)
			if err != nil {
				t.Fatal(err)
			}
			if name != "casewright" && !strings.HasPrefix(name, "casewright/") {
				continue
			}
			other := path.Clean("." + strings.TrimPrefix(name, "casewright"))
			if strings.HasPrefix(other, "testdata/") {
				other = "testdata"
			}
			if !slices.Contains(mayImport[i].rooms, other) {
				t.Errorf("%s: %s may not import %s", file, room, other)
			}
		}
	})
	for _, r := range mayImport {
		if !seen[r.room] {
			t.Errorf("there is no room %s", r.room)
		}
	}
}

// TestRoot holds what may stand at the top level.
func TestRoot(t *testing.T) {
	files, err := filepath.Glob("*")
	if err != nil {
		t.Fatal(err)
	}
	allowed := []string{
		"go.mod", "go.sum", "README.md", "DEVELOPERS.md", "SAFETY.md", "testdata", "cmd",
		"quantity", "margin", "materials", "casing", "fastener", "seal", "closure", "sizing", "bench", "revision", "verification", "working",
	}
	sources := 0
	for _, f := range files {
		switch {
		case strings.HasPrefix(f, "."), strings.HasSuffix(f, "_test.go"):
		case strings.HasSuffix(f, ".go"):
			sources++
		case !slices.Contains(allowed, f):
			t.Errorf("%s stands at the top level", f)
		}
	}
	if sources == 0 || sources > 6 {
		t.Errorf("the root package has %d files, not 1 to 6", sources)
	}
}

func walkGo(t *testing.T, visit func(file string)) {
	t.Helper()
	err := filepath.WalkDir(".", func(file string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if d.IsDir() && (d.Name() == "testdata" || strings.HasPrefix(d.Name(), ".") && file != ".") {
			return filepath.SkipDir
		}
		if strings.HasSuffix(file, ".go") {
			visit(file)
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
}

var (
	hasUnit  = regexp.MustCompile(`\b(m|mm|m²|Pa|N|K|rad|psi|unit 1|°C|Shore A|1/K|in SI)\b|m²|°C`)
	sourceOf = regexp.MustCompile(`(?i)\bsources?[:,]`)
)

// TestDocs reads the comments of everything exported: each is there and is a
// sentence. Those of the formula packages give units and the source.
func TestDocs(t *testing.T) {
	formulas, checked := []string{"casing", "fastener", "seal", "closure"}, 0
	for _, r := range mayImport {
		set := token.NewFileSet()
		var files []*ast.File
		names, err := filepath.Glob(filepath.Join(r.room, "*.go"))
		if err != nil {
			t.Fatal(err)
		}
		for _, name := range names {
			f, err := parser.ParseFile(set, name, nil, parser.ParseComments)
			if err != nil {
				t.Fatal(err)
			}
			if !strings.HasSuffix(name, "_test.go") {
				files = append(files, f)
			}
		}
		p, err := doc.NewFromFiles(set, files, "casewright/"+r.room)
		if err != nil {
			t.Fatal(err)
		}
		if p.Doc == "" {
			t.Errorf("%s has no package comment", r.room)
		}
		if strings.HasPrefix(r.room, "cmd/casewright") && r.room == "cmd/casewright" {
			continue
		}
		check := func(kind, name, text string, numeric bool) {
			if strings.TrimSpace(text) == "" {
				t.Errorf("%s: %s %s has no comment", r.room, kind, name)
				return
			}
			if !slices.Contains(formulas, r.room) || !numeric {
				return
			}
			checked++
			if !hasUnit.MatchString(text) {
				t.Errorf("%s: the comment of %s gives no unit", r.room, name)
			}
			if !sourceOf.MatchString(text) {
				t.Errorf("%s: the comment of %s gives no source", r.room, name)
			}
		}
		for _, f := range p.Funcs {
			check("func", f.Name, f.Doc, isNumeric(f.Decl))
		}
		for _, v := range append(p.Vars, p.Consts...) {
			for _, name := range v.Names {
				if ast.IsExported(name) && len(v.Names) == 1 {
					check("var", name, v.Doc, true)
				}
			}
		}
		for _, typ := range p.Types {
			check("type", typ.Name, typ.Doc, false)
			for _, f := range append(typ.Funcs, typ.Methods...) {
				check("func", typ.Name+"."+f.Name, f.Doc, isNumeric(f.Decl))
			}
		}
	}
	if checked < 40 {
		t.Errorf("only %d comments of formulas were read", checked)
	}
}

// isNumeric tells whether a function gives a number: one of package quantity
// or a float64.
func isNumeric(f *ast.FuncDecl) bool {
	if f.Type.Results == nil {
		return false
	}
	switch r := f.Type.Results.List[0].Type.(type) {
	case *ast.Ident:
		return r.Name == "float64"
	case *ast.SelectorExpr:
		pkg, ok := r.X.(*ast.Ident)
		return ok && pkg.Name == "quantity" && r.Sel.Name != "Dimension"
	}
	return false
}

// TestDocsTell holds that the reader of comments notices what is missing.
func TestDocsTell(t *testing.T) {
	bad := "Foo returns something.\n\n\tx = y\n"
	if hasUnit.MatchString(bad) || sourceOf.MatchString(bad) {
		t.Error("a comment without unit and source is taken as whole")
	}
}

// TestOtherModule uses the library from another module, as the README tells:
// one hoop stress without a design file, and a whole motor without the command.
func TestOtherModule(t *testing.T) {
	here, err := filepath.Abs(".")
	if err != nil {
		t.Fatal(err)
	}
	dir := t.TempDir()
	write := func(name, text string) {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	sum, err := os.ReadFile("go.sum")
	if err != nil {
		t.Fatal(err)
	}
	mod, err := os.ReadFile("go.mod")
	if err != nil {
		t.Fatal(err)
	}
	_, requires, _ := strings.Cut(string(mod), "require")
	write("go.sum", string(sum))
	write("go.mod", "module example.com/bench\n\ngo 1.26\n\nrequire casewright v0.0.0\n\nreplace casewright => "+here+"\n\nrequire"+requires)
	write("main.go", `package main

import (
	"fmt"

	"casewright"
	"casewright/casing"
	"casewright/quantity"
)

func main() {
	hoop := casing.BoreHoop(4.5*quantity.Megapascal, 31.75/28.55)
	fmt.Printf("%.1f MPa\n", float64(hoop/quantity.Megapascal))
	design, err := casewright.Read("example", []byte(casewright.Example))
	if err != nil {
		panic(err)
	}
	fmt.Println(casewright.Check(design).Verdict)
}
`)
	build := exec.Command("go", "run", "-mod=mod", ".")
	build.Dir = dir
	build.Env = append(os.Environ(), "GOFLAGS=", "GOWORK=off")
	out, err := build.CombinedOutput()
	if err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	// 4.5 (k² + 1)/(k² − 1) at k = 31.75/28.55 is 42.518 (Lamé, by hand).
	if want := "42.5 MPa\npass\n"; string(out) != want {
		t.Errorf("got %q, want %q", out, want)
	}
}
