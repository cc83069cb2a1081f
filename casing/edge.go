package casing

import (
	"math"

	"casewright/margin"
	"casewright/quantity"
)

// EndBending checks that what the wall yields beside an end at the first
// pressure it does not yield again, unit 1: the von Mises stress where the
// pressure stops and the screws pull, over the yield strength. Source: beam on
// an elastic foundation; ASME VIII-2 5.5.6 for the limit.
var EndBending = margin.Method{
	ID: "tube.end_bending", Title: "bending of the wall beside the end", Part: "the tube end goes on yielding, pressure after pressure", Key: "tube.wall",
	Source: "Hetényi, Beams on Elastic Foundation; Timoshenko, Plates and Shells, art. 114 and 115; ASME VIII-2 5.5.6, from memory: range of primary and secondary stress at most 3 S = min(2 F_ty, 1.25 F_tu), twice yield for ductile metals",
	Range:  "thin elastic tube, long beyond its seal, held evenly all round, free to turn at the screws, the load in the middle of the wall; below tube.yield's own pressure; the pressure's own push on the bore is in tube.yield",
	Why: "Pressure swells the tube up to its seal, while beyond it nothing pushes and the screws hold the wall back, so the wall bends there. " +
		"It may yield a little once and settle; above the limit each firing bends it further.",
	Kind: margin.AtMost, Mode: margin.Yields, Unit: quantity.KindRatio,
	Value: "c_e p (D_b,max + t_min)/(2 t_min)/F_ty", Limit: "min(2, 1.25 F_tu/F_ty)",
	Readings: []margin.Reading{{
		Name:    "wall built in at the screws, the most it can be",
		Formula: "(1/2 + √3 (1 − ν/2)/√(1 − ν²)) √(1 − ν + ν²) p (D_b,max + t_min)/(2 t_min)/F_ty",
		Of:      margin.OfValue, Source: "Timoshenko, Plates and Shells, art. 115: M = p/(2 β²) (1 − ν/2)",
	}},
	Symbols: []margin.Symbol{
		margin.EdgeFactor.At(margin.Greatest), margin.Pressure.At(margin.Only), margin.Bore.At(margin.Greatest), margin.Wall.At(margin.Least),
		margin.TubeYield.At(margin.Only), margin.TubePoisson.At(margin.Only), margin.TubeUltimate.At(margin.Only),
	},
	Eval: func(v *margin.Values) (float64, float64) {
		return float64(EndBendingStress(quantity.Pressure(v[1]), quantity.Length(v[2]), quantity.Length(v[3]), v[0])) / v[4], twiceYield(v[4], v[6])
	},
	Remark: func(v *margin.Values, value float64) margin.Notes {
		if value > 1 && value <= twiceYield(v[4], v[6]) {
			return margin.Of(margin.LocalYield)
		}
		return 0
	},
	GivesWay: func(v *margin.Values, limit float64, _ bool) float64 {
		return limit * v[4] / float64(EndBendingStress(1, quantity.Length(v[2]), quantity.Length(v[3]), v[0]))
	},
}

// EndBendingStress returns the largest von Mises stress in the wall beside an
// end, in Pa.
//
//	σ = c_e p (D_b + t)/(2 t)
//
// p: inside pressure, gauge, Pa. bore D_b and wall t: m, t above 0. factor:
// c_e of [EndBendingFactor], unit 1. Source: definition of the factor.
func EndBendingStress(p quantity.Pressure, bore, wall quantity.Length, factor float64) quantity.Pressure {
	d, t := float64(bore), float64(wall)
	return quantity.Pressure(factor * float64(p) * (d + t) / (2 * t))
}

// Decay returns β, by which bending dies out along a tube as e^(−βx), in 1/m.
//
//	β⁴ = 3 (1 − ν²)/(R² t²),  R = (D_b + t)/2
//
// bore D_b and wall t: m, above 0. nu: Poisson's ratio, unit 1, in [0, 0.5].
// Source: Timoshenko, Plates and Shells, art. 114.
func Decay(bore, wall quantity.Length, nu float64) float64 {
	d, t := float64(bore), float64(wall)
	return math.Sqrt(math.Sqrt(3*(1-nu*nu)) / ((d + t) / 2 * t))
}

