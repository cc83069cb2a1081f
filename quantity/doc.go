// Package quantity holds exact dimensions with tolerances and units, as they are written on a drawing, and the SI types in which
// everything is computed.
//
// A value is written as a size, a unit and, for a length, a tolerance between the two:
//
//	63.5 mm            2.5 in               4.5 MPa      23.6e-6 /K
//	63.5 ±0.1 mm       1/4 in               120 °C       167 W/(m K)
//	57.0 +0/-0.05 mm   2 1/2 ±1/64 in       10 %         15°
//
// In one sentence: a number is digits with an optional point and an optional small power of ten (23.6e-6), or a whole number and a
// fraction whose decimal ends (2 1/2); a tolerance is ± and a number, or two signed deviations in either order with a slash between
// them (+0/-0.05); the unit follows, with or without a space, and may stand after the size too where it is the same.
//
// +- stands for ±, − (U+2212) for -, no-break and thin spaces for a space, and each unit may be written in ASCII: degC for °C, um for
// µm, mm2 for mm², kg/m3 for kg/m³. Both micro signs are accepted. [Units] lists the units of each kind; that one table is read by the
// parser, the errors and the documentation.
//
// A number has at most 15 digits before the point and 22 after it, and a text at most 128 bytes. A decimal comma, a thousands
// separator, other digits than 0 to 9, hexadecimal numbers, NaN and infinity are errors; each [SyntaxError] says what is wrong and,
// where that is known, what to write instead.
//
// An [Amount] is a number and its unit; a [Dimension] is a length and its two deviations. Both are exact decimals, are compared
// exactly, and become a float64 once, correctly rounded: 2.5 in and 63.5 mm are the same number afterwards. Whether a value is
// sensible (a positive wall, a tolerance smaller than its size) is not decided here, with one exception: no temperature lies below
// absolute zero.
package quantity
