package verification

import (
	"math"

	"casewright/closure"
	"casewright/margin/reference"
	"casewright/quantity"
)

var (
	plates = []string{"end.plate", "end.plate_ultimate"}
	lips   = []string{"end.land", "end.shoulder_shear"}
)

func plate(r *reference.Row, across, port quantity.Length, factor float64) float64 {
	return float64(closure.PlateStress(pressure(r, "p"), across, port, length(r, "h"), r.Of("nu"), factor))
}

func plateAcross(name string) Number {
	return Number{plates, func(r *reference.Row) float64 { return plate(r, length(r, name), 0, 1) }}
}

var closureNumbers = map[string]Number{
	"centre stress, pressure on the full face": plateAcross("OD"),
	"centre stress, pressure inside a seal":    plateAcross("OD"),
	"plate theory, pressure on the full face":  plateAcross("OD"),
	"plate theory, seal taken as the support":  plateAcross("seal"),
	"centre stress of a solid plate":           {plates, func(r *reference.Row) float64 { return plate(r, 2*length(r, "a"), 0, 1) }},
	"centre stress by the whole load": {plates, func(r *reference.Row) float64 {
		const radius = 1
		p := quantity.Pressure(r.Of("W") / math.Pi / (radius * radius))
		return float64(closure.PlateStress(p, 2*radius, 0, length(r, "h"), r.Of("nu"), 1))
	}},
	"moment at the centre over p a²": {plates, func(r *reference.Row) float64 {
		return float64(closure.PlateStress(1, 2, 0, 1, r.Of("nu"), 1)) / 6 // stress is 6 M/h²
	}},
	"edge stress of a plate with an open hole": {plates, func(r *reference.Row) float64 {
		a := length(r, "a")
		return plate(r, 2*a, 2*a/length(r, "a_over_b"), 2)
	}},
	"edge stress of a plate with a plugged port": {plates, func(r *reference.Row) float64 {
		a := length(r, "a")
		return plate(r, 2*a, 2*a*length(r, "b_over_a"), 2)
	}},
	"plastic over elastic bending of a rectangle": {[]string{"end.plate_ultimate"}, func(*reference.Row) float64 {
		return capacityOf(&closure.PlateUltimate) / capacityOf(&closure.Plate)
	}},
	"lip clamped outside, load spread evenly":     {[]string{"end.shoulder_bending"}, lipBending},
	"lip clamped outside, load at its inner edge": {[]string{"end.shoulder_bending"}, lipBending},
	"land clamped at the groove, pressure on its face": {[]string{"end.land_bending"}, func(r *reference.Row) float64 {
		return float64(closure.LandBendingStress(pressure(r, "p"), length(r, "Db"), length(r, "Dg"), length(r, "w")))
	}},
	"ring or groove shear": {lips, func(r *reference.Row) float64 {
		return r.Of("Cf") * float64(closure.LipShear(length(r, "B"), length(r, "t"), pressure(r, "F"))) / r.Of("K")
	}},
	"force on the ring round a rod": {lips, func(r *reference.Row) float64 {
		return float64(closure.LandLoad(pressure(r, "p"), length(r, "D"), length(r, "d")))
	}},
}

func lipBending(r *reference.Row) float64 {
	di := length(r, "Di")
	return float64(closure.LipBending(pressure(r, "p"), di, di, length(r, "Dl"), length(r, "l")))
}
