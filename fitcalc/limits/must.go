package limits

import "example.com/seatline/fitcalc/measure"

// The functions of this file are for constants and tests: what they read stands in the program, so that an error in it is one of the
// program's and they panic. What comes from outside is for the parsers beside them, which return the error.

// MustParseDim is [ParseDim] for a text that stands in the program; it panics where that is no dimension.
func MustParseDim(s string) measure.Dim { return must(ParseDim(s)) }

// MustParseClass is [ParseClass] for a text that stands in the program; it panics where that is no class.
func MustParseClass(s string) Class { return must(ParseClass(s)) }

// MustParseGeneral is [ParseGeneral] for a text that stands in the program; it panics where that is no class of ISO 2768-1.
func MustParseGeneral(s string) GeneralClass { return must(ParseGeneral(s)) }

// MustParseFit is [ParseFit] for a text that stands in the program; it panics where that is no fit.
func MustParseFit(s string) Fit { return must(ParseFit(s)) }

// must panics with the error itself, which names the text and what is wrong with it.
func must[T any](value T, err error) T {
	if err != nil {
		panic(err)
	}
	return value
}
