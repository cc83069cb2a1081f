package seal

import (
	_ "embed"
	"math"
	"sync"

	"github.com/shopspring/decimal"

	"casewright/margin"
	"casewright/quantity"
	"casewright/quantity/rows"
)

//go:embed gaps.csv
var gapsCSV string

// A Band is one step of the table of gaps: the largest diametral clearance,
// in m, at 70 and at 90 Shore A, for pressures from From up to but not
// including To, in psi; the last band includes its To.
type Band struct {
	From, To decimal.Decimal
	At       [2]quantity.Length // at 70 and at 90 Shore A
	Source   string
	Status   string

	from, to quantity.Pressure // From and To
}

// Bands returns the table of gaps, by rising pressure. Units: psi and m.
// Source: seal maker's table of the limits of diametral clearance, named in
// each row.
func Bands() []Band { return bands() }

var bands = sync.OnceValue(func() []Band {
	inch := func(text string) quantity.Length {
		return quantity.Length(rows.Must(quantity.Parse(quantity.KindLength, text+" in")).SI())
	}
	var list []Band
	for _, row := range rows.Of(gapsCSV, 7) {
		b := Band{
			From: decimal.RequireFromString(row[0]), To: decimal.RequireFromString(row[1]),
			At:     [2]quantity.Length{inch(row[2]), inch(row[3])},
			Source: row[4] + ", " + row[5], Status: row[6],
		}
		b.from, b.to = pascals(b.From), pascals(b.To)
		list = append(list, b)
	}
	return list
})

func pascals(psi decimal.Decimal) quantity.Pressure {
	return quantity.Pressure(quantity.NewAmount(psi, quantity.MustUnit("psi")).SI())
}

// Limit returns the largest diametral clearance of the band, in m, at a
// hardness in Shore A, linear from 70 to 90. share is 1, or 0.5 for silicone.
// Outside 70 to 90 it is NaN. Source: see [Bands].
func (b *Band) Limit(hardness, share float64) quantity.Length {
	if !(hardness >= leastHardness && hardness <= mostHardness) {
		return quantity.Length(math.NaN())
	}
	part := quantity.Length((hardness - leastHardness) / (mostHardness - leastHardness))
	return (b.At[0] + part*(b.At[1]-b.At[0])) * quantity.Length(share)
}

const (
	leastHardness = 70
	mostHardness  = 90
)

// GapLimit returns the largest diametral clearance behind a ring, in m, at a
// gauge pressure, a hardness in Shore A from 70 to 90, and the share of the
// compound (1, or 0.5 for silicone). The pressure is compared exactly, on a
// boundary the tighter step holds. It is refused outside the hardness range
// and above the table's 3000 psi. Source: see [Bands].
func GapLimit(p quantity.Amount, hardness, share float64) (quantity.Length, margin.Reason) {
	if !(hardness >= leastHardness && hardness <= mostHardness) {
		return quantity.Length(math.NaN()), margin.HardnessOutside
	}
	b, ok := BandAt(p)
	if !ok {
		return quantity.Length(math.NaN()), margin.PressureOutside
	}
	return b.Limit(hardness, share), margin.None
}

// BandAt returns the step of the table that holds at a gauge pressure, compared
// exactly; on a boundary the tighter one. Above the table's 3000 psi there is
// none. Source: see [Bands].
func BandAt(p quantity.Amount) (Band, bool) {
	psi := quantity.MustUnit("psi")
	list := Bands()
	for i, b := range list {
		side := p.Cmp(quantity.NewAmount(b.To, psi))
		if side < 0 || side == 0 && i == len(list)-1 {
			return b, true
		}
	}
	return Band{}, false
}

// GapGivesWay returns the lowest gauge pressure, in Pa, at which the diametral
// clearance exceeds the limit of its band; the top of the table at the latest.
// still: the clearance without pressure, m. growth: its growth for each Pa, m.
// hardness in Shore A and share as for [GapLimit]. Source: see [Bands].
func GapGivesWay(still quantity.Length, growth, hardness, share float64) quantity.Pressure {
	top := quantity.Pressure(0)
	list := Bands()
	for i := range list {
		b := &list[i]
		top = b.to
		room := float64(b.Limit(hardness, share) - still)
		if room < float64(b.from)*growth {
			return b.from
		}
		if at := quantity.Pressure(room / growth); growth > 0 && at < top {
			return at
		}
	}
	return top
}
