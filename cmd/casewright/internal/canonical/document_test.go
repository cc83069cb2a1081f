package canonical

import (
	"strings"
	"testing"

	"pgregory.net/rapid"

	"casewright"
)

// What a file may be made of, sound or odd.
var (
	someTables = []string{
		"motor", "tube", "end", "end.seal", "end.screws", "end.heat", "heat", "heat.layer", "heat.measured", "measured", "limits",
		"material", "screws", "ring", "x", "x.y", "x.y.z", "end.x", "end.seal.x", `"end"`, `'end' . "seal"`, `x."]"`, `"#"`, `"a.b"`, `"\u0061"`, `""`,
	}
	someKeys = []string{
		"format", "name", "pressure", "wall", "length", "outside_diameter", "temperature", "size", "count", "hardness", "groove_width", "hole", "edge",
		"film_coefficient", "thickness", "yield", "at", "Wall", "a", "b", `"tube.wall"`, `'#'`, `"="`, "a.b", `c . "d"`, "size.x", "1979-05-27", "3.14",
	}
	someValues = []string{
		`"5mm"`, `"57.0+0/-.05mm"`, `"3.20+-.15mm"`, `'5mm'`, `"120degC"`, `"1 1/2±1/64in"`, `"?"`, `"5,5mm"`, `"a # b"`, `'a # "b"'`, `'c:\d'`, `"\"#"`, `""`, `''`,
		`"pipe flow"`, `"800W/m2K"`, `"4.50MPa"`, "true", "8", "0x1F", "1_000", "1.50", "1e3", "nan", "-inf", "1979-05-27 07:32:00", "07:32:00", "1979-05-27T00:32:00.5-07:00",
		"[1,2 ,3]", "[ # one\n  1, # two\n\n  'a#' , \t\n]", "{ a=1, b.c = '#' }", "[{a=1},{a=2}]", "{ a = [ # c\n 1 ] }", "[[],[1]]",
		"\"\"\"\n# none\n\n\"\"\"", "'''\n[tube]\n'''", `"""a"""`, "'''''a#'''''", "\"\"\"a \\\n  b \t\n\"\"\"", "[\"\"\"x \n#y\"\"\", # c \n]",
	}
	someComments = []string{"#", "# one", "#two # three", `# "x`, "# wall = '3 mm'", "# [tube]", "#\t'''", "# ü ± 𝛑"}
)

// aDocument draws a text of tables, keys, comments and blank lines in any order.
// Not all are TOML: names may stand twice.
func aDocument() *rapid.Generator[string] {
	return rapid.Custom(func(t *rapid.T) string {
		var b strings.Builder
		pick := func(list []string) string { return rapid.SampledFrom(list).Draw(t, "one") }
		blank := func() string { return pick([]string{"", "", " ", "  ", "\t"}) }
		end := pick([]string{"\n", "\n", "\r\n"})
		rest := func() {
			b.WriteString(blank())
			if rapid.IntRange(0, 2).Draw(t, "comment") == 0 {
				b.WriteString(pick(someComments) + blank())
			}
			b.WriteString(end)
		}
		if rapid.IntRange(0, 9).Draw(t, "mark") == 0 {
			b.WriteString("\uFEFF")
		}
		used := map[string]bool{}
		for range rapid.IntRange(0, 25).Draw(t, "lines") {
			b.WriteString(blank())
			switch rapid.IntRange(0, 8).Draw(t, "kind") {
			case 0:
				b.WriteString(end)
			case 1, 2:
				b.WriteString(pick(someComments) + blank() + end)
			case 3, 4:
				name := pick(someTables)
				switch {
				case name == "end" || name == "material" || name == "heat.layer" || name == "ring" || name == "x.y" && !used[name]:
					b.WriteString("[[" + blank() + name + blank() + "]]")
					for other := range used {
						if strings.HasPrefix(other, name+".") {
							delete(used, other)
						}
					}
				case used[name]:
					continue
				default:
					b.WriteString("[" + blank() + name + blank() + "]")
					used[name] = true
				}
				for _, key := range someKeys {
					delete(used, "="+key)
				}
				rest()
			default:
				key := pick(someKeys)
				if used["="+key] {
					continue
				}
				used["="+key] = true
				b.WriteString(key + blank() + "=" + blank() + strings.ReplaceAll(pick(someValues), "\n", end))
				rest()
			}
		}
		text := b.String()
		if rapid.Bool().Draw(t, "cut") {
			text = strings.TrimRight(text, "\r\n")
		}
		return text
	})
}

// TestDocuments holds the properties over documents of all that TOML has.
func TestDocuments(t *testing.T) {
	drawn, sound := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		text := []byte(aDocument().Draw(t, "text"))
		drawn++
		if _, _, fault := casewright.Decode("", text); fault == nil {
			sound++
		}
		hold(t, text)
	})
	t.Logf("%d documents, %d of them TOML", drawn, sound)
	if drawn > 50 && sound < drawn/5 {
		t.Errorf("of %d documents only %d are TOML", drawn, sound)
	}
}

// FuzzDocument draws such documents as the fuzzer steers.
func FuzzDocument(f *testing.F) {
	f.Fuzz(rapid.MakeFuzz(func(t *rapid.T) { hold(t, []byte(aDocument().Draw(t, "text"))) }))
}
