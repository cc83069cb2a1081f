package seal_test

import (
	"math"
	"testing"

	"casewright/quantity"
	"casewright/seal"
	"casewright/verification"
	"casewright/verification/held"
)

// TestSealStretch holds the thinning of a stretched ring: 2.4 % at 5 % by
// constant volume. A maker's fit takes up to a point more and is not mixed in.
func TestSealStretch(t *testing.T) {
	held.Table(t, "seal_stretch.csv", held.Also{
		"loss of section at constant volume": func(t *testing.T, c *verification.Case) {
			s := c.Of("stretch")
			section, groove := float64(seal.Stretched(1, quantity.Length(1+s), 1)), quantity.Length(1+s)
			if volume := section * section * (1 + s); !(volume > 1-1e-12 && volume < 1+1e-12) {
				t.Errorf("volume %.15f", volume)
			}
			if got := seal.Stretch(groove, 1); !(got > s-1e-12 && got < s+1e-12) {
				t.Errorf("stretch %g, want %g", got, s)
			}
		},
		"loss of section, a maker's fit": func(t *testing.T, c *verification.Case) {
			if more := c.Value - c.Got; !(more > 0.005 && more < 0.012) {
				t.Errorf("the fit takes %.4f more than constant volume, want half a point to 1.2 points", more)
			}
		},
	})
	if got := seal.Stretched(1, 0.9, 1); got != 1 {
		t.Errorf("a loose ring is %g thick, want 1", got)
	}
}

// TestStretchedByHand: a ring of 50 mm on a groove of 52.5 mm is 5 % longer, and
// its section of 2.62 mm thinner by √1.05.
func TestStretchedByHand(t *testing.T) {
	got := float64(seal.Stretched(0.00262, 0.0525, 0.050))
	if want := 0.00262 / math.Sqrt(1.05); math.Abs(got-want) > 1e-15 {
		t.Errorf("%g m, want %g", got, want)
	}
}
