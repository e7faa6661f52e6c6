package measure

// The functions of this file are for constants and tests: what they read stands in the program, so that an error in it is one of the
// program's and they panic. What comes from outside is for the parsers beside them, which return the error.

// MustParseLength is [ParseLength] for a text that stands in the program; it panics where that is no length.
func MustParseLength(s string) Length { return must(ParseLength(s)) }

// MustParseDim is [ParseDim] for a text that stands in the program; it panics where that is no dimension.
func MustParseDim(s string) Dim { return must(ParseDim(s)) }

// MustParseAngle is [ParseAngle] for a text that stands in the program; it panics where that is no angle.
func MustParseAngle(s string) Angle { return must(ParseAngle(s)) }

// MustParseTaper is [ParseTaper] for a text that stands in the program; it panics where that is no taper.
func MustParseTaper(s string) Taper { return must(ParseTaper(s)) }

// MustParseReadings is [ParseReadings] for a text that stands in the program; it panics where that are no readings.
func MustParseReadings(s string) []Length { return must(ParseReadings(s)) }

// MustParseUnit is [ParseUnit] for a text that stands in the program; it panics where that is no unit.
func MustParseUnit(s string) Unit { return must(ParseUnit(s)) }

// must panics with the error itself, which names the text and what is wrong with it.
func must[T any](value T, err error) T {
	if err != nil {
		panic(err)
	}
	return value
}
