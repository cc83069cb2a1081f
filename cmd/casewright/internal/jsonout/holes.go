package jsonout

import (
	"encoding/hex"
	"io"
	"math"

	"casewright"
	"casewright/bench"
	"casewright/quantity"
)

// wrapped is the document of wrap: where the holes go. Arcs and chords are on
// the outside of the tube; x and length are on the strip of paper.
type wrapped struct {
	Format     int        `json:"format"`
	Kind       string     `json:"kind"`
	Casewright string     `json:"casewright"`
	File       string     `json:"file"`
	SHA256     string     `json:"sha256,omitempty"`
	Motor      string     `json:"motor"`
	Outside    *Quantity  `json:"outside_diameter"`
	Rows       []holesRow `json:"rows"`
}

type holesRow struct {
	End    string    `json:"end"`
	First  bool      `json:"first_end"` // of the tube
	Hole   *Quantity `json:"hole"`
	Edge   *Quantity `json:"edge"`
	Length *Quantity `json:"strip_length"`
	Holes  []hole    `json:"holes"`
}

type hole struct {
	Number int       `json:"number"`
	Angle  *Quantity `json:"angle"`
	Arc    *Quantity `json:"arc"`
	Chord  *Quantity `json:"chord"` // from hole 1
	X      *Quantity `json:"x"`
}

// Holes writes where the holes go as one line.
func Holes(w io.Writer, d *casewright.Design, strips []bench.Strip) error {
	length := func(x quantity.Length) *Quantity { return number(float64(x), quantity.KindLength) }
	doc := wrapped{Format: 1, Kind: "wrap", Casewright: casewright.Version, File: d.File, SHA256: hex.EncodeToString(d.SHA256[:]), Motor: d.Name.Value, Outside: length(strips[0].Across)}
	for _, s := range strips {
		row := holesRow{
			End: s.End, First: s.First, Hole: length(quantity.LengthOf(s.Size.Nominal())), Edge: length(quantity.LengthOf(s.Edge.Nominal())), Length: length(s.Length),
		}
		for i, h := range s.Holes {
			row.Holes = append(row.Holes, hole{h.Number, number(h.Angle*math.Pi/180, quantity.KindAngle), length(h.Arc), length(h.Chord), length(s.Marks[i].X)})
		}
		doc.Rows = append(doc.Rows, row)
	}
	return write(w, doc)
}
