package settings

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"github.com/pelletier/go-toml/v2/unstable"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
)

// House is the table house: the sizes that the shop calls its own, by kind of club, against which a new supplier's parts are held. A
// size is written with its limits. Diameters are diameters.
//
//	[house.iron]                       # or driver, fairway, hybrid, wedge, putter, chipper
//	hosel_od  = "13.0 mm ±0.1"
//	bore      = "9.50 mm +0.05/-0"     # also bore_depth, hosel_length
//
//	[house.ferrule]
//	bore      = ".368 in ±.001"        # also base_od, top_od, length
type House []Standard

// Standard is one size of the shop's own.
type Standard struct {
	// Category is the word of a kind of club, or ferrule.
	Category string
	// Role is the column that gives the size: hosel_od and so on.
	Role string
	// Size has limits.
	Size measure.Dim
	// Line is where it stands in the file.
	Line int
}

// FerruleStandards is the category of the sizes of ferrules.
const FerruleStandards = "ferrule"

// houseTable is the name of the table that holds a table for each category.
const houseTable = "house"

var (
	headStandards    = []string{"hosel_od", "bore", "bore_depth", "hosel_length"}
	ferruleStandards = []string{"bore", "base_od", "top_od", "length"}
)

// isHouseTable reports whether a table of the file is that of a category.
func isHouseTable(name string) bool {
	category, own := strings.CutPrefix(name, houseTable+".")
	return own && standardsOf(category) != nil
}

// standardsOf are the sizes that a category may have, nil for what is none.
func standardsOf(category string) []string {
	if category == FerruleStandards {
		return ferruleStandards
	}
	if kind, known := fitcalc.ParseCategory(category); known && kind != fitcalc.AnyCategory {
		return headStandards
	}
	return nil
}

// houseKey returns the key below the table house, and false for a key of anything else.
func houseKey(table, key string) (string, bool) {
	if table != "" {
		key = table + "." + key
	}
	return strings.CutPrefix(key, houseTable+".")
}

// set adds a size: key is the category and the role, with a point between. It returns what is wrong, and what to do about it.
func (h *House) set(key string, line int, value *unstable.Node) (advice string, problem error) {
	category, role, _ := strings.Cut(key, ".")
	known := standardsOf(category)
	switch {
	case known == nil:
		return "write house.iron, house.driver and so on, or house.ferrule", errors.New("there is no kind of club of this name")
	case !slices.Contains(known, role):
		if near := nearestOf(role, known); near != "" {
			return "did you mean " + near + "?", errors.New("there is no such size")
		}
		return "the sizes are " + strings.Join(known, ", "), errors.New("there is no such size")
	case value.Kind != unstable.String:
		return `write a size with its limits in quotes, such as "13.0 mm ±0.1"`, errors.New("is not a text")
	}
	text := string(value.Data)
	size, err := measure.ParseDim(text)
	switch {
	case err != nil:
		return `write a size with its limits, such as "13.0 mm ±0.1"`, err
	case !size.HasLimits():
		return `write what the shop accepts, such as "13.0 mm ±0.1"`, fmt.Errorf("%q has no limits", text)
	case size.Lower().Sign() <= 0:
		return "", fmt.Errorf("%q is no size of a part", text)
	}
	*h = append(*h, Standard{Category: category, Role: role, Size: size, Line: line})
	return "", nil
}

// Of returns the shop's own size of a category and column, and false where it has none.
func (h House) Of(category, role string) (Standard, bool) {
	for _, s := range h {
		if s.Category == category && s.Role == role {
			return s, true
		}
	}
	return Standard{}, false
}
