package materials

import (
	"errors"
	"fmt"
)

// The bases on which a value stands, from the most to the least reliable.
const (
	BasisA              = "A"                 // 99 % of all material is above, with 95 % confidence
	BasisB              = "B"                 // 90 % of all material is above, with 95 % confidence
	BasisS              = "S"                 // the minimum of a specification, as a handbook tells it
	BasisSpecified      = "specified minimum" // the minimum of a product standard
	BasisCharacteristic = "characteristic"    // of a European design standard
	BasisTypical        = "typical"           // half of all material is below
	BasisEstimate       = "estimate"          // computed from another property
)

// How a number was come by.
const (
	Seen   = "seen"   // read in a secondary copy of the source
	Memory = "memory" // remembered, not looked up
)

// A Value is one property of a material at 20 °C, and where it comes from.
type Value struct {
	SI     float64 // in the SI unit of the property's kind
	Text   string  // as it stands in the table: "240 MPa"
	Basis  string  // one of the Basis constants; empty for a user's value
	Size   string  // products to which it applies; empty for a user's value
	Source string  // document
	Where  string  // table, clause or product in it; empty for a user's value
	Status string  // Seen or Memory; empty for a user's value
	Note   string  // what else is to be known, empty if nothing
}

// Provenance says where a value comes from that is no strength.
type Provenance struct {
	Source string // document, or "common practice, no source"
	Where  string // table, product or page in it
	Status string // Seen or Memory
	Note   string // what else is to be known, empty if nothing
}

// provenance reads the last four columns of a table.
func provenance(columns []string) (Provenance, error) {
	from := Provenance{columns[0], columns[1], columns[2], columns[3]}
	if from.Status != Seen && from.Status != Memory {
		return from, fmt.Errorf("unknown status %q", from.Status)
	}
	if from.Source == "" || from.Where == "" {
		return from, errors.New("no source, or no place in it")
	}
	return from, nil
}
