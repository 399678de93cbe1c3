// Package unit answers: what did the workshop write, which quantity is it, and how is it printed?
//
// Reading: ParseMass("12.5 kg") and its sisters read stored text, Typed reads what a person types
// into a column whose unit is known. Printing: String gives the stored text, which reads back to
// the same value; Format gives the text for people, in metric or imperial units. Code that does
// not know the type beforehand (the binder, the page) goes by Kind and KindOf.
//
// Every quantity is a type of its own. Continuous ones hold a float64 in coherent SI units (Hours
// holds hours); Length holds whole micrometres and Money the smallest coin, so that sums and
// comparisons of those are exact. A number is made a quantity by multiplying with a unit
// (12.5 * unit.Kilogram) and read through an accessor that names the unit (m.Kilograms()).
//
// Reading is exact: the decimal digits are taken as written, multiplied by the exact value of the
// unit, and rounded once (to the nearest float64, or to the micrometre, half away from zero).
// A decimal point and a decimal comma are both read; "1,886 kg" could be either and is refused.
// Exponents, NaN and Inf are refused, and so are texts above 300 bytes and sizes beyond the
// limit of the kind (9·10^9 m, 9·10^15 coins, 10^15 J, 0 to 10^4 K, else 10^12 in SI units). A unit is always needed in
// stored text, except for Money. A failure is a *ParseError.
//
// Printing as stored text is exact for 0 and for sizes from 10^-100 up to the limit of the kind.
package unit
