// Package seal answers for the O-rings: how much each is squeezed, stretched
// and heated, whether its groove has room for it, and whether pressure pushes
// it into the gap behind it. The seals are radial and static, in grooves of
// the end.
//
// CS and ID are section and inside diameter of the ring, D_g, D_p and D_b the
// diameters of groove, end and bore, w the width of the groove. A stretched
// ring is thinner, CS_e = CS/√(1 + s) at constant volume. δ is the room by
// which the end may lie to one side, u the growth of the bore under pressure,
// u_T that of the gap by heat. Sources: seal makers' handbooks for the limits,
// MIL-G-5514 for squeeze after all tolerances, geometry for the rest.
package seal
