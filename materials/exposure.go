package materials

import (
	"cmp"
	_ "embed" // the table
	"errors"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"sync"

	"casewright/margin"
	"casewright/quantity"
)

//go:embed exposure.csv
var exposureCSV string

const exposureHeader = "exposure,property,value,temperature,time,source,where,status,note"

// Heat is a time at a temperature, one step of a history.
type Heat struct {
	Temperature quantity.Temperature
	Time        quantity.Time
}

// A Loss is one published point: the share of a strength at 20 °C that is left
// after cooling from a time at a temperature.
type Loss struct {
	Heat
	Share float64 // from 0 to 1
	Provenance
}

// An Exposure is what heat takes for good from the temper of a metal.
type Exposure struct {
	Name     string               // alloy and temper, with which the names of its materials begin
	Unharmed quantity.Temperature // up to it nothing is lost, however long
	Hottest  quantity.Temperature // above it nothing is known; the same as Unharmed where no losses are
	// Activation holds the least and the most activation energy of the loss, in
	// J/mol; zero where no losses are known.
	Activation [2]float64

	UnharmedFrom, HottestFrom Provenance
	ActivationFrom            [2]Provenance

	losses [NumProperties][]Loss
	// curves are the losses in the order of their equivalent time, for each
	// activation energy.
	curves [NumProperties][2][]kept
}

// kept is the share that is left at the logarithm of an equivalent time.
type kept struct{ at, share float64 }

// gasConstant is R in J/(mol K), exact since 2019.
const gasConstant = 8.31446261815324

// exposures reads the table once; a test holds that every row can be read.
var exposures = sync.OnceValues(func() ([]*Exposure, error) { return readExposures(exposureCSV) })

func readExposures(text string) (list []*Exposure, err error) {
	err = rows("exposure.csv", exposureHeader, text, func(row []string) error {
		x := last(list)
		if x == nil || x.Name != row[0] {
			x = &Exposure{Name: row[0]}
			list = append(list, x)
		}
		return x.value(row)
	})
	for _, x := range list {
		if wrong := x.settle(); wrong != nil {
			err = errors.Join(err, fmt.Errorf("exposure.csv: %s: %w", x.Name, wrong))
		}
	}
	return list, err
}

// value takes a row of exposure.csv.
func (x *Exposure) value(row []string) error {
	from, err := provenance(row[5:])
	if err != nil {
		return err
	}
	switch row[1] {
	case "unharmed":
		x.Unharmed, err = temperature(row[2])
		x.UnharmedFrom = from
		return err
	case "hottest":
		x.Hottest, err = temperature(row[2])
		x.HottestFrom = from
		return err
	case "least_activation":
		x.Activation[0], err = activation(row[2])
		x.ActivationFrom[0] = from
		return err
	case "most_activation":
		x.Activation[1], err = activation(row[2])
		x.ActivationFrom[1] = from
		return err
	}
	p, ok := propertyOf(row[1])
	if !ok || p != Yield && p != Ultimate {
		return fmt.Errorf("%q is not unharmed, hottest, least_activation, most_activation, yield or ultimate", row[1])
	}
	share, err := strconv.ParseFloat(row[2], 64)
	if err != nil || !(share >= 0 && share <= 1) {
		return fmt.Errorf("share %s is not from 0 to 1", row[2])
	}
	t, err := temperature(row[3])
	if err != nil {
		return err
	}
	time, err := quantity.Parse(quantity.KindTime, row[4])
	if err != nil || time.Sign() <= 0 {
		return fmt.Errorf("%q is no time above 0", row[4])
	}
	x.losses[p] = append(x.losses[p], Loss{Heat{t, quantity.Time(time.SI())}, share, from})
	return nil
}

func temperature(text string) (quantity.Temperature, error) {
	a, err := quantity.Parse(quantity.KindTemperature, text)
	return quantity.Temperature(a.SI()), err
}

// activation reads an energy in kJ/mol, a unit of no other value.
func activation(text string) (float64, error) {
	number, ok := strings.CutSuffix(text, " kJ/mol")
	q, err := strconv.ParseFloat(number, 64)
	if !ok || err != nil || !(q > 0 && q < 1000) {
		return 0, fmt.Errorf("%q is no energy in kJ/mol", text)
	}
	return q * 1000, nil
}

// settle puts the losses in order.
func (x *Exposure) settle() error {
	known := len(x.losses[Yield]) > 0
	switch {
	case x.Unharmed == 0:
		return errors.New("it is not told up to what nothing is lost")
	case known != (len(x.losses[Ultimate]) > 0), known != (x.Hottest > 0), known != (x.Activation[0] > 0), known != (x.Activation[1] > 0):
		return errors.New("losses, hottest and both activation energies go together")
	case !known:
		x.Hottest = x.Unharmed
		return nil
	case !(x.Hottest > x.Unharmed && x.Activation[0] <= x.Activation[1]):
		return errors.New("hottest or the activation energies are out of order")
	}
	for _, p := range []Property{Yield, Ultimate} {
		for i, q := range x.Activation {
			var curve []kept
			for _, l := range x.losses[p] {
				if l.Temperature <= x.Unharmed || l.Temperature > x.Hottest {
					return fmt.Errorf("a loss at %.0f °C is not between unharmed and hottest", l.Temperature.Celsius())
				}
				curve = append(curve, kept{math.Log(equivalent(q, l.Heat)), l.Share})
			}
			slices.SortFunc(curve, func(a, b kept) int { return cmp.Compare(a.at, b.at) })
			if curve[0].share != 1 {
				return fmt.Errorf("%s is lost in less than the mildest heat that takes none", p.Key())
			}
			for j := range curve[1:] {
				curve[j+1].share = min(curve[j+1].share, curve[j].share)
			}
			x.curves[p][i] = curve
		}
	}
	return nil
}

