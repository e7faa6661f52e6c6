package catalog

import (
	"cmp"
	"maps"
	"math"
	"slices"
	"strconv"
)

func abs(x float64) float64 { return math.Abs(x) }

// roundTo rounds to a number of decimals.
func roundTo(x float64, decimals int) float64 {
	scale := math.Pow10(decimals)
	return math.Round(x*scale) / scale
}

func trimFloat(x float64) string { return strconv.FormatFloat(roundTo(x, 4), 'f', -1, 64) }

func sortedKeys[K cmp.Ordered, V any](m map[K]V) []K { return slices.Sorted(maps.Keys(m)) }
