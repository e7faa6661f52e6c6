// Package measure holds the sizes that everything else is computed from: lengths, angles, tapers, and dimensions with
// their limits. It reads them strictly and prints them exactly.
//
// # Storage
//
// A [Length] counts picometres, an [Angle] nanodegrees and a [Taper] parts per billion, in whole numbers. Since an inch is
// exactly 25.4 mm, every size that a caliper shows or a drawing states, in inches, millimetres or fractions of an inch,
// is held without rounding, and so are sums and differences. Sizes are compared as whole numbers: floating-point
// millimetres put about one verdict in two hundred on the wrong side of a limit. What is not held exactly is
// said at the type: 1/1024 in, minutes of arc, a taper per foot.
//
// Areas, volumes, ratios and angles from tangents are floating point, with the unit in the name.
//
// # Not given
//
// A zero [Length] is a length of nothing. What was not given is the zero [Dim], and [Dim.Given] says so. A Dim with a nominal
// size and no limits is a third thing; [Dim.OrPlusMinus] fills the limits in, and the [Origin] remembers it.
//
// # Range
//
// Lengths reach 1 km either way, angles 1,000,000°, tapers 1000 to 1. Parsers refuse what is beyond; sums and constructors
// stop at the end of the range, and [Length.Overflowed] and [Dim.Validate] report it. Nothing wraps around, and no text
// makes a parser panic.
//
// # Reading
//
// [ParseLength], [ParseDim], [ParseAngle] and [ParseTaper] want a number and a unit, and read the ways in which people write
// them: decimal points and commas, fractions, full-width characters, the many signs for minus, inch and diameter. They
// refuse, with a [*ParseError] that quotes the input and the part that was not understood,
//
//   - a number without a unit ([ErrNoUnit]),
//   - 1,250 mm, which may be 1.25 or 1250 ([ErrAmbiguous]); 13,6 mm and 1,250.5 mm can only be one,
//   - 13.6 ±50 µm, which does not say what 13.6 is ([ErrAmbiguous]); 13.6 mm ±50 µm does,
//   - 13.7-13.5 mm, which may be limits or one deviation ([ErrAmbiguous]),
//   - 1/3 in and 0.0000000001 mm, which no count of picometres holds ([ErrInexact]),
//   - exponents, percentages, feet, "max" and "min".
//
// Where the surroundings settle what a text leaves open, such as the unit at the head of a column, a [Notation]
// says so. Where number and unit come from different places, or rounding is wanted, [ParseNumber] and [Number.In] are the
// parts. [FromFloat] takes the number of a spreadsheet cell, which is a double, for the decimal that was typed.
//
// # Printing
//
// String and MarshalText give the shortest exact text in millimetres, degrees or in/in, which the parser reads back to
// the same value. Everything that rounds says so in its name, rounds half to even, and reports whether the text is
// exact: [Length.FormatMillimetres], [Length.FormatInches], [Length.FormatThou], [Length.FormatFraction]. The limits of a
// dimension are rounded inward by [Dim.FormatLimitsMillimetres] and [Dim.FormatLimitsInches], so that a part which meets
// what is printed meets the dimension.
//
// The text of a [Dim] carries its nominal size and limits; its JSON also the [Shape] and [Origin].
//
// # Diameter and side
//
// Growth of a [Taper] is on the diameter. Package measure does not know diameters from radii; who takes a length
// says in its name or its comment which it is.
package measure
