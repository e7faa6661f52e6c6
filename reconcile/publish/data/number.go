package data

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

// mm returns a length as a decimal of millimetres, from the exact count and not by way of floating point.
func mm(l measure.Length) json.Number {
	text, _ := l.FormatMillimetres(decimalsMM)
	return plain(text)
}

// inch returns a length as a decimal of inches.
func inch(l measure.Length) json.Number {
	text, _ := l.FormatInches(decimalsIn)
	return plain(text)
}

// plain drops zeros after the point that say nothing.
func plain(text string) json.Number {
	if strings.Contains(text, ".") {
		text = strings.TrimSuffix(strings.TrimRight(text, "0"), ".")
	}
	return json.Number(text)
}

// ratio returns a probability or share with six significant digits: more would be noise that differs between machines. A share
// however small stays above 0.
func ratio(x float64) json.Number {
	return json.Number(strconv.FormatFloat(x, 'g', 6, 64))
}

// minutes returns a time to a hundredth of a minute.
func minutes(x float64) json.Number { return plain(strconv.FormatFloat(x, 'f', 2, 64)) }
