package canonical

import (
	"fmt"
	"math/rand"
	"os"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"casewright"
)

// TestNeighbours writes files whose tables and keys stand in any order, each
// with a comment right above it and one at its end that name it, and holds that
// both are still its own when the file is laid out, and where each ends up.
func TestNeighbours(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var b strings.Builder
		id := 0
		mark := func(statement string) {
			id++
			blanks := rapid.SampledFrom([]string{"", " ", "\t "}).Draw(t, "blanks")
			fmt.Fprintf(&b, "%s# above %s\n%s%s%s # end %[2]s\n", blanks, statement, blanks, statement, blanks)
			b.WriteString(strings.Repeat("\n", rapid.IntRange(0, 2).Draw(t, "blank lines")))
		}
		names := map[string][]string{"unknown": {"b", "a"}}
		for _, k := range casewright.Keys() {
			names[k.Table()] = append(names[k.Table()], k.Name())
		}
		table := func(header string) {
			mark(header)
			keys := names[strings.Trim(header, "[]")]
			n := rapid.IntRange(0, min(4, len(keys))).Draw(t, "keys")
			for _, name := range rapid.Permutation(keys).Draw(t, "order")[:n] {
				mark(fmt.Sprintf("%s = %d", name, id))
			}
		}
		b.WriteString("# head\n\nformat = 1\n\n")
		for _, header := range rapid.Permutation([]string{"[motor]", "[factors]", "[tube]", "[heat]", "[unknown]", "[[end]]"}).Draw(t, "tables") {
			table(header)
			if header == "[[end]]" {
				for range rapid.IntRange(1, 2).Draw(t, "ends") {
					for _, inner := range rapid.Permutation([]string{"[end.seal]", "[end.screws]", "[end.heat]"}).Draw(t, "inner") {
						table(inner)
					}
					table("[[end]]")
				}
			}
		}
		b.WriteString("\n# foot\n")
		out, err := Text("test.toml", []byte(b.String()))
		if err != nil {
			t.Fatalf("%v:\n%s", err, b.String())
		}
		lines := strings.Split(strings.TrimSuffix(string(out), "\n"), "\n")
		if lines[0] != "# head" || lines[1] != "" || lines[len(lines)-1] != "# foot" || lines[len(lines)-2] != "" {
			t.Errorf("head or foot has moved:\n%s", out)
		}
		var roots []string
		marked := 0
		for i, line := range lines {
			statement, end, ok := strings.Cut(strings.TrimSpace(line), "# end ")
			if !ok {
				continue
			}
			statement = strings.TrimSpace(statement)
			marked++
			if end != statement || strings.TrimSpace(lines[i-1]) != "# above "+statement {
				t.Errorf("%q below %q with %q:\n%s", statement, lines[i-1], end, out)
			}
			if root := strings.Trim(statement, "[]"); strings.HasPrefix(statement, "[") && !strings.Contains(root, ".") {
				roots = append(roots, root)
			}
		}
		if marked != id {
			t.Errorf("%d statements, then %d:\n%s", id, marked, out)
		}
		if want := []string{"motor", "factors", "tube", "end", "heat", "unknown"}; !slices.Equal(slices.Compact(roots), want) {
			t.Errorf("tables %q, want %q", roots, want)
		}
	})
}

// TestShaken takes the layout out of our designs, and holds that laying out
// brings it back to the letter: the order of tables, keys and lines.
func TestShaken(t *testing.T) {
	for _, name := range []string{"basalt64", "basalt64-hot", "slate2in", "basalt64-bought-tube"} {
		text, err := os.ReadFile(root + "testdata/designs/" + name + ".toml")
		if err != nil {
			t.Fatal(err)
		}
		tables := strings.Split(strings.TrimSuffix(string(text), "\n"), "\n\n")
		rapid.Check(t, func(rt *rapid.T) {
			r := rand.New(rand.NewSource(rapid.Int64().Draw(rt, "seed")))
			// The tables of one entry stay behind its header, the entries in order.
			var list [][]string
			for _, table := range tables[1:] {
				if strings.HasPrefix(table, "  [") || strings.HasPrefix(table, "[[") && len(list) > 0 && strings.HasPrefix(last(list)[0], table[:4]) || strings.HasPrefix(table, "[[heat") {
					list[len(list)-1] = append(list[len(list)-1], table)
				} else {
					list = append(list, []string{table})
				}
			}
			r.Shuffle(len(list), func(i, j int) { list[i], list[j] = list[j], list[i] })
			out := shake(r, tables[0])
			for _, group := range list {
				for _, table := range group {
					out += strings.Repeat("\n", r.Intn(3)) + shake(r, table)
				}
			}
			if got, err := Text("test.toml", []byte(out)); err != nil || string(got) != string(text) {
				rt.Fatalf("%v:\n%s\nlaid out:\n%s", err, out, got)
			}
		})
	}
}

func last[T any](list []T) T { return list[len(list)-1] }

// shake gives a table's keys another order, and its lines other blanks.
func shake(r *rand.Rand, table string) string {
	lines := strings.Split(table, "\n")
	first := 0
	for first < len(lines) && !strings.HasPrefix(strings.TrimSpace(lines[first]), "[") {
		first++
	}
	if first < len(lines) {
		pairs := lines[first+1:]
		r.Shuffle(len(pairs), func(i, j int) { pairs[i], pairs[j] = pairs[j], pairs[i] })
	}
	var b strings.Builder
	for _, line := range lines {
		line = strings.TrimSpace(line)
		if !strings.HasPrefix(line, "#") {
			line, comment, commented := strings.Cut(line, "#")
			line = strings.TrimSpace(line)
			if r.Intn(2) == 0 {
				line = strings.Replace(line, " = ", "=", 1)
			}
			if r.Intn(2) == 0 {
				line = strings.NewReplacer(" mm\"", "mm\"", " in\"", "in\"", " °C", "degC", " ±", "+-", " +0", "+0").Replace(line)
			}
			b.WriteString(strings.Repeat(" ", r.Intn(3)) + line)
			if commented {
				b.WriteString(strings.Repeat(" ", r.Intn(3)) + "#" + comment)
			}
		} else {
			b.WriteString(strings.Repeat("\t", r.Intn(2)) + line)
		}
		b.WriteString([]string{"\n", " \n", "\r\n"}[r.Intn(3)])
	}
	return b.String()
}
