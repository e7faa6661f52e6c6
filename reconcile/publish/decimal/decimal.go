// Package decimal writes numbers for other software: decimal, without zeros after the point that say nothing, and the same on all machines.
package decimal

import (
	"encoding/json"
	"strconv"
	"strings"

	"example.com/seatline/fitcalc/measure"
)

// Decimals that carry a length to 0.0001 mm: .000001 in is 0.0000254 mm.
const (
	decimalsMM = 4
	decimalsIn = 6
)

// Millimetres returns a length in millimetres to 0.0001 mm, from the exact count and not by way of floating point.
func Millimetres(l measure.Length) json.Number {
	text, _ := l.FormatMillimetres(decimalsMM)
	return plain(text)
}

// Inches returns a length in inches to .000001 in, from the exact count and not by way of floating point.
func Inches(l measure.Length) json.Number {
	text, _ := l.FormatInches(decimalsIn)
	return plain(text)
}

// Of returns a finite number with at most so many decimals, and never a minus before nothing.
func Of(x float64, places int) json.Number {
	text := strconv.FormatFloat(x, 'f', places, 64)
	if strings.Trim(text, "-0.") == "" {
		text = "0" // and not -0
	}
	return plain(text)
}

// Share returns a probability or share with six significant digits: more would be noise that differs between machines. A share
// however small stays above 0, if need be with an exponent.
func Share(x float64) json.Number {
	return json.Number(strconv.FormatFloat(x, 'g', 6, 64))
}

// plain drops zeros after the point that say nothing.
func plain(text string) json.Number {
	if strings.Contains(text, ".") {
		text = strings.TrimSuffix(strings.TrimRight(text, "0"), ".")
	}
	return json.Number(text)
}
