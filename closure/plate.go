package closure

import (
	"math"

	"casewright/quantity"
)

// LargestPort is the largest port over the bore, unit 1, for which
// [PlateStress] is used. Source: finite elements of plates with ports from 0.1
// to 0.8 of the bore, 0.05 to 0.3 of the bore thick, the plug's load on the
// rim: the formula lies from 0.8 % above to 1.6 % below. The limit is ours: a
// port's wall bears pressure as well, see [PortWallStress].
const LargestPort = 0.6

// PlateStress returns the largest bending stress of a simply supported round
// plate under pressure on its full face, in Pa: at the centre of a solid one,
// at the rim of a central port.
//
//	σ = c_p 3/8 p ((3 + ν) (D_b/2)² + (1 − ν) (d_p/2)²)/h²
//
// p: pressure, gauge, Pa. bore: support diameter D_b, the bore of the tube, m.
// port: diameter d_p of a central port, whose plug hangs on its rim with the
// pressure on its own face, m, from 0 to [LargestPort] of the bore; 0 for a
// solid plate. h: thickness, m, above 0. nu: Poisson's ratio, unit 1, in
// [0, 0.5]. cp: 2 with a port, however small, 1 for a solid plate. A solid
// plate above h/D_b = 0.3 is read over 3 % low.
// Source: Timoshenko and Woinowsky-Krieger, Theory of Plates and Shells, art.
// 16 (solid) and art. 17 (annular: the solid plate less the radial moment that
// it would have at the port's rim); Roark table 11.2, cases 1a and 2a together.
func PlateStress(p quantity.Pressure, bore, port, h quantity.Length, nu, cp float64) quantity.Pressure {
	a, b, t := float64(bore)/2, float64(port)/2, float64(h)
	return quantity.Pressure(cp * 3 / 8 * float64(p) * ((3+nu)*a*a + (1-nu)*b*b) / (t * t))
}

// PortWallStress returns the hoop stress at a port's rim from the pressure on
// the port's wall, in Pa: up to where the plug seals there is gas beside it.
//
//	σ = p (D_b² + d_p²)/(D_b² − d_p²)
//
// p: pressure, gauge, Pa. bore D_b, port d_p: m, d_p below D_b. Source: Lamé, a
// ring under inside pressure, as if all of the port's wall bore it.
func PortWallStress(p quantity.Pressure, bore, port quantity.Length) quantity.Pressure {
	b, d := float64(bore*bore), float64(port*port)
	return quantity.Pressure(float64(p) * (b + d) / (b - d))
}

// LipBending returns the bending stress in the lip that holds a nozzle's
// insert, taken as a cantilever strip, in Pa.
//
//	σ = 6 M/l²,  M = p π/4 D_i,max² (D_i,max − D_l)/4/(π D_i,min)
//
// p: pressure, gauge, Pa. diMax, diMin: outside diameter of the insert, dl: inside
// diameter of the lip, l: its thickness, all m. Source: beam bending of a
// strip of the lip; the ring's own stiffness is left out, which is safe.
func LipBending(p quantity.Pressure, diMax, diMin, dl, l quantity.Length) quantity.Pressure {
	force := float64(p) * math.Pi / 4 * float64(diMax) * float64(diMax)
	moment := force * (float64(diMax) - float64(dl)) / 4 / (math.Pi * float64(diMin))
	return quantity.Pressure(6 * moment / (float64(l) * float64(l)))
}

// LipShear returns the load at which the lip shears off round the insert, N.
//
//	F = π D_i l F_su
//
// di: outside diameter of the insert, l: thickness of the lip, both m. fsu:
// shear strength, Pa. Source: shear on a cylinder.
func LipShear(di, l quantity.Length, fsu quantity.Pressure) quantity.Force {
	return quantity.Force(math.Pi * float64(di) * float64(l) * float64(fsu))
}

// LandLoad returns the pressure load on the land behind a groove, in N.
//
//	F = p π/4 (D_b² − D_g²)
//
// p: pressure, gauge, Pa. bore D_b and groove D_g: diameters, m. Source:
// equilibrium of the ring between groove and bore.
func LandLoad(p quantity.Pressure, bore, groove quantity.Length) quantity.Force {
	return quantity.Force(float64(p) * math.Pi / 4 * float64(bore*bore-groove*groove))
}

// LandBendingStress returns the bending stress at the root of the land behind
// a groove, taken as a cantilever strip under pressure, in Pa.
//
//	σ = p (2 D_b³ − 3 D_b² D_g + D_g³)/(4 D_g w²)
//
// p: pressure, gauge, Pa. bore D_b, groove D_g: diameters, w: width of the
// land along the axis, all m. Where w is not above 0 there is no land and the
// stress is +Inf. For a shallow groove it is 3 p (b/w)² with b = (D_b − D_g)/2.
// Source: beam bending, the moment of the pressure on a sector of the ring
// about its root at D_g, W = w²/6 for each length of that root.
func LandBendingStress(p quantity.Pressure, bore, groove, w quantity.Length) quantity.Pressure {
	if w <= 0 {
		return quantity.Pressure(math.Inf(1))
	}
	b, g := float64(bore), float64(groove)
	return quantity.Pressure(float64(p) * (2*b*b*b - 3*b*b*g + g*g*g) / (4 * g * float64(w*w)))
}