// BuiltInFactor returns the factor c_e of a wall that is built in where the
// pressure begins, unit 1: no other way of holding it bends it more.
//
//	c = (1/2 + √3 (1 − ν/2)/√(1 − ν²)) √(1 − ν + ν²)
//
// nu: Poisson's ratio, unit 1, in [0, 0.5]. Source: Timoshenko, Plates and
// Shells, art. 115, M = p/(2 β²) (1 − ν/2) with the stress 6 M/t² beside the
// axial p R/(2 t).
func BuiltInFactor(nu float64) float64 {
	return (0.5 + math.Sqrt(3)*(1-nu/2)/math.Sqrt(1-nu*nu)) * math.Sqrt(1-nu+nu*nu)
}

const (
	// leastEdge is the least β e of [EndBendingFactor]: two supports closer than
	// that cannot be told apart with float64.
	leastEdge = 1e-3
	// farEdge is the β e at which a farther end is taken. Up to it the factor
	// falls; beyond it falls and swings about its limit, at most 3.6 % lower.
	farEdge = 1.5
	// swing is how far the factor may rise again above that of the step of the
	// pressure alone as β c grows, 0.3 %, and some more.
	swing = 1.005
)

// EndBendingFactor returns c_e: the largest von Mises stress at either surface
// of the wall beside an end, over p D_m/(2 t), unit 1.
//
// The wall is a strip on an elastic foundation, free at the tube's end x = 0
// and long. The end load enters at the row of screws, x = e; the pressure
// begins at the far wall of the groove that seals, x = e + c. The worst of
// three is taken: nothing holds the wall; the screws hold it at the row; they
// hold it and its end lies on the plug. An end farther than 1.5/β is taken
// there, and the factor never below 1.005 that of the step of the pressure
// alone, so that more room never bends the wall more.
//
// edge: β e, unit 1, at least 0.001; toGroove: β c, unit 1, at least 0; β is
// that of [Decay]. nu: Poisson's ratio, unit 1, in [0, 0.5]. Outside it is
// NaN. Against finite elements, stress linear through the wall, it reads 2 to
// 9 % high, and 22 % for a wall of R/t = 9 that is held 2 mm from its groove.
// Not in it is the pressure's own push on the bore: in the metal at the bore
// the largest von Mises stress is up to 1 % higher at R/t = 16 and 5 % at 9,
// where neither support bites.
// Source: Hetényi, Beams on Elastic Foundation, semi-infinite beams by
// superposition; the three cases are ours.
func EndBendingFactor(edge, toGroove, nu float64) float64 {
	if !(edge >= leastEdge && edge <= math.MaxFloat64 && toGroove >= 0 && toGroove <= math.MaxFloat64 && nu >= 0 && nu <= 0.5) {
		return math.NaN()
	}
	edge, toGroove = min(edge, farEdge), min(toGroove, reach)
	s := strip{edge: edge, toGroove: toGroove, nu: nu, e: wave(edge), c: wave(toGroove)}
	most := swing * swing * s.step()
	for _, h := range [...]held{free, atRow, atRowAndEnd} {
		most = max(most, s.largest(h))
	}
	return math.Sqrt(most)
}

// EndBendingFactors returns c_e at nominal sizes, and the least and the
// greatest that the tolerances allow, unit 1: the greatest where wall and bore
// are greatest, and edge and toGroove least. bore D_b, wall t, edge e (screws
// to the tube's end) and toGroove c (screws to the far wall of the last
// groove) are in m. nu: Poisson's ratio of the tube, unit 1. NaN where any is
// outside the range of [EndBendingFactor]. Source: see there.
func EndBendingFactors(bore, wall, edge, toGroove margin.Span, nu float64) margin.Span {
	at := func(tube, room margin.End) float64 {
		beta := Decay(quantity.Length(bore[tube]), quantity.Length(wall[tube]), nu)
		return EndBendingFactor(beta*edge[room], beta*toGroove[room], nu)
	}
	return margin.Span{at(margin.Only, margin.Only), at(margin.Least, margin.Greatest), at(margin.Greatest, margin.Least)}
}

// held says how a wall is held near its end.
type held uint8

const (
	free        held = iota // by nothing
	atRow                   // not to move out at the row
	atRowAndEnd             // and not to move in at the tube's end
)

