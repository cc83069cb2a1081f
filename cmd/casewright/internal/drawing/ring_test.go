package drawing_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"casewright"
	"casewright/bench"
	"casewright/cmd/casewright/internal/drawing"
)

// TestRing: texts keep apart from each other and on the sheet, 0° is up, and
// the numbers stand at the angles of their holes: to the right of one who looks
// at the tube is to the left as one looks at its first end.
func TestRing(t *testing.T) {
	design, err := casewright.Read("basalt64.toml", []byte(casewright.Example))
	if err != nil {
		t.Fatal(err)
	}
	rapid.Check(t, func(t *rapid.T) {
		rows, err := bench.HoleRows(design)
		if err != nil {
			t.Fatal(err)
		}
		row := rows[rapid.IntRange(0, 1).Draw(t, "end")]
		row.Holes = make([]bench.Hole, rapid.IntRange(1, 16).Draw(t, "N"))
		row.Start = rapid.OneOf(rapid.Just(0.0), rapid.Float64Range(0, 359.9)).Draw(t, "start")
		outer, err := row.Measuring(row.Drawn * 1.01)
		if err != nil {
			t.Fatal(err)
		}
		ring, err := bench.RingOf(design, row.On(outer))
		if err != nil {
			t.Fatal(err)
		}
		text := drawing.Beside{Motor: "M", File: "m.toml", Ruler: bench.Ruler{Inches: rapid.Bool().Draw(t, "inches")}, Fails: rapid.SampledFrom([]string{"", "FAILS"}).Draw(t, "fails")}
		sheet := drawing.JigRing(ring, text)
		var boxes []rect
		var zero drawing.Path
		at := map[string]drawing.Point{}
		for _, shape := range sheet.Shapes {
			switch x := shape.(type) {
			case drawing.Text:
				b := inkOf(t, x)
				for _, other := range boxes {
					if b.meets(other) {
						t.Fatalf("%q meets another text", x.Text)
					}
				}
				if b.left < 0 || b.right > sheet.Width || b.top < 0 || b.bottom > sheet.Height {
					t.Fatalf("%q leaves the sheet", x.Text)
				}
				boxes = append(boxes, b)
				at[x.Text] = drawing.Point{X: (b.left + b.right) / 2, Y: (b.top + b.bottom) / 2}
			case drawing.Path:
				if x.ID == "scribed line" {
					zero = x
				}
			}
		}
		if len(zero.Points) != 2 || zero.Points[0].X != zero.Points[1].X || at["0°, scribed line"].Y > zero.Points[1].Y {
			t.Fatalf("0° is not marked at the top: %v", zero)
		}
		centre := drawing.Point{X: zero.Points[0].X, Y: zero.Points[0].Y + 1e3*float64(ring.Bore)/2}
		for _, h := range ring.Holes {
			p := at[fmt.Sprint(h.Number)]
			want := h.Angle
			if ring.First {
				want = -want
			}
			got := math.Atan2(p.X-centre.X, centre.Y-p.Y) * 180 / math.Pi
			if off := math.Remainder(got-want, 360); math.Abs(off) > 1.5 {
				t.Fatalf("hole %d is numbered at %.1f°, and stands at %.1f°", h.Number, got, want)
			}
		}
	})
}

// TestRingNotes: what the shop must know stands beside the ring.
func TestRingNotes(t *testing.T) {
	design, err := casewright.Read("basalt64.toml", []byte(casewright.Example))
	if err != nil {
		t.Fatal(err)
	}
	rows, err := bench.HoleRows(design)
	if err != nil {
		t.Fatal(err)
	}
	outer, err := rows[0].Measuring(0.06402)
	if err != nil {
		t.Fatal(err)
	}
	row := rows[0].On(outer)
	row.Sink = &bench.Sink{Depth: row.Size, Angle: 90, Across: 0.0085}
	ring, err := bench.RingOf(design, row)
	if err != nil {
		t.Fatal(err)
	}
	for inches, wants := range map[bool][]string{
		false: {
			"bore ⌀64.12 mm +0.05 mm/-0", "64.02 mm at its widest (measured; drawn 63.50 mm, which allows 63.17 mm to 63.83 mm: check the tube as built)",
			"countersink afterwards: 5.5 ±0.1 mm deep, cone of 90°, 8.50 mm across", "From m.toml, SHA-256 ab0000000000…",
		},
		true: {"bore ⌀2.5244 in (64.12 mm)", "bore of 0.2165 in (5.50 mm)", "Sizes in inches"},
	} {
		text := strings.Join(drawing.RingNotes(ring, drawing.Beside{File: "m.toml", SHA256: [32]byte{0xab}, Ruler: bench.Ruler{Inches: inches}}), "\n")
		for _, want := range wants {
			if !strings.Contains(text, want) {
				t.Errorf("no %q in %s", want, text)
			}
		}
	}
}
