package casing

import (
	"errors"

	"github.com/shopspring/decimal"

	"casewright/quantity"
)

// Sizes are the two of a tube's three sizes that a drawing gives, and how much
// its wall varies round the section. Unset dimensions are those not given.
type Sizes struct {
	Outside, Inside, Wall quantity.Dimension // m, two of the three
	Variation             quantity.Dimension // thickest less thinnest, m; only beside Outside and Inside
}

// Geometry is the tube at its worst and at its nominal sizes, exact, in
// metres, indexed as nominal, least and greatest.
type Geometry struct {
	Wall, Bore [3]decimal.Decimal
	// Assumed tells that the variation of the wall was not given.
	Assumed bool
}

var (
	two     = decimal.NewFromInt(2)
	half    = decimal.RequireFromString("0.5")
	drawn   = decimal.RequireFromString("0.10")
	extrude = decimal.RequireFromString("0.20")
)

// Geometry returns wall and bore of the tube at nominal, least and greatest.
// With outside and inside diameter alone the wall varies round the section by
// 10 % of its nominal (drawn tube) or 20 % (other forms) unless Variation is
// given; half of that is taken off the thinnest place. It returns an error
// unless exactly two of the three sizes are given, and Variation only beside
// the two diameters. Units: m. Source: arithmetic; the 10 % and 20 % are the
// eccentricity limits usual for drawn and extruded tube, common practice, no
// source.
func (s Sizes) Geometry(drawnTube bool) (Geometry, error) {
	var g Geometry
	given := 0
	for _, d := range []quantity.Dimension{s.Outside, s.Inside, s.Wall} {
		if d.IsSet() {
			given++
		}
	}
	if given != 2 {
		return g, errors.New("give exactly two of outside diameter, inside diameter and wall")
	}
	if s.Variation.IsSet() && s.Wall.IsSet() {
		return g, errors.New("a wall variation goes with the two diameters, not with a wall")
	}
	od, id, w := ends(s.Outside), ends(s.Inside), ends(s.Wall)
	switch {
	case !s.Outside.IsSet():
		g.Wall, g.Bore = w, id
	case !s.Inside.IsSet():
		g.Wall = w
		g.Bore = [3]decimal.Decimal{
			od[0].Sub(w[0].Mul(two)), od[1].Sub(w[2].Mul(two)), od[2].Sub(w[1].Mul(two)),
		}
	default:
		nominal := od[0].Sub(id[0]).Mul(half)
		variation := s.Variation.Greatest()
		if !s.Variation.IsSet() {
			g.Assumed = true
			share := extrude
			if drawnTube {
				share = drawn
			}
			variation = nominal.Mul(share)
		}
		g.Bore = id
		g.Wall = [3]decimal.Decimal{
			nominal,
			od[1].Sub(id[2]).Mul(half).Sub(variation.Mul(half)),
			od[2].Sub(id[1]).Mul(half).Add(variation.Mul(half)),
		}
	}
	return g, nil
}

func ends(d quantity.Dimension) [3]decimal.Decimal {
	if !d.IsSet() {
		return [3]decimal.Decimal{}
	}
	return [3]decimal.Decimal{d.Nominal(), d.Least(), d.Greatest()}
}
