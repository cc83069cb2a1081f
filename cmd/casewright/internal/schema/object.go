package schema

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"strings"
	"unicode"
)

// An object is a JSON object whose members stay in order.
type object []member

type member struct {
	name  string
	value any
}

// MarshalJSON writes the members in their order.
func (o object) MarshalJSON() ([]byte, error) {
	b := bytes.NewBufferString("{")
	for i, m := range o {
		if i > 0 {
			b.WriteByte(',')
		}
		for _, part := range []struct {
			value any
			after string
		}{{m.name, ":"}, {m.value, ""}} {
			text, err := plain(part.value)
			if err != nil {
				return nil, err
			}
			b.Write(text)
			b.WriteString(part.after)
		}
	}
	b.WriteByte('}')
	return b.Bytes(), nil
}

// plain is a value in JSON, in which < > and & stay what they are.
func plain(v any) ([]byte, error) {
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	err := e.Encode(v)
	return bytes.TrimRight(b.Bytes(), "\n"), err
}

// write writes an object with indents. Characters that cannot be seen are
// escaped.
func write(w io.Writer, o object) error {
	text, err := plain(o)
	if err != nil {
		return err
	}
	var b bytes.Buffer
	if err := json.Indent(&b, text, "", "  "); err != nil {
		return err
	}
	var seen strings.Builder
	for _, r := range b.String() {
		switch {
		case r == '\n' || unicode.IsPrint(r):
			seen.WriteRune(r)
		case r > 0xFFFF:
			return fmt.Errorf("the character %U stands in the schema", r)
		default:
			fmt.Fprintf(&seen, `\u%04x`, r)
		}
	}
	_, err = io.WriteString(w, seen.String()+"\n")
	return err
}
