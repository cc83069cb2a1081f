// Package bench is what the hands need: the sheet of each part for the machine
// shop, what to measure of a part that comes in, and the steps from a box of
// parts to a case that has been proof-tested.
//
// [HoleRows] tells where the holes go on the tube, on the outside that [OuterOf]
// or the micrometer gives it, [StripOf] and [RingOf] how they get there. [Parts]
// tells what to make and to buy, [Inspection] what to measure and how much each
// tolerance costs, [Assembly] what to do in which order. All three give content
// alone; how it looks is for others. Sizes stand as the design file has them,
// exact, in its units.
//
// What is not of the design file says where it comes from: a standard, seen or
// from memory, or common practice, which has no source.
package bench
