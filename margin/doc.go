// Package margin holds what all checks of a motor share: the vocabulary of
// quantities, the definition of a method and the outcome of a check.
//
// A [Method] is the one definition of a check: its identity, the printed
// formula, the symbols in it, the source and the plain function that computes
// it. A [Row] says where a method is applied; [Row.Evaluate] picks the end of
// each tolerance that hurts and gives a [Check].
//
// The margin of safety of a strength is
//
//	margin = capacity / (factor × demand) − 1
//
// and that of a limit is value/min − 1 or 1 − value/max; where the limit is 0
// it is value/scale. A margin of 0 passes, everything that is not a number of
// at least 0 does not. Sources: MMPDS 1.5 and NASA-STD-5001 use the same
// definition of the margin of safety; the form for limits is ours.
package margin
