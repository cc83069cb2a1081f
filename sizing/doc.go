// Package sizing answers questions before there is a whole design: how thick
// a wall, how far the holes from the tube end, how many screws, which groove.
//
// It holds no formula of its own. It tries sizes, and asks the very checks of
// casewright.Check at the worst of all tolerances; an answer is the least (or
// greatest) size at which every check that the size can move passes. What is
// known beside it may be little: the checks that need more are left out, and
// the answer says so.
package sizing
