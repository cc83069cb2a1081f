package main

import (
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"

	"github.com/alecthomas/kong"

	"casewright/quantity/near"
)

// A line is a command line as far as it has been understood: what a shell
// completes, and where a wrong word is told before the parser meets it.
type line struct {
	node   *kong.Node // the command, or the program where none is named yet
	values map[*kong.Flag]string
	args   []string   // of the command
	open   *kong.Flag // a flag whose value comes next
	plain  bool       // behind --: no more flags
	lost   bool       // not understood from here on
	fault  string     // what is wrong, and what to write instead
}

// understand reads the words behind the program's name until one is wrong.
func understand(app *kong.Application, words []string) *line {
	l := &line{node: app.Node, values: map[*kong.Flag]string{}}
	for _, word := range words {
		if l.take(word); l.lost {
			break
		}
	}
	return l
}

func (l *line) take(word string) {
	switch isFlag := len(word) > 1 && word[0] == '-' && !l.plain; {
	case l.open != nil:
		flag := l.open
		if l.open = nil; isFlag {
			l.lost = true // the parser tells how to write such a value
			return
		}
		l.set(flag, word)
	case !isFlag:
		l.argument(word)
	case word == "--":
		l.plain = true
	case strings.HasPrefix(word, "--"):
		name, value, given := strings.Cut(word, "=")
		l.flag(name, value, given)
	default:
		for rest := word[1:]; rest != ""; {
			_, size := utf8.DecodeRuneInString(rest)
			letter := rest[:size]
			rest = rest[size:]
			flag := l.flag("-"+letter, rest, rest != "")
			if l.lost || !isSwitch(flag) {
				return
			}
		}
	}
}

// isSwitch tells that a flag takes no value.
func isSwitch(f *kong.Flag) bool { return f.IsBool() || f.IsCounter() }

// spellings are the ways to write a flag, the usual one first.
func spellings(f *kong.Flag) []string {
	list := []string{"--" + f.Name}
	for _, alias := range f.Aliases {
		list = append(list, "--"+alias)
	}
	if f.Short != 0 {
		list = append(list, "-"+string(f.Short))
	}
	switch negated := f.Tag.Negatable; negated {
	case "":
	case "_":
		list = append(list, "--no-"+f.Name)
	default:
		list = append(list, "--"+negated)
	}
	return list
}

// flags are those that may stand on the line, hidden ones too.
func (l *line) flags() []*kong.Flag { return slices.Concat(l.node.AllFlags(false)...) }

func (l *line) flag(name, value string, given bool) *kong.Flag {
	var known []string
	for _, f := range l.flags() {
		if slices.Contains(spellings(f), name) {
			switch {
			case isSwitch(f):
				l.set(f, value)
			case given:
				l.set(f, value)
			default:
				l.open = f
			}
			return f
		}
		if !f.Hidden {
			known = append(known, "--"+f.Name)
		}
	}
	write := likely(name, known)
	if write == "" {
		write = "see " + l.node.FullPath() + " --help"
	}
	l.wrong("%s has no flag %s; %s", l.name(), strings.Trim(fmt.Sprintf("%.60q", name), `"`), write)
	return nil
}

// set notes the value of a flag. Twice is an error: the parser would silently
// take the last.
func (l *line) set(f *kong.Flag, value string) {
	if _, twice := l.values[f]; twice && !f.IsCumulative() && !f.IsCounter() {
		l.wrong("--%s is given twice; give it once", f.Name)
		return
	}
	l.values[f] = value
	l.among("--"+f.Name, f.Value, value)
}

// among tells of a value that is none of those that there are.
func (l *line) among(name string, v *kong.Value, value string) {
	if v.Enum == "" || v.IsCumulative() || slices.Contains(v.EnumSlice(), value) {
		return
	}
	write := likely(value, v.EnumSlice())
	if write == "" {
		write = "write " + anyOf(v.EnumSlice())
	}
	l.wrong("%s: %.60q is not known; %s", name, value, write)
}

func (l *line) argument(word string) {
	if len(l.node.Children) == 0 {
		if v := l.positional(); v != nil {
			l.among("<"+v.Name+">", v, word)
		}
		l.args = append(l.args, word)
		return
	}
	var known []string
	for _, c := range l.node.Children {
		if c.Name == word || slices.Contains(c.Aliases, word) {
			l.node = c
			return
		}
		if !c.Hidden {
			known = append(known, c.Name)
		}
	}
	write := likely(word, known)
	switch {
	case strings.HasSuffix(strings.ToLower(word), ".toml"):
		write = "write check before it"
	case write == "":
		write = l.node.FullPath() + " --help lists them"
	}
	l.wrong("%.60q is no command; %s", word, write)
}

// positional is what the next argument stands for; nil where none may come.
func (l *line) positional() *kong.Positional {
	list := l.node.Positional
	switch n := len(l.args); {
	case n < len(list):
		return list[n]
	case len(list) > 0 && list[len(list)-1].IsCumulative():
		return list[len(list)-1]
	}
	return nil
}

func (l *line) wrong(format string, args ...any) {
	l.fault, l.lost = fmt.Sprintf(format, args...), true
}

// name is how to call the command in a sentence.
func (l *line) name() string {
	if l.node.Type == kong.ApplicationNode {
		return l.node.Name
	}
	return l.node.Path()
}

// likely says what to write in place of a wrong word: the known words that it
// begins, where those are few, else the nearest; empty where there is none.
func likely(word string, known []string) string {
	var begun []string
	for _, k := range known {
		if strings.Trim(word, "-") != "" && strings.HasPrefix(k, word) {
			begun = append(begun, k)
		}
	}
	if len(begun) > 0 && len(begun) <= 4 {
		return "write " + anyOf(begun)
	}
	if match, ok := near.Match(word, known); ok {
		return "write " + match
	}
	return ""
}

// anyOf joins words as "a, b or c".
func anyOf(words []string) string {
	if n := len(words); n > 1 {
		return strings.Join(words[:n-1], ", ") + " or " + words[n-1]
	}
	return strings.Join(words, "")
}
