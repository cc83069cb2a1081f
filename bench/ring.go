package bench

import (
	"fmt"
	"math"

	"casewright"
	"casewright/quantity"
)

// A Ring slides on the tube up to a face inside it that stops at the tube's
// end; its holes guide the drill. All sizes in m.
type Ring struct {
	HoleRow
	Bore      quantity.Length // the tube at its widest and [RingRoom]
	Opening   quantity.Length // of the stop, so that one sees the tube's end
	Outside   quantity.Length
	Stop      quantity.Length // thickness of the stop
	Length    quantity.Length
	FromStop  quantity.Length // stop face to the holes: the edge distance
	Guide     quantity.Length // hole that guides the drill: the bush, or the drill itself
	Bush      bool            // a bush goes into the guide
	Clearance quantity.Length
}

// RingRoom is the room between ring and tube, as a diameter, m: it slides by
// hand. Common practice, no source.
const RingRoom = 0.0001

const (
	stopThickness = 0.005
	beyondBush    = 0.006
	betweenBushes = 0.001
)

// bushes are the outside diameters of drill bushes for bores up to a size, mm.
// Source: DIN 179, from memory.
var bushes = []struct{ upTo, outside float64 }{
	{1.8, 4}, {2.6, 5}, {3.3, 6}, {4, 7}, {5, 8}, {6, 10}, {8, 12}, {10, 15}, {12, 18}, {15, 22},
}

// RingOf returns the ring for a row of holes. Its wall guides the drill over
// two of its diameters (common practice, no source). Where bushes would meet,
// the ring is drilled to the drill's own size; where even that does not fit, or
// the edge distance leaves no metal before the holes, it is an error.
func RingOf(d *casewright.Design, r HoleRow) (Ring, error) {
	hole, edge := quantity.LengthOf(r.Size.Nominal()), quantity.LengthOf(r.Edge.Nominal())
	ring := Ring{HoleRow: r, Stop: stopThickness, FromStop: edge, Guide: hole, Clearance: RingRoom}
	bore, _, ok := d.Tube.Nominal()
	if !ok {
		return Ring{}, ErrNoTube
	}
	ring.Bore = r.Widest + RingRoom
	ring.Opening = quantity.LengthOf(bore)
	ring.Outside = quantity.Length(math.Ceil(float64(ring.Bore+4*hole)*1e3) / 1e3)
	gap := ring.Bore
	if n := len(r.Holes); n > 1 {
		gap = ring.Bore * quantity.Length(math.Sin(math.Pi/float64(n)))
	}
	for _, b := range bushes {
		if bush := quantity.Length(b.outside / 1e3); float64(hole) <= b.upTo/1e3+1e-9 {
			if bush+betweenBushes <= gap && bush/2 < edge {
				ring.Guide, ring.Bush = bush, true
			}
			break
		}
	}
	if ring.Guide+betweenBushes > gap || ring.Guide/2 >= edge {
		return Ring{}, fmt.Errorf("no drilling ring for %s: its %d holes of %s leave no metal between them or before the stop", r.End, len(r.Holes), r.Size.String())
	}
	ring.Length = ring.Stop + edge + ring.Guide/2 + beyondBush
	return ring, nil
}
