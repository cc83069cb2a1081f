package live

import (
	"bytes"
	"crypto/sha256"
	_ "embed"
	"encoding/base64"
	"html/template"
	"strings"
)

var (
	//go:embed page.html
	pageHTML string
	//go:embed script.js
	script string
	//go:embed style.css
	style string
)

var pageTemplate = template.Must(template.New("page").Parse(pageHTML))

// A View is what is to be seen of a file: the picture of it as it last read
// well, and what is wrong with it.
type View struct {
	File    string
	Title   string
	Picture template.HTML // empty where it never read well
	Painted int           // another number for each other picture
	Stale   bool          // the file no longer is as in the picture
	Read    string        // the time of day of the picture
	Faults  []Excerpt
}

// A page writes what a browser is given: the page before and after its frame is
// always the same, so that a browser can be told to take no other style or
// script.
type page struct {
	before, after string
	policy        string // for a browser
}

func newPage(documentStyle string) (*page, error) {
	var before, after strings.Builder
	whole := documentStyle + style
	err := pageTemplate.ExecuteTemplate(&before, "before", template.CSS(whole)) //nolint:gosec // ours
	if err == nil {
		err = pageTemplate.ExecuteTemplate(&after, "after", template.JS(script)) //nolint:gosec // ours
	}
	return &page{before.String(), after.String(), "default-src 'none'; style-src " + digest("\n"+whole) + "; script-src " + digest("\n"+script) +
		"; connect-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'"}, err
}

// digest names the text of an element to a browser. Source: Content Security
// Policy Level 3, hash-source.
func digest(text string) string {
	sum := sha256.Sum256([]byte(text))
	return "'sha256-" + base64.StdEncoding.EncodeToString(sum[:]) + "'"
}

// frame writes what changes.
func (v *View) frame(number int) ([]byte, error) {
	var b bytes.Buffer
	err := pageTemplate.ExecuteTemplate(&b, "frame", struct {
		*View
		Number int
	}{v, number})
	return b.Bytes(), err
}
