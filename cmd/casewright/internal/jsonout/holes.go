package jsonout

import (
	"encoding/hex"
	"io"
	"math"

	"casewright"
	"casewright/bench"
	"casewright/margin"
	"casewright/quantity"
)

// wrapped is the document of wrap: where the holes go. Arcs and chords are on
// the outside of the tube; x and length are on the strip of paper.
type wrapped struct {
	drilled
	Paper *Quantity  `json:"paper"` // its thickness
	Rows  []holesRow `json:"rows"`
}

// drilled begins the documents of wrap and jig: which design, on which tube.
type drilled struct {
	Format     int       `json:"format"`
	Kind       string    `json:"kind"`
	Casewright string    `json:"casewright"`
	File       string    `json:"file"`
	SHA256     string    `json:"sha256,omitempty"`
	Motor      string    `json:"motor"`
	Verdict    string    `json:"verdict"` // of the check; nothing is to be drilled unless it is "pass"
	Outside    *Quantity `json:"outside_diameter"`
	From       string    `json:"outside_from"`         // "drawn", "measured" or "measured in part"
	Allowed    bool      `json:"outside_in_tolerance"` // of the drawing
	Drawn      *Quantity `json:"drawn_outside_diameter"`
}

func drilledOf(kind string, d *casewright.Design, v margin.Verdict, o bench.Outer) drilled {
	return drilled{
		Format: 1, Kind: kind, Casewright: casewright.Version, File: d.File, SHA256: hex.EncodeToString(d.SHA256[:]), Motor: d.Name.Value,
		Verdict: v.String(), Outside: length(o.Across), From: string(o.From), Allowed: o.InTolerance(), Drawn: length(o.Drawn),
	}
}

type holesRow struct {
	End    string    `json:"end"`
	First  bool      `json:"first_end"` // of the tube
	Hole   *Quantity `json:"hole"`
	Edge   *Quantity `json:"edge"`
	Sink   *sink     `json:"countersink,omitempty"`
	Length *Quantity `json:"strip_length"`
	Holes  []hole    `json:"holes"`
}

// sink is made after the hole; diameter at the surface, along the tube.
type sink struct {
	Depth    *Quantity `json:"depth"`
	Angle    *Quantity `json:"angle"`
	Diameter *Quantity `json:"diameter"`
}

func sinkOf(s *bench.Sink) *sink {
	if s == nil {
		return nil
	}
	return &sink{length(quantity.LengthOf(s.Depth.Nominal())), angle(s.Angle), length(s.Across)}
}

func length(x quantity.Length) *Quantity { return number(float64(x), quantity.KindLength) }

func angle(degrees float64) *Quantity { return number(degrees*math.Pi/180, quantity.KindAngle) }

type hole struct {
	Number int       `json:"number"`
	Angle  *Quantity `json:"angle"`
	Arc    *Quantity `json:"arc"`
	Chord  *Quantity `json:"chord"` // from hole 1
	X      *Quantity `json:"x"`
}

// Holes writes where the holes go as one line.
func Holes(w io.Writer, d *casewright.Design, v margin.Verdict, strips []bench.Strip) error {
	doc := wrapped{drilled: drilledOf("wrap", d, v, strips[0].Outer), Paper: length(strips[0].Paper)}
	for _, s := range strips {
		row := holesRow{
			End: s.End, First: s.First, Hole: length(quantity.LengthOf(s.Size.Nominal())), Edge: length(quantity.LengthOf(s.Edge.Nominal())), Sink: sinkOf(s.Sink), Length: length(s.Length),
		}
		for i, h := range s.Holes {
			row.Holes = append(row.Holes, hole{h.Number, angle(h.Angle), length(h.Arc), length(h.Chord), length(s.Marks[i].X)})
		}
		doc.Rows = append(doc.Rows, row)
	}
	return write(w, doc)
}

// ring is the document of jig: a drilling ring.
type ring struct {
	drilled
	End       string     `json:"end"`
	First     bool       `json:"first_end"` // of the tube
	Widest    *Quantity  `json:"greatest_outside_diameter"`
	Room      *Quantity  `json:"room"` // between tube and ring, as a diameter
	Bore      *Quantity  `json:"bore"`
	Ring      *Quantity  `json:"ring_outside_diameter"`
	Length    *Quantity  `json:"length"`
	Stop      *Quantity  `json:"stop"` // its thickness
	Opening   *Quantity  `json:"stop_opening"`
	StopHoles *Quantity  `json:"stop_to_holes"`
	Hole      *Quantity  `json:"hole"` // in the tube
	Guide     *Quantity  `json:"guide"`
	Bush      bool       `json:"bush"` // a bush goes into the guide
	Sink      *sink      `json:"countersink,omitempty"`
	Holes     []ringHole `json:"holes"`
}

type ringHole struct {
	Number int       `json:"number"`
	Angle  *Quantity `json:"angle"`
}

// Ring writes a drilling ring as one line.
func Ring(w io.Writer, d *casewright.Design, v margin.Verdict, r bench.Ring) error {
	doc := ring{
		drilled: drilledOf("jig", d, v, r.Outer), End: r.End, First: r.First, Widest: length(r.Widest), Room: length(r.Clearance), Bore: length(r.Bore), Ring: length(r.Outside),
		Length: length(r.Length), Stop: length(r.Stop), Opening: length(r.Opening), StopHoles: length(r.FromStop),
		Hole: length(quantity.LengthOf(r.Size.Nominal())), Guide: length(r.Guide), Bush: r.Bush, Sink: sinkOf(r.Sink),
	}
	for _, h := range r.Holes {
		doc.Holes = append(doc.Holes, ringHole{h.Number, angle(h.Angle)})
	}
	return write(w, doc)
}