// equivalent is the time at an infinite temperature that does what a step does:
// t exp(−Q/(R T)).
func equivalent(q float64, h Heat) float64 {
	return float64(h.Time) * math.Exp(-q/(gasConstant*float64(h.Temperature)))
}

// Exposures returns what heat takes for good, for all tempers of the table, in
// its order. They are shared by everybody: do not change them.
func Exposures() []*Exposure {
	list, _ := exposures()
	return slices.Clone(list)
}

// Losses returns the published losses that a strength follows, none for a
// property that follows none.
func (x *Exposure) Losses(p Property) []Loss {
	f, ok := p.Follows()
	if !ok {
		return nil
	}
	return slices.Clone(x.losses[f])
}

// Exposure returns what heat takes for good from the material's temper, nil
// where that is not known.
func (m *Material) Exposure() *Exposure {
	if m.User {
		return nil
	}
	list, _ := exposures()
	for _, x := range list {
		if rest, ok := strings.CutPrefix(m.Name, x.Name); ok && strings.HasPrefix(rest, " ") {
			return x
		}
	}
	return nil
}

// Kept returns the share of a strength at 20 °C, from 0 to 1, that is left
// after cooling from a history of heat, whose steps may stand in any order.
// Each step counts as a time at one temperature by the reduced time of
// Arrhenius,
//
//	θ = Σ t exp(−Q/(R T))
//
// with the activation energy Q of the loss; the published losses are put in
// order by the same θ, and between two of them the share is a straight line in
// ln θ, never above that of a milder one. Sources: Sherby and Dorn 1952 for the
// rule (from memory); for its use on aluminium that loses its temper, and for
// Q, Metallurgical and Materials Transactions A 2021, DOI
// 10.1007/s11661-020-06133-0 (its abstract seen); the rows of exposure.csv for
// the losses. Q is known between two limits only: the share is computed with
// both, and the less is taken.
//
// The share is 1 where no step is hotter than [Exposure.Unharmed], and does not
// fall below that of the annealed metal. Bearing yield strength keeps the share
// of the yield strength, shear and ultimate bearing strength that of the
// ultimate; modulus and other properties keep all. A user's material keeps all
// up to [Material.UpTo]. What ageing may add is left out.
//
// It is refused with [margin.Form] and [margin.MissingProperty] as by
// [Material.At], with [margin.Exposure] where a step, however short, is hotter
// than [Exposure.Hottest], and with [margin.NotANumber] where a step is no
// finite time from 0 up at a finite temperature above absolute zero. The notes
// are those of the material, and [margin.RememberedStrength] where something is
// lost by points from memory.
func (m *Material) Kept(p Property, exposure []Heat) Reading {
	v, ok := m.Value(p)
	switch {
	case !m.Form.HoldsPressure():
		return refused(margin.Form)
	case !ok:
		return refused(margin.MissingProperty)
	}
	x, unharmed, hottest := m.Exposure(), m.UpTo, m.UpTo
	if x != nil {
		unharmed, hottest = x.Unharmed, x.Hottest
	}
	var theta [2]float64
	reason := margin.None
	for _, h := range exposure {
		switch {
		case !(h.Temperature > 0 && h.Time >= 0) || math.IsInf(float64(h.Temperature), 0) || math.IsInf(float64(h.Time), 0):
			return refused(margin.NotANumber)
		case h.Temperature <= unharmed+rounding || h.Time == 0:
		case h.Temperature > hottest+rounding:
			reason = margin.Exposure
		default:
			for i, q := range x.Activation {
				theta[i] += equivalent(q, h)
			}
		}
	}
	f := p.info().follows
	out := Reading{SI: 1, Notes: m.notes(p, v)}
	if !p.IsStrength() {
		return out
	}
	if reason != margin.None {
		return refused(reason)
	}
	if theta[0] == 0 {
		return out
	}
	for i, t := range theta {
		out.SI = min(out.SI, shareAt(x.curves[f][i], math.Log(t)))
	}
	if out.SI < 1 && slices.ContainsFunc(x.losses[f], func(l Loss) bool { return l.Status != Seen }) {
		out.Notes |= margin.Of(margin.RememberedStrength)
	}
	return out
}

// shareAt reads a curve: 1 before its first point, level after its last.
func shareAt(curve []kept, at float64) float64 {
	i := slices.IndexFunc(curve, func(k kept) bool { return at < k.at })
	switch {
	case i == 0:
		return 1
	case i < 0:
		return curve[len(curve)-1].share
	}
	a, b := curve[i-1], curve[i]
	// Once more the bounds: rounding must not let a longer time keep more.
	return min(a.share, max(b.share, a.share+(at-a.at)/(b.at-a.at)*(b.share-a.share)))
}
