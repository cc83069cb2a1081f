package materials

import "strings"

// A Form is the product that a part is cut from.
type Form string

// The forms.
const (
	DrawnTube    Form = "drawn tube"
	ExtrudedTube Form = "extruded tube"
	Bar          Form = "bar"
	Plate        Form = "plate"
	Sheet        Form = "sheet"
	Forging      Form = "forging"
	Casting      Form = "casting"
	Polymer      Form = "polymer"
	Printed      Form = "printed"
)

// Forms returns all forms, in the order in which a message lists them.
func Forms() []Form {
	return []Form{DrawnTube, ExtrudedTube, Bar, Plate, Sheet, Forging, Casting, Polymer, Printed}
}

// ParseForm finds a form by its name, without regard to case and extra blanks.
func ParseForm(text string) (Form, bool) {
	text = fold(text)
	for _, f := range Forms() {
		if string(f) == text {
			return f, true
		}
	}
	return "", false
}

// HoldsPressure tells whether a part of this form may hold pressure. Castings,
// polymers and printed parts may not: they break without warning and vary from
// part to part. Nor may a form that is not in the list.
func (f Form) HoldsPressure() bool {
	switch f {
	case DrawnTube, ExtrudedTube, Bar, Plate, Sheet, Forging:
		return true
	case Casting, Polymer, Printed:
	}
	return false
}

// MayHaveSeams tells whether a tube of this form may have weld seams along its
// length: extruded tube is seamless only where that is asked for, else often
// made over a bridge die.
func (f Form) MayHaveSeams() bool { return f == ExtrudedTube }

// fold makes names comparable: lower case, one blank between words.
func fold(name string) string { return strings.ToLower(strings.Join(strings.Fields(name), " ")) }