// A strip of the wall, lengths in 1/β. Its deflection y, in p R²/(E t), obeys
// y⁗ + 4 y = 4 f, where f is the growth that pressure and end load alone would
// give: 0 up to the row, −ν/2 up to the groove, 1 − ν/2 beyond. Any piece of
// the solution is the real part of a multiple of e^(±(1+i)x), whose second
// derivative is 2i times itself: one complex number w tells y = f + Re w and
// y″ = −2 Im w.
type strip struct {
	edge, toGroove, nu float64
	e, c               complex128 // wave(edge), wave(toGroove)
}

// wave is e^(−(1+i)x): what is left of a disturbance of 1 at a distance x.
func wave(x float64) complex128 {
	sin, cos := math.Sincos(x)
	d := math.Exp(-x)
	return complex(d*cos, -d*sin)
}

// largest returns the square of the factor.
func (s strip) largest(h held) float64 {
	// In an endless strip a step of the load by a sends −a/2 to the right and
	// a/2 to the left; a force sends (1 + i) times itself both ways.
	row, groove := complex(-s.nu/2, 0)/2, complex(0.5, 0)
	back := s.e * (row + groove*s.c) // at x = 0, from both steps
	end := reflect(back, h)
	if h != free {
		// A force at the row takes the deflection there back to 0.
		atRow := end*s.e + groove*s.c + row
		unit := (1 + 1i) + reflect((1+1i)*s.e, h)*s.e
		force := complex(-real(atRow)/real(unit), 0) * (1 + 1i)
		end += reflect(force*s.e, h)
		return s.peaks(end, force)
	}
	return s.peaks(end, 0)
}

// step returns the square of the factor where only the step of the pressure
// bends the wall, all else being far: the worst place lies under the pressure.
func (s strip) step() float64 { return s.stretch(0.5, 1-s.nu/2, -0.5, 0, reach) }

// reflect returns the wave that the end sends back so that it carries no
// moment, and no force or, where it is held, no deflection.
func reflect(in complex128, h held) complex128 {
	moment := imag(in) // y″ = −2 Im w
	if h == atRowAndEnd {
		return complex(-real(in), -moment)
	}
	// The slope of y″ is 2 (Re + Im) of a wave to the right and −2 (Re + Im)
	// of one to the left.
	return complex(real(in)+2*moment, -moment)
}

// peaks searches the three pieces of the strip.
func (s strip) peaks(end, force complex128) float64 {
	row, groove := complex(-s.nu/2, 0)/2, complex(0.5, 0)
	right := end*s.e - row + force // leaves the row to the right
	return max(
		s.stretch(0, 0, end, (row+force+groove*s.c)*s.e, s.edge),
		s.stretch(0.5, -s.nu/2, right, groove*s.c, s.toGroove),
		s.stretch(0.5, 1-s.nu/2, right*s.c-groove, 0, reach),
	)
}

// reach is the distance, in 1/β, at which a disturbance has died out: 1/55 of
// it is left. A groove farther than that from the screws bends no more than
// the step of its pressure alone.
const reach = 4

// steps are the parts of a stretch at whose ends the stress is computed.
const steps = 32

// stretch returns the largest square of the factor on a stretch of the strip;
// a parabola through the largest of its points and their neighbours gives what
// lies between. n is the axial stress over p D_m/(2 t), y the growth that the
// load alone would give; out and in are, at the beginning of the stretch, the
// waves that die out and that grow along it.
func (s strip) stretch(n, y float64, out, in complex128, length float64) float64 {
	fade := wave(length / steps)
	grow := 1 / fade
	bend := math.Sqrt(0.75 / (1 - s.nu*s.nu)) // bending stress over y″
	var most float64
	var last, before [2]float64
	for i := range steps + 1 {
		w := out + in
		b, hoop := -2*imag(w)*bend, y+real(w)+s.nu*n
		for k, side := range [...]float64{b, -b} {
			axial, around := n+side, hoop+s.nu*side
			v := axial*axial - axial*around + around*around
			most = max(most, v)
			if i >= 2 && last[k] >= before[k] && last[k] >= v {
				if curve := 2*last[k] - before[k] - v; curve > 0 {
					slope := v - before[k]
					most = max(most, last[k]+slope*slope/(8*curve))
				}
			}
			before[k], last[k] = last[k], v
		}
		out *= fade
		in *= grow
	}
	return most
}
