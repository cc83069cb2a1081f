package schema

import (
	"regexp"
	"strconv"
	"strings"
	"testing"
	"unicode"

	"pgregory.net/rapid"

	"casewright/closure"
	"casewright/fastener"
	"casewright/materials"
	"casewright/seal"
)

var choices = []struct {
	name    string
	pattern string
	names   []string // and other spellings
	look    func(string) bool
}{
	{"thread", threadPattern(), append(fastener.ThreadNames(), "M5", "m2.50x.450", "M10X1.", "#10-32", "1/4-20", "M 5 × 0.80"), func(s string) bool { _, ok := fastener.LookupThread(s); return ok }},
	{"class", classPattern(), append(fastener.ClassNames(), "SAE grade 5", "A574", "a2 - 70"), func(s string) bool { _, ok := fastener.LookupClass(s); return ok }},
	{"ring", ringPattern(), append(seal.RingNames(), "-137", "137", "as568 137"), func(s string) bool { _, ok := seal.LookupRing(s); return ok }},
	{"compound", compoundPattern(), append(seal.CompoundNames(), "Buna-N", "fluorocarbon", "Ethylene  Propylene"), func(s string) bool { _, ok := seal.LookupCompound(s); return ok }},
	{"pipe thread", pipeThreadPattern(), append(closure.PipeThreadNames(), `1/8" NPT`, "npt 1/4-18", "1/2-14"), func(s string) bool { _, ok := closure.LookupPipeThread(s); return ok }},
	{"washer", washerPattern(), append(materials.WasherNames(), "nylon  66", "Teflon"), func(s string) bool { _, ok := materials.LookupWasher(s); return ok }},
	{"material", words(materials.Names()), materials.Names(), func(s string) bool { _, ok := materials.Lookup(s); return ok }},
}

// A name matches its pattern just where it is looked up, however it is written.
func TestPropertySpelling(t *testing.T) {
	for _, c := range choices {
		t.Run(c.name, func(t *testing.T) {
			form := regexp.MustCompile(c.pattern)
			for _, name := range c.names {
				if !form.MatchString(name) || !c.look(name) {
					t.Errorf("%q: pattern %t, found %t", name, form.MatchString(name), c.look(name))
				}
			}
			rapid.Check(t, func(t *rapid.T) {
				text := []rune(rapid.SampledFrom(c.names).Draw(t, "name"))
				for range rapid.IntRange(0, 3).Draw(t, "changes") {
					at := rapid.IntRange(0, len(text)).Draw(t, "at")
					before, after := string(text[:at]), string(text[at:])
					next := ""
					if at < len(text) {
						next, after = string(text[at]), string(text[at+1:])
					}
					switch rapid.IntRange(0, 4).Draw(t, "change") {
					case 0:
						next = strings.ToUpper(next)
					case 1:
						next = rapid.SampledFrom([]string{" ", "\t", "\u00a0", "\u2003", "\n", "\u0085"}).Draw(t, "blank") + next
					case 2:
						next = strings.NewReplacer("-", "‑", "x", "×", "k", "K", "0", "", "8", "80").Replace(next)
					case 3:
						next = string(rune(rapid.IntRange(' ', '~').Draw(t, "sign"))) + next
					case 4:
						next = ""
					}
					text = []rune(before + next + after)
				}
				if matches, found := form.MatchString(string(text)), c.look(string(text)); matches != found {
					t.Fatalf("%q: pattern %t, found %t", string(text), matches, found)
				}
			})
		})
	}
}

func TestWholes(t *testing.T) {
	for _, c := range [][2]int{{1, 8}, {1, 100}, {1, 200}, {2, 2}, {7, 1234}, {99, 1000}, {10, 109}} {
		form := regexp.MustCompile(whole(wholes(c[0], c[1])))
		for n := range 2000 {
			if want := c[0] <= n && n <= c[1]; form.MatchString(strconv.Itoa(n)) != want {
				t.Errorf("%d from %d to %d: %t", n, c[0], c[1], !want)
			}
		}
	}
}

// Every character that Go takes for a space is one, and no other.
func TestSpaces(t *testing.T) {
	form := regexp.MustCompile(whole(space))
	for r := range rune(unicode.MaxRune) {
		if form.MatchString(string(r)) != unicode.IsSpace(r) {
			t.Errorf("%U", r)
		}
	}
}
