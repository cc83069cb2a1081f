// Package casing answers for the tube: what pressure does to its wall, at
// what pressure it bursts, what the screw holes leave of its section, and how
// much its bore grows.
//
// A closed tube of bore radius R_i and outside radius R_o under gauge pressure
// p, k = R_o/R_i, carries at its bore (Lamé)
//
//	hoop    p (k² + 1)/(k² − 1)
//	axial   p/(k² − 1)
//	radial  −p
//
// and the end load F = p π/4 D_b² on the full bore. Wall and bore are taken at
// their worst: the thinnest wall at the largest bore. Sources: Timoshenko,
// Strength of Materials II, thick cylinders; Faupel 1956, Turner and Svensson
// 1958 for burst; EN 1999-1-1 6.2.3 for the net section.
package casing
