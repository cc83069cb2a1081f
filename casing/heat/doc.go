// Package heat computes how hot the wall, the liner and the ends of a motor
// get, and when: while it burns, and while the heat that is left soaks through
// afterwards.
//
// Half-way along the motor heat flows outwards through liner, gaps and tube
// alone: a column of nodes, cylindrical. At each end a second network follows
// the end along its axis: its own hot face, with a cover or without, its body,
// the tube round it, and the tube beyond, which far away is as the column says.
// Every network is a set of heat capacities joined by conductances, which lose
// and gain heat by films at their surfaces:
//
//	C dT/dt = Σ G (T' − T) + Σ A [h (T_∞ − T) + ε σ (T_∞⁴ − T⁴)]
//
// It is integrated by TR-BDF2 (Bank and others, IEEE Trans. Electron Devices
// 32 (1985) 1992; as a Runge–Kutta method: Hosea and Shampine, Appl. Numer.
// Math. 20 (1996) 21): implicit, of second order in time, stable for steps of
// any length, and conserving: what the films bring is what the nodes hold.
//
// A [Fitting] finds the two numbers that are known least, the film of the gas
// and the conductivity of the liner, from what a test measured; see [Fitted] for
// how far it can.
//
// What is left out: properties that change with temperature; a liner that
// chars, melts or wears away (heat that this takes up would cool the wall, the
// thickness that it takes would heat it); heat along the motor half-way; the
// way from the middle of an end to its rim. All is in SI units.
package heat
