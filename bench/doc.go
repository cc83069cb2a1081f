// Package bench is what the hands need of a design: where the holes go on the
// tube, as angles, arcs and chords, and on a strip of paper wrapped round it;
// and the ring through which they are drilled. It computes sizes; package
// drawing draws them.
package bench
