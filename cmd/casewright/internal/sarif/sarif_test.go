package sarif

import (
	"net/url"
	"path/filepath"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// A name becomes a reference as RFC 3986 has it: 2.1 the encoding, 4.2 the
// colon in a first segment, RFC 8089 appendix B a file with a full path.
func TestURI(t *testing.T) {
	for file, want := range map[string]string{
		"basalt64.toml":         "basalt64.toml",
		"./a/../b.toml":         "b.toml",
		"../b.toml":             "../b.toml",
		"designs/my motor.toml": "designs/my%20motor.toml",
		"ü&<>.toml":             "%C3%BC&%3C%3E.toml",
		"100%.toml":             "100%25.toml",
		"%41.toml":              "%2541.toml",
		"a#b?c.toml":            "a%23b%3Fc.toml",
		"a:b.toml":              "./a:b.toml",
		"x/a:b.toml":            "x/a:b.toml",
		"a\nb":                  "a%0Ab",
		"\xff":                  "%FF",
		"/srv/my motor.toml":    "file:///srv/my%20motor.toml",
		"//x/y":                 "file:///x/y",
		"[x]|^.toml":            "%5Bx%5D%7C%5E.toml",
		"-":                     "standard-input",
	} {
		if got := uri(file); got != want {
			t.Errorf("%q: %s, want %s", file, got, want)
		}
	}
}

// Any name is found again by its reference, which has no sign that none may
// have (RFC 3986, appendix A).
func TestURIOfAnyName(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		file := string(rapid.SliceOfN(rapid.Byte(), 1, -1).Draw(t, "file"))
		got := uri(file)
		if i := strings.IndexFunc(got, func(c rune) bool { return c <= ' ' || c > '~' || strings.ContainsRune("\"<>\\^`{|}#?[]", c) }); i >= 0 {
			t.Fatalf("%q has %q", got, got[i])
		}
		u, err := url.Parse(got)
		if err != nil {
			t.Fatal(err)
		}
		if file != "-" && filepath.Clean(u.Path) != filepath.Clean(file) && filepath.Clean(u.Path) != filepath.Clean("/"+file) {
			t.Fatalf("%q leads to %q", file, u.Path)
		}
	})
}
