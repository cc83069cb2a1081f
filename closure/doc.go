// Package closure answers for the ends: the plate of a bulkhead, the threads
// in which the screws bear, the lands between grooves and holes, the room in
// the bore, and the lip that holds a nozzle's insert.
//
// The distance c runs from a screw's centre to the far wall of the last
// groove; L is the thread depth that bears, at most 1.5 d, because a radial
// screw bears near its mouth (the cap is ours). Sources: Timoshenko and
// Roark for the plate, MMPDS 1.4.7 for bearing, shear on the land's root.
package closure
