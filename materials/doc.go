// Package materials is the table of materials: strengths, stiffness and
// physical properties of the metals that tubes and ends are cut from, how much
// of them is left in the heat, and where each number comes from.
//
// [Lookup] finds a material of the table by its name, such as "6061-T6 drawn
// tube"; [New] makes one of the user's own. [Material.Value] tells a property
// at 20 °C with its source, [Material.At] the property at a temperature,
// [Material.Bearing] the bearing strengths at an edge distance.
//
// # How the numbers are chosen
//
// Strengths are minima where a standard gives any; the basis of each is told.
// Where sources differ the least is taken, and the row names the others. Where
// a strength comes from another product it is scaled, so that the strengths of
// a material belong together. Where no shear strength is published at hand it
// is estimated as F_tu/√3. A number is "seen" where it was read in a secondary
// copy of its source, else "memory": remembered, and to be compared with a
// certificate.
//
// # Heat
//
// A [Retention] is a curve: the ratio of a property at a temperature to that at
// 20 °C. Yield strength and bearing yield strength follow its yield points;
// ultimate, shear and ultimate bearing strength its ultimate points; the
// modulus its own. Between points the ratio is linear, from −40 to 20 °C it is
// 1, and outside the points a property is refused: a guess is worse than no
// answer. Without a curve the values at 20 °C hold to 40 °C, those of a user's
// material as far as the user says. The curves of the aluminium alloys are for
// metal that is hot for at most two hours. What metal has lost for good after
// cooling is another matter: an [Exposure] holds what is published of it, and
// [Material.Kept] tells the share that is left after a history of heat. It errs
// on the low side, far for heat of minutes and hours in 2024-T3 and 7075-T6.
//
// What liners, covers and soft washers are made of is no [Material], for it
// bears no load: a [Layer] has what heat asks for, with the range in which such
// material is met, and a [Washer] the temperature at which it gives way.
//
// # The tables
//
// The numbers stand in materials.csv, curves.csv, exposure.csv, layers.csv and
// washers.csv in this folder, one a row, each with its source. They are read
// once, when first needed. Sources: EN 1999-1-1 and EN 1999-1-2 (Eurocode 9),
// EN 1993-1-2 (Eurocode 3), MIL-HDBK-5J, ASTM and EN product standards, the
// Aluminum Association.
package materials
