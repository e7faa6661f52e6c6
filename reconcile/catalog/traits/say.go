package traits

import (
	"math"
	"strconv"
)

// roundTo rounds to a number of decimals.
func roundTo(x float64, decimals int) float64 {
	scale := math.Pow10(decimals)
	return math.Round(x*scale) / scale
}

func TrimFloat(x float64) string { return strconv.FormatFloat(roundTo(x, 4), 'f', -1, 64) }

// UnitName is how a sentence calls a unit.
func UnitName(unit string) string {
	if unit == "in" {
		return "inches"
	}
	return unit
}

// SayMM writes a size in mm for people, to three significant digits or the micrometre.
func SayMM(x float64) string { return TrimFloat(roundTo(x, 3)) + " mm" }
