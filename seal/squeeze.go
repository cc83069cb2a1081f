package seal

import (
	"math"

	"casewright/quantity"
)

// Squeeze returns by what share of its section a ring is squeezed, unit 1.
//
//	S = 1 − (D_b − D_g)/2/CS
//
// bore, groove: diameters between which the ring lies, m. section: CS, m,
// above 0. Negative: the ring does not touch. Source: definition.
func Squeeze(bore, groove, section quantity.Length) float64 {
	return 1 - float64(bore-groove)/2/float64(section)
}

// SqueezeOffset returns the squeeze where the end lies to the other side of
// the bore, under pressure and at temperature; unit 1.
//
//	S = 1 − ((D_b − D_g)/2 + δ + 2 u + 2 u_T)/CS
//
// bore, groove: diameters, m. opening: δ + 2 u + 2 u_T, m, at least 0: the bore
// grows away from the ring by u, and the end may follow it to the other side
// by as much. section: CS, m, above 0. Source: definition; MIL-G-5514 asks
// that squeeze stays positive after all of these.
func SqueezeOffset(bore, groove, opening, section quantity.Length) float64 {
	return 1 - (float64(bore-groove)/2+float64(opening))/float64(section)
}

// Stretched returns the section of a ring stretched over its groove, in m.
//
//	CS_e = CS/√(1 + s),  s = max(0, (D_g − ID)/ID)
//
// section: CS, groove: D_g, inside: ID, all m, ID above 0. At 5 % stretch a
// seal maker's fit loses about one point more than this.
// Source: constant volume of the rubber.
func Stretched(section, groove, inside quantity.Length) quantity.Length {
	s := math.Max(0, float64(groove-inside)/float64(inside))
	return section / quantity.Length(math.Sqrt(1+s))
}

// Stretch returns the stretch of a ring over its groove, unit 1; negative
// where the ring is loose.
//
//	s = (D_g − ID)/ID
//
// groove: D_g, inside: ID, both m, ID above 0. Source: definition.
func Stretch(groove, inside quantity.Length) float64 {
	return float64(groove-inside) / float64(inside)
}

// Fill returns the share of the groove that the ring takes, hot and swollen,
// unit 1.
//
//	π/4 CS² (1 + ψ) (1 + 3 α_r ΔT)/(w (D_b − D_g)/2)
//
// section: CS, width: w, bore and groove: diameters, all m; where they leave
// no room the result is +Inf. swell: ψ, by volume, unit 1, at least 0. heat:
// α_r ΔT, linear strain, unit 1.
// Source: ratio of sections; linear strain taken three times, by volume.
func Fill(section quantity.Length, swell, heat float64, width, bore, groove quantity.Length) float64 {
	if width <= 0 || bore <= groove {
		return math.Inf(1)
	}
	ring := math.Pi / 4 * float64(section) * float64(section) * (1 + swell) * (1 + 3*heat)
	return ring / (float64(width) * float64(bore-groove) / 2)
}

// HeatOpening returns the growth of the radial gap by heat, in m, at least 0.
//
//	u_T = max(0, (α_t ΔT_t D_b − α_e ΔT_e D_p)/2)
//
// tube, end: thermal strain α ΔT from 20 °C of tube and end, unit 1. bore,
// outside: diameters of bore and end, m. Source: linear expansion.
func HeatOpening(tube, end float64, bore, outside quantity.Length) quantity.Length {
	return quantity.Length(math.Max(0, (tube*float64(bore)-end*float64(outside))/2))
}

// Mouth returns the diameter of the lead-in at the tube's end, in m.
//
//	D_b + 2 l_i tan θ
//
// bore: D_b, leadIn: length of the chamfer along the axis, both m. angle: of
// the chamfer to the axis, rad, in (0, π/2). Source: geometry.
func Mouth(bore, leadIn quantity.Length, angle quantity.Angle) quantity.Length {
	return bore + 2*leadIn*quantity.Length(math.Tan(float64(angle)))
}
