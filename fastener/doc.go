// Package fastener answers for the row of radial screws and the holes they
// pass: do the screws shear, does the tube bear, do the holes tear out to the
// end of the tube, are they far enough from each other and from the seal.
//
// The end load F spreads over N screws of nominal diameter d; the hardest-
// loaded carries share times the mean, F share/N. It bears on the wall t_b in
// a hole h whose centre stands e from the tube's end, and tears out along two
// planes of length e − h/2. Sources: EN 1993-1-8 (shear factor, pitch),
// MMPDS/MIL-HDBK-5 1.4.7 (bearing at e/D), the tube's material table.
package fastener
