// Package shell speaks with bash, zsh and fish about what may stand under the
// cursor: their scripts, and words in their quotes.
package shell

import (
	"embed"
	"fmt"
	"io"
	"strings"
	"unicode/utf8"
)

// A Candidate is a word that may stand under the cursor, unquoted, with help
// of a few words.
type Candidate struct{ Text, Help string }

//go:embed complete.bash complete.zsh complete.fish
var scripts embed.FS

// Script returns the script that a shell, bash, zsh or fish, runs to complete
// the command line of casewright.
func Script(name string) (string, error) {
	text, err := scripts.ReadFile("complete." + name)
	return string(text), err
}

// Zsh writes candidates as zsh's _describe takes them: the word, a colon, the
// help. Zsh quotes them itself.
func Zsh(w io.Writer, list []Candidate) error {
	escape := strings.NewReplacer(`\`, `\\`, `:`, `\:`)
	for _, c := range list {
		text := escape.Replace(c.Text)
		if c.Help != "" {
			text += ":" + oneLine(c.Help)
		}
		if _, err := fmt.Fprintln(w, text); err != nil {
			return err
		}
	}
	return nil
}

// Fish writes candidates as fish takes them: the word, a tab, the help. Fish
// quotes them itself, and finds letters of the word anywhere, even in the help:
// it gets those only that hold the word, in any case of letters.
func Fish(w io.Writer, list []Candidate, word string) error {
	for _, c := range list {
		if !strings.Contains(strings.ToLower(c.Text), strings.ToLower(word)) {
			continue
		}
		if _, err := fmt.Fprintln(w, strings.TrimSuffix(c.Text+"\t"+oneLine(c.Help), "\t")); err != nil {
			return err
		}
	}
	return nil
}

func oneLine(text string) string { return strings.Join(strings.Fields(text), " ") }

// A Word is the word under the cursor of a line of bash.
type Word struct {
	text  string // unquoted
	kept  int    // bytes of text that stand before what bash replaces
	quote byte   // that is open at the cursor; 0 for none
}

// Bash splits a line, up to the cursor, into its words, the last of which is
// under the cursor and may be empty. The breaks are COMP_WORDBREAKS: bash
// replaces what follows the last of them that is not quoted.
func Bash(text, breaks string) (words []string, last Word) {
	var word strings.Builder
	var quote byte
	begun, kept, escaped := false, 0, false
	for i := range len(text) {
		switch c := text[i]; {
		case escaped:
			if escaped = false; quote == '"' && !strings.ContainsRune("$`\"\\", rune(c)) {
				word.WriteByte('\\')
			}
			word.WriteByte(c)
		case c == '\\' && quote != '\'':
			escaped, begun = true, true
		case quote != 0 && c == quote:
			quote = 0
		case quote != 0:
			word.WriteByte(c)
		case c == '"' || c == '\'':
			quote, begun, kept = c, true, word.Len()
		case c == ' ' || c == '\t' || c == '\n':
			if begun {
				words = append(words, word.String())
				word.Reset()
			}
			begun, kept = false, 0
		default:
			word.WriteByte(c)
			if begun = true; strings.IndexByte(breaks, c) >= 0 {
				kept = word.Len()
			}
		}
	}
	if quote == 0 && kept > 0 && !strings.ContainsRune(breaks, rune(word.String()[kept-1])) {
		kept = 0 // a quoted part that is closed is replaced with the rest
	}
	return append(words, word.String()), Word{word.String(), kept, quote}
}

// Unquoted returns a word without its quotes, which need not be closed.
func Unquoted(word string) string {
	_, last := Bash(word, "")
	return last.text
}

// Write writes the candidates that the word begins, in any case of letters,
// quoted as what bash replaces it with. Where several begin so and columns is
// above 0 each has its help beside it, cut to that width: such a list is shown
// and not put on the line.
func (w Word) Write(out io.Writer, list []Candidate, columns int) error {
	var fit []Candidate
	widest := 0
	for _, c := range list {
		if n := len(w.text); len(c.Text) < n || !strings.EqualFold(c.Text[:n], w.text) {
			continue
		}
		c.Text = w.quoted(c.Text[w.kept:])
		widest = max(widest, utf8.RuneCountInString(c.Text))
		fit = append(fit, c)
	}
	for _, c := range fit {
		text := c.Text
		if help := []rune(oneLine(c.Help)); columns > 0 && len(fit) > 1 && len(help) > 0 {
			room := columns - widest - 2 - 2 // bash sets two blanks between columns
			if len(help) > room {
				help = append(help[:max(0, room-1)], '…')
			}
			if room > 10 {
				text = fmt.Sprintf("%-*s  %s", widest, text, string(help))
			}
		}
		if _, err := fmt.Fprintln(out, text); err != nil {
			return err
		}
	}
	return nil
}

// quoted quotes a text so that it goes on in the quotes that are open. Bash
// closes them.
func (w Word) quoted(text string) string {
	var b strings.Builder
	for _, c := range text {
		switch {
		case w.quote == '\'' && c == '\'':
			b.WriteString(`'\''`)
			continue
		case w.quote == '"' && strings.ContainsRune("$`\"\\", c),
			w.quote == 0 && c < utf8.RuneSelf && !isPlain(c):
			b.WriteByte('\\')
		}
		b.WriteRune(c)
	}
	return b.String()
}

// isPlain tells that a character of ASCII means nothing to bash wherever it
// stands.
func isPlain(c rune) bool {
	return '0' <= c && c <= '9' || 'a' <= c && c <= 'z' || 'A' <= c && c <= 'Z' || strings.ContainsRune("-_./,+%:=@", c)
}
