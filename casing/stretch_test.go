package casing

import (
	"math"
	"math/cmplx"
	"testing"

	"pgregory.net/rapid"
)

// The largest stress on a stretch against that of 4000 points of it, at which
// the waves are computed from their definition.
func TestStretchDense(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		part := func(name string) float64 { return rapid.Float64Range(-0.5, 0.5).Draw(t, name) }
		s := strip{nu: rapid.Float64Range(0.2, 0.4).Draw(t, "nu")}
		n, y := rapid.SampledFrom([]float64{0, 0.5}).Draw(t, "n"), part("y")
		length := rapid.Float64Range(0.05, reach).Draw(t, "length")
		out, grown := complex(part("out"), part("out'")), complex(part("in"), part("in'"))
		in := grown * wave(length) // is grown at the end
		var most float64
		for i := range 4001 {
			x := complex(1, 1) * complex(length*float64(i)/4000, 0)
			w := out*cmplx.Exp(-x) + in*cmplx.Exp(x)
			bending := 2 * imag(w) * math.Sqrt(0.75/(1-s.nu*s.nu))
			for _, side := range []float64{bending, -bending} {
				axial := n + side
				hoop := y + real(w) + s.nu*n + s.nu*side
				most = max(most, axial*axial-axial*hoop+hoop*hoop)
			}
		}
		got := s.stretch(n, y, out, in, length)
		if math.Abs(got-most) > 0.002*most+1e-6 {
			t.Fatalf("%g, of 4000 points %g", got, most)
		}
	})
}
